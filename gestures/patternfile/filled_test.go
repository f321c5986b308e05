package patternfile

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/pulse"
)

// allFields leaves out what can be left out, and uses every field once.
const allFields = `propsoff: gestures 1
edges: {ends: {in: 75.5 %, out: 55 %}}
gestures:
  one: {name: "one: first", stand: {throttle: low, yaw: left}, opens: second, with: [two]}
  two: {name: two, stand: {left: up left, right: middle}, for: 350ms}
  three:
    name: three
    parts:
      - stand: {roll: left}
      - {stand: {pitch: forward, yaw: any}, within: 20s, for: 10s}
menus:
  first:
    name: first
    items:
      - {page: a, items: [{page: b, items: [{value: x, from: -1.25, to: 2, by: 0.125, start: 0}]}, {choice: c, of: ["on", "no", left], start: "no"}]}
      - {value: y, from: 0, to: 100, by: 20, start: 40, unit: "%"}
  second:
    name: second
    camera: yes
    moved-by: two-sticks
    items: [{value: z, from: 0, to: 1, by: 1, start: 1}]
`

func TestGesturesAreFilledIn(t *testing.T) {
	_, shipped, ok := assets.Gestures("examples")
	require.True(t, ok)
	for name, text := range map[string]string{"shipped": string(shipped), "all": allFields, "none": "propsoff: gestures 1\n"} {
		for slot := uint16(4); slot <= 50; slot++ {
			f, err := Parse(name, []byte(text), slot)
			require.NoError(t, err)
			filled, err := Filled(&f.Gestures, &f.Menus)
			require.NoError(t, err, "%s, slots of %d ms", name, slot)
			again, err := Parse(name, filled, slot)
			require.NoError(t, err)
			require.Equal(t, f.Gestures, again.Gestures)
			require.Equal(t, f.Menus, again.Menus)
		}
	}
	f, err := Parse("all", []byte(allFields), 20)
	require.NoError(t, err)
	filled, err := Filled(&f.Gestures, &f.Menus)
	require.NoError(t, err)
	for _, said := range []string{"middle: {in: 25 %, out: 35 %}", "for: 600ms", "with: [two]", "camera: no", "moved-by: one-stick"} {
		assert.Contains(t, string(filled), said)
	}
}

// What no file can say is not written as something else.
func TestGesturesThatNoFileHas(t *testing.T) {
	g, m := gestures.Default(20), menu.Default(20)
	g.HighIn++
	_, err := Filled(&g, &m)
	assert.Error(t, err)
	g, m.Delay = gestures.Default(20), m.Delay+1
	_, err = Filled(&g, &m)
	assert.ErrorContains(t, err, "reads to others")
}

// What a text of model 1 leaves out is what model 1 had by default. The numbers stand here as they were then.
func TestModelOneKeepsItsDefaults(t *testing.T) {
	f, err := ParseOf(1, "old", []byte("propsoff: gestures 1\ngestures: {one: {name: one, stand: {throttle: low, yaw: left}}}\n"), 20)
	require.NoError(t, err)
	var want gestures.Config
	want.SetEdges(700, 600, 250, 350)
	g := f.Gestures
	assert.Equal(t, []pulse.Width{want.LowIn, want.LowOut, want.HighIn, want.HighOut, want.MiddleIn, want.MiddleOut}, []pulse.Width{g.LowIn, g.LowOut, g.HighIn, g.HighOut, g.MiddleIn, g.MiddleOut})
	assert.EqualValues(t, 30, g.Patterns[0].Parts[0].Dwell)
	z := g.Patterns[0].Parts[0].Zones
	assert.Equal(t, [gestures.Directions]gestures.Zone{gestures.Throttle: gestures.Low, gestures.Roll: gestures.Middle, gestures.Yaw: gestures.Low}, z)
}
