package card

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/sim/handset"
	"propsoff/sim/pulse"
)

// Lengths of the drawn radio in points (ours).
const (
	stub  = 9    // how far a lever stands out
	pitch = 16.5 // from one lever to the next
)

// radio draws the radio from the front: both sticks with their jobs in this stick mode, and every switch that has a side
// at that side, with its number.
func (k *card) radio(r ink.Rect) {
	k.Group("radio")
	left, right, top := k.on(handset.Left), k.on(handset.Right), k.on(handset.Top)
	strip := k.ring() + (stub+1)*k.u
	body := ink.Rect{X: r.X, Y: r.Y + strip, W: r.W, H: r.H - strip}
	each := int(body.W * 0.42 / (pitch * k.u)) // of one side on the upper edge; the others down the side
	if max(len(left), len(right)) > each {
		body.X, body.W = body.X+strip, body.W-2*strip
		each = int(body.W * 0.42 / (pitch * k.u))
	}
	k.Line("aerial", body.Centre().X, body.Y, body.Centre().X, body.Y-strip*0.7, ink.Paint{Line: ink.Ink, Width: 3 * k.u})
	k.RoundRect("body", body, 11*k.u, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.4 * k.u})
	k.edgeLevers(body, left, each, -1)
	k.edgeLevers(body, right, each, 1)

	middle := 6 * k.u
	if n := len(top); n > 0 {
		rows := max(1, int((body.H-10*k.u)/(pitch*k.u)))
		columns := (n + rows - 1) / rows
		one := k.ring() + (stub+3)*k.u
		middle = float64(columns) * one
		rows = (n + columns - 1) / columns
		for i := range top {
			x := body.Centre().X - middle/2 + float64(i/rows)*one + k.ring()/2 + 1*k.u
			y := body.Centre().Y + (float64(i%rows)-float64(rows-1)/2)*pitch*k.u
			k.control(x, y, 1, 0, &top[i])
		}
	}
	half := (body.W - middle) / 2
	for i, g := range figure.Gimbals[ui.StickMode(k.words.Radio.StickMode)] {
		k.gimbal(ink.Rect{X: body.X + float64(i)*(half+middle), Y: body.Y, W: half, H: body.H}, g, [2]string{"left", "right"}[i])
	}
}

// radioLeast is the least width of the drawn radio: the words of its sticks, and the switches between them.
func (k *card) radioLeast() float64 {
	wide := 0.0
	for _, s := range k.words.sticks {
		wide = max(wide, ink.Width(s.name, k.small, ink.Bold), ink.Width(s.travel, k.small, ink.Regular))
	}
	least := 2*wide + 20*k.u
	if len(k.on(handset.Top)) > 0 {
		least += k.ring() + stub*k.u
	}
	return least
}

// edgeLevers draws the switches of one side (−1 left, 1 right): along the upper edge from the outside inwards, those beyond
// each down the side.
func (k *card) edgeLevers(body ink.Rect, all []lever, each int, side float64) {
	edge := body.Centre().X + side*body.W/2
	for i := range all {
		out := (stub + 1) * k.u // from the edge to the ring's middle
		if i < each {
			in := i // from the outside; numbers grow from left to right on both sides
			if side > 0 {
				in = min(len(all), each) - 1 - i
			}
			k.control(edge-side*(22*k.u+float64(in)*pitch*k.u), body.Y-out-k.ring()/2, 0, 1, &all[i])
			continue
		}
		y := body.Y + 24*k.u + float64(i-each)*pitch*k.u
		k.control(edge+side*(out+k.ring()/2), y, -side, 0, &all[i])
	}
}

// control draws one switch or knob of the radio: its number at a place, its lever or knob from there towards dx, dy.
func (k *card) control(x, y, dx, dy float64, s *lever) {
	ring := k.ring() / 2
	if s.knob {
		r := 4 * k.u
		d := ring + r + 0.8*k.u
		k.Circle("knob", x+dx*d, y+dy*d, r, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1 * k.u})
		k.Line("knob-mark", x+dx*d, y+dy*d, x+dx*d+r*0.6, y+dy*d-r*0.6, ink.Paint{Line: ink.Ink, Width: 1 * k.u})
	} else {
		from, to := ring+1*k.u, ring+(stub+1)*k.u
		k.Line("lever", x+dx*from, y+dy*from, x+dx*to, y+dy*to, ink.Paint{Line: ink.Ink, Width: 2.6 * k.u})
	}
	k.badge(x, y, s.number)
}

// gimbal draws one stick: its well where the stick rests, what each direction is for, and how far it goes.
func (k *card) gimbal(r ink.Rect, g figure.Gimbal, name string) {
	lines := k.atMost(2)
	label := ink.BlockHeight(k.small, lines)
	pad := 4 * k.u
	size := math.Max(24*k.u, min(r.W-2.4*pad, r.H-2*label-5.5*pad))
	c := r.Centre()
	well := ink.Rect{X: c.X - size/2, Y: c.Y - size/2, W: size, H: size}
	k.direction(name+" up", r, well.Y-pad-label, g.Up, lines)

	k.RoundRect(name+" well", well, 7*k.u, ink.Paint{Line: ink.Rule, Width: 0.9 * k.u})
	in := well.Inset(size * 0.13)
	k.arrows(name, in)
	k.cornerMarks(name, well, in, g)
	at := figure.Place(in, k.rest(g.Across), true, k.rest(g.Up), true)
	k.Circle(name+" stick", at.X, at.Y, max(4*k.u, size*0.075), ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * k.u})
	k.Circle(name+" stick-tip", at.X, at.Y, max(1*k.u, size*0.02), ink.Paint{Fill: ink.Ink})
	k.direction(name+" across", r, well.Bottom()+pad, g.Across, lines)
}

// direction says what a direction of a stick is for, and how far it goes.
func (k *card) direction(name string, r ink.Rect, y float64, j figure.Job, lines int) {
	stick, one := k.words.sticks[j], ink.Block{Width: r.W - 7*k.u, MaxLines: 1, Shorten: true}
	x := r.X + 3.5*k.u
	h, _ := k.Block(name+" job", x, y, ink.Style{Size: k.small, Weight: ink.Bold, Anchor: ink.Centre}, one, stick.name)
	if lines > 1 {
		y += h - ink.BlockHeight(k.small, 1) + ink.LineHeight(k.small)
		k.Block(name+" travel", x, y, ink.Style{Size: k.small, Anchor: ink.Centre}, one, stick.travel)
	}
}

// rest is where a stick stands when it is let go.
func (k *card) rest(j figure.Job) pulse.Width {
	if c := k.words.Radio.On(int8(figure.ChannelOf(&k.words.Config.Layout, j))); c != nil {
		return c.Rest
	}
	return pulse.Centre
}

// arrows draws the two ways of a stick.
func (k *card) arrows(name string, in ink.Rect) {
	c, d := in.Centre(), 3*k.u
	paint := ink.Paint{Line: ink.Rule, Width: 0.7 * k.u}
	k.Line(name+" across", in.X+d, c.Y, in.Right()-d, c.Y, paint)
	k.Line(name+" up", c.X, in.Y+d, c.X, in.Bottom()-d, paint)
	for _, v := range [4]ink.Point{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}} {
		tip := ink.Point{X: c.X + v.X*in.W/2, Y: c.Y + v.Y*in.H/2}
		back := ink.Point{X: tip.X - v.X*2*d, Y: tip.Y - v.Y*2*d}
		head := [...]ink.Point{tip, {X: back.X - v.Y*d, Y: back.Y + v.X*d}, {X: back.X + v.Y*d, Y: back.Y - v.X*d}}
		k.Polygon(name+" arrow", head[:], ink.Paint{Fill: ink.Rule})
	}
}

// cornerMarks marks where the sticks of a craft armed by sticks must be held: the corners of the one stick that carries both
// throttle and yaw, else the low end of the one and the two sides of the other.
func (k *card) cornerMarks(name string, well, in ink.Rect, g figure.Gimbal) {
	if !facts.BySticks(&k.words.Config) {
		return
	}
	size, edge := k.Px(least), well.Inset(3*k.u)
	deep := ink.BlockHeight(size, 1) + 3*k.u
	mark := func(right bool, y float64, text string) {
		r := ink.Rect{X: edge.X, Y: y, W: min(ink.Width(text, size, ink.Bold)+6*k.u, edge.W*0.48), H: deep}
		if right {
			r.X = edge.Right() - r.W
		}
		k.Rect(name+" corner", r, ink.Paint{Line: ink.Ink, Width: 1 * k.u, Dash: ink.Dash{On: 3 * k.u, Off: 2 * k.u}})
		k.Text(name+" corner-word", r.Centre().X, r.Centre().Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle, Within: r}, text)
	}
	low, middle := edge.Bottom()-deep, in.Centre().Y-deep*1.6
	switch {
	case g.Up == figure.Throttle && g.Across == figure.Yaw:
		mark(false, low, k.words.disarm)
		mark(true, low, k.words.arm)
	case g.Up == figure.Throttle:
		mark(false, low, k.words.low)
	case g.Across == figure.Yaw:
		mark(false, middle, k.words.disarm)
		mark(true, middle, k.words.arm)
	}
}
