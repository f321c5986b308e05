package learn_test

import (
	"fmt"
	"math"

	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"

	"pgregory.net/rapid"
)

// made is a radio that was made up: what is to be learned of it, and the hand that answers.
type made struct {
	*inputtest.Radio
	info    input.Info
	now     int64 // how far the hand has got
	noise   []int32
	off     []int32 // what each axis reads too much
	want    []radio.Control
	parts   []*part
	free    []int // axes without a job
	loose   []int // buttons without a job
	acts    []act
	options learn.Options
	log     []string
	slips   bool // the hand makes mistakes
}

// part is one control as the hand knows it.
type part struct {
	job string
	// axis moves over places; so do buttons, −1 for a place where none is pressed.
	axis    int
	places  []int32
	buttons []int
	at      int
	springs bool // back to place rest when it is let go
	rest    int
	over    int64 // how long one step takes
	knob    bool
	twin    []int // buttons that tell the same switch a second time
}

func (m *made) say(format string, args ...any) {
	m.log = append(m.log, fmt.Sprintf("%6d ms: ", m.now/ms)+fmt.Sprintf(format, args...))
}

func (m *made) wait(d int64) { m.now += d }

func (m *made) do(what string, f func(l *learn.Learner)) {
	m.say("on the screen: %s", what)
	m.acts = append(m.acts, act{m.now, f})
}

// move brings an axis to value, and the hand waits for it.
func (m *made) move(axis int, value int32, over int64) {
	m.say("axis %d to %d in %d ms", axis+1, value, over/ms)
	m.Move(m.now, over, axis, value)
	m.now += over
}

func (m *made) press(button int, on bool) {
	m.say("button %d %v", button+1, on)
	m.Press(m.now, button, on)
}

// go brings a part to place k.
func (m *made) bring(p *part, k int) {
	if p.axis >= 0 {
		for i, b := range p.twin {
			if i == p.at {
				m.press(b, false)
			}
		}
		m.move(p.axis, p.places[k], p.over)
		for i, b := range p.twin {
			if i == k {
				m.press(b, true)
			}
		}
	} else {
		if b := p.buttons[p.at]; b >= 0 && b != p.buttons[k] {
			m.press(b, false)
		}
		m.wait(p.over / 2 / ms * ms)
		if b := p.buttons[k]; b >= 0 && b != p.buttons[p.at] {
			m.press(b, true)
		}
	}
	p.at = k
}

// through leads a part through all its places with a moment in each, and leaves it in the last or lets it go.
func (m *made) through(p *part, stay int64) {
	if p.knob {
		m.bring(p, len(p.places)-1)
		m.wait(3200 * ms) // a knob that is turned slowly comes to rest late among noise
		return
	}
	n := len(p.places)
	if p.axis < 0 {
		n = len(p.buttons)
	}
	for k := range n {
		if k == p.at && k == 0 {
			continue
		}
		if k == p.rest && p.springs {
			continue
		}
		m.bring(p, k)
		m.wait(stay)
		if p.springs {
			m.bring(p, p.rest)
			m.wait(stay)
		}
	}
	m.wait(1700 * ms)
}

// percent of an axis' own range as a raw value.
func (m *made) share(axis int, p int64) int32 {
	a := m.info.Axes[axis]
	return int32(int64(a.Min) + (int64(a.Max)-int64(a.Min))*p/1000)
}

func draw(t *rapid.T, name string, lo, hi int64) int64 { return rapid.Int64Range(lo, hi).Draw(t, name) }

func yes(t *rapid.T, name string) bool { return rapid.Bool().Draw(t, name) }

func takeOne(t *rapid.T, name string, from *[]int) int {
	i := rapid.IntRange(0, len(*from)-1).Draw(t, name)
	v := (*from)[i]
	*from = append(append([]int{}, (*from)[:i]...), (*from)[i+1:]...)
	return v
}

var ranges = []input.Axis{{Min: 0, Max: 2047}, {Min: 0, Max: 4095}, {Min: -1024, Max: 1023}, {Min: -32768, Max: 32767},
	{Min: 0, Max: 255}, {Min: 0, Max: 65535}, {Min: -32767, Max: 32767}, {Min: 0, Max: 1023}, {Min: -127, Max: 127}}

// invent makes up a radio.
func invent(t *rapid.T, slips bool) *made {
	m := &made{slips: slips}
	m.info = input.Info{Name: "Made up", Vendor: 1, Product: 2, Serial: "s", Buttons: rapid.IntRange(16, 40).Draw(t, "buttons")}
	for i := range rapid.IntRange(8, 12).Draw(t, "axes") {
		a := rapid.SampledFrom(ranges).Draw(t, "range")
		a.Code = i
		m.info.Axes = append(m.info.Axes, a)
		m.free = append(m.free, i)
	}
	hat := len(m.info.Axes)
	m.info.Axes = append(m.info.Axes, input.Axis{Code: 16, Min: -1, Max: 1, Hat: true}, input.Axis{Code: 17, Min: -1, Max: 1, Hat: true})
	for b := range m.info.Buttons {
		m.loose = append(m.loose, b)
	}
	m.Radio = inputtest.NewRadio(m.info)
	m.Every = draw(t, "every", 2, 8) * ms
	for i, a := range m.info.Axes {
		n, off := int32(0), int32(0)
		if !a.Hat {
			// Up to 8 raw steps, or up to 0.9 % of the range.
			if yes(t, "raw noise") {
				n = int32(min(draw(t, "noise", 0, 8), (int64(a.Max)-int64(a.Min))*14/1000))
			} else {
				n = int32((int64(a.Max) - int64(a.Min)) * draw(t, "noise in 1/1000", 0, 9) / 1000)
			}
			off = int32((int64(a.Max) - int64(a.Min)) * draw(t, "off by", -20, 20) / 1000)
		}
		m.noise, m.off = append(m.noise, n), append(m.off, off)
		m.Noise(i, n, uint64(i+1))
		m.OffCentre(i, off)
	}
	for range rapid.IntRange(0, 3).Draw(t, "latched") { // switches that stand on from the beginning
		m.Press(0, takeOne(t, "latched button", &m.loose), true)
	}
	m.options.StickMode = rapid.IntRange(0, 4).Draw(t, "mode shown")
	for ch := range rapid.IntRange(0, 4).Draw(t, "free") {
		m.options.Free = append(m.options.Free, 8+ch)
	}
	// Every control has its resting place from the first report on, so all are chosen before the hand begins.
	for q := learn.Pitch; q <= learn.Throttle; q++ {
		m.stick(t, q)
	}
	m.switchFor(t, "arm", -1)
	m.switchFor(t, "mode", -1)
	if yes(t, "also") {
		m.options.Also = []string{"second"}
		m.switchFor(t, "second", -1)
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "more") {
		job := ""
		if i < len(m.options.Free) {
			job = fmt.Sprintf("channel %d", m.options.Free[i]+1)
		}
		h := -1
		if i == 0 && yes(t, "hat") {
			h = hat
		}
		m.switchFor(t, job, h)
	}
	return m
}

// read is what an axis reads at value, within its range.
func (m *made) read(axis int, v int32) int32 {
	a := m.info.Axes[axis]
	return int32(min(max(int64(v)+int64(m.off[axis]), int64(a.Min)), int64(a.Max)))
}

// scaled gives a control of an axis the scale that it must have.
func (m *made) scaled(c radio.Control, turned bool) radio.Control {
	s := radio.Own(m.info.Axes[c.Axis])
	if turned {
		s = s.Turned()
	}
	c.Form, c.Scale = radio.Axis, &s
	return c
}

func (m *made) stick(t *rapid.T, q learn.Question) {
	axis := takeOne(t, q.Job(), &m.free)
	p := &part{job: q.Job(), axis: axis, springs: true, rest: 1, at: 1, over: draw(t, "over", 30, 500) * ms}
	p.places = []int32{m.share(axis, draw(t, "low end", 0, 80)), m.share(axis, draw(t, "centre", 450, 550)), m.share(axis, draw(t, "high end", 920, 1000))}
	turned := yes(t, "turned")
	if turned {
		p.places[0], p.places[2] = p.places[2], p.places[0]
	}
	if q == learn.Throttle && rapid.IntRange(0, 4).Draw(t, "throttle springs") > 0 {
		p.springs, p.at, p.rest = false, 0, 0
	}
	m.Rest(axis, p.places[p.at])
	c := m.scaled(radio.Control{Job: q.Job(), Axis: axis, Stays: !p.springs}, turned)
	lo, hi := m.read(axis, p.places[0]), m.read(axis, p.places[2])
	c.Reach = &radio.Reach{Low: min(lo, hi), Rest: m.read(axis, p.places[p.rest]), High: max(lo, hi)}
	m.parts, m.want = append(m.parts, p), append(m.want, c)
}

// switchFor makes up a switch or knob; nil for a job that is skipped. hat is a hat's half, or −1.
func (m *made) switchFor(t *rapid.T, job string, hat int) {
	forms := []string{"axis", "axis", "momentary axis", "button", "momentary", "two buttons", "released", "three on two", "row"}
	switch job {
	case "arm", "mode", "second":
		forms = append(forms, "skip")
	default:
		forms = append(forms, "knob")
	}
	form := rapid.SampledFrom(forms).Draw(t, "form of "+job)
	if len(m.free) < 2 || len(m.loose) < 7 {
		form = "skip"
	}
	if hat >= 0 {
		form = "hat"
	}
	p := &part{job: job, axis: -1, over: draw(t, "flip", 1, 40) * ms}
	c := radio.Control{Job: job}
	button := func() int { return takeOne(t, "button", &m.loose) }
	turned := yes(t, "turned")
	switch form {
	case "skip":
		m.parts = append(m.parts, nil)
		return
	case "axis", "momentary axis", "knob":
		p.axis = takeOne(t, "axis", &m.free)
		n := rapid.SampledFrom([]int64{2, 3, 6}).Draw(t, "levels")
		if form != "axis" {
			n = 2
		}
		low, high := draw(t, "low level", 0, 60), draw(t, "high level", 940, 1000)
		for k := range n {
			p.places = append(p.places, m.share(p.axis, low+(high-low)*k/(n-1)))
		}
		c.Momentary, p.springs = form == "momentary axis", form == "momentary axis"
		if form == "knob" {
			p.knob, c.Stays, p.over = true, true, draw(t, "turn", 400, 2500)*ms
		}
	case "hat":
		p.axis, p.places, p.springs, p.at, p.rest, c.Momentary = hat, []int32{-1, 0, 1}, true, 1, 1, true
	case "button", "momentary":
		p.buttons = []int{-1, button()}
		c.Form, c.Buttons = radio.Button, p.buttons[1:]
		c.Momentary, p.springs = form == "momentary", form == "momentary"
	case "two buttons":
		p.buttons = []int{button(), button()}
	case "released":
		p.buttons = []int{button(), radio.None}
	case "three on two":
		p.buttons = []int{button(), radio.None, button()}
	case "row":
		for range rapid.IntRange(3, 6).Draw(t, "positions") {
			p.buttons = append(p.buttons, button())
		}
	}
	switch {
	case p.axis >= 0:
		if turned {
			for i, j := 0, len(p.places)-1; i < j; i, j = i+1, j-1 {
				p.places[i], p.places[j] = p.places[j], p.places[i]
			}
		}
		c.Axis = p.axis
		c = m.scaled(c, turned)
		lo, hi := m.read(p.axis, p.places[0]), m.read(p.axis, p.places[len(p.places)-1])
		c.Reach = &radio.Reach{Low: min(lo, hi), Rest: m.read(p.axis, p.places[p.at]), High: max(lo, hi)}
		if !p.knob {
			for _, v := range p.places {
				c.Positions = append(c.Positions, radio.Position{At: radio.Halves(m.read(p.axis, v))})
			}
		}
		m.Rest(p.axis, p.places[p.at])
		if form == "axis" && len(m.loose) > len(p.places)+6 && rapid.IntRange(0, 4).Draw(t, "told twice") == 0 {
			for range p.places {
				p.twin = append(p.twin, button())
			}
			m.Press(0, p.twin[0], true)
		}
	default:
		if c.Form == 0 {
			c.Form, c.Buttons = radio.Row, p.buttons
		}
		if p.buttons[0] >= 0 {
			m.Press(0, p.buttons[0], true)
		}
	}
	m.parts = append(m.parts, p)
	m.want = append(m.want, c)
}

// spread is the standard deviation that the noise of an axis has in the middle of its range: of whole numbers from −a to
// a, each as likely as the other.
func (m *made) spread(axis int) float64 {
	a := float64(m.noise[axis])
	return math.Sqrt(a * (a + 1) / 3)
}
