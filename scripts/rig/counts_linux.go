package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// namesAndCounts plugs each radio in with one axis and one button moved, and holds what `propsoff radios` says of it
// against what was made and what the kernel says.
func namesAndCounts(f *figures) error {
	for _, r := range fakeradio.All() {
		if err := nameAndCount(r, f); err != nil {
			return fmt.Errorf("%s: %w", r.Name, err)
		}
	}
	return nil
}

func nameAndCount(r fakeradio.Radio, f *figures) (err error) {
	p, err := plug(r)
	if err != nil {
		return err
	}
	defer closing(&err, p.out)
	at := r.Layout.Rest()
	lo, hi := r.Layout.AxisRange(1)
	at.Axes[1] = lo + (hi-lo)/4*3
	if n := len(at.Pressed); n > 0 {
		at.Pressed[n-1] = true
	}
	if err := p.Send(at); err != nil {
		return err
	}
	list, err := radios(started{})
	if err != nil {
		return err
	}
	if len(list) != 1 {
		return fmt.Errorf("%d radios listed, one is plugged in", len(list))
	}
	got := list[0]
	if got.Name != r.Name || got.Serial != r.Serial || got.Vendor != hex(r.Vendor) || got.Product != hex(r.Product) || got.Path != p.nodes.event || got.Blunted {
		return fmt.Errorf("listed as %+v", got)
	}
	want := axesOf(r)
	if len(got.Axes) != len(want) || got.Buttons != r.Layout.ButtonCount() {
		return fmt.Errorf("%d axes and %d buttons listed, %d and %d made", len(got.Axes), got.Buttons, len(want), r.Layout.ButtonCount())
	}
	values, err := p.view.values()
	if err != nil {
		return err
	}
	for i, a := range got.Axes {
		if a.Number != i+1 || a.Min != want[i].Min || a.Max != want[i].Max || a.Value != values[i] {
			return fmt.Errorf("axis %d listed as %+v, the kernel says %+v at %d", i+1, a, want[i], values[i])
		}
	}
	pressed, err := p.view.pressed()
	if err != nil {
		return err
	}
	if !slices.Equal(got.Pressed, pressed) {
		return fmt.Errorf("pressed buttons listed: %v, the kernel says %v", got.Pressed, pressed)
	}
	f.add(r.Name, fmt.Sprintf("%d axes %d buttons", len(got.Axes), got.Buttons))
	return nil
}

// twoRadios plugs two in and chooses each by its name and by its number.
func twoRadios(f *figures) (err error) {
	a, err := plug(fakeradio.Main())
	if err != nil {
		return err
	}
	defer closing(&err, a.out)
	b, err := plug(fakeradio.Nine())
	if err != nil {
		return err
	}
	defer closing(&err, b.out)
	list, err := radios(started{})
	if err != nil {
		return err
	}
	if len(list) != 2 {
		return fmt.Errorf("%d radios listed, two are plugged in", len(list))
	}
	for i, got := range list {
		p := a
		if got.Name == b.Radio.Name {
			p = b
		}
		at := p.Radio.Layout.Rest()
		lo, hi := p.Radio.Layout.AxisRange(0)
		at.Axes[0] = lo + (hi-lo)/5*(int32(i)+1)
		if err := p.Send(at); err != nil {
			return err
		}
		for _, word := range []string{strings.ToLower(strings.Fields(p.Radio.Name)[0]), fmt.Sprint(i + 1)} {
			if err := chosen(p, word, at.Axes[0]); err != nil {
				return fmt.Errorf("--device %s: %w", word, err)
			}
		}
	}
	f.add("chosen by name and number", len(list))
	return nil
}

func chosen(p *plugged, word string, first int32) (err error) {
	raw, err := watchRaw(started{}, "--device", word)
	if err != nil {
		return err
	}
	defer closing(&err, raw.stop)
	n := len(axesOf(p.Radio))
	_, err = raw.await(firstLine, 0, "the state of "+p.Radio.Name, func(r rawLine) bool { return len(r.Axes) == n && r.Axes[0] == first })
	return err
}

// latePlug starts the program without a radio, plugs one in, out and in again.
func latePlug(f *figures) (err error) {
	r := fakeradio.Main()
	w, err := watch(started{}, pilotFile(r, byButton), craftBuiltIn)
	if err != nil {
		return err
	}
	defer closing(&err, w.stop)
	time.Sleep(700 * time.Millisecond) // so that it has looked and found nothing
	if w.ended() {
		return fmt.Errorf("without a radio the program ended (%v): %s", w.err, w.said())
	}
	for i, us := range []float64{1200, 1700} {
		p, err := plug(r)
		if err != nil {
			return err
		}
		h, err := hold(p, standing(r))
		if err != nil {
			return err
		}
		began := time.Now()
		err = h.stick(axisRoll, us)
		if err == nil {
			_, err = w.await(firstLine, len(w.seen), "the roll value after the plug", func(l line) bool {
				return l.Code == codeValues && l.channel(chanRoll) > us-5 && l.channel(chanRoll) < us+5
			})
		}
		f.add(fmt.Sprintf("seen after plug %d", i+1), fmt.Sprintf("%d ms", time.Since(began).Milliseconds()))
		closing(&err, h.leave)
		if err != nil {
			return err
		}
	}
	return nil
}
