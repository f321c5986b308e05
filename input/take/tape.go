package take

import (
	"errors"
	"os"

	"propsoff.example/assets/words"
)

// ErrTooLong is given where a part has become too long to be recorded from its beginning.
var ErrTooLong error = words.Wrong("take.too-long")

// TapeMost is how much of a part a Tape keeps, in bytes (ours): some three hours of busy sticks, much more of calm ones.
const TapeMost = 32 << 20

// Tape is a Writer that keeps in memory what belongs to the part under way, so that a recording may begin at any time: the file then gets
// the part from its beginning, for only from there can it be played. What goes wrong with a file ends that file, never the tape. Not for
// use by several goroutines at once.
type Tape struct {
	*Writer
	// Most is how many bytes are kept; 0 means TapeMost. Below 0 nothing is kept: a recording can begin only just when a
	// part has begun.
	Most int

	from int64  // tick at which the part under way began
	part []byte // whole records since the part began; nil before the first one, and once it has become too long
	to   *output
	last error // why the last file ended before it was asked to; nil for none
}

// NewTape begins an empty tape.
func NewTape() *Tape {
	t := &Tape{}
	t.Writer = writerTo(t)
	return t
}

// Record begins a file at path, which must not exist yet, and ends the one that is being written. ErrTooLong where the
// part under way is no longer kept from its beginning.
func (t *Tape) Record(path string) error {
	if err := t.Stop(); err != nil {
		return err
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if t.part == nil || t.tick-t.from > LongestTicks {
		return words.Within(path, ErrTooLong)
	}
	f, err := createFile(path)
	if err != nil {
		return err
	}
	o := &output{path: path, f: f, from: t.from, done: t.from}
	if err := o.write(append(firstLine(), t.part...), t.tick, false); err != nil {
		_ = f.Close()
		_ = os.Remove(path) // ours, made a moment ago, and empty
		return err
	}
	t.to, t.last = o, nil
	return nil
}

// Stop ends the file that is written, if there is one; the tape goes on. The error is that of the file.
func (t *Tape) Stop() error {
	if t.to == nil {
		return nil
	}
	err := t.Flush()
	o := t.to
	if t.to = nil; o == nil { // it failed in the flush
		return t.last
	}
	return errors.Join(err, o.close())
}

// Recording is the path of the file that is written, empty for none; err is why the last one was ended by itself.
func (t *Tape) Recording() (path string, err error) {
	if t.to == nil {
		return "", t.last
	}
	return t.to.path, nil
}

func (t *Tape) name() string {
	if t.to == nil {
		return "tape"
	}
	return t.to.path
}

func (t *Tape) write(b []byte, tick int64, anew bool) error {
	most := t.Most
	if most == 0 {
		most = TapeMost
	}
	switch {
	case anew:
		t.part, t.from = append(t.part[:0], b...), tick
	case t.part != nil && len(t.part)+len(b) > most:
		t.part = nil
	case t.part != nil:
		t.part = append(t.part, b...)
	}
	if t.to == nil {
		return nil
	}
	if err := t.to.write(b, tick, anew); err != nil {
		t.last = err
		_ = t.to.close()
		t.to = nil
	}
	return nil
}

func (t *Tape) sync() error {
	if t.to == nil {
		return nil
	}
	return t.to.sync()
}

func (t *Tape) close() error {
	o := t.to
	if t.to = nil; o == nil {
		return t.last
	}
	return o.close()
}
