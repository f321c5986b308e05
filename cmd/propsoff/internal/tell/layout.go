package tell

import (
	"errors"
	"strings"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/craftfile"
	"propsoff/sim/layout"
	"propsoff/sim/switches"
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

func switchJobs(s *switches.Switch) (out []words.Text) {
	for i := range s.Jobs {
		out = append(out, SwitchJob(&s.Jobs[i]))
	}
	return out
}

// SwitchName calls a switch as its pilot does, else by its jobs, else by its channel.
func SwitchName(s *switches.Switch) words.Text {
	var jobs words.Text
	for i, j := range switchJobs(s) {
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
	n := words.Args{"n": words.Quote(numbers)}
	switch what {
	case "axis":
		return words.T("raw.axis", n)
	case "button":
		return words.T("raw.button", n)
	case "buttons":
		return words.T("layout.buttons", n)
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
	if shown < all {
		return words.T("layout.title-some", words.Args{"n": words.Whole(shown), "all": words.Whole(all)})
	}
	return words.T("layout.title")
}

// LayoutPartly says that a switch has more positions than there is room for.
func LayoutPartly(shown, all int) words.Text {
	return words.T("layout.partly", words.Args{"shown": words.Whole(shown), "n": words.Count(all)})
}

// LayoutChosen heads what can be done at the position chosen, if any.
func LayoutChosen(name, value words.Text) words.Text {
	return words.T("layout.chosen", words.Args{"name": name, "value": value})
}

// LayoutCallsTitle heads everything that is called out.
func LayoutCallsTitle(n int) words.Text {
	many := words.Value(words.Text{})
	if n > 0 {
		many = words.Whole(n)
	}
	return words.T("layout.calls", words.Args{"n": many})
}

// LayoutKey says what a key does at the position chosen. on: it does so already. name is that of a job.
func LayoutKey(code, name string, on bool) words.Text {
	if code == "other" { // a message cannot be called so
		code = "next-span"
	}
	return words.Of("layout-key", code, words.Args{"name": words.Quote(name), "on": words.Flag(on)})
}

// LayoutChoice names a choice of the craft: 0 arming, 1 the receiver's way, 2 on a lost link.
func LayoutChoice(n int) words.Text {
	return words.T([...]words.ID{"layout.choice-arming", "layout.choice-receiver", "layout.choice-loss"}[n])
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
	if !has {
		return words.T("layout.type-name")
	}
	return words.T("layout.type-span", words.Args{"job": job, "low": Exact(span.Low), "high": Exact(span.High)})
}

// LayoutLeaving asks what is to become of unsaved changes.
func LayoutLeaving(changes int) words.Text {
	return words.T("layout.leaving", words.Args{"n": words.Count(changes)})
}

// LayoutSaved says where a craft file was saved. named: this start was given that path.
func LayoutSaved(path string, named bool) words.Text {
	return words.T("layout.saved", words.Args{"path": words.Quote(path), "named": words.Flag(named)})
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
