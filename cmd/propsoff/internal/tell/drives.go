package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/lossrun"
)

// Driving is what WhoDrives tells of. Who and Next: 0 nobody, 1 the demo pilot, 2 the keyboard, 3 a radio, 4 a script or
// take.
type Driving struct {
	Who      int
	Name     string
	Next     int
	NextName string
	Key      words.Text // of the next driver; empty where it does nothing
	// Sticks: on this sheet the stick keys fly, or would at the first press. Caps: each of them stands beside what it moves.
	Sticks, Caps bool
	StickKeys    words.Text // the keys that fly, as this keyboard has them
	Blunted      bool
	// Finger: a finger was used last; it pulls drawn sticks.
	Finger bool
	// Out: the radio that drives is pulled out of its port.
	Out, Ended bool
}

// WhoDrives says who moves the sticks and how to take over.
func WhoDrives(d Driving) words.Text {
	switch {
	case d.Who == 4 && d.Name == lossrun.PilotName:
		return words.T("drives.own-pilot")
	case d.Who == 4 && !d.Ended:
		return words.T("drives.playing", words.Args{"name": playedName(d.Name)})
	}
	return words.Row(drivesNow(d), drivesNext(d))
}

// playedName is what a script, a take or whoever else plays is called: scripts that ship in the reader's language.
func playedName(name string) words.Text {
	switch name {
	case "":
		return words.T("run.nameless")
	case "-":
		return words.T("run.standard-input")
	}
	return words.Shipped("scripts/names", name)
}

func drivesNow(d Driving) words.Text {
	name, keys := words.Quote(d.Name), words.Text{}
	if d.Sticks {
		keys = d.StickKeys
	}
	switch d.Who {
	case 1:
		return words.T("drives.demo", words.Args{"keys": keys, "finger": words.Flag(d.Finger && d.Sticks)})
	case 2:
		return words.T("drives.keyboard", words.Args{"beside": words.Flag(d.Caps), "idle": words.Flag(!d.Sticks && !d.Caps), "finger": words.Flag(d.Finger)})
	case 3:
		return words.T("drives.radio", words.Args{"name": name, "out": words.Flag(d.Out), "blunted": words.Flag(d.Blunted && !d.Out)})
	case 4:
		return words.T("drives.played", words.Args{"name": playedName(d.Name)})
	}
	return words.T("drives.nobody", words.Args{"keys": keys, "finger": words.Flag(d.Finger && d.Sticks)})
}

// drivesNext says who drives after a press of the key.
func drivesNext(d Driving) words.Text {
	if d.Key.Empty() || d.Next != 1 && d.Next != 2 && (d.Next != 3 || d.NextName == "") {
		return words.Text{}
	}
	return words.T("drives.next", words.Args{
		"key": d.Key, "demo": words.Flag(d.Next == 1), "keyboard": words.Flag(d.Next == 2), "name": words.Quote(d.NextName),
	})
}

// Idling is what Idle tells of. The keys are as the sheet has them, empty where they do nothing now.
type Idling struct {
	// Waits: the key does something once what is played has ended. Drill: a drill runs. Air: the craft is on the air bench.
	Waits, Drill, Air bool
	// CableHeld: the cable stays in whatever the hand does.
	CableHeld bool
	Radios    int
	Reading   bool // one of them is being read
	// Next is the key that lets a radio drive, First that of the sheet before the first flight. Pause stops time, Replay ends a look back.
	Next, First, Pause, Replay words.Text
	// Record says why no gesture can be recorded; empty where one can.
	Record words.Text
}

// Idle says why the key of an action does nothing now; empty where there is nothing to say.
func Idle(code string, i Idling) words.Text {
	if i.Waits {
		return words.T("idle.played")
	}
	switch code {
	case "gesture-record":
		return i.Record
	case "next-driver":
		if i.Drill {
			return words.T("idle.drill")
		}
		return words.T("idle.nobody-else")
	case "choose-radio":
		switch {
		case i.Radios == 0:
			return words.T("idle.no-radio")
		case i.Radios == 1 && i.Reading:
			return words.T("idle.one-radio")
		}
	case "first-questions":
		if i.Radios == 0 {
			return words.T("idle.plug-to-learn")
		}
		return words.T("idle.drive-to-learn", words.Args{"key": i.Next})
	case "three":
		return words.T("idle.three", words.Args{"key": i.First})
	}
	return idleCraft(code, i)
}

// idleCraft is Idle of what is done to the craft.
func idleCraft(code string, i Idling) words.Text {
	switch {
	case code == "flight-step" && !i.Pause.Empty():
		return words.T("idle.time-runs", words.Args{"key": i.Pause})
	case (code == "stand-again" || code == "next-bench") && i.Air:
		return words.T("idle.looking-back", words.Args{"key": i.Replay})
	case code == "set-up-cable" && i.CableHeld:
		return words.T("idle.cable-held")
	}
	switch code {
	case "flight-pause", "flight-slow", "flight-step", "flight-replay", "see-from", "stand-again", "next-bench":
		return words.T("idle.not-in-air", words.Args{"key": i.First})
	case "nudge", "tilt", "set-up-cable", "menu":
		if i.Air {
			return words.T("idle.in-air")
		}
	}
	return words.Text{}
}

// DrillHand is what a sentence about the hand that a drill needs must know besides who drives.
type DrillHand struct {
	Driving
	// StickKey is one of the keys by which the keyboard takes over.
	StickKey words.Text
	// Unplugged: the radio that drives is pulled out. Instructor: the instructor's radio has the sticks.
	Unplugged, Instructor bool
}

// DrillNeedsHand says whose hand a drill waits for, and how it takes over; it says nothing where it is the pupil's that drives.
func DrillNeedsHand(h DrillHand) words.Text {
	switch {
	case h.Instructor:
		return words.T("drill.hand-instructor")
	case h.Who == 1:
		return words.T("drill.hand-demo", words.Args{"how": h.takesOver()})
	case h.Who == 2, h.Who == 3 && !h.Unplugged:
		return words.Text{}
	case h.Who == 3:
		back := words.T("drill.how-replug", words.Args{"how": h.goesOn()})
		return words.T("drill.hand-unplugged", words.Args{"name": words.Quote(h.Name), "how": back})
	case h.Who == 4 && h.Ended:
		return words.T("drill.hand-ended", words.Args{"how": h.goesOn()})
	case h.Who == 4 && h.Next != 0:
		return words.T("drill.hand-played", words.Args{"how": h.goesOn()})
	case h.Who == 4:
		return words.T("drill.hand-played-wait")
	}
	return words.T("drill.hand-nobody", words.Args{"how": h.takesOver()})
}

// takesOver says how a hand takes the sticks that nobody's hand has.
func (h *DrillHand) takesOver() words.Text {
	name := ""
	if h.Next == 3 {
		name = h.NextName
	}
	return words.T("drill.how-take-over", words.Args{"stick": h.StickKey, "key": h.Key, "name": words.Quote(name)})
}

// goesOn says how a hand takes over by the key of the next driver; the demo pilot is no hand either.
func (h *DrillHand) goesOn() words.Text {
	return words.T("drill.how-go-on", words.Args{
		"key": h.Key, "demo": words.Flag(h.Next == 1), "radio": words.Flag(h.Next == 3), "name": words.Quote(h.NextName), "stick": h.StickKey,
	})
}

// KeptIn is said when a radio file was written.
func KeptIn(name, path string) words.Text {
	return words.T("radio-file.kept", words.Args{"name": words.Quote(name), "path": words.Quote(path)})
}
