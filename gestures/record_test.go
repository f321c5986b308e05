package gestures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures"
	"propsoff.example/sim/pulse"
)

// trail writes down where sticks go in straight lines.
type trail struct{ all []sticks }

func (w *trail) at(s sticks, slots int) *trail {
	for range slots {
		w.all = append(w.all, s)
	}
	return w
}

func (w *trail) to(s sticks, slots int) *trail {
	from := w.all[len(w.all)-1]
	for n := 1; n <= slots; n++ {
		x := from
		for d := range s {
			x[d] += pulse.Width(int(s[d]-from[d]) * n / slots)
		}
		w.all = append(w.all, x)
	}
	return w
}

func begin() *trail { return (&trail{}).at(rest(), 20) }

// What is recorded from a hand that makes a shipped gesture is that gesture again, and the same hand makes it.
func TestRecordWhatAHandMakes(t *testing.T) {
	cfg := shipped(t)
	for n := range cfg.Patterns {
		p := &cfg.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			for _, physical := range []bool{false, true} {
				w := begin()
				for i := range int(p.Count) {
					s := target(p, i, mode)
					for d := range s { // a hand is not exact
						s[d] += (pulse.Centre - s[d]) / 20
					}
					w.to(s, 15).at(s, int(p.Parts[i].Dwell)+9)
				}
				w.to(rest(), 15).at(rest(), 20)
				got, verdict := gestures.Record(cfg, w.all, physical, mode)
				require.Equal(t, gestures.Recorded, verdict.Recording, "%s in mode %d", p.Code, mode)
				require.Equal(t, p.Count, got.Count, "%s in mode %d", p.Code, mode)
				assert.Equal(t, physical, got.Physical)
				for i := range int(p.Count) {
					have, want := got.JobZones(i, mode), p.JobZones(i, mode)
					for d := range have {
						if want[d] != free {
							assert.Equal(t, want[d], have[d], "%s in mode %d, part %d, direction %d", p.Code, mode, i, d)
						}
						assert.NotEqual(t, free, have[d], "what was recorded asks for every direction")
					}
				}
				again := set(got)
				h := newHand(again, mode)
				for _, s := range w.all {
					h.at(s, 1)
				}
				assert.Equal(t, []int{0}, h.made, "%s in mode %d", p.Code, mode)
			}
		}
	}
}

func TestRecordWhatCannotBe(t *testing.T) {
	cfg := set()
	between := inOwn()
	between[gestures.Pitch] = pulse.Percent(500)
	still := inOwn()
	still[gestures.Pitch] = rest()[gestures.Pitch]
	for name, row := range map[string]struct {
		w    *trail
		want gestures.Verdict
		// again is the same held longer, moved fully, moved not at all, or with fewer steps.
		again []*trail
	}{
		"nothing moved":    {begin(), gestures.Verdict{Recording: gestures.NothingHeld}, nil},
		"nothing at all":   {&trail{}, gestures.Verdict{Recording: gestures.NothingHeld}, nil},
		"held too shortly": {begin().to(inOwn(), 5).at(inOwn(), 10).to(rest(), 5), gestures.Verdict{Recording: gestures.NothingHeld}, []*trail{begin().to(inOwn(), 5).at(inOwn(), 40).to(rest(), 5)}},
		"between two zones": {begin().to(between, 10).at(between, 40).to(rest(), 10), gestures.Verdict{Recording: gestures.StoodBetween, Direction: gestures.Pitch},
			[]*trail{begin().to(inOwn(), 10).at(inOwn(), 40).to(rest(), 10), begin().to(still, 10).at(still, 40).to(rest(), 10)}},
		"more parts than four": {begin().at(inOwn(), 30).at(inCorner(), 30).at(inOwn(), 30).at(inCorner(), 30).at(inOwn(), 30), gestures.Verdict{Recording: gestures.TooManyParts},
			[]*trail{begin().at(inOwn(), 30).at(inCorner(), 30).at(inOwn(), 30).at(inCorner(), 30)}},
	} {
		_, v := gestures.Record(cfg, row.w.all, false, 2)
		assert.Equal(t, row.want, v, name)
		for _, w := range row.again {
			_, v := gestures.Record(cfg, w.all, false, 2)
			assert.Equal(t, gestures.Verdict{}, v, name)
		}
	}
	many := begin()
	for range 20 {
		many.at(inOwn(), 30).at(rest(), 3)
	}
	_, v := gestures.Record(cfg, many.all, false, 2)
	assert.Equal(t, gestures.TooManyParts, v.Recording)
}

func TestRecordTimes(t *testing.T) {
	cfg := set()
	// A stop on the way is not a part; the times are rounded.
	p, v := gestures.Record(cfg, begin().to(inCorner(), 5).at(inCorner(), 18).to(inOwn(), 3).at(inOwn(), 49).at(rest(), 10).all, false, 2)
	require.Equal(t, gestures.Recorded, v.Recording)
	require.EqualValues(t, 1, p.Count)
	assert.Equal(t, [4]gestures.Zone{low, mid, high, low}, p.Parts[0].Zones)
	assert.EqualValues(t, 45, p.Parts[0].Dwell, "from its first slot to its last 49 slots, 980 ms, downwards to 900")

	left, right := rest(), rest()
	left[gestures.Roll], right[gestures.Roll] = pulse.Low, pulse.High
	p, v = gestures.Record(cfg, begin().at(left, 21).at(rest(), 30).at(right, 21).all, false, 2)
	require.Equal(t, gestures.Recorded, v.Recording)
	require.EqualValues(t, 2, p.Count)
	assert.EqualValues(t, 20, p.Parts[1].Dwell)
	assert.EqualValues(t, 75, p.Parts[1].Within, "31 slots, doubled 1240 ms, upwards to 1500")
	assert.Zero(t, p.Parts[0].Within)

	p, _ = gestures.Record(cfg, begin().at(left, 41).at(inOwn(), 16).at(right, 41).all, false, 2)
	require.EqualValues(t, 2, p.Count, "the one between is on the way")
	assert.EqualValues(t, 50, p.Parts[1].Within, "17 slots, doubled 680 ms, upwards to 1000")
	p, _ = gestures.Record(cfg, begin().at(left, 81).at(inOwn(), 31).at(right, 81).all, false, 2)
	require.EqualValues(t, 2, p.Count)
	assert.EqualValues(t, 75, p.Parts[1].Within, "32 slots, doubled 1280 ms, upwards to 1500")

	p, _ = gestures.Record(cfg, begin().at(left, 900).all, false, 2)
	assert.EqualValues(t, 150, p.Parts[0].Dwell, "3 s at the most")

	// 300 ms in slots of 22 ms: never more than the hand stood.
	cfg.SlotTicks = 22
	p, v = gestures.Record(cfg, begin().at(left, 15).all, false, 2)
	require.Equal(t, gestures.Recorded, v.Recording)
	assert.EqualValues(t, 14, p.Parts[0].Dwell)
}
