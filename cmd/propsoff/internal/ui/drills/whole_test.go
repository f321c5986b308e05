package drills_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	drillssheet "propsoff.example/cmd/propsoff/internal/ui/drills"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/pulse"
)

// byRadio has a radio drive on which the pilot has said where each switch sits.
func byRadio(s *uitest.Stage) *uitest.Stage {
	l := &s.Cfg.Layout
	wants := []handset.Want{{Channel: l.Throttle, Job: "throttle"}, {Channel: l.Roll, Job: "roll"}, {Channel: l.Pitch, Job: "pitch"}, {Channel: l.Yaw, Job: "yaw"}}
	spots := []handset.Spot{}
	add := func(channel int8, job string, spot handset.Spot) {
		if channel >= 0 {
			wants, spots = append(wants, handset.Want{Channel: channel, Job: job, Kind: handset.Switch}), append(spots, spot)
		}
	}
	add(l.Arm, "arm", handset.Spot{View: handset.OnShoulders, X: 110, Y: 650, Way: handset.GoesDown})
	add(l.Mode, "mode", handset.Spot{View: handset.OnFace, X: 880, Y: 130, Way: handset.GoesUp})
	add(l.Second, "second", handset.Spot{View: handset.OnBack, X: 200, Y: 300, Way: handset.Pressed})
	add(9, "finder sound", handset.Spot{View: handset.OnShoulders, X: 880, Y: 650, Way: handset.GoesUp})
	r := handset.Ideal(wants)
	for i := range r.Controls {
		c := &r.Controls[i]
		if i < 4 {
			continue
		}
		if c.Spot = spots[i-4]; c.Job != "mode" {
			c.Positions = []handset.Position{{Width: pulse.Low}, {Width: pulse.High}}
		}
		c.Momentary = c.Job == "second"
	}
	s.V.Driver, s.V.DriverName, s.V.Next, s.V.Handset, s.V.HasSeats = ui.Radio, "Moorland Desk 7", ui.Keyboard, r, true
	return s
}

// playing is a case of a drill on the bench that it asks for.
func playing(t testing.TB, one *drillfile.Drill, kase int) *uitest.Stage {
	c := &one.Config.Cases[kase]
	cfg, name := uitest.Shipped(t, "built-in")
	if c.Craft.Arming == 2 {
		cfg, name = uitest.Shipped(t, "teasel-by-sticks")
	}
	s := uitest.NewStage(t, c.Craft.On(cfg), name).On().Wait(3500)
	put := func(all []drill.Put) {
		for i := range all {
			r, ok := all[i].Reading(&s.Cfg.Layout)
			require.True(t, ok)
			s.Queue = append(s.Queue, r)
		}
	}
	put(c.Set)
	for i := range c.Before {
		put(c.Before[i].Puts)
		for k := range c.Before[i].Until {
			hold(s, &c.Before[i].Until[k])
		}
		s.Wait(400)
	}
	s.V.Drilling, s.V.HideMode = true, c.Craft.FixedMode > 0
	d := drillssheet.Of(s.V)
	_, d.Drills, _ = drillfile.Shipped("beginner", uitest.KnownMoves(t))
	d.Hands = tell.DrillHands{StickMode: 2, Shipped: true}
	return s
}

// hold holds what is wanted before a cue.
func hold(s *uitest.Stage, w *drill.Want) {
	l := &s.Cfg.Layout
	onOff := func(c int8) {
		if c >= 0 {
			s.Set(c, map[int32]int{0: 988, 1: 2012}[w.A])
		}
	}
	switch w.Kind {
	case drill.Armed:
		if s.Cfg.Arming.By == arming.BySwitch {
			onOff(l.Arm)
		} else if w.A == 1 {
			s.Set(l.Yaw, 2012).Wait(1200).Set(l.Yaw, 1500).Wait(100)
		}
	case drill.ArmSwitch:
		onOff(l.Arm)
	case drill.SecondSwitch:
		onOff(l.Second)
	case drill.Mode, drill.ModeSwitch:
		if l.Mode >= 0 {
			s.Set(l.Mode, []int{988, 1500, 2012}[w.A])
		}
	case drill.HoverThrottle:
		_, at := sim.Hover(s.Cfg)
		s.Frame[l.Throttle] = at
		s.Send()
	case drill.Stick:
		for z := drill.Down; z < drill.Zones; z++ {
			if w.B>>z&1 == 1 {
				from, to, _ := drill.SpanOf(z, w.A == 0, s.Cfg.Arming.LowThrottle)
				s.Frame[(drill.Throttle + drill.Job(w.A)).Channel(l)] = (from + to) / 2
				s.Send()
			}
		}
	}
}

// at has the run of a case stand at a phase: Running as it is taught, or where counted, once it was right.
func at(s *uitest.Stage, one *drillfile.Drill, kase int, phase drill.Phase, counted bool) {
	r := &drillssheet.Of(s.V).Run
	*r = drillssheet.Run{On: true, One: one, State: drill.State{Phase: phase, Case: uint8(kase), Since: s.V.Snap.Tick - 5200}, Missing: 1}
	if counted {
		r.State.Counted, r.State.Recent = 3, 5
	}
	if phase == drill.Running || phase == drill.Looking {
		r.Choices = drill.Choices(&one.Config, &r.State, nil)
	}
	if phase == drill.Looking {
		wrong(s, one, kase)
	}
}

// wrong is a try in which the hand moved nothing but yaw, and looked at.
func wrong(s *uitest.Stage, one *drillfile.Drill, kase int) {
	r, l := &drillssheet.Of(s.V).Run, &s.Cfg.Layout
	var state drill.State
	in := drill.Input{Facts: drill.FactsOf(&s.V.Snap, s.Cfg)}
	r.Way = &drill.Way{}
	state.Phase, state.Given = drill.Running, 500
	for in.Tick = 1; in.Tick < 1600; in.Tick++ {
		if k := in.Tick - 800; k > 0 && k < 400 {
			in.Facts.Held[drill.Yaw] = pulse.Micros(1500 - int(k))
		}
		r.Way.Step(&state, &in)
	}
	_ = l
	try := drill.Try{Verdict: drill.TooLate, Why: drill.StillMissing, Case: uint8(kase), Reaction: -1}
	if len(r.Choices) > 0 {
		try.Verdict, try.Why, try.Number = drill.Wrong, drill.WrongAnswer, uint8(r.Choices[0])
	}
	r.Tries = []drill.Try{try}
	r.Did = drill.DidOf(&one.Config, &try, r.Way)
	r.Follow(nil, 2)
}

// Every drill of the course stands on its sheet whole, by keyboard and by radio: before the cue, while it is taught, once it was right, and in a try that is
// looked at. Where each switch sits on the radio is marked where it must move, and never once that is the answer.
func TestEveryDrillOfTheCourseStandsWhole(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	p := ink.NewPage(960, 600, 0, nil)
	phases := []struct {
		name    string
		phase   drill.Phase
		counted bool
	}{{"1-before", drill.Preparing, false}, {"2-taught", drill.Running, false}, {"3-counted", drill.Running, true}, {"4-looked", drill.Looking, true}}
	marks, zones := map[string]int{}, 0
	for _, one := range drills {
		for kase := range one.Cases {
			s := playing(t, one, kase)
			if g := s.Cfg.Gestures; g != nil {
				drillssheet.Of(s.V).Gestures = make([]gestures.State, len(g.Patterns))
			}
			for _, radio := range []bool{false, true} {
				if radio {
					byRadio(s)
				}
				for _, ph := range phases {
					at(s, one, kase, ph.phase, ph.counted)
					for _, z := range []uitest.Size{{W: 960, H: 600}, {W: 1920, H: 1080}} {
						for _, book := range uitest.BooksAt(z) {
							for _, class := range []bool{false, true} {
								s.V.Book, s.V.Class = book, class
								p.Reset(z.W, z.H, 0, ink.Light())
								drillssheet.Draw(p, s.V)
								what := fmt.Sprintf("%s %d %s radio %v %vx%v %s class %v", one.Config.Code, kase, ph.name, radio, z.W, z.H, book.Code(), class)
								limits := ink.DefaultLimits()
								if ph.phase == drill.Preparing && one.Config.Cases[kase].Choices > 0 {
									limits.Hole = 1 // the answers come with the cue
								}
								for _, q := range ink.CheckWith(p, limits) {
									assert.Fail(t, q.String(), what)
								}
								sheet := ink.Describe(p)
								for _, it := range sheet.Items {
									assert.False(t, strings.HasSuffix(it.Text, "…") && it.Group != "keys", "%s: %s: %q", what, it.Name, it.Text)
								}
								if radio {
									marks[ph.name] += len(sheet.Named("control-mark"))
									if ph.name == "3-counted" {
										assert.Empty(t, sheet.Named("control-name"), what)
									}
								}
								if ph.name == "2-taught" && one.Config.Cases[kase].Wants[0].Kind == drill.Gesture {
									zones += len(sheet.Named("left target")) + len(sheet.Named("right target"))
								}
								uitest.Draw(t, fmt.Sprintf("%s %d %v %s %s class %v", one.Config.Code, kase, map[bool]string{true: "radio", false: "keys"}[radio], ph.name, book.Code(), class), p)
							}
						}
					}
				}
			}
		}
	}
	assert.Positive(t, marks["1-before"])
	assert.Positive(t, marks["2-taught"])
	assert.Zero(t, marks["3-counted"])
	assert.Positive(t, marks["4-looked"])
	assert.Positive(t, zones)
}

// theDrill is a drill of the course by its code, on the bench that one of its cases asks for.
func theDrill(t testing.TB, code string, kase int) (*uitest.Stage, *drillfile.Drill) {
	_, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	for _, one := range drills {
		if one.Config.Code == code {
			return playing(t, one, kase), one
		}
	}
	t.Fatalf("there is no drill %q", code)
	return nil, nil
}

// sheet draws the sheet.
func sheet(s *uitest.Stage) ink.Sheet {
	p := ink.NewPage(1280, 800, 0, nil)
	drillssheet.Draw(p, s.V)
	return ink.Describe(p)
}

// The targets of a gesture are those of the step that is next: while the first is held that is made, the second's; once the gesture is made there are none,
// and what the menu shows is on the sheet.
func TestTheNextStepOfAGestureIsHatched(t *testing.T) {
	s, one := theDrill(t, "menu-errand", 0)
	d := drillssheet.Of(s.V)
	d.Gestures = make([]gestures.State, len(s.Cfg.Gestures.Patterns))
	at(s, one, 0, drill.Running, false)
	first := sheet(s).Named("right target")
	require.Len(t, first, 1)
	n := one.Config.Cases[0].Wants[0].A
	d.Gestures[n] = gestures.State{Phase: gestures.Held}
	second := sheet(s).Named("right target")
	require.Len(t, second, 1)
	assert.Less(t, second[0].Box[1]+second[0].Box[3], first[0].Box[1], "from the middle to the top")
	d.Gestures[n] = gestures.State{Phase: gestures.Away, Part: 1, Wait: 1}
	assert.Equal(t, second[0].Box, sheet(s).Named("right target")[0].Box)

	d.Run.State.Done, s.V.Goggles.Open = 1, true
	seen := sheet(s)
	assert.Empty(t, seen.Named("right target"))
	assert.NotEmpty(t, seen.Named("goggles-frame"))
}

// A hand that made the first step of a gesture alone is told so, and its replay goes on to the target of the second.
func TestAMissedGestureSaysHowFarItCame(t *testing.T) {
	s, one := theDrill(t, "gesture-camera-set-up", 0)
	at(s, one, 0, drill.Looking, false)
	said, _ := sheet(s).Text("say")
	assert.Equal(t, "No step of it was held for long enough.", said)

	r := &drillssheet.Of(s.V).Run
	set := one.Config.Cases[0].Craft.Gestures
	zones := set.Patterns[one.Config.Cases[0].Wants[0].A].JobZones(0, 2)
	state, in := drill.State{Phase: drill.Running, Given: 500}, drill.Input{Facts: drill.FactsOf(&s.V.Snap, s.Cfg)}
	r.Way = &drill.Way{}
	for in.Tick = 1; in.Tick < 3000; in.Tick++ {
		if in.Tick == 800 {
			for i, z := range zones {
				in.Facts.Held[drill.Throttle+drill.Job(i)] = [...]pulse.Width{gestures.Any: pulse.Centre, gestures.Low: pulse.Low, gestures.Middle: pulse.Centre, gestures.High: pulse.High}[z]
			}
		}
		r.Way.Step(&state, &in)
	}
	r.Follow(nil, 2)
	said, _ = sheet(s).Text("say")
	assert.Equal(t, "Step 1 of 2 was made, but not the next one.", said)
	r.State.Since = s.V.Snap.Tick
	early := sheet(s).Named("right target")
	r.State.Since = s.V.Snap.Tick - 20000
	late := sheet(s).Named("right target")
	require.NotEmpty(t, early)
	require.NotEmpty(t, late)
	assert.NotEqual(t, early[0].Box, late[0].Box)
}

// Of what has an order no switch is marked before its turn: that would tempt to what is still wrong.
func TestNoSwitchIsMarkedBeforeItsTurn(t *testing.T) {
	s, one := theDrill(t, "refused-by-hand", 0)
	byRadio(s)
	at(s, one, 0, drill.Running, false)
	assert.Empty(t, sheet(s).Named("control-mark"), "first what refuses is put right")
	drillssheet.Of(s.V).Run.State.Done = 1
	assert.Len(t, sheet(s).Named("control-mark"), 1)
}

// A false start shows what should have stayed, not the cue that was not called; and where a switch sits nobody has said, no place is shown for it.
func TestAFalseStartDoesNotTellTheCue(t *testing.T) {
	s, one := theDrill(t, "find-arm-switch", 0)
	byRadio(s)
	at(s, one, 0, drill.Looking, false)
	said, _ := sheet(s).Text("radio-move")
	assert.Equal(t, "arm switch: move it towards you", said)
	drillssheet.Of(s.V).Run.Tries[0].Verdict = drill.FalseStart
	_, marked := sheet(s).Text("radio-move")
	assert.False(t, marked)

	assert.Empty(t, sheet(s).Named("arm slot"))
	for i := range s.V.Handset.Controls {
		s.V.Handset.Controls[i].Spot.Guessed = true
	}
	guessed := sheet(s)
	assert.Empty(t, guessed.Named("shoulders"))
	assert.NotEmpty(t, guessed.Named("arm slot"))
}

// What a list has no room for is one press away.
func TestTheRestOfAListCanBePressed(t *testing.T) {
	s := course(t)
	d := drillssheet.Of(s.V)
	d.Chapter, d.Looked, s.V.Touch = -1, 0, true
	p := ink.NewPage(960, 600, 0, nil)
	drillssheet.Draw(p, s.V)
	left := ink.Describe(p).Named("unlisted")
	require.Len(t, left, 1)
	h, ok := p.HitAt(left[0].Box[0]+1, left[0].Box[1]+1)
	assert.True(t, ok)
	assert.Equal(t, "roll chapters", h.Name)
}
