package take

import (
	"encoding/binary"
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// entry decodes the next entry of the record being read.
func (r *Reader) entry() (Entry, error) {
	switch r.kind {
	case recReadings:
		return r.reading()
	case recHappenings:
		return r.happening()
	case recSettings:
		return r.part()
	default:
		return r.digest()
	}
}

// add takes fields that became known while the part went on.
func (r *Reader) add() error {
	s, err := parseInto(r.settings, r.rec)
	if err == nil && (s.Model != r.settings.Model || s.From != r.settings.From) {
		err = senseless("take.settings-fixed")
	}
	if err == nil {
		r.settings, r.rec = s, nil
	}
	return err
}

// part begins another part.
func (r *Reader) part() (Entry, error) {
	s, err := parseSettings(r.rec)
	if err == nil && s.From < r.tick {
		err = senseless("take.part-early")
	}
	if err == nil && s.From-r.first > LongestTicks {
		err = senseless("take.part-late")
	}
	if err != nil {
		return Entry{}, err
	}
	r.settings, r.rec, r.tick, r.frame = s, nil, s.From, pulse.Frame{}
	return Entry{Kind: Part, Tick: s.From}, nil
}

func (r *Reader) reading() (Entry, error) {
	first := r.rec[0]
	r.rec = r.rec[1:]
	kind := pulse.Kind(first & 15)
	if kind < pulse.Controls || kind >= pulse.KindCount {
		return Entry{}, senseless("take.reading-kind", words.Args{"kind": words.Whole(kind)})
	}
	d := uint64(first >> 4)
	if d == 15 {
		more, ok := r.uvarint()
		if !ok || more > LongestTicks {
			return Entry{}, senseless("take.reading-tick")
		}
		d += more
	}
	if !r.pass(d) {
		return Entry{}, senseless("take.reading-tick")
	}
	e := Entry{Kind: Reading, Tick: r.tick, Reading: pulse.Reading{At: r.tick * 1000, Kind: kind}}
	if kind != pulse.Controls {
		v, ok := r.varint32()
		if !ok {
			return Entry{}, senseless("take.reading-value")
		}
		e.Reading.Value = v
		return e, nil
	}
	changed, ok := r.uvarint()
	if !ok || changed >= 1<<pulse.Channels {
		return Entry{}, senseless("take.reading-channels")
	}
	for i := 0; changed>>i != 0; i++ {
		if changed>>i&1 == 0 {
			continue
		}
		v, ok := r.varint32()
		w := int64(r.frame[i]) + int64(v)
		if !ok || w < math.MinInt16 || w > math.MaxInt16 {
			return Entry{}, senseless("take.reading-channel")
		}
		r.frame[i] = pulse.Width(w)
	}
	e.Reading.Frame = r.frame
	return e, nil
}

func (r *Reader) happening() (Entry, error) {
	d, ok := r.uvarint()
	code, ok2 := r.uvarint()
	a, ok3 := r.varint32()
	b, ok4 := r.varint32()
	if !ok || !ok2 || !ok3 || !ok4 || code > math.MaxUint8 || !r.pass(d) {
		return Entry{}, senseless("take.a-happening")
	}
	return Entry{Kind: Happening, Tick: r.tick, Code: uint8(code), A: a, B: b}, nil
}

func (r *Reader) digest() (Entry, error) {
	d, ok := r.uvarint()
	if !ok || len(r.rec) < 8 || !r.pass(d) {
		return Entry{}, senseless("take.a-digest")
	}
	e := Entry{Kind: Digest, Tick: r.tick, Digest: binary.LittleEndian.Uint64(r.rec)}
	r.rec = r.rec[8:]
	return e, nil
}

// pass moves the tick on by d, if the take may last so long.
func (r *Reader) pass(d uint64) bool {
	if d > LongestTicks || r.tick+int64(d)-r.first > LongestTicks {
		return false
	}
	r.tick += int64(d)
	return true
}

func (r *Reader) uvarint() (uint64, bool) {
	v, n := binary.Uvarint(r.rec)
	if n <= 0 {
		return 0, false
	}
	r.rec = r.rec[n:]
	return v, true
}

func (r *Reader) varint32() (int32, bool) {
	v, n := binary.Varint(r.rec)
	if n <= 0 || v < math.MinInt32 || v > math.MaxInt32 {
		return 0, false
	}
	r.rec = r.rec[n:]
	return int32(v), true
}
