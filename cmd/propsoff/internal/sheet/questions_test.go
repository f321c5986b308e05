package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// bigRadio has as many axes and buttons as are read.
func bigRadio() input.Info {
	info := input.Info{Name: longName, Buttons: input.MaxButtons}
	for i := range input.MaxAxes {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: -32768, Max: 32767, Hat: i >= input.MaxAxes-2})
	}
	return info
}

func smallRadio() input.Info {
	info := input.Info{Name: "Moorland Desk 7", Buttons: 20}
	for i := range 7 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 4095})
	}
	info.Axes = append(info.Axes, input.Axis{Code: 16, Min: -1, Max: 1, Hat: true}, input.Axis{Code: 17, Min: -1, Max: 1, Hat: true})
	return info
}

// axisControl is a stick, knob or switch on an axis of 0 to 4095 with positions at raw values.
func axisControl(job string, axis int, low, rest, high int32, places ...int32) radio.Control {
	scale := radio.Own(input.Axis{Max: 4095})
	c := radio.Control{Job: job, Form: radio.Axis, Axis: axis, Scale: &scale, Reach: &radio.Reach{Low: low, Rest: rest, High: high}, Noise: 8}
	for _, at := range places {
		c.Positions = append(c.Positions, radio.Position{At: radio.Halves(at), Spread: 5})
	}
	return c
}

// foundAll is what a radio with everything was found to be, in the order of the plan.
func foundAll() []radio.Control {
	back := axisControl("pitch", 1, 30, 2050, 4080)
	turned := back.Scale.Turned()
	back.Scale = &turned
	throttle := axisControl("throttle", 2, 96, 120, 4095)
	throttle.Stays = true
	arm := radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{4}, Momentary: true, Side: radio.Left}
	mode := radio.Control{Job: "mode", Form: radio.Row, Buttons: []int{6, radio.None, 7}, Side: radio.Right}
	six := axisControl("channel 9", 6, 0, 0, 4095, 0, 819, 1638, 2457, 3276, 4095)
	six.Side, six.Called = radio.Top, "the dial in front"
	return []radio.Control{throttle, axisControl("yaw", 3, 0, 2047, 4095), back, axisControl("roll", 0, 0, 2047, 4095),
		arm, mode, axisControl("second", 4, 0, 0, 4095, 0, 4095), six}
}

// plan is the plan of a craft with a second switch and a finder sound, answered up to now.
func plan(now int) []learn.Item {
	all := []learn.Item{{Question: learn.StickMode}, {Question: learn.Throttle, Job: "throttle"}, {Question: learn.Yaw, Job: "yaw"}, {Question: learn.Pitch, Job: "pitch"},
		{Question: learn.Roll, Job: "roll"}, {Question: learn.Arm, Job: "arm"}, {Question: learn.Mode, Job: "mode"}, {Question: learn.Also, Job: "second"},
		{Question: learn.Also, Job: "channel 9"}, {Question: learn.More}, {Question: learn.TopRight}, {Question: learn.Replay}}
	for i := range min(now, len(all)) {
		all[i].Answered = true
	}
	return all
}

// asking is the sheet at question now of the plan; more changes what is known.
func asking(t testing.TB, info input.Info, now int, more func(v *View, l *learn.View)) *stage {
	cfg, name := shipped(t, "built-in")
	s := newStage(t, cfg, name)
	s.v.Driver, s.v.DriverName, s.v.Next, s.v.Device = Radio, info.Name, Keyboard, info
	s.v.Carries[8] = "finder sound"
	l := &s.v.Learn
	*l = learn.View{Plan: plan(now), Now: now, Question: learn.Done, Step: learn.Over, StickMode: 2, Begun: true, Axis: -1, Button: -1, Last: -1, CanBack: now > 0}
	if now < len(l.Plan) {
		l.Question, l.Job, l.Phase, l.Step = l.Plan[now].Question, l.Plan[now].Job, learn.Moving, learn.HighEnd
	} else {
		l.Phase = learn.Finished
	}
	if l.Question == learn.StickMode {
		l.Step = learn.Choose
	}
	if l.Question >= learn.Arm && l.Question <= learn.More {
		l.Step, l.CanSkip = learn.Through, l.Question < learn.More
	}
	for i := range info.Axes {
		l.Raw.Axes[i], l.Shares[i] = (info.Axes[i].Min+info.Axes[i].Max)/2, 500
	}
	if n := min(now-1, 8); n > 0 {
		l.Answers = foundAll()[:n]
	}
	if more != nil {
		more(s.v, l)
	}
	return s
}

func says(code learn.Code, share int) learn.Notice {
	return learn.Notice{Code: code, Axis: 2, Button: -1, OtherAxis: 3, OtherButton: -1, Share: share, Job: "throttle", OtherJob: "yaw", Count: 4}
}

var questionScenes = []struct {
	name string
	make func(t testing.TB) *stage
	says []string
}{
	{"stick mode", func(t testing.TB) *stage { return asking(t, smallRadio(), 0, nil) },
		[]string{"Which stick does what", "1 of 12", "stick mode 4", "Press its number"}},
	{"nothing read", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 1, func(_ *View, l *learn.View) { l.Begun, l.Phase = false, learn.Settling })
	}, []string{"Nothing has been read yet", "Push the left stick all the way up and hold it there: throttle."}},
	{"settling", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 1, func(_ *View, l *learn.View) { l.Phase, l.Notice = learn.Settling, says(learn.StillMoving, 123) })
	}, []string{"waiting until all is still", "Axis 3 is still moving, over 12.3 % of its way"}},
	{"throttle up", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 1, func(_ *View, l *learn.View) {
			l.Phase, l.Axis, l.Held, l.HoldFor = learn.Holding, 2, 80_000, 150_000
			l.Shares[2], l.Raw.Axes[2] = 1000, 4095
		})
	}, []string{"Axis 3 moves: hold it", "2 of 12"}},
	{"throttle down", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 1, func(_ *View, l *learn.View) { l.Step = learn.LowEnd })
	}, []string{"Pull the left stick all the way down and hold it there: throttle."}},
	{"throttle short", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 1, func(_ *View, l *learn.View) { l.Notice, l.Enough = says(learn.NotAtEnd, 880), learn.TakeIt })
	}, []string{"stands at 88 % of its way, short of an end", "take it so"}},
	{"throttle springs", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 1, func(_ *View, l *learn.View) {
			l.Step, l.Phase, l.Notice, l.Enough = learn.LetGo, learn.Deciding, says(learn.Springs, 500), learn.AcceptIt
		})
	}, []string{"Let the left stick go: the throttle should stay", "springs back, to 50 % of its way", "go on so"}},
	{"yaw, two at once", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 2, func(_ *View, l *learn.View) { l.Phase, l.Notice = learn.Returning, says(learn.Two, 0) })
	}, []string{"Axis 3 (throttle) and axis 4 (yaw) moved at once", "Let everything go back"}},
	{"pitch back", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 3, func(_ *View, l *learn.View) { l.Step = learn.LowEnd })
	}, []string{"towards you"}},
	{"roll, mixed", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 4, func(_ *View, l *learn.View) { l.Step, l.Notice = learn.LetGo, says(learn.Mixed, -405) })
	}, []string{"against it, by 40.5 %", "spring back to its middle"}},
	{"unplugged in the middle", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 4, func(v *View, _ *learn.View) { v.Out = true })
	}, []string{"The radio is unplugged. Plug it in again and the questions go on here."}},
	{"arm", func(t testing.TB) *stage { return asking(t, smallRadio(), 5, nil) }, []string{"6 of 12", "skip this one", "the switch that is to arm"}},
	{"mode, two seen", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 6, func(_ *View, l *learn.View) {
			l.Phase, l.Axis, l.Positions, l.Enough, l.Last, l.HoldFor, l.Held = learn.Holding, 4, 2, learn.TakeIt, 4, 1_500_000, 400_000
			l.Shares[4], l.Levels = 480, []int{0, 500}
		})
	}, []string{"2 positions seen", "Found: arm, button 5", "take it so", "left side", "on top", "stays"}},
	{"one more job", func(t testing.TB) *stage { return asking(t, smallRadio(), 8, nil) }, []string{"channel 9 (finder sound)"}},
	{"others", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 9, func(_ *View, l *learn.View) {
			for ch := 10; ch < 17; ch++ {
				l.Answers = append(l.Answers, axisControl(fmt.Sprint("channel ", ch), 5, 0, 0, 4095, 0, 2047, 4095))
			}
			l.Last, l.FreeLeft, l.Enough = len(l.Answers)-1, 1, learn.NoMore
			l.Notice = says(learn.MorePositions, 0)
		})
	}, []string{"Move any other switch", "1 channel left", "that is all", "channel 16: axis 6, 3 positions at 988, 1499 and 2012 µs"}},
	{"corners", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 10, func(_ *View, l *learn.View) {
			l.Step, l.Enough, l.Notice = learn.Corners, learn.NoMore, says(learn.TurnedRound, 0)
			l.Corners = []learn.Corner{{Job: "throttle", Share: 0, Turned: true}, {Job: "yaw", Share: 1000, There: true}, {Job: "pitch", Share: 712}, {Job: "roll", Share: 990, There: true}}
		})
	}, []string{"top right corners", "throttle: at its low end, turned round", "pitch: 71.2 % of its way", "roll: at its high end"}},
	{"once more", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 11, func(_ *View, l *learn.View) {
			l.Step, l.Enough = learn.Each, learn.NoMore
			for i, c := range foundAll() {
				l.Replayed = append(l.Replayed, learn.Replayed{Job: c.Job, Seen: i%2 == 0})
			}
		})
	}, []string{"4 of 8 moved", "Move every control once more", "arm: button 5, at the left"}},
	{"done", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 12, func(v *View, l *learn.View) {
			l.CanBack = false
			v.Kept = "/home/pilot/.config/propsoff/radios/" + strings.Repeat("moorland-desk-7-", 4) + ".yaml"
		})
	}, []string{"That was all", "moorland-desk-7-", "button 5", "to the bench", "axis 3, 1012 to 2012 µs", "axis 2 turned round"}},
	{"not kept", func(t testing.TB) *stage {
		return asking(t, smallRadio(), 12, func(v *View, l *learn.View) {
			l.CanBack, v.KeptError, v.Unkept = false, "/home/pilot/.config/propsoff/radios/"+strings.Repeat("moorland-desk-", 5)+".yaml: the radio file cannot be written: no space left on device", true
			l.Spare = foundAll()[7:]
		})
	}, []string{"It could not be kept in a file (", "no space left on device", "try to keep it", "1 control more without a free channel"}},
	{"big radio", func(t testing.TB) *stage {
		return asking(t, bigRadio(), 9, func(v *View, l *learn.View) {
			for i := range 7 {
				l.Plan = append(l.Plan[:9], append([]learn.Item{{Question: learn.Also, Job: fmt.Sprint("channel ", 16-i), Skipped: true}}, l.Plan[9:]...)...)
			}
			l.Now = 16
			l.Notice, l.Last = says(learn.NoChannel, 0), 7
			l.CanBack, l.Enough = true, learn.NoMore
			v.Radios, v.Reading, v.Choosing = []string{longName, "Moorland Desk 7"}, 0, true
			v.Notices = []string{bluntedNotice}
		})
	}, []string{"128", "32", "17 of 19"}},
	{"big radio once more", func(t testing.TB) *stage {
		return asking(t, bigRadio(), 11, func(v *View, l *learn.View) {
			l.Step = learn.Each
			for i := range 16 {
				l.Replayed = append(l.Replayed, learn.Replayed{Job: fmt.Sprint("channel ", i+1)})
			}
		})
	}, []string{"0 of 16 moved", "channel 16"}},
	{"big radio done", func(t testing.TB) *stage {
		return asking(t, bigRadio(), 12, func(v *View, l *learn.View) {
			for ch := 10; ch < 17; ch++ {
				l.Answers = append(l.Answers, axisControl(fmt.Sprint("channel ", ch), 5, 0, 0, 4095, 0, 2047, 4095))
			}
			v.Kept, l.CanBack = "/home/pilot/.config/propsoff/radios/desk.yaml", false
		})
	}, []string{"channel 16", "throttle"}},
}

// check draws a sheet in every size, theme and stick mode.
func check(t *testing.T, name string, s *stage, sheet func(*ink.Page, *View), says ...string) {
	p := ink.NewPage(960, 600, 0, nil)
	for _, z := range sizes {
		for _, theme := range themes {
			for mode := 1; mode <= 4; mode++ {
				s.v.StickMode, s.v.Learn.StickMode, s.v.Dark = mode, mode, theme == ink.Dark()
				p.Reset(z.w, z.h, 0, theme)
				sheet(p, s.v)
				report(t, fmt.Sprintf("%vx%v %s mode %d", z.w, z.h, theme.Name, mode), p)
				if mode == 2 {
					draw(t, name, p)
				}
				if t.Failed() && *pictures == "" {
					return
				}
			}
		}
		s.v.StickMode, s.v.Learn.StickMode = 2, 2
		p.Reset(z.w, z.h, 0, ink.Light())
		sheet(p, s.v)
		all := texts(p)
		for _, want := range says {
			assert.Contains(t, all, want, "%v", z)
		}
	}
}

func TestQuestionsInEveryScene(t *testing.T) {
	for _, sc := range questionScenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			check(t, "questions "+sc.name, s, Questions, append(sc.says, phrase.Ask(&s.v.Learn, s.v.carries(s.v.Learn.Job)))...)
		})
	}
}

// In class view the question can be read from the back of the room.
func TestQuestionsInClassView(t *testing.T) {
	for _, sc := range questionScenes {
		t.Run(sc.name, func(t *testing.T) {
			s := sc.make(t)
			s.v.Class, s.v.Full, s.v.Choosing = true, true, false
			check(t, "class questions "+sc.name, s, Questions, phrase.Ask(&s.v.Learn, s.v.carries(s.v.Learn.Job)))
			p := ink.NewPage(1920, 1080, 0, nil)
			Questions(p, s.v)
			for _, it := range p.Items() {
				if it.Kind == ink.KindText && (it.Name == "question" || it.Name == "phase" || it.Name == "noticed") {
					assert.GreaterOrEqual(t, it.Size, 0.035*1080-0.5, it.Text)
				}
			}
		})
	}
}

// The words of a question name the stick that carries the job, as it is drawn.
func TestTheStickThatIsNamedIsTheOneThatIsDrawn(t *testing.T) {
	for mode := 1; mode <= 4; mode++ {
		for side, g := range gimbals[mode] {
			for _, j := range []job{g.across, g.up} {
				assert.Equal(t, side == 1, phrase.RightStick(jobFacts[j].word, mode), "%s in mode %d", jobFacts[j].word, mode)
			}
		}
	}
}

// The arrow starts at the stick that is asked for and points to the end that is asked for.
func TestTheArrowPointsWhereTheQuestionSays(t *testing.T) {
	p := ink.NewPage(960, 600, 0, nil)
	for now, q := range map[int]struct {
		step   learn.Step
		right  bool
		dx, dy float64 // sign of the way, 0 for none
	}{1: {learn.HighEnd, false, 0, -1}, 2: {learn.LowEnd, false, -1, 0}, 3: {learn.LowEnd, true, 0, 1}, 4: {learn.LetGo, true, 1, 0}} {
		s := asking(t, smallRadio(), now, func(_ *View, l *learn.View) { l.Step = q.step })
		p.Reset(960, 600, 0, nil)
		Questions(p, s.v)
		d := ink.Describe(p)
		require.Len(t, d.Named("stick way head"), 1, "question %d", now)
		head, body, sticks := d.Named("stick way head")[0].Box, d.Named("radio body")[0].Box, d.Named("radio stick")
		require.Len(t, sticks, 2)
		from := sticks[0].Box
		if q.right {
			from = sticks[1].Box
		}
		assert.Equal(t, q.right, head[0] > body[0]+body[2]/2, "question %d", now)
		dx, dy := head[0]+head[2]/2-from[0]-from[2]/2, head[1]+head[3]/2-from[1]-from[3]/2
		assert.True(t, q.dx*dx > 5 || q.dx == 0 && dx*dx < 1, "question %d: %v", now, dx)
		assert.True(t, q.dy*dy > 5 || q.dy == 0 && dy*dy < 1, "question %d: %v", now, dy)
	}
}

func TestTheStickModeIsChosenByPicture(t *testing.T) {
	s := asking(t, smallRadio(), 0, nil)
	p := ink.NewPage(960, 600, 0, nil)
	Questions(p, s.v)
	var modes []int
	for _, h := range p.Hits() {
		if mode, ok := PictureOf(h.Name); ok {
			modes = append(modes, mode)
			assert.Equal(t, fmt.Sprint(mode), h.Key)
		}
	}
	assert.Equal(t, []int{1, 2, 3, 4}, modes)
}

// alike are radio files of n radios of one make.
func alike(n int) (all []radio.Candidate) {
	for i := range n {
		f := radio.File{Device: radio.Device{Name: "Moorland Desk 7", Vendor: 0x1f4a, Product: 7, Serial: fmt.Sprintf("A%d", i)}, StickMode: 2, Controls: foundAll()}
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
		more func(v *View)
		says []string
	}{
		"one":   {1, nil, []string{"Moorland Desk 7 looks like a radio that is known. Is it that one?", "Its serial number, Z9, is a new one.", "learn this radio anew", "learn it anew"}},
		"three": {3, func(v *View) { v.Device.Serial = "" }, []string{"3 radios that are known", "known by the USB port", "learned at port 1-1.4", "stick mode 2: throttle on axis 3; arm on button 5", "mode: buttons 7, none, 8 at 988, 1500 and 2012 µs, at the right"}},
		"many": {40, func(v *View) {
			v.Device.Name, v.Notices = longName, []string{bluntedNotice, strings.Repeat(longName+" ", 3)}
			v.Radios, v.Choosing = []string{longName, longName}, true
		}, []string{"more"}},
	} {
		t.Run(name, func(t *testing.T) {
			s := asking(t, smallRadio(), 0, nil)
			s.v.Alike, s.v.Device.Serial = alike(c.n), "Z9"
			if c.more != nil {
				c.more(s.v)
			}
			check(t, "which "+name, s, Which, c.says...)
			s.v.Class, s.v.Full, s.v.Choosing = true, true, false
			check(t, "class which "+name, s, Which)
		})
	}
	s := asking(t, smallRadio(), 0, nil)
	s.v.Alike = alike(3)
	p := ink.NewPage(960, 600, 0, nil)
	Which(p, s.v)
	n := 0
	for _, h := range p.Hits() {
		if i, ok := FileOf(h.Name); ok {
			assert.Equal(t, n, i)
			n++
		}
	}
	assert.Equal(t, 3, n)
}

func TestCautionsStandAtTheFirstStart(t *testing.T) {
	check(t, "cautions", ready(t), Cautions, append(phrase.Cautions(), "Before you start", "I have read this")...)
}
