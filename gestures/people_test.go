package gestures_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"propsoff.example/gestures"
	"propsoff.example/sim/pulse"
)

// minimumJerk is how far a hand has gone at a share τ of its time: 10τ³ − 15τ⁴ + 6τ⁵ (Flash & Hogan, The coordination of arm
// movements, Journal of Neuroscience 5, 1985, from memory).
func minimumJerk(tau float64) float64 {
	tau = min(max(tau, 0), 1)
	return tau * tau * tau * (10 + tau*(-15+6*tau))
}

// move is one stick direction on its way: from, to in shares of travel (−1 to 1), in seconds.
type move struct{ from, to, begin, takes float64 }

func (m *move) at(t float64) float64 {
	return m.from + (m.to-m.from)*minimumJerk((t-m.begin)/m.takes)
}

// tremor shakes one stick direction: 8 to 12 Hz (physiological tremor, from memory), its height in shares of travel.
type tremor struct{ height, hertz, phase float64 }

func newTremor(r *rand.Rand) tremor {
	return tremor{0.003 + 0.009*r.Float64(), 8 + 4*r.Float64(), 2 * math.Pi * r.Float64()} // up to 6 µs
}

func (s *tremor) at(t float64) float64 { return s.height * math.Sin(2*math.Pi*s.hertz*t+s.phase) }

// sent is a share of travel as a radio sends it: no further than its travel, to a whole µs.
func sent(share float64) pulse.Width {
	return pulse.Micros(int(math.Round(1500 + 512*min(max(share, -1), 1))))
}

// bounds are the exact 95 % bounds of a share of k in n (Clopper & Pearson 1934; quantiles of the beta distribution by gonum).
func bounds(k, n int) (lo, hi float64) {
	lo, hi = 0, 1
	if k > 0 {
		lo = distuv.Beta{Alpha: float64(k), Beta: float64(n - k + 1)}.Quantile(0.025)
	}
	if k < n {
		hi = distuv.Beta{Alpha: float64(k + 1), Beta: float64(n - k)}.Quantile(0.975)
	}
	return lo, hi
}

// The bounds against values from a table (Wilks' rule 0.025^(1/n) for all of n; binomial tail sums for the others).
func TestBounds(t *testing.T) {
	lo, hi := bounds(3000, 3000)
	assert.InDelta(t, math.Pow(0.025, 1.0/3000), lo, 1e-9)
	assert.EqualValues(t, 1, hi)
	for _, k := range []int{1, 7, 12, 19} {
		lo, hi := bounds(k, 20)
		below, above := 0.0, 0.0
		for i := range 21 {
			c := math.Exp(lgamma(21) - lgamma(float64(i)+1) - lgamma(float64(21-i)))
			if i <= k {
				above += c * math.Pow(hi, float64(i)) * math.Pow(1-hi, float64(20-i))
			}
			if i >= k {
				below += c * math.Pow(lo, float64(i)) * math.Pow(1-lo, float64(20-i))
			}
		}
		assert.InDelta(t, 0.025, above, 1e-9)
		assert.InDelta(t, 0.025, below, 1e-9)
	}
}

func lgamma(x float64) float64 { v, _ := math.Lgamma(x); return v }

// person makes a gesture on purpose: each direction by a minimum-jerk path of its own, the two sticks not at the same time, not
// quite to the end, trembling; it stands a little longer than is asked, and goes back.
type person struct {
	r      *rand.Rand
	h      *hand
	now    [gestures.Directions]float64
	shakes [gestures.Directions]tremor
	t      float64
	takes  float64 // seconds from one end to the other
	// full: the sticks go to their very ends. each, where given, is called after every slot.
	full bool
	each func()
}

// goes takes the sticks to the places, and holds them for so many seconds from when the last has arrived.
func (p *person) goes(to [gestures.Directions]float64, hold float64) {
	var moves [gestures.Directions]move
	jobs := gestures.OnSticks(p.h.in.StickMode)
	end := p.t
	for stick := range 2 {
		late := 0.15 * p.r.Float64() // two thumbs do not start at once
		for _, job := range jobs[2*stick : 2*stick+2] {
			takes := max(p.takes*(0.85+0.3*p.r.Float64()), 0.05)
			moves[job] = move{p.now[job], to[job], p.t + late, takes}
			if to[job] != p.now[job] {
				end = max(end, moves[job].begin+takes)
			}
		}
	}
	const slot = float64(slotTicks) / 1000
	for ; p.t < end+hold; p.t += slot {
		for d := range moves {
			p.h.in.Sticks[d] = sent(moves[d].at(p.t) + p.shakes[d].at(p.t))
		}
		p.h.in.Valid = p.r.Float64() > 0.005 // now and then a frame is lost
		p.h.slot()
		if p.each != nil {
			p.each()
		}
	}
	p.now = to
}

// aims is where a person takes the sticks for a part: 88 to 103 % of the travel (the end stops them), or the middle within 10 %.
func (p *person) aims(pattern *gestures.Pattern, part int) (to [gestures.Directions]float64) {
	to = atRest()
	for d, z := range pattern.JobZones(part, p.h.in.StickMode) {
		switch z {
		case gestures.Low:
			to[d] = -0.88 - 0.15*p.r.Float64()
		case gestures.High:
			to[d] = 0.88 + 0.15*p.r.Float64()
		case gestures.Middle:
			to[d] = min(max(0.04*p.r.NormFloat64(), -0.1), 0.1)
		}
		if p.full {
			to[d] = math.Round(to[d])
		}
	}
	return to
}

// makes takes the sticks through a gesture and back to rest, and holds every part a little longer than is asked.
func (p *person) makes(n int) {
	g := &p.h.cfg.Patterns[n]
	for i := range int(g.Count) {
		dwell := float64(g.Parts[i].Dwell) * slotTicks / 1000
		p.goes(p.aims(g, i), dwell*(1.05+0.4*p.r.Float64())+0.02)
	}
	p.goes(atRest(), 0.8)
}

// meets is a person before sticks at rest.
func meets(cfg *gestures.Config, mode uint8, takes float64, r *rand.Rand) *person {
	p := &person{r: r, h: newHand(cfg, mode), now: atRest(), takes: takes, t: r.Float64() * slotTicks / 1000}
	for d := range p.shakes {
		p.shakes[d] = newTremor(r)
	}
	return p
}

func atRest() [gestures.Directions]float64 {
	return [gestures.Directions]float64{gestures.Throttle: -1}
}

// try lets a person make a gesture once, and says whether it was made once and nothing else was. slow: the hand took longer between two
// parts than their limit allows, judged by where the sticks stood and not by what the patterns made of it.
func try(cfg *gestures.Config, n int, mode uint8, takes float64, r *rand.Rand) (made, slow bool, near int) {
	p := meets(cfg, mode, takes, r)
	trail := story{cfg: cfg, mode: mode}
	p.each = func() { trail.all = append(trail.all, slot{sticks: p.h.in.Sticks}) }
	p.goes(atRest(), 0.2)
	p.makes(n)
	return len(p.h.made) == 1 && p.h.made[0] == n, trail.slow(n), len(p.h.near)
}

// slow reports whether a hand that makes gesture n once took longer between two parts than their limit: from the first slot out of the
// one before to the first in the next.
func (y *story) slow(n int) bool {
	at := 0
	for part := range int(y.cfg.Patterns[n].Count) {
		left := at
		for at < len(y.all) && !y.in(at, n, part, false) {
			at++
		}
		if part > 0 && at-left > int(y.cfg.Patterns[n].Parts[part].Within) {
			return true
		}
		for at < len(y.all) && y.in(at, n, part, true) {
			at++
		}
	}
	return false
}

// speeds are how long a way takes, in seconds: hasty to slow.
var speeds = []float64{0.12, 0.25, 0.5, 1.0}

// Every gesture that a person means is made: 4000 tries for each and each stick mode, over all speeds. Only a slow hand may take longer
// between two parts than their limit, one in a thousand at most. The table is that of the README (go test -v -run Meant ./gestures).
func TestGesturesThatAreMeant(t *testing.T) {
	tries := 1000 // for each speed
	if testing.Short() {
		tries = 100
	}
	inBoth(t, func(t *testing.T, cfg *gestures.Config) { areMeant(t, cfg, tries) })
}

func areMeant(t *testing.T, cfg *gestures.Config, tries int) {
	for n := range cfg.Patterns {
		for mode := uint8(1); mode <= 4; mode++ {
			made, all, late, near := 0, 0, 0, 0
			for s, takes := range speeds {
				r := rand.New(rand.NewPCG(uint64(n)<<8|uint64(mode), uint64(s)))
				for range tries {
					ok, slow, told := try(cfg, n, mode, takes, r)
					all++
					near += told
					switch {
					case ok:
						made++
					case slow:
						late++
					}
				}
			}
			lo, hi := bounds(made, all)
			t.Logf("| %s | %d | %d of %d | %.2f %% | %.2f to %.2f %% | %d too slow | %d |", cfg.Patterns[n].Code, mode, made, all, 100*float64(made)/float64(all), 100*lo, 100*hi, late, near)
			assert.Equal(t, all, made+late, "%s in mode %d", cfg.Patterns[n].Code, mode)
			assert.GreaterOrEqual(t, float64(made)/float64(all), 0.999, "%s in mode %d", cfg.Patterns[n].Code, mode)
		}
	}
}

// A person who lets go at once, or stops short, never makes it: otherwise a recogniser that takes anything would pass the test above.
func TestGesturesThatAreNotMeant(t *testing.T) { inBoth(t, areNotMeant) }

func areNotMeant(t *testing.T, cfg *gestures.Config) {
	for n := range cfg.Patterns {
		for mode := uint8(1); mode <= 4; mode++ {
			r := rand.New(rand.NewPCG(uint64(n), uint64(mode)))
			for i := range 100 {
				p := meets(cfg, mode, speeds[0], r)
				g := &cfg.Patterns[n]
				last := int(g.Count) - 1
				for k := range last {
					p.goes(p.aims(g, k), 0.4)
				}
				to := p.aims(g, last)
				if i%2 == 0 && g.Parts[last].Dwell >= 25 {
					p.goes(to, 0) // and away again: up to 0.4 s, because two thumbs do not start at once
				} else {
					for d := range to {
						if math.Abs(to[d]) > 0.5 && !(d == int(gestures.Throttle) && to[d] < 0) {
							to[d] *= 0.6
						}
					}
					p.goes(to, 2)
				}
				p.goes(atRest(), 0.3)
				assert.Empty(t, p.h.made, fmt.Sprintf("%s in mode %d, try %d", g.Code, mode, i))
			}
		}
	}
}

// A hand that takes far too long between the parts does not make a chain: 4 s from end to end, where the limit is half a second.
func TestAHandTooSlowBetweenTheParts(t *testing.T) {
	cfg := shipped(t)
	for n := range cfg.Patterns {
		for mode := uint8(1); mode <= 4; mode++ {
			for i := range 50 {
				p := meets(cfg, mode, 4, rand.New(rand.NewPCG(uint64(n)<<8|uint64(mode), uint64(i))))
				p.makes(n)
				assert.Empty(t, p.h.made, "%s in mode %d, try %d", cfg.Patterns[n].Code, mode, i)
			}
		}
	}
}
