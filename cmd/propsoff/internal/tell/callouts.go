package tell

import (
	"propsoff/assets/words"
	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// CalloutAt says what is called out at a position.
func CalloutAt(f *switches.Facts, s *switches.Switch, p *switches.Position, c switches.Callout) words.Text {
	return calloutAlone(calloutAt(f, s, p, c))
}

// CalloutOf says what is called out at a switch as a whole.
func CalloutOf(s *switches.Switch, c switches.Callout) words.Text {
	return calloutAlone(calloutOf(s, c))
}

// CalloutPlaced puts before a callout what it is about.
func CalloutPlaced(place, says words.Text) words.Text {
	return words.T("layout.call-placed", words.Args{"place": place, "text": says})
}

// calloutAlone is a callout that no place stands before.
func calloutAlone(text words.Text) words.Text {
	if text.Empty() {
		return text
	}
	return words.T("layout.call", words.Args{"text": text})
}

func calloutAt(f *switches.Facts, s *switches.Switch, p *switches.Position, c switches.Callout) words.Text {
	edge := Exact(c.At)
	switch c.Code {
	case switches.NoSpan:
		return words.T("layout.call-no-span")
	case switches.TwoJobs:
		return words.T("layout.call-two-jobs", words.Args{"jobs": PositionDoes(f, s, p)})
	case switches.Narrow:
		return words.T("layout.call-narrow", words.Args{"far": positionFar(p), "edge": edge})
	case switches.NoisyFor:
		return words.T("layout.call-noisy", words.Args{"times": noiseTimes(p), "edge": edge})
	}
	return words.Text{}
}

func calloutOf(s *switches.Switch, c switches.Callout) words.Text {
	channel := ChannelNumber(int(c.Channel))
	span := func(n int) words.Text { return SpanWords(s.Jobs[c.Job].Spans[n].Span) }
	switch c.Code {
	case switches.Unreached:
		return words.T("layout.call-unreached", words.Args{"name": SpanOf(&s.Jobs[c.Job], c.Span), "span": span(c.Span)})
	case switches.NeverArms:
		return words.T("layout.call-never-arms", words.Args{"span": span(0)})
	case switches.NeverDisarms:
		return words.T("layout.call-never-disarms", words.Args{"span": span(0)})
	case switches.NotSent:
		return words.T("layout.call-not-sent", words.Args{"channel": channel, "jobs": words.And(switchJobs(s)...)})
	case switches.NoSwitch:
		return words.T("layout.call-no-switch")
	case switches.Shared:
		return words.T("layout.call-shared", words.Args{"channel": channel, "jobs": words.And(switchJobs(s)...)})
	case switches.Unused:
		return words.T("layout.call-unused")
	}
	return words.Text{}
}

// SpanOf calls a span by its job, one of the mode switch by its mode.
func SpanOf(j *switches.Job, span int) words.Text {
	if j.Kind == switches.Mode {
		return Mode(j.Spans[span].Mode)
	}
	return SwitchJob(j)
}

// CalloutCraft says what is called out about the craft and the sticks.
func CalloutCraft(c switches.Callout, cfg *sim.Config) words.Text {
	at := Micros(c.At)
	switch c.Code {
	case switches.ThrottleHigh:
		return words.T("layout.throttle-high", words.Args{"at": at, "limit": Exact(cfg.Arming.LowThrottle)})
	case switches.YawShort:
		if c.At > pulse.Centre {
			return words.T("layout.yaw-right-short", words.Args{"at": at, "limit": Exact(cfg.Arming.YawRight)})
		}
		return words.T("layout.yaw-left-short", words.Args{"at": at, "limit": Exact(cfg.Arming.YawLeft)})
	case switches.StickUnsent:
		return words.T("layout.stick-unsent", words.Args{"channel": Channel(&cfg.Layout, int(c.Channel))})
	case switches.NeverSinks:
		return words.T("layout.never-sinks", words.Args{"why": neverSinks(cfg)})
	}
	return words.Text{}
}

// PositionDoes says what the craft does at a position of a switch.
func PositionDoes(f *switches.Facts, s *switches.Switch, p *switches.Position) words.Text {
	var parts []words.Text
	if p.Arm == layout.Inside || p.Arm == layout.Outside {
		parts = append(parts, words.T("layout.arms", words.Args{"on": words.Flag(p.Arm == layout.Inside)}))
	}
	if p.HasMode {
		mode := Mode(p.Mode)
		if p.Gap {
			mode = Gap(mode)
		}
		parts = append(parts, words.T("layout.mode", words.Args{"mode": mode, "air": words.Flag(p.Air)}))
	}
	if p.Second != layout.NoJob {
		parts = append(parts, words.T("layout.second", words.Args{"on": words.Flag(p.Second == layout.Inside)}))
	}
	for _, i := range p.On {
		parts = append(parts, jobOn(f.Jobs[i].Name, true))
	}
	if len(parts) == 0 {
		for i := range s.Jobs {
			parts = append(parts, jobOn(s.Jobs[i].Name, false))
		}
	}
	if len(parts) == 0 {
		return words.T("layout.no-job")
	}
	return words.Clauses(parts...)
}

func jobOn(name string, on bool) words.Text {
	return words.T("layout.job", words.Args{"job": words.Quote(name), "on": words.Flag(on)})
}
