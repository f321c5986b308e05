package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
)

// Countdown is what runs down or fills at present, as a sentence and as a share 0 … 1; false where nothing does.
func Countdown(f *facts.Facts) (text words.Text, share float64, ok bool) {
	s, cfg := &f.Snap, &f.Craft
	slot := int(cfg.SlotTicks)
	part := func(leftMillis int, slots uint16) float64 {
		if slots == 0 {
			return 1
		}
		return 1 - float64(leftMillis)/float64(int(slots)*slot)
	}
	clean, still, held := words.Args{"left": left(s.CleanLeftMillis)}, words.Args{"left": left(s.StillLeftMillis)}, float64(s.Dwell)/1000
	switch {
	case !s.In.Powered:
		return words.Text{}, 0, false
	case s.Sinking && s.Link == facts.Fresh && s.CleanLeftMillis < s.SinkLeftMillis:
		return words.T("countdown.control-back", clean), part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.Sinking:
		return words.T("countdown.cut", words.Args{"left": left(s.SinkLeftMillis)}), part(s.SinkLeftMillis, cfg.Arming.SinkSlots), true
	case s.DwellIs == sim.DwellingToArm:
		return words.T("countdown.arming-corner"), held, true
	case s.DwellIs == sim.DwellingToDisarm:
		return words.T("countdown.disarming-corner"), held, true
	case s.Armed:
		return words.Text{}, 0, false
	case s.Link == facts.Fresh && s.CleanLeftMillis >= s.StillLeftMillis:
		return words.T("countdown.clean", clean), part(s.CleanLeftMillis, cfg.Link.CleanSlots), true
	case s.StillLeftMillis > 0:
		return words.T("countdown.still", still), part(s.StillLeftMillis, cfg.Arming.StillSlots), true
	}
	return words.Text{}, 0, false
}

// Standing is mode and motors in one short line.
func Standing(s *sim.Snapshot, cfg *sim.Config) words.Text {
	if !s.In.Powered {
		return words.T("state.no-power")
	}
	return words.T("state.standing", words.Args{"mode": Mode(s.Mode), "air": words.Flag(s.AirAwake), "motors": Motor(s.Motor[0], cfg.Flight.IdleSpeed)})
}

// WhyTitle heads the refusals, or what stands in their place while armed.
func WhyTitle(armed bool) words.Text {
	return words.T("state.why-title", words.Args{"armed": words.Flag(armed)})
}

// WhySentence stands above the refusals, or in their place.
func WhySentence(f *facts.Facts, any bool) words.Text {
	switch {
	case f.Hearing == facts.NoPower:
		return words.T("state.refuses-nothing")
	case f.Snap.Armed:
		return WhatDisarms(f)
	case !any && f.ArmOn():
		return words.T("state.nothing-else-refuses")
	case !any:
		return words.T("state.nothing-refuses")
	}
	return words.Text{}
}

// WhoCures heads the refusals that the same hands cure.
func WhoCures(g facts.Group) words.Text {
	switch g {
	case facts.InHand:
		return words.T("group.in-hand")
	case facts.OnLink:
		return words.T("group.on-link")
	}
	return words.T("group.at-craft")
}

// LinkLine is the craft's judgement of the link in a few words.
func LinkLine(f *facts.Facts) words.Text {
	return words.T("link.line", words.Args{"link": judgedLink(f)})
}

// ReceiversWay says what the receiver does when the radio goes silent, with the trade's word beside it; where an instructor planted another
// receiver that is for the pupil to find out.
func ReceiversWay(f *facts.Facts) words.Text {
	if f.ReceiverHidden {
		return words.T("receiver.way-hidden")
	}
	ours, trade := OnLoss(f.Craft.Link.OnLoss)
	return words.T("receiver.way", words.Args{"ours": ours, "trade": trade})
}
