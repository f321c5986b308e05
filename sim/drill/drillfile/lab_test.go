package drillfile_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures"
	"propsoff.example/sim"
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/hand"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// teasel is the shipped craft.
func teasel(t testing.TB) sim.Config {
	name, text, ok := assets.Craft("teasel")
	require.True(t, ok)
	f, err := craftfile.Parse(name, text)
	require.NoError(t, err)
	return f.Config()
}

// lab is a real practice, the engine, and what a coach does between them, without a screen: the cue is shown some ms after it is
// due, as a picture is.
type lab struct {
	d    *drillfile.Drill
	base sim.Config
	mode uint8 // the stick mode
	p    *practice.Practice
	s    drill.State
	in   drill.Input
	off  drill.Following
	out  drill.Events
	way  drill.Way
	snap sim.Snapshot

	queue []pulse.Reading
	frame pulse.Frame
	moved bool

	cueAt int64 // tick at which the last cue was seen
	shown int64 // the same, −1 while none is
	due   int64 // at which it will be told
	begun bool  // a try has begun in this tick
	tries []drill.Try
	acted int64 // tick at which the pupil's last act will reach the bench
	noted map[happening.Code]int64
}

// picture is how many ms after it is due a cue is seen.
const picture = 11

func newLab(d *drillfile.Drill, base sim.Config, mode uint8, seed uint64) *lab {
	l := &lab{d: d, base: base, mode: mode, p: practice.New(base), s: drill.Begin(seed), shown: -1, due: -1, noted: map[happening.Code]int64{}}
	lay := &base.Layout
	for c := range l.frame {
		l.frame[c] = pulse.Low
	}
	l.frame[lay.Roll], l.frame[lay.Pitch], l.frame[lay.Yaw] = pulse.Centre, pulse.Centre, pulse.Centre
	l.tell(pulse.Plug, 1)
	l.tell(pulse.StickMode, int32(mode))
	l.moved = true
	return l
}

func (l *lab) tell(k pulse.Kind, v int32) {
	l.queue = append(l.queue, pulse.Reading{Kind: k, Value: v})
	l.acted = l.p.Tick()
}

// move puts one channel somewhere; where it stands there already, nothing has moved.
func (l *lab) move(channel int8, w pulse.Width) {
	if channel == layout.NoChannel || l.frame[channel] == w {
		return
	}
	l.frame[channel] = w
	l.moved = true
	l.acted = l.p.Tick()
}

// answer takes a choice by its code word.
func (l *lab) answer(code string) {
	for i, c := range l.words().Codes {
		if c == code {
			l.in.Answer = i + 1
			l.acted = l.p.Tick()
		}
	}
}

// channel is that of a stick direction by job.
func (l *lab) channel(d gestures.Direction) int8 {
	lay := l.layout()
	return [gestures.Directions]int8{gestures.Throttle: lay.Throttle, gestures.Roll: lay.Roll, gestures.Pitch: lay.Pitch, gestures.Yaw: lay.Yaw}[d]
}

func (l *lab) kase() *drill.Case       { return &l.d.Config.Cases[l.s.Case] }
func (l *lab) words() *drillfile.Words { return &l.d.Cases[l.s.Case] }
func (l *lab) layout() *layout.Config  { return &l.p.Bench().Config().Layout }

// tick runs one ms; hands that have moved are one reading.
func (l *lab) tick() {
	if l.moved {
		l.queue = append(l.queue, pulse.Reading{Kind: pulse.Controls, Frame: l.frame})
		l.moved = false
	}
	l.p.Step(l.queue)
	l.queue = l.queue[:0]
	l.p.Snapshot(&l.snap)
	l.in.Tick, l.in.Happened = l.snap.Tick, l.p.Happenings()
	l.in.Facts = drill.FactsOf(&l.snap, l.p.Bench().Config())
	for _, h := range l.in.Happened {
		l.noted[h.Code] = h.Tick
	}
	l.in.Cued = l.due == l.in.Tick
	if l.in.Cued {
		l.in.CueAt, l.in.Uncertain = l.in.Tick, 17
		l.shown, l.cueAt, l.due = l.in.Tick, l.in.Tick, -1
	}
	l.in.Followed = false
	if l.off.Step(&l.d.Config, &l.s, &l.in, &l.p.Bench().Config().Control) {
		r := hand.Of(&l.off.Run.Record)
		l.in.Followed, l.in.Hand = true, r.Whole(&l.off.Run.Record)
	}
	l.s = drill.Step(&l.d.Config, l.s, &l.in, &l.out)
	l.way.Step(&l.s, &l.in)
	l.in.Answer, l.in.On = 0, l.s.Phase == drill.Looking // seen, and on
	l.begun = false
	for _, e := range l.out.All() {
		switch e.Kind {
		case drill.TryBegins:
			l.begun, l.shown = true, -1
			l.noted = map[happening.Code]int64{}
		case drill.UseCraft:
			l.p.Change(l.d.Config.Cases[e.Case].Craft.On(l.base))
			if l.snap.In.Powered {
				l.tell(pulse.Power, 1)
			}
		case drill.Tell:
			if r, ok := e.Put.Reading(l.layout()); ok {
				l.queue = append(l.queue, r)
			}
		case drill.CueNow:
			l.due = l.in.Tick + picture
		case drill.TryEnds:
			l.tries = append(l.tries, e.Try)
			l.shown = -1
		}
	}
}
