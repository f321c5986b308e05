package house_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/learn"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/pulse"
)

// The four stick modes (common practice, no source): left stick across / up, right stick across / up.
func TestSticksStandAtTheirTrueSide(t *testing.T) {
	for mode, want := range map[int]string{
		1: "yaw / pitch, roll / throttle", 2: "yaw / throttle, roll / pitch", 3: "roll / pitch, yaw / throttle", 4: "roll / throttle, yaw / pitch",
	} {
		g := figure.Gimbals[mode]
		word := func(g figure.Gimbal) string {
			return figure.JobFacts[g.Across].Word + " / " + figure.JobFacts[g.Up].Word
		}
		assert.Equal(t, want, word(g[0])+", "+word(g[1]), "mode %d", mode)
	}
	assert.Equal(t, []int{2, 2, 1, 4}, []int{ui.StickMode(0), ui.StickMode(5), ui.NextStickMode(4), ui.NextStickMode(3)})
}

// Both sticks in their top right corners give four maxima in every stick mode (common practice, no source), and the
// sheet draws both there.
func TestTopRightCornersAreDrawnTopRight(t *testing.T) {
	s := uitest.Ready(t)
	for c := range int8(4) {
		s.Set(c, 2012)
	}
	s.Wait(500)
	p := ink.NewPage(960, 600, 0, nil)
	for mode := 1; mode <= 4; mode++ {
		s.V.StickMode = mode
		p.Reset(960, 600, 0, nil)
		bench.Draw(p, s.V)
		d := ink.Describe(p)
		for _, side := range []string{"left", "right"} {
			well, end := d.Named(side + " well")[0].Box, d.Named(side + " stick-end")[0].Box
			assert.Greater(t, end[0]+end[2]/2, well[0]+0.85*well[2], "mode %d, %s", mode, side)
			assert.Less(t, end[1]+end[3]/2, well[1]+0.15*well[3], "mode %d, %s", mode, side)
		}
	}
}

func TestEveryActionHasItsKeyAndNoKeyTwoJobs(t *testing.T) {
	taken := map[string]string{}
	for _, k := range keyboard.Layout() {
		taken[k.Physical] = k.Code
	}
	house := uitest.AllSheets()
	for _, key := range house.All() {
		a := key.Action
		code := a.Code()
		require.NotEmpty(t, code, key.Physical)
		assert.Equal(t, key.Physical, house.KeyOf(a), "%s has two keys", code)
		assert.NotContains(t, uitest.Say(tell.KeyHelp(code, "Zz")), "⟦", "%s: write into assets/words/en/help.yaml, and that of each other language, what its key does", code)
	}
	for _, about := range house.Sheets() {
		here := map[string]string{}
		for _, a := range house.Keys(about.Place) {
			if about.Flown {
				assert.Empty(t, taken[a.Physical], "%s: %s is a key of the keyboard pilot; free: %s", a.Action, a.Physical, free(house, about, taken))
			}
			assert.Empty(t, here[a.Physical], "%s: %s has two jobs on the sheet %s; free: %s", a.Action, a.Physical, about.Place, free(house, about, taken))
			here[a.Physical] = a.Action.Code()
			does := uitest.Say((&ui.View{House: house}).Does(a.Action, about.Place))
			assert.NotEmpty(t, does, a.Action)
			assert.NotContains(t, does, "⟦", "%s: write into assets/words/en/key.yaml, and that of each other language, what stands beside its key", a.Action)
		}
	}
	assert.Empty(t, house.KeyOf("nothing"))
}

// free are the keys that neither a sheet nor the keyboard pilot has; for a sheet that is opened by a key, those that are free wherever that
// opens it, too.
func free(house *ui.House, about *ui.About, taken map[string]string) string {
	used := map[string]bool{}
	for _, s := range house.Sheets() {
		if s == about || about.Key != "" && (s.Place == ui.OnBench || s.Key != "" && about.Everywhere) {
			for _, a := range house.Keys(s.Place) {
				used[a.Physical] = true
			}
		}
	}
	var all []string
	for _, key := range strings.Fields("A B C D E F G H I J K L M N O P Q R S T U V W X Y Z F1 F2 F3 F4 F5 F6 F7 F8 F9 F10 F11 F12 Enter Tab Home End PageUp PageDown Insert Delete Backspace Minus Equal Comma Period Slash Semicolon BracketLeft BracketRight Backslash Quote Backquote") {
		if !used[key] && taken[key] == "" {
			all = append(all, key)
		}
	}
	return strings.Join(all, " ")
}

// A key is called what the reader's keyboard calls it, and no name stands in the catalogue for a key that there is not.
func TestKeysAreNamedInTheReadersLanguage(t *testing.T) {
	de, named := words.In("de"), map[string]bool{"key-cap.space-drawn": true, "key-cap.sticks": true, "key-cap.button": true}
	keys := []string{"Enter", "Esc"} // of questions that a sheet asks
	for _, a := range uitest.AllSheets().All() {
		keys = append(keys, a.Physical)
	}
	for _, b := range keyboard.Layout() {
		keys = append(keys, b.Physical)
	}
	for _, key := range keys {
		cap := ui.Caps(nil).Word(key)
		assert.NotContains(t, uitest.Say(cap)+de.Say(cap), "⟦", key)
		named[string(cap.ID())] = true
	}
	for _, m := range words.Messages(de.Tag()) {
		assert.True(t, !strings.HasPrefix(m.ID, "key-cap.") || named[m.ID], m.ID)
	}
	assert.Equal(t, "Leertaste Enter Bild↓ ← F6 W", de.Say(words.Row(ui.Caps(nil).Word("Space"), ui.Caps(nil).Word("Enter"), ui.Caps(nil).Word("PageDown"), ui.Caps(nil).Word("Left"), ui.Caps(nil).Word("F6"), ui.Caps(nil).Word("W"))))
	assert.True(t, ui.Caps(nil).Word("").Empty())
}

// Whatever can be done is on the sheet or in its help, and its own keys are on it; radios to choose from can be clicked. The bench has few keys.
func TestEveryActionIsOnTheSheet(t *testing.T) {
	s := uitest.Ready(t)
	s.V.Radios, s.V.Choosing = []string{"one", "two", "three"}, true
	uitest.KeysAreThere(t, ui.OnBench, bench.Draw, s.V, ui.SwitchRadio, ui.SwitchPack, ui.NextDriver, ui.ShowHelp, ui.Leave)
	uitest.KeysAreThere(t, ui.OnQuestions, learn.Draw, uitest.Asking(t, uitest.SmallRadio(), 6, nil).V)
	for _, v := range []*ui.View{s.V, uitest.Airborne(t, 3).V} {
		v.Flight.Pace.Paused, v.Recording, v.Unkept, v.Driver = true, "some.take", true, ui.Radio
		own, common := v.Printed(ui.OnBench)
		assert.LessOrEqual(t, len(own)+len(common), 13, "%v %v", own, common)
	}
	p := ink.NewPage(960, 600, 0, nil)
	bench.Draw(p, s.V)
	seen := 0
	for _, h := range p.Hits() {
		if n, ok := ui.ChoiceOf(h.Name); ok {
			assert.Equal(t, seen, n)
			seen++
		}
	}
	assert.Equal(t, 3, seen)
	for _, bad := range []string{"choose-", "choose-0", "choose-10", "choose-x", "help"} {
		_, ok := ui.ChoiceOf(bad)
		assert.False(t, ok, bad)
	}
}

func TestBenchInputsGoRound(t *testing.T) {
	tilt, seen := int16(0), []int16{}
	for range 4 {
		tilt = ui.NextTilt(tilt)
		seen = append(seen, tilt)
	}
	assert.Equal(t, []int16{200, 450, 1700, 0}, seen)
	assert.Equal(t, int16(0), ui.NextTilt(1800))
	menu, last, menus := uint8(0), uint8(0), []uint8{}
	for range 5 {
		if menu = ui.NextMenu(menu, last); menu != pulse.MenuClosed {
			last = menu
		}
		menus = append(menus, menu)
	}
	assert.Equal(t, []uint8{pulse.MenuCraft, pulse.MenuClosed, pulse.MenuCamera, pulse.MenuClosed, pulse.MenuCraft}, menus)
}

// row finds a refusal among the rows.
func row(r *ui.Refusals, want arming.Refusal) *ui.Row {
	for _, x := range r.Rows(nil) {
		if x.Refusal == want {
			return &x
		}
	}
	return nil
}

func TestAClearedRefusalIsCrossedOffAndGoes(t *testing.T) {
	s := uitest.Ready(t).Tell(pulse.Cable, 1).Wait(200)
	r := s.V.Refusals
	require.NotNil(t, row(r, arming.BeingSetUp))
	assert.True(t, row(r, arming.BeingSetUp).Stands)
	assert.Zero(t, row(r, arming.BeingSetUp).Crossed)

	s.Tell(pulse.Cable, 0).Wait(200)
	half := row(r, arming.BeingSetUp)
	require.NotNil(t, half)
	assert.False(t, half.Stands)
	assert.InDelta(t, 0.5, half.Crossed, 0.1)
	assert.Contains(t, uitest.Say(half.Text), "set-up cable", "the sentence stays as it stood last")
	s.Wait(300)
	assert.Equal(t, 1.0, row(r, arming.BeingSetUp).Crossed)
	s.Wait(2400)
	assert.NotNil(t, row(r, arming.BeingSetUp))
	s.Wait(200)
	assert.Nil(t, row(r, arming.BeingSetUp), "gone after about three seconds")

	// It comes back whole while it is being crossed off.
	s.Tell(pulse.Cable, 1).Wait(100).Tell(pulse.Cable, 0).Wait(300).Tell(pulse.Cable, 1).Wait(100)
	assert.Zero(t, row(r, arming.BeingSetUp).Crossed)
	assert.True(t, row(r, arming.BeingSetUp).Stands)
}

// A refusal of the hand that vanishes because the link did is not cleared: nobody knows how the throttle stands now.
func TestALostLinkCrossesNothingOff(t *testing.T) {
	s := uitest.Ready(t).Glide(0, 1400, 100).Wait(200)
	require.NotNil(t, row(s.V.Refusals, arming.ThrottleUp))
	s.Tell(pulse.Link, 0).Wait(600)
	assert.Nil(t, row(s.V.Refusals, arming.ThrottleUp))
	assert.NotNil(t, row(s.V.Refusals, arming.NoLink))
	// Taking the pack away ends all of them.
	s.Tell(pulse.Power, 0).Wait(50)
	assert.Empty(t, s.V.Refusals.Rows(nil))
}

// The same snapshots give the same rows, and a practice that begins anew begins with none.
func TestRefusalsAreDeterministic(t *testing.T) {
	play := func() []ui.Row {
		return uitest.Ready(t).Tell(pulse.Tilt, 450).Wait(300).Tell(pulse.Tilt, 0).Wait(150).V.Refusals.Rows(nil)
	}
	assert.Equal(t, play(), play())
	s := uitest.Ready(t).Tell(pulse.Tilt, 450).Wait(300)
	early := s.V.Snap
	early.Tick, early.Refusals = 5, 0
	seen := facts.Seen(&early, s.Cfg)
	s.V.Refusals.Update(&seen)
	assert.Empty(t, s.V.Refusals.Rows(nil))
}

// The same view gives the same page.
func TestAPageIsAFunctionOfItsView(t *testing.T) {
	s := uitest.Ready(t).Set(4, 2012).Wait(700)
	a, b := ink.NewPage(960, 600, 0, nil), ink.NewPage(960, 600, 0, nil)
	bench.Draw(a, s.V)
	bench.Draw(b, s.V)
	assert.Equal(t, ink.Describe(a), ink.Describe(b))
}

var keyAsked = regexp.MustCompile(`(?i)\b(?:press|hold) ([A-Z]\w*)`)

// Somebody who does only what the large sentence says arms and disarms with the keyboard.
func TestFollowingTheSheetArmsAndDisarms(t *testing.T) {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	s := uitest.NewStage(t, f.Config(), f.Name).Tell(pulse.Link, 1).Tell(pulse.Power, 1)
	keys := keyboard.New(f.Names())
	now := int64(0)
	run := func(ms int) {
		for range ms {
			now += 1000
			var err error
			s.Queue, err = keys.Poll(s.Queue, now)
			require.NoError(t, err)
			s.Wait(1)
		}
	}
	byName := map[string]keyboard.Key{}
	for _, k := range keyboard.Layout() {
		byName[k.Physical] = k.Key
	}
	press := func(name string, ms int) {
		require.Contains(t, byName, name)
		keys.Press(byName[name], now)
		run(ms)
		keys.Release(byName[name], now)
		run(200)
	}
	run(2500)
	// Mistakes first: throttle up, then the arm switch.
	press("W", 500)
	press("Space", 50)

	p := ink.NewPage(960, 600, 0, nil)
	steps := []string{}
	for range 12 {
		p.Reset(960, 600, 0, nil)
		bench.Draw(p, s.V)
		how, ok := ink.Describe(p).Text("how")
		require.True(t, ok)
		named := keyAsked.FindAllStringSubmatch(how, -1)
		require.NotEmpty(t, named, how)
		steps = append(steps, how)
		was := s.V.Snap.Armed
		press(named[0][1], 900)
		if was && !s.V.Snap.Armed {
			assert.Less(t, now, int64(60_000_000), "within a minute: %s", strings.Join(steps, "\n"))
			return
		}
	}
	t.Fatalf("never armed and disarmed:\n%s", strings.Join(steps, "\n"))
}

func BenchmarkBench(b *testing.B) {
	s := uitest.Ready(b).Set(4, 2012).Wait(500).Glide(0, 1480, 600).Tell(pulse.Tilt, 450).Wait(4000)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		bench.Draw(p, s.V)
	}
	b.ReportMetric(float64(len(p.Items())), "items")
}

func BenchmarkQuestions(b *testing.B) {
	s := uitest.Asking(b, uitest.BigRadio(), 6, nil)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		learn.Draw(p, s.V)
	}
}

// The key beside a refusal cures it at its next press, whatever stands; a person who presses it sees it crossed off.
func TestAKeyBesideARefusalCures(t *testing.T) {
	cfg, name := uitest.Craft(t, uitest.FullCraft)
	for tilt := range int32(4) {
		for menu := range int32(3) {
			s := uitest.NewStage(t, cfg, name).On().Wait(3000)
			s.Tell(pulse.Tilt, int32(ui.TiltSteps[tilt])).Tell(pulse.Menu, menu).Tell(pulse.Cable, 1).Wait(200)
			for _, c := range []struct {
				refusal arming.Refusal
				press   func()
			}{
				{arming.IsTilted, func() { s.Tell(pulse.Tilt, int32(ui.NextTilt(s.V.Snap.In.Craft.TiltTenths))) }},
				{arming.BeingSetUp, func() {
					if figure.Cures(s.V, arming.BeingSetUp) == ui.TurnMenu {
						s.Tell(pulse.Menu, int32(ui.NextMenu(s.V.Snap.In.Craft.Menu, 0)))
					} else {
						s.Tell(pulse.Cable, 0)
					}
				}},
			} {
				if !s.V.Snap.Refusals.Has(c.refusal) {
					continue
				}
				offered := figure.Cures(s.V, c.refusal) != ui.NoAction
				c.press()
				s.Wait(50)
				assert.Equal(t, !s.V.Snap.Refusals.Has(c.refusal), offered, "%v, tilt %d, menu %d", c.refusal, ui.TiltSteps[tilt], menu)
			}
		}
	}
}
