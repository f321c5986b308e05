package tell

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Air mode is named in the modes in which it wakes, and where none of the craft's does, not at all.
func TestWhereAirModeWakes(t *testing.T) {
	cfg := sim.Default()
	motors := func() string { return spoken(CardMotors(&cfg)) }
	cfg.Flight.AtLowThrottle = flight.StandStill
	still := "Once armed, the motors stand still until the throttle rises."
	assert.Equal(t, still+" Air mode wakes past 18 % throttle in horizon or rate; then they turn until it is disarmed.", motors())
	cfg.Layout.Spans[0], cfg.Layout.SpanCount = layout.ModeSpan{Mode: layout.Angle, Span: layout.Span{Low: pulse.Lowest, High: pulse.Micros(1400)}}, 1
	assert.Contains(t, motors(), "throttle in rate;", "outside every span")
	cfg.Layout.Mode, cfg.Layout.FixedMode = layout.NoChannel, layout.Angle
	assert.Equal(t, still, motors())
	cfg.Flight.AtLowThrottle = flight.Idle
	assert.NotContains(t, motors(), "Air mode")
	cfg.Layout.FixedMode = layout.Rate
	assert.True(t, strings.HasSuffix(motors(), "Air mode wakes past 18 % throttle in rate."))
}

// A day is written as the language does, and of what is left out it is counted how much.
func TestDaysAndCountsOnTheCard(t *testing.T) {
	day := time.Date(2031, time.March, 5, 0, 0, 0, 0, time.UTC)
	german := words.In("de")
	assert.Equal(t, "5 March 2031", spoken(Day(day)))
	assert.Equal(t, "5. März 2031", german.Say(Day(day)))
	assert.Equal(t, "… 1 more position", spoken(words.T("card.more-positions", words.Args{"n": words.Count(1)})))
	assert.Equal(t, "… 3 weitere Stellungen", german.Say(words.T("card.more-positions", words.Args{"n": words.Count(3)})))
	assert.Equal(t, "… and 2 more", spoken(words.T("card.more-broken", words.Args{"n": words.Count(2)})))
	assert.True(t, strings.HasPrefix(spoken(words.T("card.warnings", words.Args{"n": words.Count(1), "short": words.AsIs("mode: near an edge")})), "One thing about this layout is called out (mode: near an edge): see"))
	assert.True(t, strings.HasPrefix(spoken(words.T("card.warnings", words.Args{"n": words.Count(2), "short": words.AsIs("mode: near an edge")})), "2 things about this layout are called out (mode: near an edge): see"))
}

func TestWhatCarriesASwitchOfTheCard(t *testing.T) {
	c := &handset.Control{Job: "arm", Channel: 4, Source: "axis 5", Momentary: true}
	assert.Equal(t, "channel 5, axis 5, springs back", spoken(CardSource(c)))
	assert.Equal(t, "Kanal 5, Achse 5, federt zurück", words.In("de").Say(CardSource(c)))
	assert.Equal(t, "knob or slider", spoken(CardSource(&handset.Control{Job: "channel 7", Channel: 6, Kind: handset.Knob})))
}
