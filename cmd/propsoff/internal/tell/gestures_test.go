package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim"
	"propsoff.example/sim/link"
)

func gestureSet(t *testing.T, text string) *gestures.Config {
	t.Helper()
	f, err := patternfile.Parse("f", []byte("propsoff: gestures 1\ngestures:\n"+text), 20)
	require.NoError(t, err)
	return &f.Gestures
}

// spokenGestures says Texts in English.
func spokenGestures(all []words.Text) []string {
	var out []string
	for _, t := range all {
		out = append(out, spoken(t))
	}
	return out
}

// A gesture as it stands in the terminal, in a stick mode in which jobs and sticks differ.
func TestGestureText(t *testing.T) {
	cfg := gestureSet(t, "  a: {name: A, stand: {throttle: low, yaw: left, pitch: forward}}\n"+
		"  b: {name: B, parts: [{stand: {left: up left}, for: 300ms}, {stand: {left: mid-height right}, for: 1s, within: 1500ms}]}\n")
	assert.Equal(t, strings.Split(`a: A
  ┌───────┐   ┌───────┐   left stick down and to the left; right stick straight up
  │ · · · │   │ · ● · │   throttle low, roll in the middle, pitch forward, yaw left
  │ · · · │   │ · · · │   hold for 0.6 s
  │ ● · · │   │ · · · │
  └───────┘   └───────┘
  Staying here also disarms a craft that is armed by sticks (throttle low, yaw fully left).`, "\n"), spokenGestures(GestureText(cfg, 0, 2, words.Text{})))
	assert.Equal(t, strings.Split(`b: B
  ┌───────┐   ┌───────┐   step 1 of 2
  │ ● · · │   │ ○ ○ ○ │   left stick up and to the left
  │ · · · │   │ ○ ○ ○ │   pitch forward, yaw left
  │ · · · │   │ ○ ○ ○ │   hold for 0.3 s
  └───────┘   └───────┘
  ┌───────┐   ┌───────┐   step 2 of 2
  │ · · · │   │ ○ ○ ○ │   left stick to the right, at mid height
  │ · · ● │   │ ○ ○ ○ │   pitch in the middle, yaw right
  │ · · · │   │ ○ ○ ○ │   within 1.5 s, hold for 1 s
  └───────┘   └───────┘
  Opens the menu “M”.
  With the throttle low and yaw fully left, which this gesture leaves free, staying in step 1 also disarms a craft that is armed by sticks.
  With the throttle low and yaw fully right, which this gesture leaves free, staying in step 2 also arms a craft that is armed by sticks.`, "\n"), spokenGestures(GestureText(cfg, 1, 1, words.AsIs("M"))))
}

// In every drawing the full dots are where the sticks are asked to be, and the lines are alike in length.
func TestGestureDrawings(t *testing.T) {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	for n := range f.Gestures.Patterns {
		p := &f.Gestures.Patterns[n]
		for mode := uint8(1); mode <= 4; mode++ {
			for part := range int(p.Count) {
				z := p.StickZones(part, mode)
				for row, line := range GestureDrawing(p, part, mode) {
					runes := []rune(line)
					require.Len(t, runes, 21)
					if row == 0 || row == 4 {
						continue
					}
					height := gestures.Zone(4 - row) // high, middle, low
					for stick := range 2 {
						for col := range 3 {
							across := gestures.Zone(col + 1)
							asks := func(have, want gestures.Zone) bool { return have == gestures.Any || have == want }
							want := asks(z[2*stick], across) && asks(z[2*stick+1], height)
							assert.Equal(t, want, runes[stick*12+2+2*col] != '·', "%s, mode %d, part %d, row %d", p.Code, mode, part, row)
						}
					}
				}
			}
		}
	}
}

// How a menu is moved, and what to mind, in each stick mode; the two stick modes in which the right stick carries the throttle are 1 and
// 3, those in which it carries yaw 3 and 4 (common practice, no source).
func TestMenusInEveryStickMode(t *testing.T) {
	f := &facts.Facts{Snap: sim.Snapshot{Link: link.Good}, Hearing: facts.TheRadio}
	for mode := uint8(1); mode <= 4; mode++ {
		throttle := mode == 1 || mode == 3
		begun, rested := menu.State{Open: 1}, menu.State{Open: 1, Rested: true}
		first := strings.Join(spokenGestures(GogglesMoves(menu.OneStick, &begun, mode, f)), " ")
		assert.Equal(t, throttle, strings.Contains(first, "the right stick carries the throttle here"), "mode %d", mode)
		then := strings.Join(spokenGestures(GogglesMoves(menu.OneStick, &rested, mode, f)), " ")
		assert.Equal(t, throttle, strings.Contains(then, "bring it back to the middle after each step"), "mode %d", mode)
		assert.Equal(t, throttle, strings.Contains(spoken(words.T("goggles.recipe", words.Args{"two": words.Flag(false), "throttle": words.Flag(throttleOnRight(mode))})), "The right stick carries the throttle"), "mode %d", mode)
		assert.Equal(t, mode == 3 || mode == 4, !MenuArms(menu.OneStick, mode).Empty(), "mode %d", mode)
		assert.Equal(t, mode == 4, strings.HasSuffix(spoken(MenuArms(menu.OneStick, mode)), "bring the throttle to the middle first."), "mode %d", mode)
		assert.Equal(t, mode == 1 || mode == 2, strings.Contains(spoken(MenuArms(menu.TwoSticks, mode)), "the left stick held to the right"), "mode %d", mode)
	}
}

// A gesture as it is told for a drill: by the sticks of the mode, of a later step only what moves.
func TestGestureRecipe(t *testing.T) {
	cfg := gestureSet(t, "  a: {name: A, parts: [{stand: {throttle: low, roll: right, pitch: middle, yaw: middle}, for: 300ms}, {stand: {throttle: low, roll: left, pitch: middle, yaw: middle}, for: 300ms, within: 500ms}]}\n"+
		"  b: {name: B, stand: {left: up left}}\n")
	for mode, want := range [...]string{
		"Hold for 0.3 s: left stick in the middle; right stick down and to the right. Then within 0.5 s, hold for 0.3 s: right stick down and to the left.",
		"Hold for 0.3 s: left stick straight down; right stick to the right, at mid height. Then within 0.5 s, hold for 0.3 s: right stick to the left, at mid height.",
		"Hold for 0.3 s: left stick to the right, at mid height; right stick straight down. Then within 0.5 s, hold for 0.3 s: left stick to the left, at mid height.",
		"Hold for 0.3 s: left stick down and to the right; right stick in the middle. Then within 0.5 s, hold for 0.3 s: left stick down and to the left.",
	} {
		assert.Equal(t, want, spoken(GestureRecipe(cfg, &cfg.Patterns[0], uint8(mode+1))))
		assert.Equal(t, "Hold for 0.6 s: left stick up and to the left.", spoken(GestureRecipe(cfg, &cfg.Patterns[1], uint8(mode+1))), "by stick: the same in every mode")
	}
}
