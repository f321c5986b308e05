package tell

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
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
	} {
		assert.Equal(t, c.want, words.English().Say(FlightStands(c.f)))
	}
}
