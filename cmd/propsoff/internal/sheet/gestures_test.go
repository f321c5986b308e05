package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/gestures"
	"propsoff/gestures/menu"
	"propsoff/gestures/patternfile"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// withGestures gives a stage the shipped gestures and menus.
func withGestures(t testing.TB, craft string) *stage {
	cfg, name := shipped(t, craft)
	file, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(file, text, cfg.SlotTicks)
	require.NoError(t, err)
	cfg.Gestures, cfg.Menus = &f.Gestures, &f.Menus
	s := newStage(t, cfg, name).on().tell(pulse.StickMode, 2).wait(3500)
	s.v.Gestures.File, s.v.Gestures.Shipped = "examples", true
	s.v.Gestures.Scores = make([]GestureScore, len(f.Gestures.Patterns))
	s.v.Gestures.Try.Running = -1
	return s
}

// practise is the stage as the sheet of gestures sees it.
func (s *stage) practise(code string) *stage {
	g := &s.v.Gestures
	g.Set = append(g.Set[:0], s.p.Gestures()...)
	g.Sticks = s.p.Bench().Sticks().Sticks
	for i := range s.cfg.Gestures.Patterns {
		if s.cfg.Gestures.Patterns[i].Code == code {
			g.Selected = i
			return s
		}
	}
	s.t.Fatalf("there is no gesture %q", code)
	return s
}

// stand moves the sticks of throttle, roll, pitch and yaw within some ms.
func (s *stage) stand(ms int, throttle, roll, pitch, yaw int) *stage {
	l := &s.cfg.Layout
	var from [4]pulse.Width
	c := [4]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw}
	for i := range c {
		from[i] = s.frame[c[i]]
	}
	for n := 1; n <= ms; n++ {
		for i, us := range [4]int{throttle, roll, pitch, yaw} {
			s.frame[c[i]] = from[i] + pulse.Width(int(pulse.Micros(us)-from[i])*n/ms)
		}
		s.send().wait(1)
	}
	return s
}

var gestureScenes = []scene{
	{"at rest", func(t testing.TB) *stage { return withGestures(t, "built-in").practise("craft-menu") },
		[]string{"Yours will differ: record your own from your craft's manual (N).", "No try yet.", "arms by its switch", "sticks at rest"}},
	{"under way", func(t testing.TB) *stage {
		s := withGestures(t, "teasel-by-sticks").stand(300, 988, 1500, 1500, 1240).practise("craft-menu")
		s.v.Gestures.Try.Running = 300
		return s
	}, []string{"Staying in step 1 also disarms", "under way for 0.3 s"}},
	{"held, and it also disarms", func(t testing.TB) *stage {
		s := withGestures(t, "teasel-by-sticks").stand(200, 988, 1500, 1500, 1000).wait(350).practise("craft-menu")
		s.v.Gestures.Try.Running = 560
		return s
	}, []string{"also disarms"}},
	{"made", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").stand(200, 988, 2000, 1500, 1500).wait(350).stand(200, 988, 1000, 1500, 1500).wait(400).practise("camera-set-up")
		s.v.Gestures.Scores[s.v.Gestures.Selected] = GestureScore{Made: 4, Near: [happening.NearCount]int{happening.NearEarly: 2, happening.NearCorner: 1}}
		s.v.Gestures.Try = GestureTry{Running: -1, Done: true, Made: true, Held: true, Took: 1380}
		return s
	}, []string{"Made in 1.4 s.", "made 4 of 7", "Near misses: let go too early 2 and one stick not there 1."}},
	{"let go early", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").stand(200, 988, 1000, 1500, 1500).wait(350).stand(200, 988, 1500, 1000, 1500).wait(200).stand(100, 988, 1500, 1500, 1500).wait(100).practise("camera-display")
		s.v.Gestures.Try = GestureTry{Running: 900, Done: true, How: happening.NearEarly, Early: 100}
		return s
	}, []string{"Let go 0.1 s early."}},
	{"went too far", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").stand(200, 988, 1000, 1500, 1800).practise("camera-display")
		s.v.Gestures.Try = GestureTry{Running: 900, Done: true, How: happening.NearOvershot, Direction: int(gestures.Yaw)}
		return s
	}, []string{" stick, across) went too far."}},
	{"a chain", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").stand(150, 988, 2000, 1500, 1500).wait(400).stand(100, 988, 1300, 1500, 1500).wait(200).practise("camera-set-up")
		s.v.Gestures.Try.Running = 700
		return s
	}, []string{"step 1: ", "step 2: "}},
	{"spent", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").stand(200, 988, 1500, 1500, 1000).tell(pulse.Link, 0).wait(600).tell(pulse.Link, 1).wait(2500)
		return s.practise("craft-menu")
	}, []string{"Let go first"}},
	{"armed", func(t testing.TB) *stage {
		s := withGestures(t, "teasel-by-sticks").set(3, 2012).wait(1200).set(3, 1500).wait(100)
		return s.practise("craft-menu")
	}, []string{"the craft is armed. Disarm first."}},
	{"no link", func(t testing.TB) *stage {
		return withGestures(t, "built-in").tell(pulse.Link, 0).wait(600).practise("camera-display")
	}, []string{"nothing of the radio's reaches the craft"}},
	{"the arm corner", func(t testing.TB) *stage {
		return withGestures(t, "teasel-by-sticks").tell(pulse.Cable, 1).set(3, 2012).wait(300).practise("camera-set-up")
	}, []string{"This is the arm corner"}},
	{"no gestures", func(t testing.TB) *stage { s := ready(t); s.v.Gestures.Try.Running = -1; return s }, []string{"There are no gestures"}},
	{"by radio", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").practise("craft-menu")
		s.v.Driver, s.v.DriverName, s.v.Next = Radio, longName, Keyboard
		s.v.Notices = []string{bluntedNotice}
		return s
	}, []string{longName}},
	{"many, with long names", func(t testing.TB) *stage {
		s := withGestures(t, "built-in")
		for i := range 20 {
			p := s.cfg.Gestures.Patterns[i%3]
			p.Name, p.Opens = longName[:60], 0
			s.cfg.Gestures.Patterns = append(s.cfg.Gestures.Patterns, p)
		}
		s.v.Gestures.Scores = make([]GestureScore, len(s.cfg.Gestures.Patterns))
		s.v.Gestures.Scores[11] = GestureScore{Made: 12, Near: [happening.NearCount]int{0, 8, 7, 6, 5}}
		s.practise("craft-menu").v.Gestures.Selected = 11
		s.v.Gestures.Said = phrase.RecordKept(longName[:24], "/home/pilot/.config/propsoff/gestures.yaml")
		return s
	}, []string{"is kept in"}},
	{"recording", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").practise("camera-display")
		s.v.Gestures.Record = GestureRecord{Phase: RecordMoving, Millis: 2340}
		return s
	}, []string{"recording for 2.3 s", "that was it"}},
	{"recorded", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").stand(100, 988, 1000, 1500, 1500).practise("camera-display")
		s.v.Gestures.Record = GestureRecord{Phase: RecordDone, Pattern: s.cfg.Gestures.Patterns[2], Opens: "a menu"}
		return s
	}, []string{"This is what was seen", "by stick", "name and keep", "throw it away"}},
	{"recorded nothing", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").practise("camera-display")
		s.v.Gestures.Record = GestureRecord{Phase: RecordDone, Verdict: gestures.Verdict{Recording: gestures.StoodBetween, Direction: gestures.Yaw}}
		return s
	}, []string{"stood between two zones"}},
	{"naming", func(t testing.TB) *stage {
		s := withGestures(t, "built-in").practise("camera-display")
		s.v.Gestures.Record = GestureRecord{Phase: RecordNaming, Pattern: s.cfg.Gestures.Patterns[1], Typed: "my own", Trouble: phrase.RecordNotKept("disk full")}
		return s
	}, []string{"Its name: my own_", "Not kept: disk full"}},
}

func TestGesturesInEveryScene(t *testing.T) { inEveryScene(t, "gestures", gestureScenes, Gestures) }

// menuOpen is the sheet with a menu on the goggles.
func menuOpen(t testing.TB) *stage {
	s := withGestures(t, "built-in").tell(pulse.Menu, pulse.MenuCraft).wait(100).practise("craft-menu")
	s.v.Gestures.Goggles = GogglesView{Open: true, Name: "the craft's own menu", Path: []string{"craft", "stick feel"}, Mark: 1, Changed: 1,
		Items: []GogglesItem{
			{Kind: GogglesPage, Label: "roll and pitch", Holds: 3},
			{Label: "turn at full stick", Value: "440 °/s", Was: "420 °/s", Changed: true, Less: true, More: true, Moves: true, Upright: true, Inside: true},
			{Label: "softness round the middle", Value: "0.30", Less: true},
			{Label: "lights", Value: "on", More: true},
			{Kind: GogglesLeave, Label: "to the page before"},
		},
		Moves: []string{"Right stick up and down moves the mark.", "Right stick to the right goes in, or into a value; to the left goes out."},
	}
	return s
}

var gogglesScenes = []scene{
	{"page", menuOpen, []string{"craft  ›  stick feel", "440 °/s", "changed, was 420 °/s", "3 inside", "disarmed", "close menu"}},
	{"a camera's, where going in can arm", func(t testing.TB) *stage {
		s := menuOpen(t)
		at := menu.State{Open: 2}
		s.v.Gestures.Goggles.Moves = append(phrase.GogglesMoves(menu.OneStick, &at, 3, &s.v.Facts), phrase.MenuArms(menu.OneStick, 3))
		return s
	}, []string{"First bring the sticks to the middle: the right stick carries the throttle here", "With the throttle low, the right stick held to the right arms this craft"}},
	{"moved by the stick of the throttle", func(t testing.TB) *stage {
		s := menuOpen(t)
		at := menu.State{Open: 2, Rested: true}
		s.v.Gestures.Goggles.Moves = append(phrase.GogglesMoves(menu.OneStick, &at, 3, &s.v.Facts), phrase.MenuArms(menu.OneStick, 3))
		return s
	}, []string{"The right stick carries the throttle: bring it back to the middle after each step.", "With the throttle low, the right stick held to the right arms this craft"}},
	{"leaving", func(t testing.TB) *stage {
		s := menuOpen(t)
		g := &s.v.Gestures.Goggles
		g.Leaving, g.Answers, g.Answer = true, []string{"keep the changes", "put back as it was", "stay in the menu"}, 2
		return s
	}, []string{"keep the changes", "put back as it was", "stay in the menu"}},
	{"a long page", func(t testing.TB) *stage {
		s := menuOpen(t)
		g := &s.v.Gestures.Goggles
		for range 30 {
			g.Items = append(g.Items, GogglesItem{Label: longName[:40], Value: "−12.5 m/s per second", Was: "−12.0 m/s per second", Changed: true, Less: true, More: true})
		}
		g.Mark, g.Changed, g.Path = 30, 31, []string{longName[:30], longName[:30], longName[:30]}
		return s
	}, []string{"31 values changed"}},
}

func TestGogglesInEveryScene(t *testing.T) { inEveryScene(t, "goggles", gogglesScenes, Gestures) }

// The bench shows which menu is open and where the mark stands, and the goggles in the place of the craft.
var benchMenuScenes = []scene{
	{"menu on the bench", func(t testing.TB) *stage {
		s := menuOpen(t)
		s.v.Gestures.Goggles.Stands = phrase.MenuStands("craft", "turn at full stick", "440 °/s", false)
		return s
	}, []string{"Menu “craft” open, the mark on turn at full stick: 440 °/s"}},
}

func TestTheBenchShowsTheMenu(t *testing.T) { inEveryScene(t, "bench", benchMenuScenes, Bench) }

// knownMoves are the shipped gestures and menus, which the shipped drills name.
func knownMoves(t testing.TB) drillfile.Known {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	return drillfile.Known{Gestures: &f.Gestures, Menus: &f.Menus}
}
