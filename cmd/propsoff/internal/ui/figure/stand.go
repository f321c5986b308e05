package figure

import (
	"math"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/view"
	"propsoff/sim/vec"
)

// The stand, in longer halves of the craft's arms (ours): half the width of its foot, the radius of its ball, and half the width of its post at the foot and
// at the ball.
const (
	standFoot          = 0.85
	ballRadius         = 0.17
	postFoot, postBall = 0.1, 0.05
)

// post draws the post of the stand from its foot up to the craft's middle, seen from the side; ball, what the craft hangs on, is drawn over the craft, which
// turns about it.
func (b *Board) post(where string, f *Flying, m *model, ground float64) {
	if !f.snap.In.Hung {
		return
	}
	line, x, up := ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.3 * b.U}, m.mid.X, m.mid.Y
	foot, wide, thin := standFoot*m.scale, postFoot*m.scale, postBall*m.scale
	b.V.Pts = append(b.V.Pts[:0], ink.Point{X: x - wide, Y: ground}, ink.Point{X: x - thin, Y: up}, ink.Point{X: x + thin, Y: up}, ink.Point{X: x + wide, Y: ground})
	b.Polygon(where+" post", b.V.Pts, line)
	high := 0.12 * m.scale
	b.V.Pts = append(b.V.Pts[:0], ink.Point{X: x - foot, Y: ground}, ink.Point{X: x - foot + high, Y: ground - high}, ink.Point{X: x + foot - high, Y: ground - high}, ink.Point{X: x + foot, Y: ground})
	b.Polygon(where+" stand-foot", b.V.Pts, line)
}

// ball draws the ball in the craft's middle.
func (b *Board) ball(where string, f *Flying, m *model) {
	if !f.snap.In.Hung {
		return
	}
	r := max(ballRadius*m.scale, 2.5*b.U)
	b.Circle(where+" ball", m.mid.X, m.mid.Y, r, ink.Paint{Fill: ink.Focus, Line: ink.Paper, Width: b.U})
}

// standSeen draws post and foot of the stand as a camera sees them.
func (b *Board) standSeen(c *view.Camera, f *Flying) {
	if !f.snap.In.Hung {
		return
	}
	at, arm := f.snap.Air.Body.Pos, f.arm()
	line := ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.3 * b.U}
	var foot [20]vec.V
	for i := range foot {
		s, q := math.Sincos(float64(i) * 2 * math.Pi / float64(len(foot)))
		foot[i] = vec.V{X: at.X + standFoot*arm*q, Y: at.Y + standFoot*arm*s}
	}
	b.V.Pts = c.Outline(b.V.Pts[:0], foot[:]...)
	b.Polygon("stand-foot", b.V.Pts, line)
	across, low, high := c.Right, vec.V{X: at.X, Y: at.Y}, at
	b.V.Pts = c.Outline(b.V.Pts[:0], low.Plus(-postFoot*arm, across), high.Plus(-postBall*arm, across), high.Plus(postBall*arm, across), low.Plus(postFoot*arm, across))
	b.Polygon("post", b.V.Pts, line)
}
