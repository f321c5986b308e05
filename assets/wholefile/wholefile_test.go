package wholefile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// rename(2): an existing file is atomically replaced; flush before and after. Stopped after each step, a reader sees the
// whole old or the whole new file.
func TestReplaceIsAtomic(t *testing.T) {
	stop := errors.New("stopped")
	for at, want := range map[step]string{written: "old", synced: "old", renamed: "new", 0: "new"} {
		path := filepath.Join(t.TempDir(), "x.yaml")
		require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
		reached := false
		err := replace(path, whole([]byte("new")), 0o600, func(s step) error {
			if s == at {
				reached = true
				return stop
			}
			got, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Contains(t, []string{"old", "new"}, string(got))
			return nil
		})
		if at == 0 {
			require.NoError(t, err)
		} else {
			require.True(t, reached)
			require.ErrorIs(t, err, stop)
		}
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, want, string(got), "stopped after %d", at)
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		require.Len(t, entries, 1, "no part is left lying about")
	}
}

func TestNewWritesOverNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.yaml")
	// Of many who want one name, one gets it, with all that it wrote.
	var won atomic.Int32
	var wg sync.WaitGroup
	for i := range 20 {
		wg.Go(func() {
			switch err := New(path, []byte{byte(i), byte(i)}, 0o640); {
			case err == nil:
				won.Add(1)
			case !errors.Is(err, fs.ErrExist):
				t.Error(err)
			}
		})
	}
	wg.Wait()
	require.EqualValues(t, 1, won.Load())
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, got[0], got[1])
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 1)
	if runtime.GOOS != "windows" {
		st, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, fs.FileMode(0o640), st.Mode().Perm())
	}
}

func TestNoFolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "no", "x")
	require.ErrorIs(t, Replace(path, nil, 0o600), fs.ErrNotExist)
	require.ErrorIs(t, New(path, nil, 0o600), fs.ErrNotExist)
}

// A file that is reached by a link is written where it lies, and the link stays (symlink(7)).
func TestRewriteKeepsALink(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.yaml"), filepath.Join(dir, "link.yaml")
	require.NoError(t, os.WriteFile(real, []byte("old"), 0o600))
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here: ", err)
	}
	require.NoError(t, Rewrite(link, []byte("new"), 0o600))
	got, err := os.ReadFile(real)
	require.NoError(t, err)
	require.Equal(t, "new", string(got))
	to, err := os.Readlink(link)
	require.NoError(t, err)
	require.Equal(t, real, to)
	require.NoError(t, Rewrite(filepath.Join(dir, "none.yaml"), []byte("first"), 0o600), "where nothing is yet")
}
