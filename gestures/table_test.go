package gestures_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// stages stands in every part but the last for its dwell, then goes to the last by the way given.
func stages(h *hand, p *gestures.Pattern, mode uint8, last func(sticks)) {
	for i := range int(p.Count) {
		s := target(p, i, mode)
		if i+1 == int(p.Count) {
			last(s)
			return
		}
		h.at(s, int(p.Parts[i].Dwell)+1)
	}
}

// Every gesture, in every stick mode, in every way a hand may make it or miss it.
func TestEveryGesture(t *testing.T) { inBoth(t, everyGesture) }

func everyGesture(t *testing.T, cfg *gestures.Config) {
	for n := range cfg.Patterns {
		p := &cfg.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			t.Run(fmt.Sprintf("%s in mode %d", p.Code, mode), func(t *testing.T) {
				dwell := int(p.Parts[p.Count-1].Dwell)
				zones := p.JobZones(int(p.Count)-1, mode)
				hand := func() *hand { return newHand(cfg, mode) }

				h := hand()
				stages(h, p, mode, func(s sticks) { h.at(s, dwell) })
				h.at(rest(), 40)
				assert.Empty(t, h.made, "a slot less than the dwell")
				require.Len(t, h.near, 1)
				assert.EqualValues(t, n, h.near[0].A)
				assert.Equal(t, happening.NearEarly, happening.Near(h.near[0].B&0xff))

				h = hand()
				stages(h, p, mode, func(s sticks) { h.at(s, dwell+1) })
				h.at(rest(), 40)
				assert.Equal(t, []int{n}, h.made, "the dwell")
				assert.Empty(t, h.near)

				h = hand()
				stages(h, p, mode, func(s sticks) { h.at(s, 5*dwell) })
				assert.Equal(t, []int{n}, h.made, "one stand makes one gesture")

				for d, z := range zones {
					outside := oneOutside(cfg, z)
					for _, w := range outside {
						h = hand()
						stages(h, p, mode, func(s sticks) { s[d] = w; h.at(s, 3*dwell) })
						assert.NotContains(t, h.made, n, "direction %d just outside at %d", d, w)
						h = hand() // one eighth further in, and it is made
						stages(h, p, mode, func(s sticks) { s[d] = towards(w, z); h.at(s, dwell+1) })
						assert.Equal(t, []int{n}, h.made, "direction %d just inside at %d", d, towards(w, z))
					}
				}
			})
		}
	}
}

// oneOutside are the widths one eighth outside the edges by which a zone is entered.
func oneOutside(cfg *gestures.Config, z gestures.Zone) []pulse.Width {
	switch z {
	case low:
		return []pulse.Width{cfg.LowIn + 1}
	case high:
		return []pulse.Width{cfg.HighIn - 1}
	case mid:
		return []pulse.Width{pulse.Centre + cfg.MiddleIn + 1, pulse.Centre - cfg.MiddleIn - 1}
	}
	return nil
}

// towards is one eighth further into a zone.
func towards(w pulse.Width, z gestures.Zone) pulse.Width {
	switch {
	case z == low, z == mid && w > pulse.Centre:
		return w - 1
	}
	return w + 1
}

// edgeOut is where a zone is still held, and one eighth further.
func edgeOut(cfg *gestures.Config, z gestures.Zone) (still, gone pulse.Width) {
	switch z {
	case low:
		return cfg.LowOut, cfg.LowOut + 1
	case high:
		return cfg.HighOut, cfg.HighOut - 1
	}
	return pulse.Centre + cfg.MiddleOut - 1, pulse.Centre + cfg.MiddleOut
}

// While it stands, each direction may come back as far as the edge by which it is left, and not one eighth further.
func TestEdgesByWhichAGestureIsLeft(t *testing.T) { inBoth(t, edgesByWhichAGestureIsLeft) }

func edgesByWhichAGestureIsLeft(t *testing.T, cfg *gestures.Config) {
	for n := range cfg.Patterns {
		p := &cfg.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			dwell := int(p.Parts[p.Count-1].Dwell)
			for d, z := range p.JobZones(int(p.Count)-1, mode) {
				if z == free {
					continue
				}
				still, gone := edgeOut(cfg, z)
				h := newHand(cfg, mode)
				stages(h, p, mode, func(s sticks) { h.at(s, 2); s[d] = still; h.at(s, dwell-1) })
				assert.Equal(t, []int{n}, h.made, "%s, direction %d", p.Code, d)
				h = newHand(cfg, mode)
				stages(h, p, mode, func(s sticks) { h.at(s, dwell); s[d] = gone; h.at(s, 3*dwell) })
				assert.NotContains(t, h.made, n, "%s, direction %d", p.Code, d)
			}
		}
	}
}

// A stick that drifts slowly, from rest into the gesture and on to its end, makes it once; drifting back it makes nothing more.
func TestSlowDrift(t *testing.T) { inBoth(t, slowDrift) }

func slowDrift(t *testing.T, cfg *gestures.Config) {
	for n := range cfg.Patterns {
		p := &cfg.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			h := newHand(cfg, mode)
			stages(h, p, mode, func(s sticks) {
				if p.Count > 1 { // a chain has no time for a slow way
					h.to(s, 30).at(s, 60)
					return
				}
				h.to(s, 500).at(s, 60)
			})
			assert.Equal(t, []int{n}, h.made, "%s in mode %d", p.Code, mode)
			assert.LessOrEqual(t, len(h.near), 1, "on the way a stick may stand short of its place for long")
			h.clear().to(rest(), 500).at(rest(), 100)
			assert.Empty(t, h.made, "%s in mode %d", p.Code, mode)
		}
	}
}

// Noise of 5 µs at any edge, coming or going, never makes a gesture twice, and tells a near miss once at most.
func TestNoChatterAtTheEdges(t *testing.T) { inBoth(t, noChatterAtTheEdges) }

func noChatterAtTheEdges(t *testing.T, cfg *gestures.Config) {
	noise := []pulse.Width{-40, 40, 0, -24, 40, -40, 16, -8, 32, -40}
	for n := range cfg.Patterns {
		p := &cfg.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			dwell := int(p.Parts[p.Count-1].Dwell)
			for d, z := range p.JobZones(int(p.Count)-1, mode) {
				if z == free {
					continue
				}
				still, _ := edgeOut(cfg, z)
				for _, edge := range append(oneOutside(cfg, z), still) {
					h := newHand(cfg, mode)
					stages(h, p, mode, func(s sticks) {
						for i := range 40 * dwell { // the last stand trembles on the edge from the beginning
							s[d] = edge + noise[i%len(noise)]
							h.at(s, 1)
						}
					})
					assert.LessOrEqual(t, len(h.made), 1, "%s, direction %d at %d", p.Code, d, edge)
					assert.LessOrEqual(t, len(h.near), 1, "%s, direction %d at %d", p.Code, d, edge)
					if edge != still {
						assert.Equal(t, []int{n}, h.made, "%s, direction %d at %d: it was in at some time, and never out again", p.Code, d, edge)
					}
					h = newHand(cfg, mode)
					stages(h, p, mode, func(s sticks) { // and here once it was made
						h.at(s, dwell+1)
						for i := range 40 * dwell {
							s[d] = edge + noise[i%len(noise)]
							h.at(s, 1)
						}
					})
					assert.Equal(t, []int{n}, h.made, "%s, direction %d at %d after it was made", p.Code, d, edge)
				}
			}
		}
	}
}

// By whatever way the sticks come, one direction after the other, all at once, or by way of any corner, the gesture is made once,
// and no other.
func TestEveryWayIn(t *testing.T) { inBoth(t, everyWayIn) }

func everyWayIn(t *testing.T, cfg *gestures.Config) {
	ends := []pulse.Width{pulse.Low, pulse.Centre, pulse.High}
	for n := range cfg.Patterns {
		p := &cfg.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			dwell := int(p.Parts[p.Count-1].Dwell)
			for _, order := range orders() {
				h := newHand(cfg, mode)
				stages(h, p, mode, func(s sticks) {
					for _, d := range order {
						one := h.in.Sticks
						one[d] = s[d]
						h.to(one, 5)
					}
					h.at(s, dwell)
				})
				assert.Equal(t, []int{n}, h.made, "%s in mode %d, order %v", p.Code, mode, order)
			}
			for corner := range 81 {
				via := sticks{ends[corner%3], ends[corner/3%3], ends[corner/9%3], ends[corner/27]}
				h := newHand(cfg, mode)
				stages(h, p, mode, func(s sticks) { h.to(via, 6).to(s, 6).at(s, dwell) })
				assert.Equal(t, []int{n}, h.made, "%s in mode %d by %v", p.Code, mode, via)
			}
		}
	}
}

// orders are the 24 orders of four directions.
func orders() (out [][gestures.Directions]int) {
	for i := range 256 {
		o := [gestures.Directions]int{i & 3, i >> 2 & 3, i >> 4 & 3, i >> 6}
		if 1<<o[0]|1<<o[1]|1<<o[2]|1<<o[3] == 15 {
			out = append(out, o)
		}
	}
	return out
}
