package tell

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// spoken is a text in English.
func spoken(t words.Text) string { return words.English().Say(t) }

// number is a value in English.
func number(v words.Value) string {
	return strings.TrimSuffix(spoken(words.T("unit.micros", words.Args{"n": v})), " µs")
}

func different(t *testing.T, what string, texts []string) {
	t.Helper()
	seen := map[string]bool{}
	for _, s := range texts {
		assert.False(t, seen[s], "%s: %q stands twice", what, s)
		seen[s] = true
	}
}

// The table of refusals, as in docs/look-up: group, order and code.
func TestRefusalsStandInTheirGroupsAndOrder(t *testing.T) {
	page, err := os.ReadFile("../../../../docs/look-up/codes.md")
	require.NoError(t, err)
	var want []string
	for _, row := range regexp.MustCompile("(?m)^\\| (hand|link|craft) \\| `([a-z-]+)` \\|").FindAllStringSubmatch(string(page), -1) {
		want = append(want, row[1]+" "+row[2])
	}
	var got []string
	for _, r := range arming.Shown() {
		got = append(got, spoken(Group(r.Group()))+" "+codes.Refusal(r))
	}
	assert.Equal(t, want, got, "docs/look-up/codes.md, why arming is refused, has the first; sim/arming/refusal.go the second")
}

// scene is a powered craft by switch with a good link and controls at rest.
func scene() (*sim.Snapshot, *sim.Config) {
	cfg := sim.Default()
	cfg.Layout.Second, cfg.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1700), High: pulse.Highest}
	s := &sim.Snapshot{Link: link.Good, Receiving: true, Valid: true}
	s.In = sim.Inputs{HasSent: true, Transmitter: true, Plugged: true, Powered: true}
	for c := range pulse.Channels {
		s.Received[c] = pulse.Centre
		s.Seen[c] = sim.Seen{Low: pulse.Low, High: pulse.High}
	}
	return s, &cfg
}

// curable are the facts of a made snapshot, every cure of which holds.
func curable(s *sim.Snapshot, cfg *sim.Config) *facts.Facts {
	s.Senses = s.In.Craft
	f := facts.Seen(s, cfg)
	for i := range f.Refusals() {
		f.Refusing[i].Cure.OK = true
	}
	return &f
}

func TestRefusalSentencesCarryTheMeasuredValue(t *testing.T) {
	for _, c := range []struct {
		name string
		r    arming.Refusal
		set  func(*sim.Snapshot, *sim.Config)
		want string
	}{
		{"throttle", arming.ThrottleUp, func(s *sim.Snapshot, _ *sim.Config) { s.Jobs.Throttle = pulse.Micros(1012) + 7 },
			"Throttle reads 1012 µs; bring it below 1000."},
		{"throttle travel by sticks", arming.ThrottleUp, func(s *sim.Snapshot, cfg *sim.Config) {
			cfg.Arming.By = arming.BySticks
			s.Jobs.Throttle, s.Seen[0].Low = pulse.Micros(1005), pulse.Micros(1003)
			s.ThrottleStillMillis = 1000
		}, "Throttle has gone no lower than 1003 µs; arming by sticks needs below 1000. Where the stick stops there, lower the end of its travel in the radio."},
		{"throttle on its way down", arming.ThrottleUp, func(s *sim.Snapshot, _ *sim.Config) {
			s.Jobs.Throttle, s.Seen[0].Low = pulse.Micros(1003), pulse.Micros(1003)
			s.ThrottleStillMillis = 999
		}, "Throttle reads 1003 µs; bring it below 1000."},
		{"throttle travel by switch", arming.ThrottleUp, func(s *sim.Snapshot, cfg *sim.Config) {
			s.Jobs.Throttle, s.Seen[0].Low = pulse.Micros(1003), pulse.Micros(1003)
			s.ThrottleStillMillis = 1000
		}, "Throttle has gone no lower than 1003 µs; arming needs below 1000. Where the stick stops there, lower the end of its travel in the radio."},
		{"throttle still up, never low", arming.ThrottleUp, func(s *sim.Snapshot, cfg *sim.Config) {
			s.Jobs.Throttle, s.Seen[0].Low = pulse.Micros(1500), pulse.Micros(1500)
		}, "Throttle reads 1500 µs; bring it below 1000."},
		{"arm switch on", arming.OffFirst, func(s *sim.Snapshot, _ *sim.Config) { s.Received[4] = pulse.High },
			"The arm switch is already on: channel 5 reads 2012 µs; move it off first, then on again."},
		{"corner too soon", arming.OffFirst, func(s *sim.Snapshot, cfg *sim.Config) {
			cfg.Arming.By = arming.BySticks
			s.Jobs.Throttle, s.Jobs.Yaw = pulse.Micros(990), pulse.Micros(2000)
		}, "The sticks were in the arming corner too soon (throttle 990 µs, yaw 2000 µs); let yaw go below 1884 first, then hold the corner again."},
		{"second switch", arming.SecondSwitchOff, func(s *sim.Snapshot, _ *sim.Config) { s.Received[6] = pulse.Low },
			"The second switch is off: channel 7 reads 988 µs; move it to 1700 µs or above."},
		{"mode", arming.NotSelfLevelling, func(s *sim.Snapshot, _ *sim.Config) { s.Mode, s.Received[5] = layout.Rate, pulse.High },
			"The mode is rate (channel 6 reads 2012 µs), and this craft arms only in angle or horizon; move the mode switch."},
		{"unplugged", arming.NoLink, func(s *sim.Snapshot, _ *sim.Config) { s.In.Plugged, s.SilentMillis = false, 440 },
			"No link for 0.4 s: the radio is not plugged in; plug its USB cable in."},
		{"radio off", arming.NoLink, func(s *sim.Snapshot, _ *sim.Config) { s.In.Transmitter, s.SilentMillis = false, 2000 },
			"No link for 2 s: the radio is off; switch it on."},
		{"nothing read", arming.NoLink, func(s *sim.Snapshot, _ *sim.Config) { s.In.HasSent = false },
			"No link: nothing has been read from the radio yet; move a stick."},
		{"frames not valid", arming.NoLink, func(s *sim.Snapshot, cfg *sim.Config) {
			s.Received[4], cfg.Link.Needed = pulse.Missing, cfg.Layout.Needed()
		},
			"No link: frames come, but channel 5 (arm) carries no pulse; see that the radio sends what is missing and the radio file names its control."},
		{"link fresh", arming.LinkTooFresh, func(s *sim.Snapshot, _ *sim.Config) { s.CleanLeftMillis = 780 },
			"The link is only just there; wait 0.8 s more."},
		{"channel missing", arming.ChannelMissing, func(s *sim.Snapshot, _ *sim.Config) { s.Jobs.Missing, s.Received[5] = 1<<5, pulse.Micros(2200) },
			"Channel 6 (mode) carries no valid pulse (2200 µs is outside 860 to 2180); see that the radio sends what is missing and the radio file names its control."},
		{"channels missing", arming.ChannelMissing, func(s *sim.Snapshot, _ *sim.Config) { s.Jobs.Missing, s.Received[5], s.Received[6] = 3<<5, 0, 0 },
			"Channel 6 (mode) and channel 7 (second) carry no valid pulse; see that the radio sends what is missing and the radio file names its control."},
		{"not yet still", arming.NotYetStill, func(s *sim.Snapshot, _ *sim.Config) { s.StillLeftMillis = 1420 },
			"The craft must stand still for 1.5 s more; do not move it."},
		{"tilted", arming.IsTilted, func(s *sim.Snapshot, _ *sim.Config) { s.In.Craft.TiltTenths = 301 },
			"The craft is tilted by 30.1°; set it down within 30° of level."},
		{"cable", arming.BeingSetUp, func(s *sim.Snapshot, _ *sim.Config) { s.In.Craft.Cable = true },
			"The craft is plugged into a computer by its set-up cable; pull the cable out."},
		{"menu", arming.BeingSetUp, func(s *sim.Snapshot, _ *sim.Config) { s.In.Craft.Menu = pulse.MenuCraft },
			"The craft's own menu is open; leave it first."},
		{"camera menu", arming.BeingSetUp, func(s *sim.Snapshot, cfg *sim.Config) {
			s.In.Craft.Menu, cfg.Arming.CameraMenuCounts = pulse.MenuCamera, true
		},
			"The camera's menu is open; leave it first."},
		{"cable and menu", arming.BeingSetUp, func(s *sim.Snapshot, _ *sim.Config) { s.In.Craft.Cable, s.In.Craft.Menu = true, pulse.MenuCraft },
			"The craft is plugged into a computer by its set-up cable, and the craft's own menu is open; pull the cable out and leave the menu."},
		{"pack", arming.PackLow, func(s *sim.Snapshot, cfg *sim.Config) {
			s.In.Craft.PackMilliVolts, cfg.Arming.PackLimitMilliVolts = 13990, 14000
		}, "The pack has 13.99 V and this craft asks for 14 V; connect a charged one."},
		{"propellers", arming.PropellersUnchecked, func(*sim.Snapshot, *sim.Config) {},
			"The propellers have not been checked yet; put each one where its mark and its turning direction belong."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, cfg := scene()
			c.set(s, cfg)
			s.Refusals = 1 << c.r
			f := curable(s, cfg)
			assert.Equal(t, c.want, spoken(Sentence(f.Refusing[0], f)))
			if seen := facts.Seen(s, cfg); strings.Contains(c.want, "; ") && !strings.Contains(c.want, "see that the radio") && !strings.Contains(c.want, "do not move") && !strings.Contains(c.want, "in the radio.") {
				assert.NotEqual(t, c.want, spoken(Sentence(seen.Refusing[0], &seen)), "what nobody can do is not asked for")
			}
		})
	}
}

func TestNoTwoSentencesAreAlike(t *testing.T) {
	s, cfg := scene()
	s.Refusals = 1<<arming.RefusalCount - 1
	lines := Lines(curable(s, cfg))
	require.Len(t, lines, len(arming.Shown()))
	var texts, short []string
	for _, l := range lines {
		texts, short = append(texts, spoken(l.Text)), append(short, spoken(words.Of("reason", codes.Refusal(l.Refusal))))
		assert.Regexp(t, `^\p{Lu}.*\.$`, spoken(l.Text), "a sentence")
	}
	different(t, "refusal sentences", texts)
	different(t, "reasons", short)

	var told []string
	for c := happening.Code(1); c < happening.CodeCount; c++ {
		told = append(told, spoken(Happening(happening.Happening{Code: c, A: 1, B: 2}, cfg)))
		assert.Regexp(t, `^\p{Lu}.*\.$`, told[len(told)-1], codes.Code(c))
	}
	for c := happening.Cause(1); c < happening.CauseCount; c++ {
		told = append(told, spoken(Happening(happening.Happening{Code: happening.Disarmed, A: int32(c)}, cfg)))
	}
	different(t, "happening sentences", told[1+1:]) // armed and the first cause stand again below
	var groups, links []string
	for g := range arming.Groups {
		groups = append(groups, spoken(Group(g)))
	}
	for _, o := range []link.OnLoss{link.FallsSilent, link.RepeatsLast, link.SendsStored} {
		ours, trade := OnLoss(o)
		links = append(links, spoken(ours), spoken(trade))
	}
	different(t, "groups", groups)
	different(t, "receiver's ways", links)
}

// Every language has a sentence of its own for each, and every value that the English has.
func TestEveryLanguageSaysAsMuch(t *testing.T) {
	s, cfg := scene()
	s.Refusals = 1<<arming.RefusalCount - 1
	f := curable(s, cfg)
	for _, book := range wordstest.Books() {
		var texts, short []string
		for _, l := range Lines(f) {
			texts, short = append(texts, book.Say(l.Text)), append(short, book.Say(words.Of("reason", codes.Refusal(l.Refusal))))
		}
		for c := happening.Code(1); c < happening.CodeCount; c++ {
			texts = append(texts, book.Say(Happening(happening.Happening{Code: c, A: 1, B: 2}, cfg)))
		}
		for c := happening.Cause(2); c < happening.CauseCount; c++ {
			texts = append(texts, book.Say(Happening(happening.Happening{Code: happening.Disarmed, A: int32(c)}, cfg)))
		}
		for _, one := range texts {
			assert.Regexp(t, `^[\p{Lu}\p{Lo}][^⟦]*[.。]$`, one, book.Tag())
		}
		different(t, "sentences in "+book.Code(), texts)
		different(t, "reasons in "+book.Code(), short)
	}
	assert.Equal(t, "Throttle reads 0 µs; bring it below 1000.", spoken(Lines(f)[0].Text))
	assert.Equal(t, "Das Gas steht auf 0 µs; bring es unter 1000.", words.In("de").Say(Lines(f)[0].Text))
}

func TestHappeningSentencesCarryTheirNumbers(t *testing.T) {
	_, cfg := scene()
	for want, h := range map[string]happening.Happening{
		"Disarmed: the arm channel was read as off.":                                       {Code: happening.Disarmed, A: int32(happening.BySwitch)},
		"Arming refused: the throttle was up and there was no link.":                       {Code: happening.Refused, A: 1<<arming.ThrottleUp | 1<<arming.NoLink},
		"Link lost: no valid frame for 0.24 s.":                                            {Code: happening.LinkLost, A: 240},
		"The craft sinks for 4 s: level, carrying at most 90 % of its weight.":             {Code: happening.Sinking, A: 4000},
		"Mode rate, from angle.":                                                           {Code: happening.Mode, A: int32(layout.Rate), B: int32(layout.Angle)},
		"Craft tilted by 45.5°.":                                                           {Code: happening.Tilted, A: 455},
		"Craft set level.":                                                                 {Code: happening.Tilted},
		"The pack has 14.8 V.":                                                             {Code: happening.Pack, A: 14800},
		"Radio off: it is silent.":                                                         {Code: happening.Transmitter},
		"Radio on: it transmits.":                                                          {Code: happening.Transmitter, A: 1},
		"Readings were lost for 0.012 s; the radio was read afresh.":                       {Code: happening.ReadingsLost, A: 12},
		"Readings were lost; the radio was read afresh.":                                   {Code: happening.ReadingsLost},
		"The program did not run for 3.2 s; for the craft the radio was silent meanwhile.": {Code: happening.Slept, A: 3200},
		"The sticks stop short of the corner: the lowest value seen of channel 1 (throttle) is 1003 µs; arming and disarming by sticks need below 1000. Where the stick goes no lower, lower the end of its travel in the radio.": {Code: happening.TravelShort, A: 0, B: int32(pulse.Micros(1003)) + 5},
		"The sticks stop short of the corner: the highest value seen of channel 4 (yaw) is 1900 µs; arming by sticks needs 1935.25 or above. Where the stick goes no further, lengthen its travel to the right in the radio.":     {Code: happening.TravelShort, A: 3, B: int32(pulse.Micros(1900))},
		"The sticks stop short of the corner: the lowest value seen of channel 4 (yaw) is 1100 µs; disarming by sticks needs 1064.75 or below. Where the stick goes no further, lengthen its travel to the left in the radio.":    {Code: happening.TravelShort, A: 3, B: int32(pulse.Micros(1100))},
	} {
		assert.Equal(t, want, spoken(Happening(h, cfg)))
	}
}

func TestNumbersAreShownDownwards(t *testing.T) {
	assert.Equal(t, "999", number(Micros(pulse.Micros(1000)-1)), "a shown 999 is always low")
	assert.Equal(t, "1000", number(Micros(pulse.Micros(1000))))
	assert.Equal(t, "999.875", number(Exact(pulse.Micros(1000)-1)))
	assert.Equal(t, "1012", number(Exact(pulse.Micros(1012))))
	assert.Equal(t, "0", number(Exact(0)))
	assert.Equal(t, "-0.125", number(Exact(-1)))
	assert.Equal(t, "0.24 s", spoken(Seconds(240)))
	assert.Equal(t, "2 s", spoken(Seconds(2000)))
	assert.Equal(t, "0.1 s", spoken(left(1)), "what is left is never shown as nothing")
	assert.Equal(t, "0.0 s", spoken(left(0)))
	assert.Equal(t, "4.200 s", spoken(Clock(4200)))
	assert.Equal(t, "-0.005 s", spoken(Clock(-5)))
	assert.Equal(t, "still", spoken(Motor(0, 600)))
	assert.Equal(t, "idle", spoken(Motor(600, 600)))
	assert.Equal(t, "43 %", spoken(Motor(4399, 600)))
	assert.Equal(t, "100 %", spoken(Motor(flight.FullSpeed, 600)))
}

func TestStateInOneLine(t *testing.T) {
	s, cfg := scene()
	state := func() string {
		f := facts.Seen(s, cfg)
		return spoken(State(&f))
	}
	assert.Equal(t, "DISARMED; mode angle; link: good", state())
	s.Origin = link.FromRepeat
	assert.Equal(t, "DISARMED; mode angle; link: good, the craft thinks; the radio is silent", state())
	s.Receiving = false
	s.Armed, s.Sinking, s.SinkLeftMillis, s.Link, s.SilentMillis = true, true, 1450, link.Lost, 440
	assert.Equal(t, "ARMED, sinking, 1.5 s left; mode angle; link: lost, silent for 0.4 s", state())
	s.In.Powered = false
	assert.Contains(t, state(), "the craft has no power")
}

// Trade reference, "Cautions that the program shows": the transmitting radio first.
func TestCautions(t *testing.T) {
	c := Cautions()
	require.Len(t, c, 4)
	assert.True(t, strings.HasPrefix(spoken(c[0]), "Your radio may be transmitting"))
	var all []string
	for _, one := range c {
		all = append(all, spoken(one))
	}
	different(t, "cautions", all)
	assert.Contains(t, all[1], "no key here touches a real one")
	assert.Contains(t, spoken(BluntedCentre("X")), `group “input”`)
	assert.Contains(t, spoken(BluntedCentre("X")), "udev")
}

// For a room it is said in few words what to do against a refusal; of what does not refuse nothing is asked.
func TestARoomIsAskedForWhatRefuses(t *testing.T) {
	s, cfg := scene()
	asks := map[string]bool{}
	for _, r := range arming.Shown() {
		asks[ask(r, s, cfg, true)] = true
	}
	assert.Len(t, asks, len(arming.Shown()))
	s.Senses.Cable, s.Senses.Menu = true, pulse.MenuCamera
	assert.Equal(t, "cable out", ask(arming.BeingSetUp, s, cfg, true), "the camera's menu does not count for this craft")
	cfg.Arming.CameraMenuCounts = true
	assert.Equal(t, "cable out, menu closed", ask(arming.BeingSetUp, s, cfg, true))
	s.Senses.Cable = false
	assert.Equal(t, "menu closed", ask(arming.BeingSetUp, s, cfg, true))
	// Nothing is asked for that was tried and did not hold, and a link is got by what brings it.
	for r, want := range map[arming.Refusal]string{arming.ThrottleUp: "throttle below 1000", arming.OffFirst: "arm seen off first", arming.NoLink: "a link"} {
		assert.Equal(t, want, ask(r, s, cfg, false))
	}
	assert.Equal(t, "radio on", ask(arming.NoLink, s, cfg, true, facts.RadioOn))
	assert.Equal(t, "radio plugged in", ask(arming.NoLink, s, cfg, true, facts.PlugIn))
	assert.Equal(t, "all channels there", ask(arming.NoLink, s, cfg, true, facts.Move))
	assert.Equal(t, "radio plugged in and on", ask(arming.NoLink, s, cfg, true, facts.PlugIn, facts.RadioOn), "neither alone brings it")
}

// ask asks a room for what ends a refusal: by deeds, which hold or do not.
func ask(r arming.Refusal, s *sim.Snapshot, cfg *sim.Config, holds bool, by ...facts.Do) string {
	x := facts.Refusing{Refusal: r}
	for _, d := range by {
		x.Cure.Deed[x.Cure.N].Do, x.Cure.N = d, x.Cure.N+1
	}
	x.Cure.OK = holds
	f := facts.Seen(s, cfg)
	return spoken(LossAsk(x, &f))
}
