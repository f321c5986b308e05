package drill

import "propsoff.example/sim/happening"

// The room of a flight, and how far apart two of its moments are, in ticks: together they hold 82 s (ours).
const (
	mostFlown  = 2048
	flownApart = 40
)

// FlightMoment is how the craft flew at a tick.
type FlightMoment struct {
	Tick int64
	Flown
}

// Flight is how the craft flew through one try; of one that is longer than there is room for, the end. Its zero value is empty.
type Flight struct {
	n, first int
	at       [mostFlown]FlightMoment
	// touched is how fast it came down when it last touched the ground, in mm/s.
	touched int32
}

// Moments is how many there are, and At gives one of them, the oldest first.
func (f *Flight) Moments() int { return f.n }

// At is moment i.
func (f *Flight) At(i int) *FlightMoment { return &f.at[(f.first+i)%mostFlown] }

// note keeps how the craft flies now; the end is kept whenever it comes.
func (f *Flight) note(in *Input, end bool) {
	for i := range in.Happened {
		if h := &in.Happened[i]; h.Code == happening.TouchedDown {
			f.touched = h.A
		}
	}
	if !in.Facts.Flown.On || !end && f.n > 0 && in.Tick < f.At(f.n-1).Tick+flownApart {
		return
	}
	if f.n == mostFlown {
		f.first = (f.first + 1) % mostFlown
		f.n--
	}
	f.at[(f.first+f.n)%mostFlown] = FlightMoment{in.Tick, in.Facts.Flown}
	f.n++
}

// flewOf says how the craft flew in a try that ended on how it flies, and reports whether it did.
func flewOf(c *Case, t *Try, w *Way, d *Did) bool {
	n := int(t.Number)
	switch {
	case t.Why == StillMissing && n < len(c.Wants) && c.Wants[n].Kind == Flies:
		*d = w.Flight.missed(&c.Wants[n], w.Cue)
	case t.Why == NeverSeen && n < len(c.Nevers) && c.Nevers[n].Kind == Leaves:
		*d = w.Flight.left(&c.Nevers[n].Task)
	case t.Why == NeverSeen && n < len(c.Nevers) && c.Nevers[n].Kind == TouchesDown:
		*d = Did{Kind: DidTouch, Flew: w.Flight.touched}
	}
	return d.Kind != DidNoMatter
}

// beyond tells of a bound that the craft did not keep to.
func (f *Flight) beyond(kind DidKind, t *Task, at *Flown) Did {
	b, ok := t.Broken(at)
	if !ok {
		return Did{}
	}
	return Did{Kind: kind, Bound: b, Side: int8(t.Off(b, at)), Flew: t.Value(b, at)}
}

// left is what the craft did not keep to at the end of a try.
func (f *Flight) left(t *Task) Did {
	if f.n == 0 {
		return Did{}
	}
	return f.beyond(DidFly, t, &f.At(f.n-1).Flown)
}

// missed is what the craft did not keep to for as long as it was to: what ended its longest stay, or what was wrong at the end where it never came there.
func (f *Flight) missed(w *Want, from int64) Did {
	since, longest := int64(-1), int64(0)
	var out Did
	for i := range f.n {
		m := f.At(i)
		switch keeps := m.Tick >= from && w.Task.Keeps(&m.Flown); {
		case keeps && since < 0:
			since = m.Tick
		case !keeps && since >= 0:
			if m.Tick-since > longest {
				longest = m.Tick - since
				out = f.beyond(DidLeave, &w.Task, &m.Flown)
				out.By = longest
			}
			since = -1
		}
	}
	switch {
	case since >= 0 && w.For > 0 && f.At(f.n-1).Tick-since >= longest:
		return Did{Kind: DidBriefly, By: f.At(f.n-1).Tick - since}
	case longest > 0:
		return out
	}
	return f.left(&w.Task)
}
