package view

import (
	"math"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim/vec"
)

// The pilot's eye stands behind the start, from which the craft looks north with its tail towards him: at least 5 m away (common practice, no source),
// and as high as the eyes of a person who is not tall (ours).
const (
	eyeBehind = 5.5
	eyeHigh   = 1.6
)

// How wide the pilot's picture is: so much up and down as shows the ground at the start and the horizon at once, and from side to side no more than is
// seen at a glance, which grows to mostUp from the middle where craft and ground would not be in it both; and how he looks while nothing leads his eye
// away. In rad, ours.
const (
	leastUp  = 24 * math.Pi / 180
	mostWide = 70 * math.Pi / 180
	mostUp   = 36 * math.Pi / 180
	restTilt = -3 * math.Pi / 180
)

// holdWide and holdUp are how far from the middle of the picture, in parts of the way to where it would touch the edge, the craft gets at the most,
// holdLow how far its shadow (ours).
const (
	holdWide = 0.75
	holdUp   = 0.97
	holdLow  = 0.97
)

// Pilot is the camera of the pilot who watches a craft at a place, in a picture from whose edges it stays some pixels away. It is made of nothing but the place: near the start it stands nearly
// still, and the further the craft goes to the edge, the more it turns with it, so that the craft is never lost. The ground straight below the craft is
// in the picture too, which grows for that as far as mostUp allows, unless the craft is nearer to him than the start, or all too high above his head.
func Pilot(craft vec.V, frame ink.Rect, away float64) Camera {
	at := vec.V{X: -eyeBehind, Z: -eyeHigh}
	focal := max(frame.H/2/math.Tan(leastUp/2), frame.W/2/math.Tan(mostWide/2))
	d := craft.Sub(at)
	hold := func(half, share, focal float64) float64 { return share * math.Atan(max(half-away, 0.1*half)/focal) }
	wide := hold(frame.W/2, holdWide, focal)
	pan := math.Atan2(d.Y, d.X)
	aside := wide * math.Tanh(math.Sin(pan)/wide) // by the sine, so that nothing jumps behind his back
	pan -= aside
	ahead := math.Hypot(d.X, d.Y) * math.Cos(aside)
	high, foot := math.Atan2(-d.Z, ahead), math.Atan2(-eyeHigh, max(ahead, eyeBehind)) // as high as craft and shadow stand in the picture so turned
	up := func(focal float64) float64 { return hold(frame.H/2, holdUp, focal) }
	low := func(focal float64) float64 { return math.Atan(holdLow * frame.H / 2 / focal) }
	if least := min(focal, frame.H/2/math.Tan(mostUp)); up(focal)+low(focal) < high-foot {
		for most, n := focal, 0; n < 40; n++ { // by halves: the longer it is, the less is seen
			if focal = (least + most) / 2; up(focal)+low(focal) < high-foot {
				most = focal
			} else {
				least = focal
			}
		}
		focal = least
	}
	tilt := high - up(focal)*math.Tanh((high-restTilt)/up(focal))
	tilt = max(min(tilt, foot+low(focal)), high-up(focal))
	c := Standing(at, pan, tilt)
	c.Frame, c.Focal = frame, focal
	return c
}
