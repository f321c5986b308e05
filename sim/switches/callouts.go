package switches

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Code says what is called out.
type Code uint8

// What is called out at a position, at a switch, and at the craft, in this order.
const (
	NoSpan   Code = iota + 1 // the mode channel stands in no span here: rate
	TwoJobs                  // two or more jobs hold here
	Narrow                   // nearer to an edge than LeastMargin
	NoisyFor                 // nearer to an edge than LeastTimes the noise, but not Narrow

	Unreached    // no position reaches span Span of job Job
	NeverArms    // no position of the arm switch is in its span
	NeverDisarms // every position of the arm switch is in its span
	NotSent      // jobs stand on this channel and the radio sends nothing on it
	NoSwitch     // jobs stand on this channel and what carries it has no positions: a stick or knob
	Shared       // a named job shares the channel with another job
	Unused       // no job uses this control: worth telling, no warning

	ThrottleHigh // the throttle's lowest value is not below the low mark: At
	YawShort     // by sticks: yaw does not get fully to the right, or fully to the left: At
	StickUnsent  // the radio sends nothing on a stick's channel
	NeverSinks   // it is to sink on a lost link and never does, whatever the radio; whoever has asked the bench adds this
)

// Callout is one thing to call out. Which of At (a width), Job, Span and Channel (from 0) count depends on the code; the rest are 0.
type Callout struct {
	Code Code
	// Job is an index into Switch.Jobs, Span one into that job's spans.
	Job, Span int
	At        pulse.Width
	Channel   int8
}

// Told reports whether the callout is only worth telling, and is no warning.
func (c Code) Told() bool { return c == Unused || c == Shared }

// callOut finds what to call out at a switch and its positions.
func (s *Switch) callOut(cfg *sim.Config) {
	say := func(c Code) { s.Callouts = append(s.Callouts, Callout{Code: c, Channel: s.Channel}) }
	if len(s.Jobs) == 0 {
		say(Unused)
		return
	}
	if len(s.Jobs) > 1 {
		say(Shared)
	}
	switch {
	case s.Control == nil:
		say(NotSent)
		return
	case len(s.Positions) == 0:
		say(NoSwitch)
		return
	}
	for i := range s.Jobs {
		s.callOutJob(i)
	}
	for i := range s.Positions {
		s.Positions[i].callOut(s)
	}
}

func (s *Switch) callOutJob(i int) {
	j := &s.Jobs[i]
	if j.Kind == Arm {
		in := 0
		for n := range s.Positions {
			if s.Positions[n].Arm == layout.Inside {
				in++
			}
		}
		switch in {
		case 0:
			s.Callouts = append(s.Callouts, Callout{Code: NeverArms, Job: i, Channel: s.Channel})
		case len(s.Positions):
			s.Callouts = append(s.Callouts, Callout{Code: NeverDisarms, Job: i, Channel: s.Channel})
		}
		return
	}
	for n := range j.Spans {
		reached := false
		for k := range s.Positions {
			reached = reached || j.Spans[n].Contains(s.Positions[k].Width)
		}
		if !reached {
			s.Callouts = append(s.Callouts, Callout{Code: Unreached, Job: i, Span: n, Channel: s.Channel})
		}
	}
}

func (p *Position) callOut(s *Switch) {
	say := func(c Callout) {
		c.Channel = s.Channel
		p.Callouts = append(p.Callouts, c)
	}
	hold := len(p.On)
	for _, is := range [...]bool{p.Arm == layout.Inside, p.Second == layout.Inside, p.HasMode && !p.Gap} {
		if is {
			hold++
		}
	}
	if p.HasMode && p.Gap {
		say(Callout{Code: NoSpan})
	}
	if hold > 1 {
		say(Callout{Code: TwoJobs})
	}
	switch {
	case !p.HasEdge:
	case p.Margin < LeastMargin:
		say(Callout{Code: Narrow, Job: p.Of, At: p.Edge})
	case p.Margin < LeastTimes*p.Noise:
		say(Callout{Code: NoisyFor, Job: p.Of, At: p.Edge})
	}
}

// callOut finds what to call out at the craft and the sticks.
func (f *Facts) callOut(cfg *sim.Config, radio *handset.Radio) {
	say := func(c Code, channel int8, at pulse.Width) {
		f.Callouts = append(f.Callouts, Callout{Code: c, Channel: channel, At: at})
	}
	l := &cfg.Layout
	for _, c := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw} {
		if radio.On(c) == nil {
			say(StickUnsent, c, 0)
		}
	}
	if t := radio.On(l.Throttle); t != nil && t.Kind != handset.Switch && t.Low >= cfg.Arming.LowThrottle {
		say(ThrottleHigh, l.Throttle, t.Low)
	}
	if y := radio.On(l.Yaw); y != nil && y.Kind != handset.Switch && cfg.Arming.By == arming.BySticks {
		if y.High < cfg.Arming.YawRight {
			say(YawShort, l.Yaw, y.High)
		}
		if y.Low > cfg.Arming.YawLeft {
			say(YawShort, l.Yaw, y.Low)
		}
	}
}

// Warnings counts the callouts that are warnings.
func (f *Facts) Warnings() (n int) {
	n = len(f.Callouts)
	for i := range f.Switches {
		n += f.Switches[i].Warnings()
	}
	return n
}

// Warnings counts the callouts of a switch and its positions that are warnings.
func (s *Switch) Warnings() (n int) {
	count := func(all []Callout) {
		for _, c := range all {
			if !c.Code.Told() {
				n++
			}
		}
	}
	count(s.Callouts)
	for i := range s.Positions {
		count(s.Positions[i].Callouts)
	}
	return n
}
