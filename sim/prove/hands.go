package prove

import (
	"math/bits"

	"propsoff/assets/words"
	"propsoff/sim"
	"propsoff/sim/arming"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
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
}

// digit is one control with more than one class, as a digit of the hands.
type digit struct {
	control int // index into Radio.Controls
	channel int8
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

// sign is what a width on a channel means. Widths of equal sign are the same to the craft, as far as it is asked about.
type sign struct {
	valid  bool
	zone   uint8 // throttle and yaw: between which marks
	inside bool
	mode   layout.Mode
	gap    bool // modes asked about, and no span holds it
}

// question says how finely a search tells the hands apart.
type question struct {
	// modes: the modes themselves are asked about; else only what arming reads of them.
	modes bool
	// all: every position of every switch is a class of its own, whether arming reads it or not. It serves to check the count of
	// situations stood for.
	all bool
}

// hands is everything that a person can hold: every control of the radio that is told apart, the radio's own switch, and one
// condition of the craft that refuses.
type hands struct {
	cfg    *sim.Config
	radio  *handset.Radio
	ask    question
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
	h := &hands{cfg: &l.Config, radio: &l.Radio, ask: ask}
	var base pulse.Frame
	rest := 1.0
	seen := map[int8]bool{}
	for i := range l.Radio.Controls {
		c := &l.Radio.Controls[i]
		switch {
		case c.Channel < 0 || c.Channel >= pulse.Channels:
			return nil, words.Wrong("search.control-beyond", words.Args{"n": words.Whole(i), "channel": words.Whole(int(c.Channel) + 1)})
		case seen[c.Channel]:
			return nil, words.Wrong("search.two-controls", words.Args{"channel": words.Whole(c.Channel + 1)})
		case c.Kind == handset.Switch && len(c.Positions) == 0:
			return nil, words.Wrong("search.no-positions", words.Args{"channel": words.Whole(c.Channel + 1)})
		}
		seen[c.Channel] = true
		classes := h.classes(c)
		normal := h.normal(c, classes)
		base[c.Channel] = classes[normal].width
		if len(classes) == 1 {
			rest *= float64(classes[0].members)
			continue
		}
		h.digits = append(h.digits, digit{control: i, channel: c.Channel, classes: classes, normal: normal, springs: c.Kind == handset.Switch && c.Momentary})
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
		f[d.channel] = d.classes[i].width
		h.fill(n+1, d.with(combo, i), f, stands*float64(d.classes[i].members))
	}
}

// sentBits is the hands without the two switches.
func (h *hands) sentBits() uint32 { return h.radioOn - 1 }

// on gives the digit of a channel, nil where the channel has only one meaning.
func (h *hands) on(channel int8) *digit {
	for i := range h.digits {
		if h.digits[i].channel == channel {
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
	if channel == l.Throttle && asksPower(w) && !asksPower(a.LowThrottle-1) {
		return s
	}
	if channel == l.Throttle && asksPower(w) {
		s.zone |= 0x80 // below the craft's low mark, and yet power is asked for
	}
	return s
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

// classes are those of a control, in order of their lowest width.
func (h *hands) classes(c *handset.Control) []class {
	var out []class
	put := func(s sign, w pulse.Width, position int) *class {
		for i := range out {
			if out[i].sign == s && !(h.ask.all && position >= 0) {
				return &out[i]
			}
		}
		out = append(out, class{width: w, position: position, sign: s})
		return &out[len(out)-1]
	}
	if c.Kind == handset.Switch {
		for i, p := range c.Positions {
			k := put(h.sign(c.Channel, p.Width), p.Width, i)
			k.members++
			k.edges = append(k.edges, p.Width)
		}
		return out
	}
	low, high := min(c.Low, c.High), max(c.Low, c.High)
	for w := low; ; {
		s := h.sign(c.Channel, w)
		end := w
		for end < high && h.sign(c.Channel, end+1) == s {
			end++
		}
		k := put(s, w, -1)
		k.members = 1
		k.edges = append(k.edges, w, end)
		if end >= high {
			break
		}
		w = end + 1
	}
	for i := range out {
		out[i].width = standsFor(out[i].edges, low, c.Rest, high)
	}
	return out
}

// standsFor is the place that a person would name for a stretch of a stick: where it rests, or an end, else the middle of the stretch.
func standsFor(edges []pulse.Width, low, rest, high pulse.Width) pulse.Width {
	for _, want := range []pulse.Width{rest, low, high} {
		for i := 0; i < len(edges); i += 2 {
			if edges[i] <= want && want <= edges[i+1] {
				return want
			}
		}
	}
	return edges[0] + (edges[1]-edges[0])/2
}

// normal is the class in which a control stands when a person gives the craft power.
func (h *hands) normal(c *handset.Control, classes []class) int {
	at := func(w pulse.Width) int {
		s := h.sign(c.Channel, w)
		for i := range classes {
			if classes[i].sign == s {
				return i
			}
		}
		return 0
	}
	l := &h.cfg.Layout
	switch {
	case c.Kind == handset.Switch && c.Momentary:
		return restPosition(c, classes)
	case c.Channel == l.Arm: // off, if it can be
		if c.Kind != handset.Switch {
			if i := at(c.Rest); classes[i].sign.valid && !classes[i].sign.inside {
				return i
			}
		}
		for i := range classes {
			if classes[i].sign.valid && !classes[i].sign.inside {
				return i
			}
		}
		return 0
	case c.Kind == handset.Switch:
		return 0
	case c.Channel == l.Throttle && c.Stays:
		return at(min(c.Low, c.High))
	}
	return at(min(max(c.Rest, min(c.Low, c.High)), max(c.Low, c.High)))
}

// restPosition is the class in which a switch stands once it is let go: where the radio file says it rests, else the lowest.
func restPosition(c *handset.Control, classes []class) int {
	best, rest := 0, 0
	if c.Rest != 0 {
		for i, p := range c.Positions {
			if abs(p.Width-c.Rest) < abs(c.Positions[best].Width-c.Rest) {
				best = i
			}
		}
	}
	for i := range classes {
		for _, e := range classes[i].edges {
			if e == c.Positions[best].Width {
				rest = i
			}
		}
	}
	return rest
}

func abs(w pulse.Width) pulse.Width { return max(w, -w) }
