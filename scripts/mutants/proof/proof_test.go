// Package proof holds what prove finds of a few layouts against what is recorded of them: a bench with a broken rule of
// arming or link must give something else. The mutants program runs it on every break; on a sound bench it passes.
package proof

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

var update = flag.Bool("update", false, "record what prove finds")

// record has a line for each layout: its name, how many situations, and every rule that is not simply held to.
const record = "testdata/found.txt"

// small is the built-in craft with limits of a few slots, so that a search is a matter of milliseconds.
func small() sim.Config {
	c := sim.Default()
	c.Link.SilenceSlots, c.Link.CleanSlots = 3, 4
	c.Arming.StillSlots, c.Arming.ArmDwell, c.Arming.DisarmDwell = 3, 4, 3
	return c
}

func sticks() sim.Config {
	c := small()
	c.Arming.By, c.Layout.Arm = arming.BySticks, layout.NoChannel
	return c
}

// radio sends on the four stick channels and the switches asked for; positions by channel from 0.
func radio(switches map[int8][]int) handset.Radio {
	wants := []handset.Want{{Channel: 0, Job: "throttle"}, {Channel: 1, Job: "roll"}, {Channel: 2, Job: "pitch"}, {Channel: 3, Job: "yaw"}}
	jobs := map[int8]string{4: "arm", 5: "mode", 6: "second"}
	for c := int8(4); c < 7; c++ {
		if _, ok := switches[c]; ok {
			wants = append(wants, handset.Want{Channel: c, Job: jobs[c], Kind: handset.Switch})
		}
	}
	r := handset.Ideal(wants)
	for i := range r.Controls {
		c := &r.Controls[i]
		if at := switches[c.Channel]; at != nil {
			c.Positions = nil
			for _, us := range at {
				c.Positions = append(c.Positions, handset.Position{Width: pulse.Micros(us)})
			}
		}
	}
	return r
}

var (
	two   = []int{988, 2012}
	three = []int{988, 1500, 2012}
	plain = map[int8][]int{4: two, 5: three}
)

// layouts are sound ones, and some that a receiver or a radio breaks in a way that is recorded.
func layouts() []struct {
	name string
	prove.Layout
} {
	type named = struct {
		name string
		prove.Layout
	}
	var out []named
	add := func(name string, switches map[int8][]int, c sim.Config, change func(*sim.Config)) {
		if change != nil {
			change(&c)
		}
		c.Link.Needed = c.Layout.Needed()
		out = append(out, named{name, prove.Layout{Config: c, Radio: radio(switches)}})
	}
	stored := func(f ...int) (out pulse.Frame) {
		for c, us := range f {
			out[c] = pulse.Micros(us)
		}
		return out
	}
	add("switch", plain, small(), nil)
	add("switch, sinking", plain, small(), func(c *sim.Config) { c.Arming.SinkSlots = 4 })
	add("second switch", map[int8][]int{4: two, 5: three, 6: two}, small(), func(c *sim.Config) {
		c.Layout.Second, c.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	})
	add("self-levelling only", plain, small(), func(c *sim.Config) { c.Arming.OnlySelfLevelling = true })
	// The arm switch's high position stands on the very end of the span, which is outside; so does the middle of the mode switch.
	add("on the edge", map[int8][]int{4: {988, 1400, 1700}, 5: three}, small(), func(c *sim.Config) {
		c.Layout.ArmSpan = layout.Span{Low: pulse.Micros(1300), High: pulse.Micros(1700)}
		c.Layout.Spans[0].Span.High, c.Layout.Spans[1].Span.Low = pulse.Centre, pulse.Centre
	})
	add("gap", plain, small(), func(c *sim.Config) {
		c.Layout.Spans[1] = c.Layout.Spans[2]
		c.Layout.SpanCount = 2
	})
	// Low and middle lie in no span, so this craft is in rate wherever its switch stands, and refuses.
	add("gaps, self-levelling only", plain, small(), func(c *sim.Config) {
		c.Arming.OnlySelfLevelling = true
		c.Layout.Spans[0], c.Layout.SpanCount = c.Layout.Spans[2], 1
	})
	add("pack and camera", plain, small(), func(c *sim.Config) {
		c.Arming.PackLimitMilliVolts, c.Arming.CameraMenuCounts = 14_000, true
	})
	// A mode channel on which nothing comes: a channel with a job is missing, but the frame is valid.
	add("no mode switch", map[int8][]int{4: two}, small(), nil)
	// An arm switch whose high position is no pulse: no valid frame, and no leaving either.
	add("damaged frames", map[int8][]int{4: {988, 1700, 2200}, 5: three}, small(), nil)
	add("rolls out of the pulse", plain, small(), nil)
	r := &out[len(out)-1].Radio
	r.On(1).High = pulse.Micros(2200)
	add("repeats", plain, small(), func(c *sim.Config) { c.Link.OnLoss = link.RepeatsLast })
	add("stored off", plain, small(), func(c *sim.Config) {
		c.Link.OnLoss, c.Link.Stored = link.SendsStored, stored(988, 1500, 1500, 1500, 988, 988)
	})
	add("sticks", map[int8][]int{5: three}, sticks(), nil)
	add("sticks, sinking", map[int8][]int{5: three}, sticks(), func(c *sim.Config) { c.Arming.SinkSlots = 7 })
	// Without a clean time nothing but the latch stands between a link that comes back and an arming dwell.
	add("sticks, no clean time", map[int8][]int{5: three}, sticks(), func(c *sim.Config) { c.Link.CleanSlots = 0 })
	return out
}

// TestProveFindsIt fails where prove finds anything else than on the bench as it is. The message begins with the rules, by which
// a break shows best, and with the number of situations where it shows in that only.
func TestProveFindsIt(t *testing.T) {
	recorded := map[string][]string{}
	text, err := os.ReadFile(record)
	if err != nil && !*update {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		parts := strings.Split(line, "; ")
		recorded[parts[0]] = parts[1:]
	}
	var lines, rules, figures []string
	for _, l := range layouts() {
		report, err := prove.Search(l.Layout, prove.Options{})
		if err != nil { // the bench does not do what the search relies on
			rules = append(rules, l.name+": "+err.Error())
			continue
		}
		if report.Partial { // the ways that the search finds are none on that bench
			if *update {
				t.Fatalf("%s: a partial answer is no record", l.name)
			}
			rules = append(rules, l.name+": a partial answer")
			continue
		}
		found := []string{fmt.Sprintf("%d situations", report.Situations)}
		for _, r := range report.Results {
			if r.Outcome != prove.Holds {
				found = append(found, strings.TrimSpace(r.Rule.Code()+" "+r.Outcome.Code()+" "+r.Cause.Code()))
			}
		}
		lines = append(lines, l.name+"; "+strings.Join(found, "; "))
		was := recorded[l.name]
		if len(was) == 0 {
			was = []string{""}
		}
		for _, f := range found[1:] {
			if !slices.Contains(was[1:], f) {
				rules = append(rules, l.name+": "+f)
			}
		}
		for _, f := range was[1:] {
			if !slices.Contains(found[1:], f) {
				rules = append(rules, l.name+": no longer "+f)
			}
		}
		if found[0] != was[0] {
			figures = append(figures, l.name+": "+found[0]+", not "+was[0])
		}
	}
	if *update {
		if err := os.WriteFile(record, []byte(strings.Join(lines, "\n")+"\n"), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	switch {
	case len(rules) > 0:
		t.Errorf("rule: %s", strings.Join(rules, "; "))
	case len(figures) > 0:
		t.Errorf("figure: %s", strings.Join(figures, "; "))
	}
}
