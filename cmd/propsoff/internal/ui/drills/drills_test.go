package drills_test

import (
	"fmt"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	drillssheet "propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// course is the sheet of drills with the shipped course, some of it done.
func course(t testing.TB) *uitest.Stage {
	s := uitest.Ready(t)
	s.Cut = []string{"drill "} // the one looked at is named whole beside the list
	c, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	d := drillssheet.Of(s.V)
	d.Course, d.Drills, d.Selected, d.Day = tell.CourseText(c.Code, c.Name), drills, 3, 10
	d.Chapters, d.Chapter = nil, 0
	at := 0
	for _, ch := range c.Chapters {
		one := screen.DrillChapter{Name: tell.CourseText(c.Code, ch.Name)}
		for range ch.Drills {
			one.Drills = append(one.Drills, at)
			at++
		}
		d.Chapters = append(d.Chapters, one)
	}
	for i := range drills {
		d.Cards = append(d.Cards, [5]drill.Card{
			{}, {Box: 1, Due: 12, Last: 9, Runs: 1, Learned: 1}, {Box: 4, Due: 18, Last: 9}, {Box: 1, Due: 9, Last: 8, Failed: true}, {Box: 2, Due: 10, Last: 8},
		}[i%5])
	}
	d.Sum = tell.DrillCount(drill.Summary{Counted: 7, Right: 5, FalseStarts: 1, Anticipated: 1, Timed: 5, Median: 812_000, Spread: 43_000, Uncertain: 17_000, Trend: -9000})
	d.Next, d.Why = d.Selected, drill.FailedToday
	d.Pupil, d.Where = "Zoë", "/home/pilot/.local/share/propsoff/logbook"
	return s
}

// lookingAt is the course with one of its drills looked at, as a pupil in a stick mode reads it.
func lookingAt(t testing.TB, code string, mode uint8) *uitest.Stage {
	s := course(t)
	d := drillssheet.Of(s.V)
	d.Selected = slices.IndexFunc(d.Drills, func(one *drillfile.Drill) bool { return one.Config.Code == code })
	require.GreaterOrEqual(t, d.Selected, 0, code)
	d.Chapter = slices.IndexFunc(d.Chapters, func(c screen.DrillChapter) bool { return slices.Contains(c.Drills, d.Selected) })
	d.Hands, d.Sum = tell.DrillHands{StickMode: mode, Shipped: true}, tell.DrillCount(drill.Summary{})
	return s
}

// running is a drill under way, at a phase of the one with a code.
func running(t testing.TB, s *uitest.Stage, code string, phase drill.Phase, try drill.Try) *uitest.Stage {
	return runningCase(t, s, code, 0, phase, try)
}

// flownThere is a drill whose craft is flown there for the pupil, at a step of it: at the last one he has it.
func flownThere(t testing.TB, step uint8) *uitest.Stage {
	s := uitest.Outside(t).Tell(pulse.Power, 0)
	_, throttle := sim.Hover(s.Cfg)
	if step > 0 {
		s.Set(4, 2012)
	}
	if step >= 2 {
		s.Frame[s.Cfg.Layout.Throttle] = throttle - pulse.Micros(60)
	}
	if step == 3 {
		s.Frame[s.Cfg.Layout.Throttle] = throttle
	}
	s.Send()
	if step == 3 {
		s.Tell(pulse.Air, pulse.HoverAt(3000))
	}
	s = running(t, s.Wait(300), "land-softly", drill.Preparing, drill.Try{})
	r := &drillssheet.Of(s.V).Run
	r.State.At = step
	in := drill.Input{Facts: drill.FactsOf(&s.V.Snap, s.Cfg)}
	r.Missing = drill.Missing(&r.One.Config, &r.State, &in)
	return s
}

// runningCase is running, of one of its cases.
func runningCase(t testing.TB, s *uitest.Stage, code string, kase uint8, phase drill.Phase, try drill.Try) *uitest.Stage {
	d := drillssheet.Of(s.V)
	if len(d.Drills) == 0 {
		_, d.Drills, _ = drillfile.Shipped("beginner", uitest.KnownMoves(t))
	}
	for _, one := range d.Drills {
		if one.Config.Code != code {
			continue
		}
		r := &d.Run
		*r = drillssheet.Run{On: true, One: one, State: drill.State{Phase: phase, Case: kase, Counted: 2, Recent: 1}, Missing: 0xAAAA, Mark: 1,
			Tries: []drill.Try{{Verdict: drill.FalseStart, Reaction: -1}, {Verdict: drill.Right, Reaction: 640, Uncertain: 17}}}
		if phase == drill.Running || phase == drill.Looking {
			for i := range one.Cases[kase].Choices {
				r.Choices = append(r.Choices, i)
			}
		}
		if phase == drill.Resting || phase == drill.Looking {
			try.Case = kase
			r.Tries, r.State.Counted = append(r.Tries, try), 3
			r.State.Since = s.V.Snap.Tick
			d.Hands = tell.DrillHands{StickMode: 3, Shipped: true}
		}
		s.Facts()
		return s
	}
	t.Fatalf("there is no drill %q", code)
	return nil
}

// looked is a try that was not right and is shown once more, with the hand that made it: a stick that went somewhere, seen after so many ticks.
func looked(t testing.TB, s *uitest.Stage, code string, try drill.Try, did drill.Did, after int64) *uitest.Stage {
	s = running(t, s, code, drill.Looking, try)
	r := &drillssheet.Of(s.V).Run
	var state drill.State
	in := drill.Input{Tick: 1}
	for j := drill.Throttle; j < drill.Jobs; j++ {
		in.Facts.Held[j] = pulse.Centre
	}
	in.Facts.Held[drill.Throttle], in.Facts.Held[drill.Arm], in.Facts.Held[drill.ModeJob] = pulse.Micros(1500), pulse.High, pulse.Low
	r.Way = &drill.Way{}
	state.Phase, state.Given = drill.Running, 500
	for ; in.Tick < 1600; in.Tick++ {
		if k := in.Tick - 800; k > 0 && k < 400 {
			in.Facts.Held[drill.Throttle] = pulse.Micros(1500 - int(k)/4)
			in.Facts.Held[drill.Yaw] = pulse.Micros(1500 - int(k))
		}
		r.Way.Step(&state, &in)
	}
	r.Did, r.State.Since = did, s.V.Snap.Tick-after
	return s
}

// following is a mark that is followed, with 42 s of it left and the craft so far off it.
func following(t testing.TB, code string, off float64) *uitest.Stage {
	s := running(t, course(t), code, drill.Running, drill.Try{})
	r := &drillssheet.Of(s.V).Run
	m := r.One.Config.Cases[0].Mark
	r.Followed = drillrun.Mark{On: true, Config: m, Off: off, Left: 41_300, Whole: m.Ticks()}
	return s
}

// flewOff is a try that left the square again, and is looked at so many ticks after its end.
func flewOff(t testing.TB, after int64) *uitest.Stage {
	try := drill.Try{Verdict: drill.TooLate, Why: drill.StillMissing, Reaction: -1}
	s := running(t, uitest.Airborne(t, 3), "hover-square", drill.Looking, try)
	r := &drillssheet.Of(s.V).Run
	in := drill.Input{Tick: 1, Facts: drill.FactsOf(&s.V.Snap, s.Cfg)}
	state := drill.State{Phase: drill.Running, Given: 500}
	r.Way = &drill.Way{}
	for ; in.Tick < 5000; in.Tick++ { // past it to the right, in a bend
		f := &in.Facts.Flown
		f.Height, f.North, f.East, f.Bank, f.Nose = 2200, int32(min(in.Tick, 3000)), int32(max(in.Tick-1800, 0)), 120, 150
		r.Way.Step(&state, &in)
	}
	r.Did, r.State.Since = drill.DidOf(&r.One.Config, &try, r.Way), s.V.Snap.Tick-after
	return s
}

var drillScenes = []uitest.Scene{
	{Name: "to be flown there", Make: func(t testing.TB) *uitest.Stage { return flownThere(t, 0) }, Says: []string{"is flown there for you", "It hovers with the throttle between"}},
	{Name: "to be flown there, the throttle", Make: func(t testing.TB) *uitest.Stage { return flownThere(t, 2) }, Says: []string{"up to the mark", "It hovers with the throttle between"}},
	{Name: "flown there", Make: func(t testing.TB) *uitest.Stage { return flownThere(t, 3) }, Says: []string{"You fly it", "From the call on you have"}},
	{Name: "chapters", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		drillssheet.Of(s.V).Chapter = -1
		return s
	}, Says: []string{"Drills: From the first touch", "Next: ", "Find your controls", "4 learned", "Find the throttle", "open"}},
	{Name: "course", Make: course, Says: []string{"Drills: Find your controls", "Next: ", "failed today", "begin", "below", "chapters", "Source: common practice, not a published rule"}},
	{Name: "nobody named", Make: func(t testing.TB) *uitest.Stage {
		s := lookingAt(t, "first-flight-order", 2)
		drillssheet.Of(s.V).Pupil = ""
		s.V.Notices = ui.Warnings(tell.DrillOtherHand("instructor"))
		return s
	}, Says: []string{"nobody is named"}},
	{Name: "preparing", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "alarm-by-switch", drill.Preparing, drill.Try{})
	}, Says: []string{"First", "Throttle down, arm switch off", "From the call on you have 1.5", "The alarm · Stop at the alarm, by switch", "leave drill"}},
	{Name: "preparing, with many reasons", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "find-yaw", drill.Preparing, drill.Try{})
		return s.Glide(0, 1312, 200).Tell(pulse.Tilt, 450).Tell(pulse.Cable, 1).Set(4, 2012).Wait(300)
	}, Says: []string{"First", "arm switch"}},
	{Name: "settling", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "find-yaw", drill.Settling, drill.Try{})
	}, Says: []string{"Hands still", "Keep your hands still"}},
	{Name: "waiting", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "alarm-by-switch", drill.Waiting, drill.Try{})
		return s.Set(4, 2012).Wait(200)
	}, Says: []string{"Ready", "wait for the call", "From the call on you have 1.5"}},
	{Name: "alarm", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t).Set(4, 2012).Glide(0, 1500, 200), "alarm-by-switch", drill.Running, drill.Try{})
	}, Says: []string{"Now", "STOP!"}},
	{Name: "taught", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "find-roll-pitch", drill.Running, drill.Try{})
		drillssheet.Of(s.V).Run.State.Recent = 0
		return s.Glide(1, 1300, 200)
	}, Says: []string{"Now", "Roll fully left!"}},
	{Name: "mode", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "mode-by-call", drill.Running, drill.Try{})
	}, Says: []string{"Horizon!"}},
	{Name: "right", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "alarm-by-switch", drill.Resting, drill.Try{Verdict: drill.Right, Reaction: 640, Uncertain: 17})
	}, Says: []string{"Right", "The arm switch first, at once."}},
	{Name: "too late", Make: func(t testing.TB) *uitest.Stage {
		return looked(t, course(t), "alarm-by-switch", drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 1800, Uncertain: 17}, drill.Did{Kind: drill.DidLate, By: 300}, 9000)
	}, Says: []string{"Too late", "It came 0.3", "four times slower", "go on"}},
	{Name: "wrong", Make: func(t testing.TB) *uitest.Stage {
		return looked(t, course(t), "find-throttle", drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Number: 2}, drill.Did{Kind: drill.DidFirst, Job: drill.Yaw, Way: pulse.Micros(440)}, 2200)
	}, Says: []string{"Wrong", "Yaw moved first, by 440"}},
	{Name: "choosing", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "find-the-fault", drill.Running, drill.Try{})
	}, Says: []string{"take answer", "below"}},
	{Name: "a wrong answer", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "first-flight-order", drill.Looking, drill.Try{Verdict: drill.Wrong, Why: drill.WrongAnswer, Number: 6})
	}, Says: []string{"Not so: climb high at once", "go on"}},
	{Name: "a long list to choose from", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "pre-flight-list", drill.Running, drill.Try{})
	}, Says: nil},
	{Name: "one motor turns", Make: func(t testing.TB) *uitest.Stage {
		return runningCase(t, course(t), "motor-test", 1, drill.Running, drill.Try{})
	}, Says: []string{"Which one is it", "Clockwise."}},
	{Name: "a trim", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t).Glide(1, 1590, 100), "trims-at-zero", drill.Running, drill.Try{})
	}, Says: []string{"All are at zero."}},
	{Name: "refused", Make: func(t testing.TB) *uitest.Stage {
		return runningCase(t, course(t).Tell(pulse.Tilt, 500).Wait(300), "refused-by-craft", 1, drill.Running, drill.Try{})
	}, Says: []string{"Radio on", "Pack connected"}},
	{Name: "motors", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t).Set(4, 2012).Wait(300), "motor-stop", drill.Running, drill.Try{})
	}, Says: []string{"they stand still"}},
	{Name: "link lost", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t).Set(4, 2012).Glide(0, 1500, 200).Wait(300).Tell(pulse.Link, 0).Wait(100), "loss-hands", drill.Running, drill.Try{})
	}, Says: []string{"LINK LOST!", "Radio off"}},
	{Name: "propellers", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t).Tell(pulse.Propellers, pulse.PropellersValue([4]int8{1, -1, -1, -1}, false)).Wait(20), "wrong-propeller", drill.Running, drill.Try{})
	}, Says: []string{"propellers, seen from above"}},
	{Name: "propellers outside", Make: func(t testing.TB) *uitest.Stage {
		return running(t, uitest.Outside(t).Tell(pulse.Propellers, pulse.PropellersValue([4]int8{1, -1, -1, -1}, false)).Wait(20), "wrong-propeller", drill.Running, drill.Try{})
	}, Says: []string{"propellers, seen from above"}},
	{Name: "in the air", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Airborne(t, 4)
		s = running(t, s, "name-the-mode", drill.Running, drill.Try{})
		s.V.HideMode = true
		return s
	}, Says: []string{"Roll fully to a side"}},
	{Name: "a height to hold", Make: func(t testing.TB) *uitest.Stage {
		return running(t, uitest.Airborne(t, 3), "hold-height", drill.Running, drill.Try{})
	}, Says: []string{"Stay between 2 and 4 m high", "from where you stand", "m high"}},
	{Name: "a height to come to, by keys", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, uitest.Airborne(t, 1), "hold-height", drill.Settling, drill.Try{})
		d := drillssheet.Of(s.V)
		s.Retell = func() {
			d.Hands.Up, d.Hands.Down, d.Hands.Gentle = s.V.PilotKey(keyboard.ThrottleUp), s.V.PilotKey(keyboard.ThrottleDown), s.V.PilotKey(keyboard.Gentle)
		}
		s.Retell()
		d.Run.State.At = 2
		return s
	}, Says: []string{"come up gently, to between 2 and 4", "A tap of W or S moves the throttle a little, with Shift held less still"}},
	{Name: "to land", Make: func(t testing.TB) *uitest.Stage {
		return running(t, uitest.Airborne(t, 3), "land-softly", drill.Running, drill.Try{})
	}, Says: []string{"Land softly", "high", "ing 0."}},
	{Name: "flying along", Make: func(t testing.TB) *uitest.Stage {
		return runningCase(t, uitest.Airborne(t, 3), "alarm-in-air", 1, drill.Running, drill.Try{})
	}, Says: []string{"It is flying at somebody", "speed "}},
	{Name: "an alarm half answered", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, uitest.Airborne(t, 3), "alarm-in-air", drill.Looking, drill.Try{Verdict: drill.TooLate, Why: drill.StillMissing, Number: 1, Reaction: -1})
		r := &drillssheet.Of(s.V).Run
		r.State.Done, r.Did = 1, drill.Did{Kind: drill.DidNothing, Job: drill.Throttle}
		return s
	}, Says: []string{"The throttle was not moved.", "This was right: disarmed.", "still to come: throttle far enough down"}},
	{Name: "too high", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, uitest.Airborne(t, 3), "hold-height", drill.Looking, drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Reaction: -1})
		drillssheet.Of(s.V).Run.Did = drill.Did{Kind: drill.DidFly, Bound: drill.OfHeight, Side: 1, Flew: 15_000}
		return s
	}, Says: []string{"It was too high, at 15.0", "It was to stay under 15", "go on"}},
	{Name: "a square to hover over", Make: func(t testing.TB) *uitest.Stage {
		return running(t, uitest.Airborne(t, 3), "hover-square", drill.Running, drill.Try{})
	}, Says: []string{"Fly over the square ahead", "from above"}},
	{Name: "a square in a breeze", Make: func(t testing.TB) *uitest.Stage { return inWind(t, "hover-breeze", 30, 270, false) }, Says: []string{"A breeze from the left", "wind 3.0 m/s"}},
	{Name: "a mark to stop on", Make: func(t testing.TB) *uitest.Stage {
		return runningCase(t, uitest.Airborne(t, 3), "stop-on-mark", 1, drill.Running, drill.Try{})
	}, Says: []string{"Fly to the mark"}},
	{Name: "the nose to turn", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, uitest.Airborne(t, 3), "hover-nose", drill.Running, drill.Try{})
		drillssheet.Of(s.V).Run.State.Done = 1
		return s
	}, Says: []string{"then to the right"}},
	{Name: "preparing to fly", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, uitest.Airborne(t, 3), "rate-level", drill.Preparing, drill.Try{})
		drillssheet.Of(s.V).Run.State.At, drillssheet.Of(s.V).Run.Missing = 3, 1<<2
		return s
	}, Says: []string{"Stay higher than 5", "5 m or more high and leaning under 10°"}},
	{Name: "flying on", Make: func(t testing.TB) *uitest.Stage {
		return running(t, uitest.Airborne(t, 3), "alarm-in-air", drill.Waiting, drill.Try{})
	}, Says: []string{"Fly on, and wait for the call"}},
	{Name: "a square that was missed", Make: func(t testing.TB) *uitest.Stage {
		return flewOff(t, 20_000)
	}, Says: []string{"It kept to that for 0.8", "then it was too far to the right", "go on"}},
	{Name: "a gesture looked at", Make: func(t testing.TB) *uitest.Stage { return lookingAt(t, "gesture-craft-menu", 1) },
		Says: []string{"Hold for 0.3 s: left stick to the left, at mid height; right stick straight down. Then within 0.5 s, hold for 0.3 s: left stick straight up.", "Yours will differ: record your own from your craft's manual."}},
	{Name: "an errand looked at", Make: func(t testing.TB) *uitest.Stage { return lookingAt(t, "menu-errand", 3) },
		Says: []string{"In the menu the right stick does it all: up and down moves the mark", "bring that to the middle first"}},
	{Name: "after a gesture", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "gesture-camera-set-up", drill.Looking, drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Number: 2})
	}, Says: []string{"Then within 0.5 s, hold for 0.3 s", "Yours will differ"}},
	{Name: "no hand", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		s.V.Driver, s.V.Next = ui.Demo, ui.Keyboard
		s.Retell = func() {
			drillssheet.Of(s.V).Trouble = tell.DrillNeedsHand(tell.DrillHand{Driving: tell.Driving{Who: int(ui.Demo), Next: int(ui.Keyboard), Key: s.V.Named(ui.NextDriver, ui.OnDrills)}, StickKey: s.V.PilotKey(keyboard.ThrottleDown)})
			s.V.Notices = ui.Warnings(drillssheet.Of(s.V).Trouble, words.T("notice.no-radio"))
		}
		s.Retell()
		return s
	}, Says: []string{"The demo pilot drives, and a drill needs your own hand", "use the keys"}},
	{Name: "following roll", Make: func(t testing.TB) *uitest.Stage { return following(t, "follow-roll-angle", 0.31) }, Says: []string{"keep the craft on the line", "42 s left"}},
	{Name: "following pitch", Make: func(t testing.TB) *uitest.Stage { return following(t, "follow-pitch-rate", -0.2) }, Says: []string{"keep the craft on the line", "42 s left"}},
	{Name: "following yaw", Make: func(t testing.TB) *uitest.Stage { return following(t, "follow-yaw", 0.5) }, Says: []string{"keep the nose on the line", "42 s left"}},
	{Name: "before a mark", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "follow-roll-rate", drill.Preparing, drill.Try{})
	}, Says: []string{"First"}},
	{Name: "measured", Make: func(t testing.TB) *uitest.Stage {
		s := lookingAt(t, "follow-roll-rate", 2)
		d := drillssheet.Of(s.V)
		h := mark.Hand{Axis: mark.Roll, Mode: layout.Rate, Measured: true, DelayMS: 284, DelayWithin: 12, Crossover: 3105, CrossoverWithin: 160, Noise: 123}
		was := h
		was.DelayMS = 310
		d.Run = drillssheet.Run{Over: &drillrun.Result{Run: drill.Run{Learned: true, Tries: []drill.Try{{Verdict: drill.Right, Reaction: -1, Hand: h}}}}, One: d.Drills[d.Selected], Before: &was}
		return s
	}, Says: []string{"Your delay: 284", "between 272 and 296", "Last time it was 310", "up to 0.5 swings a second", "12 % of the stick"}},
	{Name: "not measured", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "follow-roll-rate", drill.Looking, drill.Try{Verdict: drill.Wrong, Why: drill.NotMeasured, Reaction: -1, Hand: mark.Hand{Axis: mark.Roll, Mode: layout.Rate}})
	}, Says: []string{"Not measured: too little", "go on"}},
	{Name: "measured, and going on", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "follow-roll-rate", drill.Looking, drill.Try{Verdict: drill.Right, Reaction: -1, Hand: mark.Hand{Axis: mark.Roll, Mode: layout.Rate, Measured: true, DelayMS: 284, DelayWithin: 12, Crossover: 3105, CrossoverWithin: 160, Noise: 123}})
	}, Says: []string{"Your delay: 284", "go on"}},
	{Name: "left", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		over := &drillrun.Result{Run: drill.Run{BrokenOff: true, Tries: []drill.Try{{Verdict: drill.Wrong, Reaction: -1}}}}
		drillssheet.Of(s.V).Run = drillssheet.Run{Over: over, One: drillssheet.Of(s.V).Drills[1]}
		return s
	}, Says: []string{"it counts neither way"}},
	{Name: "over, after an alarm in the air", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "alarm-in-air", drill.Resting, drill.Try{})
		over := &drillrun.Result{Run: drill.Run{Learned: true}}
		for i := range int32(4) {
			over.Tries = append(over.Tries, drill.Try{Verdict: drill.Right, Reaction: 700 + 60*i, First: 500 + 60*i, Uncertain: 17})
		}
		curve := &facts.AlarmCurve{}
		for curve.Step(s.Cfg) {
		}
		one := drillssheet.Of(s.V).Run.One
		drillssheet.Of(s.V).Run = drillssheet.Run{Over: over, One: one, Alarm: curve, Means: facts.AlarmAfter(s.Cfg, 590)}
		return s
	}, Says: []string{"your right tries (the dot) you disarmed 0.59", "the motors are off after 0.6", "how far it still goes"}},
	{Name: "over", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		over := &drillrun.Result{Run: drill.Run{Learned: true}}
		for i := range int32(5) {
			over.Tries = append(over.Tries, drill.Try{Verdict: drill.Right, Reaction: 500 + 6*i, Uncertain: 17})
		}
		drillssheet.Of(s.V).Run = drillssheet.Run{Over: over, One: drillssheet.Of(s.V).Drills[1]}
		return s
	}, Says: []string{"The drill is over", "Learned.", "go on", "5 of 5 right."}},
}

// shows are texts on the sheet of a run that answer what is asked, or tempt: how to arm, what refuses, the state, the mode, a number of µs.
var shows = regexp.MustCompile(`(?i)to arm|to disarm|refuses arming|\barmed\b|µs|median|try \d`)

// A run's sheet has nothing that answers or tempts, from the cue to the verdict.
func TestTheSheetOfARunGivesNothingAway(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	p := ink.NewPage(1280, 800, 0, nil)
	for _, one := range drills {
		for k := range one.Cases {
			s := runningCase(t, course(t), one.Config.Code, uint8(k), drill.Running, drill.Try{})
			s.V.HideMode = one.Config.Cases[k].Craft.FixedMode > 0
			p.Reset(1280, 800, 0, ink.Light())
			drillssheet.Draw(p, s.V)
			own := s.V.Say(tell.DrillText(one.Config.Code, one.Cases[k].Say))
			seen := 0
			for _, it := range ink.Describe(p).Items {
				if it.Text == "" || it.Group == "task" || it.Group == "answers" {
					continue
				}
				seen++
				assert.NotRegexp(t, shows, it.Text, "%s, case %d: %s", one.Config.Code, k, it.Name)
				if it.Group == "hands" {
					assert.NotContains(t, []string{"angle", "horizon", "rate", "on", "off"}, it.Text, "%s, case %d: %s, once it was right", one.Config.Code, k, it.Name)
				}
			}
			assert.Positive(t, seen)
			assert.NotEmpty(t, own)
		}
	}
}

// The names of chapters and drills stand whole, on pages of eight at most, and those of other pages are counted: in every size, with notices and
// without, whichever is looked at.
func TestTheCourseListsEveryDrill(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	s := course(t)
	d := drillssheet.Of(s.V)
	standings := []drill.Card{{}, {Box: 1, Failed: true}, {Box: 2, Due: 22}} // new, failed last time, due in 12 days
	for k := range d.Cards {
		d.Cards[k] = standings[k%3]
	}
	counted := 0
	for notices := range 3 {
		s.V.Notices = ui.Warnings(tell.DrillOtherHand("instructor"), words.T("notice.no-radio"))[:notices]
		for _, z := range uitest.Sizes {
			for _, s.V.Book = range uitest.BooksAt(z) {
				for _, s.V.Class = range []bool{false, true} {
					s.V.Touch = notices == 1
					for d.Chapter = -1; d.Chapter < len(d.Chapters); d.Chapter++ {
						n, want := "chapter ", len(d.Chapters)
						if d.Looked = len(d.Chapters) - 1; d.Chapter >= 0 {
							all := d.Chapters[d.Chapter].Drills
							n, want, d.Selected, d.Looked = "drill ", len(all), all[len(all)-1], d.Chapter
						}
						p.Reset(z.W, z.H, 0, ink.Light())
						drillssheet.Draw(p, s.V)
						what := fmt.Sprintf("%vx%v, %s, %d notices, class %v, chapter %d", z.W, z.H, s.V.Book.Code(), notices, s.V.Class, d.Chapter)
						uitest.Report(t, what, p)
						counted += listed(t, what, s, p, n, want)
					}
				}
			}
		}
	}
	assert.Positive(t, counted)
}

// listed asks that all of a kind are listed or counted, and gives how many are counted.
func listed(t *testing.T, what string, s *uitest.Stage, p *ink.Page, kind string, want int) (left int) {
	shown, more := 0, ""
	for _, it := range ink.Describe(p).Items {
		if strings.HasPrefix(it.Name, kind) && it.Group == "course" {
			shown++
			assert.True(t, s.V.Class || !strings.HasSuffix(it.Text, "…"), "%s: %s", what, it.Text)
		}
		if it.Name == "unlisted" {
			more = it.Text
		}
	}
	for _, n := range regexp.MustCompile(`\d+`).FindAllString(more, -1) {
		k, err := strconv.Atoi(n)
		require.NoError(t, err)
		left += k
	}
	assert.True(t, shown <= 8 || !s.V.Touch, "%s: %d for a finger", what, shown)
	assert.Equal(t, want, shown+left, "%s: %q", what, more)
	return left
}

// How a gesture is made, and a menu moved, is told whole: for every shipped gesture in every stick mode, before the drill and after a try,
// in every size and for a class.
func TestHowAGestureIsMadeIsToldWhole(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	p := ink.NewPage(960, 600, 0, nil)
	told := 0
	for mode := uint8(1); mode <= 4; mode++ {
		h := tell.DrillHands{StickMode: mode, Shipped: true}
		for _, one := range drills {
			about, after := tell.DrillAbout(one, h), tell.DrillAfter(one, 0, h)
			if uitest.Say(about) == one.About && uitest.Say(after) == one.Cases[0].After {
				continue
			}
			s := lookingAt(t, one.Config.Code, mode)
			s.V.StickMode = int(mode)
			over := *running(t, course(t), one.Config.Code, drill.Looking, drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 6100, Uncertain: 17})
			drillssheet.Of(over.V).Hands = h
			for _, z := range uitest.Sizes {
				for _, book := range uitest.BooksAt(z) {
					for _, class := range []bool{false, true} {
						for i, v := range []*ui.View{s.V, over.V} {
							v.Class, v.Book = class, book
							p.Reset(z.W, z.H, 0, ink.Light())
							drillssheet.Draw(p, v)
							seen := ""
							for _, it := range ink.Describe(p).Items {
								if it.Name == "fact" || it.Name == "after" {
									seen += it.Text + " "
								}
							}
							assert.Contains(t, strings.Join(strings.Fields(seen), " "), book.Say([]words.Text{about, after}[i]), "%s, %s, mode %d, %vx%v class %v", one.Config.Code, book.Code(), mode, z.W, z.H, class)
							told++
						}
					}
				}
			}
		}
	}
	assert.Greater(t, told, 100)
}

// A click on a row only looks at its drill: what begins it stands large beside the list.
func TestWhatIsLookedAtIsBegunByOnePress(t *testing.T) {
	s := course(t)
	p := ink.NewPage(960, 600, 0, nil)
	drillssheet.Draw(p, s.V)
	boxes := ink.Describe(p).Named("offer-box")
	require.Len(t, boxes, 1)
	h, ok := p.HitAt(boxes[0].Box[0]+9, boxes[0].Box[1]+9)
	assert.True(t, ok)
	assert.Equal(t, drillssheet.Begin.Code(), h.Name)
	said, _ := ink.Describe(p).Text("offer")
	assert.Equal(t, "Begin this drill", said)

	drillssheet.Of(s.V).Chapter = -1 // a chapter opens by itself
	p.Reset(960, 600, 0, ink.Light())
	drillssheet.Draw(p, s.V)
	assert.Empty(t, ink.Describe(p).Named("offer-box"))
}

func TestDrillsInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "drills", drillScenes, drillssheet.Draw)
}
