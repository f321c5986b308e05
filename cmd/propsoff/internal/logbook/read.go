package logbook

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"strings"
	"time"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Contents says what a pupil's logbook came to when it was read.
type Contents struct {
	// Pupil is the name as it was typed first. Files are those that were read: several where a name was typed in several ways when these
	// still counted as several pupils; the one begun first is in front, and what is new goes there.
	Pupil string
	Files []string
	// Begun is when it was begun, the zero time where that cannot be read. Version is that of the first line, 0 likewise.
	Begun   time.Time
	Version int
	// Entries and Later count the entries of kinds that are known and of others, Damaged the lines that could not be used.
	Entries, Later, Damaged int
	Notices                 []Notice
}

// Taker is given every entry, in the order of the file; those of a later version's kinds too. What it is given is good until it returns.
// Its error ends the reading.
type Taker func(c *Contents, e *Entry) error

// Read reads a pupil's logbook, and holds one line of it at a time. Damaged lines are left out and told of. ErrNoPupil where there is none.
func (s Store) Read(pupil string, take Taker) (*Contents, error) {
	name, files, err := s.find(pupil)
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, ofPupil(name, ErrNoPupil)
	}
	c := &Contents{Pupil: name}
	for _, path := range files {
		if err := c.file(path, take, nil); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// file reads one file of the pupil's. head is given every first line that there is, where somebody asks.
func (c *Contents) file(path string, take Taker, head func(*header)) error {
	if _, err := ordinary(path); err != nil {
		return failed(path, words.T(unread), err)
	}
	f, err := door.Open(path, "door.logbook")
	if err != nil {
		return failed(path, words.T(unread), err)
	}
	defer f.Close()
	size, err := settled(path)
	if err != nil {
		return failed(path, words.T(unread), err)
	}
	c.Files = append(c.Files, path)
	p := pass{c: c, take: take, head: head, path: path}
	return p.read(io.LimitReader(f, size))
}

// settled is the size of a file while nobody writes to it: a line that is being written is waited for, and where that takes long it reads as
// torn, and nothing else is lost. The lock is not kept: whoever is given the entries may pause for as long as it takes, and others go on writing.
func settled(path string) (int64, error) {
	f, err := door.Open(path, "door.logbook")
	if err != nil {
		return 0, err
	}
	defer f.Close()
	_, _ = door.Lock(f, patience/4)
	st, err := f.Stat()
	if err != nil {
		return 0, err
	}
	return st.Size(), nil
}

const unread words.ID = "logbook-file.unread"

// lines cuts a file into its lines, of which it holds one.
type lines struct {
	in   *bufio.Reader
	held []byte // of a line that the reader cannot hold
	// text is the line without its end, number counts it from 1, from and size are its place, with its end. Of a line that is too long
	// only the beginning is there. whole is false where the file ends first.
	text        []byte
	number      int
	from, size  int64
	whole, long bool
}

func linesOf(r io.Reader) *lines { return &lines{in: bufio.NewReaderSize(r, 1<<16)} }

func (l *lines) restart(r io.Reader) {
	l.in.Reset(r)
	*l = lines{in: l.in, held: l.held}
}

// next goes on to the next line; false after the last.
func (l *lines) next() (bool, error) {
	l.number++
	l.from += l.size
	l.size, l.long, l.held = 0, false, l.held[:0]
	for {
		part, err := l.in.ReadSlice('\n')
		l.size += int64(len(part))
		if l.whole = err == nil; l.whole {
			part = part[:len(part)-1]
		}
		if over := len(l.held) + len(part) - mostLine; over > 0 {
			l.long = true
			part = part[:max(0, len(part)-over)]
		}
		if l.text = part; len(l.held) > 0 || errors.Is(err, bufio.ErrBufferFull) {
			l.held = append(l.held, part...)
			l.text = l.held
		}
		switch {
		case l.whole:
			return true, nil
		case err == io.EOF:
			return l.size > 0, nil
		case !errors.Is(err, bufio.ErrBufferFull):
			return false, err
		}
	}
}

// mostTold is how many damaged lines of a file are told of one by one; of the others it is told how many they are.
const mostTold = 3

// pass is one reading of one file.
type pass struct {
	c       *Contents
	take    Taker
	path    string
	damage  Notice
	told    []words.Text // of the first damaged lines
	entry   Entry
	headers int
	head    func(*header)
}

var byteOrderMark = []byte("\uFEFF")

// read goes through the file. An error of who takes the entries is given as it is.
func (p *pass) read(r io.Reader) error {
	l := linesOf(r)
	for {
		more, err := l.next()
		if err != nil {
			return failed(p.path, words.T(unread), err)
		}
		if !more {
			break
		}
		if err := p.line(l); err != nil {
			return err
		}
	}
	if l.from == 0 {
		p.say(0, words.T("logbook-file.empty"))
	}
	if n := p.damage.Damaged; n > 0 {
		p.c.Damaged += n
		if n > 1 {
			p.damage.Text = p.several()
		}
		p.damage.Path = p.path
		p.c.Notices = append(p.c.Notices, p.damage)
	}
	return nil
}

func (p *pass) say(line int, text words.Text) {
	p.c.Notices = append(p.c.Notices, Notice{Path: p.path, Line: line, Text: text})
}

// line takes one line in.
func (p *pass) line(l *lines) error {
	text := l.text
	if l.number == 1 {
		if rest, had := bytes.CutPrefix(text, byteOrderMark); had {
			text = rest
			p.say(1, words.T("logbook-file.byte-order-mark"))
		}
	}
	if l.long {
		p.damaged(l, errLong)
		return nil
	}
	h, e, err := parse(text)
	switch {
	case err != nil:
		p.damaged(l, err)
		return nil
	case h != nil:
		p.first(l.number, h)
		return nil
	case l.number == 1:
		p.say(1, words.T("logbook-file.no-head"))
	}
	if e.Later() {
		p.c.Later++
	} else {
		p.c.Entries++
	}
	e.Line, e.Raw = l.number, text
	e.file, e.from, e.size = len(p.c.Files)-1, l.from, l.size
	p.entry = e // one for all: millions of lines may come
	return p.take(p.c, &p.entry)
}

var errLong = words.Wrong("logbook-file.line-long", words.Args{"most": words.Whole(mostLine)})

// damaged counts a line that could not be used.
func (p *pass) damaged(l *lines, why error) {
	d := &p.damage
	d.Damaged++
	d.Torn = !l.whole
	switch {
	case d.Damaged > mostTold:
		return
	case d.Damaged > 1:
	case d.Torn:
		d.Line, d.Text = l.number, words.T("logbook-file.last-torn")
	default:
		d.Line, d.Text = l.number, words.T("logbook-file.left-out", words.Args{"why": words.Error(why)})
	}
	told := words.T("logbook-file.line", words.Args{"n": words.Whole(l.number), "why": words.Error(why)})
	if d.Torn {
		told = words.T("logbook-file.line-torn", words.Args{"n": words.Whole(l.number)})
	}
	p.told = append(p.told, told)
}

// several tells of several damaged lines at once.
func (p *pass) several() words.Text {
	of := words.Args{"n": words.Count(p.damage.Damaged), "lines": words.Clauses(p.told...)}
	if p.damage.Damaged <= len(p.told) {
		return words.T("logbook-file.several", of)
	}
	of["first"] = words.Whole(len(p.told))
	return words.T("logbook-file.several-first", of)
}

// first takes a first line in, which may stand further down where the program was killed while it wrote it. Of many the first one counts.
func (p *pass) first(line int, h *header) {
	if p.head != nil {
		p.head(h)
	}
	if p.headers++; p.headers > 1 {
		return
	}
	v, _ := h.version()
	switch {
	case Key(h.Pupil) != Key(p.c.Pupil):
		p.say(line, words.T("logbook-file.of-another", words.Args{"line": quoted(h.Pupil), "file": words.Quote(p.c.Pupil)}))
	case v > Version:
		p.say(line, words.T("logbook-file.of-version", words.Args{"version": words.Whole(v), "known": words.Whole(Version)}))
	}
	if p.c.Version == 0 {
		p.c.Version, p.c.Begun = v, h.begun()
	}
}

// begun is the time in a first line, the zero time where there is none.
func (h *header) begun() time.Time {
	t, err := time.Parse(time.RFC3339, h.Begun)
	if err != nil {
		return time.Time{}
	}
	return t.UTC()
}

// mostQuoted is how many bytes of a line are quoted in what is wrong with it (ours).
const mostQuoted = 100

// quoted is a text of a line as it stands between quotation marks: not too long, and what steers in it made visible.
func quoted(s string) words.Quote {
	return words.Typed(Shortened(s, mostQuoted))
}

// Shortened is at most so many bytes of a text.
func Shortened(s string, most int) string {
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "…"
}

// headerOf reads the first line of a file; the zero header where that is none of a logbook.
func headerOf(path string) header {
	f, err := door.Open(path, "door.logbook")
	if err != nil {
		return header{}
	}
	defer f.Close()
	l := lines{in: bufio.NewReaderSize(f, 1<<12)}
	if more, err := l.next(); err != nil || !more || l.long {
		return header{}
	}
	h, _, err := parse(bytes.TrimPrefix(l.text, byteOrderMark))
	if err != nil || h == nil {
		return header{}
	}
	return *h
}
