package tell

import (
	"errors"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// SwitchJob calls one job of a switch.
func SwitchJob(j *switches.Job) words.Text {
	switch j.Kind {
	case switches.Arm:
		return words.T("job.arm")
	case switches.Second:
		return words.T("control.second-switch")
	case switches.Mode:
		return words.T("job.mode")
	}
	return words.AsIs(j.Name)
}

// saidJob is SwitchJob inside a sentence.
func saidJob(j *switches.Job) words.Text {
	switch j.Kind {
	case switches.Arm:
		return jobSaid("arm")
	case switches.Second:
		return jobSaid("second")
	case switches.Mode:
		return jobSaid("mode")
	}
	return words.AsIs(j.Name)
}

func jobsSaid(s *switches.Switch) (out []words.Text) {
	for i := range s.Jobs {
		out = append(out, saidJob(&s.Jobs[i]))
	}
	return out
}

// SwitchName calls a switch as its pilot does, else by its jobs, else by its channel.
func SwitchName(s *switches.Switch) words.Text {
	var jobs words.Text
	for i := range s.Jobs {
		j := SwitchJob(&s.Jobs[i])
		if i > 0 {
			j = words.T("layout.plus", words.Args{"a": jobs, "b": j})
		}
		jobs = j
	}
	called := ""
	if s.Control != nil {
		called = s.Control.Called
	}
	switch {
	case jobs.Empty() && called == "":
		return ChannelNumber(int(s.Channel))
	case called == "", called == words.English().Say(jobs): // which is how a radio file has it
		return jobs
	case jobs.Empty():
		return words.AsIs(called)
	}
	return words.T("layout.named", words.Args{"called": words.Quote(called), "jobs": jobs})
}

// SwitchFrom says which channel a switch is on and what carries it.
func SwitchFrom(s *switches.Switch) words.Text {
	source, springs := "", false
	if s.Control != nil {
		source, springs = s.Control.Source, s.Control.Momentary
	}
	return words.T("layout.from", words.Args{"channel": ChannelNumber(int(s.Channel)), "source": carriedBy(source), "springs": words.Flag(springs)})
}

// carriedBy is what carries a control, as handset.Control has it: "axis 5", "button 3", "buttons 1, 2".
func carriedBy(source string) words.Text {
	what, numbers, _ := strings.Cut(source, " ")
	switch what {
	case "axis", "button", "buttons":
		return words.Of("raw", what, words.Args{"n": words.Quote(numbers)})
	}
	return words.AsIs(source)
}

// LayoutKept says where the craft file is, and whether what is seen stands in it.
func LayoutKept(path string, shipped bool, changes int) words.Text {
	where := words.T("layout.file", words.Args{"path": words.Quote(path), "shipped": words.Flag(shipped)})
	if changes == 0 {
		return where
	}
	return words.Row(words.T("layout.changes", words.Args{"n": words.Count(changes)}), where)
}

// LayoutTitle heads the levers: how many of all are drawn.
func LayoutTitle(shown, all int) words.Text {
	return words.T("layout.title", words.Args{"some": words.Flag(shown < all), "n": words.Whole(shown), "all": words.Whole(all), "left": words.T("key-cap.left"), "right": words.T("key-cap.right")})
}

// LayoutCallsTitle heads everything that is called out.
func LayoutCallsTitle(n int) words.Text { return words.T("layout.calls", words.Args{"n": ifAny(n)}) }

// LayoutKey says what a key does at the position chosen. on: it does so already. name is that of a job.
func LayoutKey(code, name string, on bool) words.Text {
	if code == "other" { // a message cannot be called so
		code = "next-span"
	}
	return words.Of("layout-key", code, words.Args{"name": words.Quote(name), "on": words.Flag(on)})
}

// LayoutOption is one option of a choice.
func LayoutOption(choice, option int) words.Text {
	switch choice {
	case 0:
		return words.T([...]words.ID{"layout.by-switch", "layout.by-sticks"}[option])
	case 1:
		ours, trade := OnLoss(facts.OnLoss(option))
		return words.T("layout.receiver", words.Args{"ours": ours, "trade": trade})
	}
	return words.T([...]words.ID{"layout.cuts", "layout.sinks"}[option])
}

// LayoutTyping asks for the ends of a span of a job; where there is none, for the name of a new job.
func LayoutTyping(job words.Text, span layout.Span, has bool) words.Text {
	return words.T("layout.typing", words.Args{"span": words.Flag(has), "job": job, "low": Exact(span.Low), "high": Exact(span.High), "enter": words.T("key-cap.enter")})
}

// LayoutCount is from when a saved change counts.
type LayoutCount uint8

// The times.
const (
	LayoutNow LayoutCount = iota
	LayoutNextStart
	LayoutAfterDrill
)

// LayoutCounts says from when a saved change counts.
func LayoutCounts(c LayoutCount) words.Text {
	return words.T([...]words.ID{LayoutNow: "layout.counts-now", LayoutNextStart: "layout.counts-next-start", LayoutAfterDrill: "layout.counts-after-drill"}[c])
}

// LayoutNotSaved says why a file was not written.
func LayoutNotSaved(path string, err error) words.Text {
	if errors.Is(err, craftfile.ErrChanged) {
		return words.T("layout.not-saved-changed", words.Args{"path": words.Quote(path)})
	}
	return words.T("layout.not-saved", words.Args{"why": errorSays(err)})
}

// LayoutRefused says why a change cannot be, in the words of the craft file's reader.
func LayoutRefused(err error) words.Text {
	return words.T("layout.refused", words.Args{"why": errorSays(err)})
}

// errorSays is what an error says inside a sentence: of problems the first, without its place.
func errorSays(err error) words.Text {
	var p *words.Problem
	if errors.As(err, &p) {
		return p.Text
	}
	return words.Error(err)
}

// LayoutNo says why a key does nothing, or what little it did, by a code.
func LayoutNo(code string) words.Text { return words.Of("layout-no", code) }

// positionDistance is how far the nearest edge is.
func positionDistance(p *switches.Position) pulse.Width { return max(p.Width-p.Edge, p.Edge-p.Width) }

// positionFine reports whether whole µs are too coarse for a position: near its edge, and where value and distance would contradict each
// other.
func positionFine(p *switches.Position) bool {
	d := pulse.Micros(positionDistance(p).Whole())
	if p.Width < p.Edge {
		d = -d
	}
	return p.HasEdge && (positionDistance(p) < 10*pulse.Eighths || pulse.Micros(p.Width.Whole())-d != p.Edge)
}

// PositionAt is where a position stands, in µs.
func PositionAt(p *switches.Position) words.Value {
	if positionFine(p) {
		return Exact(p.Width)
	}
	return Micros(p.Width)
}

// PositionPlace calls a position by its switch and where it stands.
func PositionPlace(s *switches.Switch, p *switches.Position) words.Text {
	return words.T("layout.place", words.Args{"name": SwitchName(s), "at": PositionAt(p)})
}

// PositionValue is where a position stands and how far it spreads, where that was measured.
func PositionValue(p *switches.Position, measured bool) words.Text {
	spread := words.Value(words.Text{})
	if measured && p.Spread != 0 { // in tenths of a µs, rounded up
		spread = words.Fixed{N: (int64(p.Spread)*10 + pulse.Eighths - 1) / pulse.Eighths, Places: 1}
	}
	return words.T("layout.value", words.Args{"at": PositionAt(p), "spread": spread})
}

// positionFar is how far the nearest edge is, and says nothing for a position on it.
func positionFar(p *switches.Position) words.Value {
	switch d := positionDistance(p); {
	case d == 0:
		return words.Text{}
	case positionFine(p):
		return Exact(d)
	default:
		return Micros(d)
	}
}

// noiseTimes is how many times its noise a position is from its edge: "6.5×".
func noiseTimes(p *switches.Position) words.Text {
	n := words.Fixed{N: int64(p.Times()), Places: 1}
	if n.N >= 100 {
		n = words.Fixed{N: n.N / 10}
	}
	return words.T("layout.times", words.Args{"n": n})
}

// PositionMargin is how far the nearest edge is.
func PositionMargin(p *switches.Position, measured bool) words.Text {
	if !p.HasEdge {
		return words.T("layout.no-edge")
	}
	times := words.Text{}
	if measured && p.Spread != 0 {
		times = noiseTimes(p)
	}
	return words.T("layout.margin", words.Args{"far": positionFar(p), "edge": Exact(p.Edge), "times": times})
}

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
		return words.T("layout.call-not-sent", words.Args{"channel": channel, "jobs": words.And(jobsSaid(s)...)})
	case switches.NoSwitch:
		return words.T("layout.call-no-switch")
	case switches.Shared:
		return words.T("layout.call-shared", words.Args{"channel": channel, "jobs": words.And(jobsSaid(s)...)})
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
	return saidJob(j)
}

// CalloutCraft says what is called out about the craft and the sticks.
func CalloutCraft(c switches.Callout, cfg *sim.Config) words.Text {
	at := Micros(c.At)
	switch c.Code {
	case switches.ThrottleHigh:
		return words.T("layout.throttle-high", words.Args{"at": at, "limit": Exact(cfg.Arming.LowThrottle)})
	case switches.YawShort:
		right, limit := c.At > pulse.Centre, cfg.Arming.YawLeft
		if right {
			limit = cfg.Arming.YawRight
		}
		return words.T("layout.yaw-short", words.Args{"right": words.Flag(right), "at": at, "limit": Exact(limit)})
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
			mode = words.T("sheet.gap", words.Args{"mode": mode})
		}
		parts = append(parts, words.T("layout.mode", words.Args{"mode": mode, "air": words.Flag(p.Air)}))
	}
	if p.Second != layout.NoJob {
		parts = append(parts, words.T("layout.second", words.Args{"on": words.Flag(p.Second == layout.Inside)}))
	}
	for _, i := range p.On {
		parts = append(parts, words.T("layout.job", words.Args{"job": words.Quote(f.Jobs[i].Name), "on": words.Flag(true)}))
	}
	if len(parts) == 0 {
		for i := range s.Jobs {
			parts = append(parts, words.T("layout.job", words.Args{"job": words.Quote(s.Jobs[i].Name), "on": words.Flag(false)}))
		}
	}
	if len(parts) == 0 {
		return words.T("layout.no-job")
	}
	return words.Clauses(parts...)
}
