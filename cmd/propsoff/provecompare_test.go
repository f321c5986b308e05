package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// comparedSide is what a line of JSON tells of one of two layouts.
type comparedSide struct {
	T       int64 `json:"t_ms"`
	Armed   bool
	Motors  bool `json:"motors_turn"`
	Sinking bool
	Mode    string
	Refused []string
	Script  string
	Craft   string
	Radio   string
	Ideal   bool
}

type comparedLine struct {
	Code      string
	Graver    bool
	In        []string
	Movements int
	Lasts     *int64 `json:"lasts_ms"`
	Steps     []struct {
		Number, Does, Text string
		A, B               struct {
			Channel int
			Then    []string
		}
	}
	A, B       comparedSide
	Situations uint64
	Partial    bool
	Likeness   string
	Apart      []string `json:"not_compared"`
	Notes      []string
}

// compareThem runs prove with two layouts as a person does, and gives its lines: the differences, and the last.
func compareThem(t *testing.T, args ...string) (code int, found []comparedLine, end comparedLine) {
	t.Helper()
	code, out, errs := command(t, append([]string{"prove", "--json"}, args...)...)
	require.Empty(t, errs)
	for _, text := range strings.Split(strings.TrimSpace(out), "\n") {
		var l comparedLine
		require.NoError(t, json.Unmarshal([]byte(text), &l), text)
		if l.Code == "difference" {
			found = append(found, l)
		} else {
			end = l
		}
	}
	require.Equal(t, "compared", end.Code)
	return code, found, end
}

// Which layouts are compared is told by what the files are; what is found is what both do when the scripts of it are played to them.
func TestTwoLayoutsAreToldApart(t *testing.T) {
	craft := func(name string) string { return layoutFile(name, "craft") }
	radio := func(name string) string { return layoutFile(name, "radio") }
	for _, c := range []struct {
		args           []string
		status         int
		in             string // what the last difference is in, empty for none
		craftB, radioB string
	}{
		{[]string{"teasel", "teasel"}, exit.CodeDone, "", "Teasel", ""},
		{[]string{"teasel", "teasel", radio("full")}, exit.CodeDone, "", "Teasel", "Moorland Desk 7"},
		{[]string{craft("switch"), radio("full"), radio("six")}, exit.CodeDone, "", "Switch", "Moorland Desk 7"},
		{[]string{craft("switch"), radio("full"), radio("arm-springs")}, exit.CodeFailed, "armed", "Switch", "Moorland Desk 7"},
		{[]string{craft("switch"), radio("full"), radio("throttle-springs")}, exit.CodeFailed, "armed", "Switch", "Moorland Desk 7"},
		{[]string{craft("switch"), radio("full"), radio("throttle-short")}, exit.CodeFailed, "armed", "Switch", "Moorland Desk 7"},
		{[]string{craft("switch"), craft("held-switch")}, exit.CodeFailed, "armed", "Repeats, by switch", ""},
		{[]string{craft("switch"), craft("order"), radio("full")}, exit.CodeFailed, "mode", "Other order", "Moorland Desk 7"},
		{[]string{craft("switch"), craft("rate-first")}, exit.CodeFailed, "mode", "Rate first", ""},
		{[]string{craft("switch"), radio("full"), craft("idles"), radio("full")}, exit.CodeFailed, "motors", "Idles", "Moorland Desk 7"},
		{[]string{craft("switch"), craft("sticks")}, exit.CodeFailed, "armed", "Sticks", ""},
	} {
		name := strings.Join(c.args, " ")
		dir := t.TempDir()
		code, found, end := compareThem(t, append(c.args, "--write", dir)...)
		assert.Equal(t, c.status, code, name)
		assert.False(t, end.Partial)
		assert.Equal(t, c.radioB == "", end.B.Ideal, name)
		assert.Equal(t, c.radioB, end.B.Radio, name)
		if c.in == "" {
			assert.Empty(t, found, name)
			assert.Equal(t, "alike", end.Likeness, name)
			continue
		}
		assert.Equal(t, "different", end.Likeness, name)
		if !assert.NotEmpty(t, found, name) {
			continue
		}
		assert.Contains(t, found[len(found)-1].In, c.in, name)
		for _, d := range found {
			assert.NotEqual(t, d.A.Script, d.B.Script)
			replayCompared(t, &d.A)
			replayCompared(t, &d.B)
		}
	}
}

// replayCompared runs the script of one of two crafts as a person does, and holds what the craft does at its end against what was told.
func replayCompared(t *testing.T, side *comparedSide) {
	t.Helper()
	code, out, errs := command(t, "run", side.Script)
	assert.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
	assert.Contains(t, out, "expectation", out)
	p, err := playback.New(bareWorld(), &world.Named{}, side.Script)
	require.NoError(t, err)
	pr := practice.New(p.Craft.Config())
	var readings []pulse.Reading
	var refused []string
	for pr.Tick() <= side.T {
		readings, err = p.Source.Poll(readings[:0], pr.Tick()*1000)
		require.NoError(t, err)
		pr.Step(readings)
		refused = nil
		for _, h := range pr.Happenings() {
			if h.Code == happening.Refused {
				refused = codes.Why(facts.Set(h.A))
			}
		}
	}
	s := pr.Bench().State()
	assert.Equal(t, side.Armed, s.Slot.Arming.Armed, side.Script)
	assert.Equal(t, side.Motors, s.Motor[0] > 0, side.Script)
	assert.Equal(t, side.Sinking, s.Slot.Arming.Sink > 0, side.Script)
	assert.Equal(t, side.Mode, codes.Mode(s.Slot.Layout.Mode), side.Script)
	assert.Equal(t, side.Refused, refused, side.Script)
}

func TestComparedText(t *testing.T) {
	code, out, errs := command(t, "prove", layoutFile("switch", "craft"), layoutFile("held-switch", "craft"), layoutFile("full", "radio"))
	assert.Equal(t, exit.CodeFailed, code)
	assert.Empty(t, errs)
	golden(t, "testdata/layouts/switch-held-switch.text", out)
	code, out, errs = command(t, "prove", "--language", "de", layoutFile("switch", "craft"), layoutFile("low-mark", "craft"))
	assert.Equal(t, exit.CodeFailed, code)
	assert.Empty(t, errs)
	said := strings.Join(strings.Fields(out), " ")
	for _, says := range []string{"A: Copter Switch", "B: Copter High mark", "Sie verhalten sich nicht gleich.", "Das Kürzeste, worauf sie verschieden antworten: 3 Bewegungen", "mehr als eine Verweigerung",
		"B: SCHARF, die Motoren stehen, Modus", "So bleibt es, solange sich nichts bewegt."} {
		assert.Contains(t, said, says)
	}
}

// What is taken for granted is said: a job on another channel, a control that only one radio has, a frame period, what is not compared.
func TestWhatIsTakenForGrantedOfTwoLayoutsIsSaid(t *testing.T) {
	text, err := os.ReadFile(layoutFile("switch", "craft"))
	require.NoError(t, err)
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	plain := put("plain.yaml", string(text))
	slow := put("slow.yaml", string(text)+"receiver: {frame-every: 22 ms}\n")
	code, _, end := compareThem(t, plain, slow)
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, end.Apart, "frame-period")
	assert.Contains(t, strings.Join(end.Notes, " "), "20 and 22 ms")

	_, _, end = compareThem(t, layoutFile("switch", "craft"), layoutFile("order", "craft"), layoutFile("full", "radio"))
	assert.Contains(t, strings.Join(end.Notes, " "), "what it sends on a channel is the same whichever craft listens")
	assert.Contains(t, strings.Join(end.Notes, " "), "mode (channel 6 with A, channel 9 with B)")
	_, _, end = compareThem(t, layoutFile("switch", "craft"), layoutFile("full", "radio"), layoutFile("order", "craft"), layoutFile("six", "radio"))
	assert.Contains(t, strings.Join(end.Notes, " "), "it is assumed that the radio sends each where the craft listens")

	_, _, end = compareThem(t, layoutFile("switch", "craft"), layoutFile("full", "radio"), layoutFile("no-mode", "radio"))
	assert.Contains(t, strings.Join(end.Notes, " "), "Only A uses this control: mode switch")
}

// A comparison that was stopped says so and has the status of its own.
func TestAComparisonStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	w, out, errs := testWorld(t)
	code := execute(ctx, []string{"prove", "teasel", "teasel"}, w)
	assert.Equal(t, exit.CodeUnfinished, code, errs.String())
	assert.Contains(t, out.String(), "No difference was found so far, but not everything was searched")
	w, out, _ = testWorld(t)
	assert.Equal(t, exit.CodeUnfinished, execute(ctx, []string{"prove", "teasel", "teasel", "--json"}, w))
	assert.Contains(t, out.String(), `"likeness":"unfinished"`)
}

// A script that somebody else wrote stays, and what was found is told all the same.
func TestScriptsOfAComparisonAreWrittenOverNothing(t *testing.T) {
	dir := t.TempDir()
	taken := filepath.Join(dir, "difference-b.yaml")
	require.NoError(t, os.WriteFile(taken, []byte("my own\n"), 0o666))
	code, out, errs := command(t, "prove", layoutFile("switch", "craft"), layoutFile("rate-first", "craft"), "--write", dir)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, taken+": there is another file of that name")
	assert.Contains(t, out, "They do not behave alike.")
	mine, err := os.ReadFile(taken)
	require.NoError(t, err)
	assert.Equal(t, "my own\n", string(mine))
}

// Standard input is one of the files, once; what is no layout is refused.
func TestArgumentsOfAComparison(t *testing.T) {
	craft, err := os.ReadFile(layoutFile("switch", "craft"))
	require.NoError(t, err)
	radio, err := os.ReadFile(layoutFile("full", "radio"))
	require.NoError(t, err)
	full := layoutFile("full", "radio")
	for _, c := range []struct {
		args   string
		in     string
		status int
		says   string
	}{
		{"prove - " + layoutFile("switch", "craft"), string(craft), exit.CodeDone, "They behave alike"},
		{"prove " + layoutFile("switch", "craft") + " -", string(craft), exit.CodeDone, "They behave alike"},
		{"prove - " + full + " " + full, string(craft), exit.CodeDone, "They behave alike"},
		{"prove " + layoutFile("switch", "craft") + " " + full + " -", string(radio), exit.CodeDone, "They behave alike"},
		{"prove - -", string(craft), exit.CodeBadInput, "standard input"},
		{"prove " + full + " teasel", "", exit.CodeBadInput, "this is a radio file, and a craft file belongs here"},
		{"prove teasel teasel testdata/runs/switch.yaml", "", exit.CodeBadInput, "this is a script, and a radio file belongs here"},
		{"prove teasel teasel gone.yaml", "", exit.CodeBadInput, "gone.yaml"},
		{"prove teasel " + full + " teasel", "", exit.CodeBadInput, "or two layouts to compare"},
		{"prove teasel teasel teasel", "", exit.CodeBadInput, "or two layouts to compare"},
		{"prove teasel teasel --write -", "", exit.CodeBadInput, "the scripts are several files"},
	} {
		w, out, errs := testWorld(t)
		w.In = strings.NewReader(c.in)
		code := execute(context.Background(), strings.Fields(c.args), w)
		assert.Equal(t, c.status, code, "%s: %s%s", c.args, out, errs)
		assert.Contains(t, out.String()+errs.String(), c.says, c.args)
	}
}

// Whoever exchanges two channels in the craft file alone has a radio that sends on as before: that is a difference, however the radio's file is named.
func TestExchangedChannelsOnOneRadio(t *testing.T) {
	text, err := os.ReadFile(layoutFile("switch", "craft"))
	require.NoError(t, err)
	full, err := os.ReadFile(layoutFile("full", "radio"))
	require.NoError(t, err)
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	was := layoutFile("switch", "craft")
	exchanged := put("exchanged.yaml", strings.Replace(string(text), "arm: 5, mode: 6", "arm: 6, mode: 5", 1))
	radio, copied := layoutFile("full", "radio"), put("copied.yaml", string(full))
	for _, args := range [][]string{{was, exchanged}, {was, exchanged, radio}, {exchanged, was, radio}, {was, radio, exchanged, radio}, {was, radio, exchanged, copied}} {
		code, found, end := compareThem(t, append(args, "--write", filepath.Join(dir, "ways"))...)
		assert.Equal(t, exit.CodeFailed, code, args)
		assert.Equal(t, "different", end.Likeness, args)
		require.NotEmpty(t, found, args)
		for _, d := range found {
			replayCompared(t, &d.A)
			replayCompared(t, &d.B)
		}
		assert.Contains(t, strings.Join(end.Notes, " "), "arm (channel ", args)
	}
}

// What noise makes of a control is told with the control, the radio and the values, and only where there is any; and likeness is not proved by leaving it out.
func TestNoiseOfTwoLayoutsIsNamed(t *testing.T) {
	craft, full, noisy := layoutFile("switch", "craft"), layoutFile("full", "radio"), layoutFile("arm-noisy", "radio")
	code, out, _ := command(t, "prove", craft, full, full)
	assert.Equal(t, exit.CodeDone, code)
	assert.NotContains(t, out, "noise")
	assert.Equal(t, 1, strings.Count(out, "They behave alike"))
	assert.False(t, strings.HasSuffix(out, "\n\n"))

	code, out, _ = command(t, "prove", craft, full, noisy)
	said := strings.Join(strings.Fields(out), " ")
	assert.Equal(t, exit.CodeUnfinished, code, out)
	assert.Contains(t, said, "but noise may: they are not proved alike")
	assert.Contains(t, said, "B: The arm switch, ")
	assert.NotContains(t, said, "A: The arm switch, ")
	assert.Contains(t, said, "its noise also sends 1600 µs")
	assert.Contains(t, said, "A: Craft Switch, radio Moorland Desk 7, as it was measured. Craft file: "+craft+"; radio file: "+full)
	code, out, _ = command(t, "prove", "--json", craft, full, noisy)
	assert.Equal(t, exit.CodeUnfinished, code)
	assert.Contains(t, out, `"noise":[{"layout":"b","job":"arm","channel":5,"position":`)
	assert.Contains(t, out, `"noise_differs":true`)

	code, out, _ = command(t, "prove", craft, noisy, noisy)
	assert.Equal(t, exit.CodeDone, code)
	assert.Contains(t, out, "Noise does the same with both.")
}

// What was written is told, with the radio in it; that there was nothing to write is told as well.
func TestWhatAComparisonWritesIsTold(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "ways")
	craft, full := layoutFile("switch", "craft"), layoutFile("full", "radio")
	_, out, _ := command(t, "prove", craft, full, full, "--write", dir)
	assert.Contains(t, out, "Nothing was written: there is no difference to show.")
	_, out, _ = command(t, "prove", craft, full, layoutFile("throttle-springs", "radio"), "--write", dir)
	for _, name := range []string{"difference-a.yaml", "difference-b.yaml", "difference-beyond-refusal-a.yaml", "difference-beyond-refusal-b.yaml"} {
		path := filepath.Join(dir, name)
		assert.Contains(t, out, path)
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Contains(t, string(text), "Two layouts do not answer alike")
		assert.Contains(t, string(text), layoutFile("throttle-springs", "radio"))
		assert.Contains(t, string(text), "# A: ")
	}
}
