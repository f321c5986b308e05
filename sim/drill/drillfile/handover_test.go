package drillfile_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// handedOver is a practice of the drill that lands, just after the craft was flown there for the pupil.
func handedOver(t *testing.T, hand func(l *lab, q *pupil)) (*lab, *pupil) {
	l := newLab(shippedDrill(t, "land-softly"), teasel(t), 2, 1)
	q := &pupil{l: l, delay: 230, fly: flyer{lag: 200}}
	for range 60_000 {
		if q.turn(); hand != nil {
			hand(l, q)
		}
		l.tick()
		if l.snap.Air.Flying {
			return l, q
		}
	}
	require.Fail(t, "never flown there", "phase %d, step %d, missing %b", l.s.Phase, l.s.At, drill.Missing(&l.d.Config, &l.s, &l.in))
	return nil, nil
}

func shippedDrill(t *testing.T, code string) *drillfile.Drill {
	for _, d := range flownDrills(t) {
		if d.Config.Code == code {
			return d
		}
	}
	require.Fail(t, "no such drill", code)
	return nil
}

// Until the craft is flown there its pack is out, so nothing the hands do on the way arms it; then it hovers as high as the drill says, in the very
// tick after the throttle has stood long enough where it hovers.
func TestNothingArmsBeforeItIsFlownThere(t *testing.T) {
	var since int64
	l, _ := handedOver(t, func(l *lab, _ *pupil) {
		if at := l.s.At; at < 3 && l.in.Tick > 200 {
			require.False(t, l.snap.In.Powered, "step %d", at)
		}
		if !l.in.Facts.Hovers {
			since = l.in.Tick
		}
	})
	assert.True(t, l.snap.Armed)
	assert.InDelta(t, 3, -l.snap.Air.Body.Pos.Z, 1e-3)
	assert.InDelta(t, 500, l.in.Tick-since, 3)
	assert.NotContains(t, l.noted, happening.Armed)
}

// Hands that come down again, switch off, or let go just as it is handed over, begin afresh, with the pack out; nothing is counted.
func TestWhoDoesNotFlyBeginsAfresh(t *testing.T) {
	for name, spoil := range map[string]func(l *lab){
		"switch":   func(l *lab) { l.move(l.layout().Arm, pulse.Low) },
		"throttle": func(l *lab) { l.move(l.layout().Throttle, pulse.Micros(1250)) },
		"radio":    func(l *lab) { l.tell(pulse.Link, 0) },
	} {
		l, q := handedOver(t, nil)
		spoil(l)
		back := false
		for range 15_000 {
			l.tick()
			if back = l.s.At == 0 && !l.snap.In.Powered && !l.snap.Armed; back {
				break
			}
		}
		assert.True(t, back, name)
		assert.Empty(t, l.tries, name)
		if name == "radio" {
			l.tell(pulse.Link, 1)
		}
		for n := 0; len(l.tries) == 0 && n < 120_000; n++ {
			q.turn()
			l.tick()
		}
		require.NotEmpty(t, l.tries, name)
		assert.Equal(t, drill.Right, l.tries[0].Verdict, "%s: %+v", name, l.tries[0])
	}
}

// The arm switch that goes off in the very tick in which the craft would be handed over: nobody is handed an armed craft with the switch off.
func TestASwitchThatGoesOffInTheVeryTick(t *testing.T) {
	l := newLab(shippedDrill(t, "land-softly"), teasel(t), 2, 1)
	q := &pupil{l: l, delay: 230, fly: flyer{lag: 200}}
	late := false
	for n := 0; !late; n++ {
		require.Less(t, n, 60_000)
		q.turn()
		l.tick()
		for _, r := range l.queue {
			if _, hovers := pulse.HoverOf(r.Value); hovers && r.Kind == pulse.Air {
				f := l.frame
				f[l.layout().Arm] = pulse.Low
				l.frame, late = f, true
				l.queue = append([]pulse.Reading{{Kind: pulse.Controls, Frame: f}}, l.queue...)
			}
		}
	}
	for range 1000 {
		l.tick()
		require.False(t, l.snap.Armed)
		require.False(t, l.snap.Air.Flying)
	}
	assert.Zero(t, l.s.At)
	assert.Empty(t, l.tries)
}
