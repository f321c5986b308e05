package learn_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	learnsheet "propsoff.example/cmd/propsoff/internal/ui/learn"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

func TestQuestionsInEveryScene(t *testing.T) {
	for _, sc := range questionScenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			uitest.Check(t, "questions "+sc.name, s, learnsheet.Draw, append(sc.says, uitest.Say(tell.Ask(&s.V.Learn, learnsheet.Carries(s.V, s.V.Learn.Job))))...)
		})
	}
}

// In class view the question can be read from the back of the room.
func TestQuestionsInClassView(t *testing.T) {
	for _, sc := range questionScenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			s.V.Class, s.V.Full, s.V.Choosing = true, true, false
			uitest.Check(t, "class questions "+sc.name, s, learnsheet.Draw, uitest.Say(tell.Ask(&s.V.Learn, learnsheet.Carries(s.V, s.V.Learn.Job))))
			p := ink.NewPage(1920, 1080, 0, nil)
			learnsheet.Draw(p, s.V)
			for _, it := range p.Items() {
				if it.Kind == ink.KindText && (it.Name == "question" || it.Name == "phase" || it.Name == "noticed") {
					assert.GreaterOrEqual(t, it.Size, 0.035*1080-0.5, it.Text)
				}
			}
		})
	}
}

// The hands that words name are those that are drawn.
func TestTheStickThatIsNamedIsTheOneThatIsDrawn(t *testing.T) {
	for mode := 1; mode <= 4; mode++ {
		for side, g := range figure.Gimbals[mode] {
			for _, j := range []figure.Job{g.Across, g.Up} {
				assert.Equal(t, side == 1, tell.RightStick(figure.JobFacts[j].Word, mode), "%s in mode %d", figure.JobFacts[j].Word, mode)
			}
		}
	}
}

// Before it is known which hand carries what, no sheet of the questions depends on the stick mode, and none names or draws the sticks in
// the hands. The one that asks for it draws every mode alike.
func TestNoHandIsNamedBeforeItIsKnown(t *testing.T) {
	asked := 0
	for _, sc := range questionScenes {
		s := sc.make(t)
		if s.V.Learn.ModeKnown {
			continue
		}
		asked++
		for _, class := range []bool{false, true} {
			var first string
			for mode := 1; mode <= 4; mode++ {
				s.V.StickMode, s.V.Class = mode, class
				if s.V.Learn.Question != learn.StickMode {
					s.V.Learn.StickMode = mode
				}
				p := ink.NewPage(1280, 800, 0, nil)
				learnsheet.Draw(p, s.V)
				all := fmt.Sprintf("%+v", ink.Describe(p))
				if mode == 1 {
					first = all
				}
				assert.Equal(t, first, all, "%s, class %v, mode %d", sc.name, class, mode)
				if s.V.Learn.Question == learn.StickMode {
					continue
				}
				for _, word := range []string{"left stick", "right stick", "left hand", "right hand", "stick mode", "radio stick", "stick end"} {
					assert.NotContains(t, all, word, sc.name)
				}
			}
		}
	}
	assert.Greater(t, asked, 20)
}

// middle is the middle of what is drawn under a name, of which there must be n.
func middle(t *testing.T, d ink.Sheet, name string, n int) (x, y float64) {
	all := d.Named(name)
	require.Len(t, all, n, name)
	for _, e := range all {
		x, y = x+(e.Box[0]+e.Box[2]/2)/float64(n), y+(e.Box[1]+e.Box[3]/2)/float64(n)
	}
	return x, y
}

// The craft leans as the axis does, and the zone lies where the question says: forward is nose down, to the right of the drawing; right
// is right, and up is up.
func TestTheCraftIsDrawnAsItIsAsked(t *testing.T) {
	page := func(now, lean int, step learn.Step, zone ...int) ink.Sheet {
		s := uitest.Asking(t, uitest.SmallRadio(), now, func(_ *ui.View, l *learn.View) { goes(l, step, lean, zone...) })
		p := ink.NewPage(960, 600, 0, nil)
		learnsheet.Draw(p, s.V)
		return ink.Describe(p)
	}
	high, low := []int{learn.Zone, 1000}, []int{-1000, -learn.Zone}
	for now, name := range map[int]string{0: "side", 2: "behind"} {
		level := page(now, 0, learn.HighEnd, high...)
		bx, by := middle(t, level, name+" body", 1)
		zx, zy := middle(t, level, "zone", 1)
		assert.Greater(t, zx, bx+20)
		assert.Greater(t, zy, by+20, "the side that dips")
		zx, zy = middle(t, page(now, 0, learn.LowEnd, low...), "zone", 1)
		assert.Less(t, zx, bx-20)
		assert.Greater(t, zy, by+20)
		for lean, side := range map[int]float64{1000: 1, -1000: -1} {
			d := page(now, lean, learn.HighEnd, high...)
			dips := 0
			for _, n := range d.Named("needle") {
				if (n.Box[0]+n.Box[2]/2-bx)*side > 0 {
					assert.Greater(t, n.Box[1]+n.Box[3]/2, by+20, "%s leans by %d", name, lean)
					dips++
				}
			}
			assert.Equal(t, 1, dips)
		}
	}
	_, noseLevel := middle(t, page(0, 0, learn.HighEnd, high...), "side nose", 1)
	noseX, noseDown := middle(t, page(0, 1000, learn.HighEnd, high...), "side nose", 1)
	bodyX, _ := middle(t, page(0, 1000, learn.HighEnd, high...), "side body", 1)
	assert.Greater(t, noseDown, noseLevel+20, "nose down")
	assert.Greater(t, noseX, bodyX)

	for lean, side := range map[int]float64{800: 1, -800: -1} {
		d := page(1, lean, learn.HighEnd, high...)
		bx, _ := middle(t, d, "above body", 1)
		hx, _ := middle(t, d, "turns-head", 1)
		assert.Greater(t, (hx-bx)*side, 20.0, "turns by %d", lean)
		zx, _ := middle(t, d, "zone", 1)
		assert.Greater(t, zx, bx+20)
	}
	assert.Len(t, page(1, 0, learn.LetGo, -200, 200).Named("turns-not"), 1)

	_, ground := middle(t, page(3, 0, learn.HighEnd, high...), "ground", 1)
	_, down := middle(t, page(3, 0, learn.HighEnd, high...), "behind body", 1)
	_, up := middle(t, page(3, 1000, learn.HighEnd, high...), "behind body", 1)
	_, above := middle(t, page(3, 0, learn.HighEnd, high...), "zone", 2)
	_, below := middle(t, page(3, 0, learn.LowEnd, 0, 300), "zone", 2)
	_, feet := middle(t, page(3, 0, learn.HighEnd, high...), "needle", 2)
	assert.Less(t, up, down-20)
	assert.Less(t, down, ground)
	assert.Less(t, above, down)
	assert.InDelta(t, ground, below, 50)
	assert.InDelta(t, ground, feet, 6)
}

// In the zone the needle stands in it, short of it outside: what is drawn is what is taken.
func TestTheNeedleIsInTheZoneWhereTheAxisIs(t *testing.T) {
	for now := range 4 {
		for lean := 0; lean <= 1000; lean += 20 {
			s := uitest.Asking(t, uitest.SmallRadio(), now, func(_ *ui.View, l *learn.View) { goes(l, learn.HighEnd, lean) })
			p := ink.NewPage(1280, 800, 0, nil)
			learnsheet.Draw(p, s.V)
			d := ink.Describe(p)
			zones := 1
			if now == 3 { // one on each scale
				zones = 2
			}
			zx, zy := middle(t, d, "zone", zones)
			z := d.Named("zone")[0].Box
			mark := d.Named("needle")
			if now == 1 {
				mark = append(d.Named("turns-head"), d.Named("turns-not")...)
			}
			near := math.Inf(1)
			for _, m := range mark {
				near = min(near, math.Hypot(m.Box[0]+m.Box[2]/2-zx, m.Box[1]+m.Box[3]/2-zy))
			}
			half := math.Hypot(z[2], z[3]) / 2
			if now == 3 {
				near, half = math.Abs(mark[0].Box[1]+mark[0].Box[3]/2-z[1]-z[3]/2), z[3]/2-13 // of its feet
			}
			if lean >= learn.Zone+20 {
				assert.Less(t, near, half+14, "question %d, %d", now, lean)
			}
			if lean < 500 {
				assert.Greater(t, near, half*0.9, "question %d, %d", now, lean)
			}
		}
	}
}

// Each axis has its pen, as many as can be read; the one that answers is marked by a word, a frame and a filled pen, and has one however
// many there are.
func TestThePenThatAnswersIsMarked(t *testing.T) {
	for _, info := range []input.Info{uitest.SmallRadio(), uitest.BigRadio()} {
		for _, size := range [][2]float64{{960, 600}, {1280, 800}, {1200, 1920}} {
			for _, axis := range []int{-1, 0, 2, len(info.Axes) - 1} {
				s := uitest.Asking(t, info, 0, func(_ *ui.View, l *learn.View) { l.Axis = axis })
				p := ink.NewPage(size[0], size[1], 0, nil)
				learnsheet.Draw(p, s.V)
				d := ink.Describe(p)
				pens := len(d.Named("axis-number"))
				assert.Equal(t, min(len(info.Axes), 16), pens, "%v", size)
				assert.Len(t, d.Named("pen"), pens)
				if axis < 0 {
					assert.Empty(t, d.Named("pen-answers"))
					assert.Empty(t, d.Named("pen-frame"))
					continue
				}
				require.Len(t, d.Named("pen-answers"), 1)
				require.Len(t, d.Named("pen-frame"), 1)
				frame, mine := d.Named("pen-frame")[0].Box, 0
				for _, n := range d.Named("axis-number") {
					assert.Equal(t, n.Text == fmt.Sprint(axis+1), n.Bold)
					if n.Bold {
						mine++
						assert.InDelta(t, frame[0]+frame[2]/2, n.Box[0]+n.Box[2]/2, 1, "axis %d", axis+1)
					}
				}
				assert.Equal(t, 1, mine, "axis %d of %d", axis+1, len(info.Axes))
				filled := 0
				for _, n := range d.Named("pen") {
					if n.Colour == ink.Focus.String() {
						filled++
						assert.True(t, n.Box[0] >= frame[0] && n.Box[0]+n.Box[2] <= frame[0]+frame[2], "axis %d", axis+1)
					}
				}
				assert.Equal(t, 1, filled)
				s.V.Out = true
				p.Reset(size[0], size[1], 0, nil)
				learnsheet.Draw(p, s.V)
				assert.Empty(t, ink.Describe(p).Named("pen-answers"), "one that is pulled out answers no longer")
			}
		}
	}
	moved := uitest.Asking(t, uitest.BigRadio(), 0, nil).V.Learn
	assert.Equal(t, []int{0, 1, 2, 3}, learnsheet.PensShown(&moved, input.MaxAxes, 4))
	assert.Equal(t, []int{0, 2}, learnsheet.PensShown(&moved, input.MaxAxes, 2), "the one that moved")
	moved.Axis = 30
	assert.Equal(t, []int{0, 1, 2, 30}, learnsheet.PensShown(&moved, input.MaxAxes, 4))
	assert.Equal(t, []int{0, 1, 2}, learnsheet.PensShown(&learn.View{Axis: -1}, 3, 4))
}

// While the radio is pulled out nothing is said of how its controls stand.
func TestWhatIsPulledOutIsNotSaidToMove(t *testing.T) {
	for _, sc := range questionScenes {
		s := sc.make(t)
		if s.V.Learn.Question >= learn.Done {
			continue
		}
		s.V.Out = true
		p := ink.NewPage(1280, 800, 0, nil)
		learnsheet.Draw(p, s.V)
		d := ink.Describe(p)
		assert.Empty(t, d.Named("noticed"), sc.name)
		assert.Empty(t, d.Named("filling"), sc.name)
		assert.Contains(t, uitest.Texts(p), "The radio is unplugged.", sc.name)
		assert.NotContains(t, uitest.Texts(p), "answers", sc.name)
	}
}

func TestTheStickModeIsChosenByPicture(t *testing.T) {
	s := uitest.Asking(t, uitest.SmallRadio(), 9, nil)
	p := ink.NewPage(960, 600, 0, nil)
	learnsheet.Draw(p, s.V)
	var modes []int
	for _, h := range p.Hits() {
		if mode, ok := ui.DigitOf(h.Name, "picture-", 4); ok {
			modes = append(modes, mode+1)
			assert.Equal(t, fmt.Sprint(mode+1), h.Key)
		}
	}
	assert.Equal(t, []int{1, 2, 3, 4}, modes)
}

// alike are radio files of n radios of one make.
func alike(n int) (all []radio.Candidate) {
	for i := range n {
		f := radio.File{Device: radio.Device{Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: fmt.Sprintf("A%d", i)}, StickMode: 2, Controls: uitest.FoundAll()}
		if i%3 == 1 {
			f.Device.Serial, f.Device.Port = "", "1-1.4"
		}
		all = append(all, radio.Candidate{Match: radio.SameKind, File: f, Path: fmt.Sprintf("/home/pilot/.config/propsoff/radios/1f4a-0007-moorland-desk-7-a%d.yaml", i)})
	}
	return all
}

func TestWhichFileIsAsked(t *testing.T) {
	for name, c := range map[string]struct {
		n    int
		more func(v *ui.View)
		says []string
	}{
		"one":   {1, nil, []string{"Moorland Desk 7 looks like a radio that is known. Is it that one?", "Its serial number, Z9, is a new one.", "learn this radio anew", "learn it anew"}},
		"three": {3, func(v *ui.View) { v.Device.Serial = "" }, []string{"3 radios that are known", "known by the USB port", "learned at port 1-1.4", "stick mode 2", "throttle: axis 3", "arm: button 5", "mode: buttons 7, none, 8 at 988, 1500 and 2012 µs, at the right"}},
		"many": {40, func(v *ui.View) {
			v.Device.Name, v.Notices = uitest.LongName, ui.Warnings(uitest.BluntedNotice, words.AsIs(strings.Repeat(uitest.LongName+" ", 3)))
			v.Radios, v.Choosing = []string{uitest.LongName, uitest.LongName}, true
		}, []string{"more"}},
	} {
		t.Run(name, func(t *testing.T) {
			s := uitest.Asking(t, uitest.SmallRadio(), 0, nil)
			s.V.Alike, s.V.Device.Serial = alike(c.n), "Z9"
			if c.more != nil {
				c.more(s.V)
			}
			uitest.Check(t, "which "+name, s, learnsheet.DrawWhich, c.says...)
			s.V.Class, s.V.Full, s.V.Choosing = true, true, false
			uitest.Check(t, "class which "+name, s, learnsheet.DrawWhich)
		})
	}
	s := uitest.Asking(t, uitest.SmallRadio(), 0, nil)
	s.V.Alike = alike(3)
	p := ink.NewPage(960, 600, 0, nil)
	learnsheet.DrawWhich(p, s.V)
	n := 0
	for _, h := range p.Hits() {
		if i, ok := ui.NumberOf(h.Name, "file-"); ok {
			assert.Equal(t, n, i)
			n++
		}
	}
	assert.Equal(t, 3, n)
}

// What is drawn stays where it is from one question to the next, and while keys come and go: a hand that follows it, or a pointer on its way to a key,
// finds nothing moved. Once switches are asked for, a line more is kept for what was found.
func TestNothingJumpsFromOneQuestionToTheNext(t *testing.T) {
	for _, size := range [][2]float64{{960, 600}, {1280, 800}, {1920, 1080}} {
		places := map[bool]map[float64]bool{false: {}, true: {}}
		for now := range 12 {
			for _, step := range []learn.Step{learn.HighEnd, learn.LowEnd, learn.LetGo} {
				for _, more := range []bool{false, true} {
					s := uitest.Asking(t, uitest.SmallRadio(), now, func(_ *ui.View, l *learn.View) {
						if l.Step == learn.HighEnd {
							l.Step = step
						}
						if more {
							l.Enough, l.Phase = learn.TakeIt, learn.Holding
							if now > 4 {
								l.Last = 4
							}
						}
					})
					p := ink.NewPage(size[0], size[1], 0, nil)
					learnsheet.Draw(p, s.V)
					if s.V.Learn.Question == learn.StickMode && !more {
						continue // four pictures, and no list where they need its room
					}
					for _, e := range ink.Describe(p).Named("schedule-heading") {
						places[now > 3][e.Box[1]] = true
					}
				}
			}
		}
		for _, at := range places {
			assert.Len(t, at, 1, "%v: %v", size, at)
		}
	}
}

// In the last question the drawn sticks stand where the hands hold them, by what was learned of each direction.
func TestTheDrawnSticksFollowTheHands(t *testing.T) {
	at := func(axis int, raw int32) (x, y float64) {
		s := uitest.Asking(t, uitest.SmallRadio(), 11, func(_ *ui.View, l *learn.View) {
			l.Step = learn.Each
			l.Raw.Axes[2] = 0
			l.Raw.Axes[axis] = raw
		})
		p := ink.NewPage(1280, 800, 0, nil)
		learnsheet.Draw(p, s.V)
		return middle(t, ink.Describe(p), "stick-end", 2)
	}
	x, y := at(7, 0)
	for name, c := range map[string]struct {
		axis   int
		raw    int32
		dx, dy float64
	}{"pitch, turned round, away": {1, 0, 0, -1}, "roll right": {0, 4095, 1, 0}, "yaw left": {3, 0, -1, 0}, "throttle up": {2, 4095, 0, -1}} {
		nx, ny := at(c.axis, c.raw)
		assert.True(t, (nx-x)*c.dx+(ny-y)*c.dy > 8, "%s: from %v %v to %v %v", name, x, y, nx, ny)
	}
}
