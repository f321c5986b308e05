package uitest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Stage is a real bench that is stepped by readings, and the view that a window would make of it.
type Stage struct {
	t     testing.TB
	P     *practice.Practice
	Cfg   *sim.Config
	V     *ui.View
	Queue []pulse.Reading
	Frame pulse.Frame
	// Told tells the facts of what is shown.
	Told facts.Teller
	// Names are such as stand on the sheet besides those that the view tells of: they are the same in every language.
	Names []string
	// Retell tells again what a scene itself has told with the names of keys, after another hand came: nil where it has told nothing of the kind.
	Retell func()
	// Cut begin or end the names of items that may be cut short: what they tell of is told elsewhere.
	Cut []string
}

// Whose is the hand that drives.
func (s *Stage) Whose() facts.Whose {
	switch s.V.Driver {
	case ui.Keyboard:
		return facts.Whose{Hand: facts.Keyboard}
	case ui.Radio:
		return facts.Whose{Hand: facts.Radio}
	case ui.Nobody:
		return facts.Whose{Hand: facts.Nobody}
	case ui.Played:
		if !s.V.Ended {
			return facts.Whose{Hand: facts.Played}
		}
	}
	return facts.Whose{Hand: facts.NoHand}
}

// Facts gives the view the facts of the bench as it stands.
func (s *Stage) Facts() {
	s.V.Facts = s.Told.Of(s.P, s.Whose())
	s.V.Facts.Plain = s.V.Drilling // as the screen does
	s.V.Refusals.Update(&s.V.Facts)
}

// Craft reads a craft file.
func Craft(t testing.TB, text string) (sim.Config, string) {
	f, err := craftfile.Parse("test.yaml", []byte(text))
	require.NoError(t, err)
	return f.Config(), f.Name
}

// Shipped reads the craft file that ships under a name.
func Shipped(t testing.TB, name string) (sim.Config, string) {
	_, text, ok := assets.Craft(name)
	require.True(t, ok)
	return Craft(t, string(text))
}

// NewStage sets up a bench with radio and pack off and nothing sent.
func NewStage(t testing.TB, cfg sim.Config, name string) *Stage {
	s := &Stage{t: t, Cfg: &cfg, P: practice.New(cfg)}
	s.V = &ui.View{House: AllSheets(), Config: &cfg, CraftName: name, Refusals: &ui.Refusals{}, Driver: ui.Keyboard, Next: ui.Demo, Reading: -1, StickMode: 2}
	for c := range 4 {
		s.Frame[c] = pulse.Centre
	}
	s.Frame[cfg.Layout.Throttle] = pulse.Low
	for _, c := range []int8{cfg.Layout.Arm, cfg.Layout.Second, cfg.Layout.Mode} {
		if c >= 0 {
			s.Frame[c] = pulse.Low
		}
	}
	return s
}

// On connects everything: radio plugged and sending, pack in.
func (s *Stage) On() *Stage {
	s.Tell(pulse.Plug, 1).Tell(pulse.Link, 1).Tell(pulse.Power, 1)
	return s.Send()
}

// Tell puts a reading into the queue for the next step.
func (s *Stage) Tell(k pulse.Kind, value int32) *Stage {
	s.Queue = append(s.Queue, pulse.Reading{Kind: k, Value: value})
	return s
}

// Plant plants a fault with its numbers.
func (s *Stage) Plant(d pulse.Deed, a, b int32) *Stage {
	v, ok := fault.Plant(d, a, b)
	require.True(s.t, ok)
	return s.Tell(pulse.Instructor, v)
}

// Send puts the channels as they stand into the queue.
func (s *Stage) Send() *Stage {
	s.Queue = append(s.Queue, pulse.Reading{Kind: pulse.Controls, Frame: s.Frame})
	return s
}

// Set moves one channel, counted from 0.
func (s *Stage) Set(channel int8, us int) *Stage {
	s.Frame[channel] = pulse.Micros(us)
	return s.Send()
}

// Glide moves one channel to a value within some time.
func (s *Stage) Glide(channel int8, us, ms int) *Stage {
	from := s.Frame[channel]
	for i := 1; i <= ms; i++ {
		s.Frame[channel] = from + pulse.Width(int(pulse.Micros(us)-from)*i/ms)
		s.Send().Wait(1)
	}
	return s
}

// Wait steps the bench and keeps what a window would.
func (s *Stage) Wait(ms int) *Stage {
	for range ms {
		s.P.Step(s.Queue)
		s.Queue = s.Queue[:0]
		s.V.Happenings = append(s.V.Happenings, s.P.Happenings()...)
		s.V.KeepDisarmed(s.P.Happenings())
		s.P.Snapshot(&s.V.Snap)
		s.fly()
		tick := s.V.Snap.Tick
		if tick%live.PointTicks == 0 {
			b := s.P.Bench().State()
			s.V.Chart = append(s.V.Chart, live.Point{Tick: tick, Sent: b.In.Sent, HasSent: b.In.HasSent, Transmitting: b.In.Transmitting(),
				Powered: b.In.Powered, Armed: b.Slot.Arming.Armed, Link: b.Slot.Link.Phase, Motor: b.Motor})
			if n := len(s.V.Chart) - live.ChartTicks/live.PointTicks - 1; n > 0 {
				s.V.Chart = s.V.Chart[n:]
			}
		}
		if tick%16 == 0 {
			s.Facts()
		}
	}
	s.Facts()
	return s
}

// Stand moves the sticks of throttle, roll, pitch and yaw within some ms.
func (s *Stage) Stand(ms int, throttle, roll, pitch, yaw int) *Stage {
	l := &s.Cfg.Layout
	var from [4]pulse.Width
	c := [4]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw}
	for i := range c {
		from[i] = s.Frame[c[i]]
	}
	for n := 1; n <= ms; n++ {
		for i, us := range [4]int{throttle, roll, pitch, yaw} {
			s.Frame[c[i]] = from[i] + pulse.Width(int(pulse.Micros(us)-from[i])*n/ms)
		}
		s.Send().Wait(1)
	}
	return s
}

// KnownMoves are the shipped gestures and menus, which the shipped drills name.
func KnownMoves(t testing.TB) drillfile.Known {
	name, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	f, err := patternfile.Parse(name, text, 20)
	require.NoError(t, err)
	return drillfile.Known{Gestures: &f.Gestures, Menus: &f.Menus}
}

// BluntedNotice is a notice of a usual length.
var BluntedNotice = tell.BluntedCentre("Moorland Desk 7")

// Say writes a text in English.
func Say(t words.Text) string { return words.English().Say(t) }
