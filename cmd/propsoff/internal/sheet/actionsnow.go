package sheet

import (
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// Shows tells whether an action is there to be done on a sheet with this view.
func (v *View) Shows(a Act, on Place) bool {
	if a.On&on == 0 {
		return false
	}
	if shows, known := v.showsLoss(a.Action, on); known {
		return shows
	}
	if shows, known := v.showsGestures(a.Action, on); known {
		return shows
	}
	switch a.Action {
	case NextDriver:
		return v.Next != Nobody && !(on == OnDrills && v.Drills.Run.On)
	case ChooseRadio:
		return v.canChoose() && !v.playing()
	case AskAgain:
		return v.Driver == Radio
	case LearnSkip:
		return v.Learn.CanSkip
	case LearnEnough:
		return v.Learn.Enough != learn.NoUse || v.Learn.Question == learn.Done
	case LearnBack:
		return v.Learn.CanBack
	case LearnRestart:
		return v.Learn.CanBack || v.Learn.Question >= learn.Done
	case SideLeft, SideRight, SideTop, CallSwitch:
		return v.Learn.Question < learn.Done && v.lastFound() != nil
	case SpringsBack:
		c := v.lastFound()
		return v.Learn.Question < learn.Done && c != nil && (c.Form != radio.Axis || len(c.Positions) > 0)
	case KeepAgain:
		return v.Unkept
	case TurnRecording:
		return v.CanRecord || v.Recording != ""
	case RuleAbove, RuleBelow:
		return len(v.Prove.Rules) > 1
	case MoreSteps:
		return len(v.Prove.steps()) > 5
	case CheckAbove, CheckBelow, CheckFindings, CheckAnew:
		return v.Check.Needs == ""
	case ShowWay:
		return len(v.Prove.steps()) > 0 && !v.playing()
	case SaveCard, TurnPaper, LookCloser:
		return v.Card.Page != nil
	}
	if shows, known := v.showsFlight(a.Action); known && !shows {
		return false
	}
	if shows, known := v.showsDrills(a.Action, on); known && !shows {
		return false
	}
	if shows, known := v.showsDesk(a.Action); known && !shows {
		return false
	}
	return !a.benchInput() || !v.playing() // a script that is meddled with is no longer what was written
}

// offers tells whether an action can be done by its key on a sheet now.
func (v *View) offers(a Action, on Place) bool {
	act := actOf(a)
	return act != nil && v.Shows(*act, on)
}

// benchInput tells whether an action changes what stands on the bench.
func (a *Act) benchInput() bool {
	switch a.Action {
	case SwitchRadio, SwitchPack, PlugCable, TiltCraft, NudgeCraft, TurnMenu, StandAgain, GoOut:
		return true
	}
	return false
}

// playing tells whether a script or take drives and has not ended.
func (v *View) playing() bool { return v.Driver == Played && !v.Ended }

// does says in a few words what the key of an action does now on a sheet.
func (v *View) does(a Action, on Place) string {
	in := &v.Snap.In
	c := a.Code()
	switch a {
	case SwitchRadio:
		return phrase.Does(c, in.Transmitter, 0)
	case SwitchPack:
		return phrase.Does(c, in.Powered, 0)
	case PlugCable:
		return phrase.Does(c, in.Craft.Cable, 0)
	case TiltCraft:
		return phrase.Does(c, false, int(NextTilt(in.Craft.TiltTenths)))
	case TurnMenu:
		return phrase.Does(c, false, int(NextMenu(in.Craft.Menu, v.LastMenu)))
	case RecordGesture:
		p := v.Gestures.Record.Phase
		return phrase.Does(c, p > NoRecord && p < RecordDone, 0)
	case KeepGesture:
		return phrase.Does(c, v.Gestures.Record.Phase == RecordNaming, 0)
	case GestureByJob:
		return phrase.Does(c, v.Gestures.Record.Pattern.Physical, 0)
	case NextDriver:
		return phrase.Does(c, false, int(v.Next))
	case ChooseRadio:
		return phrase.Does(c, v.Choosing, 0)
	case TurnStickMode:
		return phrase.Does(c, false, NextStickMode(v.StickMode))
	case TurnSheet:
		return phrase.Does(c, v.Dark, 0)
	case TurnFullScreen:
		return phrase.Does(c, v.Full, 0)
	case ShowHelp, Leave:
		return phrase.Does(c, on != OnBench && (on == OnHelp || a == Leave && on != OnCautions), 0)
	case OpenCheck, OpenLayout, OpenProve, OpenCard, OpenFirst, OpenThree, OpenGestures, OpenLoss, OpenDrills, OpenDesk:
		return phrase.Does(c, on == placeOf(a), 0)
	case LearnEnough:
		return phrase.EnoughWord(v.Learn.Enough, v.Learn.Question)
	case SpringsBack:
		k := v.lastFound()
		return phrase.Does(c, k != nil && k.Momentary, 0)
	case CheckFindings:
		return phrase.Does(c, v.Check.Findings, 0)
	case TurnSound:
		return phrase.Does(c, v.Sound.Off, 0)
	case TurnRecording:
		return phrase.Does(c, v.Recording != "", 0)
	case SearchNow:
		return phrase.Does(c, v.Prove.Searching, 0)
	case PauseFlight:
		return phrase.Does(c, v.Flight.Pace.Paused, 0)
	case LossFly:
		return phrase.Does(c, v.Loss.Flown, 0)
	case SlowFlight:
		return phrase.SlowTo(NextSlow(v.Flight.Pace.Slow))
	case ReplayFlight:
		return phrase.Does(c, v.Flight.Replay.On, 0)
	case TurnPropeller:
		return phrase.FitNext(NextHand(v.First.hand()))
	case PropellersChecked:
		return phrase.Does(c, v.First.Checked, 0)
	case GoOut:
		return phrase.Does(c, in.Air, 0)
	case DeskPlant:
		d := &v.Desk
		return phrase.DeskPlantKey(d.Selected >= 0 && d.Selected < len(d.Faults) && d.Faults[d.Selected].On)
	case DeskHidden:
		return phrase.DeskHiddenKey(v.Desk.Hidden)
	case BeginDrill:
		return phrase.DrillKey(v.answering(), v.Drills.Run.Over)
	case DrillAbove, DrillBelow:
		return phrase.DrillMove(a == DrillAbove)
	case TurnPaper:
		return phrase.CardTurnTo(v.Card.Other)
	case LookCloser:
		return phrase.CardLook(v.Card.Part, CardParts)
	}
	return phrase.Does(c, false, 0)
}
