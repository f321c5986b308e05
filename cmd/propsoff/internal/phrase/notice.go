package phrase

import "strconv"

// Cautions are shown at the first start and on the help sheet, in this order: the transmitting radio first.
func Cautions() []string {
	return []string{
		"Your radio may be transmitting while it is plugged in. Disconnect the pack of every craft bound to it before you start, so that nothing can arm while you practise.",
		"Take the propellers off for every exercise with a powered craft. This program needs no craft at all.",
		"A lithium battery stays unplugged while the radio is being set up; never leave it charging alone.",
		"A pass here does not clear an aircraft for flight: test the real craft's arming and link loss, propellers off, by its maker's instructions; " +
			"follow the aviation rules of your country and the club's field rules, and fly under a qualified person first.",
	}
}

// NoRadio is said while nothing that acts as a radio is there.
func NoRadio() string {
	return "No radio is plugged in. Plug it in by USB, switch it on and choose joystick if it asks; it is found automatically."
}

// NothingToLearn is said where learning ends because no radio is there and nobody can say when one is.
func NothingToLearn() string {
	return "There is no radio to learn, and nobody can answer, as standard input has ended. Plug the radio in by USB first, then start this again."
}

// NoSuchRadio is said when the one asked for is not among those that are there.
func NoSuchRadio(wanted string) string {
	return "No radio called \"" + wanted + "\" is plugged in; waiting for it. The command \"propsoff radios\" lists those that are there."
}

// Another is said when one of several radios was taken.
func Another(taken string, n int) string {
	return count(n, "radio") + " are plugged in; reading " + taken + ". Choose another with --device NAME or its number."
}

// NotLearned is said of a radio without a radio file, in the terminal.
func NotLearned(name string) string {
	return name + " has not been learned yet, so only its raw axes and buttons are shown. Learn it by \"propsoff learn\" or in the window, or give a radio file by --radio FILE."
}

// BluntedCentre is said of a radio whose way of reading hides part of an axis.
func BluntedCentre(name string) string {
	return name + " is read with a blunted centre: near the middle of each axis small movements do not show. " + Permission()
}

// Permission says how to be allowed to read a radio at full resolution on Linux.
func Permission() string {
	return "On Linux the full resolution needs permission to read its event node: add yourself to the group \"input\" and log in again, or have a udev rule give the logged-in user access to joysticks."
}

// NotOpened is said of a radio that is there but may not be read at all.
func NotOpened(name string) string {
	return name + " is there but may not be read. " + Permission()
}

// OtherUSBMode is said of a newly plugged USB device that offers storage or a serial port, but no joystick. offers is
// "storage" or "a serial port".
func OtherUSBMode(name, offers string) string {
	return name + " was plugged in and offers " + offers + " but no joystick: this may be your radio in another USB mode; choose joystick on the radio."
}

// Unplugged is said when the radio being read vanishes.
func Unplugged(name string) string {
	return name + " was unplugged. Plug it in again and reading goes on."
}

// Found is said when a radio begins to be read.
func Found(name, way string) string { return "Reading " + name + " by the " + way + "." }

// RecordingStopped is said when a take can no longer be written; the practice goes on.
func RecordingStopped(why string) string {
	return "The recording has stopped: " + why + ". The practice goes on unrecorded."
}

// RecordingNotBegun is said when a take that was asked for could not be begun.
func RecordingNotBegun(why string) string { return "Nothing is recorded: " + why + "." }

// RecordingFrom says what a take holds that was begun by its key.
func RecordingFrom() string {
	return "The take holds this practice from when this craft came on the bench, and goes on until it is ended."
}

// RecordingKept says where a take is that was ended.
func RecordingKept(path string) string { return "The recording is kept in " + path + "." }

// NoWindow is said by a build that has no window.
func NoWindow() string {
	return "This build of propsoff has no window. In the terminal, \"propsoff watch\" shows your radio live, \"propsoff run FILE\" runs a pilot script or a take, and \"propsoff run --live demo\" plays the demo pilot."
}

// NoDisplay is said by a build that has a window but finds no display to open it on.
func NoDisplay() string {
	return "There is no display to open a window on. In the terminal, \"propsoff watch\" shows your radio live, and \"propsoff run --live demo\" plays the demo pilot."
}

// Ran sums up a run: how long, and how many of its expectations were met.
func Ran(ticks int64, met, all int) string {
	s := "Ran to its end, " + Clock(ticks)
	if all == 0 {
		return s + "; nothing was expected."
	}
	return s + "; " + strconv.Itoa(met) + " of " + count(all, "expectation") + " met."
}

// Replayed sums up the replay of a take: how long, how many lines of its record (happenings and digests) came out the same,
// and whether all did.
func Replayed(ticks int64, compared int, same bool) string {
	s := "Replayed, " + Clock(ticks) + "; "
	switch {
	case same:
		return s + "all " + count(compared, "line") + " of its record came out the same."
	case compared == 0:
		return s + "nothing of its record was compared."
	}
	return s + count(compared, "line") + " of its record came out the same, then one did not."
}

// ReadAlike is said in the terminal when no file of this very radio is there, but n of radios alike in make and name, and
// the likeliest of them, at path, is used.
func ReadAlike(name, path string, n int) string {
	s := name + " is read with the radio file of one like it (" + path + "): check that every control does what it should. "
	if n > 1 {
		return s + "There are " + strconv.Itoa(n) + " such files; choose another by --radio FILE, or learn this one by \"propsoff learn\"."
	}
	return s + "To choose another file: --radio FILE. To learn this one: \"propsoff learn\"."
}

// OfAnother is said when the radio file that was given by hand was learned from a radio of another make.
func OfAnother(name, other string) string {
	return "The radio file was learned from " + other + " and is used for " + name + " because you asked for it: check that every control does what it should."
}
