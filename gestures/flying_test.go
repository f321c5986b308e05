package gestures_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"propsoff.example/gestures"
)

// temper is how a person flies: what share of the movements goes to an end of the stick and what share is big, and how big the big and
// the small ones are, in shares of travel (standard deviations). All numbers are ours.
type temper struct {
	name                   string
	ends, bigs, big, small float64
}

// flyer holds the sticks as a person who flies: each direction goes from place to place by minimum-jerk paths and stands there for
// a moment.
type flyer struct {
	temper
	r     *rand.Rand
	moves [gestures.Directions]move
	until [gestures.Directions]float64
	shake [gestures.Directions]tremor
}

func newFlyer(r *rand.Rand, how temper) *flyer {
	f := &flyer{r: r, temper: how}
	for d := range f.moves {
		f.moves[d], f.shake[d] = move{0, 0, 0, 1}, newTremor(r)
	}
	return f
}

// next is where a direction goes next, in shares of travel: throttle about a hover, the others about the middle.
func (f *flyer) next(d int) float64 {
	middle := 0.0
	if d == int(gestures.Throttle) {
		middle = -0.1
	}
	switch x := f.r.Float64(); {
	case x < f.ends/2:
		return -1
	case x < f.ends:
		return 1
	case x < f.ends+f.bigs:
		return middle + f.big*f.r.NormFloat64()
	}
	return middle + f.small*f.r.NormFloat64()
}

func (f *flyer) at(t float64, in *gestures.Input) {
	for d := range f.moves {
		m := &f.moves[d]
		if t >= f.until[d] {
			*m = move{m.to, f.next(d), t, 0.12 + 0.7*f.r.Float64()}
			f.until[d] = t + m.takes + 0.5*f.r.ExpFloat64()
		}
		in.Sticks[d] = sent(m.at(t) + f.shake[d].at(t))
	}
}

// Gestures that nobody meant, in random flying, without the gate that lets none count while armed. The bench has that gate, so this is
// how often the patterns by themselves would be misread. In a longer run: go test ./gestures -v -run Misread -minutes 100000 -timeout 0.
func TestMisreadInFlight(t *testing.T) {
	cfg := shipped(t)
	total := *minutes
	if testing.Short() {
		total = min(total, 40)
	}
	for i, how := range []temper{{"steady", 0.01, 0.14, 0.3, 0.12}, {"wild", 0.05, 0.2, 0.5, 0.18}} {
		made := make([]int, len(cfg.Patterns))
		slots := 0
		for mode := uint8(1); mode <= 4; mode++ {
			r := rand.New(rand.NewPCG(uint64(i), uint64(mode)))
			h, f := newHand(cfg, mode), newFlyer(r, how)
			for n := range total / 4 * 60 * 1000 / slotTicks {
				f.at(float64(n)*slotTicks/1000, &h.in)
				h.near, h.made = h.near[:0], h.made[:0]
				if got := h.slot(); got >= 0 {
					made[got]++
				}
				slots++
			}
			assert.LessOrEqual(t, h.most, 1)
		}
		flown := float64(slots) * slotTicks / 60000
		for n, k := range made {
			// The exact 95 % bound of a rate from above (gamma distribution; Garwood 1936, from memory): with none in N it is 3/N.
			hi := distuv.Gamma{Alpha: float64(k + 1), Beta: 1}.Quantile(0.95)
			t.Logf("| %s | %s | %d in %.0f min | less than one in %.0f min |", cfg.Patterns[n].Code, how.name, k, flown, flown/hi)
			most := flown / 10
			if how.name == "steady" {
				most = max(flown/1000, 1)
			}
			assert.LessOrEqual(t, float64(k), most, "%s is made by flying", cfg.Patterns[n].Code)
		}
	}
}
