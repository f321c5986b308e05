package house_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ui/house"
)

// One hand reaches everything: each action has one key, and none takes two at once. What a craft without an arm switch asks for with both sticks is done by one
// key after the other, since the throttle stays where it is put.
func TestNothingTakesTwoKeysAtOnce(t *testing.T) {
	sheets := house.Sheets()
	for _, place := range house.Places() {
		about := sheets.Of(place)
		for _, a := range about.Own {
			assert.NotContains(t, a.Physical, "+", "%s: %s", place, a.Action)
			assert.Equal(t, 1, len(strings.Fields(a.Physical)), "%s: %s", place, a.Action)
			assert.Positive(t, utf8.RuneCountInString(a.Physical), "%s: %s has a key", place, a.Action)
		}
	}
	p := sitDownAt(t, "teasel-by-sticks", nil)
	p.tap("Enter")
	p.tap("S")
	p.tap("X")
	p.wait(3000)
	require.False(t, p.snap().Armed)
	p.hold("D", 1200)
	assert.True(t, p.snap().Armed, "yaw held to the right, the throttle put down before")
	p.wait(500)
	p.hold("A", 900)
	assert.False(t, p.snap().Armed)
}
