package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/hand"
	"propsoff.example/scripts/rig/kernelrule"
)

// Words of the learner's codes, as the terminal prints them.
var (
	questionWords = []string{"pitch", "yaw", "roll", "throttle", "arm", "mode", "also", "more", "stick-mode", "top-right", "replay", "once", "done"}
	stepWords     = []string{"high-end", "low-end", "let-go", "through", "choose", "corners", "each", "its-way", "and-back", "over"}
	phaseWords    = []string{"settling", "moving", "holding", "returning", "deciding", "finished"}
	noticeWords   = map[learn.Code]string{
		learn.Two: hand.SaysTwo, learn.Taken: hand.SaysTaken, learn.WantStick: hand.SaysStick, learn.NoSpring: hand.SaysNoSpring, learn.TurnedRound: hand.SaysTurned, learn.Lost: hand.SaysLost,
	}
)

func askedOf(v *learn.View) hand.Asked {
	a := hand.Asked{Question: questionWords[v.Question], Job: v.Job, Step: stepWords[v.Step], Phase: phaseWords[v.Phase], Notice: noticeWords[v.Notice.Code]}
	if v.Question == learn.TopRight {
		a.Job = v.Notice.Job
	}
	var left []string
	for _, r := range v.Replayed {
		if !r.Seen {
			left = append(left, r.Job)
		}
	}
	a.Left = strings.Join(left, ",")
	return a
}

// desk is a made radio before the learner, without a kernel and without a clock: the input core's filter stands between.
type desk struct {
	made  *fakeradio.Made
	hand  *hand.Hand
	learn *learn.Learner
	rules []kernelrule.Axis
	sent  []int32
	seen  []int32
	now   time.Duration
	log   []string
	// lose are the moments at which readings are lost.
	lose []time.Duration
}

func newDesk(m *fakeradio.Made) *desk {
	d := &desk{made: m, hand: hand.New(m, 5)}
	info := input.Info{Name: m.Name, Vendor: uint16(m.Vendor), Product: uint16(m.Product), Serial: m.Serial, Buttons: m.Layout.ButtonCount()}
	add := func(a kernelrule.Axis) {
		info.Axes = append(info.Axes, input.Axis{Code: len(info.Axes), Min: a.Min, Max: a.Max})
		d.rules = append(d.rules, a)
	}
	for i := range m.Layout.AxisCount() {
		add(kernelrule.Joystick(m.Layout.AxisRange(i)))
	}
	for range m.Layout.HatCount() {
		add(kernelrule.Axis{Min: -1, Max: 1})
		add(kernelrule.Axis{Min: -1, Max: 1})
	}
	d.learn = learn.New(info, learn.Options{Free: []int{6, 7, 8, 9}})
	return d
}

// step lets 4 ms go by.
func (d *desk) step() {
	d.now += 4 * time.Millisecond
	r := d.hand.Report(d.now)
	axes := append([]int32{}, r.Axes...)
	if d.made.Layout.HatCount() > 0 {
		y := int32(0)
		if r.Hat == 0 {
			y = -1
		}
		axes = append(axes, 0, y)
	}
	raw := input.Raw{At: d.now.Microseconds()}
	first := d.seen == nil
	if first {
		d.sent, d.seen = axes, append([]int32{}, axes...)
	}
	for i, v := range axes {
		if v != d.sent[i] {
			d.sent[i], d.seen[i] = v, d.rules[i].Defuzz(v, d.seen[i])
		}
		raw.Axes[i] = d.seen[i]
	}
	for b, on := range r.Pressed {
		if on {
			raw.Buttons[b/64] |= 1 << (b % 64)
		}
	}
	if len(d.lose) > 0 && d.now >= d.lose[0] {
		d.lose, raw.Resync = d.lose[1:], true
	}
	if old := d.learn.View().Raw; first || raw.Resync || old.Axes != raw.Axes || old.Buttons != raw.Buttons {
		d.learn.Feed(raw)
	} else {
		d.learn.Tick(raw.At)
	}
}

// word types.
func (d *desk) word(w string) {
	switch w {
	case hand.WordBack:
		d.learn.Back()
	case hand.WordSkip:
		d.learn.Skip()
	case hand.WordEnough:
		d.learn.Enough()
	default:
		var mode int
		fmt.Sscan(w, &mode)
		d.learn.SetStickMode(mode)
	}
}

// Every pilot of the rig gets his radio learned, with all his slips noticed, in less than a minute and a half; also where
// readings are lost again and again.
func TestPilotsAnswerEveryQuestion(t *testing.T) {
	for _, habit := range hand.Habits() {
		t.Run(habit.Made.Name+" "+habit.Made.Serial, func(t *testing.T) { learnedOnDesk(t, habit, 0) })
		t.Run(habit.Made.Name+" "+habit.Made.Serial+" with losses", func(t *testing.T) { learnedOnDesk(t, habit, 3300*time.Millisecond) })
	}
}

// learnedOnDesk learns a radio; readings are lost at each multiple of every (0: never), until 10 s: a loss after a knob was
// turned leaves nobody a way to tell its first end.
func learnedOnDesk(t *testing.T, habit hand.Habit, every time.Duration) {
	d := newDesk(&habit.Made)
	for at := every; every > 0 && at < 10*time.Second; at += every {
		d.lose = append(d.lose, at)
	}
	p := habit.Pilot()
	free := time.Duration(0)
	var last hand.Asked
	for d.now < 90*time.Second {
		d.step()
		v := d.learn.View()
		a := askedOf(&v)
		if a != last {
			d.log = append(d.log, fmt.Sprintf("%6d ms %+v answers %d", d.now.Milliseconds(), a, len(v.Answers)))
			last = a
		}
		if v.Question == learn.Done {
			break
		}
		p.Hears(a)
		if d.now < free {
			continue
		}
		moves, word := p.Does(a)
		if len(moves) > 0 || word != "" {
			d.log = append(d.log, fmt.Sprintf("%6d ms         %+v %q", d.now.Milliseconds(), moves, word))
		}
		end, err := d.hand.Begin(d.now, moves...)
		require.NoError(t, err)
		free = max(d.now, end)
		if word != "" {
			d.word(word)
		}
	}
	if last.Question != hand.AskNothing || len(p.Slips()) > 0 {
		for _, l := range d.log {
			t.Log(l)
		}
	}
	require.Equal(t, hand.AskNothing, last.Question)
	require.Empty(t, p.Slips())
	f, ok := d.learn.File()
	require.True(t, ok)
	text := f.Marshal()
	_, err := radio.Parse("learned", text, radio.Known{})
	require.NoError(t, err)
	got, err := readLearned(text)
	require.NoError(t, err)
	v := compare(&got, &habit.Made, jobsOf(&habit.Made))
	require.Empty(t, v.wrong, "%s", text)
	t.Logf("%v, said %v, worst %.2f µs, noise %v", d.now, p.Said, v.worst, v.noise)
}
