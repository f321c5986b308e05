package patternfile

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
)

// Every language says each thing that can be wrong with a gesture file.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("gesture-file")
	var gesturesMany, menusMany strings.Builder
	for i := range mostGestures + 1 {
		fmt.Fprintf(&gesturesMany, "  g%d: {name: A, stand: {roll: left}}\n", i)
	}
	for i := range mostMenus + 1 {
		fmt.Fprintf(&menusMany, "  m%d: {name: A, items: [{choice: x, of: [a, b], start: a}]}\n", i)
	}
	value := "{value: x, from: 0, to: 1, by: 1, start: 0}"
	nine := func(item string) string { return strings.TrimSuffix(strings.Repeat(item+", ", 9), ", ") }
	for _, text := range []string{
		"edges: x\ngestures: x\nmenus: x\n", "edges: {ends: x}\ngestures: {a: x}\nmenus: {a: x}\n",
		"edges: {ends: {in: 70 %, out: 70 %}, middle: {in: 30 %, out: 20 %}}\n", "gestures:\n" + gesturesMany.String(), "menus:\n" + menusMany.String(),
		"gestures: {a: {name: " + strings.Repeat("x", 61) + ", stand: x, parts: []}, Big: {parts: [x, {stand: {roll: left}}]}}\n",
		"gestures: {a: {name: A, parts: [{stand: {roll: left}, within: 1s, for: 100.5ms}, {stand: {left: up}, within: 1s}]}}\n",
		"gestures: {a: {name: A, stand: {roll: left, left: up}, opens: x}, b: {name: B, stand: {throttle: any}}, d: {name: D, stand: x}, c: {name: C, stand: {throttle: low}}}\n",
		"gestures: {a: {name: A, stand: {left: up down, right: dwn}}, b: {name: B, stand: {roll: left}, with: [b]}, c: {name: C, stand: {roll: left}}}\n",
		"gestures: {a: {name: A, stand: {roll: left}, opens: m, with: [b]}, b: {name: B, stand: {roll: left}, opens: m}}\nmenus: {m: {name: m, items: [" + value + "]}}\n",
		"menus: {m: {name: m, items: [x, {colour: red}, {page: p, items: [x]}, {choice: x, of: [seventeen letters, a, a], start: a}]}}\n",
		"menus: {m: {name: m, items: [{value: x, from: 5, to: 5, by: 1, start: 5}, {value: x, from: 0, to: 5, by: 9, start: 0}, {value: x, from: 0, to: 5, by: 1, start: 9}]}}\n",
		"menus: {m: {name: m, items: [{value: x, from: 0, to: 0.12345, by: 1, start: 0}]}}\n",
		"menus: {m: {name: m, items: [{page: a, items: [{page: b, items: [{page: c, items: [{page: d, items: [x]}]}]}]}]}}\n",
		"menus: {m: {name: m, items: [" + nine("{page: p, items: ["+nine(value)+"]}") + "]}}\n",
		"menus: {m: {name: m, items: [" + nine("{page: p, items: ["+nine("{page: p, items: ["+nine("x")+"]}")+"]}") + "]}}\n",
	} {
		_, err := Parse("g.yaml", []byte("propsoff: gestures 1\n"+text), 20)
		room.Error(t, err)
	}
	_, err := Parse("g.yaml", []byte("x"), 20)
	room.Error(t, err)

	text := []byte("propsoff: gestures 1\ngestures: {a: {name: A, stand: {roll: left}}}\n")
	f, err := Parse("g.yaml", text, 20)
	require.NoError(t, err)
	_, err = Append("g.yaml", text, Entry{Pattern: f.Gestures.Patterns[0], SlotTicks: 20})
	room.Error(t, err)
	bad, none := gestures.Default(20), menu.Default(20)
	bad.Patterns = []gestures.Pattern{{Code: "A", Count: 1}}
	_, err = Filled(&bad, &none)
	room.Error(t, err)
	other := f.Gestures
	other.Patterns = append(other.Patterns[:0:0], other.Patterns[0])
	other.Patterns[0].Opens = 9
	_, err = Filled(&other, &none)
	room.Error(t, err)

	room.Whole(t)
}
