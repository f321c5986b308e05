package tell

import (
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/sound"
	"propsoff.example/input/usb"
	"propsoff.example/sim/handset"
)

// Cautions are shown at the first start and on the help sheet, in this order: the transmitting radio first.
func Cautions() []words.Text {
	return []words.Text{words.T("caution.radio-transmits"), words.T("caution.propellers-off"), words.T("caution.battery"), words.T("caution.no-clearance")}
}

// NoSuchRadio is said when the one asked for is not among those that are there.
func NoSuchRadio(wanted string) words.Text { return words.T("notice.no-such-radio", named(wanted)) }

// Another is said when one of several radios was taken.
func Another(taken string, n int) words.Text {
	return words.T("notice.another", words.Args{"n": words.Whole(n), "name": words.Quote(taken)})
}

// NotLearned is said of a radio without a radio file, in the terminal.
func NotLearned(name string) words.Text { return words.T("notice.not-learned", named(name)) }

// BluntedCentre is said of a radio whose way of reading hides part of an axis.
func BluntedCentre(name string) words.Text {
	return words.Row(words.T("notice.blunted-centre", named(name)), words.T("notice.permission"))
}

// NotOpened is said of a radio that is there but may not be read at all.
func NotOpened(name string) words.Text {
	return words.Row(words.T("notice.not-opened", named(name)), words.T("notice.permission"))
}

// OtherUSBMode is said of a newly plugged USB device that offers storage, or else a serial port, but no joystick. Without a name it is told
// by its port.
func OtherUSBMode(name, port string, storage bool) words.Text {
	return words.T("notice.other-usb-mode", words.Args{"name": words.Quote(name), "port": words.Quote(port), "storage": words.Flag(storage)})
}

// Unplugged is said when the radio being read vanishes.
func Unplugged(name string) words.Text { return words.T("notice.unplugged", named(name)) }

// Found is said when a radio begins to be read, in a way that package usb names.
func Found(name, way string) words.Text {
	return words.T("notice.found", words.Args{"name": words.Quote(name), "way": Way(way)})
}

// Way names a way of reading a radio, by package usb's word for it.
func Way(way string) words.Text {
	if own, engine := strings.CutSuffix(way, usb.WithEngine); engine {
		return words.T("notice.way-engine", words.Args{"way": Way(own)})
	}
	switch way {
	case usb.WayEvent, usb.WayClassic, usb.WayBrowser, usb.WayPortable:
		return words.Of("notice.way", way)
	}
	return words.AsIs(way)
}

// RecordingStopped is said when a take can no longer be written; the practice goes on.
func RecordingStopped(why words.Text) words.Text {
	return words.T("notice.recording-stopped", words.Args{"why": why})
}

// Ran sums up a run: how long, and how many of its expectations were met.
func Ran(ticks int64, met, all int) words.Text {
	return words.T("notice.ran", words.Args{"time": Clock(ticks), "met": words.Whole(met), "all": words.Count(all), "any": words.Flag(all > 0)})
}

// Replayed sums up the replay of a take: how long, how many lines of its record (happenings and digests) came out the same,
// and whether all did. A comparison of nothing proves nothing.
func Replayed(ticks int64, compared int, same bool) words.Text {
	return words.T("notice.replayed", words.Args{"time": Clock(ticks), "any": words.Flag(compared > 0), "n": words.Count(compared), "same": words.Flag(same)})
}

// ReadAlike is said in the terminal when no file of this very radio is there, but n of radios alike in make and name, and
// the likeliest of them, at path, is used.
func ReadAlike(name, path string, n int) words.Text {
	return words.T("notice.read-alike", words.Args{"name": words.Quote(name), "path": words.Quote(path), "n": words.Count(n)})
}

// NotTried is said where a radio file from elsewhere is used that nobody has tried on this radio: a key tries it, or the command; neither may be.
func NotTried(name string, key words.Text, command bool) words.Text {
	return words.T("notice.not-tried", words.Args{"name": words.Quote(name), "key": key, "command": words.Flag(command)})
}

func named(name string) words.Args { return words.Args{"name": words.Quote(name)} }

// Searched says of which craft and radio the situations are, or are to be.
func Searched(craft string, r *handset.Radio, by facts.By) words.Text {
	switch by {
	case facts.NoneGiven:
		return words.T("of-radio.searched-none-given", words.Args{"craft": words.Quote(craft)})
	case facts.NoneDrives:
		return words.T("of-radio.searched-none-drives", words.Args{"craft": words.Quote(craft)})
	}
	return words.T("of-radio.searched", words.Args{"craft": words.Quote(craft), "radio": radioName(r, by, true), "known": radioKnown(r)})
}

// LayoutOf heads the switch layout: which craft, with which radio.
func LayoutOf(craft string, r *handset.Radio, by facts.By) words.Text {
	known := words.Text{}
	if len(assumed(r)) > 0 {
		known = radioKnown(r)
	}
	return words.T("of-radio.layout", words.Args{"craft": words.Quote(craft), "ideal": words.Flag(by.Ideal()), "radio": radioName(r, by, false), "known": known})
}

// CardRadio says whose controls are on the card, and in what its values are.
func CardRadio(r *handset.Radio, given bool) words.Text {
	return words.T("of-radio.card", words.Args{"mode": words.Whole(r.StickMode), "given": words.Flag(given), "measured": words.Flag(r.Measured),
		"radio": radioName(r, facts.ItsFile, true), "assumed": words.And(assumed(r)...)})
}

// CardOf says on the sheet of the card whose radio is drawn, where that is not the one that drives.
func CardOf(by facts.By) words.Text {
	switch by {
	case facts.GivenFile:
		return words.T("of-radio.card-of-given-file")
	case facts.NoneDrives:
		return words.T("of-radio.card-of-ideal")
	}
	return words.Text{}
}

// radioName is what a radio is called, with the word "radio" before its name or without, and by which file it is known where it does not
// drive.
func radioName(r *handset.Radio, by facts.By, word bool) words.Text {
	return words.T("of-radio.name", words.Args{"name": words.Quote(r.Name), "word": words.Flag(word), "file": words.Flag(by == facts.GivenFile)})
}

// radioKnown says how much of a radio was measured.
func radioKnown(r *handset.Radio) words.Text {
	return words.T("of-radio.known", words.Args{"measured": words.Flag(r.Measured), "assumed": words.And(assumed(r)...)})
}

// assumed names the controls whose widths are taken for granted.
func assumed(r *handset.Radio) (out []words.Text) {
	for i := range r.Controls {
		if c := &r.Controls[i]; c.Assumed {
			out = append(out, ControlName(c))
		}
	}
	return out
}

// SoundCaption is the word for one tone, for eyes; nothing for none.
func SoundCaption(c sound.Code) words.Text {
	if c.Word() == "" {
		return words.Text{}
	}
	if m, ok := c.Mode(); ok {
		return words.T("sound.tone.mode", words.Args{"mode": Mode(m)})
	}
	return words.Of("sound.tone", c.Word())
}

// SoundCaptions are the words for the tones of one moment, the most urgent first; quiet: none of them was to be heard.
func SoundCaptions(all []sound.Code, quiet bool) words.Text {
	if len(all) == 0 {
		return words.Text{}
	}
	tones := make([]words.Text, 0, len(all))
	for _, c := range all {
		tones = append(tones, SoundCaption(c))
	}
	return words.T("sound.captions", words.Args{"tones": words.Listed(tones...), "quiet": words.Flag(quiet)})
}

// Running heads a run: which script or take, and on which craft.
func Running(name, craft string, take bool) words.Text {
	return words.T("run.running", words.Args{"name": playedName(name), "craft": words.Quote(craft), "take": words.Flag(take)})
}

// LinesLeftOut stands where lines are missing.
func LinesLeftOut(n int) words.Text { return words.T("run.left-out", words.Args{"n": words.Count(n)}) }
