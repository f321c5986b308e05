package logbook

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Traces are what is kept of one pupil in the folder of logbooks and the folders under it.
type Traces struct {
	Pupil string
	// Files are the pupil's: the logbook, and copies and left-over parts of it, told by their first lines.
	Files []Trace
	// Unjudged are files of which it cannot be said whose they are. They are left alone.
	Unjudged []Notice
}

// Trace is one file of a pupil's.
type Trace struct {
	Path string
	// Copy: it is not the logbook itself.
	Copy bool
	// Entries and Damaged count its lines. Unread says why they could not be counted to the end.
	Entries, Damaged int
	Unread           error
	// Says is whose its first line says that it is, where that is somebody else.
	Says string

	info fs.FileInfo
}

// Traces looks for everything that is kept of a pupil, by whatever name it goes. It follows no link and changes nothing.
func (s Store) Traces(pupil string) (*Traces, error) {
	_, name, err := s.path(pupil)
	if err != nil {
		return nil, err
	}
	t := &Traces{Pupil: name}
	var own, others []suspect
	if _, err := s.list(); err != nil {
		return nil, err
	}
	// A folder system follows the link that the folder itself may be, and none under it.
	_ = fs.WalkDir(os.DirFS(s.Dir), ".", func(at string, e fs.DirEntry, err error) error {
		path := filepath.Join(s.Dir, filepath.FromSlash(at))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil
		case err != nil:
			t.doubt(path, words.T("logbook-file.doubt-folder", words.Args{"why": words.Error(door.Bare(err))}))
			return fs.SkipDir
		case e.IsDir():
			return nil
		case !e.Type().IsRegular():
			t.doubt(path, words.T("logbook-file.doubt-special", words.Args{"kind": door.Kind(e.Type())}))
			return nil
		}
		x := s.suspect(path)
		if x.named && Key(x.name) == Key(name) {
			own = append(own, x)
		} else {
			others = append(others, x)
		}
		return nil
	})
	for i := range own {
		own[i].Copy = filepath.Dir(own[i].Path) != filepath.Clean(s.Dir)
	}
	slices.SortStableFunc(own, func(a, b suspect) int {
		if a.Copy != b.Copy {
			return map[bool]int{false: -1, true: 1}[a.Copy]
		}
		return byAge(a.first(), b.first())
	})
	if len(own) > 0 {
		t.Pupil = own[0].name
	}
	for _, x := range own {
		if len(x.heads) > 0 && !slices.ContainsFunc(x.heads, func(h header) bool { return Key(h.Pupil) == Key(name) }) {
			if x.Says = Shortened(x.heads[0].Pupil, MostName); x.Copy {
				t.doubt(x.Path, words.T("logbook-file.doubt-names", words.Args{"line": quoted(x.Says), "file": words.Quote(x.name)}))
				continue
			}
		}
		t.Files = append(t.Files, x.Trace)
	}
	for _, x := range others {
		t.judge(x)
	}
	if len(t.Files) == 0 {
		return t, ofPupil(name, ErrNoPupil)
	}
	return t, nil
}

func (t *Traces) doubt(path string, why words.Text) {
	t.Unjudged = append(t.Unjudged, Notice{Path: path, Text: why})
}

// judge says whether a file that does not have the pupil's name is a copy of what has.
func (t *Traces) judge(x suspect) {
	key := Key(t.Pupil)
	mine := func(h header) bool { return Key(h.Pupil) == key }
	switch {
	case x.Unread != nil:
		t.doubt(x.Path, words.T("logbook-file.doubt-unread", words.Args{"why": words.Error(door.Bare(x.Unread))}))
	case len(x.heads) == 0 && !x.named:
		t.doubt(x.Path, words.T("logbook-file.doubt-no-head"))
	case !slices.ContainsFunc(x.heads, mine):
	case slices.ContainsFunc(x.heads, func(h header) bool { return !mine(h) }):
		t.doubt(x.Path, words.T("logbook-file.doubt-several"))
	case x.named: // as if somebody had given the pupil another name, or the file to another pupil, who has practised since
		t.doubt(x.Path, words.T("logbook-file.doubt-second", words.Args{"line": quoted(x.heads[0].Pupil), "file": words.Quote(x.name)}))
	default:
		x.Copy = true
		t.Files = append(t.Files, x.Trace)
	}
}

// suspect is a file that may be the pupil's: whose its name says that it is, and its first lines, each once.
type suspect struct {
	Trace
	name  string
	named bool
	heads []header
}

// mostHeads is how many different first lines of one file are looked at; more are of several pupils in any case.
const mostHeads = 16

func (s Store) suspect(path string) suspect {
	x := suspect{Trace: Trace{Path: path}}
	x.name, x.named = pupilOf(filepath.Base(path))
	x.info, _ = os.Lstat(path)
	c := Contents{Pupil: x.name}
	x.Unread = c.file(path, func(*Contents, *Entry) error { return nil }, func(h *header) {
		if len(x.heads) < mostHeads && !slices.Contains(x.heads, *h) {
			x.heads = append(x.heads, *h)
		}
	})
	x.Entries, x.Damaged = c.Entries+c.Later, c.Damaged
	return x
}

// first is the first line, the zero header where there is none.
func (x *suspect) first() header {
	if len(x.heads) == 0 {
		return header{}
	}
	return x.heads[0]
}

// Deleted is a file that was deleted.
type Deleted struct {
	Path  string
	Bytes int64
}

// Delete deletes the files, each of them emptied before it is taken away. It goes on where one cannot be, and gives those that were deleted
// and an error for each that was not.
func (t *Traces) Delete() (done []Deleted, bad []error) {
	folders := map[string]bool{}
	for _, f := range t.Files {
		n, err := remove(f.Path, f.info)
		switch {
		case errors.Is(err, fs.ErrNotExist): // somebody else was quicker
		case err != nil:
			bad = append(bad, err)
		default:
			done = append(done, Deleted{f.Path, n})
			folders[filepath.Dir(f.Path)] = true
		}
	}
	for dir := range folders {
		if err := door.SyncFolder(dir); err != nil {
			bad = append(bad, failed(dir, words.T("logbook-file.deletion-unsure"), err))
		}
	}
	return done, bad
}

// remove empties a file, then takes it away, while no other program writes to it. Whoever has it open finds it empty and knows. One that may
// not be written is only taken away.
func remove(path string, judged fs.FileInfo) (size int64, err error) {
	what := words.T("logbook-file.not-deleted")
	defer func() {
		if err != nil {
			size, err = 0, failed(path, what, err)
		}
	}()
	st, err := ordinary(path)
	if err != nil {
		return 0, err
	}
	if judged == nil || !os.SameFile(st, judged) {
		return 0, words.Wrong("logbook-file.another-came")
	}
	f, err := door.Modify(path)
	if errors.Is(err, fs.ErrPermission) {
		return st.Size(), os.Remove(path)
	}
	if err != nil {
		return 0, err
	}
	_, err = door.Lock(f, patience)
	if err == nil {
		st, err = f.Stat()
	}
	if err == nil {
		err = f.Truncate(0)
	}
	if err != nil {
		return 0, errors.Join(err, f.Close())
	}
	what = words.T("logbook-file.half-deleted")
	_ = f.Sync() // some places have nothing to wait for
	err = os.Remove(path)
	if closed := f.Close(); err != nil && closed == nil {
		err = os.Remove(path) // some systems delete no file that is open
	}
	return st.Size(), err
}
