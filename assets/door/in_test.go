package door

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOnlyOrdinaryFilesAreOpened(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))
	got, err := Read(path, "craft-file.craft", 4)
	require.NoError(t, err)
	require.Equal(t, "mine", string(got))
	_, err = Read(path, "craft-file.craft", 3)
	require.ErrorIs(t, err, ErrTooLong)
	require.ErrorContains(t, err, path)

	var e *Error
	_, err = Open(dir, "craft-file.craft")
	require.ErrorAs(t, err, &e)
	assert.Equal(t, Folder, e.Why)
	_, err = Open(path+"none", "craft-file.craft")
	require.ErrorIs(t, err, fs.ErrNotExist)
	assert.ErrorContains(t, err, "there is no such craft file; check the path")
	if err := os.Symlink(path, path+"link"); err == nil {
		got, err := Read(path+"link", "craft-file.craft", 4)
		require.NoError(t, err, "a link is followed for reading")
		require.Equal(t, "mine", string(got))
	}
}

func TestReadAll(t *testing.T) {
	for n, want := range []int{0, 1, 2, 3, 3, 3} {
		got, err := ReadAll(bytes.NewReader(make([]byte, n)), 3)
		assert.Len(t, got, want)
		assert.Equal(t, n > 3, errors.Is(err, ErrTooLong))
	}
	_, err := ReadAll(iotest.ErrReader(fs.ErrClosed), 3)
	assert.ErrorIs(t, err, fs.ErrClosed)
}

// One run reads nothing that it writes over, writes no two things to one place, and reads standard input once.
func TestOneRun(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.take")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))
	k := &Keeper{In: strings.NewReader("typed"), Out: io.Discard}
	f, err := k.Open(path, "door.take")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	same := []string{path, filepath.Join(dir, ".", "mine.take"), filepath.Join(dir, "other name")}
	require.NoError(t, os.Link(path, same[2]), "a second name for the same file")
	for _, p := range same {
		for _, over := range []bool{false, true} {
			var e *Error
			require.ErrorAs(t, k.Try(p, Out{Over: over}), &e)
			assert.Equal(t, OwnInput, e.Why)
			require.ErrorAs(t, k.Publish(p, Out{Over: over}, func(io.Writer) error { return nil }), &e)
			assert.Equal(t, OwnInput, e.Why)
		}
	}
	require.NoError(t, k.Try(filepath.Join(dir, "x.png"), Out{}))
	var e *Error
	require.ErrorAs(t, k.Try(dir+"/./x.png", Out{Over: true}), &e)
	assert.Equal(t, Twice, e.Why)
	require.NoError(t, k.Try(Dash, Out{}))
	require.ErrorAs(t, k.Try(Dash, Out{}), &e)

	in, err := k.Open(Dash, "door.script")
	require.NoError(t, err)
	got, err := io.ReadAll(in)
	require.NoError(t, err)
	require.Equal(t, "typed", string(got))
	_, err = k.Open(Dash, "craft-file.craft")
	require.ErrorAs(t, err, &e)
	assert.Equal(t, Twice, e.Why)
	assert.ErrorContains(t, err, "is already the script")
	require.Equal(t, "mine", text(t, path))
}

// What waits for a stream that gives nothing is ended by whoever ends the program.
func TestAStreamIsWaitedForNoLongerThanAsked(t *testing.T) {
	r, w := io.Pipe()
	defer w.Close()
	done := make(chan struct{})
	k := &Keeper{In: r, Done: done}
	in, err := k.Open(Dash, "door.script")
	require.NoError(t, err)
	go func() {
		_, _ = io.WriteString(w, "half")
		close(done)
	}()
	got, err := io.ReadAll(in)
	require.ErrorIs(t, err, ErrStopped)
	assert.Contains(t, []string{"half", ""}, string(got))
	require.NoError(t, in.Close())
}
