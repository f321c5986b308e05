package door

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"

	"propsoff.example/assets/words"
)

const partBegin, partEnd = ".propsoff-", ".part"

// leftAfter is how long a passing file must have lain before it counts as left behind, where a lock does not tell that.
const leftAfter = time.Hour

// part is a passing file beside the one that is to be written. Its lock tells others that somebody is at work on it.
type part struct {
	f    *os.File
	path string
}

// newPart makes a passing file for path, and takes away what programs that were killed have left in its folder.
func newPart(path string, mode fs.FileMode) (*part, error) {
	dir := filepath.Dir(path)
	Sweep(dir)
	for range 100 {
		p := &part{path: filepath.Join(dir, fmt.Sprintf("%s%d%s", partBegin, rand.Uint64(), partEnd))}
		var err error
		if p.f, err = os.OpenFile(p.path, os.O_RDWR|os.O_CREATE|os.O_EXCL, mode); err != nil {
			if errors.Is(err, fs.ErrExist) {
				continue
			}
			return nil, err
		}
		had, known, err := tryLock(p.f)
		if err != nil {
			p.drop()
			return nil, err
		}
		if known && !had { // somebody takes it for one that was left behind, and is about to remove it
			p.drop()
			continue
		}
		// Or has done so already, between making and locking.
		if mine, err := p.f.Stat(); err == nil {
			if now, err := os.Lstat(p.path); err == nil && os.SameFile(mine, now) {
				return p, nil
			}
		}
		p.drop()
	}
	return nil, words.Wrong("door.no-part").In(dir)
}

// drop takes the passing file away; one that has moved to its place stays there.
func (p *part) drop() {
	if p.f != nil {
		_ = p.f.Close()
		p.f = nil
	}
	if p.path != "" {
		_ = os.Remove(p.path)
		p.path = ""
	}
}

// ready closes the file where an open one cannot be moved.
func (p *part) ready() error {
	if movesOpen {
		return nil
	}
	f := p.f
	p.f = nil
	return f.Close()
}

func (p *part) moveOver(path string) error {
	if err := p.ready(); err != nil {
		return err
	}
	if err := os.Rename(p.path, path); err != nil {
		return err
	}
	p.path = ""
	return p.closed()
}

// moveNew takes the name where nothing has it, else the error is fs.ErrExist.
func (p *part) moveNew(path string) error {
	if err := p.ready(); err != nil {
		return err
	}
	moved, err := nameAnew(p.path, path)
	if err != nil {
		return err
	}
	if moved {
		p.path = ""
	}
	return p.closed()
}

// nameAnew gives a file a name that nothing has, else the error is fs.ErrExist; moved: it has its old name no more.
func nameAnew(path, to string) (moved bool, err error) {
	// A second name for the file fails where that name is taken, so nothing can be lost.
	switch err := os.Link(path, to); {
	case err == nil:
		return false, nil
	case errors.Is(err, fs.ErrExist):
		return false, err
	}
	// A file system without second names: take the name, then put the file in its place.
	taken, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return false, err
	}
	if err := errors.Join(taken.Close(), os.Rename(path, to)); err != nil {
		_ = os.Remove(to)
		return false, err
	}
	return true, nil
}

// closed closes the file, of which some systems tell only then that it was not kept.
func (p *part) closed() error {
	if p.f == nil {
		return nil
	}
	f := p.f
	p.f = nil
	return f.Close()
}

// Sweep deletes the passing files that killed programs left in a folder, and says how many. Those of programs that are at work stay.
func Sweep(dir string) (swept int) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return 0
	}
	for _, e := range entries {
		if !IsPart(e.Name()) || !e.Type().IsRegular() {
			continue
		}
		if takeAway(filepath.Join(dir, e.Name()), e) {
			swept++
		}
	}
	return swept
}

// takeAway removes a passing file that nobody is at work on, which its lock tells; it is held until the file is gone. Where an open file cannot
// be moved it must not be opened here either, nor does its lock last until it has moved: there its age tells.
func takeAway(path string, e fs.DirEntry) bool {
	known := false
	if movesOpen {
		f, err := os.OpenFile(path, os.O_RDWR|noLink|atOnce, 0)
		if err != nil {
			return false
		}
		defer f.Close()
		had, locks, err := tryLock(f)
		if known = locks; err != nil || known && !had {
			return false
		}
	}
	if st, err := e.Info(); !known && (err != nil || time.Since(st.ModTime()) <= leftAfter) {
		return false
	}
	return os.Remove(path) == nil
}

// IsPart reports whether a file's name is that of a passing file.
func IsPart(name string) bool {
	return strings.HasPrefix(name, partBegin) && strings.HasSuffix(name, partEnd)
}
