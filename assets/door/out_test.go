package door

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// text reads a file whole.
func text(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(b)
}

// names are those in a folder.
func names(t *testing.T, dir string) (out []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// rename(2): an existing file is atomically replaced; flush before and after. Stopped after each step, a reader sees the
// whole old or the whole new file.
func TestWrittenAsAWhole(t *testing.T) {
	stop := errors.New("stopped")
	for at, want := range map[step]string{written: "old", synced: "old", renamed: "new", 0: "new"} {
		path := filepath.Join(t.TempDir(), "x.yaml")
		require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
		reached := false
		err := publish(path, Out{Over: true}, func(w io.Writer) error {
			_, err := io.WriteString(w, "new")
			return err
		}, func(s step) error {
			if s == at {
				reached = true
				return stop
			}
			require.Contains(t, []string{"old", "new"}, text(t, path))
			return nil
		})
		if at == 0 {
			require.NoError(t, err)
		} else {
			require.True(t, reached)
			require.ErrorIs(t, err, stop)
		}
		require.Equal(t, want, text(t, path), "stopped after %d", at)
		require.Len(t, names(t, filepath.Dir(path)), 1, "no part is left lying about")
	}
}

// What was half written when the writing failed takes nobody's place.
func TestAFailedWriteLeavesTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.csv")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	bad := errors.New("out of ink")
	err := Publish(path, Out{Over: true}, func(w io.Writer) error {
		_, _ = io.WriteString(w, "half")
		return bad
	})
	require.ErrorIs(t, err, bad)
	require.Equal(t, "old", text(t, path))
	require.Len(t, names(t, filepath.Dir(path)), 1)
}

func TestNewWritesOverNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.yaml")
	// Of many who want one name, one gets it, with all that it wrote.
	var won atomic.Int32
	var wg sync.WaitGroup
	for i := range 20 {
		wg.Go(func() {
			switch err := PublishBytes(path, Out{Private: true}, []byte{byte(i), byte(i)}); {
			case err == nil:
				won.Add(1)
			case !errors.Is(err, fs.ErrExist):
				t.Error(err)
			}
		})
	}
	wg.Wait()
	require.EqualValues(t, 1, won.Load())
	got := text(t, path)
	require.Len(t, got, 2)
	require.Equal(t, got[0], got[1])
	require.Len(t, names(t, filepath.Dir(path)), 1)
	if runtime.GOOS != "windows" {
		st, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, fs.FileMode(0o600), st.Mode().Perm())
	}
}

// What is not private has the rights that the user's umask says (umask(2)), as any file that is made in the same folder; one that is
// written over keeps its own.
func TestRights(t *testing.T) {
	dir := t.TempDir()
	other, err := os.Create(filepath.Join(dir, "other"))
	require.NoError(t, err)
	require.NoError(t, other.Close())
	want, err := os.Stat(other.Name())
	require.NoError(t, err)
	path := filepath.Join(dir, "x.csv")
	require.NoError(t, PublishBytes(path, Out{}, nil))
	st, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, want.Mode(), st.Mode())
	if runtime.GOOS == "windows" {
		return
	}
	require.NoError(t, os.Chmod(path, 0o640))
	require.NoError(t, PublishBytes(path, Out{Over: true}, []byte("new")))
	st, err = os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o640), st.Mode().Perm())
}

// What stands in the way is named, and stays as it is.
func TestWhatStandsInTheWay(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.WriteFile(in("file"), []byte("mine"), 0o600))
	require.NoError(t, os.Mkdir(in("folder"), 0o700))
	if err := os.Symlink(in("file"), in("link")); err != nil {
		t.Skip("no links here: ", err)
	}
	require.NoError(t, os.Symlink(in("nothing"), in("dangling")))
	before := names(t, dir)
	for _, c := range []struct {
		path  string
		over  bool
		why   Why
		asked bool
	}{
		{in("file"), false, There, true},
		{in("folder"), false, Folder, true},
		{in("folder"), true, Folder, true},
		{in("link"), false, Link, true},
		{in("link"), true, Link, true},
		{in("dangling"), false, Link, true},
		{in("dangling"), true, Link, true},
		{in("none/x"), false, NoFolder, true},
		{in("file/x"), true, NoFolder, true},
	} {
		var e *Error
		require.ErrorAs(t, Try(c.path, Out{Over: c.over}), &e, c.path)
		assert.Equal(t, c.why, e.Why, c.path)
		assert.Equal(t, c.asked, e.Asked())
		require.ErrorAs(t, PublishBytes(c.path, Out{Over: c.over}, []byte("new")), &e)
		assert.Equal(t, c.why, e.Why, c.path)
		assert.Contains(t, e.Error(), c.path)
	}
	assert.Equal(t, before, names(t, dir))
	assert.Equal(t, "mine", text(t, in("file")))
	assert.NoFileExists(t, in("nothing"))
	_, err := Create(in("dangling"))
	assert.ErrorContains(t, err, "this is a link")
	_, err = Create(in("file"))
	assert.ErrorIs(t, err, fs.ErrExist)
}

// Of many who edit one file, those alone are told yes who began with what it was.
func TestEditsAreBuiltOnOneAnother(t *testing.T) {
	path := filepath.Join(t.TempDir(), "count")
	require.NoError(t, Edit(path, nil, []byte{0, 0}))
	require.ErrorIs(t, Edit(path, nil, []byte{9}), ErrChanged)
	var yes atomic.Int32
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 40 {
				was, err := os.ReadFile(path)
				if err != nil || len(was) != 2 {
					t.Errorf("a half file: %v %v", was, err)
					return
				}
				n := int(was[0])<<8 | int(was[1]) + 1
				switch err := Edit(path, was, []byte{byte(n >> 8), byte(n)}); {
				case err == nil:
					yes.Add(1)
				case !errors.Is(err, ErrChanged):
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	got := text(t, path)
	require.Equal(t, int(yes.Load()), int(got[0])<<8|int(got[1]), "each accepted edit counted one further")
	require.Positive(t, yes.Load())
}

// A file that is reached by a link is edited where it lies, and the link stays (symlink(7)).
func TestEditKeepsALink(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.yaml"), filepath.Join(dir, "link.yaml")
	require.NoError(t, os.WriteFile(real, []byte("old"), 0o640))
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here: ", err)
	}
	require.NoError(t, Edit(link, []byte("old"), []byte("new")))
	require.Equal(t, "new", text(t, real))
	to, err := os.Readlink(link)
	require.NoError(t, err)
	require.Equal(t, real, to)
	st, err := os.Stat(real)
	require.NoError(t, err)
	require.Equal(t, fs.FileMode(0o640), st.Mode().Perm())
}

// What a killed program left goes at the next writing into the folder; what somebody is at work on stays.
func TestWhatWasLeftIsTakenAway(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{".propsoff-123.part", ".propsoff-9-9.part", "a.part", ".propsoff-x"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("half"), 0o600))
	}
	p, err := newPart(filepath.Join(dir, "x"), 0o600) // takes the two away, and stays itself
	require.NoError(t, err)
	defer p.drop()
	require.ElementsMatch(t, []string{"a.part", ".propsoff-x", filepath.Base(p.path)}, names(t, dir))
	require.NoError(t, PublishBytes(filepath.Join(dir, "y"), Out{}, nil))
	require.Zero(t, Sweep(dir))
	require.FileExists(t, p.path)
}

// The first name that nothing has is taken, and what is there stays; there is an end to it.
func TestTheFirstFreeName(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "card.pdf"), []byte("mine"), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "card-2.pdf"), 0o700))
	for _, want := range []string{"card-3.pdf", "card-4.pdf"} {
		path, err := PublishFree(dir, "card", ".pdf", 4, Out{Over: true}, Bytes([]byte("new")))
		require.NoError(t, err)
		require.Equal(t, filepath.Join(dir, want), path)
	}
	_, err := PublishFree(dir, "card", ".pdf", 4, Out{}, Bytes(nil))
	require.ErrorIs(t, err, errNoName)
	require.ErrorContains(t, err, dir+": there are too many files named card; delete what is not needed")
	require.Equal(t, "mine", text(t, filepath.Join(dir, "card.pdf")))
	_, err = PublishFree(filepath.Join(dir, "gone"), "card", ".pdf", 4, Out{}, Bytes(nil))
	require.ErrorContains(t, err, "there is no such folder to write into")
}
