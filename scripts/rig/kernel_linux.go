package main

import (
	"fmt"
	"slices"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/kernelrule"
)

// Limits of waiting in the guest; an emulated machine is slow, so they are wide.
const (
	plugLimit = 5 * time.Second
	nodeLimit = 5 * time.Second
)

// plugged is a radio in the guest with its nodes and the rig's own view of the kernel.
type plugged struct {
	*fakeradio.Plugged
	nodes nodes
	view  *kernelView
}

// plug plugs a radio in with all its controls at rest.
func plug(r fakeradio.Radio) (*plugged, error) { return plugAt(r, r.Layout.Rest()) }

// plugAt plugs a radio in whose controls stand at first. The kernel makes the nodes a moment before it takes reports,
// so axis 1 is moved until its value arrives.
func plugAt(r fakeradio.Radio, first fakeradio.Report) (*plugged, error) {
	p, err := fakeradio.Plug(r, plugLimit)
	if err != nil {
		return nil, err
	}
	n, err := findNodes(r, nodeLimit)
	if err != nil {
		p.Unplug()
		return nil, err
	}
	v, err := openView(n.event)
	if err != nil {
		p.Unplug()
		return nil, err
	}
	out := &plugged{p, n, v}
	lo, hi := r.Layout.AxisRange(0)
	stir := first
	stir.Axes = slices.Clone(first.Axes)
	stir.Axes[0] = lo + (hi-lo)/4
	err = waitUntil(nodeLimit, "the kernel to take a report of "+r.Name, func() bool {
		if p.Send(stir) != nil {
			return false
		}
		a, err := v.abs(0)
		return err == nil && a.Value == stir.Axes[0]
	})
	if err == nil {
		err = p.Send(first)
	}
	if err != nil {
		closing(&err, out.out)
		return nil, err
	}
	return out, nil
}

// out pulls the radio out and waits until its nodes are gone, so that the next scenario starts clean.
func (p *plugged) out() error {
	p.view.Close()
	if err := p.Unplug(); err != nil {
		return err
	}
	return nodesGone(p.Radio)
}

// axesOf gives the axes that Linux makes of a radio: each axis, and two for a hat.
func axesOf(r fakeradio.Radio) []kernelrule.Axis {
	var out []kernelrule.Axis
	for i := range r.Layout.AxisCount() {
		out = append(out, kernelrule.Joystick(r.Layout.AxisRange(i)))
	}
	for range r.Layout.HatCount() {
		out = append(out, kernelrule.Axis{Min: -1, Max: 1}, kernelrule.Axis{Min: -1, Max: 1})
	}
	return out
}

// buttonCode gives the key code of joystick button n (from 0): drivers/hid/hid-input.c.
func buttonCode(n int) int {
	if n < 16 {
		return btnJoystick + n
	}
	return btnTriggerHappy + n - 16
}

// kernelNodes holds the four radios against what the kernel's documents promise: names, numbers, counts, codes, limits. Before
// the first report the kernel answers 0 for every axis, whatever its range: no event has set it (drivers/input/input.c).
func kernelNodes(f *figures) error {
	for _, r := range fakeradio.All() {
		if err := silentAtFirst(r); err != nil {
			return fmt.Errorf("%s: %w", r.Name, err)
		}
		p, err := plug(r)
		if err != nil {
			return err
		}
		err = checkNodes(p, f)
		if e := p.out(); err == nil {
			err = e
		}
		if err != nil {
			return fmt.Errorf("%s: %w", r.Name, err)
		}
	}
	return nil
}

// silentAtFirst plugs a radio in that sends nothing.
func silentAtFirst(r fakeradio.Radio) (err error) {
	p, err := fakeradio.Plug(r, plugLimit)
	if err != nil {
		return err
	}
	defer closing(&err, p.Unplug, func() error { return nodesGone(r) })
	n, err := findNodes(r, nodeLimit)
	if err != nil {
		return err
	}
	v, err := openView(n.event)
	if err != nil {
		return err
	}
	defer v.Close()
	values, err := v.values()
	if err == nil && slices.ContainsFunc(values, func(v int32) bool { return v != 0 }) {
		err = fmt.Errorf("the kernel answers %v before any report", values)
	}
	return err
}

func checkNodes(p *plugged, f *figures) error {
	r, v := p.Radio, p.view
	if got := v.name(); got != r.Name {
		return fmt.Errorf("the kernel calls it %q", got)
	}
	id, err := v.id()
	if err != nil || id[0] != 3 || uint32(id[1]) != r.Vendor || uint32(id[2]) != r.Product {
		return fmt.Errorf("bus, vendor, product %x, err %v", id[:3], err)
	}
	want := axesOf(r)
	if len(v.codes) != len(want) || len(v.keys) != r.Layout.ButtonCount() {
		return fmt.Errorf("%d axes and %d buttons, %d and %d expected", len(v.codes), len(v.keys), len(want), r.Layout.ButtonCount())
	}
	for i, c := range v.codes {
		code := i
		if i >= r.Layout.AxisCount() {
			code = absHat0X + i - r.Layout.AxisCount()
		}
		a, err := v.abs(i)
		if err != nil || c != code || a.axis() != want[i] {
			return fmt.Errorf("axis %d: code %#x %+v, expected %#x %+v, err %v", i+1, c, a, code, want[i], err)
		}
	}
	for i, c := range v.keys {
		if c != buttonCode(i) {
			return fmt.Errorf("button %d: code %#x, expected %#x", i+1, c, buttonCode(i))
		}
	}
	js, err := openClassic(p.nodes.js)
	if err != nil {
		return err
	}
	defer js.Close()
	if js.axes != len(want) || js.buttons != r.Layout.ButtonCount() {
		return fmt.Errorf("classic node: %d axes and %d buttons", js.axes, js.buttons)
	}
	if err := js.read(); err != nil {
		return err
	}
	// drivers/input/joydev.c: after opening, all buttons first, then all axes.
	if len(js.inits) != js.axes+js.buttons {
		return fmt.Errorf("classic node: %d events after opening, expected %d", len(js.inits), js.axes+js.buttons)
	}
	for i, k := range js.inits {
		want := byte(jsInit | jsButton)
		if i >= js.buttons {
			want = jsInit | jsAxis
		}
		if k != want {
			return fmt.Errorf("classic node: event %d after opening is of type %#x, expected %#x", i+1, k, want)
		}
	}
	f.add(r.Name, fmt.Sprintf("%d axes %d buttons", len(v.codes), len(v.keys)))
	return nil
}

// kernelFacts sweeps axis 1 of a radio of 11 bits both ways, one raw step a report, and holds every
// value of both interfaces against the rules in kernelrule.
func kernelFacts(f *figures) (err error) {
	p, err := plug(fakeradio.Nine())
	if err != nil {
		return err
	}
	defer func() {
		if e := p.out(); err == nil {
			err = e
		}
	}()
	js, err := openClassic(p.nodes.js)
	if err != nil {
		return err
	}
	defer js.Close()
	rest := p.Radio.Layout.Rest()
	rest.Axes[0] = 0
	rest.Pressed[20] = true
	if err := p.Send(rest); err != nil {
		return err
	}
	if got, err := p.view.pressed(); err != nil || len(got) != 1 || p.view.keys[got[0]-1] != 0x2c4 {
		return fmt.Errorf("button 21 pressed: the kernel says %v (codes %#x), expected the code 0x2c4; err %v", got, p.view.keys, err)
	}
	rule := kernelrule.Joystick(0, 2047)
	for _, c := range []struct {
		name                 string
		from, to, step       int32
		first, last, evdevAt int32 // expected: raw values that read 0, and what the event interface reads at the end
	}{
		{"up", 0, 2047, 1, 899, 1153, 2044},
		{"down", 2047, 0, -1, 1148, 894, 2},
	} {
		first, last, old := int32(-1), int32(-1), int32(0)
		for v := c.from; v != c.to+c.step; v += c.step {
			rest.Axes[0] = v
			if err := p.Send(rest); err != nil {
				return err
			}
			p.view.drain()
			a, err := p.view.abs(0)
			if err != nil {
				return err
			}
			if v == c.from {
				old = a.Value
			}
			old = rule.Defuzz(v, old)
			if a.Value != old {
				return fmt.Errorf("sweep %s, raw %d: the event interface reads %d, the rule says %d", c.name, v, a.Value, old)
			}
			if err := js.read(); err != nil {
				return err
			}
			if int32(js.axis[0]) != rule.Correct(old) {
				return fmt.Errorf("sweep %s, raw %d: the classic interface reads %d, the rule says %d", c.name, v, js.axis[0], rule.Correct(old))
			}
			if js.axis[0] == 0 {
				if first < 0 {
					first = v
				}
				last = v
			}
		}
		f.add(c.name, fmt.Sprintf("reads 0 from %d to %d, ends at %d", first, last, old))
		if first != c.first || last != c.last || old != c.evdevAt {
			return fmt.Errorf("sweep %s: expected 0 from %d to %d and %d at the end", c.name, c.first, c.last, c.evdevAt)
		}
	}
	return nil
}
