package take

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// ErrNotTake is the root of errors about a file that is no take at all, ErrNewer of those about a take made by a newer
// program.
var (
	ErrNotTake error = words.Wrong("take.not-a-take")
	ErrNewer   error = words.Wrong("take.newer")
)

// Torn says where a take breaks off. It is information: everything before it is whole.
type Torn struct {
	// Offset is where the last whole record ends, in bytes from the start of the file.
	Offset int64
	// Tick is that of the last whole entry, in ms.
	Tick int64
}

// Text says where the take breaks off.
func (t Torn) Text() words.Text {
	return words.T("take.torn", words.Args{"time": clock(t.Tick), "byte": words.Whole(t.Offset)})
}

// Damage is an error in the middle of a take: what follows it was written later, so it is not the torn end of a kill.
type Damage struct {
	Name string
	// Offset is where the last whole record ends, in bytes from the start of the file.
	Offset int64
	// Tick is that of the last whole entry before the damage, in ms.
	Tick int64
	// Cause says what is wrong there.
	Cause error
}

// Problem says where the take is damaged and why.
func (d *Damage) Problem() *words.Problem {
	return words.Wrong("take.damaged", words.Args{
		"byte": words.Whole(d.Offset), "time": clock(d.Tick), "why": words.Error(d.Cause), "name": words.Quote(d.Name),
	}).In(d.Name)
}

// Error says where the take is damaged and why, in English.
func (d *Damage) Error() string { return d.Problem().Error() }

// Unwrap is what was found wrong.
func (d *Damage) Unwrap() error { return d.Cause }

// Reader reads a take from its beginning, a little at a time: a take of many hours needs no more memory than a short one.
type Reader struct {
	name     string
	scan     scanner
	version  uint64
	settings Settings

	kind  byte   // of the record being read, 0 for none
	rec   []byte // what is left of its payload
	at    int64  // where that record begins
	first int64  // tick at which the take begins
	tick  int64  // of the entry before
	frame pulse.Frame

	err    error // sticks
	closed bool
	torn   *Torn
	extra  int
}

// Open opens the take at path and reads its first line and its settings.
func Open(path string) (*Reader, error) {
	f, err := door.Open(path, "door.take")
	if err != nil {
		return nil, err
	}
	r, err := NewReader(f, path)
	if err != nil {
		f.Close()
	}
	return r, err
}

// NewReader reads a take from src, which Close closes if it can be closed; errors call it name.
func NewReader(src io.Reader, name string) (*Reader, error) {
	r := &Reader{name: name, scan: scanner{src: src}}
	if err := r.readHeader(); err != nil {
		return nil, err
	}
	kind, payload, err := r.scan.next()
	var bad *badRecord
	switch {
	case err == io.EOF, errors.As(err, &bad) && bad.torn:
		return nil, words.Wrong("take.settings-cut").At(name, 1, 1)
	case errors.As(err, &bad):
		return nil, r.noSettings(bad)
	case err != nil:
		return nil, words.Within(name, err)
	case kind != recSettings:
		return nil, r.noSettings(words.Wrong("take.not-settings"))
	}
	if r.settings, err = parseSettings(payload); err != nil {
		return nil, r.noSettings(err)
	}
	r.first, r.tick = r.settings.From, r.settings.From
	r.scan.step()
	return r, nil
}

func (r *Reader) noSettings(why error) error {
	return words.Wrong("take.settings-damaged", words.Args{"byte": words.Whole(r.scan.off), "why": words.Error(why)}).At(r.name, 2, 1).Because(why)
}

// readHeader reads the first line.
func (r *Reader) readHeader() error {
	b, err := r.scan.ahead(headLimit)
	if err != nil {
		return words.Within(r.name, err)
	}
	if len(b) == 0 {
		return words.Wrong("take.empty").At(r.name, 1, 1).Because(ErrNotTake)
	}
	first := fmt.Sprintf("%s%d", header, Version)
	no := words.Wrong("take.first-line", words.Args{"line": words.Quote(first)}).At(r.name, 1, 1).Because(ErrNotTake)
	rest, ok := bytes.CutPrefix(b, []byte(header))
	line, _, whole := bytes.Cut(rest, []byte{'\n'})
	if !ok || !whole {
		if len(b) < headLimit && bytes.HasPrefix([]byte(first+"\n"), b) {
			return words.Wrong("take.first-line-cut").At(r.name, 1, 1)
		}
		return no
	}
	v, err := strconv.ParseUint(string(line), 10, 32)
	if err != nil || v == 0 {
		return no
	}
	if v > Version {
		return words.Wrong("take.newer-version", words.Args{"version": words.Whole(v), "read": words.Whole(Version)}).At(r.name, 1, len(header)+1).Because(ErrNewer)
	}
	r.version = v
	r.scan.size = len(header) + len(line) + 1
	r.scan.step()
	return nil
}

// Name is the name given to NewReader or the path given to Open.
func (r *Reader) Name() string { return r.name }

// Settings are those of the part that is being read; at first those of the first one.
func (r *Reader) Settings() Settings { return r.settings }

// Tick is the tick of the last entry that Next gave, and at the end of the take the last tick it knows of.
func (r *Reader) Tick() int64 { return r.tick }

// Closed is true when the end was reached and the recording had been closed cleanly.
func (r *Reader) Closed() bool { return r.closed }

// Torn says where the take breaks off, once Next has given io.EOF; nil for one that ends with a whole record (one that
// was killed between two flushes ends so too: then Closed is false).
func (r *Reader) Torn() *Torn { return r.torn }

// Skipped is the number of records of unknown kind passed over so far.
func (r *Reader) Skipped() int { return r.extra }

// Next gives the next entry. At the end, torn or not, it gives io.EOF; damage in the middle is a *Damage.
func (r *Reader) Next() (Entry, error) {
	for r.err == nil {
		if len(r.rec) > 0 {
			e, err := r.entry()
			if err != nil {
				r.err = &Damage{Name: r.name, Offset: r.at, Tick: r.tick, Cause: err}
				break
			}
			return e, nil
		}
		r.err = r.nextRecord()
	}
	return Entry{}, r.err
}

// nextRecord goes on to the next record that holds entries.
func (r *Reader) nextRecord() error {
	if r.kind != 0 {
		r.scan.step()
		r.kind = 0
	}
	kind, payload, err := r.scan.next()
	switch {
	case err != nil:
		return r.noRecord(err)
	case r.closed:
		return &Damage{Name: r.name, Offset: r.scan.off, Tick: r.tick, Cause: words.Wrong("take.more-follows")}
	}
	r.kind, r.rec, r.at = kind, payload, r.scan.off
	switch kind {
	case recReadings, recHappenings, recDigests, recSettings:
		if kind == recSettings && r.version < 2 {
			return &Damage{Name: r.name, Offset: r.at, Tick: r.tick, Cause: senseless("take.settings-twice")}
		}
		if len(payload) == 0 {
			return &Damage{Name: r.name, Offset: r.at, Tick: r.tick, Cause: senseless("take.record-empty")}
		}
	case recEnd:
		d, ok := r.uvarint()
		if !ok || len(r.rec) > 0 || !r.pass(d) {
			return &Damage{Name: r.name, Offset: r.at, Tick: r.tick, Cause: senseless("take.end-malformed")}
		}
		r.closed = true
	case recAdded:
		if err := r.add(); err != nil {
			return &Damage{Name: r.name, Offset: r.at, Tick: r.tick, Cause: err}
		}
	default:
		r.rec = nil
		r.extra++
	}
	return nil
}

// noRecord says why there is no next record: the end, torn or not, or an error.
func (r *Reader) noRecord(err error) error {
	var bad *badRecord
	switch {
	case err == io.EOF:
		return io.EOF
	case errors.As(err, &bad) && bad.torn && !r.closed:
		r.torn = &Torn{Offset: r.scan.off, Tick: r.tick}
		return io.EOF
	case errors.As(err, &bad):
		return &Damage{Name: r.name, Offset: r.scan.off, Tick: r.tick, Cause: bad}
	}
	return words.Wrong("take.at-byte", words.Args{"byte": words.Whole(r.scan.off), "why": words.Error(err)}).In(r.name).Because(err)
}

// Close closes what it reads from; a second time it does nothing.
func (r *Reader) Close() error {
	if r.err == nil {
		r.err = words.Wrong("take.closed").In(r.name)
	}
	r.rec, r.kind = nil, 0
	c, ok := r.scan.src.(io.Closer)
	if !ok {
		return nil
	}
	r.scan.src = nothing{}
	return c.Close()
}

// nothing is what a closed Reader reads from.
type nothing struct{}

func (nothing) Read([]byte) (int, error) { return 0, io.EOF }
