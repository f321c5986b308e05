package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim/handset"
)

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
	if by.Ideal() {
		return words.T("of-radio.layout-ideal", words.Args{"craft": words.Quote(craft)})
	}
	var known words.Text
	if len(assumed(r)) > 0 {
		known = radioKnown(r)
	}
	return words.T("of-radio.layout", words.Args{"craft": words.Quote(craft), "radio": radioName(r, by, false), "known": known})
}

// CardRadio says whose controls are on the card, and in what its values are.
func CardRadio(r *handset.Radio, given bool) words.Text {
	mode := words.Whole(r.StickMode)
	if !given {
		return words.T("of-radio.card-ideal", words.Args{"mode": mode})
	}
	whose := radioName(r, facts.ItsFile, true)
	switch all := assumed(r); {
	case !r.Measured:
		return words.T("of-radio.card-unmeasured", words.Args{"mode": mode, "radio": whose})
	case len(all) > 0:
		return words.T("of-radio.card-partly", words.Args{"mode": mode, "radio": whose, "assumed": words.And(all...)})
	}
	return words.T("of-radio.card", words.Args{"mode": mode, "radio": whose})
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
	switch all := assumed(r); {
	case !r.Measured:
		return words.T("of-radio.known-nothing")
	case len(all) > 0:
		return words.T("of-radio.known-partly", words.Args{"assumed": words.And(all...)})
	}
	return words.T("of-radio.known")
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
