package take

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// KeepTicks is the longest time, in ticks of the practice, for which the Writer keeps entries by itself: the next entry
// that comes later writes them out first. A caller that flushes more often loses less.
const KeepTicks = 100

// Writer appends to a take. It keeps entries until Flush, which hands whole records to the operating system in one
// write: a kill of the program loses nothing that was flushed (a power cut may lose more; see Sync). Errors stick: after
// the first one everything is refused with it, and the practice goes on without being recorded. In steady state nothing
// is allocated. Not for use by several goroutines at once.
type Writer struct {
	out out
	err error

	tick  int64       // of the entry before
	frame pulse.Frame // of the last Controls reading of the part

	kind byte   // of the record being filled, 0 for none
	rec  []byte // its payload
	buf  []byte // whole records not yet written
	kept int64  // tick of the oldest entry not yet written, -1 for none

	// Sync makes Flush wait until the disk has it, against power cuts; Close does so anyway.
	Sync bool
}

// out is where whole records go: the file of a take, or a Tape.
type out interface {
	// write takes whole records, the last entry of which is of tick; where anew is true a part begins with the first of them.
	write(b []byte, tick int64, anew bool) error
	sync() error
	// close gives the first error there was.
	close() error
	name() string
}

// createFile makes the file of a take, which must not exist yet.
func createFile(path string) (*os.File, error) {
	f, err := door.Create(path)
	if errors.Is(err, fs.ErrExist) {
		return nil, words.Wrong("take.exists").In(path)
	}
	return f, err
}

func firstLine() []byte { return fmt.Appendf(nil, "%s%d\n", header, Version) }

func writerTo(o out) *Writer {
	return &Writer{
		out: o, kept: -1,
		rec: make([]byte, 0, fullRecord+128), // one entry is at most 1+10+3+16·3 bytes
		buf: make([]byte, 0, fullBuffer+2*fullRecord),
	}
}

// Part begins another part with these settings, from whose tick on everything that is appended belongs to it. Settings that no take can
// hold are refused, and nothing changes.
func (w *Writer) Part(s Settings) error {
	payload, err := s.append(nil)
	if err != nil {
		return words.Within(w.out.name(), err)
	}
	if s.From < w.tick {
		return words.Wrong("take.part-back", words.Args{"tick": words.Whole(s.From), "after": words.Whole(w.tick)}).In(w.out.name())
	}
	if err := w.Flush(); err != nil {
		return err
	}
	w.tick, w.frame = s.From, pulse.Frame{}
	w.err = w.out.write(appendRecord(nil, recSettings, payload), s.From, true)
	return w.err
}

// Add adds what became known of the part under way: what of these settings is not empty, but for From and Stands.
func (w *Writer) Add(s Settings) error {
	s.Model, s.From, s.Stands = 0, 0, nil
	payload, err := s.append(nil)
	if err != nil || len(payload) == 0 {
		return err
	}
	if err := w.Flush(); err != nil {
		return err
	}
	w.err = w.out.write(appendRecord(nil, recAdded, payload), w.tick, false)
	return w.err
}

// Reading appends one reading with the tick that consumed it. Its own time (At) is not kept.
func (w *Writer) Reading(tick int64, r pulse.Reading) error {
	if r.Kind < pulse.Controls || r.Kind >= pulse.KindCount {
		if w.err == nil {
			w.err = words.Wrong("take.reading-kind", words.Args{"kind": words.Whole(r.Kind)}).In(w.out.name())
		}
		return w.err
	}
	d, err := w.begin(recReadings, tick)
	if err != nil {
		return err
	}
	b := w.rec
	if d < 15 {
		b = append(b, byte(r.Kind)|byte(d)<<4)
	} else {
		b = append(b, byte(r.Kind)|15<<4)
		b = binary.AppendUvarint(b, d-15)
	}
	if r.Kind != pulse.Controls {
		w.rec = binary.AppendVarint(b, int64(r.Value))
		return nil
	}
	var changed uint64
	for i := range r.Frame {
		if r.Frame[i] != w.frame[i] {
			changed |= 1 << i
		}
	}
	b = binary.AppendUvarint(b, changed)
	for i := range r.Frame {
		if changed>>i&1 == 1 {
			b = binary.AppendVarint(b, int64(r.Frame[i])-int64(w.frame[i]))
		}
	}
	w.rec, w.frame = b, r.Frame
	return nil
}

// Happening appends one line of the record.
func (w *Writer) Happening(tick int64, code uint8, a, b int32) error {
	d, err := w.begin(recHappenings, tick)
	if err != nil {
		return err
	}
	w.rec = binary.AppendUvarint(w.rec, d)
	w.rec = binary.AppendUvarint(w.rec, uint64(code))
	w.rec = binary.AppendVarint(w.rec, int64(a))
	w.rec = binary.AppendVarint(w.rec, int64(b))
	return nil
}

// Digest appends the running digest as it stands after tick was stepped and its happenings were appended. The last one
// before Close also says how long the practice lasted.
func (w *Writer) Digest(tick int64, digest uint64) error {
	d, err := w.begin(recDigests, tick)
	if err != nil {
		return err
	}
	w.rec = binary.AppendUvarint(w.rec, d)
	w.rec = binary.LittleEndian.AppendUint64(w.rec, digest)
	return nil
}

// Flush hands everything to the operating system as whole records. With nothing kept it does nothing.
func (w *Writer) Flush() error {
	if w.err != nil {
		return w.err
	}
	w.endRecord()
	if len(w.buf) == 0 {
		return nil
	}
	w.err = w.out.write(w.buf, w.tick, false)
	w.buf, w.kept = w.buf[:0], -1
	if w.err == nil && w.Sync {
		w.err = w.out.sync()
	}
	return w.err
}

// Close marks the clean end, flushes, waits for the disk and closes the file. It gives the first error there was.
func (w *Writer) Close() error {
	if w.err == nil {
		w.err = w.Flush()
	}
	if err := w.out.close(); w.err == nil {
		w.err = err
	}
	if w.err == nil {
		w.err = words.Wrong("take.closed").In(w.out.name())
		return nil
	}
	return w.err
}

// begin makes ready for an entry of this kind and gives its distance in ticks from the entry before it.
func (w *Writer) begin(kind byte, tick int64) (uint64, error) {
	if w.err != nil {
		return 0, w.err
	}
	if tick < w.tick || tick > maxTick {
		w.err = words.Wrong("take.tick-back", words.Args{"tick": words.Whole(tick), "after": words.Whole(w.tick)}).In(w.out.name())
		return 0, w.err
	}
	if w.kept >= 0 && tick-w.kept >= KeepTicks || len(w.buf) >= fullBuffer {
		if err := w.Flush(); err != nil {
			return 0, err
		}
	}
	if w.kind != kind || len(w.rec) >= fullRecord {
		w.endRecord()
		w.kind = kind
	}
	if w.kept < 0 {
		w.kept = tick
	}
	d := uint64(tick - w.tick)
	w.tick = tick
	return d, nil
}

// endRecord moves the record being filled to the whole ones.
func (w *Writer) endRecord() {
	if w.kind != 0 && len(w.rec) > 0 {
		w.buf = appendRecord(w.buf, w.kind, w.rec)
	}
	w.kind, w.rec = 0, w.rec[:0]
}
