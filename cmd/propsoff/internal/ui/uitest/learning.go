package uitest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// BigRadio has as many axes and buttons as are read.
func BigRadio() input.Info {
	info := input.Info{Name: LongName, Buttons: input.MaxButtons}
	for i := range input.MaxAxes {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: -32768, Max: 32767, Hat: i >= input.MaxAxes-2})
	}
	return info
}

// SmallRadio has seven axes, a hat and twenty buttons.
func SmallRadio() input.Info {
	info := input.Info{Name: "Moorland Desk 7", Buttons: 20}
	for i := range 7 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 4095})
	}
	info.Axes = append(info.Axes, input.Axis{Code: 16, Min: -1, Max: 1, Hat: true}, input.Axis{Code: 17, Min: -1, Max: 1, Hat: true})
	return info
}

// AxisControl is a stick, knob or switch on an axis of 0 to 4095 with positions at raw values.
func AxisControl(job string, axis int, low, rest, high int32, places ...int32) radio.Control {
	scale := radio.Own(input.Axis{Max: 4095})
	c := radio.Control{Job: job, Form: radio.Axis, Axis: axis, Scale: &scale, Reach: &radio.Reach{Low: low, Rest: rest, High: high}, Noise: 8}
	for _, at := range places {
		c.Positions = append(c.Positions, radio.Position{At: radio.Halves(at), Spread: 5})
	}
	return c
}

// FoundAll is what a radio with everything was found to be, in the order of the plan.
func FoundAll() []radio.Control {
	back := AxisControl("pitch", 1, 30, 2050, 4080)
	turned := back.Scale.Turned()
	back.Scale = &turned
	throttle := AxisControl("throttle", 2, 96, 120, 4095)
	throttle.Stays = true
	arm := radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{4}, Momentary: true, Side: radio.Left}
	mode := radio.Control{Job: "mode", Form: radio.Row, Buttons: []int{6, radio.None, 7}, Side: radio.Right}
	six := AxisControl("channel 9", 6, 0, 0, 4095, 0, 819, 1638, 2457, 3276, 4095)
	six.Side, six.Called = radio.Top, "the dial in front"
	return []radio.Control{back, AxisControl("yaw", 3, 0, 2047, 4095), AxisControl("roll", 0, 0, 2047, 4095), throttle,
		arm, mode, AxisControl("second", 4, 0, 0, 4095, 0, 4095), six}
}

// plan is the plan of a craft with a second switch and a finder sound, answered up to now.
func plan(now int) []learn.Item {
	all := []learn.Item{{Question: learn.Pitch, Job: "pitch"}, {Question: learn.Yaw, Job: "yaw"}, {Question: learn.Roll, Job: "roll"},
		{Question: learn.Throttle, Job: "throttle"}, {Question: learn.Arm, Job: "arm"}, {Question: learn.Mode, Job: "mode"}, {Question: learn.Also, Job: "second"},
		{Question: learn.Also, Job: "channel 9"}, {Question: learn.More}, {Question: learn.StickMode}, {Question: learn.TopRight}, {Question: learn.Replay}}
	for i := range min(now, len(all)) {
		all[i].Answered = true
	}
	return all
}

// Asking is the sheet at question now of the plan; more changes what is known.
func Asking(t testing.TB, info input.Info, now int, more func(v *ui.View, l *learn.View)) *Stage {
	cfg, name := Shipped(t, "built-in")
	s := NewStage(t, cfg, name)
	s.V.Driver, s.V.DriverName, s.V.Next, s.V.Device = ui.Radio, info.Name, ui.Keyboard, info
	s.V.Carries[8] = "finder sound"
	s.Names = []string{"the dial in front"}
	l := &s.V.Learn
	*l = learn.View{Plan: plan(now), Now: now, Question: learn.Done, Step: learn.Over, StickMode: 2, ModeKnown: now > 9, Begun: true, Axis: -1, Button: -1, Last: -1,
		CanBack: now > 0}
	if now < len(l.Plan) {
		l.Question, l.Job, l.Phase, l.Step = l.Plan[now].Question, l.Plan[now].Job, learn.Moving, learn.HighEnd
	} else {
		l.Phase = learn.Finished
	}
	switch {
	case l.Question == learn.StickMode:
		l.Step, l.Enough = learn.Choose, learn.TakeIt
	case l.Question >= learn.Arm && l.Question <= learn.More:
		l.Step, l.CanSkip = learn.Through, l.Question < learn.More
	case l.Question <= learn.Throttle:
		l.Zone = [2]int{learn.Zone, 1000}
	}
	for i := range info.Axes {
		l.Raw.Axes[i], l.Shares[i] = (info.Axes[i].Min+info.Axes[i].Max)/2, 500
	}
	if n := min(now, 8); n > 0 {
		l.Answers = FoundAll()[:n]
	}
	if more != nil {
		more(s.V, l)
	}
	file := radio.File{StickMode: l.StickMode, Controls: l.Answers}
	_, text, _ := assets.Craft(assets.BuiltIn)
	craft, err := craftfile.Parse("built-in", text)
	require.NoError(t, err)
	s.V.Handset = facts.Reach(&file, &info, craft.Names())
	s.V.HasSeats = len(l.Answers) > 4
	if l.Begun {
		l.Pens = penned(info, &l.Shares)
	}
	return s
}

// penned is what a learner's pens drew of a radio: noise on axis 2, axis 3 from end to end, and at last every axis on its way to where it
// stands now.
func penned(info input.Info, now *[input.MaxAxes]int) *learn.Pens {
	l := learn.New(info, learn.Options{})
	for at := int64(0); at <= 9_000_000; at += 20_000 {
		raw := input.Raw{At: at}
		for i, a := range info.Axes {
			share := 500.0
			switch {
			case at > 8_500_000:
				share += (float64(now[i]) - share) * float64(at-8_500_000) / 500_000
			case i == 1:
				share += 12 * float64(at/20_000%3-1)
			case i == 2 && at > 3_770_000 && at < 7_540_000: // two whole waves
				share += 500 * min(max(math.Sin(float64(at)/300_000)*1.3, -1), 1)
			}
			raw.Axes[i] = a.Min + int32((float64(a.Max)-float64(a.Min))*share/1000)
		}
		l.Feed(raw)
	}
	return l.View().Pens
}
