package phrase

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/handset"
)

// Searched says of which craft and radio the situations are, or are to be.
func Searched(craft string, r *handset.Radio, by facts.By) string {
	s := "Craft " + craft + ", "
	const ideal = ": full travel, and three positions on every switch. "
	switch by {
	case facts.NoneGiven:
		return s + "with an ideal radio, because none was given" + ideal + "A radio file proves your own."
	case facts.NoneDrives:
		return s + "with an ideal radio, because no radio drives" + ideal + "Your own is searched once it drives."
	}
	return s + radioName("radio ", r, by) + ", " + radioKnown(r) + "."
}

// LayoutOf heads the switch layout: which craft, with which radio.
func LayoutOf(craft string, r *handset.Radio, by facts.By) string {
	if by.Ideal() {
		return "Craft " + craft + " with an ideal radio: no radio file is in use, so nothing here was measured."
	}
	s := "Craft " + craft + " with " + radioName("", r, by)
	if assumed(r) != nil {
		s += ", " + radioKnown(r)
	}
	return s + "."
}

// CardRadio says whose controls are on the card, and in what its values are.
func CardRadio(r *handset.Radio, given bool) string {
	mode := "Stick mode " + strconv.Itoa(r.StickMode) + ". "
	if !given {
		return mode + "Values in µs. Ideal radio: no radio file is in use, so full travel and three positions on every switch are taken for granted."
	}
	whose := " " + capital(radioName("radio ", r, facts.ItsFile)) + "."
	switch all := assumed(r); {
	case !r.Measured:
		return mode + "Values in µs. Nothing was measured: full travel is taken for granted." + whose
	case all != nil:
		return mode + "Values in µs as measured, but for " + list(all, "and") + ": full travel is taken for granted there." + whose
	}
	return mode + "Values in µs as measured." + whose
}

// CardOf says on the sheet of the card whose radio is drawn, where that is not the one that drives.
func CardOf(by facts.By) string {
	switch by {
	case facts.GivenFile:
		return "The radio is that of the file given by --radio."
	case facts.NoneDrives:
		return "No radio drives, so an ideal one is drawn."
	}
	return ""
}

// radioName is what a radio is called, after a word, and by which file it is known where it does not drive.
func radioName(word string, r *handset.Radio, by facts.By) string {
	name := word + r.Name
	if r.Name == "" {
		name = "a radio without a name"
	}
	if by == facts.GivenFile {
		name += " (the file of --radio)"
	}
	return name
}

// radioKnown says how much of a radio was measured.
func radioKnown(r *handset.Radio) string {
	switch all := assumed(r); {
	case !r.Measured:
		return "of which nothing was measured: full travel is taken for granted"
	case all != nil:
		return "as far as its file says: full travel is assumed for " + list(all, "and")
	}
	return "as it was measured"
}

// assumed names the controls whose widths are taken for granted.
func assumed(r *handset.Radio) (out []string) {
	for i := range r.Controls {
		if c := &r.Controls[i]; c.Assumed {
			out = append(out, ControlName(c))
		}
	}
	return out
}
