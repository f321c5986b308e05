package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// layoutCase is one crafted layout of testdata/layouts: a craft, a radio where it is not an ideal one, and what is broken.
type layoutCase struct {
	craft, radio string
	// broken are all rules that are, each with its cause; the first is the one that the layout was made for.
	broken []string
	// shares: it was made for a pair of its own, but what comes with that is broken in another layout too.
	shares bool
	// movements is the length of the shortest way to the first one, worked out by hand; 0 where it was not.
	movements int
}

// brokenLayouts are each broken in one known way. The lengths by hand count human movements: connecting the pack is one, and
// waiting (2 s until it has stood still, 1.2 s until the link is good, a dwell) is none.
var brokenLayouts = []layoutCase{
	// Pack; arm switch on: armed; throttle up, so that the motors turn; radio off: 240 ms later still armed. None can be left out.
	{"held-switch", "", []string{"loss-stops-motors held-switch", "link-back-never-arms held-switch", "silence-stops-soon held-switch"}, false, 4},
	// Pack; yaw right, held for the dwell: armed; throttle up; radio off.
	{"held-sticks", "", []string{"loss-stops-motors held-sticks", "link-back-never-arms held-sticks", "held-never-arms held-sticks", "silence-stops-soon held-sticks"}, false, 4},
	// Pack; arm switch on; radio off: the stored values keep it armed, and their throttle turns the motors.
	{"stored-on", "", []string{"loss-stops-motors stored-switch-on", "silence-stops-soon stored-switch-on"}, false, 3},
	// Pack, so that the radio is heard; radio off: the stored values show the switch off; switch on, unseen; radio on: it arms.
	{"stored-off", "", []string{"link-back-never-arms stored-switch-off"}, false, 4},
	// Pack; radio off, with the switch seen off before: the stored values arm.
	{"stored-on-low", "", []string{"stored-never-arms stored-switch-on", "loss-stops-motors stored-switch-on", "silence-stops-soon stored-switch-on"}, true, 2},
	// Pack; radio off; yaw right, unseen; radio on, and the dwell goes by.
	{"stored-disarm", "", []string{"link-back-never-arms stored-sticks", "stored-off-corners stored-disarms"}, false, 4},
	// Pack; radio off: the stored corner is held until the dwell is over.
	{"stored-corner", "", []string{"stored-never-arms stored-arm-corner", "loss-stops-motors stored-sticks", "link-back-never-arms stored-sticks", "silence-stops-soon stored-sticks",
		"stored-off-corners stored-arm-corner"}, true, 2},
	// Pack; yaw right, held: armed; throttle up; radio off: the stored middle never disarms.
	{"stored-middle", "", []string{"loss-stops-motors stored-sticks", "link-back-never-arms stored-sticks", "silence-stops-soon stored-sticks"}, true, 4},
	// The same; the stored corner disarms 0.42 s after the radio's last frame, and 0.24 s are promised.
	{"stored-late", "", []string{"loss-stops-motors stored-late", "link-back-never-arms stored-sticks", "stored-off-corners stored-disarms"}, true, 4},
	// Pack; throttle a little up, 1000 to 1099 µs; arm switch on.
	{"low-mark", "", []string{"throttle-up-never-arms low-mark-high"}, false, 3},
	// The switch begins in the middle, where it is seen off. Pack; switch high: armed; switch low: no pulse, so no leaving.
	{"switch", "arm-no-pulse", []string{"arm-control-disarms arm-without-pulse"}, false, 3},
	// Pack; roll fully right: no frame is valid; arm switch on, unseen; roll back: it arms, by roll.
	{"switch", "roll-no-pulse", []string{"only-arm-control-arms control-without-pulse", "nothing-else-disarms control-without-pulse", "gesture-can-be-made gesture-travel"}, false, 4},
	// Pack; yaw right, held: armed; pitch fully forward, held: after 240 ms the link is lost and the craft cuts.
	{"sticks", "pitch-no-pulse", []string{"nothing-else-disarms control-without-pulse", "gesture-can-be-made gesture-travel"}, true, 3},
	{"mode-missed", "", []string{"every-mode-reached mode-without-position"}, false, 0},
	{"switch", "mode-knob", []string{"every-mode-reached mode-beyond-travel"}, false, 0},
	{"switch", "no-mode", []string{"every-mode-reached no-control", "can-arm no-control"}, true, 0},
	{"switch", "no-arm", []string{"can-arm no-control", "can-disarm no-control"}, false, 0},
	// Pack; mode switch to the middle.
	{"gap-between", "", []string{"no-mode-gap gap-between-spans"}, false, 2},
	// Pack; mode switch from low to high at once.
	{"gap-above", "", []string{"no-mode-gap gap-above-spans"}, false, 2},
	// Pack: the switch stands in the gap.
	{"gap-below", "", []string{"no-mode-gap gap-below-spans", "power-up-levels gap-at-rest"}, false, 1},
	// Pack.
	{"rate-first", "", []string{"power-up-levels rate-at-rest"}, false, 1},
	// Pack.
	{"always-rate", "", []string{"power-up-levels always-rate"}, false, 1},
	{"rate-refused", "", []string{"can-arm never-self-levelling", "power-up-levels always-rate"}, true, 0},
	{"arm-beyond", "", []string{"can-arm arm-never-on"}, false, 0},
	{"switch", "arm-always-on", []string{"can-arm arm-never-off", "can-disarm arm-never-off"}, false, 0},
	{"sticks", "throttle-short", []string{"can-arm throttle-never-low", "can-disarm throttle-never-low"}, false, 0},
	{"sticks", "yaw-right-short", []string{"can-arm yaw-never-right"}, false, 0},
	{"sticks", "yaw-left-short", []string{"can-disarm yaw-never-left"}, false, 0},
	{"second-beyond", "", []string{"can-arm second-never-on"}, false, 0},
	{"switch", "yaw-no-pulse", []string{"can-arm never-a-pulse"}, false, 0},
	// Pack; arm switch on, and it springs back.
	{"switch", "arm-springs", []string{"arm-control-stays springs-back"}, false, 2},
	// Pack; the switch on.
	{"switch", "arm-is-mode", []string{"arm-control-is-alone arm-is-mode-switch"}, true, 2},
	// Pack; arm switch to the middle: its noise arms.
	{"switch", "arm-noisy", []string{"only-arm-control-arms noise-crosses", "power-up-never-arms noise-crosses", "nothing-else-disarms noise-crosses", "link-back-never-arms noise-crosses"}, false, 2},
	// Pack; mode switch to the middle: its noise changes the mode.
	{"switch", "mode-noisy", []string{"mode-stays noise-crosses"}, true, 2},
	// Pack; arm switch on, the second switch untouched.
	{"second", "second-on", []string{"second-switch-goes-off second-never-off"}, false, 2},
	// Pack; arm switch to the middle: armed; on to the end.
	{"arm-middle", "", []string{"sweep-never-arms on-between"}, false, 3},
	// Pack: there it stands.
	{"switch", "arm-rests-on", []string{"arm-rests-off arm-rests-on"}, false, 1},
	// Pack; press, and let go: armed.
	{"switch", "arm-springs-on", []string{"arm-rests-off arm-springs-on", "arm-control-stays springs-back"}, true, 2},
	// Pack; knob to just short of the edge; across it.
	{"switch", "arm-knob", []string{"arm-has-positions arm-on-knob"}, false, 3},
	// Pack; mode switch to the middle.
	{"rate-between", "", []string{"no-rate-on-the-way rate-between"}, false, 2},
	// Pack; arm switch on; throttle up; radio off.
	{"sinks-long", "", []string{"silence-stops-soon sinks-long"}, false, 4},
	{"held-sinks", "", []string{"silence-sinks held-no-sinking", "silence-stops-soon held-switch", "loss-stops-motors held-switch", "link-back-never-arms held-switch"}, true, 4},
	{"stored-sinks", "", []string{"silence-sinks stored-no-sinking", "link-back-never-arms stored-switch-off"}, true, 4},
	{"sink-hovers", "", []string{"sink-comes-down sink-hovers"}, false, 4},
	{"sink-falls", "", []string{"sink-comes-down sink-falls"}, false, 4},
	// Pack; arm switch on; throttle up; radio off for a frame.
	{"one-frame", "", []string{"one-frame-is-no-loss silence-one-frame"}, false, 4},
	// Pack; arm switch on; throttle up; radio off.
	{"silence-late", "", []string{"silence-is-seen-soon silence-late"}, false, 4},
	// Pack; radio off; radio on; arm switch on.
	{"clean-nothing", "", []string{"clean-time-is-set clean-time-nothing"}, false, 4},
	// Pack; a nudge; arm switch on.
	{"still-nothing", "", []string{"still-time-is-set still-time-nothing"}, false, 3},
	// Pack; on its side; arm switch on.
	{"tilt-upright", "", []string{"tilt-refuses tilt-past-upright"}, false, 3},
	// Pack; yaw right.
	{"dwell-brief", "", []string{"corners-take-time arm-dwell-brief"}, false, 2},
	// Pack; yaw right: armed; yaw left.
	{"disarm-brief", "", []string{"corners-take-time disarm-dwell-brief"}, false, 3},
	// Pack; yaw right: armed; throttle up a little; yaw left.
	{"corner-flight", "", []string{"corners-below-power corner-in-flight", "throttle-up-never-arms low-mark-high"}, true, 4},
	// Mode switch to the middle; throttle to just below the mark; pack; arm switch on.
	{"air-low", "", []string{"arming-starts-no-motor air-wakes-low", "throttle-up-never-arms low-mark-high"}, true, 4},
	// Pack; throttle to the mark; arm switch on: refused.
	{"switch", "throttle-near", []string{"throttle-low-is-clear low-end-near"}, false, 3},
	// Pack; throttle down, and held there; arm switch on; let go.
	{"switch", "throttle-springs", []string{"throttle-stays throttle-springs"}, false, 3},
	// Pack; arm switch on; throttle up; let go.
	{"switch", "throttle-falls", []string{"throttle-stays-up throttle-falls"}, false, 3},
	// Pack; roll to the side.
	{"switch", "mode-on-roll", []string{"no-stick-moves-mode mode-on-stick"}, false, 2},
	// Where the arm switch is on the second one is off: it never arms.
	{"second", "second-turned", []string{"can-arm arm-turned", "arm-control-is-alone arm-is-second-switch"}, false, 0},
}

// soundLayouts hold to every rule; by sticks the corner disarms in flight too, which comes with the method.
var soundLayouts = []layoutCase{
	{craft: "switch"}, {craft: "switch", radio: "full"}, {craft: "sticks", radio: "full"}, {craft: "sinks"}, {craft: "idles"}, {craft: "levels"},
	{craft: "second"}, {craft: "six", radio: "six"}, {craft: "order"}, {craft: "quick"}, {craft: "sticks-sink"},
}

// provedLine is a line of JSON of prove, as a reader of it sees it.
type provedLine struct {
	Code, Rule, Outcome, Cause, Why, Script string
	Situations                              uint64
	Movements                               int
	Ms                                      int64
	Steps                                   []struct {
		Number, Does, Text string
		T                  int64 `json:"t_ms"`
	}
	Ends struct {
		T          int64 `json:"t_ms"`
		Armed      bool
		Mode, Link string
		Sinking    bool
		Happens    string
	}
	Note      string
	Standing  float64 `json:"standing_for"`
	Partial   bool
	Verdict   string
	Broken    int
	Undecided int
	Called    []string `json:"called_out"`
}

func layoutFile(name, kind string) string {
	return filepath.Join("testdata", "layouts", name+"."+kind+".yaml")
}

// proveIt runs prove as a person does, and gives its lines: the rules, and the last.
func proveIt(t *testing.T, c layoutCase, more ...string) (code int, rules []provedLine, end provedLine) {
	t.Helper()
	args := []string{"prove", layoutFile(c.craft, "craft")}
	if c.radio != "" {
		args = append(args, layoutFile(c.radio, "radio"))
	}
	code, out, errs := command(t, append(append(args, "--json"), more...)...)
	require.Empty(t, errs)
	for _, text := range strings.Split(strings.TrimSpace(out), "\n") {
		var l provedLine
		require.NoError(t, json.Unmarshal([]byte(text), &l), text)
		if l.Code == "rule" {
			rules = append(rules, l)
		} else {
			end = l
		}
	}
	require.Equal(t, "searched", end.Code)
	require.False(t, end.Partial)
	return code, rules, end
}

func TestBrokenLayoutsAreFoundOut(t *testing.T) {
	pairs, firsts, pure := map[string]string{}, map[string]bool{}, 0
	for _, c := range brokenLayouts {
		name := c.craft + " " + c.radio
		assert.False(t, firsts[c.broken[0]], "%s: two layouts for %s", name, c.broken[0])
		firsts[c.broken[0]] = true
		if c.shares {
			continue
		}
		pure++
		for _, p := range c.broken {
			assert.Empty(t, pairs[p], "%s shares %q", name, p)
			pairs[p] = name
		}
	}
	assert.GreaterOrEqual(t, pure, 24)
	for _, c := range brokenLayouts {
		t.Run(strings.TrimSpace(c.craft+" "+c.radio), func(t *testing.T) {
			dir := t.TempDir()
			code, rules, end := proveIt(t, c, "--write", dir)
			assert.Equal(t, exit.CodeFailed, code)
			var found []string
			for _, r := range rules {
				if r.Outcome != "broken" {
					continue
				}
				found = append(found, r.Rule+" "+r.Cause)
				if r.Rule+" "+r.Cause == c.broken[0] && c.movements > 0 {
					assert.Equal(t, c.movements, r.Movements, "%+v", r.Steps)
				}
				assert.NotEmpty(t, r.Why)
			}
			assert.ElementsMatch(t, c.broken, found)
			assert.Equal(t, len(found), end.Broken)
			replayWays(t, rules)
		})
	}
}

func TestSoundLayoutsHold(t *testing.T) {
	require.GreaterOrEqual(t, len(soundLayouts), 8)
	for _, c := range soundLayouts {
		t.Run(strings.TrimSpace(c.craft+" "+c.radio), func(t *testing.T) {
			code, rules, end := proveIt(t, c, "--write", t.TempDir())
			assert.Equal(t, exit.CodeDone, code)
			assert.Zero(t, end.Broken)
			assert.Greater(t, end.Situations, uint64(1000))
			assert.GreaterOrEqual(t, end.Standing, float64(end.Situations))
			holds := 0
			for _, r := range rules {
				switch r.Outcome {
				case "holds":
					holds++
				case "with-it":
					assert.Contains(t, []string{"corner-disarms-in-flight", "menu-sticks-never-arm", "gesture-also-disarms", "arming-starts-no-motor"}, r.Rule)
				default:
					assert.Equal(t, "not-asked", r.Outcome, r.Rule)
				}
			}
			assert.Greater(t, holds, 8)
			replayWays(t, rules)
		})
	}
}

// replayWays runs every script that was written as a person does, and holds the very state in which it ends against the claim.
func replayWays(t *testing.T, rules []provedLine) {
	t.Helper()
	for _, r := range rules {
		if r.Outcome != "broken" && r.Outcome != "with-it" {
			assert.Empty(t, r.Script)
			continue
		}
		require.NotEmpty(t, r.Script, r.Rule)
		code, out, errs := command(t, "run", r.Script)
		assert.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
		assert.Contains(t, out, "expectation", out)

		p, err := playback.New(bareWorld(), &world.Named{}, r.Script)
		require.NoError(t, err)
		assert.NotEmpty(t, p.Expects)
		pr := practice.New(p.Craft.Config())
		var readings []pulse.Reading
		var happened []string
		for pr.Tick() <= r.Ends.T {
			readings, err = p.Source.Poll(readings[:0], pr.Tick()*1000)
			require.NoError(t, err)
			pr.Step(readings)
			happened = happened[:0]
			for _, h := range pr.Happenings() {
				happened = append(happened, codes.Code(h.Code))
			}
		}
		var s sim.Snapshot
		pr.Snapshot(&s)
		assert.Equal(t, r.Ends.Armed, s.Armed, r.Rule)
		assert.Equal(t, r.Ends.Mode, codes.Mode(s.Mode), r.Rule)
		assert.Equal(t, r.Ends.Link, codes.Link(s.Link), r.Rule)
		assert.Equal(t, r.Ends.Sinking, s.Sinking, r.Rule)
		if r.Ends.Happens != "" {
			assert.Contains(t, happened, r.Ends.Happens, r.Rule)
		}
		assert.Equal(t, r.Movements, numbered(r), "%s: the numbers count the movements", r.Rule)
	}
}

// numbered is the highest number of a step.
func numbered(r provedLine) (n int) {
	for _, s := range r.Steps {
		if s.Number != "" {
			n++
		}
	}
	return n
}

// A search that is stopped gives what it has, says that it is partial, and has a status of its own: nobody may take it for one that
// came to its end. What was found broken stays so.
func TestProveStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	w, out, errs := testWorld(t)
	code := execute(ctx, []string{"prove", "built-in", "--json"}, w)
	assert.Equal(t, exit.CodeUnfinished, code, errs.String())
	assert.Contains(t, out.String(), `"partial":true`)
	assert.Contains(t, out.String(), `"verdict":"unfinished"`)
	w, out, _ = testWorld(t)
	assert.Equal(t, exit.CodeUnfinished, execute(ctx, []string{"prove", "built-in"}, w))
	assert.Contains(t, out.String(), "partial")
	assert.Contains(t, out.String(), "undecided")
	// The mode gap is found without a search.
	w, out, _ = testWorld(t)
	assert.Equal(t, exit.CodeFailed, execute(ctx, []string{"prove", layoutFile("gap-between", "craft"), "--json"}, w))
	assert.Contains(t, out.String(), `"partial":true`)
	assert.Contains(t, out.String(), `"verdict":"some-broken"`)
}

// The status of every verdict; 0 is for one alone.
func TestExitStatusOfASearch(t *testing.T) {
	want := map[prove.Verdict]int{prove.AllHold: exit.CodeDone, prove.SomeBroken: exit.CodeFailed, prove.Unfinished: exit.CodeUnfinished}
	require.Len(t, want, int(prove.VerdictCount))
	for v, code := range want {
		got, text := exit.Code(exit.Of(v))
		assert.Equal(t, code, got)
		assert.Empty(t, text)
	}
}

// A craft that is to sink and never does, because of what its receiver sends: the layout sheet calls it out, and prove says it beside the
// rule, whether that holds or not.
func TestProveSaysThatACraftNeverSinks(t *testing.T) {
	text, err := os.ReadFile(layoutFile("sinks", "craft"))
	require.NoError(t, err)
	sticks, err := os.ReadFile(layoutFile("sticks-sink", "craft"))
	require.NoError(t, err)
	dir := t.TempDir()
	for name, c := range map[string]struct {
		text           []byte
		receiver, says string
	}{
		"stored off":    {text, "{when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988, mode: 988}}", "the stored values disarm it at once."},
		"stored corner": {sticks, "{when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 988, mode: 988}}", "the stored values disarm it 0.22 s after the radio's last frame."},
		"repeats":       {text, "{when-silent: repeats-last}", "it cannot know that the link is gone."},
		"stored on":     {text, "{when-silent: sends-stored, stored: {throttle: 1300, roll: 1500, pitch: 1500, yaw: 1500, arm: 2012, mode: 988}}", "it takes the stored values for a good link."},
		"falls silent":  {text, "{when-silent: falls-silent}", ""},
	} {
		path := filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+".yaml")
		require.NoError(t, os.WriteFile(path, append(slices.Clone(c.text), ("receiver: "+c.receiver+"\n")...), 0o666))
		_, out, errs := command(t, "prove", path)
		require.Empty(t, errs, name)
		said := strings.Join(strings.Fields(out), " ")
		_, lines, _ := command(t, "prove", path, "--json")
		if c.says == "" {
			assert.NotContains(t, said, "never does", name)
			assert.NotContains(t, lines, "never does", name)
			assert.Contains(t, said, "Nothing about the switch layout is called out.", name)
			continue
		}
		assert.Contains(t, said, "It is set to sink, and never does with this receiver: "+c.says, name)
		assert.Contains(t, said, "1 thing about the switch layout is called out: 1 The craft is set to sink on a lost link, and never does with this receiver: "+c.says, name)
		assert.Contains(t, lines, `"note":"It is set to sink, and never does with this receiver: `+c.says+`"`, name)
	}
}

func TestProveText(t *testing.T) {
	code, out, errs := command(t, "prove", layoutFile("held-switch", "craft"))
	assert.Equal(t, exit.CodeFailed, code)
	assert.Empty(t, errs)
	golden(t, "testdata/layouts/held-switch.text", out)
	code, out, errs = command(t, "prove", layoutFile("sticks", "craft"), layoutFile("full", "radio"), "--every-rule")
	assert.Equal(t, exit.CodeDone, code)
	assert.Empty(t, errs)
	golden(t, "testdata/layouts/sticks-full.text", out)
}

// What the card says without a search, that no hand on this radio arms the craft, is what the search finds.
func TestWhatNeverArmsIsKnownWithoutASearch(t *testing.T) {
	never := 0
	for _, c := range slices.Concat(brokenLayouts, soundLayouts) {
		craft, err := bareWorld().LoadCraft(layoutFile(c.craft, "craft"), "")
		require.NoError(t, err)
		path := ""
		if c.radio != "" {
			path = layoutFile(c.radio, "radio")
		}
		file, err := bareWorld().LoadRadio(path, "", craft)
		require.NoError(t, err)
		l := facts.LayoutOf(craft.File, file, nil)
		why, is := facts.NeverArms(&l.Config, &l.Radio)
		found := ""
		for _, b := range c.broken {
			if cause, arms := strings.CutPrefix(b, "can-arm "); arms {
				found = cause
				never++
			}
		}
		assert.Equal(t, found != "", is, c.craft+" "+c.radio)
		if is {
			assert.Equal(t, found, why.Cause.Code(), c.craft+" "+c.radio)
		}
	}
	assert.Greater(t, never, 5)
}

// What the layout sheet warns of is told, and breaks no rule: an off position 10 µs from the span's edge.
func TestProveTellsWhatTheLayoutSheetCallsOut(t *testing.T) {
	text, err := os.ReadFile(layoutFile("full", "radio"))
	require.NoError(t, err)
	c, err := bareWorld().LoadCraft(layoutFile("switch", "craft"), "")
	require.NoError(t, err)
	low := c.Config().Layout.ArmSpan.Low
	require.Equal(t, low, pulse.Micros(1600))
	near := strings.Replace(string(text), "{low: 988, rest: 988, high: 2012}, positions: [{at: 988, spread: 0.6}, {at: 2012",
		"{low: 1590, rest: 1590, high: 2012}, positions: [{at: 1590, spread: 0.6}, {at: 2012", 1)
	require.NotEqual(t, string(text), near)
	path := filepath.Join(t.TempDir(), "near.yaml")
	require.NoError(t, os.WriteFile(path, []byte(near), 0o666))
	code, out, errs := command(t, "prove", layoutFile("switch", "craft"), path)
	require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
	assert.Contains(t, out, "1 thing about the switch layout is called out:\n  1  Arm at ")
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "only 10 µs from the edge at 1600; leave 30 or more.")
	code, out, _ = command(t, "prove", layoutFile("switch", "craft"), path, "--json")
	assert.Equal(t, exit.CodeDone, code)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	var end provedLine
	require.NoError(t, json.Unmarshal([]byte(lines[len(lines)-1]), &end))
	require.Len(t, end.Called, 1)
	assert.Contains(t, end.Called[0], "only 10 µs from the edge at 1600")

	// More than one are listed, the worst first.
	both := strings.Replace(near, "{at: 2012", "{at: 1603", 1)
	require.NotEqual(t, near, both)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(both, "rest: 1590, high: 2012}", "rest: 1590, high: 1603}", 1)), 0o666))
	_, out, errs = command(t, "prove", layoutFile("switch", "craft"), path)
	assert.Contains(t, out, "2 things about the switch layout are called out:\n  1  Arm at 1603 µs: only 3 µs from the edge at 1600; leave 30 or more.\n"+
		"  2  Arm at 1590 µs: only 10 µs from the edge at 1600; leave 30 or more.\n", errs)
	_, out, _ = command(t, "prove", layoutFile("switch", "craft"), path, "--json")
	lines = strings.Split(strings.TrimSpace(out), "\n")
	require.NoError(t, json.Unmarshal([]byte(lines[len(lines)-1]), &end))
	assert.Len(t, end.Called, 2)
}

// A craft that never arms is not said to be disarmed by its radio; a try at arming it is called one.
func TestProveOfACraftThatNeverArms(t *testing.T) {
	dir := t.TempDir()
	_, rules, end := proveIt(t, layoutCase{craft: "arm-beyond"}, "--write", dir)
	for _, r := range rules {
		switch r.Rule {
		case "can-arm":
			assert.Equal(t, "broken", r.Outcome)
			code, out, _ := command(t, "run", r.Script)
			assert.Equal(t, exit.CodeDone, code)
			assert.True(t, strings.HasPrefix(out, "Script: a try that does not get there: it cannot be armed. Craft: "), out)
			assert.Contains(t, out, "At the end the craft is DISARMED.")
		case "can-disarm":
			assert.Equal(t, "not-asked", r.Outcome)
			assert.Contains(t, r.Why, "never arms")
		}
	}
	assert.Equal(t, 1, end.Broken)
}

func TestProveBadInput(t *testing.T) {
	craft, full := layoutFile("switch", "craft"), layoutFile("full", "radio")
	held := layoutFile("held-switch", "craft")
	dir := t.TempDir()
	taken := filepath.Join(dir, "loss-stops-motors.yaml")
	require.NoError(t, os.WriteFile(taken, []byte("my own\n"), 0o666))
	bare, slip := filepath.Join(dir, "bare.yaml"), filepath.Join(dir, "slip.yaml")
	require.NoError(t, os.WriteFile(bare, []byte("name: x\nsteps:\n  - {at: 1s, arm: on}\n"), 0o666))
	require.NoError(t, os.WriteFile(slip, []byte("propsoff: craft 1\nsteps: 3\n"), 0o666))
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"nothing", nil, "give a craft file"},
		{"three radios", []string{craft, full, full, full}, "at most one radio file"},
		{"five files", []string{craft, full, craft, full, full}, "at most one radio file"},
		{"a second radio in the place of the craft", []string{craft, full, "nope.yaml"}, "nope.yaml: there is no such radio file"},
		{"no such craft", []string{"nope.yaml"}, "nope.yaml: there is no such craft file"},
		{"no such radio", []string{craft, "nope.yaml"}, "nope.yaml: there is no such radio file"},
		{"a radio in the place of the craft", []string{full}, full + ":2:11: this is a radio file, and a craft file belongs here"},
		{"a script in the place of the craft", []string{"testdata/runs/switch.yaml"}, "testdata/runs/switch.yaml:2:11: this is a script, and a craft file belongs here"},
		{"a script without a first line", []string{bare}, bare + ": this is a script, and a craft file belongs here"},
		{"a craft file with a slip", []string{slip}, slip + ":2:"},
		{"a script in the place of the radio", []string{craft, "testdata/runs/switch.yaml"}, "testdata/runs/switch.yaml:2:11: this is a script, and a radio file belongs here"},
		{"a craft file with a slip, to compare", []string{craft, slip}, slip + ":2:"},
		{"a folder that cannot be", []string{held, "--write", craft + "/x"}, "cannot be made"},
		{"another file of the name", []string{held, "--write", dir}, taken + ": there is another file of that name"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := command(t, append([]string{"prove"}, c.args...)...)
			assert.Equal(t, exit.CodeBadInput, code)
			assert.Contains(t, errs, c.want)
			if c.name == "another file of the name" { // what was found is told all the same
				assert.Contains(t, out, "3 rules are broken")
				return
			}
			assert.Empty(t, out)
		})
	}
	text, err := os.ReadFile(taken)
	require.NoError(t, err)
	assert.Equal(t, "my own\n", string(text))
}

// A script finds its craft from wherever it is written: a shipped one by name, a file by the way to it. Written twice it is
// the same.
func TestWaysFindTheirCraft(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "ways")
	text, err := os.ReadFile(layoutFile("held-switch", "craft"))
	require.NoError(t, err)
	craft := filepath.Join(filepath.Dir(dir), "teasel") // a file that is called as a shipped craft is
	require.NoError(t, os.WriteFile(craft, text, 0o666))
	for range 2 {
		code, _, errs := command(t, "prove", craft, "--write", dir)
		require.Equal(t, exit.CodeFailed, code, errs)
	}
	path := filepath.Join(dir, "loss-stops-motors.yaml")
	code, out, errs := command(t, "run", path)
	assert.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
	s, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Contains(t, string(s), `craft: "../teasel"`)
}
