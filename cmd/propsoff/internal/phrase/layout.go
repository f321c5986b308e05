package phrase

import (
	"errors"
	"strconv"
	"strings"

	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// SwitchJob calls one job of a switch.
func SwitchJob(j *switches.Job) string {
	switch j.Kind {
	case switches.Arm:
		return "arm"
	case switches.Second:
		return "second switch"
	case switches.Mode:
		return "mode"
	}
	return j.Name
}

func switchJobs(s *switches.Switch) (out []string) {
	for i := range s.Jobs {
		out = append(out, SwitchJob(&s.Jobs[i]))
	}
	return out
}

// SwitchName calls a switch as its pilot does, else by its jobs, else by its channel.
func SwitchName(s *switches.Switch) string {
	jobs := strings.Join(switchJobs(s), " + ")
	called := ""
	if s.Control != nil {
		called = s.Control.Called
	}
	switch {
	case called != "" && jobs != "" && called != jobs:
		return called + ": " + jobs
	case called != "":
		return called
	case jobs != "":
		return jobs
	}
	return "channel " + strconv.Itoa(int(s.Channel)+1)
}

// SwitchFrom says which channel a switch is on and what carries it.
func SwitchFrom(s *switches.Switch) string {
	out := "channel " + strconv.Itoa(int(s.Channel)+1)
	if s.Control != nil && s.Control.Source != "" {
		out += ", " + s.Control.Source
	}
	if s.Control != nil && s.Control.Momentary {
		out += ", springs back"
	}
	return out
}

// PositionDoes says what the craft does at a position of a switch.
func PositionDoes(f *switches.Facts, s *switches.Switch, p *switches.Position) string {
	var parts []string
	switch p.Arm {
	case layout.Inside:
		parts = append(parts, "arms")
	case layout.Outside:
		parts = append(parts, "disarms")
	}
	if p.HasMode {
		mode := Mode(p.Mode)
		if p.Gap {
			mode = Gap(mode)
		}
		if p.Air {
			parts = append(parts, mode+", wakes air mode")
		} else {
			parts = append(parts, mode+", does not wake air mode")
		}
	}
	if p.Second != layout.NoJob {
		parts = append(parts, "second switch "+Position(p.Second == layout.Inside))
	}
	for _, i := range p.On {
		parts = append(parts, f.Jobs[i].Name+" on")
	}
	if len(parts) > 0 {
		return strings.Join(parts, "; ")
	}
	for i := range s.Jobs {
		parts = append(parts, s.Jobs[i].Name+" off")
	}
	if len(parts) == 0 {
		return "no job"
	}
	return strings.Join(parts, "; ")
}

// spread writes a standard deviation in tenths of a µs, rounded up.
func spread(w pulse.Width) string { return fixed((int64(w)*10+pulse.Eighths-1)/pulse.Eighths, 1) }

// fine reports whether whole µs are too coarse for a position: near its edge, and where value and distance would contradict each other.
func fine(p *switches.Position) bool {
	d := pulse.Micros(distance(p).Whole())
	if p.Width < p.Edge {
		d = -d
	}
	return p.HasEdge && (distance(p) < 10*pulse.Eighths || pulse.Micros(p.Width.Whole())-d != p.Edge)
}

// distance is how far the nearest edge is.
func distance(p *switches.Position) pulse.Width { return max(p.Width-p.Edge, p.Edge-p.Width) }

// PositionAt is where a position stands, in µs.
func PositionAt(p *switches.Position) string {
	if fine(p) {
		return Exact(p.Width)
	}
	return Micros(p.Width)
}

// PositionValue is where a position stands and how far it spreads, where that was measured.
func PositionValue(p *switches.Position, measured bool) string {
	if !measured || p.Spread == 0 {
		return PositionAt(p) + " µs"
	}
	return PositionAt(p) + " µs, spread " + spread(p.Spread)
}

// margin is how far the nearest edge is, with what stands before the edge.
func margin(p *switches.Position, before string) string {
	switch {
	case distance(p) == 0:
		return "on" + before
	case fine(p):
		return Exact(distance(p)) + " µs from" + before
	}
	return Micros(distance(p)) + " µs from" + before
}

func times(tenths int) string {
	if tenths >= 100 {
		return strconv.Itoa(tenths/10) + "×"
	}
	return fixed(int64(tenths), 1) + "×"
}

// PositionMargin is how far the nearest edge is.
func PositionMargin(p *switches.Position, measured bool) string {
	if !p.HasEdge {
		return "no edge to run over"
	}
	s := margin(p, " ") + Exact(p.Edge)
	if measured && p.Spread != 0 {
		s += ", " + times(p.Times()) + " noise"
	}
	return s
}

// CalloutAt says what is called out at a position.
func CalloutAt(f *switches.Facts, s *switches.Switch, p *switches.Position, c switches.Callout) string {
	switch c.Code {
	case switches.NoSpan:
		return "No mode span holds this position, so the craft flies in rate."
	case switches.TwoJobs:
		return "Two jobs at one position: " + PositionDoes(f, s, p) + "."
	case switches.Narrow:
		s := margin(p, " the edge at ") + Exact(c.At) + "; leave 30 or more."
		if distance(p) > 0 {
			s = "only " + s
		}
		return capital(s)
	case switches.NoisyFor:
		return "Only " + times(p.Times()) + " its noise from the edge at " + Exact(c.At) + "; leave 6× or more."
	}
	return ""
}

// CalloutOf says what is called out at a switch as a whole.
func CalloutOf(s *switches.Switch, c switches.Callout) string {
	channel := "channel " + strconv.Itoa(int(c.Channel)+1)
	switch c.Code {
	case switches.Unreached:
		j := &s.Jobs[c.Job]
		name := SwitchJob(j)
		if j.Kind == switches.Mode {
			name = Mode(j.Spans[c.Span].Mode)
		}
		return "No position reaches the span of " + name + " (" + SpanWords(j.Spans[c.Span].Span) + ")."
	case switches.NeverArms:
		return "No position stands in the arm span (" + SpanWords(s.Jobs[c.Job].Spans[0].Span) + "), so this switch never arms."
	case switches.NeverDisarms:
		return "Every position stands in the arm span (" + SpanWords(s.Jobs[c.Job].Spans[0].Span) + "), so this switch never disarms."
	case switches.NotSent:
		return "The radio sends nothing on " + channel + ", where " + list(switchJobs(s), "and") + " should be."
	case switches.NoSwitch:
		return "A stick or knob carries this channel: it has no positions."
	case switches.Shared:
		return capital(list(switchJobs(s), "and")) + " share " + channel + "."
	case switches.Unused:
		return "No job uses this switch."
	}
	return ""
}

// CalloutCraft says what is called out about the craft and the sticks.
func CalloutCraft(c switches.Callout, cfg *sim.Config) string {
	switch c.Code {
	case switches.ThrottleHigh:
		return "The throttle goes no lower than " + Micros(c.At) + " µs and counts as low below " + Exact(cfg.Arming.LowThrottle) + ", so the craft never arms: lower the end of its travel in the radio."
	case switches.YawShort:
		if c.At > pulse.Centre {
			return "Yaw goes no further right than " + Micros(c.At) + " µs; arming by sticks needs " + Exact(cfg.Arming.YawRight) + ": lengthen its travel in the radio."
		}
		return "Yaw goes no further left than " + Micros(c.At) + " µs; disarming by sticks needs " + Exact(cfg.Arming.YawLeft) + ": lengthen its travel in the radio."
	case switches.StickUnsent:
		return "The radio sends nothing on " + Channel(&cfg.Layout, int(c.Channel)) + "."
	case switches.NeverSinks:
		return "The craft is set to sink on a lost link, and never does with this receiver: " + neverSinks(cfg) + "."
	}
	return ""
}

// LayoutKept says where the craft file is, and whether what is seen stands in it.
func LayoutKept(path string, shipped bool, changes int) string {
	where := "Craft file: " + path + "."
	if shipped {
		where = "Craft file: " + path + ", as shipped; a change is saved as a file of yours."
	}
	if changes == 0 {
		return where
	}
	return count(changes, "change") + " not saved yet. " + where
}

// LayoutTitle heads the levers: how many of all are drawn.
func LayoutTitle(shown, all int) string {
	if shown < all {
		return "switches " + strconv.Itoa(shown) + " of " + strconv.Itoa(all) + " at a time: ← → go to the others"
	}
	return "switches, their positions, and what the craft does there"
}

// LayoutPartly says that a switch has more positions than there is room for.
func LayoutPartly(shown, all int) string {
	return strconv.Itoa(shown) + " of " + count(all, "position") + ", ↑ ↓ for the others"
}

// LayoutChosen heads what can be done at the position chosen.
func LayoutChosen(name, value string) string {
	if value == "" {
		return name
	}
	return name + " at " + value
}

// LayoutCraftTitle heads the choices of the craft.
func LayoutCraftTitle() string { return "the craft" }

// LayoutCallsTitle heads everything that is called out.
func LayoutCallsTitle(n int) string {
	if n == 0 {
		return "called out: nothing"
	}
	return "called out: " + strconv.Itoa(n)
}

// LayoutNothing is said where nothing is called out.
func LayoutNothing() string {
	return "Every span is reached, no position does two jobs, and no position stands near an edge."
}

// LayoutMore counts the callouts for which there is no room.
func LayoutMore(n int) string { return "… and " + strconv.Itoa(n) + " more" }

// LayoutKey says what a key does at the position chosen. on: it does so already.
func LayoutKey(code, name string, on bool) string {
	w := map[string][2]string{
		"arm":    {"arm here", "do not arm here"},
		"second": {"second on here", "second off here"},
		"job":    {name + " on", name + " off"},
		"new":    {"new job here", ""},
		"type":   {"type a span", ""},
		"undo":   {"undo", ""},
		"save":   {"save", ""},
		"keep":   {"save, then go", ""},
		"drop":   {"go without saving", ""},
		"stay":   {"stay", ""},
		"other":  {"the next span", ""},
		"take":   {"take this", ""},
		"back":   {"leave it", ""},
		"before": {"switch before", ""},
		"after":  {"switch after", ""},
		"above":  {"position above", ""},
		"below":  {"position below", ""},
	}[code]
	if on && w[1] != "" {
		return w[1]
	}
	return w[0]
}

// LayoutChoice names a choice of the craft: 0 arming, 1 the receiver's way, 2 on a lost link.
func LayoutChoice(n int) string {
	return [...]string{"arming", "receiver, radio silent", "craft, link lost"}[n]
}

// LayoutOption is one option of a choice.
func LayoutOption(choice, option int) string {
	switch choice {
	case 0:
		return [...]string{"by switch", "by sticks"}[option]
	case 1:
		ours, trade := OnLoss(facts.OnLoss(option))
		return ours + " (" + trade + ")"
	}
	return [...]string{"cuts", "sinks, then cuts"}[option]
}

// LayoutTyping asks for what is typed.
func LayoutTyping(job string, span layout.Span, has bool) string {
	if !has {
		return "Type the name of the new job, then Enter."
	}
	return "Both ends of the span of " + job + ", now " + Exact(span.Low) + " to " + Exact(span.High) + ". Type them with a space between, then Enter."
}

// LayoutLeaving asks what is to become of unsaved changes.
func LayoutLeaving(changes int) string {
	return count(changes, "change") + " not saved. Save before leaving?"
}

// LayoutSaved says where a craft file was saved. named: this start was given that path.
func LayoutSaved(path string, named bool) string {
	s := "Saved in " + path + "."
	if !named {
		s += " Start with --craft and this path to use it again."
	}
	return s
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
func LayoutCounts(c LayoutCount) string {
	switch c {
	case LayoutNextStart:
		return "What is played goes on with the craft it was written for, so it counts from the next start."
	case LayoutAfterDrill:
		return "A drill runs, with a craft of its own; the bench flies yours as soon as it has ended."
	}
	return "The bench flies it now."
}

// LayoutNotSaved says why a file was not written.
func LayoutNotSaved(path string, err error) string {
	if errors.Is(err, craftfile.ErrChanged) {
		return "Not saved: " + path + " was changed by someone else since it was read. Your changes are kept here. Put that file back as it was and save again, or go without saving and start anew."
	}
	return "Not saved: " + err.Error() + "."
}

// LayoutRefused says why a change cannot be, in the words of the craft file's reader.
func LayoutRefused(err error) string {
	var one yamldoc.Error
	if errors.As(err, &one) {
		return "Not possible: " + one.Msg + "."
	}
	return "Not possible: " + err.Error() + "."
}

// LayoutNo says why a key does nothing, or what little it did, by a code.
func LayoutNo(code string) string {
	return map[string]string{
		"only-arm":    "This is the only position that arms; let another one arm instead.",
		"no-position": "This switch has no positions to choose.",
		"no-craft":    "No craft file is at hand, so nothing can be changed here.",
		"two-ends":    "Type two numbers from 860 to 2180 with a space between, such as 1600 2180.",
		"nothing":     "Nothing has been changed.",
		"undone":      "Undone.",
		"same-name":   "A job of that name is there already; call this one otherwise.",
		"no-arm":      "Choose a switch that has no job yet, then change the arming method: it is to arm.",
	}[code]
}
