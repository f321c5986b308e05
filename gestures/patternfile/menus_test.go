package patternfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/gestures/menu"
)

const menuHead = "propsoff: gestures 1\nmenus:\n  m:\n    name: a menu\n    items:\n"

// What is wrong in a menu is said with its place and what to do.
func TestMenuErrors(t *testing.T) {
	for text, want := range map[string]string{
		"      - {value: x, from: 0, to: 5, by: 1}":                             `6:9: `,
		"      - {value: x, from: 5, to: 5, by: 1, start: 5}":                   "6:33: the value goes from 5 to 5, which leaves nothing to choose: let `to` be above `from`",
		"      - {value: x, from: 0, to: 5, by: 0, start: 5}":                   "6:40: a step of 0 leads nowhere between 0 and 5: write one above 0 that fits in between",
		"      - {value: x, from: 0, to: 5, by: 9, start: 5}":                   "6:40: a step of 9 leads nowhere",
		"      - {value: x, from: 0, to: 5, by: 1, start: 7}":                   "6:50: 7 lies outside 0 to 5: begin within the limits",
		"      - {value: x, from: 0, to: 0.12345, by: 1, start: 0}":             "6:33: 0.12345 cannot stand here: write a number with at most 3 digits",
		"      - {choice: x, of: [a], start: a}":                                "6:25: the list has 1 item: write 2 to 12",
		"      - {choice: x, of: [a, b], start: c}":                             "6:40: `c` cannot stand here",
		"      - {choice: x, of: [a, seventeen letters], start: a}":             `6:29: “seventeen letters” has no room on its line: write 1 to 16 letters`,
		"      - {choice: x, of: [a, b, a], start: b}":                          `6:32: “a” stands twice in this list: delete one`,
		"      - {value: x, from: 0, to: 1073741824, by: 1073741824, start: 0}": "6:33: 1073741824 cannot stand here",
		"      - {page: x}": "items",
		"      - {page: " + strings.Repeat("x", 31) + ", items: []}": "has no room on its line: write 1 to 30 letters",
		"      - x":             "6:9: this is no item: write {page: …, items: […]}, {value: …, from: …} or {choice: …, of: […]}",
		"      - {colour: red}": "6:9: this is no item: it needs one of the fields page, value and choice",
		"      - {value: x, from: 0, to: 5, by: 1, start: 0, colour: red}":                                                                    "unknown field `colour`",
		"      - {page: a, items: [{page: b, items: [{page: c, items: [{page: d, items: [{value: x, from: 0, to: 1, by: 1, start: 0}]}]}]}]}": "pages may stand 4 deep, this one is deeper",
	} {
		_, err := Parse("m.yaml", []byte(menuHead+text+"\n"), 20)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want, text)
			assert.NotContains(t, err.Error(), "panic")
		}
	}
	many := menuHead
	for range 9 {
		many += "      - {page: p, items: [" + strings.TrimSuffix(strings.Repeat("{value: x, from: 0, to: 1, by: 1, start: 0}, ", 9), ", ") + "]}\n"
	}
	_, err := Parse("m.yaml", []byte(many), 20)
	require.ErrorContains(t, err, "more than 48 values in all menus: delete some")
	require.Equal(t, 1, strings.Count(err.Error(), "more than 48 values"), "said once")

	_, err = Parse("m.yaml", []byte("propsoff: gestures 1\nmenus: {Big One: {name: x, items: [{value: x, from: 0, to: 1, by: 1, start: 0}]}}\n"), 20)
	require.ErrorContains(t, err, `2:9: “Big One” is no code word`)
}

// What is right is read as it is written: numbers exact with as many decimals as they need, items numbered over all menus.
func TestMenuIsRead(t *testing.T) {
	f, err := Parse("m.yaml", []byte(`propsoff: gestures 1
gestures:
  one: {name: one, stand: {throttle: low, yaw: left}, opens: second}
menus:
  first:
    name: the first
    items:
      - {value: volts, from: 3.2, to: 3.8, by: 0.05, start: 3.50, unit: V a cell}
      - {page: more, items: [{choice: way, of: [on, off, no], start: no}]}
  second:
    name: the second
    camera: yes
    moved-by: two-sticks
    items: [{value: shift, from: -6, to: 6, by: 1, start: -2}]
`), 50)
	require.NoError(t, err)
	require.Equal(t, []menu.Tree{{Name: "the first", Code: "first", First: 0, Count: 3}, {Name: "the second", Code: "second", Camera: true, Way: menu.TwoSticks, First: 5, Count: 2}}, f.Menus.Menus)
	require.Equal(t, 3, f.Menus.Values)
	require.Equal(t, menu.Item{Name: "volts", Kind: menu.Value, Low: 320, High: 380, By: 5, Start: 350, Decimals: 2, Unit: "V a cell"}, f.Menus.Items[0])
	require.Equal(t, menu.Item{Name: "more", Kind: menu.Page, First: 3, Count: 2}, f.Menus.Items[1])
	require.Equal(t, menu.Item{Kind: menu.Out}, f.Menus.Items[2])
	require.Equal(t, menu.Item{Name: "way", Kind: menu.Choice, Index: 1, High: 2, By: 1, Start: 2, Choices: []string{"on", "off", "no"}}, f.Menus.Items[3])
	require.Equal(t, menu.Item{Name: "shift", Kind: menu.Value, Index: 2, Low: -6, High: 6, By: 1, Start: -2}, f.Menus.Items[5])
	require.EqualValues(t, 2, f.Gestures.Patterns[0].Opens)
	require.EqualValues(t, 11, f.Menus.Delay, "520 ms are 11 slots of 50 ms")
}
