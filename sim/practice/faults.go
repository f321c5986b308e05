package practice

import (
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// faults are what an instructor planted, and what of the craft they may bend as the craft has it.
type faults struct {
	state  fault.State
	link   link.Config
	layout layout.Config
	told   [1]pulse.Reading // room for what the bench is told in place of a reading
}

// stepBench steps the bench with these readings, bent by what is planted. While nothing is, the bench gets them as they are.
func (p *Practice) stepBench(readings []pulse.Reading, leap bool) {
	f := &p.faults
	tick := p.bench.Tick()
	bent := f.state.Any()
	for i := range readings {
		r := &readings[i]
		changed := f.state.Take(r, tick)
		if !bent && changed != 0 {
			bent = true
			p.bench.Apply(readings[:i], &p.log)
		}
		if !bent {
			continue
		}
		switch r.Kind {
		case pulse.Controls: // told below, once, bent
		case pulse.Cable:
			p.tell(pulse.Cable, f.state.Cable())
		case pulse.Pack:
			p.tell(pulse.Pack, f.state.Pack())
		case pulse.Propellers:
			p.tell(pulse.Propellers, f.state.Propellers())
		default:
			p.bench.Apply(readings[i:i+1], &p.log)
		}
		p.turn(changed)
	}
	if !bent {
		p.goOn(readings, leap)
		return
	}
	if leap {
		tick += p.bench.ToSlot()
	}
	if frame, ok := f.state.Frame(tick); ok {
		f.told[0] = pulse.Reading{Kind: pulse.Controls, Frame: frame}
		p.bench.Apply(f.told[:], &p.log)
	}
	if f.state.Silent(tick) {
		p.stepSilent(leap)
		return
	}
	p.goOn(nil, leap)
}

func (p *Practice) goOn(readings []pulse.Reading, leap bool) {
	if leap {
		p.bench.Leap(readings, &p.log)
	} else {
		p.bench.Step(readings, &p.log)
	}
}

// turn tells the bench at once what just-planted or just-lifted faults make of the bench inputs and the craft.
func (p *Practice) turn(changed fault.Set) {
	f := &p.faults
	if changed.Has(fault.CableIn) {
		p.tell(pulse.Cable, f.state.Cable())
	}
	if changed.Has(fault.LowPack) {
		p.tell(pulse.Pack, f.state.Pack())
	}
	if changed.Has(fault.WrongPropeller) {
		p.tell(pulse.Propellers, f.state.Propellers())
	}
	if changed.Has(fault.Breeze) || changed.Has(fault.Gusts) {
		p.tell(pulse.Wind, f.state.Wind())
	}
	if changed.Has(fault.LevelOff) {
		p.tell(pulse.LevelOff, f.state.LevelOff())
	}
	if changed&fault.BendsCraft != 0 {
		p.bendCraft()
	}
}

func (p *Practice) tell(k pulse.Kind, value int32) {
	p.faults.told[0] = pulse.Reading{Kind: k, Value: value}
	p.bench.Apply(p.faults.told[:], &p.log)
}

// stepSilent steps a bench that no frame reaches, though the radio's own switch stays as it is: nothing on the pupil's side gives the
// reason away.
func (p *Practice) stepSilent(leap bool) {
	s := p.bench.State()
	on := s.In.Transmitter
	s.In.Transmitter = false
	p.bench.Restore(s)
	p.goOn(nil, leap)
	s = p.bench.State()
	s.In.Transmitter = on
	p.bench.Restore(s)
}

// bendCraft bends the bench's craft. A receiver that turns into another one knows what it would know had it been that one since
// power-up.
func (p *Practice) bendCraft() {
	f, cfg := &p.faults, p.bench.Config()
	was := cfg.Link.OnLoss
	f.bend(cfg)
	if cfg.Link.OnLoss == was {
		return
	}
	s := p.bench.State()
	l := &s.Slot.Link
	l.Heard, l.Last = false, pulse.Frame{}
	if got := s.Facts.Link.Frame; cfg.Link.OnLoss != link.FallsSilent && got != (pulse.Frame{}) {
		l.Heard = true
		if cfg.Link.OnLoss == link.RepeatsLast {
			l.Last = got
		}
	}
	p.bench.Restore(s)
}

// useCraft keeps what of a craft may be bent, and bends it.
func (f *faults) useCraft(cfg *sim.Config) {
	f.link, f.layout = cfg.Link, cfg.Layout
	f.bend(cfg)
}

// bend gives cfg the craft's own receiver and mode spans, bent by what is planted.
func (f *faults) bend(cfg *sim.Config) {
	cfg.Link, cfg.Layout = f.link, f.layout
	f.state.Craft(&cfg.Link, &cfg.Layout)
}

// Faults are what is planted; to be read until the next Step.
func (p *Practice) Faults() *fault.State { return &p.faults.state }

// Hands is what the pupil's hands really send, unbent; nil before the first reading of controls. To be read until the next Step.
func (p *Practice) Hands() *pulse.Frame { return p.faults.state.Hands() }

// Craft is the craft as it is without faults. To make another craft of it, begin with this one: that of Bench may be bent.
func (p *Practice) Craft() sim.Config {
	cfg := *p.bench.Config()
	cfg.Link, cfg.Layout = p.faults.link, p.faults.layout
	return cfg
}

// LikeFaults plants here what is planted in from, for a practice that goes on from there. Call it after New and, where a state is
// put back, after that.
func (p *Practice) LikeFaults(from *Practice) {
	p.faults.state = from.faults.state
	p.faults.bend(p.bench.Config())
}
