// Package check is one sheet: the controls check.
package check

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	ck "propsoff.example/input/check"
	"propsoff.example/input/radio"
)

// What its own keys do.
const (
	Above    ui.Action = "check-above"    // the control, or finding, above
	Below    ui.Action = "check-below"    // the one below
	Findings ui.Action = "check-findings" // what warns or fails, or the table again
	Anew     ui.Action = "check-anew"     // from the beginning
)

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	can := func(v *ui.View) bool { return Of(v).Needs.Empty() }
	do := func(what func()) func() {
		return func() {
			if p.checker != nil {
				what()
			}
		}
	}
	return &ui.About{
		Place: ui.OnCheck, Key: "F4", Everywhere: true,
		Shared: ui.Usual(ui.ShowSeats),
		Front:  []ui.Action{ui.ShowSeats},
		Own: []ui.Act{
			{Action: Above, Physical: "PageUp", Shows: can, Do: do(func() { p.step(-1) })},
			{Action: Below, Physical: "PageDown", Shows: can, Do: do(func() { p.step(1) })},
			{Action: Findings, Physical: "Enter", Shows: can, On: func(v *ui.View) bool { return Of(v).Findings }, Do: do(func() { p.Findings, p.From = !p.Findings, 0 })},
			{Action: Anew, Physical: "Delete", Shows: can, Do: do(p.anew)},
		},
		Picks: []ui.Pick{{Prefix: rowPrefix, Do: func(i int) {
			if i <= len(p.Check.Controls) {
				p.picked, p.Selected = true, i
			}
		}}},
	}
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// View is what the sheet may know.
type View struct {
	// Needs says what to do where nothing can be checked; Check is nothing then.
	Needs words.Text
	Check ck.View
	// Selected is the control whose items are shown; one more than the last is the radio as a whole.
	Selected int
	// Findings: what warns or fails is listed in place of the table. From is the first that is shown, from 0.
	Findings bool
	From     int
}

// rowPrefix and a number from 1 name the hit areas of the table; one more than the last control is the radio as a whole.
const rowPrefix = "check-row-"

// control is the control that is looked at, −1 for the radio as a whole, and what it is called.
func (v *View) control() (which int, name words.Text) {
	if v.Selected < len(v.Check.Controls) {
		return v.Selected, tell.CheckName(&v.Check.Controls[v.Selected])
	}
	return -1, words.T("check.whole-radio")
}

// items are those of a control, −1 for the radio as a whole.
func (v *View) items(control int) (out []*ck.Item) {
	for i := range v.Check.Items {
		if it := &v.Check.Items[i]; it.Control == control {
			out = append(out, it)
		}
	}
	return out
}

// worst is the verdict that stands for a control (−1: the radio as a whole): what fails, else what warns, else what waits.
func (v *View) worst(control int) ck.Verdict {
	worst, waits := ck.Passes, false
	for _, it := range v.items(control) {
		waits = waits || it.Verdict == ck.Waiting
		worst = max(worst, it.Verdict)
	}
	if worst == ck.Passes && waits {
		return ck.Waiting
	}
	return worst
}

// findings are the items that fail, then those that warn.
func (v *View) findings() (out []*ck.Item) {
	for _, verdict := range [2]ck.Verdict{ck.Fails, ck.Warns} {
		for i := range v.Check.Items {
			if it := &v.Check.Items[i]; it.Verdict == verdict {
				out = append(out, it)
			}
		}
	}
	return out
}

// others are the controls that are no sticks: those at the left, those on top or anywhere, those at the right.
func (v *View) others() (out []int) {
	for _, side := range [4]radio.Side{radio.Left, radio.Top, radio.NoSide, radio.Right} {
		for i := range v.Check.Controls {
			if c := &v.Check.Controls[i]; c.Form != ck.Stick && c.Side == side {
				out = append(out, i)
			}
		}
	}
	return out
}

// stickOf finds the control of a job.
func (v *View) stickOf(j figure.Job) *ck.Control {
	for i := range v.Check.Controls {
		if v.Check.Controls[i].Job == figure.JobFacts[j].Word {
			return &v.Check.Controls[i]
		}
	}
	return nil
}
