package figure

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/view"
	"propsoff.example/sim/vec"
)

// The stand, in longer halves of the craft's arms (ours): half the width of its foot, the radius of its ball, and half the width of its post at the foot and
// at the ball.
const (
	standFoot          = 0.85
	ballRadius         = 0.17
	postFoot, postBall = 0.1, 0.05
)

// hung draws a craft on the stand as an eye at its own height sees it, as large as there is room: how high it hangs says nothing of how it flies.
func (b *Board) hung(where string, in, caption ink.Rect, e Eye, f *Flying) {
	scale := min(in.W, in.H) / (2.2 * reach)
	m := f.model(e, scale)
	m.mid = ink.Point{X: in.Centre().X, Y: in.Y + reach*1.05*scale}
	if where == "behind" {
		b.Line("horizon", in.X, m.mid.Y, in.Right(), m.mid.Y, ink.Paint{Line: ink.Rule})
	}
	line, x, low, foot, high := ink.Paint{Fill: ink.Paper, Line: ink.Rule, Width: 1.3 * b.U}, m.mid.X, in.Bottom(), standFoot*scale, 0.12*scale
	b.Line(where+" ground", in.X, low, in.Right(), low, ink.Paint{Line: ink.Ink, Width: 2 * b.U})
	b.V.Pts = append(b.V.Pts[:0], ink.Point{X: x - postFoot*scale, Y: low}, ink.Point{X: x - postBall*scale, Y: m.mid.Y},
		ink.Point{X: x + postBall*scale, Y: m.mid.Y}, ink.Point{X: x + postFoot*scale, Y: low})
	b.Polygon(where+" post", b.V.Pts, line)
	b.V.Pts = append(b.V.Pts[:0], ink.Point{X: x - foot, Y: low}, ink.Point{X: x - foot + high, Y: low - high}, ink.Point{X: x + foot - high, Y: low - high}, ink.Point{X: x + foot, Y: low})
	b.Polygon(where+" stand-foot", b.V.Pts, line)
	b.flyer(where, &m, f)
	b.ball(where, f, &m)
	if !caption.Empty() {
		b.Fitted(where+" scale", caption, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Centre}, b.Say(words.T("flight.stand-below")))
	}
}

// ball draws the ball in the craft's middle, about which it turns.
func (b *Board) ball(where string, f *Flying, m *model) {
	if !f.snap.In.Hung {
		return
	}
	b.Circle(where+" ball", m.mid.X, m.mid.Y, max(ballRadius*m.scale, 2.5*b.U), ink.Paint{Fill: ink.Focus, Line: ink.Paper, Width: b.U})
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
