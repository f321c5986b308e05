package tell

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/lossmap"
)

// The cards' line is what a whole bench comes to that hovers there when its radio falls silent.
func TestTheCardsLineIsKept(t *testing.T) {
	number := regexp.MustCompile(`[\d.]+`)
	for _, link := range []string{"when-lost: cut", "when-lost: sink, sink-time: 1 s", "when-lost: sink, sink-time: 20 s"} {
		cfg := lossCraft(t, "switch", "when-silent: falls-silent", link).Config()
		said := spoken(CardLostFrom(&cfg))
		require.Regexp(t, `^Lost link at 10 m, hovering: on the ground after [\d.]+ s, at [\d.]+ m/s\.$`, said)
		all := number.FindAllString(said, -1)
		p := hover.At(cfg, 10, false)
		s := p.Bench().State()
		for i := range s.Air.Body.Speed { // all alike
			s.Air.Body.Speed[i] = s.Air.Body.Speed[3]
		}
		p.Bench().Restore(s)
		speed, ms := 0.0, int64(cfg.SlotTicks) // the slot before was the last with a frame
		for ; p.Bench().State().Air.Flying; ms++ {
			speed = p.Bench().State().Air.Body.Vel.Norm()
			p.Step(nil)
		}
		for i, want := range map[int]float64{1: float64(ms) / 1000, 2: speed} {
			got, err := strconv.ParseFloat(strings.TrimSuffix(all[i], "."), 64)
			require.NoError(t, err)
			assert.InDelta(t, want, got, 0.11, "%s: %s", link, said)
		}
	}
	hold := lossCraft(t, "switch", "when-silent: repeats-last", "when-lost: cut").Config()
	assert.Regexp(t, `^Lost link at 10 m, hovering: on the ground after \d\d\.\d s, at 0\.\d m/s, its motors turning\.$`, spoken(CardLostFrom(&hold)))
	leans := lossCraft(t, "switch", "when-silent: sends-stored, stored: {throttle: 1300, roll: 1600, pitch: 1500, yaw: 1500, arm: 2000, mode: 1000}", "when-lost: cut").Config()
	assert.Empty(t, spoken(CardLostFrom(&leans)))
	up := lossCraft(t, "switch", "when-silent: sends-stored, stored: {throttle: 1500, roll: 1500, pitch: 1500, yaw: 1500, arm: 2000, mode: 1000}", "when-lost: cut").Config()
	assert.Regexp(t, `^Lost link at 10 m, hovering: it flies on for some \d+ min, until the pack is empty, then falls\.$`, spoken(CardLostFrom(&up)))
	assert.Contains(t, spoken(MapComes(lossmap.New(&up, lossmap.Usual(&up), nil), lossmap.Spot{}, &lossmap.Outcome{Down: 3, Turns: lossmap.Never, Empty: lossmap.Never})), "Its motors go on turning, armed, until its pack is empty.")
	up.Body.Pack.Dies = 0
	assert.Equal(t, "Lost link at 10 m, hovering: it flies on.", spoken(CardLostFrom(&up)), "a pack that never dies")
	assert.Contains(t, spoken(MapComes(lossmap.New(&up, lossmap.Usual(&up), nil), lossmap.Spot{}, &lossmap.Outcome{Down: 3, Turns: lossmap.Never, Empty: lossmap.Never})), "Its motors go on turning, armed.")
	up.Body.Pack.Nominal = 0
	assert.Equal(t, "Lost link at 10 m, hovering: it flies on.", spoken(CardLostFrom(&up)))
}

// Every sentence of the map is said, in each language in its own words.
func TestTheMapInWords(t *testing.T) {
	cfg := lossCraft(t, "switch", "when-silent: falls-silent", "when-lost: cut").Config()
	m := lossmap.New(&cfg, lossmap.Usual(&cfg), nil)
	spot := lossmap.Spot{Height: 4, Climb: 8, Throttle: lossmap.Hover, Wind: 1}
	gone, armed := lossmap.Outcome{Down: lossmap.Never, Turns: lossmap.Never, Empty: 640}, lossmap.Outcome{Down: 9.5, Speed: 1.2, Turns: lossmap.Never, Empty: lossmap.Never, Top: 10}
	down := lossmap.Outcome{Down: 2.34, Speed: 12.66, Sinks: 12, Away: 3.21, Turns: 0.24, Empty: lossmap.Never, Top: 12.1}
	broken, stood := down, down
	broken.Turns, stood.Turns = broken.Down, 0
	emptied := broken
	emptied.Empty = 1.1
	all := []words.Text{
		MapComes(m, spot, &down), MapComes(m, spot, &gone), MapComes(m, lossmap.Spot{Throttle: lossmap.Full}, &armed), MapComes(m, spot, &broken), MapComes(m, spot, &stood), MapComes(m, spot, &emptied),
		MapProgress(m), MapPlayed(m, spot), MapAnew(words.AsIs("7")), MapWind(0), MapWind(3), MapValue(lossmap.BySpeed, math.Inf(1)), MapValue(lossmap.ByTurns, 9.96), MapStep(-3), MapStep(4),
		words.T("loss-map.title", words.Args{"craft": words.Quote("7")}),
	}
	for _, id := range []words.ID{"on-sheet", "height", "climb", "worst-mark", "stands", "not-level", "no-map", "table-wind", "table-throttle", "worst-by"} {
		all = append(all, words.T("loss-map."+id))
	}
	m.Work(300)
	for q := range lossmap.Measure(lossmap.Measures) {
		all = append(all, MapWorst(m, q, true, nil), MapWorst(m, q, false, func(lossmap.Spot) bool { return true }))
		all = append(all, MapMeasure(q), MapMeasureShort(q), MapNever(q))
		for c := range MapClasses + 1 {
			all = append(all, MapLegend(q, c))
		}
	}
	for i := range lossmap.Throttles {
		all = append(all, MapThrottle(m, i))
	}
	for _, b := range wordstest.Books() {
		for _, text := range all {
			said := b.Say(text)
			assert.NotContains(t, said, "⟦")
			if b != words.English() {
				assert.Empty(t, wordstest.English(t, b, said), "%s", b.Tag())
			}
		}
	}
	everywhere := func(lossmap.Spot) bool { return true }
	assert.Contains(t, spoken(MapWorst(m, lossmap.BySpeed, false, everywhere)), "Worst here so far: ")
	assert.Contains(t, spoken(MapPlayed(m, spot)), "The worst of the map so far: ")
	for m.Work(1_000_000) {
	}
	assert.Contains(t, spoken(MapWorst(m, lossmap.BySpeed, false, everywhere)), "Worst here: ")
	assert.Contains(t, spoken(MapWorst(m, lossmap.BySpeed, true, nil)), "Worst of all: ")
	assert.Contains(t, spoken(MapPlayed(m, spot)), "The worst of the map: ")
	for _, b := range wordstest.Books() {
		assert.NotContains(t, b.Say(words.Row(MapWorst(m, lossmap.BySpeed, true, nil), MapPlayed(m, spot))), "⟦")
	}
	assert.Empty(t, spoken(MapAnew(words.Text{})))
	said := spoken(MapComes(m, spot, &down))
	assert.Equal(t, "10 m up, climbing 2 m/s, throttle as in a hover, wind 3 m/s: on the ground after 2.3 s, at 12.7 m/s, 3.2 m away, from 12.1 m at the highest. Its motors stop after 0.24 s.", said)
	emptied.Down, emptied.Turns, emptied.Empty = 424, 424, 245
	said = spoken(MapComes(m, spot, &emptied))
	assert.Contains(t, said, "It stays armed until it breaks there. Its pack is empty after some 4 min, and from then on its motors carry it no more.")
	assert.NotContains(t, said, "motors stop", "a pack that is empty turns none as they are told")
}

// The class of a value changes where its legend says.
func TestTheMapsClasses(t *testing.T) {
	for v, want := range map[float64]int{0: 0, 2.99: 0, 3: 1, 5: 1, 5.01: 2, math.Inf(1): 3} {
		assert.Equal(t, want, MapClass(lossmap.BySpeed, v), v)
	}
	assert.Equal(t, "under 3 m/s: set down", spoken(MapLegend(lossmap.BySpeed, 0)))
	assert.Equal(t, "faster: it breaks", spoken(MapLegend(lossmap.BySpeed, 2)))
	assert.Equal(t, "– never comes down", spoken(MapLegend(lossmap.ByAway, 3)))
}
