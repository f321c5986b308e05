package prove_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/radioreach"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	provesheet "propsoff.example/cmd/propsoff/internal/ui/prove"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/link"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/switches"
)

// proved is a view of a search that is over. One rule is broken, with a way of real steps; the craft's radio has an arm switch of
// positions positions.
func proved(t testing.TB, positions int) *uitest.Stage {
	s := uitest.Ready(t)
	v := provesheet.Of(s.V)
	v.Of = tell.Searched("Teasel", &handset.Radio{Name: "Moorland Desk 7", Measured: true}, facts.ItsFile)
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	l := prove.Layout{Config: f.Config(), Radio: radioreach.Ideal(f)}
	v.Moved = tell.Moved(&l)
	v.Over, v.Status = true, tell.Verdict(&prove.Report{Situations: 537_664, Standing: 348e6, Results: []prove.Result{{Outcome: prove.Broken}, {Outcome: prove.WithIt}}})
	all := tell.Rules()
	all[4], all[prove.LossStopsMotors] = all[prove.LossStopsMotors], all[4]
	for _, r := range all {
		v.Rules = append(v.Rules, provesheet.Rule{Outcome: prove.Holds, Short: tell.RuleShort(r), Whole: tell.RuleFor(&l, r), Found: tell.Finding(nil, &prove.Result{Rule: r, Outcome: prove.Holds, Searched: 537_664})})
	}
	v.CalledOut = tell.CalledOut(tell.Callouts(&switches.Facts{Callouts: []switches.Callout{{Code: switches.ThrottleHigh, At: pulse.Micros(1012)}}}, &l.Config), words.AsIs("F6"))
	v.Rules[1].Outcome = prove.NotAsked
	v.Rules[2].Outcome = prove.WithIt
	v.Rules[3].Outcome = prove.Undecided
	arm, throttle := &l.Radio.Controls[4], 0
	require.Equal(t, "arm", arm.Job)
	if positions > 3 {
		arm.Called, arm.Positions = uitest.LongName, nil
		for i := range positions {
			arm.Positions = append(arm.Positions, handset.Position{Width: pulse.Micros(1600+i) + 1})
		}
	}
	top := len(arm.Positions) - 1
	way := &prove.Way{Movements: 4, Ms: 4480, Final: 2300, Claim: prove.Claim{Armed: true, Phase: uint8(link.Good)}, Readings: []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Controls, Frame: s.Frame}},
		Steps: []prove.Step{
			{Kind: prove.Start, At: -20, Control: -1},
			{Kind: prove.PowerOn, At: 0, Control: -1, Then: prove.LinkBack},
			{Kind: prove.Wait, At: 0, Ms: 2000, Control: -1, Then: prove.LinkClean | prove.Settled},
			{Kind: prove.Move, At: 2000, Control: 4, ToPosition: top, To: arm.Positions[top].Width, Then: prove.Armed},
			{Kind: prove.Move, At: 2020, Control: throttle, ToPosition: -1, To: pulse.High},
			{Kind: prove.RadioOff, At: 2040, Control: -1},
			{Kind: prove.Wait, At: 2040, Ms: 260, Control: -1},
		}}
	for i := range positions * 3 { // a long way, with a switch of many positions
		if positions > 3 {
			way.Steps = append(way.Steps, prove.Step{Kind: prove.Move, At: 12440, Control: 4, ToPosition: i % positions, To: arm.Positions[i%positions].Width, Then: prove.LinkClean | prove.ModeChanged | prove.Refused})
		}
	}
	broken := &prove.Result{Rule: prove.LossStopsMotors, Outcome: prove.Broken, Cause: prove.HeldSwitch, Control: -1, Position: -1, Way: way}
	b := &v.Rules[4]
	b.Outcome, b.Found, b.Way, b.Steps = prove.Broken, tell.Finding(&l, broken), tell.WayTitle(broken), tell.ProvedSteps(&l, way)
	l.Radio.Settle()
	b.Radio, b.Layout, b.Moves, b.Frames = &l.Radio, &l.Config.Layout, provesheet.MovesOf(&l.Radio, way), provesheet.FramesOf(way)
	v.Selected = 4
	return s
}

// mended is a view of mends that were found, of which one is looked at.
func mended(t testing.TB, at int) *uitest.Stage {
	s := proved(t, 3)
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	l := prove.Layout{Config: f.Config(), Radio: radioreach.Ideal(f)}
	r := mend.Report{Changes: 3}
	for _, changes := range [][]mend.Change{
		{{Kind: mend.ArmOn, Relearn: 60, Control: 4, Channel: 4, Places: []int8{1, 0, 0}}},
		{{Kind: mend.Travel, Relearn: 10, Control: 0, Channel: 0}, {Kind: mend.ModesAt, Relearn: 90, Control: 5, Channel: 5, Places: []int8{0, 1, 1}}, {Kind: mend.Receiver, Relearn: 4, Control: -1, Channel: -1, Was: 1}},
	} {
		after, ok := mend.Apply(&l, changes)
		require.True(t, ok)
		r.Mends = append(r.Mends, mend.Mend{Changes: changes, After: after, Proof: prove.Report{Situations: 85_400, Standing: 348e6}})
	}
	v := provesheet.Of(s.V)
	v.Mends, v.InMends, v.MendAt, v.Status = provesheet.MendsOf(&l, nil, &r), true, at, tell.MendVerdict(&mend.Report{Mends: r.Mends, Before: prove.Report{Results: []prove.Result{{Outcome: prove.Broken}}}})
	return s
}

var proveScenes = []uitest.Scene{
	{Name: "not begun", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 3)
		v := provesheet.Of(s.V)
		v.Over, v.Selected, v.Status = false, 0, tell.Progress(prove.Progress{Situations: 120_337, Open: 8_120, Movements: 3, Slots: 212})
		v.Searching, v.Done = true, 0.93
		for i := range v.Rules {
			v.Rules[i] = provesheet.Rule{Outcome: prove.Undecided, Short: v.Rules[i].Short, Whole: v.Rules[i].Whole}
		}
		return s
	}, Says: []string{"Searching: 120,337 situations so far", "to be searched"}},
	{Name: "broken", Make: func(t testing.TB) *uitest.Stage { return proved(t, 3) },
		Says: []string{"537,664 situations, standing for 348 million", "BROKEN", "holds", "comes with it", "undecided", "not asked", "4 movements, 4.48 s", "The layout sheet (F6) calls out 1 thing"}},
	{Name: "holds", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 3)
		provesheet.Of(s.V).Selected = 0
		return s
	}, Says: []string{"Held against 537,664 situations.", "Arm switch, channel 5:"}},
	{Name: "long way", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 6)
		v := provesheet.Of(s.V)
		v.Of = tell.Searched(uitest.LongName, &handset.Radio{Name: uitest.LongName}, facts.GivenFile)
		s.Names = append(s.Names, "Transmitter, the Second") // where the whole name has no room
		s.V.Notices = ui.Warnings(uitest.BluntedNotice)
		return s
	}, Says: []string{"more"}},
	{Name: "long way, a step", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 6)
		v := provesheet.Of(s.V)
		v.InWay, v.Step = true, 9
		s.Names = append(s.Names, "Transmitter, the Second")
		return s
	}},
	{Name: "way", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 3)
		v := provesheet.Of(s.V)
		v.InWay, v.Step = true, 3
		return s
	}, Says: []string{"Arm switch to its high position", "It ARMS."}},
	{Name: "way of a stick", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 3)
		v := provesheet.Of(s.V)
		v.InWay, v.Step = true, 4
		return s
	}, Says: []string{"Throttle fully up"}},
	{Name: "stale", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 3)
		provesheet.Of(s.V).Status = words.T("prove.stale", words.Args{"key": words.AsIs("B")})
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, uitest.LongName, ui.Keyboard
		return s
	}, Says: []string{"have changed since"}},
	{Name: "mends", Make: func(t testing.TB) *uitest.Stage { return mended(t, 0) }, Says: []string{"mend 1", "1 change", "your hands have something to relearn"}},
	{Name: "mends, the longest", Make: func(t testing.TB) *uitest.Stage { return mended(t, 1) }, Says: []string{"mend 2", "3 changes"}},
	{Name: "never sinks", Make: func(t testing.TB) *uitest.Stage {
		s := proved(t, 3)
		_, text, _ := assets.Craft(assets.BuiltIn)
		f, err := craftfile.Parse("craft", text)
		require.NoError(t, err)
		l := prove.Layout{Config: f.Config(), Radio: handset.Radio{Name: "Moorland Desk 7", Measured: true, Controls: []handset.Control{{Job: "pitch", Assumed: true}, {Job: "channel 7", Kind: handset.Switch, Called: "lights", Assumed: true}}}}
		s.Names = append(s.Names, "lights")
		l.Config.Arming.SinkSlots, l.Config.Link.OnLoss = 200, link.SendsStored
		for c := range l.Config.Link.Stored {
			l.Config.Link.Stored[c] = pulse.Low
		}
		v := provesheet.Of(s.V)
		v.Of = tell.Searched("Teasel", &l.Radio, facts.GivenFile)
		rule := &v.Rules[4]
		rule.Outcome, rule.Whole, rule.Way, rule.Steps = prove.Holds, tell.RuleFor(&l, prove.LossStopsMotors), words.Text{}, nil
		rule.Found = words.Row(v.Rules[0].Found, tell.RuleNote(&l, prove.LossStopsMotors))
		return s
	}, Says: []string{"It is set to sink, and never does with this receiver: the stored values disarm it at once."}},
}

func TestProveInEveryScene(t *testing.T) {
	for _, sc := range proveScenes {
		t.Run(sc.Name, func(t *testing.T) {
			s := sc.Make(t)
			for _, class := range []bool{false, true} {
				s.V.Class, s.V.Full = class, class
				if class { // the one looked at stands whole beside the list
					s.Cut = []string{"rule"}
				}
				s.Everywhere(t, "prove "+sc.Name, provesheet.Draw, func(z uitest.Size, texts string) {
					for _, want := range sc.Says {
						if !class || !strings.HasPrefix(want, "The layout sheet") {
							assert.Contains(t, texts, want, "%v class %v", z, class)
						}
					}
				})
			}
			s.V.Class = false
			uitest.PartsAlone(t, s.V, provesheet.Draw, func() { provesheet.Of(s.V).Step++ }, func() { s.V.Class = true })
		})
	}
}

// Without a craft file there is nothing to fill the sheet with.
func TestProveWithoutACraft(t *testing.T) {
	s := uitest.Ready(t)
	*provesheet.Of(s.V) = provesheet.View{Of: words.T("prove.no-craft")}
	lim := ink.DefaultLimits()
	lim.Hole = 1
	p := ink.NewPage(960, 600, 0, nil)
	for _, z := range uitest.Sizes {
		for _, class := range []bool{false, true} {
			s.V.Class, s.V.Full = class, class
			p.Reset(z.W, z.H, 0, nil)
			provesheet.Draw(p, s.V)
			assert.Empty(t, ink.CheckWith(p, lim), "%v class %v", z, class)
			assert.Contains(t, uitest.Texts(p), "There is no craft file to search.", "%v class %v", z, class)
		}
	}
}

// Every outcome has a word and a shape of its own.
func TestOutcomesAreNeverColourAlone(t *testing.T) {
	s := proved(t, 3)
	said, shapes := map[string]bool{}, map[string]bool{}
	for o := prove.NotAsked; o <= prove.Undecided; o++ {
		said[uitest.Say(tell.Outcome(o, true))] = true
		p := ink.NewPage(960, 600, 0, nil)
		figure.NewBoard(p, s.V).OutcomeMark(100, 100, 8, o)
		names := ""
		for _, it := range p.Items() {
			names += it.Name + it.Kind.String()
		}
		shapes[names] = true
	}
	assert.Len(t, said, 5)
	assert.Len(t, shapes, 5)
}

func TestRulesCanBeClicked(t *testing.T) {
	s := proved(t, 3)
	seen := map[int]bool{}
	for provesheet.Of(s.V).Selected = range provesheet.Of(s.V).Rules {
		p := ink.NewPage(1200, 1920, 0, nil) // has room for those round the one looked at
		provesheet.Draw(p, s.V)
		last := -1
		for _, h := range p.Hits() {
			if i, ok := ui.NumberOf(h.Name, "rule-"); ok {
				assert.True(t, last < 0 || i == last+1, "rule %d after %d", i, last)
				last, seen[i] = i, true
			}
		}
	}
	assert.Len(t, seen, len(tell.Rules()))
	for _, bad := range []string{"rule-", "rule-0", "rule-x", "rule-above", "help"} {
		_, ok := ui.NumberOf(bad, "rule-")
		assert.False(t, ok, bad)
	}
}

// What can be done on the sheet is on it with its key.
func TestEveryActionOfProveIsOnItsSheet(t *testing.T) {
	uitest.KeysAreThere(t, ui.OnProve, provesheet.Draw, proved(t, 3).V, provesheet.ShowWay, provesheet.SearchNow)
	v := proved(t, 3).V
	provesheet.Of(v).CanMend = true
	uitest.KeysAreThere(t, ui.OnProve, provesheet.Draw, v, provesheet.FindMends)
}

// Whichever step of a way is looked at, it is seen and can be pressed, and the radio stands beside it, at every size.
func TestEveryStepCanBeLookedAt(t *testing.T) {
	for _, positions := range []int{3, 6} {
		s := proved(t, positions)
		v := provesheet.Of(s.V)
		v.InWay = true
		for _, z := range uitest.Sizes {
			for _, class := range []bool{false, true} {
				s.V.Class, s.V.Full = class, class
				for v.Step = range v.Rules[4].Steps {
					p := ink.NewPage(z.W, z.H, 0, nil)
					provesheet.Draw(p, s.V)
					name := "way-step-" + strconv.Itoa(v.Step+1)
					at := slices.IndexFunc(p.Hits(), func(h ink.Hit) bool { return h.Name == name })
					require.GreaterOrEqual(t, at, 0, "%v class %v: %s", z, class, name)
					chosen := slices.ContainsFunc(p.Items(), func(it ink.Item) bool { return it.Name == "chosen" && p.Hits()[at].Box.Meets(it.Box) })
					assert.True(t, chosen, "%v class %v: %s", z, class, name)
					assert.True(t, slices.ContainsFunc(p.Items(), func(it ink.Item) bool { return it.Group == "radio" }), "%v class %v: no radio", z, class)
				}
			}
		}
	}
}

// The radio stands in each step as the steps before have left it.
func TestTheRadioOfAWayStandsAsItsStepsLeaveIt(t *testing.T) {
	low, high := pulse.Frame{4: pulse.Low}, pulse.Frame{4: pulse.High}
	w := &prove.Way{Steps: []prove.Step{{Kind: prove.Start, At: -20, Control: -1}, {Kind: prove.PowerOn, At: 0, Control: -1}, {Kind: prove.Move, At: 2000, Control: 4}, {Kind: prove.RadioOff, At: 2020, Control: -1}},
		Readings: []pulse.Reading{{Kind: pulse.Controls, Frame: low}, {Kind: pulse.Power, At: 20_000, Value: 1}, {Kind: pulse.Controls, At: 2_020_000, Frame: high}}}
	assert.Equal(t, []pulse.Frame{low, low, low, high, high}, provesheet.FramesOf(w))
}
