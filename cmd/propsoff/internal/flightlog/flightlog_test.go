package flightlog

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/vec"
)

// Angles against turns made one after another: heading, then pitch, then bank.
func TestAngles(t *testing.T) {
	turn := func(axis vec.V, deg float64) vec.Q {
		s, c := math.Sincos(deg / degrees / 2)
		return vec.Q{W: c, X: s * axis.X, Y: s * axis.Y, Z: s * axis.Z}
	}
	for _, want := range [][3]float64{{0, 0, 0}, {30, 0, 0}, {-170, 10, 350}, {45, -80, 123}, {10, 60, 270}} {
		q := turn(vec.V{Z: 1}, want[2]).Mul(turn(vec.V{Y: 1}, want[1])).Mul(turn(vec.V{X: 1}, want[0]))
		bank, pitch, heading := Angles(q)
		assert.InDelta(t, want[0], bank, 1e-9)
		assert.InDelta(t, want[1], pitch, 1e-9)
		assert.InDelta(t, want[2], heading, 1e-9)
	}
}

func wild() *Log {
	cfg := sim.Default()
	l := New(&cfg, 10)
	for i := range 1500 {
		x := float64(i) / 50
		l.Rows = append(l.Rows, Row{Tick: int64(i * 10), Armed: i > 200 && i < 1200, Height: 20 * math.Sin(x), Climb: 15 * math.Cos(x),
			Bank: math.Mod(40*x, 360) - 180, Rate: [3]float64{900 * math.Sin(3*x), 2, -3}, Asked: [3]float64{900, 0, 0}, Throttle: 1500 + 500*math.Sin(x),
			Motor: [4]float64{100, 0, 50, 25 * math.Abs(math.Sin(x))}})
	}
	for i := range 14 {
		l.Happenings = append(l.Happenings, happening.Happening{Tick: int64(3000 + i*150), Code: happening.Armed + happening.Code(i%4)})
	}
	return l
}

func TestPlotIsSound(t *testing.T) {
	l := wild()
	for _, size := range [][2]float64{{960, 600}, {1280, 1000}, {2400, 1600}} {
		for _, theme := range []*ink.Theme{ink.Print(), ink.Light(), ink.Dark()} {
			for _, tag := range words.Languages() {
				p := ink.NewPage(size[0], size[1], 0, theme)
				l.Plot(p, words.In(tag.String()), words.AsIs("A flight with a rather long name, so that it can be seen where the end of it goes"))
				for _, problem := range ink.Check(p) {
					t.Error(fmt.Sprint(size, theme.Name, tag), problem)
				}
			}
		}
	}
	p := ink.NewPage(960, 600, 0, ink.Print())
	New(&sim.Config{}, 1).Plot(p, words.English(), words.AsIs("no flight"))
	assert.Len(t, ink.Describe(p).Named("nothing"), 1)
}

// No line of a happening goes through the word of another: every word stands on a ground of its own that covers the lines.
func TestNoLineGoesThroughAWord(t *testing.T) {
	l := wild()
	p := ink.NewPage(1280, 1000, 0, ink.Print())
	l.Plot(p, words.English(), words.AsIs("a flight"))
	grounds, last := 0, ""
	for _, it := range ink.Describe(p).Items {
		switch it.Name {
		case "happening-line":
			assert.Zero(t, grounds, "a line over a word")
		case "happening-ground":
			grounds++
		case "happening":
			assert.Equal(t, "happening-ground", last)
		}
		last = it.Name
	}
	assert.Greater(t, grounds, 3)
}

func TestNiceSteps(t *testing.T) {
	for v, want := range map[float64]float64{0: 1, 0.3: 0.5, 1: 1, 1.01: 2, 33: 50, 70: 100, 0.02: 0.02} {
		assert.InDelta(t, want, nice(v), 1e-12)
	}
}
