// Package logbook is the pupil's append-only record.
//
// One file a pupil in one folder, JSON Lines (jsonlines.org): the first line says what the file is and of whom, every other is one
// entry. Lines are only ever appended, each in one write, so a kill or a full disk at any moment loses nothing that stood there
// before; the torn line that a kill may leave is kept, told of, and the next entry begins on a line of its own. Several
// programs may write at once. Entries and fields that a later version adds are kept and left alone. No clock is asked: times are
// arguments.
package logbook

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Version is that of the format in the first line. What only adds kinds or fields does not change it.
const Version = 1

// Errors to be told apart with errors.Is.
var (
	// ErrNoPupil: there is no logbook of this name.
	ErrNoPupil error = words.Wrong("logbook-file.no-pupil")
	// ErrForgotten: the logbook was deleted, or deleted and begun anew, since it was opened.
	ErrForgotten error = words.Wrong("logbook-file.forgotten")
	// ErrLater: the file is of a later version, which this program must not write to.
	ErrLater error = words.Wrong("logbook-file.later")
	// ErrBusy: another program held the file all the time.
	ErrBusy = door.ErrBusy
)

// patience is how long a writer waits for another one: each holds the file for one write only.
const patience = 2 * time.Second

// Store is the folder of logbooks.
type Store struct{ Dir string }

// Notice tells of something in a file that could not be used. Nothing is deleted because of it.
type Notice struct {
	Path string
	// Line counts from 1; 0 is about the file as a whole.
	Line int
	Text words.Text
	// Damaged is how many lines were left out, where it is about that: one notice tells of all of a file, and Text of the first ones.
	Damaged int
	// Torn: the last of them is the last line, cut off by a kill or a full disk.
	Torn bool
}

// Problem is the notice as a Book says it, with its place before it.
func (n Notice) Problem() *words.Problem {
	return &words.Problem{Text: n.Text, File: n.Path, Line: n.Line}
}

// Folder is where logbooks are kept: propsoff/logbook in the user's data folder. On Linux and its like that is XDG_DATA_HOME, or
// $HOME/.local/share where it is unset, empty or not absolute (XDG Base Directory Specification 0.8: a relative path is invalid
// and ignored). On Windows it is LocalAppData, which is not copied between machines; elsewhere os.UserConfigDir.
func Folder() (string, error) {
	base, err := dataFolder(runtime.GOOS, os.Getenv)
	if err != nil {
		return "", err
	}
	return filepath.Join(base, "propsoff", "logbook"), nil
}

func dataFolder(system string, env func(string) string) (string, error) {
	switch system {
	case "windows":
		if dir := env("LocalAppData"); dir != "" {
			return dir, nil
		}
		return os.UserConfigDir()
	case "darwin", "ios", "plan9", "js", "wasip1":
		return os.UserConfigDir()
	}
	if dir := env("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	home := env("HOME")
	if !filepath.IsAbs(home) {
		return "", words.Wrong("logbook-file.data-unknown")
	}
	return filepath.Join(home, ".local", "share"), nil
}

// Pupils are the names of all logbooks in the folder as they were typed first, sorted; one that was typed in several ways is one. A folder
// that is not there holds none. The notices are of files that look like logbooks and are not.
func (s Store) Pupils() ([]string, []Notice, error) {
	all, notices, err := s.pupils()
	var names []string
	for _, p := range all {
		names = append(names, p.name)
	}
	slices.Sort(names)
	return names, notices, err
}

// files are the files of one pupil, the one begun first in front, by which the pupil is called.
type files struct {
	name  string
	paths []string
}

// pupils are all pupils by their keys.
func (s Store) pupils() (map[string]files, []Notice, error) {
	entries, err := s.list()
	if err != nil {
		return nil, nil, err
	}
	all := map[string]files{}
	var notices []Notice
	for _, e := range entries {
		path := filepath.Join(s.Dir, e.Name())
		pupil, ok := pupilOf(e.Name())
		switch {
		case !strings.HasSuffix(e.Name(), ending):
		case !ok:
			notices = append(notices, Notice{Path: path, Text: words.T("logbook-file.not-named-so")})
		case !e.Type().IsRegular():
			notices = append(notices, Notice{Path: path, Text: words.T("logbook-file.no-ordinary-file")})
		default:
			if st, err := e.Info(); err == nil && st.Size() > 0 { // an empty one was never begun
				of := all[Key(pupil)]
				all[Key(pupil)] = files{pupil, append(of.paths, path)}
			}
		}
	}
	for key, of := range all {
		if len(of.paths) > 1 {
			slices.SortStableFunc(of.paths, func(a, b string) int { return byAge(headerOf(a), headerOf(b)) })
			of.name, _ = pupilOf(filepath.Base(of.paths[0]))
			all[key] = of
		}
	}
	return all, notices, nil
}

// byAge puts the older of two logbooks first, and one that does not say when it was begun last.
func byAge(a, b header) int {
	at, bt := a.begun(), b.begun()
	if at.IsZero() || bt.IsZero() {
		return bt.Compare(at)
	}
	return at.Compare(bt)
}

// Files are the paths of a pupil's logbook, none where there is no such pupil.
func (s Store) Files(pupil string) []string {
	_, paths, _ := s.find(pupil)
	return paths
}

// find gives the files of a pupil and the name that was typed first. Where there are none the name is the one given.
func (s Store) find(pupil string) (name string, paths []string, err error) {
	path, name, bad := s.path(pupil)
	if bad != nil {
		if name, err = tidy(pupil, sign); err != nil { // a name of once
			return "", nil, bad
		}
	}
	all, _, err := s.pupils()
	if err != nil {
		return "", nil, err
	}
	if of, ok := all[Key(name)]; ok {
		return of.name, of.paths, nil
	}
	if bad != nil {
		return "", nil, bad
	}
	if _, err := os.Lstat(path); err == nil { // what is no ordinary file, or empty
		return name, []string{path}, nil
	}
	return name, nil, nil
}

func (s Store) list() ([]fs.DirEntry, error) {
	if s.Dir == "" {
		return nil, words.Wrong("logbook-file.no-folder")
	}
	entries, err := os.ReadDir(s.Dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, failed(s.Dir, words.T("logbook-file.folder-unread"), err)
	}
	return entries, nil
}

// path is the file of a pupil, whose tidy name it gives too.
func (s Store) path(pupil string) (path, name string, err error) {
	if name, err = Name(pupil); err != nil {
		return "", "", err
	}
	if s.Dir == "" {
		return "", "", words.Wrong("logbook-file.no-folder")
	}
	return filepath.Join(s.Dir, fileName(name)), name, nil
}

// ordinary looks at what is there, and refuses what is not an ordinary file: a folder, a link, a pipe that would block.
func ordinary(path string) (fs.FileInfo, error) {
	st, err := os.Lstat(path)
	if err == nil && !st.Mode().IsRegular() {
		err = words.Wrong("logbook-file.special", words.Args{"kind": door.Kind(st.Mode())})
	}
	return st, err
}

// failed says what went wrong, and what to do where that is known.
func failed(path string, what words.Text, err error) error {
	var todo words.Text
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EFBIG), errors.Is(err, syscall.EDQUOT):
		todo = words.T("logbook-file.disk-full")
	case errors.Is(err, fs.ErrPermission):
		todo = words.T("logbook-file.no-rights")
	case errors.Is(err, syscall.EROFS):
		todo = words.T("logbook-file.read-only")
	case errors.Is(err, syscall.ENOTDIR), errors.Is(err, fs.ErrExist):
		todo = words.T("logbook-file.file-for-folder")
	case errors.Is(err, fs.ErrNotExist):
		todo = words.T("logbook-file.folder-missing")
	}
	err = door.Bare(err)
	return words.Wrong("logbook-file.failed", words.Args{"what": what, "todo": todo, "why": words.Error(err)}).In(path).Because(err)
}

// ofPupil says an error of one pupil's logbook.
func ofPupil(name string, err error) error {
	return words.Wrong("logbook-file.of-pupil", words.Args{"name": words.Quote(name), "why": words.Error(err)}).Because(err)
}

// Day is the calendar day of t in t's own time zone, as whole days since 1 January 1970. Drills and reports count in it.
func Day(t time.Time) int32 {
	y, m, d := t.Date()
	return int32(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// Date is a Day as a time: midnight UTC.
func Date(day int32) time.Time { return time.Unix(int64(day)*86400, 0).UTC() }
