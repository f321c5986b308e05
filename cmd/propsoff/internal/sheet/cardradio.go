package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/handset"
	"propsoff/sim/pulse"
)

// Lengths of the drawn radio in points (ours).
const (
	cardStub  = 9    // how far a lever stands out
	cardPitch = 16.5 // from one lever to the next
)

// radio draws the radio from the front: both sticks with their jobs in this stick mode, and every switch that has a side
// at that side, with its number.
func (k *card) radio(r ink.Rect) {
	k.Group("radio")
	left, right, top := k.on(handset.Left), k.on(handset.Right), k.on(handset.Top)
	strip := k.badgeSize() + (cardStub+1)*k.u
	body := ink.Rect{X: r.X, Y: r.Y + strip, W: r.W, H: r.H - strip}
	each := int(body.W * 0.42 / (cardPitch * k.u)) // of one side on the upper edge; the others down the side
	if max(len(left), len(right)) > each {
		body.X, body.W = body.X+strip, body.W-2*strip
		each = int(body.W * 0.42 / (cardPitch * k.u))
	}
	k.Line("aerial", body.Centre().X, body.Y, body.Centre().X, body.Y-strip*0.7, ink.Paint{Line: ink.Ink, Width: 3 * k.u})
	k.RoundRect("body", body, 11*k.u, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.4 * k.u})
	k.edgeLevers(body, left, each, -1)
	k.edgeLevers(body, right, each, 1)

	middle := 6 * k.u
	if n := len(top); n > 0 {
		rows := max(1, int((body.H-10*k.u)/(cardPitch*k.u)))
		columns := (n + rows - 1) / rows
		one := k.badgeSize() + (cardStub+3)*k.u
		middle = float64(columns) * one
		rows = (n + columns - 1) / columns
		for i := range top {
			x := body.Centre().X - middle/2 + float64(i/rows)*one + k.badgeSize()/2 + 1*k.u
			y := body.Centre().Y + (float64(i%rows)-float64(rows-1)/2)*cardPitch*k.u
			k.control(x, y, 1, 0, &top[i])
		}
	}
	half := (body.W - middle) / 2
	for i, g := range gimbals[stickMode(k.c.Radio.StickMode)] {
		k.gimbal(ink.Rect{X: body.X + float64(i)*(half+middle), Y: body.Y, W: half, H: body.H}, g, [2]string{"left", "right"}[i])
	}
}

// radioLeast is the least width of the drawn radio: the words of its sticks, and the switches between them.
func (k *card) radioLeast() float64 {
	words := 0.0
	for j := range jobs {
		words = max(words, ink.Width(phrase.CardStick(true, jobFacts[j].word, channelOf(&k.c.Config.Layout, j)), k.small, ink.Bold))
	}
	least := 2*words + 20*k.u
	if len(k.on(handset.Top)) > 0 {
		least += k.badgeSize() + cardStub*k.u
	}
	return least
}

// edgeLevers draws the switches of one side (−1 left, 1 right): along the upper edge from the outside inwards, those beyond
// each down the side.
func (k *card) edgeLevers(body ink.Rect, all []cardSwitch, each int, side float64) {
	pitch := cardPitch * k.u
	edge := body.Centre().X + side*body.W/2
	for i := range all {
		out := (cardStub + 1) * k.u // from the edge to the ring's middle
		if i < each {
			in := i // from the outside; numbers grow from left to right on both sides
			if side > 0 {
				in = min(len(all), each) - 1 - i
			}
			k.control(edge-side*(22*k.u+float64(in)*pitch), body.Y-out-k.badgeSize()/2, 0, 1, &all[i])
			continue
		}
		y := body.Y + 24*k.u + float64(i-each)*pitch
		k.control(edge+side*(out+k.badgeSize()/2), y, -side, 0, &all[i])
	}
}

// control draws one switch or knob of the radio: its number at a place, its lever or knob from there towards dx, dy.
func (k *card) control(x, y, dx, dy float64, s *cardSwitch) {
	ring := k.badgeSize() / 2
	if s.control.Kind == handset.Knob {
		r := 4 * k.u
		d := ring + r + 0.8*k.u
		k.Circle("knob", x+dx*d, y+dy*d, r, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1 * k.u})
		k.Line("knob mark", x+dx*d, y+dy*d, x+dx*d+r*0.6, y+dy*d-r*0.6, ink.Paint{Line: ink.Ink, Width: 1 * k.u})
	} else {
		from, to := ring+1*k.u, ring+(cardStub+1)*k.u
		k.Line("lever", x+dx*from, y+dy*from, x+dx*to, y+dy*to, ink.Paint{Line: ink.Ink, Width: 2.6 * k.u})
	}
	k.badge(x, y, s.number)
}

// gimbal draws one stick: its well where the stick rests, what each direction is for, and how far it goes.
func (k *card) gimbal(r ink.Rect, g gimbal, name string) {
	lines := 2
	if k.plan.detail >= 2 {
		lines = 1
	}
	label := ink.BlockHeight(k.small, lines)
	pad := 4 * k.u
	size := math.Max(24*k.u, min(r.W-2.4*pad, r.H-2*label-5.5*pad))
	c := r.Centre()
	well := ink.Rect{X: c.X - size/2, Y: c.Y - size/2, W: size, H: size}
	k.direction(name+" up", r, well.Y-pad-label, true, g.up, lines)

	k.RoundRect(name+" well", well, 7*k.u, ink.Paint{Line: ink.Rule, Width: 0.9 * k.u})
	in := well.Inset(size * 0.13)
	k.arrows(name, in)
	k.cornerMarks(name, well, in, g)
	at := place(in, k.rest(g.across), true, k.rest(g.up), true)
	k.Circle(name+" stick", at.X, at.Y, max(4*k.u, size*0.075), ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * k.u})
	k.Circle(name+" stick tip", at.X, at.Y, max(1*k.u, size*0.02), ink.Paint{Fill: ink.Ink})
	k.direction(name+" across", r, well.Bottom()+pad, false, g.across, lines)
}

// direction says what a direction of a stick is for, and how far it goes.
func (k *card) direction(name string, r ink.Rect, y float64, up bool, j job, lines int) {
	channel := channelOf(&k.c.Config.Layout, j)
	w := r.W - 7*k.u
	one := ink.Block{Width: w, MaxLines: 1, Shorten: true}
	x := r.X + 3.5*k.u
	h, _ := k.Block(name+" job", x, y, ink.Style{Size: k.small, Weight: ink.Bold, Anchor: ink.Centre}, one, phrase.CardStick(up, jobFacts[j].word, channel))
	if lines > 1 {
		y += h - ink.BlockHeight(k.small, 1) + ink.LineHeight(k.small)
		k.Block(name+" travel", x, y, ink.Style{Size: k.small, Anchor: ink.Centre}, one, phrase.CardTravel(k.c.Radio.On(int8(channel))))
	}
}

// rest is where a stick stands when it is let go.
func (k *card) rest(j job) pulse.Width {
	if c := k.c.Radio.On(int8(channelOf(&k.c.Config.Layout, j))); c != nil {
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
func (k *card) cornerMarks(name string, well, in ink.Rect, g gimbal) {
	if !facts.BySticks(&k.c.Config) {
		return
	}
	size := k.Px(cardLeast)
	deep := ink.BlockHeight(size, 1) + 3*k.u
	paint := ink.Paint{Line: ink.Ink, Width: 1 * k.u, Dash: ink.Dash{On: 3 * k.u, Off: 2 * k.u}}
	mark := func(r ink.Rect, text string, s ink.Style) {
		k.Rect(name+" corner", r, paint)
		s.Size, s.Within = size, r
		k.Text(name+" corner word", r.Centre().X, r.Centre().Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Centre | ink.Middle}, text)
	}
	wide := ink.Width(phrase.CardCorner(false), size, ink.Bold) + 6*k.u
	edge := well.Inset(3 * k.u)
	wide = min(wide, edge.W*0.42)
	switch {
	case g.up == throttle && g.across == yaw:
		mark(ink.Rect{X: edge.X, Y: edge.Bottom() - deep, W: wide, H: deep}, phrase.CardCorner(false), ink.Style{})
		mark(ink.Rect{X: edge.Right() - wide, Y: edge.Bottom() - deep, W: wide, H: deep}, phrase.CardCorner(true), ink.Style{})
	case g.up == throttle:
		mark(ink.Rect{X: edge.X, Y: edge.Bottom() - deep, W: wide, H: deep}, phrase.CardLow(), ink.Style{})
	case g.across == yaw:
		mark(ink.Rect{X: edge.X, Y: in.Centre().Y - deep*1.6, W: wide, H: deep}, phrase.CardCorner(false), ink.Style{})
		mark(ink.Rect{X: edge.Right() - wide, Y: in.Centre().Y - deep*1.6, W: wide, H: deep}, phrase.CardCorner(true), ink.Style{})
	}
}
