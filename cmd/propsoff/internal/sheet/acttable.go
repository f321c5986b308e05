package sheet

// Act ties an action to its key. The key's place on a keyboard has the letters of the US layout, as in keyboard.Binding;
// Code names the action in hit areas and in the table of sentences.
type Act struct {
	Action   Action
	Code     string
	Physical string
	On       Place
}

// acts is the one table of actions: bench, help sheet and window all read it. Letters are the bench's, function keys
// the sheet's; none is a key of keyboard.Layout.
var acts = [...]Act{
	{SwitchRadio, "radio-switch", "L", OnBench | OnDrills | OnLoss | OnDesk | OnGestures},
	{SwitchPack, "pack", "P", OnBench | OnDrills},
	{PlugCable, "set-up-cable", "U", OnBench | OnDrills},
	{TiltCraft, "tilt", "T", OnBench | OnDrills},
	{NudgeCraft, "nudge", "N", OnBench | OnDrills},
	{TurnMenu, "menu", "M", OnBench | OnDrills | OnGestures},
	{NextDriver, "next-driver", "Tab", OnBench | OnQuestions | OnWhich | OnLoss | OnGestures | OnDrills},
	{ChooseRadio, "choose-radio", "F7", OnBench | OnQuestions | OnWhich},
	{TurnStickMode, "stick-mode", "F3", OnBench | OnGestures},
	{AskAgain, "first-questions", "F2", OnBench},
	{OpenCheck, "check", "F4", OnBench | onTools},
	{OpenLayout, "layout", "F6", OnBench | onTools},
	{OpenProve, "prove", "F8", OnBench | onTools},
	{OpenCard, "card", "F9", OnBench | onTools},
	{TurnSheet, "sheet", "F5", OnBench | OnQuestions | OnHelp | OnCautions | onTools | OnWhich},
	{TurnFullScreen, "full-screen", "F11", OnBench | OnQuestions | OnHelp | OnCautions | onTools | OnWhich},
	{ShowHelp, "help", "F1", OnBench | OnQuestions | OnHelp | onTools | OnWhich},
	{Leave, "leave", "Esc", OnBench | OnQuestions | OnHelp | OnCautions | onTools | OnWhich},
	{Understood, "understood", "Enter", OnCautions},
	{LearnBack, "question-back", "B", OnQuestions},
	{LearnSkip, "question-skip", "K", OnQuestions},
	{LearnEnough, "question-enough", "Enter", OnQuestions},
	{LearnRestart, "questions-anew", "O", OnQuestions},
	{SideLeft, "side-left", "L", OnQuestions},
	{SideRight, "side-right", "R", OnQuestions},
	{SideTop, "side-top", "T", OnQuestions},
	{SpringsBack, "springs-back", "M", OnQuestions},
	{CallSwitch, "call-switch", "C", OnQuestions},
	{KeepAgain, "keep-again", "F10", OnBench | OnQuestions},
	{LearnAnew, "learn-anew", "N", OnWhich},
	{ShowWay, "show-way", "Enter", OnProve},
	{RuleAbove, "rule-above", "PageUp", OnProve},
	{RuleBelow, "rule-below", "PageDown", OnProve},
	{MoreSteps, "more-steps", "N", OnProve},
	{CheckAbove, "check-above", "PageUp", OnCheck},
	{CheckBelow, "check-below", "PageDown", OnCheck},
	{CheckFindings, "check-findings", "Enter", OnCheck},
	{CheckAnew, "check-anew", "O", OnCheck},
	{SearchNow, "search", "B", OnProve},
	{SaveCard, "card-save", "Enter", OnCard},
	{TurnPaper, "card-paper", "O", OnCard},
	{LookCloser, "card-closer", "Z", OnCard},
	{OpenFirst, "first-flight", "B", OnBench | OnFirst},
	{OpenThree, "three", "V", OnBench | OnThree},
	{OpenGestures, "gestures", "O", OnBench | OnGestures},
	{OpenLoss, "link-loss", "F", OnBench | OnLoss},
	{OpenDrills, "drills", "C", OnBench | OnDrills},
	{OpenDesk, "desk", "I", OnBench | OnDesk},
	{TurnSound, "sound", "Z", OnBench},
	{TurnRecording, "take", "F12", OnFlown},
	{BeginDrill, "drill-begin", "Enter", OnDrills},
	{DrillAbove, "drill-above", "PageUp", OnDrills},
	{DrillBelow, "drill-below", "PageDown", OnDrills},
	{LeaveDrill, "drill-leave", "B", OnDrills},
	{CallPupil, "call-pupil", "Y", OnDrills},
	{PropellersRight, "propellers-right", "K", OnDrills},
	{DeskPlant, "desk-plant", "Enter", OnDesk},
	{DeskAbove, "desk-above", "PageUp", OnDesk},
	{DeskBelow, "desk-below", "PageDown", OnDesk},
	{DeskMore, "desk-more", "O", OnDesk},
	{DeskLess, "desk-less", "K", OnDesk},
	{DeskOther, "desk-other", "U", OnDesk},
	{DeskLiftAll, "desk-lift-all", "V", OnDesk},
	{DeskMark, "desk-mark", "N", OnDesk},
	{DeskHidden, "desk-hidden", "Y", OnDesk},
	{DeskRadio, "desk-radio", "T", OnDesk},
	{PauseFlight, "flight-pause", "G", OnBench | OnThree | OnLoss | OnDesk},
	{SlowFlight, "flight-slow", "H", OnBench | OnThree | OnLoss | OnDesk},
	{StepFlight, "flight-step", "J", OnBench | OnThree | OnLoss | OnDesk},
	{ReplayFlight, "flight-replay", "R", OnBench | OnDesk},
	{StandAgain, "stand-again", "K", OnBench | OnThree},
	{NextMotor, "next-motor", "N", OnFirst},
	{TurnPropeller, "turn-propeller", "O", OnFirst},
	{PropellersChecked, "propellers-checked", "C", OnFirst},
	{GoOut, "go-out", "Enter", OnFirst},
	{LossFly, "loss-fly", "Enter", OnLoss},
	{LossStored, "loss-stored", "T", OnLoss},
	{LossAnew, "loss-anew", "O", OnLoss},
	{GestureAbove, "gesture-above", "PageUp", OnGestures},
	{GestureBelow, "gesture-below", "PageDown", OnGestures},
	{RecordGesture, "gesture-record", "N", OnGestures},
	{KeepGesture, "gesture-keep", "Enter", OnGestures},
	{GestureByJob, "gesture-by-job", "Y", OnGestures},
	{GestureMenu, "gesture-menu", "B", OnGestures},
	{DropGesture, "gesture-drop", "K", OnGestures},
}

// placeOf is the sheet that an action opens over the bench, 0 for none.
func placeOf(a Action) Place {
	switch a {
	case OpenCheck:
		return OnCheck
	case OpenLayout:
		return OnLayout
	case OpenProve:
		return OnProve
	case OpenCard:
		return OnCard
	case OpenFirst:
		return OnFirst
	case OpenThree:
		return OnThree
	case OpenGestures:
		return OnGestures
	case OpenLoss:
		return OnLoss
	case OpenDrills:
		return OnDrills
	case OpenDesk:
		return OnDesk
	}
	return 0
}
