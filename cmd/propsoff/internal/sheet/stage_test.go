package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/sim"
	"propsoff/sim/craftfile"
	"propsoff/sim/fault"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// stage is a real bench that is stepped by readings, and the view that a window would make of it.
type stage struct {
	t     testing.TB
	p     *practice.Practice
	cfg   *sim.Config
	v     *View
	queue []pulse.Reading
	frame pulse.Frame
	// told tells the facts of what is shown.
	told facts.Teller
}

// whose is the hand that drives.
func (s *stage) whose() facts.Whose {
	switch s.v.Driver {
	case Keyboard:
		return facts.Whose{Hand: facts.Keyboard}
	case Radio:
		return facts.Whose{Hand: facts.Radio}
	case Nobody:
		return facts.Whose{Hand: facts.Nobody}
	case Played:
		if !s.v.Ended {
			return facts.Whose{Hand: facts.Played}
		}
	}
	return facts.Whose{Hand: facts.NoHand}
}

// facts gives the view the facts of the bench as it stands.
func (s *stage) facts() {
	s.v.Facts = s.told.Of(s.p, s.whose())
	s.v.Facts.Plain = s.v.Drills.Run.On // as the screen does
	s.v.Refusals.Update(&s.v.Facts)
}

// craft reads a craft file.
func craft(t testing.TB, text string) (sim.Config, string) {
	f, err := craftfile.Parse("test.yaml", []byte(text))
	require.NoError(t, err)
	return f.Config(), f.Name
}

func shipped(t testing.TB, name string) (sim.Config, string) {
	_, text, ok := assets.Craft(name)
	require.True(t, ok)
	return craft(t, string(text))
}

// newStage sets up a bench with radio and pack off and nothing sent.
func newStage(t testing.TB, cfg sim.Config, name string) *stage {
	s := &stage{t: t, cfg: &cfg, p: practice.New(cfg)}
	s.v = &View{Config: &cfg, CraftName: name, Refusals: &Refusals{}, Driver: Keyboard, Next: Demo, Reading: -1, StickMode: 2}
	for c := range 4 {
		s.frame[c] = pulse.Centre
	}
	s.frame[cfg.Layout.Throttle] = pulse.Low
	for _, c := range []int8{cfg.Layout.Arm, cfg.Layout.Second, cfg.Layout.Mode} {
		if c >= 0 {
			s.frame[c] = pulse.Low
		}
	}
	return s
}

// on connects everything: radio plugged and sending, pack in.
func (s *stage) on() *stage {
	s.tell(pulse.Plug, 1).tell(pulse.Link, 1).tell(pulse.Power, 1)
	return s.send()
}

func (s *stage) tell(k pulse.Kind, value int32) *stage {
	s.queue = append(s.queue, pulse.Reading{Kind: k, Value: value})
	return s
}

// plant plants a fault with its numbers.
func (s *stage) plant(d pulse.Deed, a, b int32) *stage {
	v, ok := fault.Plant(d, a, b)
	require.True(s.t, ok)
	return s.tell(pulse.Instructor, v)
}

func (s *stage) send() *stage {
	s.queue = append(s.queue, pulse.Reading{Kind: pulse.Controls, Frame: s.frame})
	return s
}

// set moves one channel, counted from 0.
func (s *stage) set(channel int8, us int) *stage {
	s.frame[channel] = pulse.Micros(us)
	return s.send()
}

// glide moves one channel to a value within some time.
func (s *stage) glide(channel int8, us, ms int) *stage {
	from := s.frame[channel]
	for i := 1; i <= ms; i++ {
		s.frame[channel] = from + pulse.Width(int(pulse.Micros(us)-from)*i/ms)
		s.send().wait(1)
	}
	return s
}

// wait steps the bench and keeps what a window would.
func (s *stage) wait(ms int) *stage {
	for range ms {
		s.p.Step(s.queue)
		s.queue = s.queue[:0]
		s.v.Happenings = append(s.v.Happenings, s.p.Happenings()...)
		s.p.Snapshot(&s.v.Snap)
		s.fly()
		tick := s.v.Snap.Tick
		if tick%loop.PointTicks == 0 {
			b := s.p.Bench().State()
			s.v.Chart = append(s.v.Chart, loop.Point{Tick: tick, Sent: b.In.Sent, HasSent: b.In.HasSent, Transmitting: b.In.Transmitting(),
				Powered: b.In.Powered, Armed: b.Slot.Arming.Armed, Link: b.Slot.Link.Phase, Motor: b.Motor})
			if n := len(s.v.Chart) - loop.ChartTicks/loop.PointTicks - 1; n > 0 {
				s.v.Chart = s.v.Chart[n:]
			}
		}
		if tick%16 == 0 {
			s.facts()
		}
	}
	s.facts()
	return s
}
