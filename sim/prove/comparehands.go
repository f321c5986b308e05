package prove

import (
	"fmt"
	"math/bits"

	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// meaning is what a width means to one craft, as far as a walk asks.
type meaning struct {
	sign     sign
	throttle throttleZone // where motors are asked about
	// second and mode are for a channel that has another job besides.
	second bool
	mode   layout.Mode
	// also is what else the same hand sends, on other channels.
	also string
}

// pairPlace is where a hand can hold a control of both radios at once: all places that mean the same to both crafts are one.
type pairPlace struct {
	means [2]meaning
	// width and position (−1 for a stick, a knob, and a radio without this control) are those that stand for it.
	width    [2]pulse.Width
	position [2]int
	// also are the widths on the channels of others.
	also [2][]pulse.Width
	// letGo is the place to which it goes when it is let go, −1 where nothing springs back.
	letGo int
	// held: a hand can put it there; else it only comes there by being let go.
	held bool
}

// pairControl is one control of both radios, as a digit of the hands.
type pairControl struct {
	// control and channel are those of each radio; −1 in one that does not have it.
	control [2]int
	channel [2]int8
	// others are the controls of each radio that move with it.
	others [2][]int
	places []pairPlace
	normal int
	stride uint32
}

func (c *pairControl) of(sent uint32) int { return int(sent / c.stride % uint32(len(c.places))) }

func (c *pairControl) with(sent uint32, place int) uint32 {
	return sent + uint32(place)*c.stride - uint32(c.of(sent))*c.stride
}

// pairHands is what hands hold over both layouts: each control where it stands, the radio's own switch, and one condition of the craft.
type pairHands struct {
	lens     lens
	l        [2]*Layout
	cfg      [2]*sim.Config
	means    [2]*hands // asked for the sign of a width and the folding of modes alone
	controls []pairControl
	// conditions are those under which a craft is held: none first.
	conditions []condition
	// frames is what each radio sends, by where the controls stand, all that means the same to a craft made equal; sent is what the radio
	// really sends then.
	frames, sent [2][]pulse.Frame
	// sentBits is how many bits that takes; above them stand the radio's switch and the number of the condition.
	sentBits uint
	radioOn  uint32
	start    uint32
	pairs    [][2]int
	leftOut  []LeftOut
}

// condition is one that a person brings about, and what ends it.
type condition struct {
	craft     arming.Conditions
	on, off   Kind
	is, isNot pulse.Reading
	// moves: the craft is moved by it.
	moves bool
}

func newPairHands(l [2]*Layout, n lens) (*pairHands, error) {
	h := &pairHands{lens: n, l: l, cfg: [2]*sim.Config{&l[0].Config, &l[1].Config}}
	for i := range l {
		h.means[i] = &hands{cfg: h.cfg[i], radio: &l[i].Radio, ask: question{modes: n.modes}}
		if err := checkControls(&l[i].Radio); err != nil {
			return nil, err
		}
	}
	if h.conditions = conditionsOf(h.cfg); !n.arming {
		h.conditions = h.conditions[:1] // modes ask for none
	}
	total := uint32(1)
	var base [2]pulse.Frame
	h.pairs = sameControls(&l[0].Radio, &l[1].Radio)
	for _, pair := range h.pairs {
		c := pairControl{control: pair}
		for i, at := range pair {
			if c.channel[i] = layout.NoChannel; at >= 0 {
				c.channel[i], c.others[i] = l[i].Radio.Controls[at].Channel, l[i].Radio.With(at)
			}
		}
		h.placesOf(&c)
		for i := range base {
			h.send(&c, &c.places[c.normal], i, &base[i])
		}
		if len(c.places) < 2 {
			continue
		}
		c.stride = total
		if total *= uint32(len(c.places)); total > 1<<maxHandBits {
			return nil, words.Wrong("search.many-places")
		}
		h.start += uint32(c.normal) * c.stride
		h.controls = append(h.controls, c)
	}
	h.fill(total, base)
	h.sentBits = uint(bits.Len32(total - 1))
	h.radioOn = 1 << h.sentBits
	h.start |= h.radioOn
	return h, nil
}

// fill makes the frames of every combination of places.
func (h *pairHands) fill(total uint32, base [2]pulse.Frame) {
	for i := range h.frames {
		h.frames[i], h.sent[i] = make([]pulse.Frame, total), make([]pulse.Frame, total)
		for sent := range total {
			f, g := base[i], base[i]
			for k := range h.controls {
				c := &h.controls[k]
				p := &c.places[c.of(sent)]
				h.send(c, p, i, &g)
				for q := range c.places { // the first that means the same stands for all
					if c.places[q].means[i] == p.means[i] {
						h.send(c, &c.places[q], i, &f)
						break
					}
				}
			}
			h.frames[i][sent], h.sent[i][sent] = f, g
		}
	}
}

// send puts into a frame what a control sends where it stands in a place.
func (h *pairHands) send(c *pairControl, p *pairPlace, i int, f *pulse.Frame) {
	if c.channel[i] == layout.NoChannel {
		return
	}
	f[c.channel[i]] = p.width[i]
	for n, o := range c.others[i] {
		f[h.l[i].Radio.Controls[o].Channel] = p.also[i][n]
	}
}

// unpack says what hands hold.
func (h *pairHands) unpack(hands uint32) (sent uint32, on bool, condition uint32) {
	return hands & (h.radioOn - 1), hands&h.radioOn != 0, hands >> (h.sentBits + 1)
}

func (h *pairHands) pack(sent uint32, on bool, condition uint32) uint32 {
	return sent | bit(on)<<h.sentBits | condition<<(h.sentBits+1)
}

// bits is how many bits of a key hands take.
func (h *pairHands) bits() uint { return h.sentBits + 1 + uint(bits.Len(uint(len(h.conditions)-1))) }

// meaning is what a width on a channel means to one craft.
func (h *pairHands) meaning(i int, channel int8, w pulse.Width) meaning {
	if channel == layout.NoChannel {
		return meaning{}
	}
	m := meaning{sign: h.means[i].sign(channel, w)}
	if h.lens.motors && channel == h.cfg[i].Layout.Throttle && w.Valid() {
		m.throttle = zoneOf(h.cfg[i], w)
	}
	of := &h.cfg[i].Layout
	m.second = channel == of.Second && of.SecondSpan.Contains(w)
	if channel == of.Mode && w.Valid() {
		m.mode = h.means[i].foldMode(of.ModeAt(w))
	}
	return m
}

// meanings is what a hand means to one craft by a control, at a width and, for a switch, in a position, with all that moves with it.
func (h *pairHands) meanings(c *pairControl, i int, w pulse.Width, position int) (m meaning, also []pulse.Width) {
	m = h.meaning(i, c.channel[i], w)
	for _, o := range c.others[i] {
		with := &h.l[i].Radio.Controls[o]
		v := h.l[i].Radio.Controls[c.control[i]].Carries(with, max(position, 0), w, 0)
		also = append(also, v)
		m.also += fmt.Sprint(h.meaning(i, with.Channel, v))
	}
	return m, also
}

// sameControls finds which controls of two radios are the same to a hand: those of equal job, then, of those that are left, those on equal
// channels. A control that only one radio has stands alone.
func sameControls(a, b *handset.Radio) (pairs [][2]int) {
	partner, taken := make([]int, len(a.Controls)), make([]bool, len(b.Controls))
	for i := range partner {
		partner[i] = -1
	}
	for _, same := range [...]func(c, d *handset.Control) bool{
		func(c, d *handset.Control) bool { return c.Job == d.Job && c.Job != "" },
		func(c, d *handset.Control) bool { return c.Channel == d.Channel },
	} {
		for i := range a.Controls {
			for k := range b.Controls {
				if c, d := &a.Controls[i], &b.Controls[k]; c.Same == 0 && d.Same == 0 && partner[i] < 0 && !taken[k] && same(c, d) {
					partner[i], taken[k] = k, true
				}
			}
		}
	}
	for i, k := range partner {
		if a.Controls[i].Same == 0 { // else it moves with another
			pairs = append(pairs, [2]int{i, k})
		}
	}
	for k := range taken {
		if !taken[k] && b.Controls[k].Same == 0 {
			pairs = append(pairs, [2]int{-1, k})
		}
	}
	return pairs
}

// conditionsOf are the conditions of the craft under which the two might answer differently: the set-up cable, which stands for all that
// refuse with both, and one for each limit that differs, between the two limits.
func conditionsOf(cfg [2]*sim.Config) []condition {
	a, b := &cfg[0].Arming, &cfg[1].Arming
	out := []condition{{}, {craft: arming.Conditions{Cable: true}, on: CableIn, off: CableOut, is: pulse.Reading{Kind: pulse.Cable, Value: 1}, isNot: pulse.Reading{Kind: pulse.Cable}}}
	if a.TiltLimitTenths != b.TiltLimitTenths {
		at := max(a.TiltLimitTenths, b.TiltLimitTenths)
		out = append(out, condition{craft: arming.Conditions{TiltTenths: at}, on: Tilt, off: Level, moves: true,
			is: pulse.Reading{Kind: pulse.Tilt, Value: int32(at)}, isNot: pulse.Reading{Kind: pulse.Tilt}})
	}
	if a.PackLimitMilliVolts != b.PackLimitMilliVolts {
		at := max(a.PackLimitMilliVolts, b.PackLimitMilliVolts) - 1
		out = append(out, condition{craft: arming.Conditions{PackMilliVolts: at}, on: PackSags, off: PackWell,
			is: pulse.Reading{Kind: pulse.Pack, Value: int32(at)}, isNot: pulse.Reading{Kind: pulse.Pack}})
	}
	if a.CameraMenuCounts != b.CameraMenuCounts {
		out = append(out, condition{craft: arming.Conditions{Menu: pulse.MenuCamera}, on: CameraMenu, off: MenuShut,
			is: pulse.Reading{Kind: pulse.Menu, Value: pulse.MenuCamera}, isNot: pulse.Reading{Kind: pulse.Menu}})
	}
	return out
}
