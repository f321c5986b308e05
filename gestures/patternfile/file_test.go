package patternfile_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/pulse"
)

const (
	free = gestures.Any
	low  = gestures.Low
	mid  = gestures.Middle
	high = gestures.High
)

type zones = [gestures.Directions]gestures.Zone

func shipped(t testing.TB) (string, []byte) {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	return name, text
}

func find(t *testing.T, f *patternfile.File, code string) *gestures.Pattern {
	t.Helper()
	for i := range f.Gestures.Patterns {
		if p := &f.Gestures.Patterns[i]; p.Code == code {
			return p
		}
	}
	require.Failf(t, "no gesture", "%s", code)
	return nil
}

// The shipped file says what the bench's model asks for.
func TestTheShippedFile(t *testing.T) {
	name, text := shipped(t)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	assert.Equal(t, text, f.Text)
	d := gestures.Default(20)
	d.Patterns = f.Gestures.Patterns
	assert.Equal(t, d, f.Gestures, "its edges are the defaults")

	menus := map[string]int{}
	for i, m := range f.Menus.Menus {
		menus[m.Code] = i + 1
	}
	// All by job, the throttle low throughout; 0.3 s in slots of 20 ms are 15, half a second 25.
	for code, want := range map[string][2]zones{
		"craft-menu":     {{low, mid, mid, low}, {low, mid, high, mid}},
		"camera-set-up":  {{low, high, mid, mid}, {low, low, mid, mid}},
		"camera-display": {{low, low, mid, mid}, {low, mid, low, mid}},
	} {
		p := find(t, f, code)
		assert.False(t, p.Physical, code)
		assert.Equal(t, uint8(2), p.Count, code)
		assert.Equal(t, gestures.Part{Zones: want[0], Dwell: 15}, p.Parts[0], code)
		assert.Equal(t, gestures.Part{Zones: want[1], Dwell: 15, Within: 25}, p.Parts[1], code)
		assert.EqualValues(t, menus[code], p.Opens, code)
	}
	assert.Len(t, f.Gestures.Patterns, 3)
	for _, m := range f.Menus.Menus {
		assert.Equal(t, menu.OneStick, m.Way, m.Code)
	}

	slow, err := patternfile.Parse(name, text, 50)
	require.NoError(t, err)
	assert.EqualValues(t, 6, slow.Gestures.Patterns[0].Parts[0].Dwell)
	odd, err := patternfile.Parse(name, text, 7)
	require.NoError(t, err)
	assert.EqualValues(t, 43, odd.Gestures.Patterns[0].Parts[0].Dwell, "upwards: 42 slots are 294 ms")
}

const head = "propsoff: gestures 1\n"

func one(stand string) string { return head + "gestures:\n  a: {name: A, stand: " + stand + "}\n" }

// What a stand says, and what it asks for without saying so.
func TestStands(t *testing.T) {
	for stand, want := range map[string]struct {
		physical bool
		zones    zones
	}{
		"{throttle: low, yaw: left}":                         {false, zones{low, mid, free, low}},
		"{pitch: forward}":                                   {false, zones{free, mid, high, mid}},
		"{roll: left}":                                       {false, zones{free, low, free, free}},
		"{throttle: any, roll: right}":                       {false, zones{free, high, free, free}},
		"{throttle: high, roll: any, pitch: back, yaw: any}": {false, zones{high, free, low, free}},
		"{left: up}":                                         {true, zones{mid, high, free, free}},
		"{left: left}":                                       {true, zones{low, free, free, free}},
		"{left: mid-height left, right: right mid-height}":   {true, zones{low, mid, high, mid}},
		"{right: down any-side, left: left}":                 {true, zones{low, free, free, low}},
		"{right: up centre, left: middle}":                   {true, zones{mid, mid, mid, high}},
		"{left: any-height left}":                            {true, zones{low, free, free, free}},
	} {
		f, err := patternfile.Parse("f", []byte(one(stand)), 20)
		if assert.NoError(t, err, stand) {
			p := f.Gestures.Patterns[0]
			assert.Equal(t, want.zones, p.Parts[0].Zones, stand)
			assert.Equal(t, want.physical, p.Physical, stand)
			assert.EqualValues(t, 30, p.Parts[0].Dwell, "the default")
		}
	}
}

// Every kind of mistake, with its place and what to do. The place is line:column.
func TestMistakes(t *testing.T) {
	for _, row := range []struct{ text, place, says string }{
		{"propsoff: gestures 2\n", "1:11", "write gestures 1"},
		{"gestures: {}\n", "1:1", "no field `propsoff`"},
		{head + "gesture: {}\n", "2:1", "did you mean `gestures`?"},
		{head + "gestures:\n  Big: {name: A, stand: {roll: left}}\n", "3:3", "small letters"},
		{head + "gestures:\n  a: {stand: {roll: left}}\n", "3:6", "add `name: …`"},
		{head + "gestures:\n  a: {name: A}\n", "3:6", "add `stand: …`"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, parts: [{stand: {roll: left}}]}\n", "3:23", "delete one of the two"},
		{head + "gestures:\n  a: {name: A, parts: [{stand: {roll: left}}]}\n", "3:23", "2 to 4"},
		{head + "gestures:\n  a: {name: A, parts: [{stand: {roll: left}}, {stand: {roll: right}}]}\n", "3:47", "add `within: …`"},
		{head + "gestures:\n  a: {name: A, parts: [{stand: {roll: left}, within: 1s}, {stand: {roll: right}, within: 1s}]}\n", "3:54", "delete `within`"},
		{head + "gestures:\n  a: {name: A, parts: [{stand: {roll: left}}, {stand: {left: up}, within: 1s}]}\n", "3:55", "all parts of a gesture alike"},
		{one("{roll: lft}"), "3:30", "left, middle, right or any"},
		{one("{rol: left}"), "3:24", "did you mean `roll`?"},
		{one("{roll: left, left: up}"), "3:23", "delete one kind"},
		{one("{left: dwn}"), "3:30", "did you mean down"},
		{one("{left: up down}"), "3:30", "twice"},
		{one("{throttle: any}"), "3:23", "asks no stick for anything"},
		{one("{throttle: low}"), "3:23", "untouched sticks"},
		{one("{left: down}"), "3:23", "untouched sticks"},
		{one("left"), "3:23", "where the fields of the stand must stand"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, for: 600}\n", "3:42", "has no unit"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, for: 20s}\n", "3:42", "from 100ms to 10s"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, for: 100.5ms}\n", "3:42", "whole milliseconds"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, opens: nothing}\n", "3:44", "delete `opens`"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, with: [b]}\n", "3:44", "cannot stand here"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}, with: [a]}\n", "3:44", "itself"},
		{head + "gestures:\n  a: {name: A, stand: {roll: left}}\n  b: {name: B, stand: {roll: left}, for: 2s}\n", "4:3", "asks for the same as a"},
		{head + "gestures:\n  a: {name: " + strings.Repeat("x", 61) + ", stand: {roll: left}}\n", "3:13", "shorter"},
		{head + "edges: {ends: {in: 70 %, out: 70 %}}\n", "2:15", "trembles"},
		{head + "edges: {middle: {in: 30 %, out: 20 %}}\n", "2:17", "trembles"},
		{head + "edges: {ends: {in: 99 %, out: 60 %}}\n", "2:20", "from 50 % to 95 %"},
		{head + "edges: {ends: {in: 70 %}}\n", "2:15", "add `out: …`"},
	} {
		f, err := patternfile.Parse("f", []byte(row.text), 20)
		if assert.Error(t, err, row.text) {
			assert.Nil(t, f)
			assert.Contains(t, err.Error(), "f:"+row.place+": ", row.text)
			assert.Contains(t, err.Error(), row.says, row.text)
		}
	}
	_, err := patternfile.Parse("f", []byte("propsoff: gestures 3\ngestures:\n  a: {name: A, stand: {roll: lft}, for: 1}\n  b: {}\n"), 20)
	var all words.Problems
	require.True(t, errors.As(err, &all))
	assert.Len(t, all, 5, "%v", err)
	var many strings.Builder
	many.WriteString(head + "gestures:\n")
	for i := range 65 {
		many.WriteString("  g" + strings.Repeat("x", i%30) + string(rune('a'+i/30)) + ": {name: A, stand: {roll: left}}\n")
	}
	_, err = patternfile.Parse("f", []byte(many.String()), 20)
	assert.ErrorContains(t, err, "f:67:3: more than 64 gestures")
}

func TestMadeTogether(t *testing.T) {
	f, err := patternfile.Parse("f", []byte(head+"gestures:\n  a: {name: A, stand: {roll: left}}\n  b: {name: B, stand: {roll: left}, with: [a]}\n  c: {name: C, stand: {roll: right}}\n"), 20)
	require.NoError(t, err)
	assert.EqualValues(t, 2, f.Gestures.Patterns[0].With, "on both sides")
	assert.EqualValues(t, 1, f.Gestures.Patterns[1].With)
	assert.Zero(t, f.Gestures.Patterns[2].With)
}

func TestEdges(t *testing.T) {
	f, err := patternfile.Parse("f", []byte(head+"edges: {ends: {in: 80 %, out: 65.5 %}, middle: {in: 20, out: 30}}\n"), 20)
	require.NoError(t, err)
	want := gestures.Default(20)
	want.SetEdges(800, 655, 200, 300)
	assert.Equal(t, want, f.Gestures)
}

func sample() gestures.Pattern {
	p := gestures.Pattern{Name: "my own: no. 1", Code: "mine", Physical: true, Count: 1}
	p.Parts[0] = gestures.Part{Zones: zones{low, high, mid, mid}, Dwell: 40}
	return p
}

func TestAppend(t *testing.T) {
	name, text := shipped(t)
	out, err := patternfile.Append(name, text, patternfile.Entry{Pattern: sample(), SlotTicks: 20})
	require.NoError(t, err)
	old, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	f, err := patternfile.Parse(name, out, 20)
	require.NoError(t, err)
	n := len(old.Gestures.Patterns)
	require.Len(t, f.Gestures.Patterns, n+1)
	assert.Equal(t, old.Gestures.Patterns, f.Gestures.Patterns[:n])
	assert.Equal(t, sample(), f.Gestures.Patterns[n])
	assert.Equal(t, old.Menus, f.Menus)
	var added []string
	for l := range strings.Lines(string(out)) {
		if !strings.Contains(string(text), l) {
			added = append(added, l)
		}
	}
	assert.Len(t, added, 1, "one line more, and every other is as it was: %q", added)

	_, err = patternfile.Append(name, out, patternfile.Entry{Pattern: sample(), SlotTicks: 20})
	assert.ErrorContains(t, err, "there is a gesture mine already")
	again := sample()
	again.Code = "other"
	_, err = patternfile.Append(name, out, patternfile.Entry{Pattern: again, SlotTicks: 20})
	assert.ErrorContains(t, err, "asks for the same as mine")
	_, err = patternfile.Append(name, []byte("propsoff: craft 1\n"), patternfile.Entry{Pattern: again, SlotTicks: 20})
	assert.ErrorContains(t, err, "1:11")

	out, err = patternfile.Append("new.yaml", nil, patternfile.Entry{Pattern: sample(), SlotTicks: 20})
	require.NoError(t, err)
	assert.Equal(t, "# Two-stick gestures of your own.\npropsoff: gestures 1\ngestures:\n  mine: {name: \"my own: no. 1\", stand: {left: up left, right: middle}, for: 800ms}\n", string(out))

	_, err = patternfile.Append("new.yaml", nil, patternfile.Entry{Pattern: sample(), SlotTicks: 20, Opens: "nowhere"})
	assert.ErrorContains(t, err, "no menus")
}

// Whatever pattern can be in a file reads back as it was written.
func TestWrittenReadsBack(t *testing.T) {
	wrote := 0
	rapid.Check(t, func(rt *rapid.T) {
		ticks := uint16(rapid.IntRange(4, 50).Draw(rt, "ticks"))
		p := gestures.Pattern{Name: rapid.StringMatching(`[a-zA-Z0-9'":#é{}, -]{1,30}`).Draw(rt, "name"), Code: "x", Physical: rapid.Bool().Draw(rt, "physical")}
		p.Count = uint8(rapid.IntRange(1, 4).Draw(rt, "parts"))
		for i := range int(p.Count) {
			for d := range p.Parts[i].Zones {
				p.Parts[i].Zones[d] = gestures.Zone(rapid.IntRange(0, 3).Draw(rt, "zone"))
			}
			p.Parts[i].Dwell = uint16(rapid.IntRange(25, 200).Draw(rt, "dwell"))
			if i > 0 {
				p.Parts[i].Within = uint16(rapid.IntRange(25, 400).Draw(rt, "within"))
			}
		}
		out, err := patternfile.Append("f", nil, patternfile.Entry{Pattern: p, SlotTicks: ticks})
		if err != nil {
			if !strings.Contains(err.Error(), "asks no stick") && !strings.Contains(err.Error(), "untouched") {
				rt.Fatalf("%+v: %v", p, err)
			}
			return
		}
		wrote++
		f, err := patternfile.Parse("f", out, ticks)
		if err != nil || f.Gestures.Patterns[0] != p {
			rt.Fatalf("%s\n%+v\n%+v: %v", out, p, f, err)
		}
	})
	assert.Greater(t, wrote, 20)
}

func TestFreeCode(t *testing.T) {
	for name, want := range map[string]string{
		"My own No. 1": "my-own-no-1", "": "gesture", "1 2": "gesture-1-2", "éé": "gesture", "---": "gesture",
		strings.Repeat("long ", 20): "long-long-long-long-long-long-long-l",
	} {
		got := patternfile.FreeCode(nil, name)
		assert.Equal(t, want, got, name)
		p := sample()
		p.Code = got
		_, err := patternfile.Append("f", nil, patternfile.Entry{Pattern: p, SlotTicks: 20})
		assert.NoError(t, err, name)
	}
	n, text := shipped(t)
	f, err := patternfile.Parse(n, text, 20)
	require.NoError(t, err)
	assert.Equal(t, "craft-menu-2", patternfile.FreeCode(f, "Craft menu"))
}

func FuzzParse(f *testing.F) {
	_, text, _ := assets.Gestures("examples")
	f.Add(text)
	f.Add([]byte(one("{left: up left}")))
	f.Add([]byte(head + "edges: {ends: {in: 50, out: 20}}\ngestures: {a: {parts: [1, {}]}, b: {with: [a]}}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := patternfile.Parse("f", data, 20)
		if err != nil {
			if file != nil {
				t.Fatal("a file beside an error")
			}
			return
		}
		// Whatever is accepted must run, and the hands at rest must make nothing of it.
		cfg := &file.Gestures
		set := make([]gestures.State, len(cfg.Patterns))
		in := gestures.Input{Sticks: [gestures.Directions]pulse.Width{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre}, Valid: true, Live: true}
		for range 1000 {
			if gestures.Step(cfg, set, &in, 0, nil) >= 0 {
				t.Fatal("made by nobody")
			}
		}
	})
}
