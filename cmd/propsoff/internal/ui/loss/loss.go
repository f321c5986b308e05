// Package loss is one sheet: three receivers side by side on a lost link.
package loss

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/lossrun"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim"
)

// What its own keys do.
const (
	keyFly    ui.Action = "loss-fly"    // the demonstration's own pilot flies, or no longer
	keyStored ui.Action = "loss-stored" // other values stored in the third receiver
	keyAnew   ui.Action = "loss-anew"   // begin again
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnLoss, Key: "F", Flown: true,
		Shared: []ui.Action{ui.SwitchRadio, ui.NextDriver, ui.TurnSheet, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight},
		Own:    []ui.Act{{Action: keyFly, Physical: "Enter"}, {Action: keyStored, Physical: "T"}, {Action: keyAnew, Physical: "O"}},
		Shows:  shows,
		Does: func(v *ui.View, a ui.Action) (does words.Text) {
			if a == keyFly {
				does = tell.Does(a.Code(), Of(v).Flown, 0)
			}
			return does
		},
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	free := !v.Playing() || Of(v).Flown
	switch a {
	case ui.SwitchRadio, keyFly, keyAnew:
		return free, true
	case keyStored: // a receiver does not think of something else in the air
		return free && Of(v).Crafts[facts.SendsStored].Run.Phase != lossrun.Off, true
	}
	return false, false
}

// View is what the sheet knows besides what all know. The sticks, the radio and the pace are those of ui.View.
type View struct {
	Crafts [lossrun.Receivers]Craft
	Stored lossrun.Stored
	// Flown: the demonstration's own pilot drives. Steady: it hovers. Pilot is what it comes to with the pilot's own craft.
	Flown, Steady bool
	Pilot         facts.Pilot
}

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// Craft is one of the three.
type Craft struct {
	// Config is the craft with its receiver, as it now is; Facts are those of it and of Snap.
	Config sim.Config
	Snap   sim.Snapshot
	Facts  facts.Facts
	Run    lossrun.Run
	// Trail as in ui.FlightView.
	Trail []ui.TrailPoint
	// Refusals has been fed with every snapshot that was shown.
	Refusals *ui.Refusals
}

// asks tells whether it is to be shown what the craft asks for before it can be armed again.
func (c *Craft) asks() bool { return c.Run.Phase == lossrun.Back && !c.Snap.Armed }

// told is the craft as its sentences need it.
func (c *Craft) told() tell.LossCraft {
	return tell.LossCraft{Cfg: &c.Config, Run: &c.Run, Snap: &c.Snap, Facts: &c.Facts}
}

// on tells whether the radio is heard.
func on(v *ui.View) bool {
	return v.Snap.In.Transmitting() && Of(v).Crafts[0].Run.Phase != lossrun.Off
}

// next says what to do now; one who paused is told how time goes on, and one whom a drill asks nothing else.
func next(v *ui.View) words.Text {
	if v.Facts.Plain || v.Snap.In.Air && v.Flight.Pace.Paused {
		return v.How(ui.OnLoss)
	}
	key := func(a ui.Action) words.Text { return words.AsIs(v.KeyHere(a, ui.OnLoss)) }
	l := Of(v)
	return tell.LossNext(&l.Crafts[0].Run, &v.Facts,
		tell.LossKeys{Radio: key(ui.SwitchRadio), Fly: key(keyFly), Anew: key(keyAnew), Bench: v.KeyWords(ui.OnLoss), Short: v.Class},
		tell.LossPilot{Flown: l.Flown, Steady: l.Steady, Comes: l.Pilot})
}
