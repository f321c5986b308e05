package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// MendProgress says how far the search for mends is; before it has begun, how far the search of the layout is.
func MendProgress(p mend.Progress) words.Text {
	if p.Changes == 0 {
		return Progress(p.Search)
	}
	return words.T("mend.looking", words.Args{"n": words.Count(p.Changes), "tried": words.Whole(p.Tried), "of": words.Whole(p.Of), "proofs": words.Whole(p.Proofs), "found": words.Whole(p.Mends)})
}

// MendVerdict says what the search for mends came to.
func MendVerdict(r *mend.Report) words.Text {
	switch r.Verdict() {
	case mend.NothingToMend:
		return words.T("mend.nothing-to-do")
	case mend.Unfinished:
		return words.T("mend.none-yet")
	case mend.Unmended:
		return words.T("mend.none", words.Args{"n": words.Count(r.Changes), "tried": words.Whole(r.Tried)})
	}
	found := words.T("mend.found", words.Args{"n": words.Count(len(r.Mends))})
	if r.Partial {
		return words.Row(found, words.T("mend.stopped"))
	}
	return found
}

// MendExcluded heads the rules that stand in each other's way.
func MendExcluded(r *mend.Report) words.Text {
	return words.T("mend.excluded", words.Args{"n": words.Count(len(r.Exclude)), "fewest": words.Flag(r.Fewest)})
}

// MendTitle says of mend n, from 0, how many changes it has, and what must be relearnt.
func MendTitle(n int, m *mend.Mend) words.Text {
	relearn := words.T("mend.relearn-nothing")
	switch radio, loss, hands := m.Asks(); {
	case hands:
		relearn = words.T("mend.relearn-hands")
	case radio:
		relearn = words.T("mend.relearn-radio")
	case loss:
		relearn = words.T("mend.relearn-loss")
	}
	return words.T("mend.title", words.Args{"number": words.Whole(n + 1), "n": words.Count(len(m.Changes)), "relearn": relearn})
}

// MendShort calls mend n, from 0, by its number, and MendCount says of how many changes it is.
func MendShort(n int) words.Text {
	return words.T("mend.short", words.Args{"number": words.Whole(n + 1)})
}

// MendCount is told with MendShort.
func MendCount(m *mend.Mend) words.Text {
	return words.T("mend.count", words.Args{"n": words.Count(len(m.Changes))})
}

// MendChanges are the changes of a mend, a sentence each: what is the craft's, and what is to be set in the radio.
func MendChanges(l *prove.Layout, m *mend.Mend) (out []words.Text) {
	for i := range m.Changes {
		ch := &m.Changes[i]
		if ch.Swaps {
			out = append(out, words.T("mend.in-radio", words.Args{"what": sentBy(l, &m.After, ch)}))
		}
		what := words.Args{"what": mendChange(l, &m.After, ch)}
		if ch.Kind == mend.Travel {
			out = append(out, words.T("mend.in-radio", what))
		} else {
			out = append(out, words.T("mend.in-craft", what))
		}
	}
	return out
}

// MendProved says of a mend how many situations were searched.
func MendProved(m *mend.Mend) words.Text {
	return words.T("mend.proved", words.Args{"situations": SituationsStand(m.Proof.Situations, m.Proof.Standing)})
}

// sentBy says which control is sent on which channel, where that is changed in the radio.
func sentBy(l, after *prove.Layout, ch *mend.Change) words.Text {
	was := words.Text{}
	if old := l.Radio.On(ch.Channel); old != nil {
		was = ControlName(old)
	}
	return words.T("mend-change.sent-by", words.Args{"name": ControlName(&l.Radio.Controls[ch.Control]), "channel": ChannelNumber(int(after.Radio.Controls[ch.Control].Channel)), "was": was})
}

func mendChange(l, after *prove.Layout, ch *mend.Change) words.Text {
	name, channel := words.Text{}, words.Text{}
	if ch.Control >= 0 {
		c := &l.Radio.Controls[ch.Control]
		name, channel = ControlName(c), ChannelNumber(int(after.Radio.Controls[ch.Control].Channel))
		if ch.Kind == mend.Travel { // of a stick too, which has no article
			name = provedName(c)
		}
	} else if ch.Channel != layout.NoChannel {
		channel = ChannelNumber(int(ch.Channel))
	}
	is, was := mendValues(l, after, ch)
	return words.Of("mend-change", ch.Kind.Code(), words.Args{"name": name, "channel": channel, "is": is, "was": was, "on": words.Flag(ch.Is == 1)})
}

// mendValues are what is changed, as it becomes and as it is.
func mendValues(l, after *prove.Layout, ch *mend.Change) (is, was words.Text) {
	a, b := &after.Config.Layout, &l.Config.Layout
	switch ch.Kind {
	case mend.ArmOn, mend.ArmCarried, mend.ArmBySwitch:
		return SpanWords(a.ArmSpan), SpanWords(b.ArmSpan)
	case mend.SecondOn, mend.SecondCarried:
		return SpanWords(a.SecondSpan), SpanWords(b.SecondSpan)
	case mend.ModesAt, mend.ModeCarried:
		return modeSpansSaid(a), modeSpansSaid(b)
	case mend.Travel:
		c, o := &after.Radio.Controls[ch.Control], &l.Radio.Controls[ch.Control]
		return travelSaid(c), travelSaid(o)
	case mend.Receiver:
		is, _ = OnLoss(facts.OnLoss(ch.Is))
		was, _ = OnLoss(facts.OnLoss(ch.Was))
		return is, was
	}
	return mendValue(ch.Kind, ch.Is), mendValue(ch.Kind, ch.Was)
}

// mendValue is the value of a number or choice in its unit.
func mendValue(k mend.Kind, v int64) words.Text {
	switch k {
	case mend.SilenceLimit, mend.CleanTime, mend.SinkTime, mend.ArmDwell, mend.DisarmDwell, mend.StillTime:
		return Seconds(v)
	case mend.WhenLost:
		if v > 0 {
			return Seconds(v)
		}
	case mend.SinkCarries, mend.AirWakes:
		return Tenths(v)
	case mend.IdleSpeed:
		return unit("percent", words.Fixed{N: v, Places: 2})
	case mend.LowThrottle:
		return unit("micros", Exact(pulse.Width(v)))
	case mend.Stored:
		if w := pulse.Width(v); w.Valid() {
			return unit("micros", Exact(w))
		}
	case mend.TiltLimit:
		return Degrees(int(v))
	case mend.AlwaysMode:
		return Mode(layout.Mode(v))
	case mend.AirModes:
		var in []words.Text
		for m := range layout.Mode(layout.Modes) {
			if v>>m&1 == 1 {
				in = append(in, Mode(m))
			}
		}
		return words.And(in...)
	}
	return words.Text{}
}

// modeSpansSaid lists mode spans.
func modeSpansSaid(l *layout.Config) words.Text {
	var all []words.Text
	for _, s := range l.Spans[:l.SpanCount] {
		all = append(all, words.T("mend.mode-span", words.Args{"mode": Mode(s.Mode), "span": SpanWords(s.Span)}))
	}
	return words.Listed(all...)
}

// travelSaid is how far a control goes.
func travelSaid(c *handset.Control) words.Text {
	low, high := c.Low, c.High
	if n := len(c.Positions); c.Kind == handset.Switch && n > 0 {
		low, high = c.Positions[0].Width, c.Positions[n-1].Width
	}
	return words.T("mend.travel", words.Args{"low": Micros(low), "high": Micros(high)})
}

// MendLever is one switch that a mend touches: what it is called, and of each of its positions what it does, before and after where that
// is not the same.
type MendLever struct {
	Name   words.Text
	Places []words.Text
}

// MendLevers are the switches that a mend touches. was and is are the looks of the layout before and after.
func MendLevers(l *prove.Layout, m *mend.Mend, was, is *switches.Facts) (out []MendLever) {
	for i := range m.After.Radio.Controls {
		c := &m.After.Radio.Controls[i]
		if !touched(l, m, i) || c.Kind != handset.Switch {
			continue
		}
		lever := MendLever{Name: words.T("mend.lever", words.Args{"name": ControlName(&l.Radio.Controls[i])})}
		before, after := switchOn(was, l.Radio.Controls[i].Channel), switchOn(is, c.Channel)
		for n := range c.Positions {
			does := positionOf(is, after, n)
			if did := positionOf(was, before, n); !did.Empty() && words.English().Say(did) != words.English().Say(does) {
				does = words.Row(did, words.AsIs("→"), does)
			}
			lever.Places = append(lever.Places, words.T("mend.place", words.Args{"at": ControlAt(c, n, c.Positions[n].Width), "does": does}))
		}
		out = append(out, lever)
	}
	return out
}

// touched reports whether a mend changes what control i does or sends.
func touched(l *prove.Layout, m *mend.Mend, i int) bool {
	for n := range m.Changes {
		ch := &m.Changes[n]
		old := l.Radio.Controls[i].Channel
		switch ch.Kind {
		case mend.ArmCarried, mend.SecondCarried, mend.ModeCarried, mend.ArmBySticks, mend.NoSecond, mend.NoModes:
			if ch.Control == i || ch.Channel == old {
				return true
			}
		default:
			if ch.Control == i {
				return true
			}
		}
	}
	return false
}

// switchOn is the switch on a channel, nil where nothing is looked at there.
func switchOn(f *switches.Facts, channel int8) *switches.Switch {
	for i := range f.Switches {
		if f.Switches[i].Channel == channel {
			return &f.Switches[i]
		}
	}
	return nil
}

// positionOf says what position n of a switch does; nothing where there is none.
func positionOf(f *switches.Facts, s *switches.Switch, n int) words.Text {
	if s == nil || n >= len(s.Positions) {
		return words.Text{}
	}
	return PositionDoes(f, s, &s.Positions[n])
}
