package tell

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
	"propsoff/sim/flight"
	"propsoff/sim/handset"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// CardFileTitle stands in the particulars of the file as its title.
func CardFileTitle(craft string) words.Text {
	return words.T("card.file-title", words.Args{"craft": words.Quote(craft)})
}

// CardFileAbout stands there as what the file holds; given: a radio file was given.
func CardFileAbout(radio string, given bool) words.Text {
	return words.T("card.file-about", words.Args{"given": words.Flag(given), "radio": words.Quote(radio)})
}

// CardPlace heads the switches of one side of the radio. Of those whose side was not told, knobs says that there are knobs
// among them, others that there are switches whose side was told.
func CardPlace(s handset.Side, knobs, others bool) words.Text {
	switch s {
	case handset.Left:
		return words.T("card.left")
	case handset.Right:
		return words.T("card.right")
	case handset.Top:
		return words.T("card.top")
	}
	return words.T("card.switches", words.Args{"knobs": words.Flag(knobs), "others": words.Flag(others)})
}

// CardSwitch names a switch or knob by what it is for.
func CardSwitch(job string) words.Text {
	if job == "second" {
		return words.T("card.second-switch")
	}
	return words.T("card.switch", words.Args{"job": JobName(job)})
}

// CardSource says in small print what carries a control.
func CardSource(c *handset.Control) words.Text {
	var channel, kind words.Text
	if c.Job != "channel "+strconv.Itoa(int(c.Channel)+1) {
		channel = ChannelNumber(int(c.Channel))
	}
	switch {
	case c.Momentary:
		kind = words.T("card.springs-back")
	case c.Kind == handset.Knob:
		kind = words.T("card.knob")
	}
	return words.Listed(channel, carriedBy(c.Source), kind)
}

// CardArmed is what the craft is at a position of the arm switch.
func CardArmed(on bool) words.Text {
	return words.T("card.armed", words.Args{"on": words.Flag(on)})
}

// CardSecond is what a position of the second switch does.
func CardSecond(on bool) words.Text {
	return words.T("card.second", words.Args{"on": words.Flag(on)})
}

// CardMode is the mode at a position of the mode switch, with air mode on or not; gap: no span of the craft file holds it.
func CardMode(m layout.Mode, air, gap bool) words.Text {
	return words.T("card.mode", words.Args{"mode": Mode(m), "air": words.Flag(air), "gap": words.Flag(gap)})
}

// CardValue is where a position reads: one value, or the lowest and highest of some that do the same.
func CardValue(low, high pulse.Width) words.Text {
	to := words.Value(words.Text{})
	if low != high {
		to = Micros(high)
	}
	return words.T("card.value", words.Args{"low": Micros(low), "high": to})
}

// CardMorePositions counts the positions for which there is no room.
func CardMorePositions(n int) words.Text {
	return words.T("card.more-positions", words.Args{"n": words.Count(n)})
}

// CardStick names the direction of a stick: across or up and down, its job and channel.
func CardStick(up bool, job string, channel int) words.Text {
	return words.T("card.stick", words.Args{"up": words.Flag(up), "job": JobName(job), "channel": ChannelNumber(channel)})
}

// CardTravel says how far a stick goes; nil: the radio has no such control.
func CardTravel(c *handset.Control) words.Text {
	if c == nil {
		return words.T("card.no-stick")
	}
	return words.T("card.travel", words.Args{"low": Micros(c.Low), "high": Micros(c.High), "stays": words.Flag(c.Stays)})
}

// CardAbsent names the jobs of the craft that no control of the radio carries.
func CardAbsent(jobs []string) words.Text {
	var all []words.Text
	for _, j := range jobs {
		all = append(all, JobName(j))
	}
	return words.T("card.absent", words.Args{"jobs": words.Or(all...)})
}

// CardMotors says what the motors of an armed craft do at low throttle, and when air mode wakes.
func CardMotors(cfg *sim.Config) words.Text {
	f := &cfg.Flight
	idles := words.Flag(f.AtLowThrottle == flight.Idle)
	motors := words.T("card.motors-stand")
	if idles {
		motors = words.T("card.motors-idle", words.Args{"speed": shareOf(int64(f.IdleSpeed), flight.FullSpeed)})
	}
	var modes []words.Text
	for _, m := range facts.WakeAir(cfg) {
		modes = append(modes, Mode(m))
	}
	if len(modes) == 0 {
		return motors
	}
	return words.Row(motors, words.T("card.air-mode", words.Args{"throttle": shareOf(int64(f.AirWake), pulse.ThrottleFull), "modes": words.Or(modes...), "idles": idles}))
}

// shareOf is a share of a whole with at most one decimal.
func shareOf(v, whole int64) words.Text { return Tenths((v*1000 + whole/2) / whole) }

// CardNotProved is said where nobody searched. key is the one that opens the search in the window; empty for a card that is made
// in the terminal.
func CardNotProved(key words.Text) words.Text {
	return words.T("card.not-proved", words.Args{"key": key})
}

// CardBeingProved is said while a search is under way.
func CardBeingProved(key words.Text) words.Text {
	return words.T("card.being-proved", words.Args{"key": key})
}

// CardToSet says once what to set against all that is broken.
func CardToSet(all []words.Text) words.Text {
	return words.T("card.to-set", words.Args{"all": words.Row(all...)})
}

// CardRest sums up the rules for which there is no room.
func CardRest(n int) words.Text { return words.T("card.rest", words.Args{"n": words.Count(n)}) }

// CardWarnings counts what the layout sheet calls out.
func CardWarnings(n int) words.Text { return words.T("card.warnings", words.Args{"n": words.Count(n)}) }

// CardSignParts are what is signed for.
func CardSignParts() []words.Text {
	return []words.Text{words.T("card.sign-arming"), words.T("card.sign-disarming"), words.T("card.sign-modes"), words.T("card.sign-loss")}
}

// CardSignNames are what goes before the lines to write on: who, and when.
func CardSignNames() []words.Text {
	return []words.Text{words.T("card.sign-by"), words.T("card.sign-on")}
}

// CardPreviewTitle heads the page on the screen.
func CardPreviewTitle(paper string) words.Text {
	return words.T("card.preview-title", words.Args{"paper": words.Quote(paper)})
}

// CardWhere says where the card will be saved.
func CardWhere(folder string) words.Text {
	return words.T("card.where", words.Args{"folder": words.Quote(folder)})
}

// CardSaved says where the card was saved.
func CardSaved(path string) words.Text {
	return words.T("card.saved", words.Args{"path": words.Quote(path)})
}

// CardNotSaved says why the card was not saved.
func CardNotSaved(why words.Text) words.Text {
	return words.T("card.not-saved", words.Args{"why": why})
}

// CardEnding says which endings of file names there are.
func CardEnding(path string, endings []string) words.Text {
	return words.T("card.ending", words.Args{"path": words.Quote(path), "endings": words.Or(words.AsAre(endings...)...)})
}

// CardNoPaper names the sizes of paper.
func CardNoPaper(name string, known []string) words.Text {
	return words.T("card.no-paper", words.Args{"paper": words.Quote(name), "known": words.Or(words.AsAre(known...)...)})
}

// CardNoDate says how a date is written.
func CardNoDate(text string) words.Text {
	return words.T("card.bad-date", words.Args{"text": words.Quote(text)})
}

// CardNotLearned is said of a radio that has no radio file yet.
func CardNotLearned(name string) words.Text {
	return words.T("card.not-learned", words.Args{"radio": words.Quote(name)})
}

// CardTurnTo says which paper the key turns to.
func CardTurnTo(paper string) words.Text {
	return words.T("card.turn-to", words.Args{"paper": words.Quote(paper)})
}

// CardLook says what the key for looking closer does: part of so many is shown now, 0 for the whole page.
func CardLook(part, parts int) words.Text {
	switch {
	case part == 0:
		return words.T("card.closer")
	case part >= parts:
		return words.T("card.whole-page")
	}
	return words.T("card.further-down")
}
