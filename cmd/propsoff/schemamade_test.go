//go:build unix

package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/input"
	"propsoff.example/input/check"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
)

// madeLines are lines as the program's own writers give them, of the cases that take a hand, a fault or many minutes to come to.
func madeLines() map[string][]byte {
	all, text := map[string][]byte{}, words.AsIs("…")
	l := terminal.LearnLines{Form: terminal.Form{JSON: true}}
	dst := l.Notice(nil, 0, text)
	dst = l.Unplugged(l.Radio(dst, 1, &input.Info{Name: "Moorland Desk 7"}), 2, "Moorland Desk 7")
	dst = l.NotKept(l.Kept(l.File(dst, 3, &radio.File{}), 4, "x", "y"), 5, text)
	item := learn.Item{Question: learn.Once, Job: "arm"}
	view := &learn.View{Question: learn.Once, Step: learn.Each, Plan: []learn.Item{item}, Last: -1, Trying: true, StickMode: 2, ModeKnown: true, Job: "arm"}
	dst = l.See(dst, 6, view)
	answered := *view
	answered.Plan = []learn.Item{item}
	answered.Plan[0].Answered = true
	answered.Notice = learn.Notice{Code: learn.Restless, Axis: 1, Button: -1, OtherAxis: -1, OtherButton: 2, Job: "arm"}
	all["learn"] = l.See(dst, 7, &answered)

	c := terminal.Checked{Form: terminal.Form{JSON: true}, View: &check.View{Control: -1, Controls: []check.Control{{Job: "throttle", Called: "the left lever"}}}}
	dst = c.Ask(c.Said(nil, text))
	for _, it := range []check.Item{{Control: -1, Kind: check.Rate, Unit: check.PerSecond}, {Verdict: check.Fails, Known: true, Bound: true, Value: 1500, Why: check.Leaps, Cure: check.Steady}} {
		dst = c.Item(dst, &it)
		c.View.Items = append(c.View.Items, it)
	}
	all["check"] = c.End(dst)

	f := terminal.Form{JSON: true}
	dst = f.Failure(nil, 0, script.Failed{Expect: script.Expect{Kind: script.Armed}, Seen: text})
	dst = f.Notice(f.Difference(f.Difference(dst, 0, text, false), 0, text, true), 0, text)
	none := lesson.Found{Broke: 5000}
	saved := lesson.Found{Broke: 5000, Last: lesson.Way{Any: true, At: 4000}}
	saved.Of[lesson.Level] = saved.Last
	dst = f.Stopped(f.Lesson(f.Lesson(dst, &none), &saved), 3)
	all["run"] = f.Finish(f.Finish(f.Finish(dst, &terminal.Finish{Note: text}), &terminal.Finish{Replay: true, Model: 1}), &terminal.Finish{Replay: true})

	shut := terminal.Mends{Proof: terminal.Proof{Layout: &prove.Layout{}, Report: &prove.Report{}}, Found: &mend.Report{Exclude: []prove.Rule{prove.ArmControlStays}}}
	all["prove"] = shut.AppendJSON(nil)

	dst = nil
	own, cfg := &drillfile.Words{}, &drill.Config{Cases: []drill.Case{{}}}
	for _, hand := range []mark.Hand{{}, {Axis: mark.Yaw}, {Axis: mark.Roll, Measured: true}} {
		dst = terminal.AppendFields(dst, append([]any{"t_ms", int64(5), "code", "verdict"}, termlive.VerdictFields(&drill.Try{Verdict: drill.Right, Hand: hand, Reaction: 200}, own, cfg)...)...)
	}
	all["drill run"] = terminal.AppendFields(dst, "t_ms", int64(5), "code", "seen", "want", 0, "say", text)
	return all
}

// foreseen are the lines of an examiner who is answered.
func foreseen(t *testing.T) (all []string) {
	t.Helper()
	w, out, _ := testWorld(t)
	w.In = strings.NewReader(strings.Repeat("1\n", 12))
	execute(context.Background(), []string{"drill", "foresee", "--json", "--questions", "6", "--seed", "3"}, w)
	return strings.Split(strings.TrimSpace(out.String()), "\n")
}

// proved are lines of a mend that is taken over into a craft file, and of pairs of layouts that differ in other ways.
func proved(t *testing.T) (all []string) {
	t.Helper()
	text, err := os.ReadFile(layoutFile("switch", "craft"))
	require.NoError(t, err)
	mine, slow := filepath.Join(t.TempDir(), "mine.yaml"), filepath.Join(t.TempDir(), "slow.yaml")
	require.NoError(t, os.WriteFile(mine, text, 0o600))
	require.NoError(t, os.WriteFile(slow, append(text, "receiver: {frame-every: 22 ms}\n"...), 0o600))
	for _, args := range [][]string{
		{mine, layoutFile("roll-no-pulse", "radio"), "--mend", "--take", "1"},
		{layoutFile("switch", "craft"), slow},
		{layoutFile("switch", "craft"), layoutFile("low-mark", "craft")},
		{layoutFile("switch", "craft"), layoutFile("full", "radio"), layoutFile("arm-noisy", "radio")},
	} {
		_, out, errs := command(t, append([]string{"prove", "--json"}, args...)...)
		require.NotEmpty(t, out, "%q: %s", args, errs)
		all = append(all, strings.Split(strings.TrimSpace(out), "\n")...)
	}
	return all
}

// drillTold runs a drill in which no hand moves, until a line is there.
func drillTold(t *testing.T, until, code string) []string {
	t.Helper()
	r := startCommand(t, deskBus(), nil, "drill", "run", code, "--json", "--tries", "1", "--radio", radioFile(t, radioText))
	r.until(t, until)
	r.stop(t)
	return strings.Split(strings.TrimSpace(r.out.String()), "\n")
}

// deskBus is a bus with a radio whose throttle is down, and which lies still.
func deskBus() *bus {
	b := newBus()
	desk := found("Moorland Desk 7", "/dev/input/event5", "A")
	b.last[desk.Path] = input.Raw{Axes: [input.MaxAxes]int32{0, 1024, 1024, 1024, 0, 0}}
	b.plug(desk)
	return b
}

// inLogbook are lines of a logbook with every kind of entry.
func inLogbook(t *testing.T) []string {
	t.Helper()
	folder, at := filepath.Join(t.TempDir(), "logbook"), time.Date(2031, 4, 5, 12, 0, 0, 0, time.UTC)
	b, err := (logbook.Store{Dir: folder}).Open("Ann", at)
	require.NoError(t, err)
	cfg := &drill.Config{Code: "follow-yaw", Cases: []drill.Case{{}}}
	run := &drill.Run{Drill: "follow-yaw", Tries: []drill.Try{{Verdict: drill.Right, Reaction: -1, Hand: mark.Hand{Axis: mark.Yaw, Measured: true, DelayMS: 200}}}}
	drilled := logbook.OfRun(at, run, cfg, "Follow a mark")
	drilled.Drill.Hands, drilled.Drill.CameIn = []string{"radio"}, "script"
	require.NoError(t, b.Append(drilled, logbook.OfQuestion(at, &examine.Asked{ID: "x"})))
	require.NoError(t, b.Close())
	_, out, _ := command(t, "logbook", "--folder", folder, "--pupil", "Ann", "--json")
	return strings.Split(strings.TrimSpace(out), "\n")
}
