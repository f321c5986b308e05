package learn_test

import (
	"fmt"
	"io/fs"
	"strings"
	"syscall"
	"testing"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input"
	"propsoff.example/input/learn"
)

func says(code learn.Code, share int) learn.Notice {
	return learn.Notice{Code: code, Axis: 2, Button: -1, OtherAxis: 3, OtherButton: -1, Share: share, Job: "throttle", OtherJob: "yaw", Count: 4}
}

// goes makes axis 3 answer, the craft lean by it, and the step be one of a stick's.
func goes(l *learn.View, step learn.Step, lean int, zone ...int) {
	l.Step, l.Phase, l.Axis, l.Lean = step, learn.Holding, 2, lean
	l.Shares[2] = 500 + lean/2
	if len(zone) == 2 {
		l.Zone = [2]int{zone[0], zone[1]}
	}
	if l.InZone = lean >= l.Zone[0] && lean <= l.Zone[1]; l.InZone {
		l.Held, l.HoldFor = 180_000, 300_000
	}
}

// trying is the try of a file with everything at question now: the corners, then pitch, yaw, roll, throttle, arm, mode, second and channel 9.
func trying(t testing.TB, info input.Info, now int, more func(v *ui.View, l *learn.View)) *uitest.Stage {
	s := uitest.Asking(t, info, 8, func(v *ui.View, l *learn.View) {
		l.Answers, l.Trying, l.ModeKnown, l.CanBack, l.CanSkip, l.Enough = uitest.FoundAll(), true, true, now > 0, true, learn.Untried
		l.Plan = []learn.Item{{Question: learn.TopRight, Answered: now > 0}}
		for i, c := range l.Answers {
			l.Plan = append(l.Plan, learn.Item{Question: learn.Once, Job: c.Job, Answered: i+1 < now})
		}
		l.Now, l.Question, l.Step, l.Phase, l.Job = now, learn.Done, learn.Over, learn.Finished, ""
		if now < len(l.Plan) {
			l.Question, l.Step, l.Phase, l.Job = l.Plan[now].Question, learn.ItsWay, learn.Moving, l.Plan[now].Job
		} else {
			l.CanBack, l.CanSkip, l.Enough = false, false, learn.NoUse
		}
		if more != nil {
			more(v, l)
		}
	})
	s.V.HasSeats = false
	return s
}

// wrong is what is said in a try of a control that the file has on axis 4, where axis 1 moved, the roll of the file.
func wrong(code learn.Code, job string) learn.Notice {
	return learn.Notice{Code: code, Job: job, Axis: 3, Button: -1, OtherAxis: 0, OtherButton: -1, OtherJob: "roll", Share: 123, Count: 2, Of: 3}
}

var questionScenes = []struct {
	name string
	make func(t testing.TB) *uitest.Stage
	says []string
}{
	{"nothing read", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) { l.Begun, l.Phase = false, learn.Settling })
	}, []string{"Nothing has been read yet", "question 1 of 12"}},
	{"settling", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) { l.Phase, l.Notice = learn.Settling, says(learn.StillMoving, 123) })
	}, []string{"nothing may move yet", "Axis 3 keeps moving, over 12.3 % of its way"}},
	{"pitch", func(t testing.TB) *uitest.Stage { return uitest.Asking(t, uitest.SmallRadio(), 0, nil) },
		[]string{"Pitch: lean the craft forward, nose down.", "Ready when you are.", "hatched: where it is to go", "9 axes, a pen for each"}},
	{"pitch on its way", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) { goes(l, learn.HighEnd, 420) })
	}, []string{"Axis 3 answers. On to its stop"}},
	{"pitch there", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) { goes(l, learn.HighEnd, 960) })
	}, []string{"Axis 3 answers and is there. Steady", "answers"}},
	{"pitch back", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) { goes(l, learn.LowEnd, -810, -1000, -learn.Zone) })
	}, []string{"Pitch: now lean it back, nose up.", "The same stick the other way"}},
	{"pitch let go", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) { goes(l, learn.LetGo, 30, -200, 200) })
	}, []string{"Pitch: let go. The craft should come level by itself.", "Wait …"}},
	{"yaw", func(t testing.TB) *uitest.Stage { return uitest.Asking(t, uitest.SmallRadio(), 1, nil) }, []string{"Yaw: turn the craft to the right.", "axis 2"}},
	{"yaw turns", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 1, func(_ *ui.View, l *learn.View) { goes(l, learn.HighEnd, 820) })
	}, []string{"is there. Steady"}},
	{"yaw left", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 1, func(_ *ui.View, l *learn.View) { goes(l, learn.LowEnd, -500, -1000, -learn.Zone) })
	}, []string{"Yaw: now turn it to the left."}},
	{"yaw, two at once", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 1, func(_ *ui.View, l *learn.View) { l.Phase, l.Notice = learn.Returning, says(learn.Two, 0) })
	}, []string{"Axis 3 (throttle) and axis 4 (yaw) moved together", "Put back what you moved"}},
	{"yaw short", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 1, func(_ *ui.View, l *learn.View) {
			goes(l, learn.HighEnd, 560)
			l.Notice, l.Enough = says(learn.NotAtEnd, 880), learn.TakeIt
		})
	}, []string{"stands at 88 % of its way", "take as it is"}},
	{"roll, mixed", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 2, func(_ *ui.View, l *learn.View) {
			goes(l, learn.LetGo, 700, -200, 200)
			l.Notice = says(learn.Mixed, -405)
		})
	}, []string{"against it, by 40.5 %", "Roll: let go."}},
	{"roll right", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 2, func(_ *ui.View, l *learn.View) { goes(l, learn.HighEnd, 740) })
	}, []string{"Roll: lean the craft to the right."}},
	{"roll left", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 2, func(_ *ui.View, l *learn.View) { goes(l, learn.LowEnd, -1000, -1000, -learn.Zone) })
	}, []string{"Roll: now lean it to the left."}},
	{"throttle", func(t testing.TB) *uitest.Stage { return uitest.Asking(t, uitest.SmallRadio(), 3, nil) },
		[]string{"Throttle: make the craft climb.", "the one that may stay where it is left"}},
	{"throttle up", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 3, func(_ *ui.View, l *learn.View) { goes(l, learn.HighEnd, 930) })
	}, []string{"is there. Steady"}},
	{"throttle down", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 3, func(_ *ui.View, l *learn.View) { goes(l, learn.LowEnd, 550, 0, 300) })
	}, []string{"Throttle: now set it down again."}},
	{"throttle let go", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 3, func(_ *ui.View, l *learn.View) { goes(l, learn.LetGo, 0, 0, 300) })
	}, []string{"Throttle: take your hand away. It should stay down."}},
	{"throttle springs", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 3, func(_ *ui.View, l *learn.View) {
			goes(l, learn.LetGo, 520, 0, 300)
			l.Phase, l.Notice, l.Enough = learn.Deciding, says(learn.Springs, 500), learn.AcceptIt
		})
	}, []string{"springs back, to 50 % of its way", "go on as it is"}},
	{"unplugged in the middle", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 2, func(v *ui.View, l *learn.View) {
			goes(l, learn.HighEnd, 500)
			v.Out, l.Notice = true, says(learn.NotAtEnd, 700)
		})
	}, []string{"The radio is unplugged. Plug it in again and the questions go on here."}},
	{"arm", func(t testing.TB) *uitest.Stage { return uitest.Asking(t, uitest.SmallRadio(), 4, nil) }, []string{"5 of 12", "skip this one", "Arm switch: move it from off"}},
	{"mode, two seen", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 5, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Axis, l.Positions, l.Enough, l.Last, l.HoldFor, l.Held = learn.Holding, 4, 2, learn.TakeIt, 4, 1_500_000, 400_000
			l.Shares[4], l.Levels = 480, []int{0, 500}
		})
	}, []string{"2 positions so far", "Found: arm, button 5", "take as it is", "where they sit", "stays"}},
	{"a lever led as slowly as a knob", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 5, func(_ *ui.View, l *learn.View) {
			l.Answers[4] = uitest.AxisControl("arm", 4, 0, 0, 4095)
			l.Answers[4].Stays, l.Last, l.CanClick = true, 4, true
		})
	}, []string{"It was turned as slowly as a knob", "say so by", "it clicks"}},
	{"mode turned, all seen", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 5, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Axis, l.Positions, l.Enough, l.HoldFor, l.Held = learn.Holding, 4, 3, learn.TakeIt, 1_500_000, 900_000
			l.Shares[4], l.Levels, l.Start = 0, []int{0, 500, 1000}, 1000
		})
	}, []string{"3 positions so far"}},
	{"second, on buttons", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 6, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Button, l.Positions, l.Enough, l.HoldFor, l.Held = learn.Holding, 6, 3, learn.TakeIt, 1_500_000, 900_000
			l.Raw.Buttons[0] = 1 << 6
		})
	}, []string{"Second switch: move it", "It must be on before the arm switch works."}},
	{"one more job", func(t testing.TB) *uitest.Stage { return uitest.Asking(t, uitest.SmallRadio(), 7, nil) }, []string{"Channel 9 (finder sound): move it"}},
	{"others", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 8, func(_ *ui.View, l *learn.View) {
			for ch := 10; ch < 17; ch++ {
				l.Answers = append(l.Answers, uitest.AxisControl(fmt.Sprint("channel ", ch), 5, 0, 0, 4095, 0, 2047, 4095))
			}
			l.Last, l.FreeLeft, l.Enough = len(l.Answers)-1, 1, learn.NoMore
			l.Notice = says(learn.MorePositions, 0)
		})
	}, []string{"Anything else?", "There is room for 1 more", "that is all", "channel 16: axis 6, 3 positions at 988, 1499 and 2012 µs"}},
	{"hands", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 9, func(_ *ui.View, l *learn.View) {
			l.Corners = []learn.Corner{{Job: "pitch", Share: 500}, {Job: "yaw", Share: 480}, {Job: "roll", Share: 940, There: true}, {Job: "throttle", Share: 0}}
		})
	}, []string{"Which of these four are your hands: 1, 2, 3 or 4?", "10 of 12", "stick mode 4", "one picture moves as your hands do", "marked one", "right hand"}},
	{"hands, unplugged", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 9, func(v *ui.View, l *learn.View) {
			v.Out = true
			l.Corners = []learn.Corner{{Job: "pitch", Share: 500}, {Job: "yaw", Share: 500}, {Job: "roll", Share: 500}, {Job: "throttle"}}
		})
	}, []string{"The radio is unplugged."}},
	{"corners", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 10, func(_ *ui.View, l *learn.View) {
			l.Step, l.Enough, l.Notice = learn.Corners, learn.NoMore, says(learn.TurnedRound, 0)
			l.Corners = []learn.Corner{{Job: "pitch", Share: 712}, {Job: "yaw", Share: 1000, There: true}, {Job: "roll", Share: 990, There: true}, {Job: "throttle", Share: 0, Turned: true}}
		})
	}, []string{"Everything at once", "Throttle stands at its wrong end", "throttle: at its wrong end", "pitch: 71.2 % of its way", "roll: there"}},
	{"corners, all there", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 10, func(_ *ui.View, l *learn.View) {
			l.Step, l.Enough, l.Phase, l.Held, l.HoldFor = learn.Corners, learn.NoMore, learn.Holding, 100_000, 300_000
			for _, job := range []string{"pitch", "yaw", "roll", "throttle"} {
				l.Corners = append(l.Corners, learn.Corner{Job: job, Share: 990, There: true})
			}
		})
	}, []string{"All four are there. Steady"}},
	{"once more", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 11, func(_ *ui.View, l *learn.View) {
			l.Step, l.Enough = learn.Each, learn.NoMore
			for i, c := range uitest.FoundAll() {
				l.Replayed = append(l.Replayed, learn.Replayed{Job: c.Job, Seen: i%2 == 0})
			}
		})
	}, []string{"4 of 8 moved", "Show every control once more", "arm: button 5, at the left"}},
	{"done", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 12, func(v *ui.View, l *learn.View) {
			l.CanBack = false
			v.Kept = "/home/pilot/.config/propsoff/radios/" + strings.Repeat("moorland-desk-7-", 4) + ".yaml"
		})
	}, []string{"This radio is known now.", "Moorland Desk 7 drives.", "moorland-desk-7-", "button 5", "go on", "axis 3, 1012 to 2012 µs", "axis 2 turned round"}},
	{"not kept", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.SmallRadio(), 12, func(v *ui.View, l *learn.View) {
			l.CanBack, v.KeptError, v.Unkept = false, words.Error(&fs.PathError{Op: "write", Path: "/home/pilot/.config/propsoff/radios/" + strings.Repeat("moorland-desk-", 5) + ".yaml", Err: syscall.ENOSPC}), true
			l.Spare = uitest.FoundAll()[7:]
			v.Out = true
		})
	}, []string{"It could not be kept in a file (", "no space left on device", "try to keep it", "1 control more without a free channel", "Moorland Desk 7 is unplugged. It drives again"}},
	{"big radio", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.BigRadio(), 8, func(v *ui.View, l *learn.View) {
			for i := range 7 {
				l.Plan = append(l.Plan[:8], append([]learn.Item{{Question: learn.Also, Job: fmt.Sprint("channel ", 16-i), Skipped: true}}, l.Plan[8:]...)...)
			}
			l.Now = 15
			l.Notice, l.Last = says(learn.NoChannel, 0), 7
			l.CanBack, l.Enough = true, learn.NoMore
			v.Radios, v.Reading, v.Choosing = []string{uitest.LongName, "Moorland Desk 7"}, 0, true
			v.Notices = ui.Warnings(uitest.BluntedNotice)
		})
	}, []string{"128", "16 of 19"}},
	{"big radio, pitch", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.BigRadio(), 0, func(_ *ui.View, l *learn.View) {
			goes(l, learn.HighEnd, 900)
			l.Axis = 30
		})
	}, []string{"of 32 axes; one that moves comes in", "Axis 31 answers", "31"}},
	{"big radio once more", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.BigRadio(), 11, func(v *ui.View, l *learn.View) {
			l.Step = learn.Each
			for i := range 16 {
				l.Replayed = append(l.Replayed, learn.Replayed{Job: fmt.Sprint("channel ", i+1)})
			}
		})
	}, []string{"0 of 16 moved", "channel 16"}},
	{"big radio done", func(t testing.TB) *uitest.Stage {
		return uitest.Asking(t, uitest.BigRadio(), 12, func(v *ui.View, l *learn.View) {
			for ch := 10; ch < 17; ch++ {
				l.Answers = append(l.Answers, uitest.AxisControl(fmt.Sprint("channel ", ch), 5, 0, 0, 4095, 0, 2047, 4095))
			}
			v.Kept, l.CanBack = "/home/pilot/.config/propsoff/radios/desk.yaml", false
		})
	}, []string{"channel 16", "throttle"}},
	{"a given file, corners", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 0, func(_ *ui.View, l *learn.View) {
			l.Step, l.Notice = learn.Corners, wrong(learn.WrongEnd, "roll")
			l.Corners = []learn.Corner{{Job: "pitch", Share: 1000, There: true}, {Job: "yaw", Share: 990, There: true}, {Job: "roll", Turned: true}, {Job: "throttle", Share: 650}}
		})
	}, []string{"Somebody else learned this radio’s file", "a given file: 1 of 9", "According to the file, roll stands at its low end", "leave untried", "learn it anew", "Moorland Desk 7 is being tried with a radio file"}},
	{"a given file, pitch", func(t testing.TB) *uitest.Stage { return trying(t, uitest.SmallRadio(), 1, nil) },
		[]string{"Pitch: lean the craft forward, then let go.", "In the file: axis 2 turned round", "Move only this one", "skip this one", "one step back", "start over"}},
	{"a given file, yaw there", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 2, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Step, l.Axis, l.Shares[3], l.Raw.Axes[3] = learn.Holding, learn.AndBack, 3, 1000, 4095
		})
	}, []string{"Now let go.", "Axis 4 answers, as the file has it. And back"}},
	{"a given file, another answers", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 2, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Notice, l.Shares[0], l.Raw.Axes[0] = learn.Returning, wrong(learn.Another, "yaw"), 1000, 4095
		})
	}, []string{"Yaw is asked for, in the file on axis 4, but axis 1 (roll) moved.", "Put back what you moved"}},
	{"a given file, throttle down", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 4, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Step, l.Axis, l.Shares[2], l.Raw.Axes[2], l.Notice = learn.Holding, learn.AndBack, 2, 480, 2000, wrong(learn.NotDown, "throttle")
		})
	}, []string{"Throttle: now set the craft down.", "still stands at 12.3 % of its way"}},
	{"a given file, a button", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 5, func(_ *ui.View, l *learn.View) { l.Notice = wrong(learn.NothingMoves, "arm") })
	}, []string{"Arm switch: to each of its positions, then let go.", "Nothing answers."}},
	{"a given file, mode", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 6, func(_ *ui.View, l *learn.View) {
			l.Phase, l.Button, l.Seen, l.Places, l.Raw.Buttons[0] = learn.Holding, 6, 2, 3, 1<<6
			l.Notice = wrong(learn.AtFirst, "mode")
		})
	}, []string{"Mode switch: from its first position to its last, step by step.", "Button 7 answers, as the file has it: 2 of 3 positions.", "According to the file, the mode switch now stands at its first position."}},
	{"a given file, a dial", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 8, func(v *ui.View, l *learn.View) {
			l.Phase, l.Axis, l.Seen, l.Places, l.Notice = learn.Holding, 6, 4, 6, wrong(learn.FewPlaces, "channel 9")
			v.Out = true
		})
	}, []string{"Channel 9 (finder sound): from its first position to its last", "The radio is unplugged."}},
	{"a given file, missing", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 7, func(_ *ui.View, l *learn.View) {
			l.Answers = append(l.Answers[:6:6], l.Answers[7])
			l.Plan[5].Answered, l.Plan[5].Skipped = false, true
			l.Notice = wrong(learn.Missing, "second")
		})
	}, []string{"In the file second is on axis 4, which this radio does not have."}},
	{"a given file, big radio", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.BigRadio(), 2, func(v *ui.View, l *learn.View) {
			for ch := 10; ch < 17; ch++ {
				c := uitest.AxisControl(fmt.Sprint("channel ", ch), 5, 0, 0, 4095, 0, 2047, 4095)
				l.Answers, l.Plan = append(l.Answers, c), append(l.Plan, learn.Item{Question: learn.Once, Job: c.Job})
			}
			l.Notice = wrong(learn.Another, "yaw")
			v.Radios, v.Reading, v.Choosing = []string{uitest.LongName, "Moorland Desk 7"}, 0, true
			v.Notices = ui.Warnings(uitest.BluntedNotice)
		})
	}, []string{"a given file: 3 of 16"}},
	{"a given file, done", func(t testing.TB) *uitest.Stage {
		return trying(t, uitest.SmallRadio(), 9, func(v *ui.View, l *learn.View) {
			v.Kept = "/home/pilot/.config/propsoff/radios/" + strings.Repeat("moorland-desk-7-", 4) + ".yaml"
		})
	}, []string{"Every control of this radio answers as its file says.", "what the file says", "The file is kept here as one that was tried"}},
}
