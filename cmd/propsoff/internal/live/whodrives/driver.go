// Package whodrives decides who drives the bench: a radio with its radio file, the keyboard, the demo pilot, or a script.
//
// It watches radios come and go, opens them, finds the radio file or has the radio learned, and hands the loop the
// right source. It draws nothing and owns no goroutine: whoever shows it calls Turn now and then, a few times a second
// or sixty; readings wait in the device meanwhile, so none is lost however seldom that is.
package whodrives

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/live/whichradio"
	"propsoff.example/input"
	"propsoff.example/input/keyboard"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim/pulse"
)

// Who drives.
type Who uint8

const (
	Nobody    Who = iota // the craft hears nothing
	Demo                 // the demo pilot
	Keyboard             // keys in the place of a radio
	Radio                // a radio, by its radio file
	Questions            // a radio is there and is being learned
	Script               // a script or take given at the start; nothing else may drive
	Which                // a radio is there, and a person must say which radio file applies to it
)

// Radios is where radios come from: usb.Watcher and usb.Open, or a fake.
type Radios interface {
	// Poll appends what has come and gone since the last call.
	Poll(dst []usb.Change) []usb.Change
	// Found are the radios that are there.
	Found() []usb.Found
	// Open opens one of Found; its stamps count from epoch on the loop's clock.
	Open(path string, epoch int64) (input.Device, error)
	// Close ends the watching; devices that are open stay so.
	Close() error
}

// Options of a Driver. Loop, Clock, Names and Radios are needed.
type Options struct {
	Loop   *live.Loop
	Clock  live.Clock
	Names  input.Names
	Radios Radios
	// Store keeps radio files.
	Store radio.Store
	// File, where given, is used whichever radio it is, instead of the store's.
	File *radio.File
	// Device is the radio that is wanted, by name, number or path; empty takes the best known, else the first.
	Device string
	// Likes tells the radio that was chosen at an earlier start (whichradio.Policy).
	Likes func(radio.Device) bool
	// Demo makes the demo pilot; nil for none.
	Demo func() input.Source
	// Script, where given, is all that ever drives.
	Script input.Source
	// StickMode for radios learned here, 1 to 4; 0 means 2.
	StickMode int
}

// View is what a screen may know.
type View struct {
	Who Who
	// Name of what drives, and Way how a radio is read (in the words of input/usb).
	Name, Way string
	Blunted   bool
	// Plugged is false while the radio that drives is pulled out.
	Plugged bool
	// Choices are the radios that are plugged in, and Chosen the one that is used, −1 for none.
	Choices []string
	Chosen  int
	// Learn is the state of the first questions (Who is Questions).
	Learn learn.View
	// Info of the device that is asked.
	Info    input.Info
	Notices []Notice
	// Ended: the script or take has played to its end; Next lets the keyboard drive.
	Ended bool
	// Result of the first questions, until it is dropped; the radio drives already.
	Result *Result
	// Alike are the radio files of radios of the same kind, the likeliest first (Who is Which); Info then tells of the radio.
	Alike []radio.Candidate
	// Unkept: what is known of the radio that drives is in no file yet; KeepAgain tries.
	Unkept bool
	// StickMode of the radio file, or as asked for.
	StickMode int
	// Instructor is the name of the instructor's radio, empty for none, and Takes the switch on it that takes the sticks.
	Instructor string
	Takes      words.Text
	// Taken has the bit of every channel that the instructor's radio moves, or holds off, now.
	Taken uint16
	// File is the radio file that drives (Who is Radio), nil otherwise.
	File *radio.File
	// Given: it is one that a person gave, and is not written.
	Given bool
	// Unsure is the radio that is to be confirmed before it is read (Guard), nil for none.
	Unsure *radio.Device
}

// Result is how the first questions ended.
type Result struct {
	Learn learn.View
	Info  input.Info
	// Kept is the path of the radio file; empty where it could not be kept, and then Error says where and why.
	Kept  string
	Error words.Text
}

func (r *Result) kept(path string, err error) {
	r.Kept, r.Error = path, words.Error(err)
}

// Driver decides who drives. It belongs to one goroutine.
type Driver struct {
	o         Options
	policy    whichradio.Policy
	who       Who
	keys      *keyboard.Source
	keysEpoch int64
	source    *radio.Source
	file      radio.File          // of the radio that drives
	radio     whichradio.Follower // of the radio that drives, is learned, or whose file is asked for
	info      input.Info          // of it
	alike     []radio.Candidate

	device  input.Device // open while it is learned
	epoch   int64        // of device
	raws    []input.Raw
	last    input.Raw
	retryAt int64 // when a radio that was pulled out in the middle is looked for again, on the loop's clock
	learner *learn.Learner
	// left are the radios whose files are used untried until the program ends, since a person would not try them; known are the files
	// that were there when the radio was looked for.
	left  []radio.Device
	known []string

	changes []usb.Change
	notices []Notice
	result  *Result
	ended   bool // the script or take has played to its end
	mode    int
	told    int // the stick mode that the bench knows
	begun   bool
	shown   bool // Script is one that was asked for by Show
	before  Who  // who drove before it
	tap     tap
	tutor   instructor
	likely  string // the radio that the policy names, known as long as looked
	looked  bool
	guard   func(radio.Device) bool // nil lets every radio be read
	unsure  *usb.Found              // waits to be confirmed
}

// New begins with nobody. The first Turn looks who can drive.
func New(o Options) *Driver {
	if o.StickMode == 0 {
		o.StickMode = 2
	}
	return &Driver{o: o, mode: o.StickMode, told: 2, policy: whichradio.Policy{Wanted: o.Device, Likes: o.Likes, File: o.File, Store: o.Store}}
}

// Turn looks for what has changed and acts on it.
func (d *Driver) Turn() {
	if d.o.Script != nil && !d.begun {
		d.begun = true
		d.hand(Script, d.o.Script, 0)
	}
	d.changes = d.o.Radios.Poll(d.changes[:0])
	d.looked = d.looked && len(d.changes) == 0
	if d.who == Script {
		return // radios that come meanwhile can be chosen once it has ended; none takes over by itself
	}
	for i := range d.changes {
		d.change(&d.changes[i])
	}
	if len(d.changes) > 0 {
		if d.unsure != nil && !slices.ContainsFunc(d.o.Radios.Found(), func(f usb.Found) bool { return f.Path == d.unsure.Path }) {
			d.unsure = nil // pulled out before anybody has said anything
		}
		d.settle()
	}
	if !d.begun {
		d.begun = true
		if d.who == Nobody && !d.takeBest() {
			if d.o.Device != "" && len(d.o.Radios.Found()) == 0 { // else it was said what is wrong with it
				d.note(NoSuchRadio, d.o.Device, "")
			}
			d.demo()
		}
	}
	if d.who == Questions {
		d.ask()
	}
	d.tellMode()
}

// tellMode tells the bench which physical stick carries what, where that has changed.
func (d *Driver) tellMode() {
	if d.told != d.mode {
		d.told = d.mode
		d.o.Loop.Desk().Put(pulse.StickMode, int32(d.mode))
	}
}

// View is what there is to show.
func (d *Driver) View() View {
	v := View{Who: d.who, StickMode: d.mode, Plugged: true, Chosen: -1, Notices: slices.Clone(d.notices)}
	v.Result = d.result
	if d.unsure != nil {
		dev := whichradio.DeviceOf(*d.unsure)
		v.Unsure = &dev
	}
	if d.tutor.source != nil {
		v.Instructor, v.Takes, v.Taken = d.tutor.name, d.tutor.takes, d.tutor.both.Taken()
	}
	found := d.o.Radios.Found()
	for _, f := range found {
		v.Choices = append(v.Choices, f.Name)
	}
	v.Chosen = d.chosen(found)
	switch d.who {
	case Radio:
		v.Name, v.Way, v.Blunted, v.Info = d.info.Name, d.info.Way, d.info.Blunted, d.info
		v.File, v.Given, v.Plugged, v.Unkept = &d.file, d.policy.File != nil, !d.radio.Out(), d.policy.IsUnkept(d.file.Device)
	case Questions:
		v.Name, v.Way, v.Blunted, v.Info = d.info.Name, d.info.Way, d.info.Blunted, d.info
		v.Plugged = d.device != nil
		if d.learner != nil {
			v.Learn = d.learner.View()
		}
	case Which:
		v.Name, v.Info, v.Alike = d.info.Name, d.info, d.alike
	case Script:
		v.Name, v.Ended = d.o.Script.Name(), d.ended
	}
	return v
}

// Close closes what the loop does not.
func (d *Driver) Close() error {
	if d.device != nil {
		_ = d.device.Close()
		d.device = nil
	}
	return d.o.Radios.Close()
}
