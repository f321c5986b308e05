package view

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/sim/vec"
)

// The pilot's eye stands behind the start, from which the craft looks north with its tail towards him: at least 5 m away (common practice, no source),
// and as high as the eyes of a person who is not tall (ours).
const (
	eyeBehind = 5.5
	eyeHigh   = 1.6
)

// How wide the pilot's picture is: so much up and down as shows the ground at the start and the horizon at once, and from side to side no more than is
// seen at a glance; and how he looks while nothing leads his eye away. In rad, ours.
const (
	leastUp  = 24 * math.Pi / 180
	mostWide = 70 * math.Pi / 180
	restTilt = -3 * math.Pi / 180
)

// holdWide and holdUp are how far from the middle of the picture, in parts of the way to where it would touch the edge, the craft gets at the most (ours).
const (
	holdWide = 0.75
	holdUp   = 0.97
)

// Pilot is the camera of the pilot who watches a craft at a place, in a picture from whose edges it stays some pixels away. It is made of nothing but the place: near the start it stands nearly
// still, and the further the craft goes to the edge, the more it turns with it, so that the craft is never lost.
func Pilot(craft vec.V, frame ink.Rect, away float64) Camera {
	at := vec.V{X: -eyeBehind, Z: -eyeHigh}
	c := Camera{Frame: frame, Focal: max(frame.H/2/math.Tan(leastUp/2), frame.W/2/math.Tan(mostWide/2))}
	d := craft.Sub(at)
	hold := func(half, share float64) float64 { return share * math.Atan(max(half-away, 0.1*half)/c.Focal) }
	wide, up := hold(frame.W/2, holdWide), hold(frame.H/2, holdUp)
	pan := math.Atan2(d.Y, d.X)
	aside := wide * math.Tanh(math.Sin(pan)/wide) // by the sine, so that nothing jumps behind his back
	pan -= aside
	tilt := math.Atan2(-d.Z, math.Hypot(d.X, d.Y)*math.Cos(aside)) - restTilt // as high as the craft stands in the picture so turned
	tilt += restTilt - up*math.Tanh(tilt/up)
	s := Standing(at, pan, tilt)
	s.Frame, s.Focal = c.Frame, c.Focal
	return s
}
