package logbook

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"time"

	"propsoff/assets/door"
	"propsoff/sim/drill"
)

// Contents is what a logbook holds.
type Contents struct {
	Pupil, Path string
	// Begun is when it was begun, the zero time where that cannot be read. Version is that of the first line, 0 likewise.
	Begun   time.Time
	Version int
	// Entries are those of known kinds, in the order of the file.
	Entries []Entry
	// Notices are lines that could not be used. Later are lines of kinds that only a later version knows.
	Notices []Notice
	Later   []Later
}

// Later is a line of a kind that this version does not know: whole, and left alone.
type Later struct {
	Kind Kind
	// Line counts from 1; Raw is the line without its end.
	Line int
	Raw  []byte
}

// Runs are the runs of drills in the order in which they were written.
func (c *Contents) Runs() []drill.Run {
	var out []drill.Run
	for i := range c.Entries {
		if c.Entries[i].Kind == KindDrill {
			out = append(out, c.Entries[i].Run())
		}
	}
	return out
}

// Read reads a pupil's logbook. Damaged lines are left out and told of. ErrNoPupil where there is none.
func (s Store) Read(pupil string) (*Contents, error) {
	path, name, err := s.path(pupil)
	if err != nil {
		return nil, err
	}
	if err := ordinary(path); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%q: %w", name, ErrNoPupil)
		}
		return nil, plain(path, "the logbook cannot be read", err)
	}
	f, err := door.Open(path, "logbook")
	if err != nil {
		return nil, plain(path, "the logbook cannot be read", err)
	}
	defer f.Close()
	// A line that is being written is waited for; where that takes long it reads as torn, and nothing else is lost.
	_, _ = door.Lock(f, patience/4)
	c, err := read(f, path, name)
	if err != nil {
		return nil, plain(path, "the logbook cannot be read", err)
	}
	return c, nil
}

// read reads the lines of one logbook; its error is that of the reader.
func read(r io.Reader, path, pupil string) (*Contents, error) {
	c := &Contents{Pupil: pupil, Path: path}
	in := bufio.NewReaderSize(r, 1<<16)
	for n := 1; ; n++ {
		text, whole, long, err := nextLine(in)
		if err != nil {
			return nil, err
		}
		if len(text) == 0 && !whole {
			if n == 1 {
				c.Notices = append(c.Notices, Notice{Path: path, Text: "the file is empty"})
			}
			return c, nil
		}
		c.line(n, text, whole, long)
		if !whole {
			return c, nil
		}
	}
}

// nextLine reads up to the end of a line, which is taken off; whole is false where the file ends first. Of a line that is too long only the
// beginning is given.
func nextLine(in *bufio.Reader) (text []byte, whole, long bool, err error) {
	for {
		part, err := in.ReadSlice('\n')
		if len(text)+len(part) > mostLine+1 {
			long = true
			part = part[:max(0, mostLine-len(text))]
		}
		text = append(text, part...)
		switch {
		case err == nil:
			return bytes.TrimSuffix(text, []byte{'\n'}), true, long, nil
		case err == io.EOF:
			return text, false, long, nil
		case !errors.Is(err, bufio.ErrBufferFull):
			return nil, false, false, err
		}
	}
}

// line takes one line in.
func (c *Contents) line(n int, text []byte, whole, long bool) {
	say := func(format string, args ...any) {
		c.Notices = append(c.Notices, Notice{Path: c.Path, Line: n, Text: fmt.Sprintf(format, args...), Torn: !whole})
	}
	if n == 1 {
		if rest, had := bytes.CutPrefix(text, []byte("\uFEFF")); had {
			text = rest
			say("a byte-order mark stands before the first line, which JSON Lines does not allow; it was passed over")
		}
	}
	var p parsed
	err := fmt.Errorf("it is longer than %d bytes", mostLine)
	if !long {
		p, err = parse(text)
	}
	switch {
	case err != nil && !whole:
		say("the last line is torn, as a kill or a full disk may leave it; it was left out, everything before it is whole")
	case err != nil && n == 1:
		say("the first line was left out, what follows is read: %v", err)
	case err != nil:
		say("this line was left out: %v", err)
	case p.header != nil:
		c.first(p.header, say)
	default:
		if n == 1 {
			say("the first line does not say that this is a logbook; it is read as an entry")
		}
		if p.later != "" {
			c.Later = append(c.Later, Later{p.later, n, bytes.Clone(text)})
			return
		}
		p.entry.Line, p.entry.Raw = n, bytes.Clone(text)
		c.Entries = append(c.Entries, p.entry)
	}
}

// first takes the first line in, which may stand further down where the program was killed while it wrote it.
func (c *Contents) first(h *header, say func(string, ...any)) {
	v, _ := h.version()
	switch {
	case h.Pupil != c.Pupil:
		say("the first line is about %q, the file's name about %q; the file's name counts", h.Pupil, c.Pupil)
	case v > Version:
		say("this logbook is of version %d, and this program knows %d; what it knows is read", v, Version)
	}
	if c.Version == 0 {
		c.Version = v
		if t, err := time.Parse(time.RFC3339, h.Begun); err == nil {
			c.Begun = t.UTC()
		}
	}
}

// headerOf reads the first line of any file; ok is false where that is none of a logbook.
func headerOf(path string) (h header, ok bool) {
	f, err := door.Open(path, "logbook")
	if err != nil {
		return h, false
	}
	defer f.Close()
	b, err := bufio.NewReaderSize(f, 1<<12).ReadSlice('\n')
	if err != nil {
		return h, false
	}
	p, err := parse(bytes.TrimPrefix(b, []byte("\uFEFF")))
	if err != nil || p.header == nil {
		return h, false
	}
	return *p.header, true
}
