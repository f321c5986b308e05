package logbook

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestForget(t *testing.T) {
	s := Store{t.TempDir()}
	ann := written(t, s, "Ann", 0, 5)
	written(t, s, "Anne", 0, 2)
	text, err := os.ReadFile(ann.Path())
	require.NoError(t, err)
	for _, name := range []string{"pupil-+ann (copy).jsonl", "pupil-+ann.jsonl~", "kept.txt"} {
		require.NoError(t, os.WriteFile(filepath.Join(s.Dir, name), text, 0o600))
	}
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir, "note.txt"), []byte("Ann is good"), 0o600))
	got, err := s.forget(" Ann")
	require.NoError(t, err)
	require.Len(t, got, 4)
	assert.Equal(t, Deleted{ann.Path(), int64(len(text))}, got[0])
	left, err := os.ReadDir(s.Dir)
	require.NoError(t, err)
	var names []string
	for _, e := range left {
		names = append(names, e.Name())
	}
	assert.Equal(t, []string{"note.txt", "pupil-+anne.jsonl"}, names)
	_, err = s.all("Ann")
	assert.ErrorIs(t, err, ErrNoPupil)
	_, err = s.forget("Ann")
	assert.ErrorIs(t, err, ErrNoPupil)

	// Who still practises as the one deleted brings nothing back, not even when the name is taken anew.
	assert.ErrorIs(t, ann.Append(some(6)), ErrForgotten)
	_, err = os.Lstat(ann.Path())
	assert.ErrorIs(t, err, os.ErrNotExist)
	again, err := s.Open("Ann", begun.Add(time.Nanosecond))
	require.NoError(t, err)
	require.NoError(t, again.Append(some(1)))
	assert.ErrorIs(t, ann.Append(some(7)), ErrForgotten)
	require.NoError(t, ann.Close())
	other := *again
	_, err = s.forget("Ann")
	require.NoError(t, err)
	third, err := s.Open("Ann", begun.Add(2*time.Nanosecond))
	require.NoError(t, err)
	assert.ErrorIs(t, other.Append(some(7)), ErrForgotten)
	require.NoError(t, third.Append(some(2)))
	c, err := s.all("Ann")
	require.NoError(t, err)
	assert.Equal(t, wants(2, 3), bare(c.Entries))
}

// Where a write failed in its middle and cannot be taken back, what is whole is not written twice, and what is torn is written again on a line of its own.
func TestAWriteThatStopsInItsMiddle(t *testing.T) {
	var all []byte
	var ends []int
	for i := range 4 {
		e := some(i)
		var err error
		all, err = appendEntry(all, &e)
		require.NoError(t, err)
		ends = append(ends, len(all))
	}
	s := Store{t.TempDir()}
	for n := range len(all) {
		b, err := s.Open(fmt.Sprint(n), begun)
		require.NoError(t, err)
		f, err := os.OpenFile(b.Path(), os.O_APPEND|os.O_WRONLY, 0)
		require.NoError(t, err)
		_, err = f.Write(all[:n])
		require.NoError(t, err)
		require.NoError(t, f.Close())
		b.waiting, b.held = bytes.Clone(all), 4
		b.passed(n)
		want := 4
		for _, end := range ends {
			if end <= n+1 { // all but the end of the line is enough
				want--
			}
		}
		require.Equal(t, want, b.Waiting(), n)
		require.NoError(t, b.Close())
		c, err := s.all(fmt.Sprint(n))
		require.NoError(t, err)
		require.Equal(t, wants(0, 4), bare(c.Entries), n)
	}
}

// Who has a logbook open by other means finds nothing in it once its pupil is forgotten.
func TestForgottenFilesAreEmpty(t *testing.T) {
	s := Store{t.TempDir()}
	b := written(t, s, "A", 0, 5)
	f, err := os.Open(b.Path())
	require.NoError(t, err)
	defer f.Close()
	_, err = s.forget("A")
	require.NoError(t, err)
	st, err := f.Stat()
	require.NoError(t, err)
	assert.Zero(t, st.Size())
}
