package drills_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	drillssheet "propsoff/cmd/propsoff/internal/ui/drills"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/gestures"
	"propsoff/sim/arming"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/handset"
	"propsoff/sim/pulse"
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
