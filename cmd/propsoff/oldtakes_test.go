package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/input/take"
	"propsoff.example/sim"
)

// The takes of testdata/takes are those that the last program of each earlier model wrote. They stay as they are, and must load and be told for
// ever; beside each stands what that program told of it (of killed.take, which is switch.take without its end, nothing). Those of model 2 are the
// hands of model 1's, flown again, and the runs of the scripts as own-….
const (
	modelOne = "testdata/takes/model-1"
	modelTwo = "testdata/takes/model-2"
)

func oldTakes(t *testing.T) []string {
	t.Helper()
	var all []string
	for dir, n := range map[string]int{modelOne: 16, modelTwo: 17} {
		found, err := filepath.Glob(dir + "/*.take")
		require.NoError(t, err)
		require.Len(t, found, n)
		all = append(all, found...)
	}
	slices.Sort(all)
	return all
}

// oldName is what a take is called here: its model's folder and its file.
func oldName(path string) string {
	return filepath.Base(filepath.Dir(path)) + "/" + filepath.Base(path)
}

// Whatever today's model makes of its readings, what happened is told as it was recorded.
func TestTakesOfOlderModelsAreToldAsRecorded(t *testing.T) {
	for _, path := range oldTakes(t) {
		t.Run(oldName(path), func(t *testing.T) {
			code, out, errs := command(t, "run", path, "--json")
			require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
			told, err := os.ReadFile(strings.TrimSuffix(path, ".take") + ".jsonl")
			if os.IsNotExist(err) {
				require.Contains(t, path, "killed")
				return
			}
			require.NoError(t, err)
			assert.Equal(t, strings.TrimSpace(string(told)), happenings(out))
		})
	}
}

// The takes are worth keeping: together they hold every happening of model 1, every cause of disarming, every near miss and
// every refusal that an arming can meet (no link is none: without one nobody hears the arm switch).
func TestTakesOfModelOneHoldAllThereWas(t *testing.T) {
	type line struct {
		Code, Cause, Near, Did string
		Why                    []string
		Kept                   *bool
	}
	seen := map[string]bool{}
	files, err := filepath.Glob(modelOne + "/*.jsonl")
	require.NoError(t, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for row := range strings.Lines(string(text)) {
			var l line
			require.NoError(t, json.Unmarshal([]byte(row), &l))
			for _, word := range slices.Concat([]string{l.Code, l.Cause, l.Near, l.Did}, l.Why) {
				seen[word] = true
			}
			if l.Kept != nil {
				seen[map[bool]string{true: "kept", false: "put-back"}[*l.Kept]] = true
			}
		}
	}
	for _, word := range strings.Fields(`
		armed disarmed refused link-lost link-back link-clean sinking control-back mode air-mode settled power cable transmitter plug tilt nudged
		menu pack-volts travel-short readings-lost slept bench propellers took-off touched-down tipped-over stick-mode gesture gesture-missed
		menu-mark menu-value menu-left instructor
		by-switch by-sticks cut-on-loss sunk power-lost
		early corner overshot late kept put-back
		radio-off dropouts receiver reversed swapped short-travel stuck noisy off-centre channel-out mode-gap low-pack wrong-propeller cable-in
		throttle-up off-first second-switch-off not-self-levelling link-too-fresh channel-missing not-yet-still tilted on-cable menu-open
		pack-low propellers-unchecked`) {
		assert.True(t, seen[word], word)
	}
}

// changedSince are the takes of older models in which today's model brings something else about, with the tick of the first difference and what
// is said of it. The other takes come out the same, refusals under their new name too.
var changedSince = map[string]struct {
	tick int64
	says string
}{
	"model-1/hop.take":             {3456, "The model has changed: at 3.456 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-1/plain-flown.take":     {4435, "The model has changed: at 4.435 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-1/sinks-outside.take":   {3456, "The model has changed: at 3.456 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-1/stored-values.take":   {3000, "The model has changed: at 3.000 s the take tells “Disarmed: the arm channel left its span.”, today's model “Disarmed: the radio is silent"},
	"model-1/wrong-propeller.take": {3467, "today's model “It broke: a propeller met the ground at 0.63 m/s while it still turned."},
	"model-2/hop.take":             {3456, "The model has changed: at 3.456 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-2/own-hop.take":         {3447, "The model has changed: at 3.447 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-2/plain-flown.take":     {4435, "The model has changed: at 4.435 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-2/sinks-outside.take":   {3456, "The model has changed: at 3.456 s the take tells nothing, today's model “The craft has left the ground.”"},
	"model-2/wrong-propeller.take": {3467, "today's model “It broke: a propeller met the ground at 0.63 m/s while it still turned."},
}

// Today's model plays the hands of an older take; the first thing that it does otherwise is told, and is no failure.
func TestWhatTheModelDoesOtherwiseIsToldAndNoFailure(t *testing.T) {
	type line struct {
		T           int64 `json:"t_ms"`
		Code, Text  string
		Same        *bool
		Model       int
		Compared    int
		Note, Cause string
	}
	for _, path := range oldTakes(t) {
		name := oldName(path)
		t.Run(name, func(t *testing.T) {
			code, out, errs := command(t, "run", path, "--json")
			require.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
			var changed, finished, notice []line
			for row := range strings.Lines(out) {
				var l line
				require.NoError(t, json.Unmarshal([]byte(row), &l), row)
				switch l.Code {
				case "model-changed":
					changed = append(changed, l)
				case "finished":
					finished = append(finished, l)
				case "notice":
					notice = append(notice, l)
				case "difference":
					t.Error("an older model is no damage: ", row)
				}
			}
			require.Len(t, finished, 1)
			model := map[string]int{"model-1": 1, "model-2": 2}[strings.Split(name, "/")[0]]
			assert.Equal(t, model, finished[0].Model)
			assert.Greater(t, finished[0].Compared, 5)
			require.Len(t, notice, 1)
			assert.Contains(t, notice[0].Text, fmt.Sprint("recorded with model ", model))
			want, has := changedSince[name]
			assert.Equal(t, !has, *finished[0].Same)
			if !has {
				assert.Empty(t, changed)
				return
			}
			require.Len(t, changed, 1)
			assert.Equal(t, want.tick, changed[0].T)
			assert.Contains(t, changed[0].Text, want.says)
		})
	}
	_, out, _ := command(t, "run", modelOne+"/sink.take")
	assert.Contains(t, out, "The craft sinks: level, throttle fading to idle over 2 s.", "as that model did it")
	assert.Contains(t, out, "all 18 happenings come out the same")
	_, out, _ = command(t, "run", modelOne+"/craft-refuses.take")
	assert.Contains(t, out, "Arming refused: the craft was tilted, the craft was plugged in by its set-up cable, a menu was open and the pack was low.")
}

// With another craft, or flown from it, an older take is only hands; a take that is made of it is of today's model, with the craft as
// model 1 had it.
func TestAnOlderTakeAsHands(t *testing.T) {
	code, out, errs := command(t, "run", modelOne+"/switch.take", "--craft", "built-in")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "nothing was compared")
	assert.NotContains(t, out, "model 1")
	code, out, errs = command(t, "fly", modelOne+"/hop.take", "--table", filepath.Join(t.TempDir(), "a.csv"))
	require.Equal(t, exit.CodeDone, code, errs)
	assert.NotContains(t, out, "model")
	assert.Contains(t, errs, "recorded with model 1 of the bench; its hands are flown by today's model 3")

	again := filepath.Join(t.TempDir(), "again.take")
	code, _, errs = command(t, "run", modelOne+"/plain-flown.take", "--record", again)
	require.Equal(t, exit.CodeDone, code, errs)
	r, err := take.Open(again)
	require.NoError(t, err)
	defer r.Close()
	s := r.Settings()
	assert.Equal(t, sim.Model, s.Model)
	assert.Contains(t, s.CraftFilled, "idle-speed: 6 %")
	part, err := takes.Read(again, &s)
	require.NoError(t, err)
	cfg := part.Craft.Config()
	assert.EqualValues(t, 600, cfg.Flight.IdleSpeed)
	assert.Equal(t, 0.3, cfg.Control.Curve[0].Exponential)
	code, out, errs = command(t, "run", again)
	require.Equal(t, exit.CodeDone, code, out+errs)
	assert.Contains(t, out, "came out the same")
}

// A take of a model that is to come is refused by name, wherever takes are read.
func TestANewerModelIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new.take")
	tape := take.NewTape()
	require.NoError(t, tape.Part(take.Settings{Model: sim.Model + 1, CraftText: "propsoff: craft 1\nsomething: new\n"}))
	require.NoError(t, tape.Record(path))
	require.NoError(t, tape.Close())
	for _, args := range [][]string{{"run", path}, {"run", path, "--live"}, {"run", path, "--craft", "built-in"}, {"fly", path}, {"--play", path}} {
		code, _, errs := command(t, args...)
		assert.Equal(t, exit.CodeBadInput, code, args)
		assert.Contains(t, errs, path+": this take was recorded with model 4 of the bench, and this propsoff knows models up to 3: use a newer propsoff", args)
	}
}
