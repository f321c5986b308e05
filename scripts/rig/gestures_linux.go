package main

import (
	"fmt"
	"strings"
	"time"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/scripts/rig/fakeradio"
)

const (
	codeGesture = "gesture"
	codeMissed  = "gesture-missed"
	codeMenu    = "menu"
)

// wayTime is how long hands take from one stand to the next, wayStep the time between two reports meanwhile.
const (
	wayTime = 300 * time.Millisecond
	wayStep = 20 * time.Millisecond
)

// axisOf is the raw axis of each stick direction by job.
var axisOf = [gestures.Directions]int{gestures.Throttle: axisThrottle, gestures.Roll: axisRoll, gestures.Pitch: axisPitch, gestures.Yaw: axisYaw}

// madeOf makes every shipped gesture with real reports of a radio in one stick mode, and lets each be let go again.
func madeOf(mode uint8) func(*figures) error {
	return func(f *figures) (err error) {
		name, text, ok := assets.Gestures("examples")
		if !ok {
			return fmt.Errorf("no gestures are shipped")
		}
		file, err := patternfile.Parse(name, text, slotMS)
		if err != nil {
			return err
		}
		r := fakeradio.Main()
		p, err := plug(r)
		if err != nil {
			return err
		}
		h, err := hold(p, standing(r))
		if err != nil {
			closing(&err, p.out)
			return err
		}
		radio := strings.Replace(pilotFile(r, byButton), "stick-mode: 2", fmt.Sprintf("stick-mode: %d", mode), 1)
		w, err := watch(started{}, radio, craftBuiltIn)
		if err != nil {
			closing(&err, h.leave)
			return err
		}
		g := &flightRig{w, h, byButton}
		defer closing(&err, g.end)
		if err := g.ready(f); err != nil {
			return err
		}
		rest := [gestures.Directions]float64{gestures.Throttle: 988, gestures.Roll: 1500, gestures.Pitch: 1500, gestures.Yaw: 1500}
		at := rest
		for i := range file.Gestures.Patterns {
			pattern := &file.Gestures.Patterns[i]
			took, l, err := g.happens("the gesture "+pattern.Code, 6*time.Second, func() error {
				for n := range int(pattern.Count) {
					if err := g.stand(&at, stands(pattern, n, mode, rest)); err != nil {
						return err
					}
					time.Sleep(time.Duration(pattern.Parts[n].Dwell)*slotMS*time.Millisecond + 100*time.Millisecond)
				}
				return nil
			}, func(l line) bool { return l.Code == codeGesture || l.Code == codeMissed })
			if err != nil {
				return err
			}
			if l.Code != codeGesture || l.Gesture != pattern.Code {
				return fmt.Errorf("stick mode %d: %s was made, and the program says %s %s %s", mode, pattern.Code, l.Code, l.Gesture, l.Near)
			}
			f.add(pattern.Code, ms(took))
			if err := g.stand(&at, rest); err != nil {
				return err
			}
			if err := g.closeMenu(pattern, mode, &at); err != nil {
				return err
			}
		}
		return nil
	}
}

// closeMenu leaves the menu that a gesture opened, out of its first page, by the right stick to the left. Before that all directions go to
// the middle, the throttle too: a menu takes no push until the right stick has rested, and in two stick modes that carries the throttle.
func (r *flightRig) closeMenu(p *gestures.Pattern, mode uint8, at *[gestures.Directions]float64) error {
	if p.Opens == 0 {
		return nil
	}
	rest := *at
	middle := [gestures.Directions]float64{1500, 1500, 1500, 1500}
	out := middle
	out[gestures.OnSticks(mode)[gestures.RightAcross]] = 988
	if err := r.stand(at, middle); err != nil {
		return err
	}
	time.Sleep(100 * time.Millisecond)
	_, _, err := r.happens("the menu to close", 4*time.Second, func() error {
		if err := r.stand(at, out); err != nil {
			return err
		}
		return r.stand(at, middle)
	}, func(l line) bool { return l.Code == codeMenu && l.Menu == "closed" })
	if err != nil {
		return err
	}
	return r.stand(at, rest)
}

// stands is where the directions are for a part of a pattern, those that it does not name at rest.
func stands(p *gestures.Pattern, part int, mode uint8, rest [gestures.Directions]float64) [gestures.Directions]float64 {
	at := rest
	for d, zone := range p.JobZones(part, mode) {
		switch zone {
		case gestures.Low:
			at[d] = 988
		case gestures.Middle:
			at[d] = 1500
		case gestures.High:
			at[d] = 2012
		}
	}
	return at
}

// stand brings all four directions from where they are to where they shall be, along the path of least jerk (Flash & Hogan 1985,
// from memory), a report at a time.
func (r *flightRig) stand(at *[gestures.Directions]float64, to [gestures.Directions]float64) error {
	from := *at
	for t := wayStep; t <= wayTime; t += wayStep {
		x := float64(t) / float64(wayTime)
		share := x * x * x * (10 - 15*x + 6*x*x)
		if err := r.h.move(func(rep *fakeradio.Report) {
			for d, axis := range axisOf {
				lo, hi := r.h.p.Radio.Layout.AxisRange(axis)
				rep.Axes[axis] = rawFor(from[d]+(to[d]-from[d])*share, lo, hi)
			}
		}); err != nil {
			return err
		}
		time.Sleep(wayStep)
	}
	*at = to
	return nil
}

// gestureScenarios are one for each stick mode.
func gestureScenarios() (out []scenario) {
	for mode := uint8(1); mode <= 4; mode++ {
		out = append(out, scenario{name: fmt.Sprintf("gestures-mode-%d", mode), needs: needsPropsoff, run: madeOf(mode)})
	}
	return out
}
