package take

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"syscall"

	"propsoff/sim/pulse"
)

// KeepTicks is the longest time, in ticks of the practice, for which the Writer keeps entries by itself: the next entry
// that comes later writes them out first. A caller that flushes oftener loses less.
const KeepTicks = 100

// file is what the Writer needs of an open file; os.File has it.
type file interface {
	io.Writer
	Truncate(size int64) error
	Sync() error
	Close() error
}

// Writer appends to a new take. It keeps entries until Flush, which hands whole records to the operating system in one
// write: a kill of the program loses nothing that was flushed (a power cut may lose more; see Sync). Errors stick: after
// the first one everything is refused with it, and the practice goes on without being recorded. In steady state nothing
// is allocated. Not for use by several goroutines at once.
type Writer struct {
	name string
	f    file
	err  error

	tick  int64       // of the entry before
	frame pulse.Frame // of the last Controls reading

	kind byte   // of the record being filled, 0 for none
	rec  []byte // its payload
	buf  []byte // whole records not yet written
	kept int64  // tick of the oldest entry not yet written, -1 for none
	size int64  // bytes written, all of them whole records
	done int64  // tick of the last entry written

	// Sync makes Flush wait until the disk has it, against power cuts; Close does so anyway.
	Sync bool
}

// Create begins a take at path, which must not exist yet, with its first line and its settings.
func Create(path string, s Settings) (*Writer, error) {
	if _, err := s.append(nil); err != nil { // before there is a file
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return nil, fmt.Errorf("%s: there is a file of this name already, and a take is never overwritten: choose another name", path)
	}
	if err != nil {
		return nil, notMade(path, err)
	}
	w, err := newWriter(path, f, s)
	if err != nil {
		f.Close()
		os.Remove(path) // ours, made a moment ago, and without its settings of no use
		return nil, err
	}
	return w, nil
}

func newWriter(name string, f file, s Settings) (*Writer, error) {
	payload, err := s.append(nil)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	w := &Writer{
		name: name, f: f, kept: -1,
		rec: make([]byte, 0, fullRecord+128), // one entry is at most 1+10+3+16·3 bytes
		buf: make([]byte, 0, fullBuffer+2*fullRecord),
	}
	head := fmt.Appendf(nil, "%s%d\n", header, Version)
	if err := w.write(appendRecord(head, recSettings, payload)); err != nil {
		return nil, err
	}
	return w, nil
}

// Reading appends one reading with the tick that consumed it. Its own time (At) is not kept.
func (w *Writer) Reading(tick int64, r pulse.Reading) error {
	if r.Kind < pulse.Controls || r.Kind >= pulse.KindCount {
		if w.err == nil {
			w.err = fmt.Errorf("%s: a reading of unknown kind %d", w.name, r.Kind)
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

// Digest appends the running digest as it is after tick was stepped and its happenings were appended. The last one
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
	err := w.write(w.buf)
	w.buf, w.kept = w.buf[:0], -1
	if err == nil && w.Sync {
		if err = w.f.Sync(); err != nil {
			w.err = fmt.Errorf("%s: %w", w.name, err)
		}
	}
	return w.err
}

// Close marks the clean end, flushes, waits for the disk and closes the file. It gives the first error there was.
func (w *Writer) Close() error {
	if w.f == nil {
		return w.err
	}
	if d, err := w.begin(recEnd, w.tick); err == nil {
		w.rec = binary.AppendUvarint(w.rec, d)
		if w.Flush() == nil {
			if err := w.f.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) { // EINVAL: nothing to wait for there
				w.err = fmt.Errorf("%s: %w", w.name, err)
			}
		}
	}
	if err := w.f.Close(); err != nil && w.err == nil {
		w.err = fmt.Errorf("%s: %w", w.name, err)
	}
	w.f = nil
	if w.err == nil {
		w.err = fmt.Errorf("%s: the take is closed", w.name)
		return nil
	}
	return w.err
}

// Size is the number of bytes written so far.
func (w *Writer) Size() int64 { return w.size }

// begin makes ready for an entry of this kind and gives its distance in ticks from the entry before it.
func (w *Writer) begin(kind byte, tick int64) (uint64, error) {
	if w.err != nil {
		return 0, w.err
	}
	if tick < w.tick || tick > maxTick {
		w.err = fmt.Errorf("%s: tick %d after tick %d: a take never goes back", w.name, tick, w.tick)
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

// write hands b, whole records, to the file. If only a part went through, the part is cut off again.
func (w *Writer) write(b []byte) error {
	n, err := w.f.Write(b)
	if err == nil && n < len(b) {
		err = io.ErrShortWrite
	}
	if err == nil {
		w.size += int64(n)
		w.done = w.tick
		return nil
	}
	if n > 0 {
		w.f.Truncate(w.size) // where this fails too the reader finds the torn record by its check
	}
	what := "cannot be written"
	if errors.Is(err, syscall.ENOSPC) {
		what = "the disk is full"
	}
	if w.size == 0 {
		w.err = fmt.Errorf("%s: %s, so nothing is recorded: make room, or choose another place: %w", w.name, what, err)
	} else {
		w.err = fmt.Errorf("%s: %s; the recording ends at %s and is whole up to there, the practice goes on: %w", w.name, what, Clock(w.done), err)
	}
	return w.err
}
