package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
)

// A craft that still climbs neither falls nor sinks yet.
func TestWhatStillClimbs(t *testing.T) {
	for _, c := range []struct {
		want string
		f    Flight
	}{
		{"Its motors are off; it still climbs at 9.1 m/s, then falls.", Flight{Powered: true, Climb: 9.1}},
		{"It falls: its motors are off.", Flight{Powered: true, Climb: -0.3}},
		{"It has no power; it still climbs at 2.6 m/s, then falls.", Flight{Climb: 2.6}},
		{"It falls: it has no power.", Flight{}},
		{"The link is lost: it levels itself, still climbing at 23.7 m/s. It cuts 36.7 m higher, rises on, then falls.",
			Flight{Powered: true, Armed: true, Sinking: true, Climb: 23.7, Sink: &facts.Sink{Climbs: 36.7, Falls: -36.7, Speed: -5}}},
		{"The link is lost: it levels itself, and climbs 3.2 m more. It cuts 1.0 m lower, and falls from there.",
			Flight{Powered: true, Armed: true, Sinking: true, Climb: 4, Sink: &facts.Sink{Climbs: 3.2, Falls: 1, Speed: 3}}},
		{"The link is lost: it levels itself, and climbs 3.2 m more. It is on the ground before it cuts, at 4.0 m/s.",
			Flight{Powered: true, Armed: true, Sinking: true, Climb: 4, Sink: &facts.Sink{Climbs: 3.2, Falls: 1, Speed: 4, Lands: true}}},
		{"The link is lost: it levels itself, still climbing at 4.0 m/s.", Flight{Powered: true, Armed: true, Sinking: true, Climb: 4}},
		{"The link is lost: it sinks, level, going down at 3.0 m/s. It cuts 6.0 m lower, and falls from there.",
			Flight{Powered: true, Armed: true, Sinking: true, Climb: -3, Sink: &facts.Sink{Falls: 6, Speed: 4}}},
		{"The link is lost: it sinks, banked 40° to the left, going down at 3.0 m/s. It falls into its own wash: what that does to a real craft is not worked out here.",
			Flight{Powered: true, Armed: true, Sinking: true, Climb: -3, Bank: -40, Tilt: 40, InWash: true}},
		{"It flies level, going down at 6.0 m/s. It falls into its own wash: what that does to a real craft is not worked out here.",
			Flight{Powered: true, Armed: true, Climb: -6, InWash: true}},
		{"Its pack is empty, and its motors get weaker. It flies level, going down at 6.0 m/s.", Flight{Powered: true, Armed: true, Climb: -6, InWash: true, Dying: true}},
		{"It falls: its motors are off.", Flight{Powered: true, Climb: -6, InWash: true}},
		{"The link is lost: on the stand it levels itself; its motors stop soon.", Flight{Powered: true, Armed: true, Sinking: true, Hung: true}},
		{"The link is lost; its motors stop soon.", Flight{Powered: true, Armed: true, Sinking: true, Hung: true, Bare: true}},
		{"It stands on the ground. Once armed, it rises to 2.5 m by itself.", Flight{Powered: true, Ground: true, Held: true, HeldAt: 2.5}},
	} {
		assert.Equal(t, c.want, words.English().Say(FlightStands(c.f)))
		for _, b := range wordstest.Books() {
			assert.NotContains(t, b.Say(FlightStands(c.f)), "⟦")
		}
	}
}

// The title of a craft whose height is held says so only while that is so.
func TestTheTitleSaysWhatIsHeld(t *testing.T) {
	var s sim.Snapshot
	s.In.Air, s.In.Held = true, true
	assert.Contains(t, spoken(AirTitle("", &s)), "its height held")
	assert.Contains(t, spoken(ThreeWhat(&s)), "Their height is held for you")
	let := s
	let.Sinking = true
	lies := s
	lies.Air.Wreck = happening.TooFast
	for _, s := range []sim.Snapshot{let, lies} {
		assert.Contains(t, spoken(AirTitle("", &s)), "on the air bench")
		assert.NotContains(t, spoken(ThreeWhat(&s)), "height")
	}
}

// What would have kept a craft whole is said only where it would: with still motors a propeller does not break, but whatever touches the ground faster
// than 5 m/s does, on its feet or not.
func TestWhatWouldHaveKeptItWhole(t *testing.T) {
	cfg := sim.Default()
	for _, c := range []struct {
		by    happening.Breakage
		speed int32
		want  string
	}{
		{happening.ByBlade, 600, "It broke: a propeller met the ground at 0.60 m/s while it still turned. Disarmed in time, it would have kept its propellers."},
		{happening.ByBlade, 9000, "It broke: a propeller met the ground at 9.00 m/s while it still turned. So fast, it would have broken with still motors too."},
		{happening.OnTop, 2000, "It broke: it came down on its top at 2.00 m/s. Level, it would have come down on its feet."},
		{happening.OnTop | happening.TooFast, 8000, "It broke: it came down on its top at 8.00 m/s. Level, and slower than 5 m/s, it would have held."},
		{happening.TooFast, 8000, "It broke: it hit the ground at 8.00 m/s. Slower than 5 m/s it would have held."},
		{happening.TooFast | happening.MotorsOff, 8000, "It broke: it hit the ground at 8.00 m/s. Its motors were off: from lower down, or slower, it would have held."},
	} {
		assert.Equal(t, c.want, spoken(Happening(happening.Happening{Code: happening.Broke, A: int32(c.by), B: c.speed}, &cfg)))
	}
}
