package bench_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/cmd/propsoff/internal/view"
	"propsoff.example/sim/vec"
)

// seenAs is the air bench with a craft at a place in an attitude, seen from somewhere.
func seenAs(s *uitest.Stage, from ui.Seen, pos vec.V, att vec.Q) *ink.Page {
	s.V.Flight.From = from
	s.V.Snap.Air.Body.Pos, s.V.Snap.Air.Body.Att = pos, att.Unit()
	p := ink.NewPage(1280, 800, 0, nil)
	bench.Draw(p, s.V)
	return p
}

// middle is the middle of what has a name.
func middle(p *ink.Page, name string) ink.Point {
	var box ink.Rect
	for _, it := range itemsOf(p, name) {
		box = box.Union(it.Box.Inset(-1e-6))
	}
	return box.Centre()
}

// Near, the craft spans f·s/d; its shadow lies straight below it on the ground; far off it is an icon, and never smaller than one.
func TestThePilotSeesItsSize(t *testing.T) {
	s := uitest.Airborne(t, 2)
	icon := 0.0
	for _, pos := range []vec.V{{X: -3, Z: -1.5}, {X: -1.5, Y: 0.3, Z: -1}, {Z: -1.6}, {Y: 0.5, Z: -0.4}, {X: 20, Z: -4}, {X: 90, Y: 40, Z: -60}, {X: 150, Z: -1}} {
		p := seenAs(s, ui.FromPilot, pos, vec.Q{W: 1})
		frame := itemsOf(p, "seen-frame")[0].Box
		c := view.Pilot(pos, frame.Inset(2), 24)
		left, right := math.Inf(1), math.Inf(-1)
		for _, it := range itemsOf(p, "seen propeller-turning") {
			left, right = min(left, it.Box.X), max(right, it.Box.Right())
			require.True(t, frame.Holds(it.Box, 0), "%v", pos)
		}
		d := pos.Sub(c.At).Norm()
		span := 2 * (s.Cfg.Body.ArmRight + 0.7*s.Cfg.Body.ArmForward)
		if pos.X <= 0 {
			assert.InEpsilon(t, c.Focal*span/d, right-left-2, 0.06, "%v", pos) // less the width of the stroke
			assert.Empty(t, itemsOf(p, "seen-icon"), "%v", pos)
		} else {
			assert.Greater(t, right-left, 2*c.Focal*span/d, "%v", pos)
			assert.Len(t, itemsOf(p, "seen-icon"), 1)
			if icon > 0 {
				assert.InEpsilon(t, icon, right-left, 0.15, "one size for all that is far, turned a little to where it is seen from")
			}
			icon = right - left
		}
		if foot, _, ok := c.See(vec.V{X: pos.X, Y: pos.Y}); ok && frame.Inset(30).Has(foot) {
			under := middle(p, "shadow")
			assert.InDelta(t, foot.X, under.X, 2)
			assert.InDelta(t, foot.Y, under.Y, 3)
		}
	}
}

// The nose is met as in life: tail in, a craft that goes to its right goes to the pilot's right, and nose in to his left; its nose lies before its body then. Words say
// which way it points.
func TestNoseInIsMirrored(t *testing.T) {
	s := uitest.Airborne(t, 2)
	for _, c := range []struct {
		yaw    float64
		says   string
		mirror float64
	}{{0, "tail towards you", 1}, {math.Pi, "nose towards you", -1}, {math.Pi / 2, "nose to your right", 0}, {-math.Pi / 2, "nose to your left", 0}, {3 * math.Pi / 2, "nose to your left", 0}} {
		att := vec.Q{W: math.Cos(c.yaw / 2), Z: math.Sin(c.yaw / 2)}
		right := att.Turn(vec.V{Y: 1})
		p := seenAs(s, ui.FromPilot, vec.V{Z: -1.4}, att)
		words := itemsOf(p, "seen-caption")
		require.Len(t, words, 1)
		assert.Contains(t, words[0].Text, c.says)
		at := middle(p, "seen body")
		moved := middle(seenAs(s, ui.FromPilot, vec.V{Z: -1.4}.Plus(0.3, right), att), "seen body")
		if c.mirror != 0 {
			assert.Greater(t, (moved.X-at.X)*c.mirror, 5.0, c.says)
		}
		order := func(name string) int {
			return slices.IndexFunc(p.Items(), func(it ink.Item) bool { return it.Name == name })
		}
		if c.mirror != 0 {
			assert.Equal(t, c.mirror < 0, order("seen nose") > order("seen body"), c.says)
		} else {
			assert.Equal(t, c.says == "nose to your right", middle(p, "seen nose").X > at.X)
		}
		for _, ring := range itemsOf(p, "seen propeller-turning") { // those in front are told from the others
			assert.True(t, ring.Line == ink.Focus || ring.Line == ink.Ink)
		}
	}
}

// A tree between the pilot and the craft is drawn over it, one behind it is not.
func TestTreesHideWhatIsBehindThem(t *testing.T) {
	s := uitest.Airborne(t, 2)
	for far, over := range map[float64]bool{20: false, 120: true} {
		p := seenAs(s, ui.FromPilot, vec.V{X: far, Z: -4}, vec.Q{W: 1})
		body := slices.IndexFunc(p.Items(), func(it ink.Item) bool { return it.Name == "seen body" })
		crowns := itemsOf(p, "crown")
		require.NotEmpty(t, crowns)
		last := slices.IndexFunc(p.Items(), func(it ink.Item) bool { return it.Name == "crown" && it.Box == crowns[len(crowns)-1].Box })
		assert.Equal(t, over, last > body, "%v m", far)
	}
}

// What the camera on board sees: the horizon leans against the bank, and stands as far from the middle as nose and camera are from level; a camera that looks up more sees
// less ground. Nothing is written in the picture but its lower line.
func TestTheCameraOnBoard(t *testing.T) {
	s := uitest.Airborne(t, 2)
	horizon := func(att vec.Q) (from, to ink.Point, mid ink.Point, focal float64) {
		p := seenAs(s, ui.FromCraft, vec.V{Z: -20}, att)
		lines := itemsOf(p, "horizon")
		require.Len(t, lines, 1)
		from, to = lines[0].A, lines[0].B
		if from.X > to.X {
			from, to = to, from
		}
		inner := itemsOf(p, "goggles-inner-frame")[0].Box
		rule := itemsOf(p, "instruments-rule")[0].A.Y
		seen := ink.Rect{X: inner.X, Y: inner.Y, W: inner.W, H: rule - inner.Y}
		for _, it := range p.Items() {
			if it.Group == "goggles" && it.Kind == ink.KindText {
				assert.Greater(t, it.Box.Y, rule)
			}
		}
		return from, to, seen.Centre(), (seen.W - 8) / 2 / math.Tan(s.Cfg.Camera.View/2)
	}
	from, to, mid, focal := horizon(vec.Q{W: 1})
	assert.InDelta(t, from.Y, to.Y, 1e-6)
	assert.InDelta(t, focal*math.Tan(s.Cfg.Camera.Tilt), from.Y-mid.Y, 3, "below the middle by what the camera looks up")
	s.Cfg.Camera.Tilt = 0.1
	from, _, mid, _ = horizon(ui.TurnBy(vec.V{Y: -0.1}))
	assert.InDelta(t, 0, from.Y-mid.Y, 3, "the nose as far down as the camera looks up")
	s.Cfg.Camera.Tilt = 0
	from, to, _, _ = horizon(ui.TurnBy(vec.V{X: 0.4}))
	assert.InDelta(t, -0.4, math.Atan2(to.Y-from.Y, to.X-from.X), 1e-6, "banked to the right it rises to the right")
	s.Cfg.Camera.View = 2 // the more it sees, the smaller everything is
	from, _, mid, focal = horizon(ui.TurnBy(vec.V{Y: -0.1}))
	assert.InDelta(t, -focal*math.Tan(0.1), from.Y-mid.Y, 3)
}

// A picture from where the pilot stands and one from the craft are made in a small part of a fiftieth of a second.
func BenchmarkSeen(b *testing.B) {
	for name, from := range map[string]ui.Seen{"drawn": ui.Drawn, "pilot": ui.FromPilot, "craft": ui.FromCraft} {
		b.Run(name, func(b *testing.B) {
			s := uitest.Airborne(b, 5).Glide(1, 1700, 100).Hold(5, 2000)
			s.V.Flight.From = from
			p := ink.NewPage(1920, 1080, 0, nil)
			b.ReportAllocs()
			for b.Loop() {
				p.Reset(1920, 1080, 0, nil)
				bench.Draw(p, s.V)
			}
			b.ReportMetric(float64(len(p.Items())), "items")
		})
	}
}
