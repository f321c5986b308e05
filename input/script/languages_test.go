package script

import (
	"fmt"
	"os"
	"testing"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/sim/pulse"
)

// Every language says each thing that can be wrong with a script, and what an expectation came to.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("script")
	bad, err := os.ReadFile("testdata/bad.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{
		string(bad), "x", "propsoff: script 2\nstart: x\nsteps: [{at: 5s}]\nend: 1s", "propsoff: script\nsteps: [x]", "propsoff: scirpt 1\nsteps: []",
		"start: {propellers: x}\nsteps: [{at: 5s, expect: armed, within: 2s}]\nend: 1s",
		"steps: [{at: 5s, throttle: high}, {at: 86399s, expect: [[armed], {gesture: x}], within: 2s}, {after: 2s, pack: 70V}, {at: 5s, over: 1s}]",
		"steps: [{at: 86400s, arm: on}, {after: 1s, expect: {x: 1}}, {at: 5s, expect: {refused: []}, ch5: on, arm: on}, {at: 1s, after: 1s}]\nend: 5s",
		"steps: [{at: 5s, arm: on}]\nend: 1s", "steps: [{at: 5s, expect: {}}, {at: 6s, expect: {refused: {}}}]",
	} {
		_, err := Parse("x.yaml", []byte(text), testNames)
		room.Error(t, err)
	}
	knowsNone := testNames
	knowsNone.Gestures = nil
	_, err = Parse("x.yaml", []byte("steps: [{at: 5s, expect: {gesture: x}}]"), knowsNone)
	room.Error(t, err)

	for _, d := range []Draft{
		{Readings: []pulse.Reading{{At: 5000, Kind: pulse.Gap, Value: 3}}}, {Readings: []pulse.Reading{{At: 5000, Kind: pulse.Nudge}, {At: 3000, Kind: pulse.Nudge}}},
		{Readings: []pulse.Reading{{At: 5000, Kind: pulse.Link, Value: 2}}}, {Expects: []Expect{{Kind: 9}}},
	} {
		_, err := Write(d, testNames)
		room.Error(t, err)
	}
	room.Error(t, errClosed)

	checked := parse(t, "steps: [{at: 1ms, expect: [armed, disarmed, ready, mode, {mode: rate}]}, {at: 2ms, expect: mode, within: 3ms}, {at: 9ms, expect: armed}, {at: 90ms, expect: armed}]")
	for _, now := range []Now{
		{Refusals: []string{"no-link"}, Mode: "angle"}, {Armed: true, Mode: "angle", Happenings: []string{"link-lost"}}, {Mode: "angle"},
	} {
		c := checked.NewChecker()
		for tick := range int64(8) {
			for _, f := range c.Tick(tick, &now) {
				room.Error(t, f.Problem())
			}
			for i := range 3 * len(now.Happenings) {
				now.Happenings = append(now.Happenings, fmt.Sprint("link-", i))
			}
		}
		for _, f := range c.Tick(30, &now) {
			room.Error(t, f.Problem())
		}
		for _, f := range c.Finish() {
			room.Error(t, f.Problem())
		}
	}

	room.Whole(t)
}
