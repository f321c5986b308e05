package mend

import (
	"slices"
	"strings"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// singles are all single changes of a layout that there are to choose from. taken has the bits of channels that jobs of the pilot's own
// stand on. They follow from the layout alone, not from which rule is broken.
func singles(l *prove.Layout, taken uint16) []Change {
	e := enumeration{l: l, cfg: &l.Config, taken: taken}
	e.arm()
	e.second()
	e.modes()
	e.loss()
	e.out = append(e.out, ofNumbers(e.cfg)...)
	e.travel()
	slices.SortStableFunc(e.out, func(a, b Change) int { return a.Relearn - b.Relearn })
	return e.out
}

type enumeration struct {
	l     *prove.Layout
	cfg   *sim.Config
	taken uint16
	out   []Change
}

func (e *enumeration) add(c Change) { e.out = append(e.out, c) }

// control is the one on a channel, and its index; nil and −1 for none.
func (e *enumeration) control(channel int8) (*handset.Control, int) {
	for i := range e.l.Radio.Controls {
		if channel != layout.NoChannel && e.l.Radio.Controls[i].Channel == channel {
			return &e.l.Radio.Controls[i], i
		}
	}
	return nil, -1
}

// free are the switches of the radio that do nothing yet.
func (e *enumeration) free() (out []int) {
	l := &e.cfg.Layout
	has := []int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode}
	for i := range e.l.Radio.Controls {
		c := &e.l.Radio.Controls[i]
		if c.Same != 0 || len(e.l.Radio.With(i)) > 0 {
			continue // one piece of the radio does more than one thing
		}
		if c.Kind == handset.Switch && !slices.Contains(has, c.Channel) && e.taken>>c.Channel&1 == 0 {
			out = append(out, i)
		}
	}
	return out
}

// onAt says at which places a span is on.
func onAt(at []switches.Position, s layout.Span) []int8 {
	out := make([]int8, len(at))
	for i := range at {
		out[i] = int8(oneIf(s.Contains(at[i].Width)))
	}
	return out
}

// onOff are the ways to put on and off at the places of a control: as now with other edges, and every run of places that reaches one end.
func (e *enumeration) onOff(k Kind, channel int8, s layout.Span) {
	c, i := e.control(channel)
	if c == nil {
		return
	}
	at := placesOf(c)
	was := onAt(at, s)
	for _, want := range append([][]int8{was}, runs(len(at))...) {
		n := differ(want, was)
		if same, ok := onSpan(at, want); n == 0 && (!ok || same == s || len(e.out) > 0 && slices.Equal(e.out[len(e.out)-1].Places, want) && e.out[len(e.out)-1].Kind == k) {
			continue
		}
		if slices.ContainsFunc(e.out, func(o Change) bool { return o.Kind == k && slices.Equal(o.Places, want) }) {
			continue
		}
		e.add(Change{Kind: k, Relearn: max(n*armMoved, unfelt), Control: i, Channel: channel, Places: want})
	}
}

// carried has another switch do a job.
func (e *enumeration) carried(k Kind, channel int8, places func(n int) [][]int8) {
	mine, _ := e.control(channel)
	for _, i := range e.free() {
		o := &e.l.Radio.Controls[i]
		byNumber := func(c *handset.Control) bool { return c == nil || strings.HasPrefix(c.Job, "channel ") }
		for _, want := range places(len(o.Positions)) {
			e.add(Change{Kind: k, Relearn: elsewhere, Control: i, Channel: channel, Was: int64(channel), Is: int64(o.Channel), Places: want, Swaps: !byNumber(mine) || !byNumber(o)})
		}
	}
}

func (e *enumeration) arm() {
	l := &e.cfg.Layout
	if e.cfg.Arming.By == arming.BySwitch {
		e.onOff(ArmOn, l.Arm, l.ArmSpan)
		e.carried(ArmCarried, l.Arm, runs)
		e.add(Change{Kind: ArmBySticks, Relearn: otherWay, Control: -1, Channel: l.Arm})
		return
	}
	for _, i := range e.free() {
		c := &e.l.Radio.Controls[i]
		if !strings.HasPrefix(c.Job, "channel ") {
			continue // the radio file means another job by it
		}
		for _, want := range runs(len(c.Positions)) {
			e.add(Change{Kind: ArmBySwitch, Relearn: otherWay, Control: i, Channel: c.Channel, Is: int64(c.Channel), Places: want})
		}
	}
}

func (e *enumeration) second() {
	l := &e.cfg.Layout
	if l.Second == layout.NoChannel {
		return
	}
	e.onOff(SecondOn, l.Second, l.SecondSpan)
	e.carried(SecondCarried, l.Second, runs)
	e.add(Change{Kind: NoSecond, Relearn: guardGone, Control: -1, Channel: l.Second})
}

func (e *enumeration) modes() {
	l := &e.cfg.Layout
	if l.Mode == layout.NoChannel {
		for m := range layout.Mode(layout.Modes) {
			if m != l.FixedMode && m.SelfLevelling() {
				e.add(Change{Kind: AlwaysMode, Relearn: always, Control: -1, Channel: -1, Was: int64(l.FixedMode), Is: int64(m)})
			}
		}
		return
	}
	if c, i := e.control(l.Mode); c != nil {
		at := placesOf(c)
		was := make([]int8, len(at))
		for n := range at {
			was[n] = int8(layout.Rate)
			if at[n].Width.Valid() {
				was[n] = int8(l.ModeAt(at[n].Width))
			}
		}
		for _, want := range orders(len(at), was) {
			n := differ(want, was)
			if n == 0 && slices.Equal(spansFor(at, want), l.Spans[:l.SpanCount]) {
				continue
			}
			e.add(Change{Kind: ModesAt, Relearn: max(n*modeMoved+e.modesGone(want)*modeGone, unfelt), Control: i, Channel: l.Mode, Places: want})
		}
	}
	e.carried(ModeCarried, l.Mode, func(n int) [][]int8 {
		if n <= fewPlaces {
			return rising(orders(n, nil))
		}
		return orders(n, nil)
	})
	e.add(Change{Kind: NoModes, Relearn: switchGone, Control: -1, Channel: l.Mode})
}

// modesGone counts the modes that have a span and no place any more.
func (e *enumeration) modesGone(want []int8) (n int) {
	l := &e.cfg.Layout
	for m := range layout.Mode(layout.Modes) {
		has := slices.ContainsFunc(l.Spans[:l.SpanCount], func(s layout.ModeSpan) bool { return s.Mode == m })
		if has && !slices.Contains(want, int8(m)) {
			n++
		}
	}
	return n
}

// rising are the orders that begin in angle and go on to no milder mode.
func rising(all [][]int8) (out [][]int8) {
	for _, o := range all {
		if o[0] == int8(layout.Angle) && slices.IsSorted(o) {
			out = append(out, o)
		}
	}
	return out
}

// loss changes what a lost link does.
func (e *enumeration) loss() {
	c := e.cfg
	l := &c.Layout
	sink, other := int64(c.Arming.SinkSlots)*int64(c.SlotTicks), int64(usualSink)
	if sink > 0 {
		other = 0
	}
	e.add(Change{Kind: WhenLost, Relearn: atLoss, Control: -1, Channel: -1, Was: sink, Is: other})
	if c.Link.OnLoss != link.FallsSilent {
		e.add(Change{Kind: Receiver, Relearn: atLoss, Control: -1, Channel: -1, Was: int64(c.Link.OnLoss), Is: int64(link.FallsSilent)})
	}
	if c.Link.OnLoss != link.SendsStored {
		return
	}
	stored := func(channel int8, widths ...pulse.Width) {
		var done []pulse.Width
		for _, w := range widths {
			if channel == layout.NoChannel || !w.Valid() || w == c.Link.Stored[channel] || slices.Contains(done, w) {
				continue
			}
			done = append(done, w)
			e.add(Change{Kind: Stored, Relearn: atLoss, Control: -1, Channel: channel, Was: int64(c.Link.Stored[channel]), Is: int64(w)})
		}
	}
	stored(l.Throttle, pulse.Low, pulse.Centre)
	stored(l.Roll, pulse.Centre)
	stored(l.Pitch, pulse.Centre)
	stored(l.Yaw, pulse.Centre, pulse.Low)
	for _, channel := range [...]int8{l.Arm, l.Second, l.Mode} {
		if control, _ := e.control(channel); control != nil {
			at := placesOf(control)
			stored(channel, at[0].Width, at[len(at)/2].Width, at[len(at)-1].Width)
		}
		stored(channel, pulse.Low, pulse.High)
	}
}

// travel is what can be set in the radio: that a control goes as far as rules ask for.
func (e *enumeration) travel() {
	l := &e.cfg.Layout
	for _, channel := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode} {
		c, i := e.control(channel)
		if c == nil {
			continue
		}
		if low, high := measured(c); high > low {
			if a, b := endsOf(e.l, i); a != low || b != high {
				e.add(Change{Kind: Travel, Relearn: inRadio, Control: i, Channel: channel, Was: int64(low), Is: int64(a)})
			}
		}
	}
}
