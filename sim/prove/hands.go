package prove

import (
	"math/bits"

	"propsoff.example/assets/words"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// class is a set of places of one control that mean the same to link, layout and arming: one of them stands for all.
type class struct {
	// width and position (−1 for a stick or knob) stand for the whole class.
	width    pulse.Width
	position int
	// members is how many positions of a switch are in the class; 1 for a stick or knob.
	members int
	// edges are widths that must mean the same: every position, or the ends of every stretch of a stick.
	edges []pulse.Width
	sign  sign
	// also is what the same place sends on the channels of the other controls that the hand moves with this one.
	also []sent
	// trembles is 0 where noise changes nothing; else it is the same number for all that the noise of one place can send. calm: of
	// these, it is what the place sends without noise.
	trembles int
	calm     bool
}

// sent is what a place sends on one more channel.
type sent struct {
	width pulse.Width
	sign  sign
}

// digit is what one hand moves at a time, if it has more than one class: one control, or several that are one piece of the radio.
type digit struct {
	control int // index into Radio.Controls
	channel int8
	// others are the controls that move with it.
	others  []int
	carried uint16 // a bit for each channel
	classes []class
	normal  int // class at the beginning
	springs bool
	shift   uint
	mask    uint32
}

func (d *digit) of(hands uint32) int { return int(hands >> d.shift & d.mask) }

func (d *digit) with(hands uint32, class int) uint32 {
	return hands&^(d.mask<<d.shift) | uint32(class)<<d.shift
}

// carries reports whether the hand that moves this moves a channel.
func (d *digit) carries(channel int8) bool { return channel >= 0 && d.carried>>channel&1 == 1 }

// how says what takes the control from one class to another, and whether a hand must move for it: what springs back and what
// trembles does so by itself.
func (d *digit) how(from, to int) (k Kind, costs bool) {
	a, b := &d.classes[from], &d.classes[to]
	switch {
	case a.trembles != 0 && a.trembles == b.trembles:
		return Tremble, false
	case d.springs && (to == d.normal || b.trembles != 0 && b.trembles == d.classes[d.normal].trembles):
		return LetGo, false
	}
	return Move, true
}

// sign is what a width on a channel means. Widths of equal sign are the same to the craft, as far as it is asked about.
type sign struct {
	valid  bool
	zone   uint8 // throttle and yaw: between which marks
	inside bool
	mode   layout.Mode
	gap    bool // modes asked about, and no span holds it
	// stands, where gestures are asked about, has the bits of every zone that some gesture asks of this stick: entered, and not left.
	stands uint8
}

// question says how finely a search tells the hands apart.
type question struct {
	// modes: the modes themselves are asked about; else only what arming reads of them.
	modes bool
	// all: every position of every switch is a class of its own, whether arming reads it or not. It serves to check the count of
	// situations stood for.
	all bool
	// gestures: where sticks stand as gestures see them is asked about too.
	gestures bool
}

// hands is everything that a person can hold: every control of the radio that is told apart, the radio's own switch, and one
// condition of the craft that refuses.
type hands struct {
	cfg    *sim.Config
	radio  *handset.Radio
	ask    question
	zones  [gestures.Directions]uint8 // asked of each stick by gestures
	digits []digit
	// bits is how many bits all digits take; above them stand the two switches.
	bits           uint
	radioOn, cable uint32
	start          uint32
	// frames is what is sent, by the digits' bits.
	frames []pulse.Frame
	// fold is how many positions each combination of digits stands for, unread switches included.
	fold []float64
	// combos are the digits' bits of every combination that exists.
	combos []uint32
}

// maxHandBits bounds the table of frames. A craft's jobs need at most about ten bits.
const maxHandBits = 20

func newHands(l *Layout, ask question) (*hands, error) {
	h := &hands{cfg: &l.Config, radio: &l.Radio, ask: ask, zones: zonesAsked(l)}
	var base pulse.Frame
	rest := 1.0
	if err := checkControls(&l.Radio); err != nil {
		return nil, err
	}
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		if c.Same != 0 {
			continue // it moves with another
		}
		classes := h.classes(i)
		normal := h.normal(c, classes)
		d := digit{control: i, channel: c.Channel, others: l.Radio.With(i), classes: classes, normal: normal, springs: c.Kind == handset.Switch && c.Momentary}
		d.carried = 1 << c.Channel
		for _, k := range d.others {
			d.carried |= 1 << l.Radio.Controls[k].Channel
		}
		h.send(&d, normal, &base)
		if len(classes) == 1 {
			rest *= float64(classes[0].members)
			continue
		}
		h.digits = append(h.digits, d)
	}
	for i := range h.digits {
		d := &h.digits[i]
		n := uint(bits.Len(uint(len(d.classes) - 1)))
		d.shift, d.mask = h.bits, 1<<n-1
		h.bits += n
		h.start = d.with(h.start, d.normal)
	}
	if h.bits > maxHandBits {
		return nil, words.Wrong("search.many-places")
	}
	h.radioOn, h.cable = 1<<h.bits, 2<<h.bits
	h.start |= h.radioOn
	h.frames, h.fold = make([]pulse.Frame, 1<<h.bits), make([]float64, 1<<h.bits)
	h.fill(0, 0, base, rest)
	return h, nil
}

// fill makes the frames of every combination of the digits from n on.
func (h *hands) fill(n int, combo uint32, f pulse.Frame, stands float64) {
	if n == len(h.digits) {
		h.frames[combo], h.fold[combo] = f, stands
		h.combos = append(h.combos, combo)
		return
	}
	d := &h.digits[n]
	for i := range d.classes {
		h.send(d, i, &f)
		h.fill(n+1, d.with(combo, i), f, stands*float64(d.classes[i].members))
	}
}

// send writes what a control sends where it stands in a class.
func (h *hands) send(d *digit, class int, f *pulse.Frame) {
	k := &d.classes[class]
	f[d.channel] = k.width
	for i, o := range d.others {
		f[h.radio.Controls[o].Channel] = k.also[i].width
	}
}

// sends reports whether a frame is what a control sends where it stands in a class.
func (h *hands) sends(d *digit, class int, f *pulse.Frame) bool {
	k := &d.classes[class]
	is := f[d.channel] == k.width
	for i, o := range d.others {
		is = is && f[h.radio.Controls[o].Channel] == k.also[i].width
	}
	return is
}

// sentOn is what a control sends on one of the channels that it carries, and means there, where it stands in a class.
func (h *hands) sentOn(d *digit, class int, channel int8) sent {
	k := &d.classes[class]
	for i, o := range d.others {
		if h.radio.Controls[o].Channel == channel {
			return k.also[i]
		}
	}
	return sent{k.width, k.sign}
}

// noPulse is a channel needed for a valid frame on which a control sends no pulse that counts where hands hold it, −1 for none.
func (h *hands) noPulse(d *digit, hands uint32) int8 {
	for c := range int8(pulse.Channels) {
		if d.carries(c) && h.cfg.Link.Needed>>c&1 == 1 && !h.sentOn(d, d.of(hands), c).sign.valid {
			return c
		}
	}
	return -1
}

// sentBits is the hands without the two switches.
func (h *hands) sentBits() uint32 { return h.radioOn - 1 }

// on gives the digit of a channel, nil where the channel has only one meaning.
func (h *hands) on(channel int8) *digit {
	for i := range h.digits {
		if h.digits[i].carries(channel) {
			return &h.digits[i]
		}
	}
	return nil
}

// readsMode reports whether arming reads the mode, or the search is about modes.
func (h *hands) readsMode() bool { return h.ask.modes || h.cfg.Arming.OnlySelfLevelling }

// foldMode is the mode as far as this search tells modes apart.
func (h *hands) foldMode(m layout.Mode) layout.Mode {
	switch {
	case h.ask.modes:
		return m
	case !h.cfg.Arming.OnlySelfLevelling:
		return layout.PowerUp(&h.cfg.Layout).Mode
	case m.SelfLevelling():
		return layout.Angle
	}
	return layout.Rate
}

// sign is what a width on a channel means.
func (h *hands) sign(channel int8, w pulse.Width) sign {
	l, a := &h.cfg.Layout, &h.cfg.Arming
	read := channel == l.Throttle || channel == l.Roll || channel == l.Pitch || channel == l.Yaw || channel == l.Arm || channel == l.Second || channel == l.Mode
	if !read {
		return sign{}
	}
	s := sign{valid: w.Valid()}
	if !s.valid {
		return s
	}
	count := func(marks ...pulse.Width) {
		for _, m := range marks {
			if w >= m {
				s.zone++
			}
		}
	}
	switch {
	case channel == l.Throttle && a.By == arming.BySticks:
		count(a.LowThrottle, a.LeaveThrottle)
	case channel == l.Throttle:
		count(a.LowThrottle)
	case channel == l.Yaw && a.By == arming.BySticks:
		count(a.YawLeft+1, a.LeaveLeft+1, a.LeaveRight, a.YawRight)
	case channel == l.Arm:
		s.inside = l.ArmSpan.Contains(w)
	case channel == l.Second:
		s.inside = l.SecondSpan.Contains(w)
	case channel == l.Mode && h.readsMode():
		s.mode, s.gap = h.foldMode(l.ModeAt(w)), h.ask.modes && !inModeSpan(l, w)
	}
	if h.ask.gestures {
		s.stands = h.stands(channel, w)
	}
	if channel == l.Throttle && asksPower(w) && !asksPower(a.LowThrottle-1) {
		return s
	}
	if channel == l.Throttle && asksPower(w) {
		s.zone |= 0x80 // below the craft's low mark, and yet power is asked for
	}
	return s
}

// stands is how a stick stands in the zones that gestures ask of it.
func (h *hands) stands(channel int8, w pulse.Width) (at uint8) {
	g := h.cfg.Gestures
	if g == nil {
		return 0
	}
	off := abs(w - pulse.Centre)
	is := [...]bool{w <= g.LowIn, w <= g.LowOut, off <= g.MiddleIn, off < g.MiddleOut, w >= g.HighIn, w >= g.HighOut}
	for d, of := range stickChannels(h.cfg) {
		for i := range is {
			if of == channel && is[i] && h.zones[d]>>(i/2)&1 == 1 {
				at |= 1 << i
			}
		}
	}
	return at
}

// zonesAsked has for each stick direction a bit for low, middle and high: whether some gesture asks for it.
func zonesAsked(l *Layout) (asked [gestures.Directions]uint8) {
	if g := l.Config.Gestures; g != nil {
		for i := range g.Patterns {
			p := &g.Patterns[i]
			for part := range int(p.Count) {
				for d, z := range p.JobZones(part, uint8(l.Radio.StickMode)) {
					if z != gestures.Any {
						asked[d] |= 1 << (z - gestures.Low)
					}
				}
			}
		}
	}
	return asked
}

func inModeSpan(l *layout.Config, w pulse.Width) bool {
	for i := range l.Spans[:l.SpanCount] {
		if l.Spans[i].Span.Contains(w) {
			return true
		}
	}
	return false
}

// asksPower reports whether a throttle asks for any power: from 1000 µs on.
func asksPower(w pulse.Width) bool { return w.ThrottleFraction() > 0 }
