package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// proveTwo runs prove with an instructor's radio as a person does, and gives its rules.
func proveTwo(t *testing.T, c layoutCase, his string) (code int, rules []provedLine) {
	t.Helper()
	code, rules, _ = proveIt(t, c, "--instructor", layoutFile(his, "radio"), "--write", t.TempDir())
	return code, rules
}

// With an instructor's radio its rules are asked; each written way replays as a person replays it; and what is broken there decides the exit status.
func TestProveBesideAnInstructor(t *testing.T) {
	for _, c := range []struct {
		craft, his string
		code       int
		broken     []string
	}{
		{"switch", "tutor", exit.CodeDone, nil},
		{"switch", "tutor-no-arm", exit.CodeFailed, []string{"instructor-can-disarm instructor-unsent", "instructor-holds-nothing instructor-flies-alone"}},
		{"switch", "tutor-arm-takes", exit.CodeFailed, []string{"taking-disarms-nothing taking-is-arm"}},
		{"sticks", "tutor-yaw-short", exit.CodeFailed, []string{"instructor-can-disarm instructor-off-corner", "pupil-still-disarms pupil-off-sticks", "instructor-holds-nothing instructor-flies-alone"}},
	} {
		code, rules := proveTwo(t, layoutCase{craft: c.craft, radio: "full"}, c.his)
		assert.Equal(t, c.code, code, c.his)
		var found []string
		asked := 0
		for _, r := range rules {
			if r.Outcome == "broken" {
				found = append(found, r.Rule+" "+r.Cause)
			}
			if strings.Contains(r.Rule, "instructor") && r.Outcome != "not-asked" {
				asked++
			}
		}
		assert.ElementsMatch(t, c.broken, found, c.his)
		assert.Equal(t, 4, asked, c.his)
		replayWays(t, rules)
	}
}

// Without one they are not asked, and that is said; with one the text says what was searched of it, and what was not.
func TestProveSaysWhatItSearchedOfTwoRadios(t *testing.T) {
	craft, full, his := layoutFile("switch", "craft"), layoutFile("full", "radio"), layoutFile("tutor", "radio")
	_, out, _ := command(t, "prove", craft, full, "--every-rule")
	assert.Contains(t, join(out), "Taking the sticks, or giving them back, never arms the craft. (no instructor's radio was given (--instructor))")
	_, out, _ = command(t, "prove", craft, full, "--instructor", his)
	assert.Contains(t, join(out), "With the instructor's radio Harbour Desk 2, whose channel 8 switch (T) is to take the sticks at 1500 µs or more: 625 situations of both radios")
	assert.Contains(t, join(out), "were not searched")
	_, out, _ = command(t, "prove", craft, full, "--instructor", his, "--language", "de")
	assert.Contains(t, join(out), "Mit dem Lehrersender Harbour Desk 2")
	_, out, _ = command(t, "prove", craft, full, "--instructor", his, "--json")
	last := strings.Split(strings.TrimSpace(out), "\n")
	var end struct{ Instructor string }
	require.NoError(t, json.Unmarshal([]byte(last[len(last)-1]), &end))
	assert.Equal(t, "Harbour Desk 2", end.Instructor)
}

// join is a text without its line breaks.
func join(out string) string { return strings.Join(strings.Fields(out), " ") }

func TestAnInstructorGoesWithOneLayout(t *testing.T) {
	craft, full, his := layoutFile("switch", "craft"), layoutFile("full", "radio"), layoutFile("tutor", "radio")
	for _, args := range [][]string{{full, "--mend"}, {full, "--elsewhere"}, {layoutFile("second", "craft"), full}} {
		code, _, errs := command(t, append([]string{"prove", craft, "--instructor", his}, args...)...)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "by itself")
	}
	code, _, errs := command(t, "prove", craft, full, "--instructor", "nope.yaml")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "nope.yaml: there is no such radio file")
}
