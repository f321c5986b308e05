package ui

import (
	"cmp"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/pulse"
)

// The sheets that others lead to.
const (
	OnAsk       Place = "ask"
	OnBench     Place = "bench"
	OnCard      Place = "card"
	OnCautions  Place = "cautions"
	OnCheck     Place = "check"
	OnCompare   Place = "compare"
	OnDesk      Place = "desk"
	OnDrills    Place = "drills"
	OnFiles     Place = "files"
	OnFirst     Place = "first-flight"
	OnForesee   Place = "foresee"
	OnGestures  Place = "gestures"
	OnHelp      Place = "help"
	OnLayout    Place = "layout"
	OnQuestions Place = "learn"
	OnLoss      Place = "link-loss"
	OnPeople    Place = "people"
	OnProve     Place = "prove"
	OnSeats     Place = "seats"
	OnStart     Place = "start"
	OnThree     Place = "three"
	OnWhich     Place = "which"
	OnWrite     Place = "write"
)

// The actions that several sheets have.
const (
	NoAction       Action = ""
	SwitchRadio    Action = "radio-switch"    // the transmitter off and on
	SwitchPack     Action = "pack"            // the craft's pack off and on
	PlugCable      Action = "set-up-cable"    // the craft's set-up cable in and out
	TiltCraft      Action = "tilt"            // level, 20°, 45°, 170°, level
	NudgeCraft     Action = "nudge"           // move the craft once
	TurnMenu       Action = "menu"            // closed, the craft's own, closed, a camera's, closed
	NextDriver     Action = "next-driver"     // View.Next drives
	ChooseRadio    Action = "choose-radio"    // begin or end choosing between radios
	TurnStickMode  Action = "stick-mode"      // the next of the four stick modes
	TurnSheet      Action = "sheet"           // NextTheme
	TurnLanguage   Action = "language"        // the next language of the sheets
	TurnFullScreen Action = "full-screen"     // full screen and class view, or back
	ShowHelp       Action = "help"            // the help sheet, or back
	Leave          Action = "leave"           // the sheet on top; on the bench, the program
	ShowSeats      Action = "seats"           // where the radio's controls sit, or back
	KeepAgain      Action = "keep-again"      // try again to keep the radio file
	TurnRecording  Action = "take"            // a take is begun, or ended
	PauseFlight    Action = "flight-pause"    // the time of the flight stands still, or runs again
	SlowFlight     Action = "flight-slow"     // … runs slower: NextSlow
	StepFlight     Action = "flight-step"     // … one step on, while it stands
	ReplayFlight   Action = "flight-replay"   // look back at the last 30 s, or back to now
	SeeFrom        Action = "see-from"        // whence the flight is seen: Seen.Next
	StandAgain     Action = "stand-again"     // the craft stands at the start again
	FlyAgain       Action = "fly-again"       // back to before the wreck, and on from there
	NextBench      Action = "next-bench"      // onto the stand, then its height held, then the whole craft
	AskAgain       Action = "first-questions" // learn the radio being read, again
	TurnTextSize   Action = "text-size"       // the next size of text
	TurnSound      Action = "sound"           // sounds on, or off
	Understood     Action = "understood"      // the cautions are read
	LeafBack       Action = "leaf-back"       // a page back, where there are several
	LeafOn         Action = "leaf-on"         // a page on
)

// shared are their keys, in the order in which a sheet shows them.
var shared = [...]Act{
	{Action: SwitchRadio, Physical: "L", On: func(v *View) bool { return v.WillBe(pulse.Link, v.Snap.In.Transmitter) }},
	{Action: SwitchPack, Physical: "P", On: func(v *View) bool { return v.WillBe(pulse.Power, v.Snap.In.Powered) }},
	{Action: PlugCable, Physical: "U", On: func(v *View) bool { return v.WillBe(pulse.Cable, v.Snap.In.Craft.Cable) },
		Shows: func(v *View) bool { return (!v.Snap.In.Air || v.Snap.In.Craft.Cable) && !v.Facts.CableHeld }},
	{Action: TiltCraft, Physical: "T", Next: func(v *View) int { return int(NextTilt(v.Snap.In.Craft.TiltTenths)) },
		// In the air the hand that holds the craft is gone; what it left behind can be put right.
		Shows: func(v *View) bool { return !v.Snap.In.Air || v.Snap.In.Craft.TiltTenths != 0 }},
	{Action: NudgeCraft, Physical: "N", Shows: func(v *View) bool { return !v.Snap.In.Air }},
	{Action: TurnMenu, Physical: "M", Next: func(v *View) int { return int(NextMenu(v.Snap.In.Craft.Menu, v.LastMenu)) },
		Shows: func(v *View) bool { return !v.Snap.In.Air || v.Snap.In.Craft.Menu != pulse.MenuClosed }},
	{Action: NextDriver, Physical: "Tab", Next: func(v *View) int { return int(v.Next) }, Shows: func(v *View) bool { return v.Next != Nobody }},
	{Action: ChooseRadio, Physical: "F7", On: func(v *View) bool { return v.Choosing },
		Shows: func(v *View) bool { return v.canChoose() && !v.Playing() }},
	{Action: TurnStickMode, Physical: "F3", Next: func(v *View) int { return NextStickMode(v.StickMode) }},
	{Action: TurnSheet, Physical: "F5", Next: func(v *View) int { return v.themeAfter() }},
	{Action: TurnLanguage, Physical: "Y", Says: func(v *View) words.Text { return words.AsIs(v.Language().Next().Name()) }},
	{Action: TurnTextSize, Physical: "Equal", Says: func(v *View) words.Text {
		return words.T("key.text-size", words.Args{"on": words.Flag(v.NextTextSize() < cmp.Or(v.TextSize, usualSize))})
	}},
	{Action: TurnFullScreen, Physical: "F11", On: func(v *View) bool { return v.Full }},
	{Action: TurnSound, Physical: "Z", On: func(v *View) bool { return v.Sound.Off }},
	{Action: ShowHelp, Physical: "F1"},
	{Action: Leave, Physical: "Esc"},
	{Action: ShowSeats, Physical: "Backquote", Shows: func(v *View) bool { return v.HasSeats }},
	{Action: KeepAgain, Physical: "F10", Shows: func(v *View) bool { return v.Unkept }},
	{Action: TurnRecording, Physical: "F12", On: func(v *View) bool { return v.Recording != "" },
		Shows: func(v *View) bool { return v.CanRecord || v.Recording != "" }},
	{Action: PauseFlight, Physical: "G", Shows: (*View).timeStops, On: func(v *View) bool { return v.Flight.Pace.Paused }},
	{Action: SlowFlight, Physical: "H", Shows: (*View).timeStops, Says: func(v *View) words.Text { return tell.SlowTo(NextSlow(v.Flight.Pace.Slow)) }},
	{Action: StepFlight, Physical: "J", Shows: func(v *View) bool { return v.timeStops() && v.Flight.Pace.Paused }},
	{Action: FlyAgain, Physical: "Backspace", Shows: func(v *View) bool { return v.Flight.Wreck.Is && !v.Drilling }},
	{Action: ReplayFlight, Physical: "R", Shows: (*View).timeStops, On: func(v *View) bool { return v.Flight.Replay.On }},
	{Action: SeeFrom, Physical: "0", Shows: func(v *View) bool { return v.Snap.In.Air }, Next: func(v *View) int { return int(v.Flight.From.Next()) }},
	{Action: NextBench, Physical: "BracketLeft", Shows: func(v *View) bool { return v.Snap.In.Air && !v.Flight.Replay.On },
		Next: func(v *View) int { return int(BenchAfter(v.Snap.In.Bench())) - 1 }},
	{Action: LeafBack, Physical: "PageUp", Shows: func(v *View) bool { return leafTurns(v, LeafBack) }},
	{Action: LeafOn, Physical: "PageDown", Shows: func(v *View) bool { return leafTurns(v, LeafOn) }},
	{Action: StandAgain, Physical: "K", Shows: func(v *View) bool { return v.Snap.In.Air && !v.Flight.Replay.On }},
}

// timeStops tells whether time may be stopped and looked back at: in flight, and by an instructor on either bench.
func (v *View) timeStops() bool { return v.Snap.In.Air || v.DeskUsed }
