package handheld

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/handset"
)

// wellsFor gives the sticks' wells their places, in a size of so much of the largest.
func (k *drawing) wellsFor(share float64) {
	face := k.outline[handset.OnFace]
	size := min(face.H*0.54, face.W*0.34) * max(share, 0.45)
	k.worded = share >= sizes[worded-1] && size+2*k.wordRoom()+8*k.Pen < face.H
	for i := range k.wells {
		name := k.wordWidth(i)
		k.worded = k.worded && name > 0 && name < face.W*0.42 && size > 2*k.Size
	}
	words := 0.0
	if k.worded {
		words = k.wordRoom()
	}
	for i := range k.wells {
		x := face.X + face.W*[2]float64{0.25, 0.75}[i]
		well := ink.Rect{X: x - size/2, W: size, H: size}
		well.Y = face.Y + max((face.H-size)*0.62, 0)
		well.Y = min(well.Y, face.Bottom()-size-words-3*k.Pen)
		well.Y, well.H = well.Y-words, well.H+2*words
		if name := k.wordWidth(i); k.worded && name > size {
			well.X, well.W = x-name/2, name
		}
		k.wells[i] = well
	}
}

// wordWidth is how wide the words of a stick are.
func (k *drawing) wordWidth(i int) float64 {
	return max(ink.Width(k.Sticks[i].Up, k.Size, ink.Regular), ink.Width(k.Sticks[i].Across, k.Size, ink.Regular))
}

// wordRoom is the height that a word of a stick takes, with what parts it from the well.
func (k *drawing) wordRoom() float64 { return ink.BlockHeight(k.Size, 1) + k.Size*0.25 + 2*k.Pen }

// bodies draws the views without their controls.
func (k *drawing) bodies() {
	edge := ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.4 * k.Pen}
	thin := ink.Paint{Line: ink.Grid, Width: k.Pen, Under: true}
	for v, r := range k.outline {
		if r.Empty() {
			continue
		}
		if t := k.Titles[v][0]; t != "" {
			if ink.Width(t, k.Size, ink.Regular) > r.W {
				t = k.Titles[v][1]
			}
			k.Block("view-title", r.X, r.Y-k.titled, ink.Style{Size: k.Size, Colour: ink.Faint}, ink.Block{Width: r.W, MaxLines: 1, Shorten: true}, t)
		}
		corner := corner(handset.View(v), r)
		switch handset.View(v) {
		case handset.OnShoulders:
			k.RoundRect("shoulders", r, corner, edge)
			c, d := r.Centre(), r.H*0.16
			k.Circle("aerial-foot", c.X, c.Y, d, thin)
			k.Circle("aerial", c.X, c.Y, d*0.45, thin)
		case handset.OnFace:
			if !k.shown(handset.OnShoulders) && k.titled == 0 {
				c := r.Centre()
				k.Circle("hook", c.X, r.Y+r.H*0.07, r.H*0.03, thin)
			}
			k.RoundRect("face", r, corner, edge)
			for i := range k.Sticks {
				k.stick(i)
			}
		case handset.OnBack:
			k.RoundRect("back", r, corner, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.4 * k.Pen, Dash: ink.Dash{On: 6 * k.Pen, Off: 3 * k.Pen}})
			lid := ink.Rect{X: r.X + r.W*0.3, Y: r.Y + r.H*0.5, W: r.W * 0.4, H: r.H * 0.36}
			k.RoundRect("lid", lid, corner*0.3, thin)
		}
	}
}

// stickParts adds what a stick takes of the face: its well with the mark round it, and the words over and under it, which may be wider.
func (k *drawing) stickParts(parts []ink.Rect, i int) []ink.Rect {
	all, room := k.wells[i], 0.0
	if k.worded {
		room = k.wordRoom()
		up, across := all, all
		up.H, across.H, across.Y = room, room, all.Bottom()-room
		parts = append(parts, up.Inset(-k.Pen), across.Inset(-k.Pen))
	}
	all.Y, all.H = all.Y+room, all.H-2*room
	return append(parts, all.Square().Inset(-3*k.Pen))
}

// stick draws one stick in its well, and what its two directions do.
func (k *drawing) stick(i int) {
	s, all := &k.Sticks[i], k.wells[i]
	well := all
	if k.worded {
		line, room := ink.BlockHeight(k.Size, 1), k.wordRoom()
		style := ink.Style{Size: k.Size, Anchor: ink.Centre | ink.Middle}
		k.Text("stick-up", all.Centre().X, all.Y+line/2, style, s.Up)
		k.Text("stick-across", all.Centre().X, all.Bottom()-line/2, style, s.Across)
		well.Y, well.H = all.Y+room, all.H-2*room
	}
	well = well.Square()
	k.RoundRect("stick-well", well, well.W*0.16, ink.Paint{Line: ink.Rule, Width: k.Pen})
	in := well.Inset(well.W * 0.17)
	at := in.Centre()
	if s.Right >= 0 {
		at.X = in.X + in.W*min(s.Right, 1)
	}
	if s.High >= 0 {
		at.Y = in.Bottom() - in.H*min(s.High, 1)
	}
	paint := ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 1.3 * k.Pen}
	if s.Mark != Plain {
		k.RoundRect("stick-mark", well.Inset(-1.5*k.Pen), well.W*0.18, ink.Paint{Line: ink.Focus, Width: 2.2 * k.Pen})
		paint.Line = ink.Focus
	}
	c := well.Centre()
	if d := math.Hypot(at.X-c.X, at.Y-c.Y); d > k.Pen {
		k.Page.Line("stick-rod", c.X, c.Y, at.X, at.Y, ink.Paint{Line: ink.Ink, Width: 2 * k.Pen})
	}
	k.Circle("stick-end", at.X, at.Y, max(2.5*k.Pen, well.W*0.1), paint)
	if s.Mark == Moves && (s.ToRight != 0 || s.ToHigh != 0) {
		to := at // from where it stands to the edge of its way, and a little beyond where it stands there already
		if s.ToRight != 0 {
			to.X = c.X + s.ToRight*well.W*0.44
		}
		if s.ToHigh != 0 {
			to.Y = c.Y - s.ToHigh*well.H*0.44
		}
		k.arrow("stick-arrow", at, to, well.W*0.14)
	}
}
