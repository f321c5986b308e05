package card

import (
	"path/filepath"
	"slices"
	"time"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// Data is everything that stands on a switch card. It holds no picture, no device and no language: a command fills it as well as a window.
type Data struct {
	Craft  string
	Config sim.Config
	// Shipped: the craft is one that ships with the program, unchanged; else File is what its file is called, empty for not known.
	Shipped bool
	File    string
	// Jobs are the named jobs of the craft file beside those that the bench knows.
	Jobs  []craftfile.Job
	Radio handset.Radio
	// Given: a radio file was given; else Radio is an ideal one, and the card says so.
	Given bool
	// Whom is the pupil that it is for; empty for nobody said.
	Whom string
	// Date is the day that stands on it; the zero time leaves it out.
	Date time.Time
	// Proved is what a search found, and Searched on which day, the zero time for not said; nil where none was over, and NotProved says why.
	Proved    *prove.Report
	Searched  time.Time
	NotProved words.Text
	// Like is the old layout as which this one was proved to behave, nil for none.
	Like *tell.Like
	// Searching: a search goes on, and nothing that it found is known.
	Searching bool
}

// Make gives the card of a craft, whose file came from path, and a radio, of which nothing is proved yet. Controls that nobody has placed are drawn
// where they are likely to sit.
func Make(f *craftfile.File, path string, r handset.Radio, given bool) Data {
	r.Controls = slices.Clone(r.Controls)
	r.Settle()
	shipped := assets.CraftShips(f.Text)
	return Data{Craft: f.Name, Config: f.Config(), Shipped: shipped, File: ownFile(f, path, shipped), Jobs: f.More(), Radio: r, Given: given, NotProved: tell.CardNotProved(false)}
}

// ownFile is what the file of a pilot's own craft is called; empty where the craft came from no such file: from standard input, from a take, which
// gives the craft's name for it.
func ownFile(f *craftfile.File, path string, shipped bool) string {
	_, _, name := assets.Craft(path)
	if shipped || name || path == "" || path == f.Name || door.IsStdout(path) {
		return ""
	}
	return filepath.Base(path)
}

// Verdict says what a search came to, or why there was none.
func (c *Data) Verdict() words.Text {
	if c.Proved == nil {
		return c.NotProved
	}
	return tell.CardVerdict(c.Proved)
}

// warnings counts what there is to call out about the layout, and names the worst of it in short.
func (c *Data) warnings() (n int, short words.Text) {
	f := facts.Look(&c.Config, c.Jobs, &c.Radio)
	return f.Warnings(), tell.CalloutsShort(f, &c.Config)
}

// broken are the results of the search that a person must know of, in the order of the rules.
func (c *Data) broken() (out []*prove.Result) {
	if c.Proved == nil {
		return nil
	}
	for i := range c.Proved.Results {
		if r := &c.Proved.Results[i]; r.Outcome == prove.Broken {
			out = append(out, r)
		}
	}
	return out
}

// position is a position of a switch, or some next to each other that do the same: the lowest and highest of their values, and what the
// craft does there.
type position struct {
	low, high   pulse.Width
	first, last int // of a switch, counted from its low end
	does        switches.Position
}

// same tells whether the craft does the same at two positions.
func same(a, b *switches.Position) bool {
	return a.Arm == b.Arm && a.Second == b.Second && a.HasMode == b.HasMode && a.Gap == b.Gap && a.Air == b.Air && a.Mode == b.Mode && slices.Equal(a.On, b.On)
}

// control is a switch or knob of the radio as it stands on the card.
type control struct {
	*handset.Control
	number    int // from 1
	positions []position
}

// controls are those of the radio that are no sticks, in the order of their numbers: what arms first, then the mode, the second switch and
// the others by their channels.
func (c *Data) controls() (out []control) {
	l := &c.Config.Layout
	arm := l.Arm
	if facts.BySticks(&c.Config) {
		arm = layout.NoChannel
	}
	rank := func(channel int8) int {
		for i, first := range [...]int8{arm, l.Mode, l.Second} {
			if channel == first {
				return i
			}
		}
		return pulse.Channels + int(channel)
	}
	for i := range c.Radio.Controls {
		if k := &c.Radio.Controls[i]; k.Kind != handset.Stick {
			out = append(out, control{Control: k})
		}
	}
	slices.SortStableFunc(out, func(a, b control) int { return rank(a.Channel) - rank(b.Channel) })
	for i := range out {
		out[i].number, out[i].positions = i+1, c.positions(out[i].Control)
	}
	return out
}

// unplaced tells whether nobody has said of some control where it sits.
func (c *Data) unplaced() bool {
	return slices.ContainsFunc(c.Radio.Controls, func(k handset.Control) bool { return k.Kind != handset.Stick && k.Spot.Guessed })
}

// positions are those of a control from high to low. The travel of a knob is looked at where something may begin, and what does the same there
// is one.
func (c *Data) positions(k *handset.Control) (out []position) {
	looked, ends := *k, []pulse.Width(nil)
	if k.Kind == handset.Knob {
		ends = c.cuts(k)
		looked.Kind, looked.Positions = handset.Switch, nil
		for _, e := range ends[:len(ends)-1] {
			looked.Positions = append(looked.Positions, handset.Position{Width: e})
		}
	}
	looks := switches.Look(&c.Config, c.Jobs, &handset.Radio{Controls: []handset.Control{looked}})
	for i := range looks.Switches {
		if looks.Switches[i].Control == nil {
			continue
		}
		all := looks.Switches[i].Positions
		for n := len(all) - 1; n >= 0; n-- {
			p := position{all[n].Width, all[n].Width, n, n, all[n]}
			if ends != nil {
				p.high = ends[n+1] - 1
			}
			out = append(out, p)
		}
	}
	if k.Kind == handset.Knob {
		return join(out, same)
	}
	return out
}

// join puts positions next to each other that are alike into one.
func join(all []position, alike func(a, b *switches.Position) bool) (out []position) {
	for _, p := range all {
		if last := len(out) - 1; last >= 0 && alike(&out[last].does, &p.does) {
			out[last].low, out[last].first = p.low, p.first
		} else {
			out = append(out, p)
		}
	}
	return out
}

// cuts are the places of a knob's travel where what the craft does may change, both ends included.
func (c *Data) cuts(k *handset.Control) []pulse.Width {
	at := []pulse.Width{k.Low, k.High + 1}
	looks := switches.Look(&c.Config, c.Jobs, &handset.Radio{Controls: []handset.Control{*k}})
	for i := range looks.Switches {
		if looks.Switches[i].Channel != k.Channel {
			continue
		}
		for _, j := range looks.Switches[i].Jobs {
			for _, s := range j.Spans {
				for _, e := range [2]pulse.Width{s.Low, s.High} {
					if e > k.Low && e <= k.High {
						at = append(at, e)
					}
				}
			}
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// zone is the part of a knob's travel that a position is, as a span: open where the travel ends.
func zone(k *handset.Control, p *position) layout.Span {
	s := layout.Span{Low: p.low, High: p.high + 1}
	if s.Low <= k.Low {
		s.Low = pulse.Lowest
	}
	if s.High > k.High {
		s.High = pulse.Highest
	}
	return s
}

// absent are the jobs that no control of the radio carries: those that the bench knows, and those that this craft names besides.
func (c *Data) absent() (out [2][]string) {
	for channel := range int8(pulse.Channels) {
		if c.Radio.On(channel) != nil {
			continue
		}
		if job := codes.Job(&c.Config.Layout, int(channel)); job != "" {
			out[0] = append(out[0], job)
		}
		for _, j := range c.Jobs {
			if j.Channel == channel {
				out[1] = append(out[1], j.Name)
			}
		}
	}
	return out
}

// on is the control of the card that a channel carries; nil where there is none.
func on(all []control, channel int8) *control {
	for i := range all {
		if channel >= 0 && all[i].Channel == channel {
			return &all[i]
		}
	}
	return nil
}

// numberOn is the number of that control; 0 where there is none.
func numberOn(all []control, channel int8) int {
	if k := on(all, channel); k != nil {
		return k.number
	}
	return 0
}
