package figure

import (
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/live"
	"propsoff/cmd/propsoff/internal/ui"
)

// bankShown is the bank or pitch at the edge of its lane, degrees (ours): half as much again as the usual limit.
const bankShown = 60.0

// followed draws asked and done about one axis as a band whose width is the error, what is asked as a thin line along it. Where
// the craft levels itself these are bank and pitch, else rates; where one gives way to the other the band is cut.
func (b *Board) followed(l *lane) {
	v := b.V
	every := b.stride(l.r.H)
	c := l.r.Centre().X
	b.Line(l.name+" middle", c, l.r.Y, c, l.r.Bottom(), ink.Paint{Line: ink.Grid, Under: true})
	v.Pts, v.More = v.Pts[:0], v.More[:0]
	cut := func() {
		b.Band("done "+l.name, v.Pts, v.More, l.pen)
		b.Polyline("asked "+l.name, v.Pts, ink.Paint{Line: ink.Ink, Width: 0.8 * b.U})
		v.Pts, v.More = v.Pts[:0], v.More[:0]
	}
	was := false
	for i := len(v.Flight.Followed) - 1; i >= 0; i-- {
		p := &v.Flight.Followed[i]
		if p.Tick > v.Snap.Tick {
			continue
		}
		if p.Tick < v.Snap.Tick-live.ChartTicks {
			break
		}
		angles := l.axis < 3 && p.Level > 0.5
		if !p.Any || angles != was {
			cut()
			was = angles
		}
		if !p.Any || i > 0 && len(v.Pts) > 0 && p.Tick/live.PointTicks%every != 0 {
			continue
		}
		asked, done := b.follows(p, l.axis, angles)
		y := b.depth(l.r, p.Tick)
		v.Pts = append(v.Pts, ink.Point{X: c + asked*l.r.W/2, Y: y})
		v.More = append(v.More, ink.Point{X: c + done*l.r.W/2, Y: y})
	}
	cut()
}

// follows is asked and done at a point as shares of half a lane, −1…1.
func (b *Board) follows(p *ui.FollowedPoint, axis int, angles bool) (asked, done float64) {
	switch {
	case angles && axis == 1:
		asked, done = p.AskedBank/bankShown, p.Bank/bankShown
	case angles:
		asked, done = -p.AskedPitch/bankShown, -p.Pitch/bankShown // stick forward, nose down, is to the right as for the pens
	default:
		full := max(b.V.Config.Control.Curve[axis-1].Full, 0.1)
		asked, done = p.Asked[axis-1]/full, p.Rate[axis-1]/full
		if axis == 2 {
			asked, done = -asked, -done
		}
	}
	return ui.Clamp(asked, -1, 1), ui.Clamp(done, -1, 1)
}
