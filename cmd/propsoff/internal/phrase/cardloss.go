package phrase

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/prove"
)

// CardArming is the arming rule in one sentence. arm and second are the numbers of the switches on the card, 0 for none.
func CardArming(cfg *sim.Config, r *handset.Radio, arm, second int) string {
	if why, never := facts.NeverArms(cfg, r); never {
		return "This radio cannot arm this craft. " + causeSentenceOf(&prove.Layout{Config: *cfg, Radio: *r}, &why)
	}
	l, a := &cfg.Layout, &cfg.Arming
	slot := int64(cfg.SlotTicks)
	low := "the throttle below " + Exact(a.LowThrottle) + " µs"
	also := ""
	if a.OnlySelfLevelling {
		also += " and the mode angle or horizon"
	}
	if l.Second != layout.NoChannel {
		at, ok := cardTo(r.On(l.Second), l.SecondSpan)
		if ok {
			at = "in " + at
		} else {
			at = stands(l.SecondSpan)
		}
		also += " and the second switch" + numbered(second) + " " + at
	}
	if facts.BySticks(cfg) {
		return "Hold " + low + " and yaw fully right for " + Seconds(int64(a.ArmDwell)*slot) + with(also) +
			" to arm; throttle low and yaw fully left for " + Seconds(int64(a.DisarmDwell)*slot) + " disarms, in flight too."
	}
	at, ok := cardTo(r.On(l.Arm), l.ArmSpan)
	if ok {
		at = "to " + at + ","
	} else {
		at = into(l.ArmSpan)
	}
	return "With " + low + also + ", move the arm switch" + numbered(arm) + " from off " + at + " to arm; moving it off again disarms at once, in flight too."
}

// with turns " and …" into ", with …".
func with(also string) string {
	if also == "" {
		return ""
	}
	return ", with" + also[len(" and"):] + ","
}

// numbered points to a switch of the card.
func numbered(n int) string {
	if n == 0 {
		return ""
	}
	return " (" + strconv.Itoa(n) + ")"
}

// cardTo says which positions of a switch lie in a span, in words for the drawn switch, whose high end is up: "its top
// position, 2012 µs". It is not ok where no position does or all do, or where they do not lie side by side at one end and are
// more than two.
func cardTo(c *handset.Control, span layout.Span) (at string, ok bool) {
	if c == nil || c.Kind != handset.Switch {
		return "", false
	}
	n := len(c.Positions)
	var in []int
	for i := range c.Positions {
		if span.Contains(c.Positions[i].Width) {
			in = append(in, i)
		}
	}
	k := len(in)
	value := func(i int) string { return Micros(c.Positions[in[i]].Width) }
	switch {
	case k == 0 || k == n:
		return "", false
	case k == 1:
		return "its " + drawnAt(in[0], n) + ", " + value(0) + " µs", true
	case k == 2 && n == 3:
		return "its " + drawnWord(in[0], n) + " or " + drawnAt(in[1], n) + ", " + value(0) + " or " + value(1) + " µs", true
	case in[0] == n-k:
		return "one of its top " + strconv.Itoa(k) + " positions, " + value(0) + " to " + value(k-1) + " µs", true
	case in[k-1] == k-1:
		return "one of its bottom " + strconv.Itoa(k) + " positions, " + value(0) + " to " + value(k-1) + " µs", true
	}
	return "", false
}

// drawnWord is the word for position i (from 0, the low end) of n as it is drawn; empty where there is none.
func drawnWord(i, n int) string {
	switch {
	case i == 0:
		return "bottom"
	case i == n-1:
		return "top"
	case n == 3:
		return "middle"
	}
	return ""
}

// drawnAt is a position as it is drawn: "top position", "position 4 of 6 from below".
func drawnAt(i, n int) string {
	if w := drawnWord(i, n); w != "" {
		return w + " position"
	}
	return "position " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n) + " from below"
}

// CardLossTitle heads what happens when the radio falls silent.
func CardLossTitle() string { return "when the link is lost" }

// CardLoss says what this receiver and this craft do when the radio falls silent, and what when it comes back: of the
// receiver, of the craft, of the way back. r is the radio, nil for any.
func CardLoss(cfg *sim.Config, r *handset.Radio) []string {
	q := facts.Silence(cfg)
	ours, trade := OnLoss(cfg.Link.OnLoss)
	receiver := "Receiver: it " + ours + " (" + trade + ")."
	leave := " Before you switch the radio on again, keep the sticks out of the arm corner: held there they arm the craft."
	if !facts.BySticks(cfg) {
		leave = " Before you switch the radio on again, put the arm switch off: a disarmed craft that sees it on can arm at once."
	}
	_, unarmed := facts.NeverArms(cfg, r)
	if unarmed {
		leave = ""
	}
	never := ""
	if q.NeverSinks(cfg) {
		never = " It never sinks."
	}
	switch {
	case cfg.Link.OnLoss == facts.RepeatsLast:
		craft := "Craft: it cannot know that the link is gone. Nothing cuts: the motors go on as they were last told." + never
		if q.Arms != facts.Never {
			craft += " Sticks last seen in the arm corner can ARM a disarmed craft."
		}
		return []string{receiver, craft + noPulses, "Back: it obeys the radio again at once." + leave}
	case q.Lost == facts.Never:
		return []string{receiver, storedDoes(cfg, &q, never), "Back: the craft never saw a loss and obeys the radio again at once." + leave}
	case q.ByValues():
		return []string{receiver, storedDoes(cfg, &q, never), cardBack(cfg, unarmed)}
	case cfg.Link.OnLoss == facts.SendsStored:
		receiver += " They leave a channel without a pulse that arming needs, so the craft takes them for silence."
	}
	craft := "Craft: " + Seconds(q.Lost) + " after the last valid frame it "
	if q.Sinks != facts.Never {
		craft += "sinks for " + Seconds(q.Disarmed-q.Sinks) + ", " + sinks(cfg) + ", then cuts" + fromHover(cfg) + ". With the throttle low it cuts at once."
	} else {
		craft += "cuts: the motors stop at once and it is disarmed."
	}
	return []string{receiver, craft, cardBack(cfg, unarmed)}
}

// fromHover says how far below a hover a sinking craft cuts, by the model.
func fromHover(cfg *sim.Config) string {
	s, ok := facts.SinkFromHover(cfg)
	if !ok || s.Falls < 0.5 {
		return ""
	}
	return ", some " + strconv.Itoa(int(math.Round(s.Falls))) + " m below a hover, and falls from there"
}

// cardBack says what a craft that saw the loss does when the radio is heard again. unarmed: this radio cannot arm it.
func cardBack(cfg *sim.Config, unarmed bool) string {
	clean := Seconds(int64(cfg.Link.CleanSlots) * int64(cfg.SlotTicks))
	if unarmed {
		return "Back: the link is good again once it has been clean for " + clean + "."
	}
	once := ", once the arming corner has been left."
	if !facts.BySticks(cfg) {
		once = ", once the arm switch has been off."
	}
	if cfg.Arming.SinkSlots > 0 {
		return "Back: after " + clean + " of clean link a craft that still sinks obeys the radio again; one that is disarmed can be armed" + once
	}
	return "Back: after " + clean + " of clean link it can be armed again" + once
}

// storedDoes says what stored values that are no silence to the craft make it do; sinks says that it never sinks, where that is to be
// said.
func storedDoes(cfg *sim.Config, q *facts.Quiet, sinks string) string {
	l, f := &cfg.Layout, &cfg.Link.Stored
	bySwitch := !facts.BySticks(cfg)
	switch {
	case q.ByValues() && bySwitch:
		return "Craft: the stored values take the arm channel to " + Micros(f[l.Arm]) + " µs, outside its span: it is disarmed and the motors stop " + soon(cfg, q) + "." + sinks
	case q.ByValues():
		return "Craft: the stored values stand in the disarming corner: it is disarmed " + soon(cfg, q) + ", and the motors stop." + sinks
	}
	s := "Craft: the stored values keep the sticks out of the disarming corner: " + staysArmed(q)
	switch {
	case bySwitch:
		s = "Craft: the stored values keep the arm channel at " + Micros(f[l.Arm]) + " µs, in its span: " + staysArmed(q)
	case q.Ends != facts.Never:
		s = "Craft: the stored values stand at the edge of the disarming corner and begin no dwell there: " + staysArmed(q)
	}
	throttle := f[l.Throttle]
	s += " and nothing cuts"
	if throttle >= cfg.Arming.LowThrottle { // below that motors may stand still, yet it stays armed
		s += ": the motors go on"
	}
	s += ", with the throttle at " + Micros(throttle) + " µs." + sinks
	if q.Arms != facts.Never {
		s += " A disarmed craft can ARM by them."
	}
	return s + noPulses
}

// soon says when a craft is disarmed, counted from the radio's last frame.
func soon(cfg *sim.Config, q *facts.Quiet) string {
	if q.AtOnce(cfg) {
		return "at once"
	}
	return Seconds(q.Disarmed) + " after the radio's last frame"
}

// staysArmed says which craft stays armed: where a dwell that the sticks have begun goes on by stored values, only one in flight.
func staysArmed(q *facts.Quiet) string {
	if q.Ends != facts.Never {
		return "a flying craft stays armed"
	}
	return "an armed craft stays armed"
}

// neverSinks says why a craft that is to sink never does with its receiver; empty where it sinks, or is not to.
func neverSinks(cfg *sim.Config) string {
	q := facts.Silence(cfg)
	switch {
	case !q.NeverSinks(cfg):
		return ""
	case q.ByValues():
		return "the stored values disarm it " + soon(cfg, &q)
	case cfg.Link.OnLoss == facts.RepeatsLast:
		return "it cannot know that the link is gone"
	}
	return "it takes the stored values for a good link"
}
