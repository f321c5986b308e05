package main

import (
	"fmt"
	"math"
	"slices"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// readyLimit is how long the craft may take until nothing refuses: 2 s to have stood still, 1.2 s of clean link, and
// what an emulated machine adds.
const readyLimit = 12 * time.Second

// soon is long for anything that follows within a slot or two.
const soon = 2 * time.Second

// flightRig is the main radio held in hands, with the program watching.
type flightRig struct {
	*stream[line]
	h  *hands
	by int // byButton or byAxis: what the arm control is
}

// fly plugs the main radio in, holds it and starts the program on it.
func fly(craft string, by int, how started, before ...func(*plugged) error) (*flightRig, error) {
	r := fakeradio.Main()
	p, err := plug(r)
	if err != nil {
		return nil, err
	}
	for _, b := range before {
		if err := b(p); err != nil {
			closing(&err, p.out)
			return nil, err
		}
	}
	h, err := hold(p, standing(r))
	if err != nil {
		closing(&err, p.out)
		return nil, err
	}
	w, err := watch(how, pilotFile(r, by), craft)
	if err != nil {
		closing(&err, h.leave)
		return nil, err
	}
	return &flightRig{w, h, by}, nil
}

func (r *flightRig) end() (err error) {
	closing(&err, r.stop, r.h.leave)
	return err
}

// ready waits until nothing refuses. The channel values move with a hair of stick, so that lines keep coming.
func (r *flightRig) ready(f *figures) error {
	began := time.Now()
	at, err := r.await(readyLimit, 0, "no refusal to be left", func(l line) bool { return l.Code == codeValues && len(l.Refusals) == 0 })
	if err != nil {
		return err
	}
	f.add("ready after", fmt.Sprintf("%.1f s", time.Since(began).Seconds()))
	if slices.ContainsFunc(r.seen[:at], func(l line) bool { return l.Armed || l.Code == codeArmed }) {
		return fmt.Errorf("armed before anything was asked for")
	}
	return nil
}

// happens moves something, waits for a happening and tells how long it took.
func (r *flightRig) happens(what string, limit time.Duration, move func() error, holds func(line) bool) (time.Duration, line, error) {
	r.take()
	from := len(r.seen)
	began := time.Now()
	if err := move(); err != nil {
		return 0, line{}, err
	}
	at, err := r.await(limit, from, what, holds)
	if err != nil {
		return 0, line{}, err
	}
	return time.Since(began), r.seen[at], nil
}

func isCode(code string) func(line) bool { return func(l line) bool { return l.Code == code } }

func disarmedBy(cause string) func(line) bool {
	return func(l line) bool { return l.Code == codeDisarmed && l.Cause == cause }
}

func ms(d time.Duration) string { return fmt.Sprintf("%d ms", d.Milliseconds()) }

// armBySwitch arms and disarms with a button; a raised throttle refuses; clearing the reason alone never arms.
func armBySwitch(f *figures) (err error) {
	r, err := fly(craftBuiltIn, byButton, started{})
	if err != nil {
		return err
	}
	defer closing(&err, r.end)
	if err := r.ready(f); err != nil {
		return err
	}
	took, _, err := r.happens("arming by switch", soon, r.arm(true), isCode(codeArmed))
	if err != nil {
		return err
	}
	f.add("armed in", ms(took))
	if took, _, err = r.happens("disarming by switch", soon, r.arm(false), disarmedBy(causeSwitch)); err != nil {
		return err
	}
	f.add("disarmed in", ms(took))

	if err := r.h.stick(axisThrottle, 1400); err != nil {
		return err
	}
	if _, err := r.await(soon, len(r.seen), "the throttle refusal", func(l line) bool {
		return l.Code == codeValues && slices.Contains(l.Refusals, whyThrottle)
	}); err != nil {
		return err
	}
	if _, _, err = r.happens("a refusal with the throttle up", soon, r.arm(true), func(l line) bool {
		return l.Code == codeRefused && slices.Contains(l.Why, whyThrottle)
	}); err != nil {
		return err
	}
	if err := r.h.stick(axisThrottle, 988); err != nil {
		return err
	}
	if err := r.never(800*time.Millisecond, len(r.seen), "armed because the throttle came down", isArmed); err != nil {
		return err
	}
	if err := r.h.press(buttonArm, false); err != nil {
		return err
	}
	if err := r.never(200*time.Millisecond, len(r.seen), "armed by switching off", isArmed); err != nil {
		return err
	}
	_, _, err = r.happens("arming after the refusal", soon, r.arm(true), isCode(codeArmed))
	f.add("refused and armed again", "as it must")
	return err
}

func isArmed(l line) bool { return l.Code == codeArmed || l.Code == codeValues && l.Armed }

// armBySticks arms with throttle low and yaw right, and disarms with yaw left.
func armBySticks(f *figures) (err error) {
	r, err := fly(craftBySticks, byButton, started{})
	if err != nil {
		return err
	}
	defer closing(&err, r.end)
	if err := r.ready(f); err != nil {
		return err
	}
	const dwells = 4 * time.Second
	took, _, err := r.happens("arming by sticks", dwells, func() error { return r.h.stick(axisYaw, 2012) }, isCode(codeArmed))
	if err != nil {
		return err
	}
	f.add("armed in", ms(took))
	if took < 700*time.Millisecond {
		return fmt.Errorf("armed in %v: the dwell is 0.8 s", took)
	}
	if err := r.h.stick(axisYaw, 1500); err != nil {
		return err
	}
	took, _, err = r.happens("disarming by sticks", dwells, func() error { return r.h.stick(axisYaw, 988) }, disarmedBy(causeSticks))
	if err != nil {
		return err
	}
	f.add("disarmed in", ms(took))
	if took < 300*time.Millisecond {
		return fmt.Errorf("disarmed in %v: the dwell is 0.4 s", took)
	}
	return nil
}

// delay moves a stick by jumps and takes the time until the line that shows it can be read: kernel, reader, bench,
// printing and the pipe together, on an emulated machine.
func delay(f *figures) (err error) {
	r, err := fly(craftBuiltIn, byButton, started{})
	if err != nil {
		return err
	}
	defer closing(&err, r.end)
	if _, err := r.await(firstLine, 0, "values", isCode(codeValues)); err != nil {
		return err
	}
	const jumps = 120
	var took []time.Duration
	lo, hi := r.h.p.Radio.Layout.AxisRange(axisRoll)
	for k := range jumps {
		want := rawFor(1100+float64(k*337%800), lo, hi)
		r.take()
		from := len(r.seen)
		began := time.Now()
		if err := r.h.move(func(at *fakeradio.Report) { at.Axes[axisRoll] = want }); err != nil {
			return err
		}
		if _, err := r.await(2*time.Second, from, "a jump of the stick", func(l line) bool {
			return l.Code == codeValues && math.Abs(l.channel(chanRoll)-micros(want, lo, hi)) < 0.3
		}); err != nil {
			return err
		}
		took = append(took, time.Since(began))
		time.Sleep(time.Duration(7+k*5%23) * time.Millisecond)
	}
	slices.Sort(took)
	tenths := func(d time.Duration) string { return fmt.Sprintf("%.1f ms", float64(d.Microseconds())/1000) }
	f.add("report to printed line: median", tenths(took[jumps/2]))
	f.add("99th percentile", tenths(took[jumps*99/100]))
	if took[jumps/2] > 100*time.Millisecond { // what feels instantaneous (response-time limits as commonly quoted after Nielsen); the tail is the emulator's
		return fmt.Errorf("the median is over 100 ms")
	}
	return nil
}
