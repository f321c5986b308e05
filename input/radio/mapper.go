package radio

import (
	"errors"

	"propsoff.example/assets/words"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Mapper turns raw states of one device into frames. It remembers the position of every row of buttons.
type Mapper struct {
	slots []slot
}

// slot is one control made ready: no look-up by name is left for Map.
type slot struct {
	channel int
	form    Form
	axis    int
	dead    bool // an axis without a range: nothing can be said of it
	lo, hi  int32
	scale   Scale
	buttons []int
	widths  []pulse.Width
	last    int // position of a Row, -1 while unknown
}

// NewMapper makes the mapper for file on the device of info, with the channels of names. Jobs that names does not know
// have no channel in this craft: their controls are left out. Every number is checked against the device; the error
// lists all that is wrong.
func NewMapper(file File, info input.Info, names input.Names) (*Mapper, error) {
	m := new(Mapper)
	faults := check(&file, &info, &names)
	if len(faults) > 0 {
		all := make([]error, len(faults))
		for i, f := range faults {
			all[i] = words.Wrong(f.id, f.args)
		}
		return nil, errors.Join(all...)
	}
	for _, c := range file.Controls {
		ch, ok := ChannelOf(c.Job, names)
		if !ok {
			continue
		}
		s := slot{channel: ch, form: c.Form, last: -1}
		switch c.Form {
		case Axis:
			a := info.Axes[c.Axis]
			s.axis, s.lo, s.hi = c.Axis, a.Min, a.Max
			s.dead = a.Min >= a.Max
			switch {
			case c.Scale != nil:
				s.scale = *c.Scale
			case c.Backwards:
				s.scale = Own(a).Turned()
			default:
				s.scale = Own(a)
			}
		case Button, Row:
			s.buttons = append([]int(nil), c.Buttons...)
			for i := range c.Buttons {
				s.widths = append(s.widths, RowWidth(i, max(2, len(c.Buttons))))
			}
			if c.Form == Button {
				s.widths = []pulse.Width{pulse.Low, pulse.High}
			}
		}
		m.slots = append(m.slots, s)
	}
	return m, nil
}

// Map writes the frame that raw means. Channels without a control are pulse.Missing, and so is a row of buttons of which
// none was ever seen pressed (unless the row says what `none` means). A value outside the device's own range is taken
// as the range's end: the kernel does not clamp what it reports (input.h: "input core does not clamp reported values").
func (m *Mapper) Map(raw *input.Raw, frame *pulse.Frame) {
	*frame = pulse.Frame{}
	for i := range m.slots {
		s := &m.slots[i]
		switch s.form {
		case Axis:
			if !s.dead {
				frame[s.channel] = s.scale.Width(min(max(raw.Axes[s.axis], s.lo), s.hi))
			}
		case Button:
			w := s.widths[0]
			if raw.Button(s.buttons[0]) {
				w = s.widths[1]
			}
			frame[s.channel] = w
		case Row:
			s.last = rowPosition(s.buttons, s.last, raw)
			if s.last >= 0 {
				frame[s.channel] = s.widths[s.last]
			}
		}
	}
}

// rowPosition is the position of a row of buttons after raw. Two pressed at once (a switch between two places): the
// last position stays if its button is among them, else the lowest pressed counts.
func rowPosition(buttons []int, last int, raw *input.Raw) int {
	first, none := -1, -1
	for i, b := range buttons {
		switch {
		case b == None:
			none = i
		case raw.Button(b):
			if i == last {
				return last
			}
			if first < 0 {
				first = i
			}
		}
	}
	switch {
	case first >= 0:
		return first
	case none >= 0:
		return none
	}
	return last
}

// Forget makes every row of buttons unknown again, as after the plug was out.
func (m *Mapper) Forget() {
	for i := range m.slots {
		m.slots[i].last = -1
	}
}
