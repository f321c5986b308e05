package mend

import (
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// standing is what rules about gestures depend on: how the craft arms, and how far the sticks go. Layouts in which it is the same break the
// same of these rules.
type standing struct {
	arming arming.Config
	layout layout.Config
	slot   uint16
	sticks [4]reach
	// others are the widths of the controls of the arm, second and mode channels in their first place.
	others [3]pulse.Width
}

type reach struct {
	low, rest, high pulse.Width
	stays           bool
}

func standingOf(l *prove.Layout) standing {
	c := &l.Config
	s := standing{arming: c.Arming, layout: c.Layout, slot: c.SlotTicks}
	for i, channel := range [...]int8{c.Layout.Throttle, c.Layout.Roll, c.Layout.Pitch, c.Layout.Yaw} {
		if o := l.Radio.On(channel); o != nil {
			s.sticks[i] = reach{o.Low, o.Rest, o.High, o.Stays}
		}
	}
	for i, channel := range [...]int8{c.Layout.Arm, c.Layout.Second, c.Layout.Mode} {
		if o := l.Radio.On(channel); o != nil && channel != layout.NoChannel {
			s.others[i] = firstPlace(o)
		}
	}
	if !c.Arming.OnlySelfLevelling { // which mode is flown where bears on nothing
		s.layout.Spans, s.layout.SpanCount, s.layout.FixedMode = [layout.MaxModeSpans]layout.ModeSpan{}, 0, 0
	}
	return s
}

func firstPlace(c *handset.Control) pulse.Width { return placesOf(c)[0].Width }

// byGestures are the rules that the gestures of a layout break. They are searched by themselves: the search of situations ends for want of
// memory before it has begun.
func (f *finder) byGestures(l *prove.Layout) ruleSet {
	if l.Config.Gestures == nil {
		return 0
	}
	at := standingOf(l)
	broken, known := f.gestures[at]
	if !known {
		o := f.options(nil)
		o.MostBytes = 1
		r, err := prove.Search(*l, o)
		if err != nil || f.stopped {
			return 0
		}
		broken = whose(&r, prove.Broken)
		f.gestures[at] = broken
	}
	return broken
}
