package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/fault"
	"propsoff/sim/pulse"
)

// course is the sheet of drills with the shipped course, some of it done.
func course(t testing.TB) *stage {
	s := ready(t)
	c, drills, err := drillfile.Shipped("beginner", knownMoves(t))
	require.NoError(t, err)
	d := &s.v.Drills
	d.Course, d.Selected = c.Name, 3
	for i, one := range drills {
		card := drill.Card{}
		row := DrillRow{Name: one.Name}
		switch i % 5 {
		case 1:
			card = drill.Card{Box: 1, Due: 12, Last: 9, Runs: 1, Learned: 1}
			row.Mark = MarkLearned
		case 2:
			card = drill.Card{Box: 4, Due: 18, Last: 9}
			row.Mark = MarkMastered
		case 3:
			card = drill.Card{Box: 1, Due: 9, Last: 8, Failed: true}
			row.Mark = MarkFailed
		case 4:
			card = drill.Card{Box: 2, Due: 10, Last: 8}
			row.Mark = MarkDue
		}
		row.Stands = phrase.DrillStands(&card, 10)
		d.Rows = append(d.Rows, row)
	}
	one := drills[d.Selected]
	d.About, d.Caution = one.About, "This is the bench. A real craft is never tried out like this near people."
	d.Results = []string{phrase.DrillAsks(&one.Config), phrase.DrillSum(drill.Summary{Counted: 7, Right: 5, FalseStarts: 1, Anticipated: 1, Timed: 5, Median: 812_000, Spread: 43_000, Uncertain: 17_000, Trend: -9000})}
	d.Next = phrase.DrillNext(one.Name, drill.FailedToday)
	d.Pupil, d.Kept = "Zoë of the long name that does not end so soon", phrase.DrillKept("/home/pilot/.local/share/propsoff/logbook")
	return s
}

// lookingAt is the course with one of its drills looked at, as a pupil in a stick mode reads it.
func lookingAt(t testing.TB, code string, mode uint8) *stage {
	s := course(t)
	_, drills, err := drillfile.Shipped("beginner", knownMoves(t))
	require.NoError(t, err)
	for i, one := range drills {
		if one.Config.Code == code {
			d := &s.v.Drills
			d.Selected, d.About, d.Caution = i, phrase.DrillAbout(one, phrase.DrillHands{StickMode: mode, Shipped: true}), one.Caution
			d.Results = []string{phrase.DrillAsks(&one.Config), phrase.DrillSum(drill.Summary{})}
			return s
		}
	}
	t.Fatalf("there is no drill %q", code)
	return nil
}

// running is a drill under way, at a phase of the one with a code.
func running(t testing.TB, s *stage, code string, phase drill.Phase, try drill.Try) *stage {
	_, drills, err := drillfile.Shipped("beginner", knownMoves(t))
	require.NoError(t, err)
	for _, one := range drills {
		if one.Config.Code != code {
			continue
		}
		w := &one.Cases[0]
		r := &s.v.Drills.Run
		*r = RunView{On: true, Name: one.Name, Try: 3, Most: int(one.Config.Tries), Heading: phrase.DrillHeading(phase, try.Verdict), Caution: one.Caution,
			Sum: phrase.DrillSum(drill.Summary{Counted: 2, Right: 1, FalseStarts: 1, Timed: 1, Median: 640_000, Uncertain: 17_000})}
		switch phase {
		case drill.Preparing:
			r.Say = w.Before[0]
			for i, want := range one.Config.Cases[0].Before[0].Until {
				r.Steps = append(r.Steps, DrillStep{phrase.WantSentence(want, &one.Config), i%2 == 0})
			}
		case drill.Waiting:
			r.Say = phrase.DrillWait(true)
		case drill.Running:
			r.Say, r.Picture, r.Cue, r.Alarm, r.Choices, r.Mark = w.Say, w.Picture, true, w.Sound == "alarm", w.Choices, 1
		case drill.Resting:
			r.Verdict, r.Right = phrase.VerdictWord(try.Verdict), try.Verdict == drill.Right
			r.Why, r.After = phrase.TryWhy(try, w, &one.Config), phrase.DrillAfter(one, 0, phrase.DrillHands{StickMode: 3, Shipped: true})
		}
		s.facts()
		return s
	}
	t.Fatalf("there is no drill %q", code)
	return nil
}

var drillScenes = []scene{
	{"course", course, []string{"Drills: ", "Pupil: ", "Next: ", "failed today", "mastered", "begin", "below"}},
	{"nobody named", func(t testing.TB) *stage {
		s := course(t)
		s.v.Drills.Pupil, s.v.Drills.Kept, s.v.Drills.Selected = "", phrase.DrillNotKept(phrase.DrillNobody()), len(s.v.Drills.Rows)-1
		s.v.Notices = []string{phrase.DrillOtherHand("instructor")}
		return s
	}, []string{"Nobody is named"}},
	{"name typed", func(t testing.TB) *stage {
		s := course(t)
		s.v.Drills.Typing, s.v.Drills.Pupil = true, "zo"
		return s
	}, []string{"Pupil: zo_"}},
	{"preparing", func(t testing.TB) *stage {
		return running(t, course(t), "alarm-by-switch", drill.Preparing, drill.Try{})
	},
		[]string{"First", "Throttle down, arm switch off", "try 3 of at most"}},
	{"preparing, with many reasons", func(t testing.TB) *stage {
		s := running(t, course(t), "find-yaw", drill.Preparing, drill.Try{})
		return s.glide(0, 1312, 200).tell(pulse.Tilt, 450).tell(pulse.Cable, 1).set(4, 2012).wait(300)
	}, []string{"First", "arm switch"}},
	{"waiting", func(t testing.TB) *stage {
		s := running(t, course(t), "alarm-by-switch", drill.Waiting, drill.Try{})
		return s.set(4, 2012).wait(200)
	}, []string{"Ready", "it comes at a time of its own"}},
	{"alarm", func(t testing.TB) *stage { return running(t, course(t), "alarm-by-switch", drill.Running, drill.Try{}) },
		[]string{"Now", "DISARM!"}},
	{"right", func(t testing.TB) *stage {
		return running(t, course(t), "alarm-by-switch", drill.Resting, drill.Try{Verdict: drill.Right, Reaction: 640, Uncertain: 17})
	}, []string{"Right"}},
	{"too late", func(t testing.TB) *stage {
		return running(t, course(t), "alarm-by-sticks", drill.Resting, drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 1900, Uncertain: 17})
	}, []string{"Too late"}},
	{"choosing", func(t testing.TB) *stage { return running(t, course(t), "find-the-fault", drill.Running, drill.Try{}) },
		[]string{"take answer", "below"}},
	{"a long list to choose from", func(t testing.TB) *stage { return running(t, course(t), "pre-flight-list", drill.Running, drill.Try{}) }, nil},
	{"propellers", func(t testing.TB) *stage {
		s := running(t, course(t).tell(pulse.Propellers, pulse.PropellersValue([4]int8{1, -1, -1, -1}, false)).wait(20), "wrong-propeller", drill.Running, drill.Try{})
		s.v.Drills.Run.ShowPropellers = true
		return s
	}, []string{"propellers, seen from above"}},
	{"in the air", func(t testing.TB) *stage {
		s := airborne(t, 4)
		s = running(t, s, "name-the-mode", drill.Running, drill.Try{})
		s.v.Drills.Run.HideMode = true
		return s
	}, []string{"Roll fully to a side"}},
	{"a gesture looked at", func(t testing.TB) *stage { return lookingAt(t, "gesture-craft-menu", 1) },
		[]string{"Hold for 0.3 s: left stick to the left, at mid height; right stick straight down. Then within 0.5 s, hold for 0.3 s: left stick straight up.", "Yours will differ: record your own from your craft's manual."}},
	{"an errand looked at", func(t testing.TB) *stage { return lookingAt(t, "menu-errand", 3) },
		[]string{"In the menu the right stick does it all: up and down moves the mark", "bring that to the middle first"}},
	{"after a gesture", func(t testing.TB) *stage {
		s := running(t, course(t), "gesture-camera-set-up", drill.Resting, drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Number: 2})
		return s
	}, []string{"Then within 0.5 s, hold for 0.3 s", "Yours will differ"}},
	{"no hand", func(t testing.TB) *stage {
		s := course(t)
		s.v.Driver, s.v.Next = Demo, Keyboard
		s.v.Drills.Trouble = phrase.DrillNeedsHand(phrase.DrillHand{Driving: phrase.Driving{Who: int(Demo), Next: int(Keyboard), Key: KeyOf(NextDriver)}, StickKey: KeyOfStick()})
		s.v.Notices = []string{s.v.Drills.Trouble, phrase.NoRadio()}
		return s
	}, []string{"The demo pilot drives, and a drill needs your own hand", "use the keys"}},
	{"over", func(t testing.TB) *stage {
		s := course(t)
		s.v.Drills.Run = RunView{Over: true, Name: "Disarm at the alarm, by switch", Heading: phrase.DrillHeading(drill.Over, 0), Say: phrase.DrillOver(true, false, &drill.Card{Box: 2, Due: 12, Last: 10}, 10), Sum: phrase.DrillSum(drill.Summary{Counted: 5, Right: 5, Timed: 5, Median: 512_000, Spread: 20_000, Uncertain: 17_000, Trend: 3000})}
		return s
	}, []string{"The drill is over", "Learned.", "go on"}},
}

// The names of drills stand whole, and those for which there is no room are counted: in every size, with notices and without, whichever
// is looked at.
func TestTheCourseListsEveryDrill(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	s := course(t)
	rows := s.v.Drills.Rows
	for i, standing := range []string{"new", "failed last time", "due in 12 days"} {
		for k := i; k < len(rows); k += 3 {
			rows[k].Stands = standing
		}
	}
	counted := 0
	for notices := range 3 {
		s.v.Notices = []string{phrase.DrillOtherHand("instructor"), phrase.NoRadio()}[:notices]
		for _, z := range sizes {
			for _, class := range []bool{false, true} {
				for _, selected := range []int{0, 12, 20, len(rows) - 1} {
					s.v.Class, s.v.Drills.Selected = class, selected
					p.Reset(z.w, z.h, 0, ink.Light())
					Drills(p, s.v)
					what := fmt.Sprintf("%vx%v, %d notices, class %v, %d looked at", z.w, z.h, notices, class, selected)
					report(t, what, p)
					shown, more := 0, ""
					for _, it := range ink.Describe(p).Items {
						if strings.HasPrefix(it.Name, "drill ") && it.Group == "course" {
							shown++
							assert.True(t, class || !strings.HasSuffix(it.Text, "…"), "%s: %s", what, it.Text)
						}
						if it.Name == "drills left" {
							more = it.Text
						}
					}
					left := 0
					for _, n := range regexp.MustCompile(`\d+`).FindAllString(more, -1) {
						k, err := strconv.Atoi(n)
						require.NoError(t, err)
						left += k
					}
					assert.Equal(t, len(rows), shown+left, "%s: %q", what, more)
					counted += left
				}
			}
		}
	}
	assert.Positive(t, counted)
}

// How a gesture is made, and a menu moved, is told whole: for every shipped gesture in every stick mode, before the drill and after a try,
// in every size and for a class.
func TestHowAGestureIsMadeIsToldWhole(t *testing.T) {
	_, drills, err := drillfile.Shipped("beginner", knownMoves(t))
	require.NoError(t, err)
	p := ink.NewPage(960, 600, 0, nil)
	told := 0
	for mode := uint8(1); mode <= 4; mode++ {
		h := phrase.DrillHands{StickMode: mode, Shipped: true}
		for _, one := range drills {
			about, after := phrase.DrillAbout(one, h), phrase.DrillAfter(one, 0, h)
			if about == one.About && after == one.Cases[0].After {
				continue
			}
			s := lookingAt(t, one.Config.Code, mode)
			s.v.StickMode = int(mode)
			over := *running(t, course(t), one.Config.Code, drill.Resting, drill.Try{Verdict: drill.TooLate, Why: drill.CameLate, Reaction: 6100, Uncertain: 17})
			over.v.Drills.Run.After = after
			for _, z := range sizes {
				for _, class := range []bool{false, true} {
					for text, v := range map[string]*View{about: s.v, after: over.v} {
						v.Class = class
						p.Reset(z.w, z.h, 0, ink.Light())
						Drills(p, v)
						seen := ""
						for _, it := range ink.Describe(p).Items {
							if it.Name == "fact" || it.Name == "after" {
								seen += it.Text + " "
							}
						}
						assert.Contains(t, strings.Join(strings.Fields(seen), " "), text, "%s, mode %d, %vx%v class %v", one.Config.Code, mode, z.w, z.h, class)
						told++
					}
				}
			}
		}
	}
	assert.Greater(t, told, 100)
}

func TestDrillsInEveryScene(t *testing.T) { inEveryScene(t, "drills", drillScenes, Drills) }

// desk is the instructor's desk with two things planted.
func desk(t testing.TB) *stage {
	s := ready(t)
	d := &s.v.Desk
	*d = DeskView{Used: true, Selected: int(fault.ShortTravel) - 1, Number: 1}
	for i := pulse.Deed(1); i < fault.Count; i++ {
		d.Faults = append(d.Faults, DeskFault{Name: phrase.FaultName(i), On: i == fault.Dropouts || i == fault.ShortTravel, Fits: i != fault.WrongPropeller})
	}
	v, ok := fault.Plant(fault.ShortTravel, 1, 1012)
	require.True(t, ok)
	_, number := pulse.InstructorOf(v)
	d.Does, d.Seen = phrase.FaultDoes(fault.ShortTravel, number, &s.cfg.Layout), phrase.FaultSeen(fault.ShortTravel, 1, 1012, s.cfg)
	d.Numbers = []DeskNumber{{phrase.FaultQuantity(fault.Channel), phrase.FaultValue(fault.Channel, 1, &s.cfg.Layout)}, {phrase.FaultQuantity(fault.EndsAt), phrase.FaultValue(fault.EndsAt, 1012, &s.cfg.Layout)}}
	d.Radio = phrase.DeskRadio("", "", "", false)
	return s
}

var deskScenes = []scene{
	{"planted", desk, []string{"Instructor's desk", "link drops out: planted", "lift it", "lift all", "what a pupil notices", "1012 µs"}},
	{"hidden keys", func(t testing.TB) *stage {
		s := desk(t)
		s.v.Desk.Hidden = true
		for i := range 6 {
			s.v.Desk.Faults[i].Key = string(rune('4' + i))
		}
		s.v.Desk.Marks = []string{phrase.DeskMark(2, 83_400, ""), phrase.DeskMark(1, 61_200, "")}
		return s
	}, []string{"Hidden keys are on", "Mark 2 at"}},
	{"second radio", func(t testing.TB) *stage {
		s := desk(t)
		s.v.Radios = []string{longName, "Fen Trainer 2"}
		s.v.Driver, s.v.DriverName = Radio, longName
		s.v.Desk.Radio, s.v.Desk.Hands = phrase.DeskRadio(longName, "switch called take over", "T", true), phrase.DeskHands(true)
		return s
	}, []string{"The instructor has the sticks.", "second radio"}},
	{"looking back", func(t testing.TB) *stage {
		s := desk(t)
		s.v.Flight.Pace = Pace{Paused: true, Slow: 1}
		s.v.Flight.Replay = Replay{On: true, At: 12_000, Length: 30_000}
		return s
	}, nil},
	{"nothing for this craft", func(t testing.TB) *stage {
		s := desk(t)
		s.v.Desk.Selected = int(fault.WrongPropeller) - 1
		s.v.Desk.Does, s.v.Desk.Numbers = phrase.DeskRefused(phrase.FaultName(fault.WrongPropeller)), nil
		s.v.Notices = []string{bluntedNotice, phrase.NoRadio()}
		return s
	}, []string{"This craft has nothing for"}},
}

func TestDeskInEveryScene(t *testing.T) { inEveryScene(t, "desk", deskScenes, Desk) }
