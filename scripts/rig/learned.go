package main

import (
	"fmt"
	"math"
	"slices"
	"time"

	"gopkg.in/yaml.v3"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
	"propsoff.example/scripts/rig/kernelrule"
)

// A radio file as this rig reads it: by a general reader and by the format's own description (the head of every file), not
// by the program under test.
type learnedFile struct {
	Propsoff string
	Device   struct{ Name, Vendor, Product, Serial, Port string }
	Mode     int `yaml:"stick-mode"`
	Controls map[string]learnedControl
}

type learnedControl struct {
	Axis, Button int   // from 1, 0 where there is none
	Buttons      []any // numbers, or none
	Scale        struct {
		Low    float64 `yaml:"988"`
		Middle float64 `yaml:"1500"`
		High   float64 `yaml:"2012"`
	}
	Reach     *struct{ Low, Rest, High float64 }
	Positions []struct{ At, Spread float64 }
	Noise     float64
	Stays     bool
	Momentary bool
	Side      string
	Called    string
}

func readLearned(data []byte) (f learnedFile, err error) {
	if err := yaml.Unmarshal(data, &f); err != nil {
		return f, err
	}
	if f.Propsoff != "radio 1" {
		return f, fmt.Errorf("it begins with %q", f.Propsoff)
	}
	return f, nil
}

// Limits of what is learned against what was made.
const (
	learnedMicros     = 4.0 // and learnedDeviations standard deviations
	learnedDeviations = 3.0
	// The spread and the noise are estimates from some hundred reports that are not independent of each other, because of
	// the kernel's filter: a quarter, and one raw step or the 1 µs below which noise is not told apart (ours).
	noiseShare, noiseStep, noiseMicros = 0.25, 1.0, 1.0
)

// verdict collects what is wrong, and the worst that was right.
type verdict struct {
	wrong []string
	worst float64 // µs off, of ends, rests and levels
	noise []string
}

func (v *verdict) say(format string, args ...any) {
	v.wrong = append(v.wrong, fmt.Sprintf(format, args...))
}

// compare holds a learned file against what the radio was made as. jobs are the ones that had to be learned, in any order;
// the file must have them and no other.
func compare(f *learnedFile, m *fakeradio.Made, jobs []string) *verdict {
	v := &verdict{}
	d := f.Device
	if d.Name != m.Name || d.Vendor != hex(m.Vendor) || d.Product != hex(m.Product) || d.Serial != m.Serial {
		v.say("the device is %+v", d)
	}
	for job := range f.Controls {
		if !slices.Contains(jobs, job) {
			v.say("%s was learned and is no control of this radio", job)
		}
	}
	for _, job := range jobs {
		got, ok := f.Controls[job]
		made, _ := m.Control(job)
		switch {
		case !ok:
			v.say("%s was not learned", job)
		case kernelAxis(m, made) == fakeradio.Nothing:
			v.buttons(job, &got, made)
		default:
			v.axis(job, &got, made, m)
		}
	}
	return v
}

func (v *verdict) buttons(job string, got *learnedControl, made fakeradio.Control) {
	row := got.Buttons
	if got.Button > 0 && got.Axis == 0 && len(row) == 0 {
		row = []any{"none", got.Button}
	}
	var want []any
	for _, p := range made.Places {
		if p.Button == fakeradio.Nothing {
			want = append(want, "none")
		} else {
			want = append(want, p.Button+1)
		}
	}
	if got.Axis != 0 || !slices.Equal(row, want) {
		v.say("%s is axis %d, buttons %v; it was made of buttons %v", job, got.Axis, row, want)
	}
	if got.Momentary != (made.Grip == fakeradio.Key) {
		v.say("%s: momentary is %v", job, got.Momentary)
	}
}

// madeAxis is what the kernel makes of the axis of a control.
func madeAxis(m *fakeradio.Made, c fakeradio.Control) (rule kernelrule.Axis, noise float64) {
	if c.Axis == fakeradio.Nothing {
		return kernelrule.Axis{Min: -1, Max: 1}, 0 // a hat
	}
	return kernelrule.Joystick(m.Layout.AxisRange(c.Axis)), m.Noise
}

func (v *verdict) axis(job string, got *learnedControl, made fakeradio.Control, m *fakeradio.Made) {
	rule, noise := madeAxis(m, made)
	if got.Axis != kernelAxis(m, made)+1 || got.Button != 0 || len(got.Buttons) > 0 {
		v.say("%s is axis %d, button %d, buttons %v; it was made axis %d", job, got.Axis, got.Button, got.Buttons, kernelAxis(m, made)+1)
		return
	}
	micro := float64(rule.Max-rule.Min) / 1024 // raw steps
	near := func(what string, got, want float64) {
		off := math.Abs(got-want) / micro
		v.worst = max(v.worst, off)
		if limit := learnedMicros + learnedDeviations*noise/micro; off > limit {
			v.say("%s: %s is %g, made %g: %.2f µs off, the limit is %.2f", job, what, got, want, off, limit)
		}
	}
	// The scale is the device's own range, never stretched; it is turned where the axis runs backwards.
	lo, hi := float64(rule.Min), float64(rule.Max)
	places := made.Places
	backwards := made.Backwards()
	if made.Axis == fakeradio.Nothing {
		places = hatPlaces(places)
		backwards = places[0].Value > places[len(places)-1].Value
	}
	if backwards {
		lo, hi = hi, lo
	}
	if s := got.Scale; s.Low != lo || s.Middle != (lo+hi)/2 || s.High != hi {
		v.say("%s: the scale is %+v; the device's own is %g, %g, %g", job, s, lo, (lo+hi)/2, hi)
	}
	low, rest, high := float64(min(made.Low, made.High)), float64(made.Rest), float64(max(made.Low, made.High))
	if len(places) > 0 {
		low, high = math.Inf(1), math.Inf(-1)
		for _, p := range places {
			low, high = min(low, float64(p.Value)), max(high, float64(p.Value))
		}
		rest = math.NaN() // a switch rests anywhere
	}
	if got.Reach == nil {
		v.say("%s has no reach", job)
	} else {
		near("reach low", got.Reach.Low, low)
		near("reach high", got.Reach.High, high)
		if made.Springs {
			near("reach rest", got.Reach.Rest, rest)
		}
	}
	if stays := made.Grip == fakeradio.Knob || made.Grip == fakeradio.Stick && !made.Springs; got.Stays != stays {
		v.say("%s: stays is %v", job, got.Stays)
	}
	if got.Momentary != (made.Grip == fakeradio.Key) {
		v.say("%s: momentary is %v", job, got.Momentary)
	}
	// It may have been looked at wherever the control stands by itself.
	least, most := math.Inf(1), 0.0
	for _, to := range standsAt(made) {
		n := filteredNoise(m, made, to)
		least, most = min(least, n), max(most, n)
	}
	if noise > noiseMicros*micro {
		v.noise = append(v.noise, fmt.Sprintf("%s %.1f (%.1f to %.1f)", job, got.Noise, least, most))
	}
	slack := max(noiseStep, noiseMicros*micro)
	if got.Noise > (1+noiseShare)*most+slack || got.Noise < (1-noiseShare)*least-slack {
		v.say("%s: noise %.1f raw steps; what the kernel leaves of it is %.1f to %.1f", job, got.Noise, least, most)
	}
	if len(got.Positions) != len(places) {
		v.say("%s has %d positions %v, made %d", job, len(got.Positions), got.Positions, len(places))
		return
	}
	for i, p := range got.Positions {
		near(fmt.Sprintf("position %d", i+1), p.At, float64(places[i].Value))
		if p.Spread > (1+noiseShare)*noise+slack {
			v.say("%s: the spread of position %d is %.1f raw steps, the noise was made %.1f", job, i+1, p.Spread, noise)
		}
	}
}

// hatPlaces gives the places of a hat as values of the axis that Linux makes of it.
func hatPlaces(places []fakeradio.Place) []fakeradio.Place {
	out := slices.Clone(places)
	for i, p := range out {
		x, y := hatAxes(p.Hat)
		out[i].Value = x + y // one of them moves
	}
	return out
}

// standsAt are the targets at which a control stands by itself: where a spring brings it, or anywhere for one that stays, of
// which the ends are told.
func standsAt(c fakeradio.Control) (out []hand.Target) {
	switch {
	case len(c.Places) > 0:
		for i := range c.Places {
			out = append(out, hand.Target(i))
		}
		return out
	case c.Springs:
		return []hand.Target{hand.LetGo}
	}
	return []hand.Target{hand.LetGo, hand.Low, hand.High}
}

// filteredNoise is the standard deviation, over time, of what the kernel shows of a control that stands at a target and that
// nobody moves, in raw steps. At an end of an axis it can tremble to one side only.
func filteredNoise(m *fakeradio.Made, c fakeradio.Control, to hand.Target) float64 {
	rule, noise := madeAxis(m, c)
	if noise == 0 || c.Axis == fakeradio.Nothing {
		return 0
	}
	alone := fakeradio.Made{Radio: m.Radio, Controls: []fakeradio.Control{c}, Noise: noise}
	h := hand.New(&alone, 99)
	if _, err := h.Begin(0, hand.Move{Job: c.Job, To: to}); err != nil {
		return math.NaN()
	}
	var sum, squares float64
	const reports = 5000
	var first, seen, sent int32
	for i := range reports {
		v := h.Report(hand.Snap + time.Duration(i)*time.Millisecond).Axes[c.Axis]
		switch {
		case i == 0:
			first, seen = v, v
		case v != sent:
			seen = rule.Defuzz(v, seen)
		}
		sent = v
		d := float64(seen) - float64(first)
		sum, squares = sum+d, squares+d*d
	}
	mean := sum / reports
	return math.Sqrt(squares/reports - mean*mean)
}
