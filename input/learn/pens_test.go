package learn_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/input/learn"
)

// Each axis has a pen: it draws where the axis was, part of time by part of time, the newest last.
func TestPensDrawWhereTheAxesWere(t *testing.T) {
	l := learn.New(deskInfo(), learn.Options{})
	require.Zero(t, l.View().Pens.Parts())
	_, ok := l.View().Pens.At(0, 0)
	require.False(t, ok, "nothing is drawn before something was read")
	d := newDesk(t)
	d.now = 2000 * ms
	d.Move(d.now, 400*ms, 1, 1000)
	d.now += 400 * ms
	d.Move(d.now+10*ms, 5*ms, 4, 1000) // there and back within a part
	d.Move(d.now+20*ms, 5*ms, 4, 0)
	d.wait(800 * ms)
	p := d.play().Pens
	at := func(axis int, ago int64) int {
		v, ok := p.At(axis, int(ago*ms/learn.PenPart))
		require.True(t, ok)
		return v
	}
	require.Equal(t, 1000, at(1, 0))
	require.Equal(t, 1000, at(1, 750))
	require.InDelta(t, 925, at(1, 900), 30, "in the part from 2.32 to 2.36 s")
	require.Equal(t, 500, at(1, 1240))
	require.Equal(t, 500, at(0, 0))
	most := 0
	for age := range p.Parts() {
		v, _ := p.At(4, age)
		most = max(most, v)
	}
	require.Equal(t, 1000, most, "what was too quick for a part shows all the same")
	_, ok = p.At(8, 0)
	require.False(t, ok, "no such axis")
	_, ok = p.At(0, p.Parts())
	require.False(t, ok)
	_, ok = p.At(-1, -1)
	require.False(t, ok)

	// However long the hand is still, the paper runs on, and holds so many parts.
	d.l.Tick(100_000 * ms)
	p = d.l.View().Pens
	require.Equal(t, learn.PenParts, p.Parts())
	require.Equal(t, 1000, at(1, 0))
	require.Equal(t, 1000, at(1, (learn.PenParts-1)*learn.PenPart/ms))

	// While the device is gone the paper stands; then there is a gap, and what comes after it is drawn on.
	d.l.Resume()
	raw := d.l.View().Raw
	raw.At, raw.Axes[1] = 5*ms, 200
	d.l.Feed(raw)
	d.l.Tick(105 * ms)
	require.Equal(t, 200, at(1, 0))
	_, ok = p.At(1, 3)
	require.True(t, ok, "before it was gone")
	gap := 0
	for age := range p.Parts() {
		if _, ok := p.At(1, age); !ok {
			gap++
		}
	}
	require.Equal(t, 1, gap)
}
