package logbook

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// disk is a small disk of its own, in memory.
func disk(t *testing.T, options string) string {
	dir := filepath.Join(t.TempDir(), "disk")
	require.NoError(t, os.Mkdir(dir, 0o700))
	if err := syscall.Mount("propsoff-test", dir, "tmpfs", 0, options); err != nil {
		t.Skipf("no small disk can be mounted here (%v), so a full and a read-only disk are not tried", err)
	}
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(dir, syscall.MNT_DETACH)) })
	return dir
}

func TestFullDisk(t *testing.T) {
	s := Store{filepath.Join(disk(t, "size=64k,mode=700"), "logbook")}
	b, err := s.Open("A", begun)
	require.NoError(t, err)
	n, failed := 0, 0
	for ; failed < 10; n++ {
		if err := b.Append(some(n)); err != nil {
			require.ErrorIs(t, err, syscall.ENOSPC)
			assert.ErrorContains(t, err, "the disk is full; make room")
			assert.ErrorContains(t, err, "what stands there already is safe")
			failed++
			require.Equal(t, failed, b.Waiting())
		}
		require.Less(t, n, 10_000, "the disk never was full")
	}
	c, err := s.all("A")
	require.NoError(t, err)
	assert.Empty(t, c.Notices)
	assert.Equal(t, wants(0, n-failed), bare(c.Entries))
	assert.Greater(t, len(c.Entries), 50)

	// Another pupil: said at once, before anything is practised.
	_, err = s.Open("B", begun)
	assert.ErrorIs(t, err, syscall.ENOSPC)
	assert.ErrorContains(t, err, "the logbook cannot be written: the disk is full; make room")
	names, _, err := s.Pupils()
	require.NoError(t, err)
	assert.Equal(t, []string{"A"}, names)

	// A pupil can be forgotten on a full disk, and what waits goes out once there is room.
	require.Error(t, b.Close())
	require.NoError(t, syscall.Mount("propsoff-test", filepath.Dir(s.Dir), "tmpfs", syscall.MS_REMOUNT, "size=256k"))
	require.NoError(t, b.Append(some(n)))
	c, err = s.all("A")
	require.NoError(t, err)
	assert.Empty(t, c.Notices)
	assert.Equal(t, wants(0, n+1), bare(c.Entries))
	_, err = s.forget("A")
	require.NoError(t, err)
}

func TestForgetOnAFullDisk(t *testing.T) {
	s := Store{disk(t, "size=16k,mode=700")}
	b, err := s.Open("A", begun)
	require.NoError(t, err)
	for n := 0; err == nil; n++ {
		err = b.Append(some(n))
	}
	require.ErrorIs(t, err, syscall.ENOSPC)
	_, err = s.forget("A")
	require.NoError(t, err)
	assert.ErrorIs(t, b.Close(), ErrForgotten, "what waited is not brought back")
	names, _, err := s.Pupils()
	require.NoError(t, err)
	assert.Empty(t, names)
}

func TestReadOnlyDisk(t *testing.T) {
	dir := disk(t, "size=64k,mode=700")
	s := Store{filepath.Join(dir, "logbook")}
	b := written(t, s, "A", 0, 3)
	require.NoError(t, syscall.Mount("propsoff-test", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""))
	err := b.Append(some(3))
	require.ErrorIs(t, err, syscall.EROFS)
	assert.ErrorContains(t, err, "1 entry is not written yet and kept in memory for the next time; what stands there already is safe: this place can only be read; choose another folder")
	_, err = s.Open("A", begun)
	assert.ErrorIs(t, err, syscall.EROFS)
	_, err = s.Open("B", begun)
	assert.ErrorIs(t, err, syscall.EROFS)
	_, err = Store{filepath.Join(dir, "other")}.Open("B", begun)
	assert.ErrorContains(t, err, "the folder of logbooks cannot be made: this place can only be read; choose another folder")
	written(t, Store{filepath.Join(t.TempDir(), "other")}, "B", 0, 1)
	gone, err := s.forget("A")
	assert.ErrorIs(t, err, syscall.EROFS)
	assert.Empty(t, gone)
	c, err := s.all("A")
	require.NoError(t, err)
	assert.Equal(t, wants(0, 3), bare(c.Entries))
	require.NoError(t, syscall.Mount("propsoff-test", dir, "tmpfs", syscall.MS_REMOUNT, ""))
	require.NoError(t, b.Close())
	c, err = s.all("A")
	require.NoError(t, err)
	assert.Equal(t, wants(0, 4), bare(c.Entries))
	assert.False(t, errors.Is(err, ErrBusy))
}
