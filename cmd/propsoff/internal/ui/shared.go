package ui

// The sheets that others lead to.
const (
	OnBench     Place = "bench"
	OnCard      Place = "card"
	OnCautions  Place = "cautions"
	OnCheck     Place = "check"
	OnDesk      Place = "desk"
	OnDrills    Place = "drills"
	OnFirst     Place = "first-flight"
	OnGestures  Place = "gestures"
	OnHelp      Place = "help"
	OnLayout    Place = "layout"
	OnQuestions Place = "learn"
	OnLoss      Place = "link-loss"
	OnProve     Place = "prove"
	OnThree     Place = "three"
	OnWhich     Place = "which"
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
	TurnSheet      Action = "sheet"           // light or dark
	TurnLanguage   Action = "language"        // the next language of the sheets
	TurnFullScreen Action = "full-screen"     // full screen and class view, or back
	ShowHelp       Action = "help"            // the help sheet, or back
	Leave          Action = "leave"           // the sheet on top; on the bench, the program
	KeepAgain      Action = "keep-again"      // try again to keep the radio file
	TurnRecording  Action = "take"            // a take is begun, or ended
	PauseFlight    Action = "flight-pause"    // the time of the flight stands still, or runs again
	SlowFlight     Action = "flight-slow"     // … runs slower: NextSlow
	StepFlight     Action = "flight-step"     // … one step on, while it stands
	ReplayFlight   Action = "flight-replay"   // look back at the last 30 s, or back to now
	StandAgain     Action = "stand-again"     // the craft stands at the start again
	AskAgain       Action = "first-questions" // learn the radio being read, again
	TurnSound      Action = "sound"           // sounds on, or off
	Understood     Action = "understood"      // the cautions are read
)

// shared are their keys, in the order in which a sheet shows them.
var shared = [...]Act{
	{SwitchRadio, "L"},
	{SwitchPack, "P"},
	{PlugCable, "U"},
	{TiltCraft, "T"},
	{NudgeCraft, "N"},
	{TurnMenu, "M"},
	{NextDriver, "Tab"},
	{ChooseRadio, "F7"},
	{TurnStickMode, "F3"},
	{TurnSheet, "F5"},
	{TurnLanguage, "Y"},
	{TurnFullScreen, "F11"},
	{ShowHelp, "F1"},
	{Leave, "Esc"},
	{KeepAgain, "F10"},
	{TurnRecording, "F12"},
	{PauseFlight, "G"},
	{SlowFlight, "H"},
	{StepFlight, "J"},
	{ReplayFlight, "R"},
	{StandAgain, "K"},
}
