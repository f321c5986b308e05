package fault_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// A gap takes its widths from every span and nothing else; more spans than there is room for make it wider, never narrower.
func TestModeGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := sim.Default().Layout
		n := rapid.IntRange(0, layout.MaxModeSpans).Draw(t, "spans")
		l.SpanCount = int8(n)
		for i := range l.Spans {
			l.Spans[i] = layout.ModeSpan{}
			if i < n {
				low := rapid.IntRange(860, 2170).Draw(t, "low")
				l.Spans[i] = layout.ModeSpan{Mode: layout.Mode(rapid.IntRange(0, 2).Draw(t, "mode")),
					Span: layout.Span{Low: pulse.Micros(low), High: pulse.Micros(rapid.IntRange(low+1, 2180).Draw(t, "high"))}}
			}
		}
		half := rapid.Int32Range(10, 400).Draw(t, "half")
		s := state(plant(t, fault.ModeGap, half, 0))
		bent, rx := l, link.Config{}
		s.Craft(&rx, &bent)
		if bent.SpanCount > layout.MaxModeSpans || rx != (link.Config{}) {
			t.Fatalf("%d spans", bent.SpanCount)
		}
		pieces, low, high := 0, pulse.Centre-pulse.Width(half*8), pulse.Centre+pulse.Width(half*8)
		for _, m := range l.Spans[:n] {
			if m.Span.Low < low {
				pieces++
			}
			if m.Span.High > high {
				pieces++
			}
		}
		for w := pulse.Lowest; w <= pulse.Highest; w++ {
			inGap := w >= low && w < high
			was, is := l.ModeAt(w), bent.ModeAt(w)
			switch {
			case inGap && is != layout.Rate:
				t.Fatalf("mode %d in the gap, at %d", is, w.Whole())
			case !inGap && is != was && pieces <= layout.MaxModeSpans:
				t.Fatalf("mode %d was %d at %d, outside the gap", is, was, w.Whole())
			}
		}
		other := l
		other.Mode = layout.NoChannel
		same := other
		s.Craft(&rx, &same)
		if same != other {
			t.Fatal("a craft without a mode channel has no gap")
		}
	})
}

func TestReceiver(t *testing.T) {
	cfg := sim.Default()
	for way := link.FallsSilent; way <= link.SendsStored; way++ {
		rx, l := cfg.Link, cfg.Layout
		state(plant(t, fault.Receiver, int32(way), 0)).Craft(&rx, &l)
		assert.Equal(t, way, rx.OnLoss)
		assert.Equal(t, cfg.Layout, l)
		want := cfg.Link
		want.OnLoss = way
		if way == link.SendsStored {
			want.Stored = pulse.Frame{}
			for c := range want.Stored {
				want.Stored[c] = pulse.Low
			}
			want.Stored[1], want.Stored[2], want.Stored[3] = pulse.Centre, pulse.Centre, pulse.Centre
		}
		assert.Equal(t, want, rx)
	}
	rx, l := cfg.Link, cfg.Layout
	rx.OnLoss, rx.Stored[0] = link.SendsStored, pulse.Micros(1300)
	own := rx
	state(plant(t, fault.Receiver, int32(link.SendsStored), 0)).Craft(&rx, &l)
	assert.Equal(t, own, rx, "a craft that has stored values keeps its own")
	rx, l = cfg.Link, cfg.Layout
	l.ArmSpan = layout.Span{Low: pulse.Lowest, High: pulse.Micros(1300)}
	state(plant(t, fault.Receiver, int32(link.SendsStored), 0)).Craft(&rx, &l)
	assert.False(t, l.ArmSpan.Contains(rx.Stored[l.Arm]), "what is stored is off")
}
