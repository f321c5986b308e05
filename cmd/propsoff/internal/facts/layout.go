package facts

import (
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tworadios"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/switches"
)

// By says by what a radio is known.
type By uint8

const (
	NoneGiven  By = iota // an ideal one: no radio file was given
	NoneDrives           // an ideal one: no radio drives the bench
	ItsFile              // by its radio file
	GivenFile            // by the file of --radio, while that radio does not drive
)

// ByFile is by what a radio is known whose file was named, nil for none.
func ByFile(file *radio.File) By {
	if file == nil {
		return NoneGiven
	}
	return ItsFile
}

// Ideal reports whether nothing is known of a radio.
func (b By) Ideal() bool { return b < ItsFile }

// LayoutOf puts a craft, its gestures and menus included, and a radio together, to be looked at and searched. file nil takes an
// ideal radio; info is what the device tells, nil where it is not at hand.
func LayoutOf(craft *craftfile.File, file *radio.File, info *input.Info) prove.Layout {
	l := prove.Layout{Config: craft.Config()}
	if file == nil {
		l.Radio = radioreach.Ideal(craft)
	} else {
		l.Radio = radioreach.Handset(file, info, craft.Names())
	}
	return l
}

// Reach is what a radio can send, and KeyboardReach what the keyboard can, to try things with.
func Reach(file *radio.File, info *input.Info, names input.Names) handset.Radio {
	return radioreach.Handset(file, info, names)
}

// KeyboardReach is told with Reach.
func KeyboardReach(names input.Names) handset.Radio { return radioreach.Keyboard(names) }

// Prove searches a layout. progress, where given, is told how far it is and may stop it.
func Prove(l prove.Layout, progress func(prove.Progress) (stop bool)) (prove.Report, error) {
	return prove.Search(l, prove.Options{Progress: progress})
}

// ProveTwo searches what an instructor's radio does beside the pupil's, of which the report is, and takes what it found into that. The layout that it
// gives has the controls of both radios.
func ProveTwo(l prove.Layout, report *prove.Report, his *radio.File, names input.Names, stop func() bool) tworadios.Found {
	two := tworadios.Layout{Layout: l, His: radioreach.Handset(his, nil, names)}
	two.Pair, two.Takes = radioreach.Pairing(&l.Config.Layout, &two.His)
	found := tworadios.Search(two, report.Results[prove.CanArm].Outcome == prove.Holds, stop)
	for _, r := range found.Results {
		report.Results[r.Rule] = r
	}
	report.Partial = report.Partial || found.Partial
	return found
}

// NeverArms says why no hand on a radio arms a craft; false where one can, and of no radio (nil).
func NeverArms(cfg *sim.Config, r *handset.Radio) (prove.Result, bool) {
	if r == nil {
		return prove.Result{}, false
	}
	return prove.NeverArms(&prove.Layout{Config: *cfg, Radio: *r})
}

// Look finds what the craft does at each position of each switch, and all that is to be called out.
func Look(cfg *sim.Config, jobs []craftfile.Job, r *handset.Radio) *switches.Facts {
	f := switches.Look(cfg, jobs, r)
	if q := Silence(cfg); q.NeverSinks(cfg) {
		f.Callouts = append(f.Callouts, switches.Callout{Code: switches.NeverSinks})
	}
	return f
}
