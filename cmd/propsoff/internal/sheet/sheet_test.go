package sheet

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim/arming"
	"propsoff/sim/craftfile"
	"propsoff/sim/pulse"
)

// The four stick modes (common practice, no source): left stick across / up, right stick across / up.
func TestSticksStandAtTheirTrueSide(t *testing.T) {
	for mode, want := range map[int]string{
		1: "yaw / pitch, roll / throttle", 2: "yaw / throttle, roll / pitch", 3: "roll / pitch, yaw / throttle", 4: "roll / throttle, yaw / pitch",
	} {
		g := gimbals[mode]
		word := func(g gimbal) string { return jobFacts[g.across].word + " / " + jobFacts[g.up].word }
		assert.Equal(t, want, word(g[0])+", "+word(g[1]), "mode %d", mode)
	}
	assert.Equal(t, []int{2, 2, 1, 4}, []int{stickMode(0), stickMode(5), NextStickMode(4), NextStickMode(3)})
}

// Both sticks in their top right corners give four maxima in every stick mode (common practice, no source), and the
// sheet draws both there.
func TestTopRightCornersAreDrawnTopRight(t *testing.T) {
	s := ready(t)
	for c := range int8(4) {
		s.set(c, 2012)
	}
	s.wait(500)
	p := ink.NewPage(960, 600, 0, nil)
	for mode := 1; mode <= 4; mode++ {
		s.v.StickMode = mode
		p.Reset(960, 600, 0, nil)
		Bench(p, s.v)
		d := ink.Describe(p)
		for _, side := range []string{"left", "right"} {
			well, end := d.Named(side + " well")[0].Box, d.Named(side + " stick end")[0].Box
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
	codes := map[string]bool{}
	for a := NoAction + 1; a < actionCount; a++ {
		code := a.Code()
		require.NotEmpty(t, code, "action %d", a)
		assert.False(t, codes[code], code)
		codes[code] = true
		back, ok := ActionOf(code)
		assert.True(t, ok && back == a, code)
		assert.NotEmpty(t, phrase.ActionHelp(code), code)
		assert.NotEmpty(t, (&View{}).does(a, OnBench), code)
	}
	for place := OnBench; place <= OnCard; place <<= 1 {
		here := map[string]string{}
		for _, a := range Acts() {
			if a.On&place == 0 {
				continue
			}
			assert.Empty(t, taken[a.Physical], "%s is a key of the keyboard pilot", a.Physical)
			assert.Empty(t, here[a.Physical], "%s has two jobs on one sheet", a.Physical)
			here[a.Physical] = a.Code
		}
	}
	_, ok := ActionOf("nothing")
	assert.False(t, ok)
}

// Whatever can be done is on the sheet: its key is drawn, and it can be clicked.
func TestEveryActionIsOnTheSheet(t *testing.T) {
	s := ready(t)
	s.v.Radios, s.v.Choosing = []string{"one", "two", "three"}, true
	asked := asking(t, smallRadio(), 6, nil)
	for place, c := range map[Place]struct {
		draw func(*ink.Page, *View)
		v    *View
	}{OnBench: {Bench, s.v}, OnQuestions: {Questions, asked.v}, OnHelp: {Help, s.v}, OnCautions: {Cautions, s.v}} {
		p := ink.NewPage(960, 600, 0, nil)
		c.draw(p, c.v)
		hits := map[string]string{}
		for _, h := range p.Hits() {
			hits[h.Name] = h.Key
		}
		for _, a := range Acts() {
			if c.v.Shows(a, place) {
				assert.Equal(t, a.Physical, hits[a.Code], "place %d: %s", place, a.Code)
			} else {
				assert.NotContains(t, hits, a.Code, "place %d", place)
			}
		}
	}
	p := ink.NewPage(960, 600, 0, nil)
	Bench(p, s.v)
	seen := 0
	for _, h := range p.Hits() {
		if n, ok := ChoiceOf(h.Name); ok {
			assert.Equal(t, seen, n)
			seen++
		}
	}
	assert.Equal(t, 3, seen)
	for _, bad := range []string{"choose-", "choose-0", "choose-10", "choose-x", "help"} {
		_, ok := ChoiceOf(bad)
		assert.False(t, ok, bad)
	}
}

func TestBenchInputsGoRound(t *testing.T) {
	tilt, seen := int16(0), []int16{}
	for range 4 {
		tilt = NextTilt(tilt)
		seen = append(seen, tilt)
	}
	assert.Equal(t, []int16{200, 450, 1700, 0}, seen)
	assert.Equal(t, int16(0), NextTilt(1800))
	menu, last, menus := uint8(0), uint8(0), []uint8{}
	for range 5 {
		if menu = NextMenu(menu, last); menu != pulse.MenuClosed {
			last = menu
		}
		menus = append(menus, menu)
	}
	assert.Equal(t, []uint8{pulse.MenuCraft, pulse.MenuClosed, pulse.MenuCamera, pulse.MenuClosed, pulse.MenuCraft}, menus)
}

// row finds a refusal among the rows.
func row(r *Refusals, want arming.Refusal) *Row {
	for _, x := range r.Rows(nil) {
		if x.Refusal == want {
			return &x
		}
	}
	return nil
}

func TestAClearedRefusalIsCrossedOffAndGoes(t *testing.T) {
	s := ready(t).tell(pulse.Cable, 1).wait(200)
	r := s.v.Refusals
	require.NotNil(t, row(r, arming.BeingSetUp))
	assert.True(t, row(r, arming.BeingSetUp).Stands)
	assert.Zero(t, row(r, arming.BeingSetUp).Crossed)

	s.tell(pulse.Cable, 0).wait(200)
	half := row(r, arming.BeingSetUp)
	require.NotNil(t, half)
	assert.False(t, half.Stands)
	assert.InDelta(t, 0.5, half.Crossed, 0.1)
	assert.Contains(t, half.Text, "set-up cable", "the sentence stays as it stood last")
	s.wait(300)
	assert.Equal(t, 1.0, row(r, arming.BeingSetUp).Crossed)
	s.wait(2400)
	assert.NotNil(t, row(r, arming.BeingSetUp))
	s.wait(200)
	assert.Nil(t, row(r, arming.BeingSetUp), "gone after about three seconds")

	// It comes back whole while it is being crossed off.
	s.tell(pulse.Cable, 1).wait(100).tell(pulse.Cable, 0).wait(300).tell(pulse.Cable, 1).wait(100)
	assert.Zero(t, row(r, arming.BeingSetUp).Crossed)
	assert.True(t, row(r, arming.BeingSetUp).Stands)
}

// A refusal of the hand that vanishes because the link did is not cleared: nobody knows how the throttle stands now.
func TestALostLinkCrossesNothingOff(t *testing.T) {
	s := ready(t).glide(0, 1400, 100).wait(200)
	require.NotNil(t, row(s.v.Refusals, arming.ThrottleUp))
	s.tell(pulse.Link, 0).wait(600)
	assert.Nil(t, row(s.v.Refusals, arming.ThrottleUp))
	assert.NotNil(t, row(s.v.Refusals, arming.NoLink))
	// Taking the pack away ends all of them.
	s.tell(pulse.Power, 0).wait(50)
	assert.Empty(t, s.v.Refusals.Rows(nil))
}

// The same snapshots give the same rows, and a practice that begins anew begins with none.
func TestRefusalsAreDeterministic(t *testing.T) {
	play := func() []Row {
		return ready(t).tell(pulse.Tilt, 450).wait(300).tell(pulse.Tilt, 0).wait(150).v.Refusals.Rows(nil)
	}
	assert.Equal(t, play(), play())
	s := ready(t).tell(pulse.Tilt, 450).wait(300)
	early := s.v.Snap
	early.Tick, early.Refusals = 5, 0
	seen := facts.Seen(&early, s.cfg)
	s.v.Refusals.Update(&seen)
	assert.Empty(t, s.v.Refusals.Rows(nil))
}

// The same view gives the same page.
func TestAPageIsAFunctionOfItsView(t *testing.T) {
	s := ready(t).set(4, 2012).wait(700)
	a, b := ink.NewPage(960, 600, 0, nil), ink.NewPage(960, 600, 0, nil)
	Bench(a, s.v)
	Bench(b, s.v)
	assert.Equal(t, ink.Describe(a), ink.Describe(b))
}

var keyNamed = regexp.MustCompile(`(?i)\b(?:press|hold) ([A-Z]\w*)`)

// Somebody who does only what the large sentence says arms and disarms with the keyboard.
func TestFollowingTheSheetArmsAndDisarms(t *testing.T) {
	_, text, _ := assets.Craft(assets.BuiltIn)
	f, err := craftfile.Parse("craft", text)
	require.NoError(t, err)
	s := newStage(t, f.Config(), f.Name).tell(pulse.Link, 1).tell(pulse.Power, 1)
	keys := keyboard.New(f.Names())
	now := int64(0)
	run := func(ms int) {
		for range ms {
			now += 1000
			var err error
			s.queue, err = keys.Poll(s.queue, now)
			require.NoError(t, err)
			s.wait(1)
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
		Bench(p, s.v)
		how, ok := ink.Describe(p).Text("how")
		require.True(t, ok)
		named := keyNamed.FindAllStringSubmatch(how, -1)
		require.NotEmpty(t, named, how)
		steps = append(steps, how)
		was := s.v.Snap.Armed
		press(named[0][1], 900)
		if was && !s.v.Snap.Armed {
			assert.Less(t, now, int64(60_000_000), "within a minute: %s", strings.Join(steps, "\n"))
			return
		}
	}
	t.Fatalf("never armed and disarmed:\n%s", strings.Join(steps, "\n"))
}

func BenchmarkBench(b *testing.B) {
	s := ready(b).set(4, 2012).wait(500).glide(0, 1480, 600).tell(pulse.Tilt, 450).wait(4000)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		Bench(p, s.v)
	}
	b.ReportMetric(float64(len(p.Items())), "items")
}

func BenchmarkQuestions(b *testing.B) {
	s := asking(b, bigRadio(), 6, nil)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		Questions(p, s.v)
	}
}

// The key beside a refusal cures it at its next press, whatever stands; a person who presses it sees it crossed off.
func TestAKeyBesideARefusalCures(t *testing.T) {
	cfg, name := craft(t, fullCraft)
	for tilt := range int32(4) {
		for menu := range int32(3) {
			s := newStage(t, cfg, name).on().wait(3000)
			s.tell(pulse.Tilt, int32(tiltSteps[tilt])).tell(pulse.Menu, menu).tell(pulse.Cable, 1).wait(200)
			for _, c := range []struct {
				refusal arming.Refusal
				press   func()
			}{
				{arming.IsTilted, func() { s.tell(pulse.Tilt, int32(NextTilt(s.v.Snap.In.Craft.TiltTenths))) }},
				{arming.BeingSetUp, func() {
					if s.v.cures(arming.BeingSetUp) == TurnMenu {
						s.tell(pulse.Menu, int32(NextMenu(s.v.Snap.In.Craft.Menu, 0)))
					} else {
						s.tell(pulse.Cable, 0)
					}
				}},
			} {
				if !s.v.Snap.Refusals.Has(c.refusal) {
					continue
				}
				offered := s.v.cures(c.refusal) != NoAction
				c.press()
				s.wait(50)
				assert.Equal(t, !s.v.Snap.Refusals.Has(c.refusal), offered, "%v, tilt %d, menu %d", c.refusal, tiltSteps[tilt], menu)
			}
		}
	}
}
