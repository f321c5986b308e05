package tell

import (
	"regexp"
	"strconv"

	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// deeds are what the hand understands.
var deeds = []struct {
	says *regexp.Regexp
	do   func(h *readingHand, m []string)
}{
	{regexp.MustCompile(`(?i)^(?:press P\b.*|connect its pack|pull the pack)$`), func(h *readingHand, _ []string) { h.tell(pulse.Power, flip(h.facts.Snap.In.Powered)) }},
	{regexp.MustCompile(`(?i)^(?:press L\b.*|switch the radio on|switch it on)$`), func(h *readingHand, _ []string) { h.tell(pulse.Link, flip(h.facts.Snap.In.Transmitter)) }},
	{regexp.MustCompile(`(?i)^plug (?:the radio|its USB cable) in( and switch it on)?$`), func(h *readingHand, m []string) {
		if h.tell(pulse.Plug, 1); m[1] != "" {
			h.tell(pulse.Link, 1)
		}
	}},
	{regexp.MustCompile(`(?i)^press Space\b.*$`), func(h *readingHand, _ []string) { h.over() }},
	{regexp.MustCompile(`(?i)^move the arm switch(?: on| off|, so that the craft reads) \(?channel (\d+) (.*?)\)?$`), func(h *readingHand, m []string) {
		c, _ := strconv.Atoi(m[1])
		h.to(int8(c-1), m[2])
	}},
	{regexp.MustCompile(`(?i)^put the arm switch off(?: \(Space\))?$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Arm, pulse.Low) }},
	{regexp.MustCompile(`(?i)^move it on again$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Arm, pulse.High) }},
	{regexp.MustCompile(`(?i)^move it off first, then on again$`), func(h *readingHand, _ []string) {
		h.hold(h.cfg().Layout.Arm, pulse.Low)
		h.hold(h.cfg().Layout.Arm, pulse.High)
	}},
	{regexp.MustCompile(`(?i)^hold (?:(?:throttle low|S) and (?:yaw fully |)|the sticks so that the craft reads throttle below [\d.]+ µs and yaw at [\d.]+ or )(right|left|D|A|above|below),? for ([\d.]+) s`), func(h *readingHand, m []string) {
		l := &h.cfg().Layout
		h.hold(l.Throttle, h.lowest)
		h.hold(l.Yaw, map[string]pulse.Width{"right": pulse.High, "D": pulse.High, "above": pulse.High, "left": pulse.Low, "A": pulse.Low, "below": pulse.Low}[m[1]])
		s, _ := strconv.ParseFloat(m[2], 64)
		if h.step(int(s * 1000)); h.keys.Drive { // keys spring back
			h.hold(l.Yaw, pulse.Centre)
		}
	}},
	{regexp.MustCompile(`(?i)^(?:let yaw go.*|let go of D|bring yaw back to the middle)$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Yaw, pulse.Centre) }},
	{regexp.MustCompile(`(?i)^(?:bring it below [\d.]+|bring the throttle below [\d.]+|hold S|press X, to bring the throttle below [\d.]+|bring the throttle down(?: \(X\))?)$`), func(h *readingHand, _ []string) {
		h.hold(h.cfg().Layout.Throttle, h.lowest)
		h.step(1000)
	}},
	{regexp.MustCompile(`(?i)^hold the corner again$`), func(h *readingHand, _ []string) {}}, // it is said how in the sentence above
	{regexp.MustCompile(`(?i)^(?:wait ([\d.]+) s more|do not move it)$`), func(h *readingHand, m []string) {
		s, _ := strconv.ParseFloat(m[1], 64)
		h.step(int(s*1000) + int(h.cfg().SlotTicks))
	}},
	{regexp.MustCompile(`(?i)^set it down within [\d.]+° of level$`), func(h *readingHand, _ []string) { h.tell(pulse.Tilt, 0) }},
	{regexp.MustCompile(`(?i)^connect a charged one$`), func(h *readingHand, _ []string) { h.tell(pulse.Pack, 16_000) }},
	{regexp.MustCompile(`(?i)^put each one where its mark and its turning direction belong$`), func(h *readingHand, _ []string) {
		h.tell(pulse.Propellers, pulse.PropellersValue(h.cfg().Body.Turns, true))
	}},
	{regexp.MustCompile(`(?i)^move it (to .*|below .*|between .*)$`), func(h *readingHand, m []string) { h.to(h.cfg().Layout.Second, m[1]) }},
	{regexp.MustCompile(`(?i)^move the mode switch$`), (*readingHand).turnModes},
	{regexp.MustCompile(`(?i)^pull the cable out( and leave the menu)?$`), func(h *readingHand, m []string) {
		if h.tell(pulse.Cable, 0); m[1] != "" {
			h.tell(pulse.Menu, pulse.MenuClosed)
		}
	}},
	{regexp.MustCompile(`(?i)^leave it first$`), func(h *readingHand, _ []string) { h.tell(pulse.Menu, pulse.MenuClosed) }},
	{regexp.MustCompile(`(?i)^move a stick$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Roll, pulse.Micros(1520)) }},
	{regexp.MustCompile(`(?i)^see that the radio sends what is missing and the radio file names its control$`), (*readingHand).sendAll},
	{regexp.MustCompile(`(?i)^where the stick stops there, lower the end of its travel in the radio$`), func(h *readingHand, _ []string) {
		h.lowest = pulse.Low
		h.hold(h.cfg().Layout.Throttle, h.lowest)
	}},
}

// turnModes moves the mode switch until the craft levels itself.
func (h *readingHand) turnModes([]string) {
	for _, w := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
		h.hold(h.cfg().Layout.Mode, w)
		var s sim.Snapshot
		if h.p.Snapshot(&s); s.Mode.SelfLevelling() {
			return
		}
	}
}

// sendAll has the radio send what it did not.
func (h *readingHand) sendAll([]string) {
	for c := range h.frame {
		if !h.frame[c].Valid() {
			h.hold(int8(c), pulse.Low)
		}
	}
}

// few are what the hand understands of the few words that a class reads.
var few = []struct {
	says *regexp.Regexp
	do   func(h *readingHand, m []string)
}{
	{regexp.MustCompile(`^throttle down$`), func(h *readingHand, _ []string) {
		h.lowest = pulse.Low
		h.hold(h.cfg().Layout.Throttle, h.lowest)
	}},
	{regexp.MustCompile(`^yaw out of the corner first$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Yaw, pulse.Centre) }},
	{regexp.MustCompile(`^arm switch off first$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Arm, pulse.Low) }},
	{regexp.MustCompile(`^second switch on$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Second, pulse.High) }},
	{regexp.MustCompile(`^mode angle or horizon$`), (*readingHand).turnModes},
	{regexp.MustCompile(`^radio on$`), func(h *readingHand, _ []string) { h.tell(pulse.Link, 1) }},
	{regexp.MustCompile(`^radio plugged in( and on)?$`), func(h *readingHand, m []string) {
		if h.tell(pulse.Plug, 1); m[1] != "" {
			h.tell(pulse.Link, 1)
		}
	}},
	{regexp.MustCompile(`^a stick moved$`), func(h *readingHand, _ []string) { h.hold(h.cfg().Layout.Roll, pulse.Micros(1520)) }},
	{regexp.MustCompile(`^(?:wait|link whole for)(?: ([\d.]+) s)?$`), func(h *readingHand, m []string) {
		s, _ := strconv.ParseFloat(m[1], 64)
		h.step(int(s*1000) + int(h.cfg().SlotTicks))
	}},
	{regexp.MustCompile(`^all channels there$`), (*readingHand).sendAll},
	{regexp.MustCompile(`^stand still$`), func(h *readingHand, _ []string) { h.step(2500) }},
	{regexp.MustCompile(`^set it level$`), func(h *readingHand, _ []string) { h.tell(pulse.Tilt, 0) }},
	{regexp.MustCompile(`^(cable out)?(?:, )?(menu closed)?$`), func(h *readingHand, m []string) {
		if m[1] != "" {
			h.tell(pulse.Cable, 0)
		}
		if m[2] != "" {
			h.tell(pulse.Menu, pulse.MenuClosed)
		}
	}},
	{regexp.MustCompile(`^another pack$`), func(h *readingHand, _ []string) { h.tell(pulse.Pack, 16_000) }},
	{regexp.MustCompile(`^check the propellers$`), func(h *readingHand, _ []string) {
		h.tell(pulse.Propellers, pulse.PropellersValue(h.cfg().Body.Turns, true))
	}},
}
