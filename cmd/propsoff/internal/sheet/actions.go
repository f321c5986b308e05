package sheet

import (
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim/pulse"
)

// Action is one thing that a person can do besides moving sticks and switches.
type Action uint8

// The actions. What each does is told by phrase.Does; the window does it.
const (
	NoAction          Action = iota
	SwitchRadio              // the transmitter off and on
	SwitchPack               // the craft's pack off and on
	PlugCable                // the craft's set-up cable in and out
	TiltCraft                // level, 20°, 45°, 170°, level
	NudgeCraft               // move the craft once
	TurnMenu                 // closed, the craft's own, closed, a camera's, closed
	NextDriver               // View.Next drives
	ChooseRadio              // begin or end choosing between radios
	TurnStickMode            // the next of the four stick modes
	AskAgain                 // learn the radio being read, again
	TurnSheet                // light or dark
	TurnFullScreen           // full screen and class view, or back
	ShowHelp                 // the help sheet, or back
	Leave                    // the sheet on top; on the bench, the program
	Understood               // the cautions are read
	LearnBack                // questions: one step back
	LearnSkip                // questions: this question stays without a control
	LearnEnough              // questions: what learn.View.Enough says; at the end: to the bench
	LearnRestart             // questions: from the beginning
	OpenCheck                // the controls check, or back
	OpenLayout               // the switch layout, or back
	OpenProve                // the search of every situation, or back
	OpenCard                 // the switch card, or back
	RuleAbove                // prove: the rule above
	RuleBelow                // prove: the rule below
	MoreSteps                // prove: further steps of the way
	SearchNow                // prove: begin the search, or stop it
	ShowWay                  // prove: play the way to the broken rule on the bench
	SideLeft                 // questions: the switch found last sits at the left
	SideRight                // questions: … at the right
	SideTop                  // questions: … on top
	SpringsBack              // questions: the switch found last springs back, or stays
	CallSwitch               // questions: the switch found last gets a name, or the typing of it ends
	KeepAgain                // try again to keep the radio file
	LearnAnew                // which file: none of them, learn the radio
	SaveCard                 // card: save it as a PDF file
	TurnPaper                // card: the next size of paper
	LookCloser               // card: the next part of the page closely, then the whole page again
	OpenFirst                // the sheet before the first flight, or back
	OpenThree                // three crafts side by side, or back
	PauseFlight              // the time of the flight stands still, or runs again
	SlowFlight               // … runs slower: NextSlow
	StepFlight               // … one step on, while it stands
	ReplayFlight             // look back at the last 30 s, or back to now
	StandAgain               // the craft stands at the start again
	NextMotor                // first: the next motor
	TurnPropeller            // first: another propeller on it: NextHand
	PropellersChecked        // first: the propellers are right, or to be looked at again
	GoOut                    // first: carry the craft to the other bench
	CheckAbove               // check: the control, or finding, above
	CheckBelow               // check: the one below
	CheckFindings            // check: what warns or fails, or the table again
	CheckAnew                // check: from the beginning
	OpenGestures             // the practice of two-stick gestures, or back
	OpenLoss                 // three receivers side by side on a lost link, or back
	OpenDrills               // the course of drills, or back
	OpenDesk                 // the instructor's desk, or back
	TurnSound                // sounds on, or off
	TurnRecording            // a take is begun, or ended
	BeginDrill               // drills: begin the one looked at, go on, or answer
	DrillAbove               // drills: the one above, or the answer above
	DrillBelow               // drills: the one below
	LeaveDrill               // drills: leave the run
	CallPupil                // drills: a name for who practises is typed, or the typing ends
	PropellersRight          // drills: the propellers were checked
	DeskPlant                // desk: plant the fault looked at, or lift it
	DeskAbove                // desk: the fault above
	DeskBelow                // desk: the fault below
	DeskMore                 // desk: its number higher
	DeskLess                 // desk: its number lower
	DeskOther                // desk: its other number
	DeskLiftAll              // desk: lift everything
	DeskMark                 // desk: a commentary mark
	DeskHidden               // desk: hidden keys on or off
	DeskRadio                // desk: the next radio is the instructor's
	LossStored               // loss: other values stored in the third receiver
	LossFly                  // loss: the demonstration's own pilot flies, or no longer
	LossAnew                 // loss: begin again
	GestureAbove             // gestures: the one above
	GestureBelow             // gestures: the one below
	RecordGesture            // gestures: record one from the pilot's hand, or end that
	KeepGesture              // gestures: name the recorded one, then keep it
	GestureByJob             // gestures: the recorded one by job, or by stick
	GestureMenu              // gestures: the menu that the recorded one opens
	DropGesture              // gestures: throw the recorded one away
	actionCount
)

// Place says on which sheet an action's key works.
type Place uint32

// The places; an action may work on several.
const (
	OnBench Place = 1 << iota
	OnQuestions
	OnHelp
	OnCautions
	OnCheck
	OnLayout
	OnProve
	OnCard
	OnWhich
	OnFirst
	OnThree
	OnGestures
	OnLoss
	OnDrills
	OnDesk
	// OnFlown are the places on which the keyboard pilot drives.
	OnFlown = OnBench | OnThree | OnGestures | OnLoss | OnDrills | OnDesk
	// onTools are the sheets that are opened over the bench; on them the radio drives on.
	onTools = OnCheck | OnLayout | OnProve | OnCard | OnFirst | OnThree | OnGestures | OnLoss | OnDrills | OnDesk
)

// Acts is the table of all actions, in the order in which they are shown. Read only.
func Acts() []Act { return acts[:] }

// ActionOf finds the action of a hit area.
func ActionOf(code string) (Action, bool) {
	for i := range acts {
		if acts[i].Code == code {
			return acts[i].Action, true
		}
	}
	return NoAction, false
}

// Code names an action.
func (a Action) Code() string {
	if act := actOf(a); act != nil {
		return act.Code
	}
	return ""
}

// Idle says why the key of an action does nothing on a sheet now; empty where it does something, or has no place there.
func (v *View) Idle(a Act, on Place) string {
	if a.On&on == 0 || v.Shows(a, on) {
		return ""
	}
	i := phrase.Idling{Drill: on == OnDrills && v.Drills.Run.On, Air: v.Snap.In.Air, CableHeld: v.Facts.CableHeld, Radios: len(v.Radios), Reading: v.Reading >= 0,
		Next: v.KeyToRadio(on), First: v.KeyFor(OpenFirst, on), Pause: v.keyHere(PauseFlight, on), Record: v.Gestures.Not}
	if v.Flight.Replay.On {
		i.Replay = v.KeyFor(ReplayFlight, on)
	}
	if v.playing() { // is that what it waits for?
		ended := *v
		ended.Ended = true
		i.Waits = ended.Shows(a, on) || a.Action == NextDriver
	}
	return phrase.Idle(a.Code, i)
}

// KeyOf is the key of an action, as printed on it in the US layout.
func KeyOf(a Action) string { return physicalOf(a) }

// KeyFor is the key of an action as a sentence on a sheet names it: one that works on the bench alone with where, and one that does
// nothing now not at all.
func (v *View) KeyFor(a Action, on Place) string {
	if key := v.keyHere(a, on); key != "" {
		return key
	}
	if key := v.keyHere(a, OnBench); key != "" {
		return phrase.OnTheBench(key)
	}
	return ""
}

// keyHere is the key of an action, empty where it does nothing on a sheet now.
func (v *View) keyHere(a Action, on Place) string {
	if v.offers(a, on) {
		return physicalOf(a)
	}
	return ""
}

// KeyToRadio is the key that lets a radio drive, as KeyFor names it: that of the next driver where it leads to one, else that of the choice.
func (v *View) KeyToRadio(on Place) string {
	if v.Leads {
		return v.KeyFor(NextDriver, on)
	}
	return v.KeyFor(ChooseRadio, on)
}

// canChoose: there is a radio to choose besides the one that is being read.
func (v *View) canChoose() bool { return len(v.Radios) > 1 || len(v.Radios) == 1 && v.Reading < 0 }

// choosing: a radio is being chosen.
func (v *View) choosing() bool { return v.Choosing && v.canChoose() }

// KeyOfStick is one of the keys by which the keyboard moves a stick and takes over: throttle down, which never starts a motor.
func KeyOfStick() string { return keyOf(keyboard.ThrottleDown) }

// tiltSteps are the tilts that TiltCraft goes through, in tenths of a degree (ours): level, within the usual limit,
// beyond it, and upside down.
var tiltSteps = [...]int16{0, 200, 450, 1700}

// NextTilt is the tilt after one in tenths of a degree: the first step above it, else level.
func NextTilt(tenths int16) int16 {
	for _, s := range tiltSteps {
		if s > tenths {
			return s
		}
	}
	return 0
}

// NextMenu is the value of pulse.Menu after one: an open menu is closed, then the craft's and the camera's open in turn. last is the one
// that was open last.
func NextMenu(menu, last uint8) uint8 {
	switch {
	case menu != pulse.MenuClosed:
		return pulse.MenuClosed
	case last == pulse.MenuCraft:
		return pulse.MenuCamera
	}
	return pulse.MenuCraft
}

// NextStickMode is the stick mode after one, 1 to 4.
func NextStickMode(mode int) int { return stickMode(mode)%4 + 1 }

// choicePrefix and a number from 1 name the hit areas of a choice between radios.
const choicePrefix = "choose-"

// ChoiceOf finds the index in View.Radios of a choice's hit area.
func ChoiceOf(code string) (int, bool) { return digitOf(code, choicePrefix, MostChoices) }

// filePrefix and a number from 1 name the hit areas of a choice between radio files, picturePrefix those of the pictures of
// stick modes.
const (
	filePrefix    = "file-"
	picturePrefix = "picture-"
)

// FileOf finds the index in View.Alike of a radio file's hit area.
func FileOf(code string) (int, bool) { return digitOf(code, filePrefix, MostChoices) }

// PictureOf finds the stick mode, 1 to 4, of a picture's hit area.
func PictureOf(code string) (int, bool) {
	n, ok := digitOf(code, picturePrefix, 4)
	return n + 1, ok
}

// digitOf is the number from 0 that a digit from 1 after a prefix stands for.
func digitOf(code, prefix string, most int) (int, bool) {
	if len(code) != len(prefix)+1 || code[:len(prefix)] != prefix {
		return 0, false
	}
	n := int(code[len(code)-1]) - '1'
	return n, n >= 0 && n < most
}

// MostChoices is how many radios can be chosen between: one digit each.
const MostChoices = 9

// capWord is what a key cap says: an arrow for the arrow keys, else the key's name.
func capWord(physical string) string {
	switch physical {
	case "Up":
		return "↑"
	case "Down":
		return "↓"
	case "Left":
		return "←"
	case "Right":
		return "→"
	}
	return physical
}

// keyOf is what is printed on the key that stands for k.
func keyOf(k keyboard.Key) string {
	for _, b := range layoutKeys {
		if b.Key == k {
			return capWord(b.Physical)
		}
	}
	return ""
}

// layoutKeys is the keyboard's layout, made once; read only.
var layoutKeys = keyboard.Layout()
