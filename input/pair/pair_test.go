package pair_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/input"
	"propsoff.example/input/inputtest"
	"propsoff.example/input/keyboard"
	"propsoff.example/input/pair"
	"propsoff.example/input/radio"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

const (
	throttle, roll, pitch, yaw, arm, mode, taker = 0, 1, 2, 3, 4, 5, 7
	ms                                           = 1000
)

var on = pair.Span{Low: pulse.Micros(1600), High: pulse.Highest}

func config() pair.Config {
	return pair.Config{Switch: taker, SwitchSpan: on, Sticks: 1<<throttle | 1<<roll | 1<<pitch | 1<<yaw | 1<<mode, Arm: arm, ArmSpan: on}
}

func rest() pulse.Frame {
	return pulse.Frame{throttle: pulse.Low, roll: pulse.Centre, pitch: pulse.Centre, yaw: pulse.Centre, arm: pulse.Low, mode: pulse.Low, taker: pulse.Low}
}

// written is a source that says what was written down, and ends with end.
type written struct {
	rs     []pulse.Reading
	end    error // nil: it goes on for ever
	closed int
}

func (w *written) Name() string          { return "written" }
func (w *written) Wake() <-chan struct{} { return nil }
func (w *written) Close() error          { w.closed++; return nil }
func (w *written) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	for len(w.rs) > 0 && w.rs[0].At <= until {
		dst = append(dst, w.rs[0])
		w.rs = w.rs[1:]
	}
	if len(w.rs) == 0 {
		return dst, w.end
	}
	return dst, nil
}

// hand writes down what one of the two does.
type hand struct {
	written
	at int64
	f  pulse.Frame
}

func newHand() *hand {
	h := &hand{f: rest()}
	h.tell(pulse.Plug, 1)
	return h.put()
}

func (h *hand) wait(ms int64) *hand { h.at += ms * 1000; return h }
func (h *hand) put() *hand {
	h.rs = append(h.rs, pulse.Reading{At: h.at, Kind: pulse.Controls, Frame: h.f})
	return h
}
func (h *hand) tell(k pulse.Kind, v int32) *hand {
	h.rs = append(h.rs, pulse.Reading{At: h.at, Kind: k, Value: v})
	return h
}
func (h *hand) move(ch int, w pulse.Width) *hand { h.f[ch] = w; return h.put() }

func made(t require.TestingT, p, i input.Source, cfg pair.Config) *pair.Source {
	s, err := pair.New(p, i, cfg)
	require.NoError(t, err)
	return s
}

// all gives everything that a pair says.
func all(t require.TestingT, p, i *hand, cfg pair.Config) []pulse.Reading {
	got, err := made(t, p, i, cfg).Poll(nil, 1<<60)
	require.NoError(t, err)
	return got
}

func frames(rs []pulse.Reading) (out []pulse.Frame) {
	for _, r := range rs {
		if r.Kind == pulse.Controls {
			out = append(out, r.Frame)
		}
	}
	return out
}

func deed(at int64, by int32) pulse.Reading {
	return pulse.Reading{At: at, Kind: pulse.Instructor, Value: pulse.InstructorValue(pulse.DeedHands, by)}
}

func TestTheSticksChangeHandsWithTheSwitch(t *testing.T) {
	p := newHand().wait(10).move(roll, pulse.Micros(1700)).wait(30).move(pitch, pulse.Micros(1400))
	i := newHand()
	i.f[throttle], i.f[roll], i.f[mode], i.f[arm], i.f[10] = pulse.Micros(1300), pulse.Micros(1450), pulse.High, pulse.High, pulse.High
	i.put().wait(20).move(taker, pulse.High).wait(40).move(yaw, pulse.Micros(1555)).wait(10).move(taker, pulse.Low)
	rest, his := rest(), i.f

	first, moved := rest, rest
	moved[roll] = pulse.Micros(1700)
	flown := rest // all of his but the arm channel and those that stay with the pupil
	for _, ch := range []int{throttle, roll, pitch, mode} {
		flown[ch] = his[ch]
	}
	turned := flown
	turned[yaw] = pulse.Micros(1555)
	back := moved
	back[pitch] = pulse.Micros(1400)
	assert.Equal(t, []pulse.Reading{
		{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Controls, Frame: first}, {At: 10 * ms, Kind: pulse.Controls, Frame: moved},
		deed(20*ms, 1), {At: 20 * ms, Kind: pulse.Controls, Frame: flown},
		{At: 60 * ms, Kind: pulse.Controls, Frame: turned}, // the pupil's pitch at 40 ms is not heard …
		deed(70*ms, 0), {At: 70 * ms, Kind: pulse.Controls, Frame: back},
	}, all(t, p, i, config()))
}

// The pupil arms only while the instructor's switch is on, and either disarms. Held off, the pupil's switch must be seen off first.
func TestTheArmChannelTakesBoth(t *testing.T) {
	type step struct {
		pupil, instructor pulse.Width // 0: as it is
		on                bool
	}
	lo, hi := pulse.Low, pulse.High
	for _, taken := range []pulse.Width{lo, hi} { // it is the same whoever has the sticks
		for name, steps := range map[string][]step{
			"both on":                       {{0, hi, false}, {hi, 0, true}, {lo, 0, false}},
			"the instructor disarms":        {{0, hi, false}, {hi, 0, true}, {0, lo, false}, {0, hi, false}, {lo, 0, false}, {hi, 0, true}},
			"on before the instructor's":    {{hi, 0, false}, {0, hi, false}, {lo, 0, false}, {hi, 0, true}},
			"off and on while held off":     {{hi, 0, false}, {lo, 0, false}, {hi, 0, false}, {0, hi, false}},
			"his channel carries no pulse":  {{0, hi, false}, {hi, 0, true}, {0, pulse.Micros(700), true}, {lo, 0, false}, {hi, 0, true}},
			"the pupil's carries no pulse":  {{0, hi, false}, {hi, 0, true}, {0, lo, false}, {pulse.Micros(700), hi, false}, {hi, 0, false}},
			"his own on does not arm alone": {{lo, hi, false}},
		} {
			p, i := newHand(), newHand()
			i.wait(1).move(taker, taken)
			var want []bool
			for _, s := range steps {
				p.wait(20)
				i.at = p.at
				if s.instructor != 0 {
					i.move(arm, s.instructor)
				}
				if s.pupil != 0 {
					p.move(arm, s.pupil)
				}
				want = append(want, s.on)
			}
			s := made(t, p, i, config())
			var f pulse.Frame
			for n := range want {
				got, _ := s.Poll(nil, int64(n+1)*20*ms)
				for _, fr := range frames(got) {
					f = fr
				}
				armed := f[arm] >= on.Low && f[arm].Valid()
				assert.Equal(t, want[n], armed, "%s, step %d, %d", name, n, f[arm].Whole())
				assert.False(t, armed && s.Taken()>>arm&1 == 1, "%s, step %d: it is held off, and on", name, n)
				assert.Equal(t, taken == hi, s.Taken()&config().Sticks != 0, "%s, step %d", name, n)
				if p := steps[n]; p.pupil == hi && !armed {
					assert.EqualValues(t, 1, s.Taken()>>arm&1, "%s, step %d: what keeps it off?", name, n)
				}
			}
		}
	}
}

// An instructor's radio that vanishes: the pupil keeps the sticks and arms alone; if the instructor had them, the motors stop first.
func TestTheInstructorVanishes(t *testing.T) {
	for _, gone := range []pulse.Kind{pulse.Plug, pulse.Link} {
		p, i := newHand(), newHand()
		i.move(arm, pulse.High).wait(50).tell(gone, 0).wait(100).tell(gone, 1)
		p.wait(10).move(arm, pulse.High)
		f := frames(all(t, p, i, config()))
		assert.Equal(t, pulse.High, f[len(f)-1][arm], "still armed")
		assert.Len(t, f, 2, "nothing changed by it")

		p, i = newHand(), newHand()
		i.move(arm, pulse.High).wait(20).move(taker, pulse.High).wait(30).tell(gone, 0).wait(100).tell(gone, 1)
		p.wait(10).move(arm, pulse.High).wait(60).move(roll, pulse.Micros(1600)).wait(10).move(arm, pulse.Low).wait(10).move(arm, pulse.High)
		got := all(t, p, i, config())
		assert.Contains(t, got, deed(20*ms, 1))
		assert.Contains(t, got, deed(50*ms, 0))
		assert.NotContains(t, got, deed(150*ms, 1), "the switch that still stands on takes nothing")
		for _, r := range got {
			if r.Kind != pulse.Controls {
				continue
			}
			assert.Equal(t, r.At >= 10*ms && r.At < 50*ms || r.At >= 90*ms, r.Frame[arm] == pulse.High, "%d ms", r.At/ms)
		}
	}
	// With its arm switch off: the force goes, but nothing arms by that.
	p, i := newHand(), newHand()
	i.wait(50).tell(pulse.Plug, 0)
	p.wait(10).move(arm, pulse.High).wait(60).move(arm, pulse.Low).wait(10).move(arm, pulse.High)
	f := frames(all(t, p, i, config()))
	assert.Equal(t, pulse.High, f[len(f)-1][arm])
	for _, fr := range f[:len(f)-1] {
		assert.Equal(t, pulse.Low, fr[arm])
	}
}

// The craft hears the radio of whoever has the sticks.
func TestThePlugIsThatOfWhoeverFlies(t *testing.T) {
	p, i := newHand(), newHand()
	i.move(arm, pulse.High).wait(20).move(taker, pulse.High).wait(20).move(roll, pulse.Micros(1234)).wait(20).move(taker, pulse.Low)
	p.wait(10).tell(pulse.Plug, 0).wait(60).tell(pulse.Plug, 1).tell(pulse.Link, 1)
	var told []pulse.Reading
	for _, r := range all(t, p, i, config()) {
		if r.Kind != pulse.Controls {
			told = append(told, r)
		}
	}
	assert.Equal(t, []pulse.Reading{
		{Kind: pulse.Plug, Value: 1}, {At: 10 * ms, Kind: pulse.Plug, Value: 0},
		deed(20*ms, 1), {At: 20 * ms, Kind: pulse.Plug, Value: 1},
		deed(60*ms, 0), {At: 60 * ms, Kind: pulse.Plug, Value: 0}, {At: 70 * ms, Kind: pulse.Plug, Value: 1}, {At: 70 * ms, Kind: pulse.Link, Value: 1},
	}, told)
}

func TestBenchInputsOfBothAreHeard(t *testing.T) {
	p, i := newHand().wait(5).tell(pulse.Gap, 3).tell(pulse.Power, 1), newHand().wait(5).tell(pulse.Gap, 7).tell(pulse.Nudge, 0).wait(5).move(taker, pulse.High).tell(pulse.Gap, 9)
	var told []pulse.Kind
	var gaps []int32
	for _, r := range all(t, p, i, config()) {
		if r.Kind != pulse.Controls {
			told = append(told, r.Kind)
		}
		if r.Kind == pulse.Gap {
			gaps = append(gaps, r.Value)
		}
	}
	assert.Equal(t, []pulse.Kind{pulse.Plug, pulse.Gap, pulse.Power, pulse.Nudge, pulse.Instructor, pulse.Gap}, told)
	assert.Equal(t, []int32{3, 9}, gaps)
}

func TestTheSecondRadioMayBeOpenedLater(t *testing.T) {
	cfg := config()
	cfg.Later = 500 * ms
	assert.Contains(t, all(t, newHand(), newHand().wait(20).move(taker, pulse.High), cfg), deed(520*ms, 1))
	cfg.Later = -500 * ms
	assert.Contains(t, all(t, newHand(), newHand().wait(20).move(taker, pulse.High), cfg), deed(0, 1), "never before the opening")
}

func TestBadConfig(t *testing.T) {
	room := wordstest.Of("pair")
	for want, bend := range map[string]func(*pair.Config){
		"channel 17":              func(c *pair.Config) { c.Switch = 16 },
		"channel 0":               func(c *pair.Config) { c.Switch = -1 },
		"arm switch has channel":  func(c *pair.Config) { c.Arm = 16 },
		"leave a place":           func(c *pair.Config) { c.ArmSpan = pair.Span{Low: pulse.Lowest, High: pulse.Highest} },
		"is empty":                func(c *pair.Config) { c.SwitchSpan = pair.Span{} },
		"cannot both arm and":     func(c *pair.Config) { c.Arm = taker },
		"no channel changes hand": func(c *pair.Config) { c.Sticks = 0 },
	} {
		cfg := config()
		bend(&cfg)
		_, err := pair.New(newHand(), newHand(), cfg)
		assert.ErrorContains(t, err, want)
		room.Error(t, err)
	}
	_, err := pair.New(nil, newHand(), config())
	assert.Error(t, err)
	room.Error(t, err)
	room.Whole(t)
	cfg := config()
	cfg.Arm = -1
	s := made(t, newHand(), newHand().move(taker, pulse.High).move(taker, pulse.Low), cfg)
	got, _ := s.Poll(nil, 100)
	assert.Contains(t, got, deed(0, 0), "a craft armed by sticks")
}

func fake(vanish int64, moves func(*inputtest.Radio)) input.Source {
	info := input.Info{Name: "Desk", Buttons: 8}
	for i := range 6 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 4095})
	}
	file := radio.File{Device: radio.Device{Name: "Desk"}, StickMode: 2, Controls: []radio.Control{
		{Job: "throttle", Form: radio.Axis, Axis: 2}, {Job: "roll", Form: radio.Axis, Axis: 0}, {Job: "pitch", Form: radio.Axis, Axis: 1},
		{Job: "yaw", Form: radio.Axis, Axis: 3}, {Job: "arm", Form: radio.Button, Buttons: []int{4}}, {Job: "channel 8", Form: radio.Button, Buttons: []int{5}},
	}}
	r := inputtest.NewRadio(info)
	r.Rest(2, 0)
	moves(r)
	if vanish > 0 {
		r.Vanish(vanish)
	}
	r.Until(9_000 * ms)
	names := input.Names{Channel: map[string]int{"throttle": throttle, "roll": roll, "pitch": pitch, "yaw": yaw, "arm": arm}}
	s, err := radio.NewSource(radio.Config{Device: r.Open(0), File: file, Names: names})
	if err != nil {
		panic(err)
	}
	return s
}

func TestConformance(t *testing.T) {
	pupils := func(r *inputtest.Radio) {
		r.Noise(0, 3, 1)
		r.Move(500*ms, 700*ms, 2, 3000)
		r.Press(1000*ms, 4, true)
		r.Lose(6000*ms, 6200*ms)
		r.Press(7000*ms, 4, false)
	}
	masters := func(r *inputtest.Radio) {
		r.Noise(3, 2, 5)
		r.Press(100*ms, 4, true)
		r.Press(2000*ms, 5, true)
		r.Move(2100*ms, 900*ms, 1, 4000)
		r.Lose(2500*ms, 2600*ms)
		r.Press(3500*ms, 5, false)
		r.Press(4000*ms, 4, false)
		r.Press(5000*ms, 5, true)
	}
	two := func(p, i int64) func() input.Source {
		return func() input.Source { return made(t, fake(p, pupils), fake(i, masters), config()) }
	}
	inputtest.TestSource(t, two(0, 0), inputtest.Want{NoAlloc: true})
	inputtest.TestSource(t, two(0, 5_500*ms), inputtest.Want{})
	inputtest.TestSource(t, two(5_500*ms, 0), inputtest.Want{End: input.ErrGone})
	inputtest.TestSource(t, two(5_500*ms, 3_000*ms), inputtest.Want{End: input.ErrGone})
	for _, end := range []int64{300, 900} { // whichever of two that end is the longer one
		inputtest.TestSource(t, func() input.Source {
			p, i := newHand().wait(end).move(roll, pulse.High), newHand().wait(600).move(taker, pulse.High)
			p.end, i.end = input.ErrEnd, input.ErrEnd
			return made(t, p, i, config())
		}, inputtest.Want{End: input.ErrEnd})
	}
	inputtest.TestSource(t, func() input.Source {
		names := input.Names{Channel: map[string]int{"roll": roll, "pitch": pitch, "throttle": throttle, "yaw": yaw, "arm": arm, "mode": mode}}
		p, i := keyboard.New(names), keyboard.New(names)
		p.Press(keyboard.RollLeft, 100*ms)
		i.Press(keyboard.Extra, 400*ms) // on the lowest channel without a job
		i.Press(keyboard.Arm, 500*ms)
		i.Press(keyboard.ThrottleUp, 600*ms)
		i.Press(keyboard.Extra, 900*ms)
		cfg := config()
		cfg.Switch = 6
		return made(t, p, i, cfg)
	}, inputtest.Want{NoAlloc: true})
}

func TestEndsAndCloses(t *testing.T) {
	p, i := newHand(), newHand()
	broken := errors.New("broken")
	i.move(arm, pulse.High).wait(10).move(taker, pulse.High)
	i.end = broken
	s := made(t, p, i, config())
	got, err := s.Poll(nil, 100*ms)
	assert.NoError(t, err, "an instructor's source that fails is a radio pulled out")
	assert.Contains(t, got, deed(10*ms, 0))
	assert.Zero(t, s.Taken()&config().Sticks)
	assert.NoError(t, s.Close())
	assert.NoError(t, s.Close())
	assert.Equal(t, []int{1, 1}, []int{p.closed, i.closed})
	assert.Equal(t, "written + written", s.Name())
}

// TestNoHandOverEverArms walks both radios at random, through a whole practice: no movement of the instructor's arms the craft, his arm
// switch always disarms within a slot, and every hand-over is recorded in the tick of its switch.
func TestNoHandOverEverArms(t *testing.T) {
	armed, taken := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p, i := newHand(), newHand()
		p.tell(pulse.Link, 1).tell(pulse.Power, 1)
		i.move(arm, pulse.High)
		p.wait(3000)
		i.wait(3000)
		pupilMoved := map[int64]bool{}
		hisOff := map[int64]bool{} // slots by whose end his arm switch stood off, his radio being there
		at, off, there := int64(3000), false, true
		note := func(until int64) {
			for ; at < until; at++ {
				hisOff[at] = off && there
			}
		}
		for range rapid.IntRange(1, 25).Draw(t, "moves") {
			gap := rapid.SampledFrom([]int64{0, 20, 60, 300, 1300}).Draw(t, "ms")
			note(at + gap)
			p.wait(gap)
			i.wait(gap)
			switch rapid.IntRange(0, 6).Draw(t, "what") {
			case 0, 1:
				p.move(arm, rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.High}).Draw(t, "arm"))
				pupilMoved[at] = true
			case 2:
				p.move(throttle, rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.Low, pulse.Centre}).Draw(t, "throttle"))
			case 3:
				w := rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.High}).Draw(t, "his arm")
				i.move(arm, w)
				off = w == pulse.Low
			case 4:
				i.move(taker, rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.High}).Draw(t, "taker"))
			case 5:
				i.move(throttle, rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.Centre}).Draw(t, "his throttle"))
			case 6:
				v := rapid.SampledFrom([]int32{0, 1, 1}).Draw(t, "his plug")
				i.tell(pulse.Plug, v)
				there = v == 1
			}
		}
		note(at + 60)
		s := made(t, p, i, config())
		pr := practice.New(sim.Default())
		var rs []pulse.Reading
		lastPupil := int64(-1000)
		for tick := int64(0); tick < at; tick++ {
			rs, _ = s.Poll(rs[:0], tick*ms)
			if pupilMoved[tick] {
				lastPupil = tick
			}
			pr.Step(rs)
			hands := 0
			for _, r := range rs {
				if r.Kind == pulse.Instructor {
					hands++
				}
			}
			for _, h := range pr.Happenings() {
				switch h.Code {
				case happening.Armed:
					armed++
					if tick-lastPupil >= 20 {
						t.Fatalf("armed at %d, the pupil's arm switch moved at %d", tick, lastPupil)
					}
				case happening.Instructed:
					hands--
					taken++
				}
			}
			if hands != 0 {
				t.Fatalf("tick %d: %d hand-overs were not recorded", tick, hands)
			}
			if tick >= 3020 && hisOff[tick-20] && hisOff[tick] && pr.Bench().State().Slot.Arming.Armed {
				whole := true
				for back := int64(0); back <= 20; back++ {
					whole = whole && hisOff[tick-back]
				}
				if whole {
					t.Fatalf("tick %d: armed though the instructor's arm switch stood off for a slot", tick)
				}
			}
		}
	})
	assert.Greater(t, armed, 30)
	assert.Greater(t, taken, 30)
}

// That the arm channel is off against the pupil's switch is told: what comes of it is not the pupil's doing.
func TestHoldingOffIsTold(t *testing.T) {
	told := func(p, i *hand) (out [][2]int64) {
		for _, r := range all(t, p, i, config()) {
			if d, n := pulse.InstructorOf(r.Value); r.Kind == pulse.Instructor && d == pulse.DeedArmOff {
				out = append(out, [2]int64{r.At / ms, int64(n)})
			}
		}
		return out
	}
	quiet := newHand()
	quiet.f[arm] = pulse.High
	quiet.put()
	assert.Empty(t, told(newHand().wait(10).move(arm, pulse.High).wait(10).move(arm, pulse.Low), quiet), "his is on: the pupil's counts")
	i := newHand()
	i.f[arm] = pulse.High
	i.put().wait(20).move(arm, pulse.Low).wait(10).move(arm, pulse.High)
	p := newHand().wait(10).move(arm, pulse.High).wait(40).move(arm, pulse.Low).wait(10).move(arm, pulse.High)
	assert.Equal(t, [][2]int64{{20, 1}, {50, 0}}, told(p, i), "until the pupil's was seen off")
	assert.Empty(t, told(newHand(), newHand()), "both are off: nothing is against anything")
}
