package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// ComparedNotes say what was taken for granted of two layouts and what was not compared.
func ComparedNotes(l *[2]prove.Layout, c *prove.Comparison) []words.Text {
	out := sameNotes(l, c)
	if facts.OneRadio(l) {
		if jobs := listenApart(l); len(jobs) > 0 {
			out = append(out, words.T("compare.one-radio", words.Args{"jobs": words.And(jobs...)}))
		}
	}
	for i := range c.LeftOut {
		out = append(out, leftOut(l, &c.LeftOut[i]))
	}
	for i := range c.Shaken {
		s := &c.Shaken[i]
		of := &l[s.Layout].Radio.Controls[s.Control]
		out = append(out, EachOf(s.Layout, words.T("compare.shaken", words.Args{"name": provedName(of), "at": ControlAt(of, s.Position, s.At), "to": widthOrNone(s.To)})))
	}
	if len(c.Shaken) > 0 {
		out = append(out, words.T("compare.by-noise", words.Args{"same": words.Flag(!c.ByNoise)}))
	}
	for _, code := range codes.Apart(c.Apart) {
		out = append(out, words.Of("compare-apart", code, words.Args{"a": words.Whole(l[0].Config.SlotTicks), "b": words.Whole(l[1].Config.SlotTicks)}))
	}
	return out
}

// sameNotes say which controls are taken for the same, and in what these are not.
func sameNotes(l *[2]prove.Layout, c *prove.Comparison) (out []words.Text) {
	var elsewhere []words.Text
	for _, pair := range c.Same {
		var of [2]*handset.Control
		for i, at := range pair {
			if at >= 0 {
				of[i] = &l[i].Radio.Controls[at]
			}
		}
		a, b := of[0], of[1]
		switch {
		case a == nil || b == nil:
			i := 0
			if a == nil {
				i = 1
			}
			out = append(out, words.T("compare.one-alone", words.Args{"letter": Letters()[i], "name": ControlName(of[i])}))
			continue
		case a.Job == b.Job && a.Channel != b.Channel:
			elsewhere = append(elsewhere, words.T("compare.other-channel", words.Args{"job": JobName(a.Job), "a": ChannelOrNone(a.Channel), "b": ChannelOrNone(b.Channel)}))
		}
		if a.Kind == handset.Stick && b.Kind == handset.Stick && a.Springs() != b.Springs() {
			i := 0
			if !a.Springs() {
				i = 1
			}
			out = append(out, words.T("compare.springs", words.Args{"name": ControlName(a), "springs": Letters()[i], "stays": Letters()[1-i]}))
		}
	}
	if len(elsewhere) > 0 {
		out = append(out, words.T("compare.other-channels", words.Args{"jobs": words.And(elsewhere...)}))
	}
	return out
}

// listenApart names the jobs that two crafts have on channels of their own.
func listenApart(l *[2]prove.Layout) (jobs []words.Text) {
	a, b := &l[0].Config.Layout, &l[1].Config.Layout
	for _, one := range [...]struct {
		job  string
		a, b int8
	}{
		{"throttle", a.Throttle, b.Throttle}, {"roll", a.Roll, b.Roll}, {"pitch", a.Pitch, b.Pitch}, {"yaw", a.Yaw, b.Yaw},
		{"arm", a.Arm, b.Arm}, {"second", a.Second, b.Second}, {"mode", a.Mode, b.Mode},
	} {
		if one.a != one.b {
			jobs = append(jobs, words.T("compare.other-channel", words.Args{"job": JobName(one.job), "a": ChannelOrNone(one.a), "b": ChannelOrNone(one.b)}))
		}
	}
	return jobs
}

// ChannelOrNone is a channel (from 0) by its number, or that there is none.
func ChannelOrNone(channel int8) words.Text {
	if channel < 0 {
		return words.T("compare.no-channel")
	}
	return ChannelNumber(int(channel))
}

// leftOut says which stretch of which control was left out.
func leftOut(l *[2]prove.Layout, s *prove.LeftOut) words.Text {
	var at [2]words.Text
	for i := range at {
		from, to := s.From[i], s.To[i]
		if from/pulse.Eighths == to/pulse.Eighths { // the same in whole µs
			to = from
		}
		at[i] = CardValue(from, to)
	}
	return words.T("compare.left-out", words.Args{"name": ControlName(&l[0].Radio.Controls[s.Controls[0]]), "a": at[0], "b": at[1]})
}

// widthOrNone is a pulse width, or that it is no pulse.
func widthOrNone(w pulse.Width) words.Text {
	if !w.Valid() {
		return words.T("prove-step.no-pulse")
	}
	return Width(w)
}
