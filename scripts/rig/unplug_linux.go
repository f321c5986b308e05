package main

import (
	"fmt"
	"slices"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// unplugAndBack pulls the radio out of an armed bench: the motors are cut. Plugged back with the switch still on it never
// arms by itself; off and on arms.
//
// With the arm control on an axis the link is lost and that cuts. With a button the kernel itself speaks first: it
// releases every pressed key of a device that goes (input_disconnect_device of drivers/input/input.c), so whether the
// program sees the switch go off before it sees the radio gone is a matter of luck; both disarm.
func unplugAndBack(by int) func(*figures) error {
	return func(f *figures) (err error) {
		r, err := fly(craftBuiltIn, by, started{})
		if err != nil {
			return err
		}
		held := true
		defer func() {
			if held {
				closing(&err, r.h.leave)
			}
			closing(&err, r.stop)
		}()
		if err := r.ready(f); err != nil {
			return err
		}
		if _, _, err := r.happens("arming by switch", soon, r.arm(true), isCode(codeArmed)); err != nil {
			return err
		}
		time.Sleep(300 * time.Millisecond)
		held = false
		if err := r.pullOut(f); err != nil {
			return err
		}
		still := r.h.r // as the hands left it: armed
		r.take()
		from := len(r.seen)
		p, err := plugAt(r.h.p.Radio, still)
		if err != nil {
			return err
		}
		if r.h, err = hold(p, still); err != nil {
			closing(&err, p.out)
			return err
		}
		held = true
		return r.stayOff(from, f)
	}
}

// pullOut unplugs the armed radio and waits for the cut, in the bench's own time and by the clock.
func (r *flightRig) pullOut(f *figures) error {
	close(r.h.stop)
	<-r.h.done
	r.take()
	from := len(r.seen)
	began := time.Now()
	if err := r.h.p.Unplug(); err != nil {
		return err
	}
	at, err := r.await(soon, from, "disarming after the plug came out", func(l line) bool {
		return l.Code == codeDisarmed && (l.Cause == causeLink || r.by == byButton && l.Cause == causeSwitch)
	})
	if err != nil {
		return err
	}
	cut := time.Since(began)
	f.add("cut", ms(cut)+" after the plug came out, "+r.seen[at].Cause)
	if cut > (silenceLimitMS+slotMS+slackMS)*time.Millisecond {
		return fmt.Errorf("cut after %v; the silence limit is %d ms", cut, silenceLimitMS)
	}
	lost, err := r.await(soon, from, "the link to be lost", isCode(codeLinkLost))
	if err != nil {
		return err
	}
	out := slices.IndexFunc(r.seen[from:lost], isCode(codePlug))
	if out < 0 {
		return fmt.Errorf("the link was lost without a word of the plug")
	}
	took := r.seen[lost].At - r.seen[from+out].At
	f.add("link lost", fmt.Sprintf("%d ms of bench time after it", took))
	if took < silenceLimitMS-2*slotMS || took > silenceLimitMS+2*slotMS {
		return fmt.Errorf("the link was lost %d ms after the plug came out; the silence limit is %d ms", took, silenceLimitMS)
	}
	r.h.p.view.Close()
	return nodesGone(r.h.p.Radio)
}

// stayOff holds the bench, whose radio came back with the switch on, to what it must do; from is the first line after.
func (r *flightRig) stayOff(from int, f *figures) error {
	if _, err := r.await(firstLine, from, "the arm channel on after the plug is back", func(l line) bool {
		return l.Code == codeValues && l.channel(chanArm) > 1700
	}); err != nil {
		return err
	}
	if _, err := r.await(readyLimit, from, "off-first to be all that refuses", func(l line) bool {
		return l.Code == codeValues && slices.Equal(l.Refusals, []string{whyOffFirst})
	}); err != nil {
		return err
	}
	if err := r.never(1500*time.Millisecond, from, "armed by plugging in", isArmed); err != nil {
		return err
	}
	from = len(r.seen)
	if err := r.arm(false)(); err != nil {
		return err
	}
	if _, err := r.await(soon, from, "no refusal after switching off", func(l line) bool {
		return l.Code == codeValues && len(l.Refusals) == 0
	}); err != nil {
		return err
	}
	took, _, err := r.happens("arming after off and on", soon, r.arm(true), isCode(codeArmed))
	f.add("plugged back: not armed until off and on, then in", ms(took))
	return err
}

// arm moves the arm control, whichever it is.
func (r *flightRig) arm(on bool) func() error {
	if r.by == byButton {
		return func() error { return r.h.press(buttonArm, on) }
	}
	us := 988.0
	if on {
		us = 2012
	}
	return func() error { return r.h.stick(axisArm, us) }
}

// nodesGone waits until a radio's nodes are gone.
func nodesGone(r fakeradio.Radio) error {
	return waitUntil(nodeLimit, "the nodes of "+r.Name+" to go", func() bool {
		return nodeOf("event*", r) == "" && nodeOf("js*", r) == ""
	})
}
