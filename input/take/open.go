package take

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// openTake opens a file for reading. Its errors, that of a folder in its place too, are in words of our own with the
// system's behind them.
func openTake(path string) (*os.File, error) {
	f, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, said{path + ": there is no such take; look for a slip in the path", err}
	case errors.Is(err, fs.ErrPermission):
		return nil, said{path + ": this take may not be read; change its rights or choose another", err}
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be opened: %w", path, bare(err))
	}
	if st, err := f.Stat(); err == nil && st.IsDir() {
		f.Close()
		return nil, fmt.Errorf("%s: this is a folder; give the path of a take", path)
	}
	return f, nil
}

// notMade says why a new file could not be made.
func notMade(path string, err error) error {
	switch st, bad := os.Stat(filepath.Dir(path)); {
	case errors.Is(bad, fs.ErrNotExist), bad == nil && !st.IsDir():
		return said{path + ": there is no such folder to write into; make it first, or choose another", err}
	case errors.Is(err, fs.ErrPermission):
		return said{path + ": nothing may be written there; change the rights of its folder, or choose another", err}
	}
	return fmt.Errorf("%s: cannot be made: %w", path, bare(err))
}

// bare gives the system's reason without the call and the path that it repeats.
func bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// said is an error in words of our own, and what it stands for.
type said struct {
	text string
	err  error
}

func (s said) Error() string { return s.text }

func (s said) Unwrap() error { return s.err }
