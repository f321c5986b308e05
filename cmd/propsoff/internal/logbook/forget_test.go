package logbook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"propsoff.example/assets/door"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Everything that is a pupil's is found, nothing of anybody else's, and what cannot be told is named and stays.
func TestTraces(t *testing.T) {
	s := Store{t.TempDir()}
	ann := written(t, s, "Ann", 0, 5)
	text, err := os.ReadFile(ann.Path())
	require.NoError(t, err)
	ben, err := os.ReadFile(written(t, s, "Ben", 0, 2).Path())
	require.NoError(t, err)
	later := []byte("{\"propsoff\":\"logbook 7\",\"pupil\":\"ANN\",\"begun\":\"2039-01-01T00:00:00Z\"}\n{\"kind\":\"sung\"}\nnot JSON\n")
	put := func(name string, text []byte) string {
		path := filepath.Join(s.Dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
		require.NoError(t, os.WriteFile(path, text, 0o600))
		return path
	}
	mine := map[string][2]int{ann.Path(): {5, 0}} // entries and damaged lines
	for name, file := range map[string]struct {
		text             []byte
		entries, damaged int
	}{
		"pupil-ann.jsonl":              {later, 1, 1}, // other letters, a later version
		"pupil-+ann (1).jsonl":         {text, 5, 0},
		"pupil-+ann copy.jsonl":        {text, 5, 0},
		"pupil-+ann.jsonl.bak":         {text, 5, 0},
		".propsoff-123.part":           {text[:len(text)-20], 4, 1},
		"old/deep/pupil-+a+n+n.jsonl":  {later, 1, 1},
		"old/whatever":                 {[]byte("torn\n" + string(later)), 1, 2},
		"old/pupil-ann.jsonl":          {[]byte("\x00\x00\x00no logbook"), 0, 1}, // by its name alone
		"old/with a mark at its start": {[]byte("\ufeff" + string(text)), 5, 0},
	} {
		mine[put(name, file.text)] = [2]int{file.entries, file.damaged}
	}
	for _, name := range []string{"pupil-+ben-2.jsonl", "old/ben.bak"} {
		put(name, ben)
	}
	doubts := map[string]string{
		put("note.txt", []byte("Ann is good")):                                               "no line says that it is a logbook",
		put("old/empty", nil):                                                                "no line says that it is a logbook",
		put("old/both", append(append([]byte{}, text...), ben...)):                           "the logbooks of several pupils",
		put("pupil-+ann-old.jsonl", text):                                                    `its first line names “Ann”, its file name “Ann-old”`, // somebody of this name may have practised since
		put("pupil-+anna.jsonl", []byte("{\"propsoff\":\"logbook 1\",\"pupil\":\"ANN\"}\n")): `its first line names “ANN”, its file name “Anna”`,
	}
	elsewhere := put("../elsewhere.jsonl", text)
	folder := filepath.Dir(put("../folder/pupil-+ann.jsonl", text))
	for link, to := range map[string]string{"link.jsonl": elsewhere, "old/folder": folder} {
		path := filepath.Join(s.Dir, filepath.FromSlash(link))
		require.NoError(t, os.Symlink(to, path))
		doubts[path] = "this is a link, not an ordinary file; it is not read"
	}

	found, err := s.Traces("aNN")
	require.NoError(t, err)
	assert.Equal(t, "Ann", found.Pupil)
	got := map[string][2]int{}
	for _, f := range found.Files {
		got[f.Path] = [2]int{f.Entries, f.Damaged}
		assert.NoError(t, f.Unread)
		assert.Equal(t, f.Path != ann.Path() && filepath.Base(f.Path) != "pupil-ann.jsonl" || strings.Contains(f.Path, "old"), f.Copy, f.Path)
	}
	assert.Equal(t, mine, got)
	assert.Len(t, found.Unjudged, len(doubts))
	for _, n := range found.Unjudged {
		assert.Contains(t, n.Problem().Error(), doubts[n.Path], n.Path)
		assert.NotEmpty(t, doubts[n.Path], n.Path)
	}
	done, failed := found.Delete()
	assert.Empty(t, failed)
	assert.Len(t, done, len(mine))
	for path := range mine {
		assert.NoFileExists(t, path)
	}
	for path := range doubts {
		_, err := os.Lstat(path)
		assert.NoError(t, err, path)
	}
	for _, path := range []string{elsewhere, filepath.Join(folder, "pupil-+ann.jsonl"), filepath.Join(s.Dir, "pupil-+ben.jsonl"), filepath.Join(s.Dir, "pupil-+ben-2.jsonl"), filepath.Join(s.Dir, "old", "ben.bak")} {
		st, err := os.Stat(path)
		require.NoError(t, err)
		assert.NotZero(t, st.Size())
	}
	found, err = s.Traces("Ann")
	assert.ErrorIs(t, err, ErrNoPupil)
	assert.Len(t, found.Unjudged, len(doubts), "told again")
}

// The folder itself may be reached by a link.
func TestTracesInALinkedFolder(t *testing.T) {
	dir := t.TempDir()
	real := Store{filepath.Join(dir, "real")}
	written(t, real, "A", 0, 1)
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(real.Dir, link))
	done, err := Store{link}.forget("A")
	require.NoError(t, err)
	assert.Len(t, done, 1)
}

// Where one file cannot be deleted the others are, and what was not is said.
func TestHalfForgotten(t *testing.T) {
	s := Store{t.TempDir()}
	path := written(t, s, "A", 0, 3).Path()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	var copies []string
	for _, name := range []string{"a", "b", "c"} {
		copies = append(copies, filepath.Join(s.Dir, name))
		require.NoError(t, os.WriteFile(copies[len(copies)-1], text, 0o600))
	}
	found, err := s.Traces("A")
	require.NoError(t, err)
	require.Len(t, found.Files, 4)
	f, err := os.Open(copies[1])
	require.NoError(t, err)
	defer f.Close()
	if held, err := door.Lock(f, time.Second); err != nil || !held {
		t.Skip("no locks here")
	}
	require.NoError(t, os.Remove(copies[2]))
	require.NoError(t, os.Mkdir(copies[2], 0o700))
	done, failed := found.Delete()
	assert.Equal(t, []Deleted{{path, int64(len(text))}, {copies[0], int64(len(text))}}, done)
	require.Len(t, failed, 2)
	assert.ErrorIs(t, failed[0], ErrBusy)
	assert.ErrorContains(t, failed[0], copies[1]+": it cannot be deleted")
	assert.ErrorContains(t, failed[1], copies[2]+": it cannot be deleted: this is a folder")
	st, err := os.Stat(copies[1])
	require.NoError(t, err)
	assert.EqualValues(t, len(text), st.Size())
}

// Whose the file's name and its first line do not agree about is told before anything is deleted; in another folder it is left alone.
func TestAFileThatNamesTwoPupils(t *testing.T) {
	s := Store{t.TempDir()}
	dog := []byte("{\"propsoff\":\"logbook 1\",\"pupil\":\"Dog\",\"begun\":\"2031-04-05T08:20:11Z\"}\n")
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir, fileName("Cat")), dog, 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(s.Dir, "old"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir, "old", fileName("Cat")), dog, 0o600))
	found, err := s.Traces("Cat")
	require.NoError(t, err)
	require.Len(t, found.Files, 1)
	assert.Equal(t, "Dog", found.Files[0].Says)
	require.Len(t, found.Unjudged, 1)
	assert.Contains(t, found.Unjudged[0].Problem().Error(), `its first line names “Dog”, its file name “Cat”`)

	// A file that has come to the place of one that was judged is somebody's too.
	path := found.Files[0].Path
	require.NoError(t, os.Rename(path, path+".old"))
	require.NoError(t, os.WriteFile(path, dog, 0o600))
	done, failed := found.Delete()
	assert.Empty(t, done)
	require.Len(t, failed, 1)
	assert.ErrorContains(t, failed[0], "another file has come to its place meanwhile")
	assert.FileExists(t, path)
}
