package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/check"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input"
	ck "propsoff.example/input/check"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/radio"
	"propsoff.example/sim/pulse"
)

// checkedHands is a radio with n controls besides its four sticks, and hands that do whatever is asked for; faulty makes some of
// it wrong, long gives every control a long name.
type checkedHands struct {
	r    *inputtest.Radio
	file radio.File
	info input.Info
	at   int64
}

func newCheckedHands(others int, faulty, long bool) *checkedHands {
	info := input.Info{Way: "event", Buttons: 4}
	for i := range 4 + others {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	r := inputtest.NewRadio(info)
	h := &checkedHands{r: r, info: info}
	s := radio.Own(info.Axes[0])
	h.file = radio.File{Device: radio.DeviceOf(info), StickMode: 2}
	for i, job := range []string{"throttle", "roll", "pitch", "yaw"} {
		h.file.Controls = append(h.file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i, Scale: &s, Stays: i == 0})
	}
	r.Rest(0, 0)
	for i := range others {
		c := radio.Control{Job: fmt.Sprintf("channel %d", 5+i), Form: radio.Axis, Axis: 4 + i, Scale: &s, Side: radio.Side(i % 4)}
		switch {
		case i == 0:
			c.Job = "arm"
			c.Positions = []radio.Position{{At: 0}, {At: 4094}}
		case i == 1:
			c.Job = "mode"
			fallthrough
		case i%3 > 0:
			c.Positions = []radio.Position{{At: 0}, {At: 2046}, {At: 4094}}
		default:
			c.Stays = true
		}
		if long {
			c.Called = uitest.LongName
		}
		r.Rest(4+i, 0)
		h.file.Controls = append(h.file.Controls, c)
	}
	if faulty {
		r.ShortTravel(0, 48, 2047)
		r.ShortTravel(3, 0, 1823)
		r.Noise(1, 8, 5)
		r.Rest(2, 1082)
		r.Spike(100_000, 3, 1800)
		r.Spike(200_000, 3, 1800)
	}
	return h
}

func (h *checkedHands) move(axis int, to int32, us int64) { h.r.Move(h.at, us, axis, to); h.at += us }

// whole does everything; rest is where pitch comes to rest.
func (h *checkedHands) whole(rest int32) {
	h.at = 300_000
	for _, to := range [2][4]int32{{2047, 2047, 2047, 2047}, {0, 1023, rest, 1023}} {
		from := h.at
		for a := range 4 {
			h.at = from
			h.move(a, to[a], 300_000)
		}
		h.at += 2_300_000
	}
	h.move(0, 2047, 400_000)
	h.at += 200_000
	h.move(0, 0, 400_000)
	h.at += 2_300_000
	for _, a := range []int{3, 2, 1} {
		h.move(a, 2047, 300_000)
		h.at += 600_000
		h.move(a, 0, 600_000)
		h.at += 600_000
		h.move(a, 2047, 600_000)
		h.at += 600_000
		h.move(a, map[int]int32{1: 1023, 2: rest, 3: 1023}[a], 200_000)
		h.at += 100_000
	}
	for i := range len(h.info.Axes) - 4 {
		for _, to := range []int32{1023, 2047, 0} {
			if len(h.file.Controls[4+i].Positions) == 2 && to == 1023 {
				continue
			}
			us := int64(4000)
			if h.file.Controls[4+i].Stays {
				us = 300_000
			}
			h.move(4+i, to, us)
			h.at += 300_000
		}
	}
	h.at += 5_000_000
}

// view is what a screen would show after us microseconds (0: all of it).
func (h *checkedHands) view(t testing.TB, us int64) *ck.View {
	c, err := ck.New(ck.Config{Info: h.info, File: h.file, Names: input.Names{Channel: map[string]int{"throttle": 0, "roll": 1, "pitch": 2, "yaw": 3, "arm": 4, "mode": 5}}})
	require.NoError(t, err)
	if us == 0 {
		us = h.at
	}
	h.r.Until(us)
	for _, raw := range h.r.States(0) {
		if raw.At > us {
			break
		}
		c.Feed(&raw)
	}
	c.Tick(us)
	v := new(ck.View)
	c.View(v)
	return v
}

// checkStage shows a check on the stage; the bench sees the same sticks.
func checkStage(t testing.TB, v *ck.View) *uitest.Stage {
	s := uitest.Ready(t)
	s.V.Driver, s.V.DriverName, s.V.Next = ui.Radio, "Moorland Desk 7", ui.Keyboard
	*check.Of(s.V) = check.View{Check: *v, Findings: v.Settled && v.Count[ck.Passes] < len(v.Items)}
	if v.Control >= 0 {
		check.Of(s.V).Selected = v.Control
	}
	for i := range v.Controls {
		if c := &v.Controls[i]; c.Channel >= 0 && c.Channel < pulse.Channels && c.Known {
			s.Frame[c.Channel] = c.Width
		}
	}
	s.Send().Wait(30)
	s.V.GoodNews(words.T("check.stands-still"))
	return s
}

func checked(others int, faulty, long bool, us int64) func(t testing.TB) *uitest.Stage {
	return func(t testing.TB) *uitest.Stage {
		h := newCheckedHands(others, faulty, long)
		rest := int32(1023)
		if faulty {
			rest = 1082
		}
		h.whole(rest)
		return checkStage(t, h.view(t, us))
	}
}

var checkScenes = []uitest.Scene{
	{Name: "begun", Make: checked(2, false, false, 50_000), Says: []string{"Push both sticks to the top right", "waits"}},
	{Name: "in the corners", Make: checked(2, false, false, 700_000), Says: []string{"Push both sticks to the top right", "2012"}},
	{Name: "under way", Make: checked(4, false, false, 8_000_000), Says: []string{"Move yaw", "throttle", "passes"}},
	{Name: "whole", Make: checked(4, false, false, 0), Says: []string{"Full and free: all"}},
	{Name: "with nothing to see to", Make: func(t testing.TB) *uitest.Stage {
		s := checked(4, false, false, 0)(t)
		check.Of(s.V).Findings = true
		return s
	}, Says: []string{"Nothing to set."}},
	{Name: "faulty", Make: checked(4, true, false, 0), Says: []string{"throttle, low end: fails. 1012 µs; must be below 1000 µs.", "pitch, off centre: fails. +29.3 µs", "Do: ", "Why: "}},
	{Name: "faulty table", Make: func(t testing.TB) *uitest.Stage {
		s := checked(4, true, false, 0)(t)
		check.Of(s.V).Findings, check.Of(s.V).Selected = false, 0
		return s
	}, Says: []string{"1012", "fails", "below 1000 µs"}},
	{Name: "of sixteen", Make: checked(12, false, false, 9_000_000), Says: []string{"channel 10", "low end"}},
	{Name: "of sixteen faulty", Make: func(t testing.TB) *uitest.Stage {
		s := checked(12, true, true, 0)(t)
		check.Of(s.V).Findings, check.Of(s.V).Selected = false, 3
		return s
	}, Says: []string{"fails"}},
	{Name: "of sixteen levers", Make: checked(12, false, true, 19_000_000), Says: []string{"through all its positions"}},
	{Name: "unplugged", Make: func(t testing.TB) *uitest.Stage {
		h := newCheckedHands(3, false, false)
		h.whole(1023)
		v := h.view(t, 6_000_000)
		v.Ask, v.Control, v.Out = ck.AskPlug, -1, true
		return checkStage(t, v)
	}, Says: []string{"The radio is unplugged"}},
	{Name: "of the radio", Make: func(t testing.TB) *uitest.Stage {
		s := checked(3, false, false, 0)(t)
		check.Of(s.V).Findings, check.Of(s.V).Selected = false, 7
		return s
	}, Says: []string{"radio as a whole", "rate of reports", "1000 a second"}},
	{Name: "without a radio", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Ready(t)
		check.Of(s.V).Needs = tell.CheckNeedsRadio(false, 0, words.Text{})
		return s
	}, Says: []string{"No radio drives."}},
	{Name: "while playing", Make: func(t testing.TB) *uitest.Stage {
		s := uitest.Ready(t)
		s.V.Driver, s.V.DriverName, s.V.Next = ui.Played, "demo pilot", ui.Nobody
		check.Of(s.V).Needs = tell.CheckNeedsRadio(true, 0, words.Text{})
		return s
	}, Says: []string{"Something is being played"}},
}

func TestCheckInEveryScene(t *testing.T) { uitest.InEveryScene(t, "check", checkScenes, check.Draw) }

// Every verdict has a shape and a word of its own, whatever the colour.
func TestVerdictsDifferInShapeAndWord(t *testing.T) {
	shapes, said := map[string]bool{}, map[string]bool{}
	for v := ck.Waiting; v < ck.VerdictCount; v++ {
		p := ink.NewPage(960, 600, 0, nil)
		figure.NewBoard(p, &ui.View{House: uitest.AllSheets()}).VerdictMark(100, 100, 10, v)
		shape := ""
		for _, it := range p.Items() {
			shape += fmt.Sprint(it.Kind, it.Fill != ink.None, len(p.Points(&it)), it.Dash.On > 0)
		}
		assert.False(t, shapes[shape], shape)
		assert.False(t, said[uitest.Say(tell.CheckVerdict(v))])
		shapes[shape], said[uitest.Say(tell.CheckVerdict(v))] = true, true
	}
}

// Whatever can be done on the sheet has its key there.
func TestCheckShowsItsKeys(t *testing.T) {
	s := checked(4, true, false, 0)(t)
	p := ink.NewPage(960, 600, 0, nil)
	check.Draw(p, s.V)
	hits := map[string]string{}
	for _, h := range p.Hits() {
		hits[h.Name] = h.Key
	}
	assert.Equal(t, "Delete", hits["check-anew"])
	assert.Equal(t, "Enter", hits["check-findings"])
	assert.Equal(t, "PageUp", hits["check-above"])
	assert.Equal(t, "PageDown", hits["check-below"])
	check.Of(s.V).Needs = words.AsIs("x")
	p.Reset(960, 600, 0, nil)
	check.Draw(p, s.V)
	for _, h := range p.Hits() {
		assert.NotContains(t, h.Name, "check-")
	}
	i, ok := ui.NumberOf("check-row-3", "check-row-")
	assert.True(t, ok && i == 2)
	_, ok = ui.NumberOf("check-row-", "check-row-")
	assert.False(t, ok)
}

func BenchmarkCheck(b *testing.B) {
	s := checked(12, true, false, 9_000_000)(b)
	p := ink.NewPage(1920, 1080, 0, nil)
	b.ReportAllocs()
	for b.Loop() {
		p.Reset(1920, 1080, 0, nil)
		check.Draw(p, s.V)
	}
}
