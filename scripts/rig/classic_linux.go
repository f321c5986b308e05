package main

import (
	"fmt"
	"math"
	"os"
	"strings"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/kernelrule"
)

// nobody is the user without rights.
const nobody = 65534

// classicOnly gives everyone the classic node and nobody the event node, as some systems do.
func classicOnly(p *plugged) error {
	if err := os.Chmod(p.nodes.js, 0o644); err != nil {
		return err
	}
	if err := os.Chmod(p.nodes.event, 0o600); err != nil {
		return err
	}
	return os.Chmod("/dev/input", 0o755)
}

// classicWay runs the program as a user who may not open the event node: it reads the classic one, and says what that
// hides. A slow sweep through the middle stands still at 1500 µs as long as the kernel's rule says.
func classicWay(f *figures) (err error) {
	how := started{uid: nobody}
	r, err := fly(craftBuiltIn, byAxis, how, classicOnly)
	if err != nil {
		return err
	}
	defer closing(&err, r.end)
	list, err := radios(how)
	if err != nil {
		return err
	}
	radio := r.h.p.Radio
	if len(list) != 1 || !list[0].Blunted || list[0].Name != radio.Name ||
		len(list[0].Axes) != len(axesOf(radio)) || list[0].Buttons != radio.Layout.ButtonCount() {
		return fmt.Errorf("listed as %+v; expected one blunted radio with %d axes and %d buttons", list, len(axesOf(radio)), radio.Layout.ButtonCount())
	}
	if err := saysBlunted(how); err != nil {
		return err
	}
	if err := r.ready(f); err != nil {
		return err
	}

	lo, hi := radio.Layout.AxisRange(axisRoll)
	rule := kernelrule.Joystick(lo, hi)
	step, old, still := int32(8), int32(0), 0
	if err := r.h.move(func(at *fakeradio.Report) { at.Axes[axisRoll] = lo }); err != nil {
		return err
	}
	if _, err := r.await(2*time.Second, len(r.seen), "roll at its low end", func(l line) bool { return l.Code == codeValues && l.channel(chanRoll) == 988 }); err != nil {
		return err
	}
	from := len(r.seen)
	for v := lo; v <= hi; v += step {
		if err := r.h.move(func(at *fakeradio.Report) { at.Axes[axisRoll] = v }); err != nil {
			return err
		}
		old = rule.Defuzz(v, old)
		if rule.Correct(old) == 0 {
			still++
		}
		time.Sleep(1500 * time.Microsecond)
	}
	if err := r.h.move(func(at *fakeradio.Report) { at.Axes[axisRoll] = hi }); err != nil {
		return err
	}
	to, err := r.await(2*time.Second, from, "roll at its high end", func(l line) bool { return l.Code == codeValues && l.channel(chanRoll) == 2012 })
	if err != nil {
		return err
	}
	last, values, centre := 988.0, map[float64]bool{}, false
	for _, l := range r.seen[from : to+1] {
		us := l.channel(chanRoll)
		if l.Code != codeValues {
			continue
		}
		if !(us >= last) {
			return fmt.Errorf("roll goes from %v to %v in a sweep up", last, us)
		}
		last = us
		values[us] = true
		if math.Abs(us-1500) < 0.2 {
			centre = true
		}
	}
	if !centre {
		return fmt.Errorf("the sweep never stood at 1500 µs")
	}
	if len(values) < 256 {
		return fmt.Errorf("only %d different values in the sweep", len(values))
	}
	f.add("hidden round the centre", fmt.Sprintf("%.0f µs", float64(int32(still)*step)*1024/float64(hi-lo)))
	f.add("values seen", len(values))

	took, _, err := r.happens("arming by switch", soon, r.arm(true), isCode(codeArmed))
	f.add("armed in", ms(took))
	return err
}

// saysBlunted looks for the words in what a person reads.
func saysBlunted(how started) error {
	c, err := start(how, "/"+propsoffPath, "radios")
	if err != nil {
		return err
	}
	defer c.stop()
	if err := c.wait(10 * time.Second); err != nil {
		return err
	}
	var text strings.Builder
	for _, l := range c.lines() {
		text.Write(l)
		text.WriteByte('\n')
	}
	if !strings.Contains(strings.ToLower(text.String()), "blunt") {
		return fmt.Errorf("`propsoff radios` does not say that the centre is blunted: %s", text.String())
	}
	return nil
}
