package sheet

import (
	"slices"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
	"propsoff/sim/craftfile"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
	"propsoff/sim/pulse"
	"propsoff/sim/switches"
)

// CardData is everything that stands on a switch card. It holds no picture and no device: a command fills it as well as a
// window.
type CardData struct {
	Craft  string
	Config sim.Config
	// Jobs are the named jobs of the craft file beside those that the bench knows.
	Jobs  []craftfile.Job
	Radio handset.Radio
	// Given: a radio file was given; else Radio is an ideal one, and the card says so.
	Given bool
	// Date as it is printed; empty leaves it out.
	Date string
	// Rules are what a search found, in their order; Verdict sums it up. Both are empty where nobody searched, and NotProved says
	// so.
	Rules     []CardRule
	Verdict   string
	NotProved string
	// Warn: a rule is broken, or the search did not come to its end.
	Warn bool
}

// CardRule is one rule on the card.
type CardRule struct {
	// Name says the rule in a few words, Outcome what was found of it.
	Name, Outcome string
	// Why says why a broken rule is broken and what to set, Set what to set alone; both empty for any other rule.
	Why, Set string
	// Bad: it is broken. Open: the search was stopped before it was decided. Silent: it holds, or is not for this craft, and
	// may be left out where there is no room.
	Bad, Open, Silent bool
}

// NewCard is the card of a craft and a radio, nothing proved yet.
func NewCard(f *craftfile.File, r handset.Radio, given bool, date string) CardData {
	return CardData{Craft: f.Name, Config: f.Config(), Jobs: f.More(), Radio: r, Given: given, Date: date, NotProved: phrase.CardNotProved("")}
}

// cardNews puts first what a person must know first.
var cardNews = [...]prove.Outcome{prove.Broken, prove.WithIt, prove.Undecided, prove.Holds}

// Prove puts what a search found on the card. Rules that are not for this craft are left out.
func (c *CardData) Prove(r *prove.Report) {
	c.Rules, c.Verdict, c.Warn = nil, phrase.CardVerdict(r), r.Verdict() != prove.AllHold
	l := prove.Layout{Config: c.Config, Radio: c.Radio}
	for _, o := range cardNews {
		for i := range r.Results {
			if one := &r.Results[i]; one.Outcome == o {
				rule := CardRule{Name: phrase.FoundShort(one), Outcome: phrase.CardOutcome(one),
					Bad: o == prove.Broken, Open: o == prove.Undecided || o == prove.WithIt, Silent: o == prove.Holds}
				if rule.Bad {
					rule.Why, rule.Set = phrase.CardWhy(&l, one)
				}
				c.Rules = append(c.Rules, rule)
			}
		}
	}
}

// warnings counts what there is to call out about the layout.
func (c *CardData) warnings() int { return facts.Look(&c.Config, c.Jobs, &c.Radio).Warnings() }

// tone is how a deed stands out.
type tone uint8

const (
	plainTone tone = iota
	armedTone
	disarmedTone
	idleTone // nothing is done
)

// cardDeed is one thing that the craft does.
type cardDeed struct {
	text string
	tone tone
}

// cardPosition is one position of a switch, or some next to each other that do the same: the lowest and highest of their
// values, and what the craft does there.
type cardPosition struct {
	low, high pulse.Width
	zone      string // of a knob: the part of its travel, in place of a value
	does      []cardDeed
}

// cardSwitch is a switch or knob of the radio as it stands on the card.
type cardSwitch struct {
	control   *handset.Control
	number    int // from 1
	positions []cardPosition
}

// switches are the controls of the radio that are no sticks, numbered from the left side over the top to the right side,
// those without a side last; within a side in the order of their channels. joined puts positions next to each other that
// do the same into one.
func (c *CardData) switches(joined bool) (out []cardSwitch) {
	for _, side := range [...]handset.Side{handset.Left, handset.Top, handset.Right, handset.NoSide} {
		for i := range c.Radio.Controls {
			if k := &c.Radio.Controls[i]; k.Kind != handset.Stick && k.Side == side {
				out = append(out, cardSwitch{k, len(out) + 1, c.positions(k, joined)})
			}
		}
	}
	return out
}

// positions are those of a control from high to low.
func (c *CardData) positions(k *handset.Control, joined bool) (out []cardPosition) {
	looked := *k
	ends := []pulse.Width{}
	if k.Kind == handset.Knob { // its travel is looked at where something begins
		ends = c.cuts(k)
		looked.Kind, looked.Positions = handset.Switch, nil
		for _, e := range ends[:len(ends)-1] {
			looked.Positions = append(looked.Positions, handset.Position{Width: e})
		}
	}
	looks := switches.Look(&c.Config, c.Jobs, &handset.Radio{Controls: []handset.Control{looked}})
	for i := range looks.Switches {
		if s := &looks.Switches[i]; s.Control != nil {
			for n := len(s.Positions) - 1; n >= 0; n-- {
				p := cardPosition{low: s.Positions[n].Width, high: s.Positions[n].Width, does: c.deeds(&s.Positions[n])}
				if k.Kind == handset.Knob {
					p.high = ends[n+1] - 1
				}
				if last := len(out) - 1; last >= 0 && (joined || k.Kind == handset.Knob) && slices.Equal(out[last].does, p.does) {
					out[last].low = p.low
					continue
				}
				out = append(out, p)
			}
		}
	}
	for i := range out {
		if k.Kind == handset.Knob {
			out[i].zone = zone(k, layout.Span{Low: out[i].low, High: out[i].high + 1})
		}
	}
	return out
}

// cuts are the places of a knob's travel where what the craft does may change, both ends included.
func (c *CardData) cuts(k *handset.Control) []pulse.Width {
	at := []pulse.Width{k.Low, k.High + 1}
	looks := switches.Look(&c.Config, c.Jobs, &handset.Radio{Controls: []handset.Control{*k}})
	for i := range looks.Switches {
		if looks.Switches[i].Channel != k.Channel {
			continue
		}
		for _, j := range looks.Switches[i].Jobs {
			for _, s := range j.Spans {
				for _, e := range [2]pulse.Width{s.Low, s.High} {
					if e > k.Low && e <= k.High {
						at = append(at, e)
					}
				}
			}
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// zone says which part of a knob's travel a span is.
func zone(k *handset.Control, s layout.Span) string {
	if s.Low <= k.Low {
		s.Low = pulse.Lowest
	}
	if s.High > k.High {
		s.High = pulse.Highest
	}
	return phrase.SpanWords(s)
}

// deeds puts what the craft does at a position into words.
func (c *CardData) deeds(p *switches.Position) (out []cardDeed) {
	switch {
	case p.Arm == layout.Inside:
		out = append(out, cardDeed{phrase.CardArmed(true), armedTone})
	case p.Arm != layout.NoJob:
		out = append(out, cardDeed{phrase.CardArmed(false), disarmedTone})
	}
	if p.Second != layout.NoJob {
		out = append(out, cardDeed{text: phrase.CardSecond(p.Second == layout.Inside)})
	}
	if p.HasMode {
		out = append(out, cardDeed{text: phrase.CardMode(p.Mode, p.Air, p.Gap)})
	}
	for _, n := range p.On {
		out = append(out, cardDeed{text: c.Jobs[n].Name})
	}
	if len(out) == 0 {
		out = append(out, cardDeed{phrase.CardNothing(), idleTone})
	}
	return out
}

// absent are the jobs of the craft that no control of the radio carries.
func (c *CardData) absent() (out []string) {
	l := &c.Config.Layout
	add := func(channel int8, job string) {
		if channel >= 0 && c.Radio.On(channel) == nil && !slices.Contains(out, job) {
			out = append(out, job)
		}
	}
	for _, j := range [...]struct {
		channel int8
		job     string
	}{{l.Throttle, "throttle"}, {l.Roll, "roll"}, {l.Pitch, "pitch"}, {l.Yaw, "yaw"}, {l.Arm, "arm"}, {l.Second, "second"}, {l.Mode, "mode"}} {
		add(j.channel, j.job)
	}
	for _, j := range c.Jobs {
		add(j.Channel, j.Name)
	}
	return out
}

// numberOn is the number on the card of the switch that a channel carries; 0 where there is none.
func numberOn(all []cardSwitch, channel int8) int {
	for i := range all {
		if channel >= 0 && all[i].control.Channel == channel {
			return all[i].number
		}
	}
	return 0
}
