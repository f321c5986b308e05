package report

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
)

// mostHands is how many measured hands of one axis and mode a report keeps: the latest (ours).
const mostHands = 200

// hands are those of one axis in one mode, in order of time: what the first delay was, and the latest ones.
type hands struct {
	axis  mark.Axis
	mode  layout.Mode
	first int32
	all   []measured
	n     int
}

type measured struct {
	day int32
	mark.Hand
}

// takeHand takes the hands that the tries of a run measured.
func (d *Data) takeHand(e *logbook.Entry) {
	for _, t := range e.Drill.Tries {
		if t.Hand == nil {
			continue
		}
		h := t.Hand.Measure()
		if !h.Measured {
			continue
		}
		i := slices.IndexFunc(d.Hands, func(x hands) bool { return x.axis == h.Axis && (x.mode == h.Mode || h.Axis == mark.Yaw) })
		if i < 0 {
			d.Hands = append(d.Hands, hands{axis: h.Axis, mode: h.Mode, first: h.DelayMS})
			i = len(d.Hands) - 1
		}
		x := &d.Hands[i]
		if x.all = append(x.all, measured{e.Day, h}); len(x.all) > mostHands {
			x.all = x.all[1:]
		}
		x.n++
	}
}

// over says how one axis in one mode went.
func (x *hands) over() words.Text {
	last := &x.all[len(x.all)-1]
	o := tell.HandOver{Axis: x.axis, Mode: x.mode, First: x.first, Last: last.DelayMS, Within: last.DelayWithin, Days: x.n}
	return o.Sentence()
}

// handLines are the sentences about all of them, and how many minutes they come from.
func (d *Data) handLines() (lines []words.Text, about words.Text) {
	n := 0
	for i := range d.Hands {
		lines, n = append(lines, d.Hands[i].over()), n+d.Hands[i].n
	}
	return lines, words.T("report.hand-about", words.Args{"n": words.Count(n)})
}

// hand writes how long the hand takes, a line for each axis and mode, at the top of a place, and gives what is left; nothing was measured: nothing.
func (k *pen) hand(r ink.Rect) ink.Rect {
	if len(k.d.Hands) == 0 {
		return r
	}
	lines, about := k.d.handLines()
	r = k.heading("hand", r, words.T("report.hand"))
	for _, line := range lines {
		r = k.below(r, "hand-line", k.say(line), 1, ink.Style{Size: k.size})
	}
	r = k.below(r, "hand-about", k.say(about), 1, ink.Style{Size: k.small, Colour: ink.Faint})
	_, r = r.CutTop(k.size*0.8, 0)
	return r
}

// handTable is every measured hand, the sticks one after the other.
func (d *Data) handTable() table {
	t := table{Caption: words.T("report.hand"), Head: tell.HandColumns()}
	for i := range d.Hands {
		x := &d.Hands[i]
		for _, m := range x.all {
			t.Rows = append(t.Rows, []words.Text{tell.HandOf(x.axis, x.mode), day(m.day), count(int64(m.DelayMS)), count(int64(m.DelayWithin)),
				tell.HandCrossover(&m.Hand), tell.HandNoise(&m.Hand)})
		}
	}
	return t
}
