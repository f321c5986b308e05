package script

import (
	"fmt"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Draft is what Write writes.
type Draft struct {
	// Comment stands at the top of the file; it may have several lines. It and the next four may be empty.
	Comment            string
	Name, Craft, Radio string
	Gestures           string
	// Readings are in order of time. Each counts for the first whole millisecond that is not before it; of several
	// readings of the controls in one millisecond the last counts. A width that is no pulse is written as none.
	Readings []pulse.Reading
	// Expects are in order of time.
	Expects []Expect
	// End is when the script ends, in µs; 0 means 1 s after everything else.
	End int64
}

// Write writes a script that, read by Parse with the same names and played, gives these readings again. What the readings
// do not set at 0 is off, or without a pulse. A gap or a sleep cannot be written: it is no one's doing.
func Write(d Draft, names input.Names) ([]byte, error) {
	w := writer{words: newVocabulary(names)}
	if d.Comment != "" {
		w.y.Comment(d.Comment)
	}
	w.y.Text("propsoff", fmt.Sprintf("%s %d", kindWord, version))
	for _, f := range [][2]string{{"name", d.Name}, {"craft", d.Craft}, {"radio-file", d.Radio}, {"gestures", d.Gestures}} {
		if f[1] != "" {
			w.y.Text(f[0], f[1])
		}
	}
	rest, err := w.start(d.Readings)
	if err != nil {
		return nil, err
	}
	w.expects = d.Expects
	if err := w.steps(rest); err != nil {
		return nil, err
	}
	if d.End > 0 {
		w.y.Value("end", clock(ms(d.End)))
	}
	return w.y.Bytes(), nil
}

type writer struct {
	y       yamldoc.Writer
	words   vocabulary
	frame   pulse.Frame
	expects []Expect // still to be written
	listed  bool     // the list of steps was begun
}

// ms is the first whole millisecond that is not before µs.
func ms(us int64) int64 { return (us + 999) / 1000 }

// start writes what the readings set at 0 and gives the others.
func (w *writer) start(rs []pulse.Reading) ([]pulse.Reading, error) {
	n := 0
	for n < len(rs) && ms(rs[n].At) == 0 {
		n++
	}
	state := map[pulse.Kind]int32{pulse.Plug: 0, pulse.Link: 0, pulse.Power: 0}
	var rest []pulse.Reading // of time 0: what start has no place for
	for _, r := range rs[:n] {
		switch r.Kind {
		case pulse.Controls:
			w.frame = clean(r.Frame)
		case pulse.Nudge:
			rest = append(rest, r)
		default:
			state[r.Kind] = r.Value
		}
	}
	w.y.Open("start")
	for kind := pulse.Link; kind < pulse.KindCount; kind++ {
		v, ok := state[kind]
		if !ok {
			continue
		}
		if err := w.bench(pulse.Reading{Kind: kind, Value: v}); err != nil {
			return nil, err
		}
	}
	for c, width := range w.frame {
		switch {
		case width != pulse.Missing:
			w.y.Value(w.name(c), microsText(width))
		case w.words.rest[c] != pulse.Missing: // what is not named is at rest
			w.y.Text(w.name(c), noPulse)
		}
	}
	w.y.Close()
	return append(rest, rs[n:]...), nil
}

// steps writes the readings and expectations that are left.
func (w *writer) steps(rs []pulse.Reading) error {
	defer func() {
		if w.listed {
			w.y.Close()
		}
	}()
	for i := 0; i < len(rs); {
		at := ms(rs[i].At)
		if i > 0 && rs[i].At < rs[i-1].At {
			return words.Wrong("script.out-of-time", words.Args{"n": words.Whole(i), "at": words.Whole(rs[i].At), "before": words.Whole(rs[i-1].At)})
		}
		if err := w.expected(at); err != nil {
			return err
		}
		for i < len(rs) && ms(rs[i].At) == at { // one step each, as far as a step can say it
			var bench []pulse.Reading
			to := w.frame
			for ; i < len(rs) && ms(rs[i].At) == at; i++ {
				r := rs[i]
				if r.Kind == pulse.Controls {
					to = clean(r.Frame)
					continue
				}
				if slices.ContainsFunc(bench, func(b pulse.Reading) bool { return b.Kind == r.Kind }) {
					break
				}
				bench = append(bench, r)
			}
			if err := w.step(at, bench, to); err != nil {
				return err
			}
		}
	}
	return w.expected(1 << 62)
}

// item begins a step; the list of steps begins with the first.
func (w *writer) item(at int64) {
	if !w.listed {
		w.listed = true
		w.y.OpenList("steps")
	}
	w.y.Item()
	w.y.Value("at", clock(at))
}

// step writes one step, if it says anything.
func (w *writer) step(at int64, bench []pulse.Reading, to pulse.Frame) error {
	if len(bench) == 0 && to == w.frame {
		return nil
	}
	w.item(at)
	defer w.y.Close()
	for _, r := range bench {
		if err := w.bench(r); err != nil {
			return err
		}
	}
	for c := range to {
		switch {
		case to[c] == w.frame[c]:
		case to[c] == pulse.Missing:
			w.y.Text(w.name(c), noPulse)
		default:
			w.y.Value(w.name(c), microsText(to[c]))
		}
	}
	w.frame = to
	return nil
}

// expected writes the expectations of a time before at.
func (w *writer) expected(at int64) error {
	for len(w.expects) > 0 && ms(w.expects[0].At) < at {
		e := w.expects[0]
		w.expects = w.expects[1:]
		w.item(ms(e.At))
		switch {
		case e.Kind == Refused:
			w.y.Open("expect")
			w.y.OpenList("refused")
			for _, code := range e.Codes {
				w.y.TextItem(code)
			}
			w.y.Close()
			w.y.Close()
		case e.Kind == Made || e.Kind == InMode:
			w.y.Open("expect")
			w.y.Text(map[Kind]string{Made: "gesture", InMode: "mode"}[e.Kind], e.Codes[0])
			w.y.Close()
		case e.Kind == Happens && len(e.Codes) != 1, e.Kind < Armed, e.Kind > Happens:
			return words.Wrong("script.expectation-unwritten", words.Args{"kind": words.Whole(e.Kind), "codes": words.Whole(len(e.Codes))})
		default:
			w.y.Text("expect", e.String())
		}
		if e.Within > 0 {
			w.y.Value("within", clock(ms(e.Within)))
		}
		w.y.Close()
	}
	return nil
}

// bench writes a bench input as a field.
func (w *writer) bench(r pulse.Reading) error {
	for _, s := range switches {
		if s.kind == r.Kind {
			if r.Value < 0 || int(r.Value) >= len(s.word) {
				return words.Wrong("script.no-value", words.Args{"field": words.Quote(s.name), "value": words.Whole(r.Value)})
			}
			w.y.Text(s.name, s.word[r.Value])
			return nil
		}
	}
	switch r.Kind {
	case pulse.Tilt:
		w.y.Value("tilt", decimal(r.Value, 10, 1)+" deg")
	case pulse.StickMode:
		w.y.Value("stick-mode", decimal(r.Value, 1, 0))
	case pulse.Pack:
		w.y.Value("pack", decimal(r.Value, 1000, 3)+" V")
	case pulse.Propellers:
		fitted, checked := pulse.PropellersOf(r.Value)
		w.y.Open("propellers")
		for i, h := range fitted {
			w.y.Text(motors[i], hands[h+1])
		}
		w.y.Text("checked", map[bool]string{true: "yes", false: "no"}[checked])
		w.y.Close()
	default:
		return words.Wrong("script.reading-unwritten", words.Args{"kind": words.Whole(r.Kind), "at": words.Whole(r.At)})
	}
	return nil
}

func decimal(v, scale int32, places int) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%d.%0*d", v/scale, places, v%scale), "0"), ".")
}

// name is the job on channel c, or its number.
func (w *writer) name(c int) string {
	for _, job := range w.words.jobs {
		if w.words.names.Channel[job] == c {
			return job
		}
	}
	return fmt.Sprintf("ch%d", c+1)
}

// clean makes every width that is no pulse a missing one.
func clean(f pulse.Frame) pulse.Frame {
	for c := range f {
		if !f[c].Valid() {
			f[c] = pulse.Missing
		}
	}
	return f
}
