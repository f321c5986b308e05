package main

import (
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/door"
	"propsoff.example/cmd/propsoff/internal/logbook"
)

// What may not be read or written may be once its rights are changed, and another place does as well. Root may all, so it is somebody else
// here who asks, on one thread.
func TestRightsThatAreToBeChanged(t *testing.T) {
	open := func(path string) func() error {
		return func() error {
			f, err := door.Open(path, "door.script")
			if err == nil {
				f.Close()
			}
			return err
		}
	}
	diary := func(folder string) func() error {
		return func() error {
			b, err := (logbook.Store{Dir: folder}).Open("Ann", time.Unix(2e9, 0))
			if err == nil {
				err = b.Close()
			}
			return err
		}
	}
	card := func(folder string) func() error {
		return func() error {
			return door.Try(filepath.Join(folder, "card.svg"), door.Out{Over: true})
		}
	}
	base, err := os.MkdirTemp("", "rights")
	require.NoError(t, err)
	t.Cleanup(func() { _ = os.RemoveAll(base) })
	require.NoError(t, os.Chmod(base, 0o777))
	path := func(name string, mode os.FileMode) string {
		p := filepath.Join(base, name)
		if mode.IsDir() {
			require.NoError(t, os.Mkdir(p, 0o700))
			require.NoError(t, os.Chmod(p, mode.Perm()))
			return p
		}
		require.NoError(t, os.WriteFile(p, nil, 0o600))
		require.NoError(t, os.Chmod(p, mode))
		return p
	}
	for _, c := range []struct {
		says  string
		try   func(string) func() error
		place string
		mode  os.FileMode // that it takes
		other string
	}{
		{"this script may not be read; change its permissions, or choose another", open, path("a", 0), 0o644, path("b", 0o644)},
		{"this place may not be written or read; change its rights, or choose another folder", diary, path("c", os.ModeDir), 0o777, path("d", os.ModeDir|0o777)},
		{"nothing may be written there; choose another place", card, path("e", os.ModeDir|0o555), 0o777, path("f", os.ModeDir|0o777)},
	} {
		as := func(f func() error) (err error) {
			done := make(chan struct{})
			go func() {
				defer close(done)
				runtime.LockOSThread() // and never given back, so that the thread ends with its rights
				if os.Geteuid() == 0 {
					_ = syscall.Setfsuid(65534)
				}
				err = f()
			}()
			<-done
			return err
		}
		require.ErrorContains(t, as(c.try(c.place)), c.says)
		assert.NoError(t, as(c.try(c.other)), c.says)
		require.NoError(t, os.Chmod(c.place, c.mode))
		assert.NoError(t, as(c.try(c.place)), c.says)
	}
}
