package practice_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

func instructor(value int32) []pulse.Reading {
	return []pulse.Reading{{Kind: pulse.Instructor, Value: value}}
}

// drawFault draws a fault with numbers that it can have.
func drawFault(t *rapid.T, not ...pulse.Deed) pulse.Reading {
	d := pulse.Deed(rapid.IntRange(1, int(fault.Count)-1).Filter(func(n int) bool {
		for _, x := range not {
			if pulse.Deed(n) == x {
				return false
			}
		}
		return true
	}).Draw(t, "fault"))
	m := fault.Of(d)
	for {
		a := rapid.Int32Range(m.A.Low, m.A.High).Draw(t, "a")
		b := rapid.Int32Range(m.B.Low, m.B.High).Draw(t, "b")
		if d == fault.Dropouts {
			a, b = min(a, 900), b/10*10%4000
		}
		if v, ok := fault.Plant(d, a, b); ok {
			return pulse.Reading{Kind: pulse.Instructor, Value: v}
		}
	}
}

// drawDeed draws what an instructor may do next.
func drawDeed(t *rapid.T, not ...pulse.Deed) pulse.Reading {
	switch rapid.IntRange(0, 5).Draw(t, "deed") {
	case 0:
		return pulse.Reading{Kind: pulse.Instructor, Value: fault.LiftAll()}
	case 1:
		d := pulse.Deed(rapid.IntRange(1, int(fault.Count)-1).Draw(t, "lifted"))
		return pulse.Reading{Kind: pulse.Instructor, Value: fault.Lift(d)}
	}
	return drawFault(t, not...)
}

// drawHand draws what a pupil whose hands hold f may do next.
func drawHand(t *rapid.T, f *pulse.Frame) pulse.Reading {
	tell := func(k pulse.Kind, of ...int32) pulse.Reading {
		return pulse.Reading{Kind: k, Value: rapid.SampledFrom(of).Draw(t, "value")}
	}
	switch rapid.IntRange(0, 14).Draw(t, "hand") {
	case 0:
		return tell(pulse.Link, 0, 1, 1, 1)
	case 1:
		return tell(pulse.Plug, 0, 1, 1, 1)
	case 2:
		return tell(pulse.Power, 0, 1, 1, 1, 1)
	case 3:
		return tell(pulse.Cable, 0, 0, 1)
	case 4:
		return tell(pulse.Pack, 0, 12000, 16000)
	case 5, 6, 7:
		f[4] = rapid.SampledFrom([]pulse.Width{pulse.Low, pulse.High}).Draw(t, "arm")
	default:
		ch := rapid.IntRange(0, 6).Draw(t, "channel")
		f[ch] = pulse.Width(rapid.SampledFrom([]float64{988, 988, 1500, 2012, 999.875, 1000, 1599.875, 1600, 859, 2180, 0}).Draw(t, "µs") * 8)
	}
	return pulse.Reading{Kind: pulse.Controls, Frame: *f}
}

// TestFaultsNeverBreakTheRules walks pupil and instructor at random and holds what comes of it against the rules of a receiver that
// falls silent, judged by the frames that the craft got, without any of the bench's own counters.
func TestFaultsNeverBreakTheRules(t *testing.T) {
	walks, armings, lost := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		walks++
		cfg := sim.Default()
		cfg.Arming.SinkSlots = sim.Slots(rapid.SampledFrom([]int{0, 300}).Draw(t, "sink ms"), cfg.SlotTicks)
		cfg.Arming.OnlySelfLevelling = rapid.Bool().Draw(t, "only self-levelling")
		cfg.Arming.PackLimitMilliVolts = 13000
		p := practice.New(cfg)
		f := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low, pulse.Low}
		p.Step(start())
		var s sim.Snapshot
		was, outside, first, silent := false, false, true, 0
		run := func(ms int, rs []pulse.Reading) {
			for range ms {
				p.Step(rs)
				rs = nil
				p.Snapshot(&s)
				if p.HappeningsLost() > 0 {
					t.Fatalf("happenings found no room")
				}
				for _, h := range p.Happenings() {
					if h.Code == happening.LinkLost {
						lost++
					}
					if h.Code == happening.Power {
						was, outside, silent, first = false, false, 0, true
					}
				}
				if !s.Armed && s.Motor != [4]uint16{} {
					t.Fatalf("disarmed, and motors at %v", s.Motor)
				}
				if !p.Bench().SlotRan() {
					if s.Armed && !was {
						t.Fatalf("armed between two slots")
					}
					was = was && s.Armed
					continue
				}
				valid := s.Receiving && link.ValidFrame(cfg.Link.Needed, &s.Received)
				in := cfg.Layout.ArmSpan.Contains(s.Received[4])
				if s.Armed && !was {
					armings++
					switch {
					case first:
						t.Fatalf("armed in the slot of power-up")
					case s.Refusals != 0:
						t.Fatalf("armed with refusals %b", s.Refusals)
					case !valid || !in || !outside:
						t.Fatalf("armed though the arm channel did not enter its span: valid %v in %v, before outside %v", valid, in, outside)
					case s.Received[0] >= pulse.Micros(1000):
						t.Fatalf("armed with throttle at %d µs", s.Received[0].Whole())
					}
				}
				if s.Armed && s.Receiving && s.Received[4].Valid() && !in {
					t.Fatalf("armed though the arm channel stands at %d µs", s.Received[4].Whole())
				}
				if silent++; valid {
					silent, outside = 0, !in
				}
				if s.Armed && silent >= int(cfg.Link.SilenceSlots)+int(cfg.Arming.SinkSlots) {
					t.Fatalf("armed %d slots after the last valid frame", silent)
				}
				was, first = s.Armed, false
			}
		}
		run(2200, nil)
		for range rapid.IntRange(1, 30).Draw(t, "moves") {
			var r pulse.Reading
			switch rapid.IntRange(0, 3).Draw(t, "who") {
			case 0:
				r = drawDeed(t, fault.Receiver) // the other two receivers are known to break some of this
			case 1: // a pupil who knows how
				f = pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low, pulse.Low}
				run(rapid.SampledFrom([]int{40, 1300}).Draw(t, "ms"), []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Plug, Value: 1}, {Kind: pulse.Power, Value: 1},
					{Kind: pulse.Cable}, {Kind: pulse.Pack, Value: 16000}, {Kind: pulse.Controls, Frame: f}})
				f[4] = pulse.High
				r = pulse.Reading{Kind: pulse.Controls, Frame: f}
			default:
				r = drawHand(t, &f)
			}
			run(rapid.SampledFrom([]int{1, 7, 20, 60, 250, 900, 1300}).Draw(t, "ms"), []pulse.Reading{r})
		}
	})
	assert.Greater(t, armings, walks/2, "the walk proves little")
	assert.Greater(t, lost, walks/5) // for each walk: rapid takes a fifth of them where tests are to be short
}

// TestAReplayBendsAgain plays everything that happened, as a take holds it, into another practice, which now and then is put together
// afresh as a rewind does it, and into one that gets each tick's readings one by one.
func TestAReplayBendsAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := sim.Default()
		cfg.Link.OnLoss = rapid.SampledFrom([]link.OnLoss{link.FallsSilent, link.RepeatsLast, link.SendsStored}).Draw(t, "receiver")
		live, replay := practice.New(cfg), practice.New(cfg)
		f := start()[3].Frame
		rs := start()
		for range rapid.IntRange(1, 40).Draw(t, "moves") {
			for ms := rapid.IntRange(1, 700).Draw(t, "ms"); ms > 0; ms-- {
				live.Step(rs)
				replay.Step(append([]pulse.Reading(nil), rs...))
				rs = nil
				if live.Digest() != replay.Digest() {
					t.Fatalf("tick %d differs", live.Tick())
				}
			}
			if rapid.Bool().Draw(t, "rewound") {
				copied := *replay
				replay = &copied
			}
			for range rapid.IntRange(0, 4).Draw(t, "at once") {
				if rapid.Bool().Draw(t, "instructor") {
					rs = append(rs, drawDeed(t))
				} else {
					rs = append(rs, drawHand(t, &f))
				}
			}
		}
		if live.Bench().State() != replay.Bench().State() || *live.Faults() != *replay.Faults() {
			t.Fatal("states differ")
		}
	})
}

// TestLiftedLeavesNothing plants and lifts at random beside a practice without an instructor. Once everything is lifted the craft is the
// craft again and all that stands outside it is as the pupil has it; and after the next power-up, or once hands and link have come to
// rest, nothing of it is left.
func TestLiftedLeavesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := sim.Default()
		cfg.Link.OnLoss = rapid.SampledFrom([]link.OnLoss{link.FallsSilent, link.RepeatsLast, link.SendsStored}).Draw(t, "receiver")
		with, without := practice.New(cfg), practice.New(cfg)
		both := func(ms int, rs ...pulse.Reading) {
			for range ms {
				with.Step(rs)
				without.Step(rs)
				rs = nil
			}
		}
		f := start()[3].Frame
		both(1, start()...)
		for range rapid.IntRange(1, 20).Draw(t, "moves") {
			if rapid.Bool().Draw(t, "instructor") {
				with.Step([]pulse.Reading{drawDeed(t)})
				without.Step(nil)
			} else {
				both(1, drawHand(t, &f))
			}
			both(rapid.IntRange(1, 500).Draw(t, "ms"))
		}
		with.Step(instructor(fault.LiftAll()))
		without.Step(nil)
		a, b := with.Bench().State().In, without.Bench().State().In
		a.Craft.Moved, b.Craft.Moved = false, false
		if a != b {
			t.Fatalf("outside the craft %+v is left, %+v would be", a, b)
		}
		if *with.Bench().Config() != *without.Bench().Config() || with.Craft() != cfg {
			t.Fatal("the craft is not the craft again")
		}
		f = start()[3].Frame
		rest := []pulse.Reading{{Kind: pulse.Plug, Value: 1}, {Kind: pulse.Link, Value: 1}, {Kind: pulse.Controls, Frame: f}}
		if rapid.Bool().Draw(t, "power off and on") {
			both(5, append(rest, pulse.Reading{Kind: pulse.Power})...)
			both(1, pulse.Reading{Kind: pulse.Power, Value: 1})
			both(rapid.IntRange(0, 3000).Draw(t, "ms"))
			if with.Bench().State() != without.Bench().State() {
				t.Fatalf("after power-up\n%+v is left,\n%+v would be", with.Bench().State(), without.Bench().State())
			}
			return
		}
		both(4000, append(rest, pulse.Reading{Kind: pulse.Power, Value: 1})...)
		if x, y := with.Bench().State(), without.Bench().State(); x.Slot != y.Slot || x.Facts != y.Facts || x.Flight != y.Flight || x.Motor != y.Motor || x.LastValid != y.LastValid {
			t.Fatalf("at rest\n%+v is left,\n%+v would be", x, y)
		}
	})
}

// Whatever is not a fault changes nothing, and a bench that only sees marks and hand-overs does what it does without them.
func TestOtherDeedsBendNothing(t *testing.T) {
	with, without := practice.New(sim.Default()), practice.New(sim.Default())
	with.Step(start())
	without.Step(start())
	for i := range int32(600) {
		d := pulse.Deed(i % 256)
		if fault.Code(d) != "" {
			d = pulse.DeedMark
		}
		with.Step(instructor(pulse.InstructorValue(d, i)))
		without.Step(nil)
		require.False(t, with.Faults().Any())
		require.Equal(t, without.Bench().State(), with.Bench().State())
	}
}

// A receiver that is planted while the radio is silent already knows what it would, had it always been that.
func TestAReceiverPlantedLateRepeatsTheLast(t *testing.T) {
	p := practice.New(sim.Default())
	var s sim.Snapshot
	frame := start()[3].Frame
	frame[4] = pulse.High
	p.Step(start())
	for range 2500 {
		p.Step(nil)
	}
	p.Step([]pulse.Reading{{Kind: pulse.Controls, Frame: frame}})
	for range 100 {
		p.Step(nil)
	}
	p.Step([]pulse.Reading{{Kind: pulse.Link, Value: 0}, faulty(t, fault.Receiver, int32(link.RepeatsLast), 0)})
	for range 1000 {
		p.Step(nil)
	}
	p.Snapshot(&s)
	assert.True(t, s.Armed && s.Receiving && s.Link == link.Good, "the craft cannot know")
	assert.Equal(t, frame, s.Received)
	p.Step(instructor(fault.Lift(fault.Receiver)))
	for range 260 {
		p.Step(nil)
	}
	p.Snapshot(&s)
	assert.True(t, !s.Armed && !s.Receiving && s.Refusals.Has(arming.NoLink), "lifted, the silence is heard")
}

// A craft that is changed for another has the same faults; what is planted goes with a copy, and Craft is the craft without.
func TestFaultsOutliveTheCraft(t *testing.T) {
	p := practice.New(sim.Default())
	p.Step(append(start(), faulty(t, fault.ModeGap, 100, 0), faulty(t, fault.Receiver, int32(link.RepeatsLast), 0)))
	other := sim.Default()
	other.Layout.Spans[1].Mode = layout.Angle
	other.Arming.SinkSlots = 50
	p.Change(other)
	p.Step([]pulse.Reading{{Kind: pulse.Power, Value: 1}})
	assert.Equal(t, other, p.Craft())
	l := &p.Bench().Config().Layout
	assert.Equal(t, []layout.Mode{layout.Angle, layout.Rate}, []layout.Mode{l.ModeAt(pulse.Micros(1390)), l.ModeAt(pulse.Centre)})
	assert.Equal(t, link.RepeatsLast, p.Bench().Config().Link.OnLoss)

	q := practice.New(p.Craft())
	q.Bench().Restore(p.Bench().State())
	q.LikeFaults(p)
	f := start()[3].Frame
	f[5] = pulse.Centre
	for _, x := range []*practice.Practice{p, q} {
		x.Step([]pulse.Reading{{Kind: pulse.Controls, Frame: f}, faulty(t, fault.Reversed, 1, 0)})
		for range 60 {
			x.Step(nil)
		}
	}
	assert.Equal(t, p.Bench().State(), q.Bench().State())
	assert.Equal(t, f, *p.Hands())
	p.Step(instructor(fault.LiftAll()))
	assert.Equal(t, other, *p.Bench().Config())
}

// manyFaults is a practice with everything planted that bends frames in time.
func manyFaults(t require.TestingT) *practice.Practice {
	p := practice.New(sim.Default())
	p.Step(append(start(), faulty(t, fault.Noisy, 2, 50), faulty(t, fault.ShortTravel, 1, 995), faulty(t, fault.Reversed, 3, 0), faulty(t, fault.OffCentre, 4, 20),
		faulty(t, fault.Swapped, 7, 8), faulty(t, fault.Stuck, 9, 0), faulty(t, fault.Dropouts, 100, 1000), faulty(t, fault.ModeGap, 100, 0), faulty(t, fault.LowPack, 13000, 0)))
	return p
}

func TestFaultsAllocateNothing(t *testing.T) {
	p := manyFaults(t)
	one := start()[3:]
	lift, plant := instructor(fault.Lift(fault.Receiver)), []pulse.Reading{faulty(t, fault.Receiver, 1, 0)}
	var s sim.Snapshot
	i := 0
	assert.Zero(t, testing.AllocsPerRun(5000, func() {
		i++
		one[0].Frame[0] = pulse.Low + pulse.Width(i%4000)
		p.Step(one)
		if i%50 == 0 {
			p.Step(plant)
			p.Step(lift)
		}
		p.Snapshot(&s)
	}))
}

// The digest of a practice with faults is the same on every machine: written down once on amd64.
func TestFaultDigestIsTheSameOnEveryMachine(t *testing.T) {
	p := manyFaults(t)
	one := start()[3:]
	for i := range 5000 {
		one[0].Frame[5] = pulse.Low + pulse.Width(i/500%3)*pulse.Travel
		p.Step(one)
	}
	assert.Equal(t, faultDigest, p.Digest())
}

const faultDigest = uint64(0xa86bf644eab2e9d7)

// BenchmarkFaults is a millisecond of everything with nine faults planted, and one while the radio is silent by one of them.
func BenchmarkFaults(b *testing.B) {
	for _, silent := range []bool{false, true} {
		b.Run(map[bool]string{false: "bent", true: "silent"}[silent], func(b *testing.B) {
			p := manyFaults(b)
			if silent {
				p.Step([]pulse.Reading{faulty(b, fault.RadioOff, 0, 0)})
			}
			one := start()[3:]
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				one[0].Frame[0] = pulse.Low + pulse.Width(i%4000)
				p.Step(one)
			}
			b.ReportMetric(1e6/(float64(b.Elapsed().Nanoseconds())/float64(b.N)), "×real-time")
		})
	}
}
