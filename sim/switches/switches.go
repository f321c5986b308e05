// Package switches says what the craft does at each position of each switch, how near the next edge is, and what to call out.
//
// It puts three things together: the craft as the bench has it, the named jobs of its file, and what a radio can send. What comes out
// is facts in numbers and codes; whoever shows them finds the words.
package switches

import (
	"cmp"
	"slices"

	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Thin margins (ours): nearer to an edge than this width, or than so many times the noise.
const (
	LeastMargin = 30 * pulse.Eighths
	LeastTimes  = 6
	// LeastNoise is the least that noise counts as, 1 µs: the kernel's own filter hides anything less.
	LeastNoise = pulse.Eighths
)

// Kind is what sort of job a channel has.
type Kind uint8

const (
	Arm    Kind = iota // arms and disarms
	Second             // the second switch
	Mode               // chooses the flight mode
	Named              // a named job of the craft file
)

// Job is one job on a switch's channel, with its spans.
type Job struct {
	Kind Kind
	// Index is a Named job's place in the list of them, Name its name.
	Index int
	Name  string
	Spans []Span
}

// Span is one span of a job; Mode counts for a job of kind Mode.
type Span struct {
	layout.Span
	Mode layout.Mode
}

// Switch is one control with positions, or a channel with a job that a switch should carry.
type Switch struct {
	Channel int8
	// Control is what the radio has there; nil where it sends nothing on this channel.
	Control *handset.Control
	// Jobs are those of the channel: arm, second, mode, then the named ones in the order of the file.
	Jobs []Job
	// Positions go from low to high; there are none where Control is no switch.
	Positions []Position
	// Callouts are about the switch as a whole.
	Callouts []Callout
}

// Position is one position of a switch and what the craft does there.
type Position struct {
	// Width and Spread are as measured; Noise is the larger of the spread and LeastNoise.
	Width, Spread, Noise pulse.Width
	// Arm and Second are layout.Inside, layout.Outside, or layout.NoJob where this channel does not have that job.
	Arm, Second layout.Place
	// HasMode: this channel carries the mode, which is Mode here. Gap: it is so because no span matches. Air: air mode is on in it.
	HasMode, Gap, Air bool
	Mode              layout.Mode
	// On are the named jobs that are on here, as indices in their list.
	On []int
	// HasEdge: some span of this channel has an edge that could be crossed. Margin is how far off the nearest is, in eighths of a µs, at
	// least 1; Edge is the first width on its upper side, Of the job whose edge it is, as an index into Switch.Jobs.
	HasEdge  bool
	Margin   pulse.Width
	Edge     pulse.Width
	Of       int
	Callouts []Callout
}

// Times is how many times the noise goes into the margin, in tenths, rounded down.
func (p *Position) Times() int { return int(p.Margin) * 10 / int(p.Noise) }

// Facts is everything that Look finds out. Switches stand in the order of their channels, one switch for each channel.
type Facts struct {
	Switches []Switch
	// Callouts are about the craft and the sticks.
	Callouts []Callout
	// Jobs are the named jobs that the indices point into.
	Jobs []craftfile.Job
	// Measured is false where the radio is an ideal one or was never looked at.
	Measured bool
}

// Look works the facts out. Of what it is given it keeps only the names and spans of jobs.
func Look(cfg *sim.Config, jobs []craftfile.Job, radio *handset.Radio) *Facts {
	f := &Facts{Jobs: jobs, Measured: radio.Measured}
	l := &cfg.Layout
	sticks := []int8{l.Throttle, l.Roll, l.Pitch, l.Yaw}
	for c := range int8(pulse.Channels) {
		control, has := radio.On(c), jobsOn(cfg, jobs, c)
		if len(has) == 0 && slices.Contains(sticks, c) {
			continue
		}
		if len(has) == 0 && (control == nil || control.Kind != handset.Switch) {
			continue
		}
		s := Switch{Channel: c, Jobs: has}
		if control != nil {
			copied := *control
			s.Control = &copied
		}
		s.positions(cfg)
		s.callOut(cfg)
		f.Switches = append(f.Switches, s)
	}
	f.callOut(cfg, radio)
	return f
}

// jobsOn are the jobs of a channel.
func jobsOn(cfg *sim.Config, jobs []craftfile.Job, c int8) (out []Job) {
	l := &cfg.Layout
	if l.Arm == c {
		out = append(out, Job{Kind: Arm, Spans: []Span{{Span: l.ArmSpan}}})
	}
	if l.Second == c {
		out = append(out, Job{Kind: Second, Spans: []Span{{Span: l.SecondSpan}}})
	}
	if l.Mode == c {
		j := Job{Kind: Mode}
		for _, s := range l.Spans[:l.SpanCount] {
			j.Spans = append(j.Spans, Span{s.Span, s.Mode})
		}
		out = append(out, j)
	}
	for i := range jobs {
		if jobs[i].Channel != c {
			continue
		}
		j := Job{Kind: Named, Index: i, Name: jobs[i].Name}
		for _, s := range jobs[i].Spans {
			j.Spans = append(j.Spans, Span{Span: s})
		}
		out = append(out, j)
	}
	return out
}

func (s *Switch) positions(cfg *sim.Config) {
	if s.Control == nil || s.Control.Kind != handset.Switch {
		return
	}
	for _, at := range s.Control.Positions {
		p := Position{Width: at.Width, Spread: at.Spread, Noise: max(at.Spread, LeastNoise)}
		s.read(cfg, &p)
		s.nearest(&p)
		s.Positions = append(s.Positions, p)
	}
}

// read works out what the craft does at a position.
func (s *Switch) read(cfg *sim.Config, p *Position) {
	for i := range s.Jobs {
		j := &s.Jobs[i]
		in := j.at(p.Width) >= 0
		place := layout.Outside
		if in {
			place = layout.Inside
		}
		switch j.Kind {
		case Arm:
			p.Arm = place
		case Second:
			p.Second = place
		case Mode:
			p.HasMode, p.Gap, p.Mode = true, !in, cfg.Layout.ModeAt(p.Width)
			p.Air = cfg.Flight.AirModes>>p.Mode&1 == 1
		case Named:
			if in {
				p.On = append(p.On, j.Index)
			}
		}
	}
}

// at is the span of a job in which a width stands, −1 for none.
func (j *Job) at(w pulse.Width) int {
	return slices.IndexFunc(j.Spans, func(s Span) bool { return s.Contains(w) })
}

// nearest finds the nearest edge of a span that leads somewhere.
func (s *Switch) nearest(p *Position) {
	const nowhere = pulse.Highest - pulse.Lowest
	for i := range s.Jobs {
		for _, span := range s.Jobs[i].Spans {
			m := span.Margin(p.Width)
			edge := edgeOf(span.Span, p.Width, m)
			if m < 0 {
				m = -m
			}
			if m >= nowhere || m == 0 || p.HasEdge && m >= p.Margin {
				continue
			}
			p.HasEdge, p.Margin, p.Edge, p.Of = true, m, edge, i
		}
	}
}

// edgeOf is the first width on the upper side of the edge that lies m (layout.Span.Margin) from w.
func edgeOf(s layout.Span, w, m pulse.Width) pulse.Width {
	switch {
	case m < 0 && w < s.Low:
		return s.Low
	case m < 0:
		return s.High
	case s.High < pulse.Highest && s.High-w == m:
		return s.High
	}
	return s.Low
}

// Live is the index of the position nearest to a width, −1 where there is none or the width is no pulse.
func (s *Switch) Live(w pulse.Width) int {
	if !w.Valid() || len(s.Positions) == 0 {
		return -1
	}
	best := 0
	for i := range s.Positions {
		if distance(s.Positions[i].Width, w) < distance(s.Positions[best].Width, w) {
			best = i
		}
	}
	return best
}

func distance(a, b pulse.Width) pulse.Width { return max(a-b, b-a) }

// Worst is the index of the position with the least margin in widths, −1 where none has an edge.
func (s *Switch) Worst() int {
	worst := -1
	for i := range s.Positions {
		if s.Positions[i].HasEdge && (worst < 0 || cmp.Less(s.Positions[i].Margin, s.Positions[worst].Margin)) {
			worst = i
		}
	}
	return worst
}
