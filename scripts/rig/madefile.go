package main

import (
	"fmt"
	"strings"

	"propsoff.example/scripts/rig/fakeradio"
)

// madeFile writes the radio file that a perfect learning of a made radio would give: for checks that learn nothing first,
// and for the tests of the comparison.
func madeFile(m *fakeradio.Made, jobs []string) string {
	var lines []string
	for _, job := range jobs {
		c, _ := m.Control(job)
		lines = append(lines, fmt.Sprintf("%s: {%s}", job, strings.Join(madeFields(m, c), ", ")))
	}
	return radioFile(m.Radio, lines...)
}

func madeFields(m *fakeradio.Made, c fakeradio.Control) (out []string) {
	axis := kernelAxis(m, c)
	if axis == fakeradio.Nothing {
		return buttonFields(c)
	}
	rule, noise := madeAxis(m, c)
	lo, hi, places := rule.Min, rule.Max, c.Places
	if c.Axis == fakeradio.Nothing {
		places = hatPlaces(places)
	}
	low, rest, high := min(c.Low, c.High), c.Rest, max(c.Low, c.High)
	if n := len(places); n > 0 {
		low, high = min(places[0].Value, places[n-1].Value), max(places[0].Value, places[n-1].Value)
		rest = places[0].Value
	}
	if c.Backwards() || len(places) > 0 && places[0].Value > places[len(places)-1].Value {
		lo, hi = hi, lo
	}
	out = append(out,
		fmt.Sprintf("axis: %d", axis+1),
		fmt.Sprintf("scale: {988: %d, 1500: %g, 2012: %d}", lo, (float64(lo)+float64(hi))/2, hi),
		fmt.Sprintf("reach: {low: %d, rest: %d, high: %d}", low, rest, high))
	var list []string
	for _, p := range places {
		list = append(list, fmt.Sprintf("{at: %d, spread: %.1f}", p.Value, noise))
	}
	if list != nil {
		out = append(out, "positions: ["+strings.Join(list, ", ")+"]")
	}
	if n := filteredNoise(m, c, standsAt(c)[0]); n >= 0.05 {
		out = append(out, fmt.Sprintf("noise: %.1f", n))
	}
	if c.Grip == fakeradio.Knob || c.Grip == fakeradio.Stick && !c.Springs {
		out = append(out, "stays: yes")
	}
	if c.Grip == fakeradio.Key {
		out = append(out, "momentary: yes")
	}
	return out
}

func buttonFields(c fakeradio.Control) (out []string) {
	var row []string
	for _, p := range c.Places {
		word := "none"
		if p.Button != fakeradio.Nothing {
			word = fmt.Sprint(p.Button + 1)
		}
		row = append(row, word)
	}
	out = []string{"buttons: [" + strings.Join(row, ", ") + "]"}
	if len(row) == 2 && row[0] == "none" {
		out[0] = "button: " + row[1]
	}
	if c.Grip == fakeradio.Key {
		out = append(out, "momentary: yes")
	}
	return out
}

// jobsOf gives the jobs of all controls, in the order of the model.
func jobsOf(m *fakeradio.Made) (out []string) {
	for _, c := range m.Controls {
		out = append(out, c.Job)
	}
	return out
}
