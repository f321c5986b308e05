package logbook

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// filled begins a logbook with so many entries, no two the same.
func filled(t *testing.T, s Store, pupil string, from, n int) {
	t.Helper()
	b, err := s.Open(pupil, begun)
	require.NoError(t, err)
	for i := range n {
		require.NoError(t, b.Append(Began(begun.Add(time.Duration(from+i)*time.Second), Practice{Program: fmt.Sprint(from + i)})))
	}
	require.NoError(t, b.Close())
}

// programs are the entries of a pupil in the order of the file.
func programs(t *testing.T, s Store, pupil string) (all []string, c *Contents) {
	t.Helper()
	c, err := s.Read(pupil, func(_ *Contents, e *Entry) error {
		all = append(all, e.Practice.Program)
		return nil
	})
	require.NoError(t, err)
	return all, c
}

func called(t *testing.T, s Store) []string {
	t.Helper()
	all, notices, err := s.Pupils()
	require.NoError(t, err)
	require.Empty(t, notices)
	return all
}

func TestAPupilIsRenamed(t *testing.T) {
	s := Store{Dir: t.TempDir()}
	filled(t, s, "mara", 0, 3)
	require.NoError(t, s.Rename("Mara", "Mara Lindqvist-Weiß", begun.Add(time.Hour)))
	assert.Equal(t, []string{"Mara Lindqvist-Weiß"}, called(t, s))
	all, c := programs(t, s, "mara lindqvist-weiss")
	assert.Equal(t, []string{"0", "1", "2"}, all)
	assert.Equal(t, begun.Unix(), c.Begun.Unix(), "it was begun when it was begun")
	assert.Empty(t, c.Notices)
	traces, err := s.Traces("Mara Lindqvist-Weiß")
	require.NoError(t, err)
	assert.Empty(t, traces.Unjudged, "and is told to be forgotten as any other")

	// Capitals alone.
	require.NoError(t, s.Rename("mara lindqvist-weiß", "MARA", begun))
	require.NoError(t, s.Rename("mara", "Mara", begun))
	require.NoError(t, s.Rename("mara", "Mara", begun), "which it is already")
	assert.Equal(t, []string{"Mara"}, called(t, s))
	all, _ = programs(t, s, "mara")
	assert.Len(t, all, 3)

	filled(t, s, "Ines", 7, 1)
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir, fileName("Late")), []byte(`{"propsoff":"logbook 9","pupil":"Late","begun":"2031-01-01T00:00:00Z"}`+"\n"), 0o600))
	for _, bad := range [][2]string{{"mara", "ines"}, {"nobody", "x"}, {"mara", ""}, {"mara", "a\u202eb"}, {"mara", strings.Repeat("x", 100)}, {"late", "early"}} {
		assert.Error(t, s.Rename(bad[0], bad[1], begun), "%q", bad)
	}
	require.ErrorIs(t, s.Rename("mara", "ines", begun), ErrTaken)
	all, _ = programs(t, s, "mara")
	assert.Len(t, all, 3, "nothing was moved")
}

// Two logbooks become one; what cannot be read moves as it is, and what another program has open it finds gone.
func TestTwoPupilsAreMerged(t *testing.T) {
	s := Store{Dir: t.TempDir()}
	filled(t, s, "Mara", 0, 3)
	filled(t, s, "Mara Lindqvist", 10, 2)
	path := filepath.Join(s.Dir, fileName("Mara"))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	damaged := "this is no entry at all\n"
	require.NoError(t, os.WriteFile(path, append(append(text, damaged...), `{"at":"torn`...), 0o600))
	book, err := s.Open("Mara", begun)
	require.NoError(t, err)

	n, err := s.Merge("mara", "MARA LINDQVIST")
	require.NoError(t, err)
	assert.Equal(t, 5, n)
	assert.Equal(t, []string{"Mara Lindqvist"}, called(t, s))
	all, c := programs(t, s, "Mara Lindqvist")
	assert.Equal(t, []string{"10", "11", "0", "1", "2"}, all)
	assert.Equal(t, 2, c.Damaged)
	now, err := os.ReadFile(c.Files[0])
	require.NoError(t, err)
	assert.Contains(t, string(now), damaged)
	assert.Contains(t, string(now), `{"at":"torn`)
	require.ErrorIs(t, book.Append(Began(begun, Practice{})), ErrForgotten, "nothing is written to what is gone")

	for _, bad := range [][2]string{{"Mara Lindqvist", "mara lindqvist"}, {"x", "Mara Lindqvist"}, {"Mara Lindqvist", "x"}} {
		_, err := s.Merge(bad[0], bad[1])
		assert.Error(t, err, "%q", bad)
	}
}

// Killed at any moment and done again, a merge has every line once: whatever part of what was to be written had been.
func TestAMergeThatWasKilledIsDoneAgain(t *testing.T) {
	s := Store{Dir: t.TempDir()}
	filled(t, s, "A", 0, 4)
	filled(t, s, "B", 10, 2)
	a, err := os.ReadFile(filepath.Join(s.Dir, fileName("A")))
	require.NoError(t, err)
	b, err := os.ReadFile(filepath.Join(s.Dir, fileName("B")))
	require.NoError(t, err)
	body := a[bytes.IndexByte(a, '\n')+1:]
	for cut := 0; cut <= len(body); cut += 7 {
		require.NoError(t, os.WriteFile(filepath.Join(s.Dir, fileName("A")), a, 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(s.Dir, fileName("B")), append(bytes.Clone(b), body[:cut]...), 0o600))
		_, err := s.Merge("A", "B")
		require.NoError(t, err)
		all, _ := programs(t, s, "B")
		seen := map[string]int{}
		for _, p := range all {
			seen[p]++
		}
		assert.Equal(t, map[string]int{"10": 1, "11": 1, "0": 1, "1": 1, "2": 1, "3": 1}, seen, "cut after %d", cut)
	}
	// A rename that was killed after it began the new file goes on.
	filled(t, s, "C", 0, 2)
	require.NoError(t, beginAt(filepath.Join(s.Dir, fileName("D")), "D", begun))
	require.NoError(t, s.Rename("C", "D", begun.Add(time.Hour)))
	all, _ := programs(t, s, "D")
	assert.Equal(t, []string{"0", "1"}, all)
}

// A link, a folder or a pipe in the place of a logbook is refused, and nothing is lost.
func TestWhatIsNoLogbookIsNotMoved(t *testing.T) {
	s := Store{Dir: t.TempDir()}
	filled(t, s, "A", 0, 1)
	require.NoError(t, os.Mkdir(filepath.Join(s.Dir, fileName("B")), 0o700))
	assert.Error(t, s.Rename("A", "B", begun))
	outside := filepath.Join(t.TempDir(), "outside")
	require.NoError(t, os.WriteFile(outside, []byte("mine\n"), 0o600))
	require.NoError(t, os.Symlink(outside, filepath.Join(s.Dir, fileName("C"))))
	assert.Error(t, s.Rename("A", "C", begun))
	_, err := s.Merge("A", "C")
	assert.Error(t, err)
	text, err := os.ReadFile(outside)
	require.NoError(t, err)
	assert.Equal(t, "mine\n", string(text))
	all, _ := programs(t, s, "A")
	assert.Len(t, all, 1)
}
