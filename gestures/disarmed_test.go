package gestures_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// landings is how often random hands disarm by sticks, to count the gestures that they make afterwards without meaning to.
var landings = flag.Int("landings", 800, "disarmings by sticks, over all stick modes, after which gestures are counted that nobody meant")

// ground is link, layout, arming and gestures of a craft that is armed by its sticks, a slot at a time as on the bench, menus left out.
type ground struct {
	cfg  *sim.Config
	slot sim.SlotState
	set  []gestures.State
	in   gestures.Input
	tick int64
}

func (g *ground) step() int {
	in := sim.SlotInput{Transmitting: true}
	for c := range in.Sent {
		in.Sent[c] = pulse.Low
	}
	l := &g.cfg.Layout
	in.Sent[l.Throttle], in.Sent[l.Roll], in.Sent[l.Pitch], in.Sent[l.Yaw] = g.in.Sticks[gestures.Throttle], g.in.Sticks[gestures.Roll], g.in.Sticks[gestures.Pitch], g.in.Sticks[gestures.Yaw]
	var facts sim.SlotFacts
	g.slot, facts = sim.StepSlot(g.cfg, g.slot, &in, g.tick, nil)
	g.in.Valid = facts.Link.Valid
	g.in.Live = g.slot.Link.Phase == link.Good && !g.slot.Arming.Armed
	made := gestures.Step(g.cfg.Gestures, g.set, &g.in, g.tick, nil)
	g.tick += slotTicks
	return made
}

// lands lets a hand that has flown land: it brings the throttle down and yaw to the left until that has disarmed the craft, stays there up to a
// second more, lets yaw go, and handles the sticks for ten seconds with the throttle down. Roll and pitch it handles throughout. It
// gives what was made.
func (g *ground) lands(t *testing.T, f *flyer) (made []int) {
	const slot = float64(slotTicks) / 1000
	down := move{-0.3 + 0.2*f.r.NormFloat64(), -1, 1, 0.2 + 0.4*f.r.Float64()}
	left := move{0.2 * f.r.NormFloat64(), -1, 1, 0.2 + 0.4*f.r.Float64()}
	back := move{-1, 0, math.Inf(1), 0.1 + 0.4*f.r.Float64()}
	for now, end := 0.0, 4.0; now < end; now += slot {
		if !g.slot.Arming.Armed && back.begin > end {
			back.begin = now + f.r.Float64()
			end = back.begin + 10
		}
		f.at(now, &g.in)
		g.in.Sticks[gestures.Throttle] = sent(down.at(now) + f.shake[gestures.Throttle].at(now))
		switch {
		case now < back.begin:
			g.in.Sticks[gestures.Yaw] = sent(left.at(now) + f.shake[gestures.Yaw].at(now))
		case now < back.begin+back.takes:
			g.in.Sticks[gestures.Yaw] = sent(back.at(now) + f.shake[gestures.Yaw].at(now))
			f.moves[gestures.Yaw], f.until[gestures.Yaw] = move{0, 0, now, 1}, back.begin+back.takes
		}
		if n := g.step(); n >= 0 {
			made = append(made, n)
		}
	}
	require.False(t, math.IsInf(back.begin, 1), "it was disarmed")
	return made
}

// A hand that has just disarmed by sticks stands in the first part of the craft's own menu, begun while armed. How often it goes on to
// make a gesture that it does not mean: go test ./gestures -v -run AfterADisarm -landings 24000 -timeout 0.
func TestMadeAfterADisarmBySticks(t *testing.T) {
	_, text, _ := assets.Gestures("examples")
	cfg := bySticks(t, string(text))
	for i, how := range []temper{{"steady", 0.01, 0.14, 0.3, 0.12}, {"wild", 0.05, 0.2, 0.5, 0.18}} {
		made, all := make([]int, len(cfg.Gestures.Patterns)), 0
		for mode := uint8(1); mode <= 4; mode++ {
			ready := ground{cfg: &cfg, slot: cfg.PowerUp(), in: gestures.Input{Sticks: rest(), StickMode: mode}}
			ready.set = make([]gestures.State, len(made))
			for range 200 {
				ready.step()
			}
			ready.in.Sticks[gestures.Yaw] = pulse.High
			for range 100 {
				ready.step()
			}
			require.True(t, ready.slot.Arming.Armed)
			r := rand.New(rand.NewPCG(uint64(i), uint64(mode)))
			for range *landings / 4 {
				g := ready
				g.set = append([]gestures.State(nil), ready.set...)
				for _, n := range g.lands(t, newFlyer(r, how)) {
					made[n]++
				}
				all++
			}
		}
		for n, k := range made {
			// The exact 95 % bound of a rate from above (gamma distribution; Garwood 1936, from memory).
			hi := distuv.Gamma{Alpha: float64(k + 1), Beta: 1}.Quantile(0.95)
			t.Logf("| %s | %s | %d after %d | less than one in %.0f |", cfg.Gestures.Patterns[n].Code, how.name, k, all, float64(all)/hi)
			most := all / 50 // of wild hands, some four times what was found in 24,000
			if how.name == "steady" {
				most = all / 200
			}
			assert.LessOrEqual(t, k, most, "%s is made after disarming", cfg.Gestures.Patterns[n].Code)
		}
	}
}
