package tell

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/text/language"

	"propsoff.example/assets/words"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// codesOf are the names of the messages of a room.
func codesOf(room string) (out []string) {
	for _, m := range words.Messages(language.English) {
		if code, ok := strings.CutPrefix(m.ID, room+"."); ok {
			out = append(out, code)
		}
	}
	return out
}

// Every key has its word, whichever way its thing stands, in every language; a word beside a key is short. (That every action has one is
// tested where the actions are.)
func TestEveryKeyIsSaid(t *testing.T) {
	keys := codesOf("key")
	assert.Greater(t, len(keys), 60)
	for _, code := range keys {
		for _, on := range []bool{false, true} {
			for next := range 5 {
				text := Does(code, on, next)
				saidInAll(t, code, text)
				for _, tag := range words.Languages() {
					s := words.In(tag.String()).Say(text)
					assert.LessOrEqual(t, len([]rune(s)), 16, "%s in %s: %q", code, tag, s)
				}
			}
		}
		saidInAll(t, code, Does(code, false, 0))
	}
	for code, want := range map[string][2]string{"radio-switch": {"switch radio on", "switch radio off"}, "nudge": {"nudge craft", "nudge craft"}, "leave": {"leave", "back"}} {
		assert.Equal(t, want, [2]string{spoken(Does(code, false, 0)), spoken(Does(code, true, 0))})
	}
	assert.Equal(t, "set level, tilt to 17°", spoken(Does("tilt", false, 0))+", "+spoken(Does("tilt", false, 170)))
	assert.Equal(t, "camera's menu", spoken(Does("menu", false, 2)))
	assert.Equal(t, "Knüppelmodus 3", words.In("de").Say(Does("stick-mode", false, 3)))
	assert.Equal(t, "demo pilot", spoken(Does("next-driver", false, 1)))
	for _, code := range codesOf("help") {
		if flag := map[string]string{"choose": "radio", "ask-disarms": "arm"}[code]; flag != "" { // said where the keys are
			for _, on := range []bool{false, true} {
				saidInAll(t, code, words.Of("help", code, words.Args{flag: words.Flag(on)}))
			}
			continue
		}
		saidInAll(t, code, KeyHelp(code, "Zz"))
	}
	for theme, want := range []string{"light", "dark", "black on white", "white on black"} {
		saidInAll(t, want, AsSystem(theme))
		assert.Equal(t, "The sheet is as the system says again; now that is "+want+".", spoken(AsSystem(theme)))
	}
	for _, k := range keyboard.Layout() {
		saidInAll(t, k.Code, words.Of("hand", k.Code))
	}
	for group := range helpHeadings {
		saidInAll(t, "heading", HelpHeading(group))
	}
	for _, job := range []string{"arm", "second", "mode"} {
		assert.Equal(t, "this craft has no "+job+" switch", spoken(NoSwitch(job)))
		saidInAll(t, job, NoSwitch(job))
	}
}

// Who drives is said with the key of who comes next, and with the stick keys where they fly.
func TestWhoDrives(t *testing.T) {
	for want, d := range map[string]Driving{
		"The demo pilot drives. Press any stick key (W A S D, ← ↑ ↓ →) to take over. T: the keyboard drives.": {Who: 1, Sticks: true, Key: words.AsIs("T"), Next: 2},
		"The keyboard drives: each key stands beside what it moves. T: on to Desk.":                           {Who: 2, Caps: true, Sticks: true, Key: words.AsIs("T"), Next: 3, NextName: "Desk"},
		"The keyboard drives, on the bench. Its stick keys do nothing to the craft here.":                     {Who: 2, Next: 1},
		"Desk drives. It is read with a blunted centre. T: the demo pilot drives.":                            {Who: 3, Name: "Desk", Blunted: true, Key: words.AsIs("T"), Next: 1},
		"Desk is unplugged. It drives again when it is plugged in. T: the keyboard drives.":                   {Who: 3, Name: "Desk", Blunted: true, Out: true, Key: words.AsIs("T"), Next: 2},
		"Playing: way.yaml.":           {Who: 4, Name: "way.yaml", Key: words.AsIs("T"), Next: 2},
		"Played to its end: way.yaml.": {Who: 4, Name: "way.yaml", Ended: true},
		"No radio is plugged in: plug it in by USB and choose joystick on it.":                                                                 {},
		"No radio is plugged in: plug it in by USB and choose joystick on it, or press any stick key (W A S D, ← ↑ ↓ →) to drive by keyboard.": {Sticks: true},
	} {
		d.StickKeys = words.AsIs("W A S D, ← ↑ ↓ →")
		assert.Equal(t, want, spoken(WhoDrives(d)))
		saidInAll(t, want, WhoDrives(d))
	}
}

// What is played is called by its name, in the reader's language where it ships, and in words where it has none.
func TestWhatIsPlayedIsNamed(t *testing.T) {
	de := words.In("de")
	for name, want := range map[string]string{"demo pilot": "Demopilot", "a hop, and a lost link": "ein Hüpfer und eine verlorene Verbindung", "mine": "mine",
		"": "(ohne Namen)", "-": "Standardeingabe"} {
		assert.Equal(t, "Abgespielt wird: "+want+".", de.Say(WhoDrives(Driving{Who: 4, Name: name})))
		assert.Equal(t, "Skript: "+want+". Copter: x.", de.Say(Running(name, "x", false)))
	}
	assert.Equal(t, "Playing: demo pilot.", spoken(WhoDrives(Driving{Who: 4, Name: "demo pilot"})))
	assert.Equal(t, "Script: standard input. Craft: x.", spoken(Running("-", "x", false)))
}

// Whether propellers are on is told as it is, on the desk too: a script, a fault or an earlier flight may have fitted them.
func TestPropellersAreToldAsTheyAre(t *testing.T) {
	s, cfg := sim.Snapshot{}, sim.Config{}
	s.In.Powered = true
	assert.Contains(t, spoken(Standing(&s, &cfg)), "; propellers off.")
	assert.Equal(t, "craft Teasel, propellers off", spoken(CraftTitle(&s, "Teasel")))
	s.In.Hands = [4]int8{1, -1, 0, 1}
	assert.Contains(t, spoken(Standing(&s, &cfg)), "; propellers fitted: 3.")
	assert.Equal(t, "craft Teasel, propellers fitted: 3", spoken(CraftTitle(&s, "Teasel")))
	assert.Equal(t, "Copter, Propeller montiert: 3", words.In("de").Say(CraftTitle(&s, "")))
	saidInAll(t, "standing", Standing(&s, &cfg))
}

// In the German record a large letter follows each colon, whatever is put in there, and what happened is told in the perfect.
func TestGermanHappeningsAreWrittenAlike(t *testing.T) {
	small, past := regexp.MustCompile(`: (?:\{\{(?:if|else)[^}]*\}\})*(?:[a-zäöüß]|\{\{\.(?:cause|why|first|how)\b)`), regexp.MustCompile(`\b(?:schlug|setzte|ging|gingen|kam|lief|schwieg|wurden?|war)\b`)
	for _, m := range words.Messages(language.German) {
		if room, _, _ := strings.Cut(m.ID, "."); room == "happening" || room == "menu-opened" {
			assert.NotRegexp(t, small, m.One+" "+m.Other, m.ID)
			assert.NotRegexp(t, past, m.One+" "+m.Other, m.ID)
		}
	}
}

// A job inside a sentence is called by a word that can stand there.
func TestJobsInsideSentences(t *testing.T) {
	absent := CardAbsent([]string{"throttle", "arm", "second", "lights"})
	assert.Equal(t, "Diesem Sender fehlt ein Bedienelement für Gas, Scharfschalten, Zweitschalter oder lights.", words.In("de").Say(absent))
	assert.Equal(t, "This radio has no control for throttle, arming, the second switch or lights.", spoken(absent))
}

// What stands beside a key that does nothing names the key that leads on, and nothing is said of a key that works.
func TestWhyAKeyDoesNothing(t *testing.T) {
	for code, i := range map[string]Idling{
		"next-driver": {}, "choose-radio": {Radios: 1, Reading: true}, "first-questions": {Radios: 1, Next: words.AsIs("T")}, "three": {First: words.AsIs("F")}, "flight-step": {Pause: words.AsIs("P")},
		"stand-again": {Air: true, Replay: words.AsIs("R")}, "set-up-cable": {CableHeld: true}, "flight-pause": {First: words.AsIs("F")}, "nudge": {Air: true}, "tilt": {Waits: true},
	} {
		saidInAll(t, code, Idle(code, i))
	}
	assert.Equal(t, "A drill runs on this bench: leave it first.", spoken(Idle("next-driver", Idling{Drill: true})))
	assert.Equal(t, "A radio is learned while it drives. Let it drive first.", spoken(Idle("first-questions", Idling{Radios: 1})))
	assert.Equal(t, "A radio is learned while it drives. Let it drive (T) first.", spoken(Idle("first-questions", Idling{Radios: 1, Next: words.AsIs("T")})))
	assert.Equal(t, "so", spoken(Idle("gesture-record", Idling{Record: words.AsIs("so")})))
	assert.True(t, Idle("nudge", Idling{}).Empty())
	assert.True(t, Idle("choose-radio", Idling{Radios: 2}).Empty())
}

func TestHowTheCraftStandsAndWhereSpansLie(t *testing.T) {
	s := &sim.Snapshot{}
	assert.Equal(t, "Level; no power.", spoken(CraftStands(s)))
	s.In.Powered, s.In.Craft.TiltTenths, s.In.Craft.Cable, s.In.Craft.Menu = true, 1700, true, pulse.MenuCamera
	assert.Equal(t, "Upside down, tilted by 170°; cable in; camera's menu open.", spoken(CraftStands(s)))
	saidInAll(t, "stands", CraftStands(s))
	span := func(low, high pulse.Width) string { return spoken(SpanWords(layout.Span{Low: low, High: high})) }
	assert.Equal(t, "anywhere", span(pulse.Lowest, pulse.Highest))
	assert.Equal(t, "below 1250", span(pulse.Lowest, pulse.Micros(1250)))
	assert.Equal(t, "from 1750.5", span(pulse.Micros(1750)+4, pulse.Highest))
	assert.Equal(t, "1250–1750", span(pulse.Micros(1250), pulse.Micros(1750)))
	for _, where := range codesOf("view") {
		saidInAll(t, where, words.Of("view", where, words.Args{"short": words.Flag(true)}))
		saidInAll(t, where, words.Of("view", where, words.Args{"short": words.Flag(false)}))
	}
}
