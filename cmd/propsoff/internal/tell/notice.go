package tell

import (
	"strings"

	"propsoff/assets/words"
	"propsoff/input/usb"
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
	case usb.WayEvent:
		return words.T("notice.way-event")
	case usb.WayClassic:
		return words.T("notice.way-classic")
	case usb.WayBrowser:
		return words.T("notice.way-browser")
	case usb.WayPortable:
		return words.T("notice.way-portable")
	}
	return words.AsIs(way)
}

// RecordingStopped is said when a take can no longer be written; the practice goes on.
func RecordingStopped(why words.Text) words.Text {
	return words.T("notice.recording-stopped", words.Args{"why": why})
}

// RecordingNotBegun is said when a take that was asked for could not be begun.
func RecordingNotBegun(why words.Text) words.Text {
	return words.T("notice.recording-not-begun", words.Args{"why": why})
}

// RecordingKept says where a take is that was ended.
func RecordingKept(path string) words.Text {
	return words.T("notice.recording-kept", words.Args{"path": words.Quote(path)})
}

// Ran sums up a run: how long, and how many of its expectations were met.
func Ran(ticks int64, met, all int) words.Text {
	if all == 0 {
		return words.T("notice.ran", words.Args{"time": Clock(ticks)})
	}
	return words.T("notice.ran-with", words.Args{"time": Clock(ticks), "met": words.Whole(met), "all": words.Count(all)})
}

// Replayed sums up the replay of a take: how long, how many lines of its record (happenings and digests) came out the same,
// and whether all did.
func Replayed(ticks int64, compared int, same bool) words.Text {
	switch {
	case same && compared == 0: // a comparison of nothing proves nothing
		return words.T("notice.replayed-empty", words.Args{"time": Clock(ticks)})
	case compared == 0:
		return words.T("notice.replayed-nothing", words.Args{"time": Clock(ticks)})
	}
	return words.T("notice.replayed", words.Args{"time": Clock(ticks), "n": words.Count(compared), "same": words.Flag(same)})
}

// ReadAlike is said in the terminal when no file of this very radio is there, but n of radios alike in make and name, and
// the likeliest of them, at path, is used.
func ReadAlike(name, path string, n int) words.Text {
	return words.T("notice.read-alike", words.Args{"name": words.Quote(name), "path": words.Quote(path), "n": words.Count(n)})
}

// OfAnother is said when the radio file that was given by hand was learned from a radio of another make.
func OfAnother(name, other string) words.Text {
	return words.T("notice.of-another", words.Args{"name": words.Quote(name), "other": words.Quote(other)})
}

func named(name string) words.Args { return words.Args{"name": words.Quote(name)} }
