package phrase

import (
	"strings"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
)

// Countdown is what runs down or fills at present, as a sentence and as a share 0 … 1; false where nothing does.
func Countdown(f *facts.Facts) (text string, share float64, ok bool) {
	s, cfg := &f.Snap, &f.Craft
	slot := int(cfg.SlotTicks)
	part := func(leftMillis int, slots uint16) float64 {
		if slots == 0 {
			return 1
		}
		return 1 - float64(leftMillis)/float64(int(slots)*slot)
	}
	held := float64(s.Dwell) / 1000
	switch {
	case !s.In.Powered:
		return "", 0, false
	case s.Sinking && s.Link == facts.Fresh && s.CleanLeftMillis < s.SinkLeftMillis:
		return "Sinking: the pilot has control again after " + left(s.CleanLeftMillis) + " more of clean link.", part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.Sinking:
		return "Sinking: the motors are cut in " + left(s.SinkLeftMillis) + ".", part(s.SinkLeftMillis, cfg.Arming.SinkSlots), true
	case s.DwellIs == sim.DwellingToArm:
		return "The arming corner is held …", held, true
	case s.DwellIs == sim.DwellingToDisarm:
		return "The disarming corner is held …", held, true
	case s.Armed:
		return "", 0, false
	case s.Link == facts.Fresh && s.CleanLeftMillis >= s.StillLeftMillis:
		return "The link must stay clean for " + left(s.CleanLeftMillis) + " more.", part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.StillLeftMillis > 0:
		return "The craft must stand still for " + left(s.StillLeftMillis) + " more.", part(s.StillLeftMillis, cfg.Arming.StillSlots), true
	}
	return "", 0, false
}

// Standing is mode and motors in one short line.
func Standing(s *sim.Snapshot, cfg *sim.Config) string {
	if !s.In.Powered {
		return "No power: motors still."
	}
	motor := Motor(s.Motor[0], cfg.Flight.IdleSpeed)
	out := "Mode " + Mode(s.Mode)
	if s.AirAwake {
		out += ", air mode awake"
	}
	return out + "; motors " + motor + "; propellers off."
}

// WhyTitle heads the refusals, or what stands in their place while armed.
func WhyTitle(armed bool) string {
	if armed {
		return "while armed"
	}
	return "why not armed"
}

// WhySentence stands above the refusals, or in their place.
func WhySentence(f *facts.Facts, any bool) string {
	switch {
	case f.Hearing == facts.NoPower:
		return "A craft without power refuses nothing and does nothing."
	case f.Snap.Armed:
		return WhatDisarms(f)
	case !any && f.ArmOn():
		return "Nothing else refuses arming."
	case !any:
		return NothingRefuses()
	}
	return ""
}

// WhatDisarms tells what ends the armed state of this craft, and what does not.
func WhatDisarms(f *facts.Facts) string {
	if !f.Reaches() && f.Hearing == facts.ItsReceiver {
		return keepsOn(f)
	}
	var ways []string
	d := &f.Disarm
	begin := "What disarms now: "
	if i := d[facts.ByItself]; i.OK {
		begin = "It disarms by itself, in " + left(int(i.Ms)) + ". What else disarms now: "
	}
	switch {
	case !f.Reaches():
	case !d[facts.ByHand].OK && f.Tried:
		ways = append(ways, disarmedBy(&f.Craft)+", which this hand cannot bring about")
	case !d[facts.ByHand].OK || f.Unsure:
		ways = append(ways, disarmedBy(&f.Craft))
	case f.BySticks:
		ways = append(ways, "throttle low and yaw fully left, held for "+slots(&f.Craft, f.Craft.Arming.DisarmDwell))
	default:
		ways = append(ways, "the arm switch off, at once")
	}
	switch back := d[facts.ByRadioBack].OK; {
	case back && f.BySticks:
		ways = append(ways, "the radio back and the disarming corner then")
	case back:
		ways = append(ways, "the radio back with the arm switch off")
	}
	ways = append(ways, "the pack pulled")
	if !f.Plain { // a drill may ask for just this
		ways = append(ways, silence(f)...)
	}
	return begin + strings.Join(ways, "; ") + ". " + RefusalsDisarmNot()
}

// RefusalsDisarmNot says that what refuses arming lets an armed craft be.
func RefusalsDisarmNot() string { return "Of what refuses arming, only a lost link ever disarms." }

// silence says whether a radio that goes silent disarms.
func silence(f *facts.Facts) []string {
	switch {
	case f.IfSilent == facts.Unchanged:
		return nil
	case f.ReceiverHidden:
		return []string{"what a silent radio does is for you to find out"}
	case f.IfSilent == facts.Cuts:
		return []string{silentRadio(f) + ", which cuts the motors"}
	case f.IfSilent == facts.Sinks:
		return []string{silentRadio(f)}
	case f.IfSilent == facts.DisarmsStored:
		return []string{"a silent radio, for the receiver's stored values disarm"}
	case f.IfSilent == facts.DisarmsHeld:
		return []string{"a silent radio now, for the receiver repeats the disarming corner"}
	}
	return []string{"not a silent radio, for this receiver goes on sending"}
}

// silentRadio is what must be silent, and for how long, for the radio's silence to disarm.
func silentRadio(f *facts.Facts) string {
	lost := slots(&f.Craft, f.Craft.Link.SilenceSlots)
	switch f.IfSilent {
	case facts.Cuts:
		return "a radio silent for " + lost
	case facts.Sinks:
		return "a radio silent for " + lost + " and " + slots(&f.Craft, f.Craft.Arming.SinkSlots) + " of sinking"
	}
	return "a silent radio"
}

// keepsOn is said of an armed craft whose receiver goes on sending while the radio is silent.
func keepsOn(f *facts.Facts) string {
	out := "The radio is silent and the receiver goes on sending, so the craft cannot know. No stick or switch reaches it"
	switch d := &f.Disarm; {
	case d[facts.ByItself].OK:
		return out + ". It disarms by what the receiver sends, in " + left(int(d[facts.ByItself].Ms)) + "."
	case d[facts.ByRadioBack].OK && f.BySticks:
		return out + ": only the radio coming back and the disarming corner then, or pulling the pack, ends this."
	case d[facts.ByRadioBack].OK:
		return out + ": only the radio coming back with the arm switch off, or pulling the pack, ends this."
	}
	return out + ": only pulling the pack ends this, or the radio when it is heard again."
}

// WhoCures heads the refusals that the same hands cure.
func WhoCures(g facts.Group) string {
	switch g {
	case facts.InHand:
		return "in your hand"
	case facts.OnLink:
		return "on the link"
	}
	return "at the craft"
}

// LinkLine is the craft's judgement of the link in a few words.
func LinkLine(f *facts.Facts) string {
	if f.Hearing == facts.ItsReceiver {
		return capital(Link(f)) + ", the craft thinks; the radio is silent"
	}
	return capital(Link(f))
}

// LinkTitle heads the link.
func LinkTitle() string { return "link: radio to craft" }

// ReceiversWay says what the receiver does when the radio goes silent, with the trade's word beside it; where an instructor planted another
// receiver that is for the pupil to find out.
func ReceiversWay(f *facts.Facts) string {
	if f.ReceiverHidden {
		return "What the receiver does when the radio goes silent is for you to find out."
	}
	ours, trade := OnLoss(f.Craft.Link.OnLoss)
	return "When the radio goes silent the receiver " + ours + " (" + trade + ")."
}
