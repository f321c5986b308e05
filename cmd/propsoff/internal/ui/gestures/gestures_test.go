package gestures_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/bench"
	gesturessheet "propsoff.example/cmd/propsoff/internal/ui/gestures"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// withGestures gives a stage the shipped gestures and menus.
func withGestures(t testing.TB, craft string) *uitest.Stage {
	cfg, name := uitest.Shipped(t, craft)
	file, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(file, text, cfg.SlotTicks)
	require.NoError(t, err)
	cfg.Gestures, cfg.Menus = &f.Gestures, &f.Menus
	s := uitest.NewStage(t, cfg, name).On().Tell(pulse.StickMode, 2).Wait(3500)
	gesturessheet.Of(s.V).File, gesturessheet.Of(s.V).Shipped = "examples", true
	gesturessheet.Of(s.V).Scores = make([]gesturessheet.Score, len(f.Gestures.Patterns))
	gesturessheet.Of(s.V).Try.Running = -1
	return s
}

// practise is the stage as the sheet sees it, with a gesture chosen.
func practise(s *uitest.Stage, code string) *uitest.Stage {
	g := gesturessheet.Of(s.V)
	g.Set = append(g.Set[:0], s.P.Gestures()...)
	for i := range s.Cfg.Gestures.Patterns {
		if s.Cfg.Gestures.Patterns[i].Code == code {
			g.Selected = i
			return s
		}
	}
	panic("there is no gesture " + code)
}

var gestureScenes = []uitest.Scene{
	{Name: "at rest", Make: func(t testing.TB) *uitest.Stage { return practise(withGestures(t, "built-in"), "craft-menu") },
		Says: []string{"Yours will differ: record your own from your craft's manual (“.”).", "No try yet.", "arms by its switch", "sticks at rest"}},
	{Name: "under way", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "teasel-by-sticks").Stand(300, 988, 1500, 1500, 1240), "craft-menu")
		gesturessheet.Of(s.V).Try.Running = 300
		return s
	}, Says: []string{"Staying in step 1 also disarms", "under way for 0.3 s"}},
	{Name: "held, and it also disarms", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "teasel-by-sticks").Stand(200, 988, 1500, 1500, 1000).Wait(350), "craft-menu")
		gesturessheet.Of(s.V).Try.Running = 560
		return s
	}, Says: []string{"also disarms"}},
	{Name: "made", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in").Stand(200, 988, 2000, 1500, 1500).Wait(350).Stand(200, 988, 1000, 1500, 1500).Wait(400), "camera-set-up")
		gesturessheet.Of(s.V).Scores[gesturessheet.Of(s.V).Selected] = gesturessheet.Score{Made: 4, Near: [happening.NearCount]int{happening.NearEarly: 2, happening.NearCorner: 1}}
		gesturessheet.Of(s.V).Try = gesturessheet.Try{Running: -1, Done: true, Made: true, Held: true, Took: 1380}
		return s
	}, Says: []string{"Made in 1.4 s.", "made 4 of 7", "Near misses: let go too early 2 and one stick not there 1."}},
	{Name: "let go early", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in").Stand(200, 988, 1000, 1500, 1500).Wait(350).Stand(200, 988, 1500, 1000, 1500).Wait(200).Stand(100, 988, 1500, 1500, 1500).Wait(100), "camera-display")
		gesturessheet.Of(s.V).Try = gesturessheet.Try{Running: 900, Done: true, How: happening.NearEarly, Early: 100}
		return s
	}, Says: []string{"Let go 0.1 s early."}},
	{Name: "went too far", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in").Stand(200, 988, 1000, 1500, 1800), "camera-display")
		gesturessheet.Of(s.V).Try = gesturessheet.Try{Running: 900, Done: true, How: happening.NearOvershot, Direction: int(gestures.Yaw)}
		return s
	}, Says: []string{" stick, across) went too far."}},
	{Name: "a chain", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in").Stand(150, 988, 2000, 1500, 1500).Wait(400).Stand(100, 988, 1300, 1500, 1500).Wait(200), "camera-set-up")
		gesturessheet.Of(s.V).Try.Running = 700
		return s
	}, Says: []string{"step 1: ", "step 2: "}},
	{Name: "spent", Make: func(t testing.TB) *uitest.Stage {
		s := withGestures(t, "built-in").Stand(200, 988, 1500, 1500, 1000).Tell(pulse.Link, 0).Wait(600).Tell(pulse.Link, 1).Wait(2500)
		return practise(s, "craft-menu")
	}, Says: []string{"Let go first"}},
	{Name: "armed", Make: func(t testing.TB) *uitest.Stage {
		s := withGestures(t, "teasel-by-sticks").Set(3, 2012).Wait(1200).Set(3, 1500).Wait(100)
		return practise(s, "craft-menu")
	}, Says: []string{"the craft is armed. Disarm first."}},
	{Name: "no link", Make: func(t testing.TB) *uitest.Stage {
		return practise(withGestures(t, "built-in").Tell(pulse.Link, 0).Wait(600), "camera-display")
	}, Says: []string{"nothing of the radio's reaches the craft"}},
	{Name: "a radio that does not reach it", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in").Stand(300, 988, 1500, 1500, 1200), "craft-menu")
		gesturessheet.Of(s.V).Reach = &handset.Radio{Controls: []handset.Control{{Channel: s.Cfg.Layout.Yaw, Low: 1200 * pulse.Eighths, High: pulse.High}}}
		return s
	}, Says: []string{"Left stick: does not reach left."}},
	{Name: "the arm corner", Make: func(t testing.TB) *uitest.Stage {
		return practise(withGestures(t, "teasel-by-sticks").Tell(pulse.Cable, 1).Set(3, 2012).Wait(300), "camera-set-up")
	}, Says: []string{"This is the arm corner"}},
	{Name: "no gestures", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Ready(t)
		gesturessheet.Of(s.V).Try.Running = -1
		return s
	}, Says: []string{"There are no gestures"}},
	{Name: "by radio", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in"), "craft-menu")
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, uitest.LongName, ui.Keyboard
		s.V.Notices = ui.Warnings(uitest.BluntedNotice)
		return s
	}, Says: []string{uitest.LongName}},
	{Name: "many, with long names", Make: func(t testing.TB) *uitest.Stage {
		s := withGestures(t, "built-in")
		s.Names = []string{uitest.LongName[:60], uitest.LongName[:24]}
		for i := range 20 {
			p := s.Cfg.Gestures.Patterns[i%3]
			p.Name, p.Opens = uitest.LongName[:60], 0
			s.Cfg.Gestures.Patterns = append(s.Cfg.Gestures.Patterns, p)
		}
		gesturessheet.Of(s.V).Scores = make([]gesturessheet.Score, len(s.Cfg.Gestures.Patterns))
		gesturessheet.Of(s.V).Scores[11] = gesturessheet.Score{Made: 12, Near: [happening.NearCount]int{0, 8, 7, 6, 5}}
		gesturessheet.Of(practise(s, "craft-menu").V).Selected = 11
		gesturessheet.Of(s.V).Said = words.T("gesture.record-kept", words.Args{"name": words.Quote(uitest.LongName[:24]), "path": words.Quote("/home/pilot/.config/propsoff/gestures.yaml")})
		return s
	}, Says: []string{"is kept in"}},
	{Name: "recording", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in"), "camera-display")
		gesturessheet.Of(s.V).Recording = gesturessheet.Recording{Phase: gesturessheet.Moving, Millis: 2340}
		return s
	}, Says: []string{"recording for 2.3 s", "that was it"}},
	{Name: "recorded", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in").Stand(100, 988, 1000, 1500, 1500), "camera-display")
		gesturessheet.Of(s.V).Recording = gesturessheet.Recording{Phase: gesturessheet.Ended, Pattern: s.Cfg.Gestures.Patterns[2], Opens: tell.MenuName(&s.Cfg.Menus.Menus[1])}
		return s
	}, Says: []string{"This is what was seen", "by stick", "name and keep", "throw it away"}},
	{Name: "recorded nothing", Make: func(t testing.TB) *uitest.Stage {
		s := practise(withGestures(t, "built-in"), "camera-display")
		gesturessheet.Of(s.V).Recording = gesturessheet.Recording{Phase: gesturessheet.Ended, Verdict: gestures.Verdict{Recording: gestures.StoodBetween, Direction: gestures.Yaw}}
		return s
	}, Says: []string{"stood between two zones"}},
}

func TestGesturesInEveryScene(t *testing.T) {
	for i, make := range gestureScenes { // the one chosen in the list stands whole beside it
		gestureScenes[i].Make = func(t testing.TB) *uitest.Stage {
			s := make.Make(t)
			s.Cut = append(s.Cut, "listed")
			return s
		}
	}
	uitest.InEveryScene(t, "gestures", gestureScenes, gesturessheet.Draw)
}

// menuOpen is the sheet with a menu of a craft on the goggles in a stick mode; how takes it to where it stands.
func menuOpen(t testing.TB, craft string, which int, mode uint8, how func(cfg *menu.Config, s *menu.State)) *uitest.Stage {
	s := practise(withGestures(t, craft).Tell(pulse.Menu, pulse.MenuCraft).Wait(100), "craft-menu")
	at := menu.Open(s.Cfg.Menus, menu.State{}, which)
	how(s.Cfg.Menus, &at)
	s.V.Goggles = gesturessheet.Goggles(s.Cfg, &at, mode, &s.V.Facts)
	return s
}

// rested is a menu on its first page, the sticks in the middle.
func rested(_ *menu.Config, s *menu.State) { s.Rested = true }

// turning is the craft's own menu on the page of how it turns, with the first value changed.
func turning(t testing.TB) *uitest.Stage {
	return menuOpen(t, "built-in", 0, 2, func(cfg *menu.Config, s *menu.State) {
		s.Rested = true
		page, _ := cfg.Page(s)
		s.Path[0], s.Depth, s.Inside = uint8(page), 1, true
		value, _ := cfg.Page(s)
		s.Now[cfg.Items[value].Index] += 30
	})
}

var gogglesScenes = []uitest.Scene{
	{Name: "first page", Make: func(t testing.TB) *uitest.Stage { return menuOpen(t, "built-in", 0, 2, rested) }, Says: []string{"3 inside", "3.55 V a cell", "close this menu"}},
	{Name: "page", Make: turning, Says: []string{"the craft's own menu  ›  how it turns", "450 °/s", "changed, was 420 °/s", "1 value changed", "to the page before", "disarmed", "close menu"}},
	{Name: "a camera's, where going in can arm", Make: func(t testing.TB) *uitest.Stage {
		return menuOpen(t, "teasel-by-sticks", 1, 3, func(*menu.Config, *menu.State) {})
	}, Says: []string{"First bring the sticks to the middle: the right stick carries the throttle here", "With the throttle low, the right stick held to the right arms this craft"}},
	{Name: "moved by the stick of the throttle", Make: func(t testing.TB) *uitest.Stage {
		return menuOpen(t, "teasel-by-sticks", 1, 3, rested)
	}, Says: []string{"The right stick carries the throttle: bring it back to the middle after each step.", "With the throttle low, the right stick held to the right arms this craft"}},
	{Name: "leaving", Make: func(t testing.TB) *uitest.Stage {
		return menuOpen(t, "built-in", 0, 2, func(cfg *menu.Config, s *menu.State) { s.Now[0], s.Asked = s.Now[0]+30, menu.Stay })
	}, Says: []string{"keep the changes", "put back as it was", "stay in the menu"}},
	{Name: "a long page", Make: func(t testing.TB) *uitest.Stage {
		s := turning(t)
		s.Names = []string{uitest.LongName[:40], uitest.LongName[:30]}
		g, long := &s.V.Goggles, words.AsIs(s.Names[1])
		for range 30 {
			g.Items = append(g.Items, ui.GogglesItem{Label: words.AsIs(s.Names[0]), Value: words.AsIs("−12.5 m/s per second"), Was: words.AsIs("−12.0 m/s per second"), Changed: true, Less: true, More: true})
		}
		g.Mark, g.Changed, g.Path = 30, 31, []words.Text{long, long, long}
		return s
	}, Says: []string{"31 values changed"}},
}

func TestGogglesInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "goggles", gogglesScenes, gesturessheet.Draw)
}

// The bench shows which menu is open and where the mark stands, and the goggles in the place of the craft.
func TestTheBenchShowsTheMenu(t *testing.T) {
	uitest.InEveryScene(t, "bench", []uitest.Scene{{Name: "menu on the bench", Make: turning, Says: []string{"Menu “the craft's own menu” open, the mark on turning at full stick: 450 °/s"}}}, bench.Draw)
}
