package main

import (
	"fmt"
	"time"

	"propsoff.example/gestures"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/fault"
)

// bySticks tells whether the craft of the case is armed by sticks.
func (q *coursePupil) bySticks() bool { return q.kase.Craft.Arming == 2 }

// arm begins a fresh visit of the arm control.
func (q *coursePupil) arm() error {
	if err := q.stick(gestures.Throttle, 988); err != nil {
		return err
	}
	if q.bySticks() {
		if q.acts > 0 { // once is held; then once more from outside the corner
			if err := q.stick(gestures.Yaw, 1500); err != nil {
				return err
			}
			time.Sleep(100 * time.Millisecond)
		}
		q.next = time.Now().Add(1300 * time.Millisecond) // the dwell, and a little
		return q.stick(gestures.Yaw, 2012)
	}
	if q.armed {
		if err := q.h.press(buttonArm, false); err != nil {
			return err
		}
		time.Sleep(100 * time.Millisecond)
	}
	q.armed = true
	return q.h.press(buttonArm, true)
}

func (q *coursePupil) disarm() error {
	if q.bySticks() {
		if err := q.stick(gestures.Throttle, 988); err != nil {
			return err
		}
		return q.stick(gestures.Yaw, 988)
	}
	q.armed = false
	return q.h.press(buttonArm, false)
}

// cure does what the sentence of a refusal says.
func (q *coursePupil) cure(set arming.Set) error {
	switch {
	case set.Has(arming.ThrottleUp):
		return q.stick(gestures.Throttle, 988)
	case set.Has(arming.OffFirst):
		return q.disarm()
	case set.Has(arming.SecondSwitchOff):
		return q.h.stick(axisSecond, 2012)
	case set.Has(arming.NotSelfLevelling):
		return q.h.stick(axisMode, 988)
	case set.Has(arming.NoLink):
		return q.child.write("link on")
	case set.Has(arming.IsTilted):
		return q.child.write("level")
	case set.Has(arming.BeingSetUp):
		if err := q.child.write("cable out"); err != nil {
			return err
		}
		return q.child.write("menu closed")
	case set.Has(arming.PackLow):
		if err := q.child.write("power off"); err != nil {
			return err
		}
		time.Sleep(200 * time.Millisecond)
		return q.child.write("power on")
	case set.Has(arming.PropellersUnchecked):
		return q.child.write("propellers checked")
	}
	return nil
}

// gesture makes a shipped gesture and lets it go.
func (q *coursePupil) gesture(n int) error {
	if n >= len(q.g.Patterns) {
		return fmt.Errorf("there is no gesture %d", n)
	}
	p := &q.g.Patterns[n]
	rest := [gestures.Directions]float64{gestures.Throttle: 988, gestures.Roll: 1500, gestures.Pitch: 1500, gestures.Yaw: 1500}
	r := &flightRig{h: q.h}
	for part := range int(p.Count) {
		if err := r.stand(&q.at, stands(p, part, 2, rest)); err != nil {
			return err
		}
		time.Sleep(time.Duration(p.Parts[part].Dwell)*slotMS*time.Millisecond + 150*time.Millisecond)
	}
	return r.stand(&q.at, rest)
}

// The pushes of the right stick that move a menu, in stick mode 2.
const (
	up = iota
	down
	in
	back
)

// push pushes the right stick and lets it rest, once for each.
func (q *coursePupil) push(pushes ...int) error {
	for _, p := range pushes {
		d, us := gestures.Pitch, 2012.0
		if p == in || p == back {
			d = gestures.Roll
		}
		if p == down || p == back {
			us = 988
		}
		for _, to := range [2]float64{us, 1500} {
			if err := q.stick(d, to); err != nil {
				return err
			}
			time.Sleep(160 * time.Millisecond)
		}
	}
	q.next = time.Now().Add(tryAgain)
	return nil
}

// errand goes from the first item of a menu to another one of the same page and sets it.
func (q *coursePupil) errand(item int, value int32) error {
	it := &q.menus.Items[item]
	tree := &q.menus.Menus[q.menus.MenuOf(item)]
	var all []int
	for range item - tree.First {
		all = append(all, down)
	}
	all = append(all, in)
	for range (value - it.Start) / it.By {
		all = append(all, up)
	}
	return q.push(all...)
}

// hasGap tells whether the mode switch has a gap between its modes in this case.
func hasGap(set []drill.Put) bool {
	for _, p := range set {
		if p.Fault.Deed == fault.ModeGap {
			return true
		}
	}
	return false
}
