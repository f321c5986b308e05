package bench_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/vec"
)

// itemsOf are the items of a page with a name.
func itemsOf(p *ink.Page, name string) (all []*ink.Item) {
	for i := range p.Items() {
		if it := &p.Items()[i]; it.Name == name {
			all = append(all, it)
		}
	}
	return all
}

// readScale reads the scale of a view as a person does: by the words beside its marks. It gives where 0 m stands and how many pixels a metre has.
func readScale(t require.TestingT, p *ink.Page, where string) (ground, perMetre float64) {
	words := itemsOf(p, where+" metres")
	require.Greater(t, len(words), 1, "two words at the least")
	read := func(it *ink.Item) (y, metres float64) {
		_, err := fmt.Sscanf(it.Text, "%g m", &metres)
		require.NoError(t, err)
		mid, near := it.Box.Centre().Y, math.Inf(1)
		for _, m := range itemsOf(p, where+" mark") {
			if d := math.Abs(m.A.Y - mid); d < near {
				near, y = d, m.A.Y
			}
		}
		require.Less(t, near, 3*p.Scale, "a mark beside %q", it.Text)
		return y, metres
	}
	y0, none := read(words[0])
	require.Zero(t, none)
	y, metres := read(words[len(words)-1])
	return y0, (y0 - y) / metres
}

// The mark on the scale stands where the number is, from the ground to 200 m, on pages of every size; so does the craft's middle, but where it stands on the ground. One
// that is said to be drawn to scale spans as many metres of the scale as it truly has.
func TestTheHeightIsReadAtTheMark(t *testing.T) {
	s := uitest.Airborne(t, 3)
	s.V.Flight.Trail = nil
	p := ink.NewPage(960, 600, 0, nil)
	scaled, icons := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		z := rapid.SampledFrom(uitest.Sizes).Draw(t, "size")
		h := rapid.OneOf(rapid.Float64Range(0.025, 1), rapid.Float64Range(1, 200)).Draw(t, "height")
		s.V.Snap.Air.Body.Att, s.V.Snap.Air.Body.Pos = vec.Q{W: 1}, vec.V{Z: -h}
		p.Reset(z.W, z.H, 0, nil)
		bench.Draw(p, s.V)
		for _, where := range []string{"behind", "side"} {
			ground, perMetre := readScale(t, p, where)
			tip := p.Points(itemsOf(p, where+" pointer")[0])[0]
			require.InDelta(t, h, (ground-tip.Y)/perMetre, 2/perMetre+0.012*h, "the mark of %v", where)
			left, right, mid := math.Inf(1), math.Inf(-1), 0.0
			for _, arm := range itemsOf(p, where+" arm") {
				left, right = min(left, arm.A.X, arm.B.X), max(right, arm.A.X, arm.B.X)
				mid += (arm.A.Y + arm.B.Y) / 2 / 4
			}
			if span := right - left; (ground - tip.Y) > 0.3*span {
				require.InDelta(t, tip.Y, mid, 0.6, "its middle")
			} else {
				require.LessOrEqual(t, mid, tip.Y+0.6, "it stands on the ground, not in it")
			}
			said := itemsOf(p, where+" height-said")
			caption := itemsOf(p, where+" scale")[0].Text
			if truly := right - left - 2*s.Cfg.Body.ArmRight*perMetre; len(said) == 0 && math.Abs(truly) < 2+0.02*(right-left) {
				require.Contains(t, caption, "craft to scale")
				scaled++
			} else {
				require.Contains(t, caption, "craft as an icon")
				require.Len(t, said, 1, "an icon has its height in words")
				require.Equal(t, uitest.Say(tell.Metres(h)), said[0].Text)
				require.Positive(t, truly)
				icons++
			}
		}
		require.Equal(t, uitest.Say(tell.Metres(h)), itemsOf(p, "number")[0].Text, "the number")
	})
	assert.Positive(t, scaled)
	assert.Positive(t, icons)
}

// The scale grows with the height and never by a jump: from one height to the next it changes by no more than they differ, and the craft on the page goes on without a leap.
func TestTheScaleMovesSmoothly(t *testing.T) {
	s := uitest.Airborne(t, 3)
	s.V.Flight.Trail = nil
	p := ink.NewPage(1280, 800, 0, nil)
	draw := func(h float64) (tip, top, wide float64) {
		s.V.Snap.Air.Body.Att, s.V.Snap.Air.Body.Pos = vec.Q{W: 1}, vec.V{Z: -h}
		p.Reset(1280, 800, 0, nil)
		bench.Draw(p, s.V)
		left, right := math.Inf(1), math.Inf(-1)
		for _, arm := range itemsOf(p, "behind arm") {
			left, right = min(left, arm.A.X, arm.B.X), max(right, arm.A.X, arm.B.X)
		}
		scale := itemsOf(p, "behind height")[0]
		return p.Points(itemsOf(p, "behind pointer")[0])[0].Y, scale.A.Y, right - left
	}
	const step = 1.002
	tip, top, wide := draw(0.025)
	for h := 0.025 * step; h < 200; h *= step {
		t1, top1, wide1 := draw(h)
		require.InDelta(t, tip, t1, 1.2, "%v m", h)
		require.InDelta(t, top, top1, 0.01, "the upper end of the scale stays where it is on the page, at %v m", h)
		require.InDelta(t, wide, wide1, 0.5, "%v m", h)
		require.LessOrEqual(t, wide1, wide+1e-9, "the craft grows no larger as it climbs")
		tip, top, wide = t1, top1, wide1
	}
}

// Its height once was far from what the scale said; these are what a person reads at 12.3 m, in words and on the scale.
func TestTwelvePointThreeMetres(t *testing.T) {
	s := aloft(t, vec.Q{W: 1}, 12.3)
	p, d := drawnBench(s)
	said, ok := d.Text("behind height-said")
	require.True(t, ok)
	assert.Equal(t, "12.3 m", said)
	ground, perMetre := readScale(t, p, "behind")
	assert.InDelta(t, 12.3, (ground-p.Points(itemsOf(p, "behind pointer")[0])[0].Y)/perMetre, 0.1)
	s.V.Flight.From = ui.FromPilot
	_, d = drawnBench(s)
	said, _ = d.Text("seen-said")
	assert.Contains(t, said, "12.3 m high")
}
