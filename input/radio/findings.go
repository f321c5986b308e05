package radio

import (
	"fmt"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// What a radio file says of a control beside its numbers, scale and reach: positions, noise, stays, momentary, side, sits,
// called. None of it changes a reading.

// mostTenths is the largest spread or noise, in tenths of a raw step.
const mostTenths = 1<<31 - 1

var sides = [...]string{Left: "left", Right: "right", Top: "top"}

// findings reads the fields of one control; axis tells whether the control is one.
func (p *parser) findings(i int, m *yamldoc.Map, c *Control, axis bool) {
	field := func(name string) (yamldoc.Node, bool) {
		n, ok := m.Field(name)
		if ok {
			p.places[place{i, name}] = n
		}
		return n, ok
	}
	onAxis := func(name string, wrong words.ID) (yamldoc.Node, bool) {
		n, ok := field(name)
		if ok && !axis {
			n.Wrong(wrong)
			return n, false
		}
		return n, ok
	}
	if n, ok := onAxis("positions", "radio.positions-of-buttons"); ok {
		c.Positions = p.positions(i, n)
	}
	if n, ok := onAxis("noise", "radio.noise-of-buttons"); ok {
		c.Noise = readTenth(n)
	}
	if n, ok := onAxis("stays", "radio.stays-of-buttons"); ok {
		c.Stays = readYes(n)
	}
	if n, ok := field("momentary"); ok {
		c.Momentary = readYes(n)
	}
	_, said := p.places[place{i, "stays"}]
	switch _, given := p.places[place{i, "positions"}]; {
	case given && c.Positions == nil:
		c.Momentary, c.Stays = false, false // what could not be read is no reason for a second message
	case !said:
		c.Stays = c.staysUnsaid()
	}
	if n, ok := field("side"); ok {
		w, _ := n.Word(sides[Left:]...)
		for s, name := range sides {
			if w == name {
				c.Side = Side(s)
			}
		}
	}
	if n, ok := field("sits"); ok {
		if c.Spot, ok = readSpot(n); ok && p.unsaid(i, "side") {
			c.Side = c.Spot.Side()
		}
	}
	if n, ok := field("called"); ok {
		if s, ok := n.Text(); ok {
			if len(s) > longestText {
				n.Wrong("radio.text-long", words.Args{"most": words.Whole(longestText)})
			} else {
				c.Called = s
			}
		}
	}
}

// unsaid tells whether a control has no such field.
func (p *parser) unsaid(i int, field string) bool {
	_, said := p.places[place{i, field}]
	return !said
}

func readYes(n yamldoc.Node) bool {
	w, _ := n.Word("yes", "no")
	return w == "yes"
}

func readTenth(n yamldoc.Node) Tenth {
	v, _ := n.Fixed("", 10, 0, mostTenths)
	return Tenth(v)
}

// positions reads a list such as [{at: 12, spread: 0.8}, …]; nil where a part of it could not be read.
func (p *parser) positions(i int, n yamldoc.Node) []Position {
	items, all := n.ListOf(2, MostPositions)
	var out []Position
	for k, item := range items {
		p.places[place{i, fmt.Sprintf("positions/%d", k)}] = item
		m := item.Map("radio.position")
		at, ok := m.Need("at").Fixed("", 2, -int64(farthest), int64(farthest))
		all = all && ok
		q := Position{At: Half(at)}
		if s, ok := m.Field("spread"); ok {
			q.Spread = readTenth(s)
		}
		m.Done()
		out = append(out, q)
	}
	if !all {
		return nil
	}
	return out
}

// findings are the fields as they are written.
func (c Control) findings() []string {
	var out []string
	if len(c.Positions) > 0 {
		var list []string
		for _, p := range c.Positions {
			list = append(list, fmt.Sprintf("{at: %s, spread: %s}", p.At, p.Spread))
		}
		out = append(out, "positions: ["+strings.Join(list, ", ")+"]")
	}
	if c.Noise != 0 {
		out = append(out, "noise: "+c.Noise.String())
	}
	switch {
	case c.Stays && (c.Reach != nil || !c.staysUnsaid()):
		out = append(out, "stays: yes")
	case !c.Stays && c.staysUnsaid():
		out = append(out, "stays: no")
	}
	if c.Momentary {
		out = append(out, "momentary: yes")
	}
	switch {
	case c.Spot.View != NoView && int(c.Spot.View) < len(views) && int(c.Spot.Way) < len(ways):
		out = append(out, c.Spot.field()) // which tells its side
	case c.Side != NoSide && int(c.Side) < len(sides):
		out = append(out, "side: "+sides[c.Side])
	}
	if c.Called != "" {
		out = append(out, "called: "+yamldoc.Quote(c.Called))
	}
	return out
}

// String writes t as a person would: 0.8, 12.
func (t Tenth) String() string {
	s := fmt.Sprint(int64(t) / 10)
	if t < 0 && t > -10 {
		s = "-0"
	}
	if d := max(t, -t) % 10; d != 0 {
		s += fmt.Sprintf(".%d", d)
	}
	return s
}

// checkFindings finds what is wrong with their meaning.
func checkFindings(i int, c Control, say sayer) {
	axis := c.Form == Axis
	if len(c.Positions) > 0 {
		checkPositions(i, c, say)
	}
	switch {
	case c.Noise != 0 && !axis:
		say(i, "noise", "radio.has-no-noise", words.Args{"job": words.Quote(c.Job)})
	case c.Noise < 0 || int64(c.Noise) > mostTenths:
		say(i, "noise", "radio.noise-range", words.Args{"job": words.Quote(c.Job), "value": words.Quote(c.Noise.String())})
	}
	switch {
	case c.Stays && !axis:
		say(i, "stays", "radio.button-stays", nil)
	case c.Stays && c.Momentary:
		say(i, "stays", "radio.stays-and-momentary", words.Args{"job": words.Quote(c.Job)})
	case c.Stays && len(c.Positions) > 0:
		say(i, "stays", "radio.switch-stays", words.Args{"job": words.Quote(c.Job)})
	case c.Momentary && axis && len(c.Positions) == 0:
		say(i, "momentary", "radio.momentary-stick", words.Args{"job": words.Quote(c.Job)})
	}
	if int(c.Side) >= len(sides) {
		say(i, "side", "radio.side", words.Args{"job": words.Quote(c.Job)})
	}
	checkSpot(i, c, say)
	if len(c.Called) > longestText {
		say(i, "called", "radio.called-long", words.Args{"job": words.Quote(c.Job), "most": words.Whole(longestText)})
	}
}

func checkPositions(i int, c Control, say sayer) {
	if c.Form != Axis {
		say(i, "positions", "radio.has-no-positions", words.Args{"job": words.Quote(c.Job)})
		return
	}
	if n := len(c.Positions); n < 2 || n > MostPositions {
		say(i, "positions", "radio.position-count", words.Args{"job": words.Quote(c.Job), "n": words.Count(n), "most": words.Whole(MostPositions)})
		return
	}
	// By the scale they rise; a scale that is left out rises with the raw value.
	falls := c.Scale == nil && c.Backwards || c.Scale != nil && c.Scale.Low > c.Scale.High
	for k, p := range c.Positions {
		part := fmt.Sprintf("positions/%d", k)
		switch {
		case p.At < -farthest || p.At > farthest:
			say(i, part, "radio.position-beyond", words.Args{"job": words.Quote(c.Job), "position": words.Whole(k + 1)})
		case p.Spread < 0 || int64(p.Spread) > mostTenths:
			say(i, part, "radio.spread-range", words.Args{"job": words.Quote(c.Job), "position": words.Whole(k + 1), "value": words.Quote(p.Spread.String())})
		case k > 0 && !falls && p.At <= c.Positions[k-1].At:
			say(i, part, "radio.positions-rise", words.Args{"job": words.Quote(c.Job)})
		case k > 0 && falls && p.At >= c.Positions[k-1].At:
			say(i, part, "radio.positions-fall", words.Args{"job": words.Quote(c.Job)})
		}
	}
}
