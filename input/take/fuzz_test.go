package take

import (
	"bytes"
	"io"
	"os"
	"testing"
)

// Whatever the bytes: no panic, no endless loop; what is read can be written and read again, and a torn end can be cut
// off so that the rest reads the same without one.
func FuzzLoad(f *testing.F) {
	seed, err := os.ReadFile("testdata/version1.take")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(seed)
	f.Add(seed[:len(seed)-3])
	f.Add([]byte("propsoff take 1\n"))
	f.Add([]byte("propsoff take 3\n"))
	one := write(f, Settings{}, nil, false)
	f.Add(write(f, testSettings, []Entry{moving(3, 1), {Kind: Part, Tick: 10}, moving(20, 2), {Kind: Part, Tick: 20}, happened(21, 1, 0)}, true))
	f.Add(one)
	f.Add(append(bytes.Clone(one), 2, 0xff, 0xff, 0xff, 0x7f, 1))
	f.Add(appendRecord(bytes.Clone(one), recReadings, []byte{0xf1, 3, 1, 9, 0x12, 1}))
	f.Add(appendRecord(bytes.Clone(one), 200, []byte("later")))
	f.Fuzz(func(t *testing.T, b []byte) {
		check(t, b)
		// Behind right check sums, too: the bytes as content of one record of each kind.
		for kind := recReadings; kind <= recAdded+1; kind++ {
			if len(b) <= maxPayload {
				check(t, appendRecord(bytes.Clone(one), kind, b))
			}
		}
	})
}

func check(t *testing.T, b []byte) {
	r, err := NewReader(bytes.NewReader(b), "x")
	if err != nil {
		return
	}
	m := &memory{room: -1}
	w, err := newWriter("mem", m, r.Settings())
	if err != nil {
		t.Fatal(err)
	}
	var es []Entry
	for {
		var e Entry
		if e, err = r.Next(); err != nil {
			break
		}
		es = append(es, e)
		if e.Kind != Part {
			put(t, w, es[len(es)-1:])
		} else if err := w.Part(r.Settings()); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	for i, e := range es {
		if e.Tick < 0 || i > 0 && e.Tick < es[i-1].Tick || e.Kind == Reading && e.Reading.At != e.Tick*1000 {
			t.Fatalf("entry %d: tick %d, %+v", i, e.Tick, e)
		}
	}
	r2, err2 := NewReader(bytes.NewReader(m.Bytes()), "x")
	if err2 != nil {
		t.Fatal(err2)
	}
	if again, err2 := drain(r2); err2 != io.EOF || !same(again, es) {
		t.Fatalf("written and read again: %d entries of %d, %v", len(again), len(es), err2)
	}
	if torn := r.Torn(); err == io.EOF && torn != nil {
		r3, err3 := NewReader(bytes.NewReader(b[:torn.Offset]), "x")
		if err3 != nil {
			t.Fatal(err3)
		}
		if cut, err3 := drain(r3); err3 != io.EOF || !same(cut, es) || r3.Torn() != nil {
			t.Fatalf("cut at %d: %d entries of %d, %v, torn %v", torn.Offset, len(cut), len(es), err3, r3.Torn())
		}
	}
}
