package drills_test

import (
	"fmt"
	"propsoff/cmd/propsoff/internal/drillrun"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	drillssheet "propsoff/cmd/propsoff/internal/ui/drills"
	"propsoff/cmd/propsoff/internal/ui/uitest"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/pulse"
)

// course is the sheet of drills with the shipped course, some of it done.
func course(t testing.TB) *uitest.Stage {
	s := uitest.Ready(t)
	s.Cut = []string{"drill "} // the one looked at is named whole beside the list
	c, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	d := drillssheet.Of(s.V)
	d.Course, d.Drills, d.Selected, d.Day = tell.CourseText(c.Code, c.Name), drills, 3, 10
	for i := range drills {
		d.Cards = append(d.Cards, [5]drill.Card{
			{}, {Box: 1, Due: 12, Last: 9, Runs: 1, Learned: 1}, {Box: 4, Due: 18, Last: 9}, {Box: 1, Due: 9, Last: 8, Failed: true}, {Box: 2, Due: 10, Last: 8},
		}[i%5])
	}
	d.Sum = tell.DrillSum(drill.Summary{Counted: 7, Right: 5, FalseStarts: 1, Anticipated: 1, Timed: 5, Median: 812_000, Spread: 43_000, Uncertain: 17_000, Trend: -9000})
	d.Next, d.Why = d.Selected, drill.FailedToday
	s.Names = []string{"Zoë of the long name that does not end so soon"}
	d.Pupil, d.Where = s.Names[0], "/home/pilot/.local/share/propsoff/logbook"
	return s
}

// lookingAt is the course with one of its drills looked at, as a pupil in a stick mode reads it.
func lookingAt(t testing.TB, code string, mode uint8) *uitest.Stage {
	s := course(t)
	d := drillssheet.Of(s.V)
	d.Selected = slices.IndexFunc(d.Drills, func(one *drillfile.Drill) bool { return one.Config.Code == code })
	require.GreaterOrEqual(t, d.Selected, 0, code)
	d.Hands, d.Sum = tell.DrillHands{StickMode: mode, Shipped: true}, tell.DrillSum(drill.Summary{})
	return s
}

// running is a drill under way, at a phase of the one with a code.
func running(t testing.TB, s *uitest.Stage, code string, phase drill.Phase, try drill.Try) *uitest.Stage {
	_, drills, err := drillfile.Shipped("beginner", uitest.KnownMoves(t))
	require.NoError(t, err)
	for _, one := range drills {
		if one.Config.Code != code {
			continue
		}
		r := &drillssheet.Of(s.V).Run
		*r = drillssheet.Run{On: true, One: one, State: drill.State{Phase: phase, Counted: 2}, Missing: 0xAAAA, Mark: 1,
			Tries: []drill.Try{{Verdict: drill.Right, Reaction: 640, Uncertain: 17}, {Verdict: drill.FalseStart, Reaction: -1}}}
		switch phase {
		case drill.Running:
			for i := range one.Cases[0].Choices {
				r.Choices = append(r.Choices, i)
			}
		case drill.Resting:
			r.Tries, r.State.Counted = append(r.Tries, try), 3
			drillssheet.Of(s.V).Hands = tell.DrillHands{StickMode: 3, Shipped: true}
		}
		s.Facts()
		return s
	}
	t.Fatalf("there is no drill %q", code)
	return nil
}

var drillScenes = []uitest.Scene{
	{Name: "course", Make: course, Says: []string{"Drills: ", " practises.", "Next: ", "failed today", "mastered", "begin", "below"}},
	{Name: "nobody named", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		drillssheet.Of(s.V).Pupil, drillssheet.Of(s.V).Selected = "", len(drillssheet.Of(s.V).Drills)-1
		s.V.Notices = []words.Text{tell.DrillOtherHand("instructor")}
		return s
	}, Says: []string{"Nobody is named"}},
	{Name: "preparing", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "alarm-by-switch", drill.Preparing, drill.Try{})
	},
		Says: []string{"First", "Throttle down, arm switch off", "try 3 of at most"}},
	{Name: "preparing, with many reasons", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "find-yaw", drill.Preparing, drill.Try{})
		return s.Glide(0, 1312, 200).Tell(pulse.Tilt, 450).Tell(pulse.Cable, 1).Set(4, 2012).Wait(300)
	}, Says: []string{"First", "arm switch"}},
	{Name: "waiting", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "alarm-by-switch", drill.Waiting, drill.Try{})
		return s.Set(4, 2012).Wait(200)
	}, Says: []string{"Ready", "it comes at a time of its own"}},
	{Name: "alarm", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "alarm-by-switch", drill.Running, drill.Try{})
	},
		Says: []string{"Now", "DISARM!"}},
	{Name: "right", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "alarm-by-switch", drill.Resting, drill.Try{Verdict: drill.Right, Reaction: 640, Uncertain: 17})
	}, Says: []string{"Right", "try 3 of at most", "2 of 3 right"}},
	{Name: "too late", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "alarm-by-sticks", drill.Resting, drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 1900, Uncertain: 17})
	}, Says: []string{"Too late"}},
	{Name: "choosing", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "find-the-fault", drill.Running, drill.Try{})
	},
		Says: []string{"take answer", "below"}},
	{Name: "a long list to choose from", Make: func(t testing.TB) *uitest.Stage {
		return running(t, course(t), "pre-flight-list", drill.Running, drill.Try{})
	}, Says: nil},
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
	{Name: "a gesture looked at", Make: func(t testing.TB) *uitest.Stage { return lookingAt(t, "gesture-craft-menu", 1) },
		Says: []string{"Hold for 0.3 s: left stick to the left, at mid height; right stick straight down. Then within 0.5 s, hold for 0.3 s: left stick straight up.", "Yours will differ: record your own from your craft's manual."}},
	{Name: "an errand looked at", Make: func(t testing.TB) *uitest.Stage { return lookingAt(t, "menu-errand", 3) },
		Says: []string{"In the menu the right stick does it all: up and down moves the mark", "bring that to the middle first"}},
	{Name: "after a gesture", Make: func(t testing.TB) *uitest.Stage {
		s := running(t, course(t), "gesture-camera-set-up", drill.Resting, drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Number: 2})
		return s
	}, Says: []string{"Then within 0.5 s, hold for 0.3 s", "Yours will differ"}},
	{Name: "no hand", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		s.V.Driver, s.V.Next = ui.Demo, ui.Keyboard
		drillssheet.Of(s.V).Trouble = tell.DrillNeedsHand(tell.DrillHand{Driving: tell.Driving{Who: int(ui.Demo), Next: int(ui.Keyboard), Key: ui.CapWord(uitest.AllSheets().KeyOf(ui.NextDriver))}, StickKey: ui.KeyOfStick()})
		s.V.Notices = []words.Text{drillssheet.Of(s.V).Trouble, words.T("notice.no-radio")}
		return s
	}, Says: []string{"The demo pilot drives, and a drill needs your own hand", "use the keys"}},
	{Name: "over", Make: func(t testing.TB) *uitest.Stage {
		s := course(t)
		over := &drillrun.Result{Run: drill.Run{Learned: true}}
		for i := range int32(5) {
			over.Tries = append(over.Tries, drill.Try{Verdict: drill.Right, Reaction: 500 + 6*i, Uncertain: 17})
		}
		drillssheet.Of(s.V).Run = drillssheet.Run{Over: over, One: drillssheet.Of(s.V).Drills[1]}
		return s
	}, Says: []string{"The drill is over", "Learned.", "go on"}},
}

// The names of drills stand whole, and those for which there is no room are counted: in every size, with notices and without, whichever
// is looked at.
func TestTheCourseListsEveryDrill(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	s := course(t)
	cards := drillssheet.Of(s.V).Cards
	standings := []drill.Card{{}, {Box: 1, Failed: true}, {Box: 2, Due: 22}} // new, failed last time, due in 12 days
	for k := range cards {
		cards[k] = standings[k%3]
	}
	counted := 0
	for notices := range 3 {
		s.V.Notices = []words.Text{tell.DrillOtherHand("instructor"), words.T("notice.no-radio")}[:notices]
		for _, z := range uitest.Sizes {
			for _, s.V.Book = range uitest.BooksAt(z) {
				for _, s.V.Class = range []bool{false, true} {
					for _, drillssheet.Of(s.V).Selected = range []int{0, 12, 20, len(cards) - 1} {
						p.Reset(z.W, z.H, 0, ink.Light())
						drillssheet.Draw(p, s.V)
						what := fmt.Sprintf("%vx%v, %s, %d notices, class %v, %d looked at", z.W, z.H, s.V.Book.Code(), notices, s.V.Class, drillssheet.Of(s.V).Selected)
						uitest.Report(t, what, p)
						counted += listed(t, what, s, p)
					}
				}
			}
		}
	}
	assert.Positive(t, counted)
}

// listed asks that every drill is listed or counted, and gives how many are counted.
func listed(t *testing.T, what string, s *uitest.Stage, p *ink.Page) (left int) {
	shown, more := 0, ""
	for _, it := range ink.Describe(p).Items {
		if strings.HasPrefix(it.Name, "drill ") && it.Group == "course" {
			shown++
			assert.True(t, s.V.Class || !strings.HasSuffix(it.Text, "…"), "%s: %s", what, it.Text)
		}
		if it.Name == "drills-left" {
			more = it.Text
		}
	}
	for _, n := range regexp.MustCompile(`\d+`).FindAllString(more, -1) {
		k, err := strconv.Atoi(n)
		require.NoError(t, err)
		left += k
	}
	assert.Equal(t, len(drillssheet.Of(s.V).Drills), shown+left, "%s: %q", what, more)
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
			over := *running(t, course(t), one.Config.Code, drill.Resting, drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 6100, Uncertain: 17})
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

func TestDrillsInEveryScene(t *testing.T) {
	uitest.InEveryScene(t, "drills", drillScenes, drillssheet.Draw)
}
