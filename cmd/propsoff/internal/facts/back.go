package facts

import (
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/link"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// Back adds to the facts that Of gave last what a silent radio comes to: whether it is heard once it is on again, and whether its craft arms
// with nobody doing anything. It is dearer than all of Of, and only the lost link's own sheet tells of it.
func (t *Teller) Back(f *Facts) {
	if in := &t.snap.In; !in.Powered || in.Transmitting() && !t.now.Faults().Silent(t.now.Tick()) {
		return
	}
	var room [2]Deed
	if on := t.radioBack(room[:0]); len(on) > 0 {
		f.RadioBack = t.try(hearsRadio, t.slots(2), on...).OK
	}
	if !t.snap.Armed {
		a, l := &t.cfg().Arming, &t.cfg().Link
		f.ArmsItself = t.try(armed, t.slots(l.SilenceSlots)+t.slots(l.CleanSlots)+t.slots(a.StillSlots)+t.slots(a.ArmDwell)+t.slots(3))
	}
}

func hearsRadio(p *practice.Practice) bool {
	got := p.Bench().State().Facts.Link
	return got.Received && got.Origin == link.FromRadio
}

// Pilot is what the demonstration's own pilot comes to.
type Pilot uint8

const (
	PilotTries     Pilot = iota // it may fly, or it may not: something planted bends the craft or what its hands send
	PilotFlies                  // it arms the craft, and nothing planted stands against its flying
	PilotCannotArm              // whatever it waits for, it does not arm the craft as it stands
)

// piloted is what was found of that pilot, and of what; it is found again when that changes, or pilotFor ms later.
type piloted struct {
	in       sim.Inputs
	planted  fault.Set
	refusals Set
	tick     int64
	found    Pilot
}

const pilotFor = 200

// Pilot tries it on a practice as it stands. First are the readings with which it is made ready for that pilot, none where it drives
// already.
func (t *Teller) Pilot(p *practice.Practice, first []pulse.Reading) Pilot {
	s := p.Bench().State()
	key := piloted{in: s.In, planted: p.Faults().All() &^ (1 << fault.Receiver), refusals: p.Bench().Refusals(), tick: p.Tick()}
	key.in.Sent = pulse.Frame{}
	was := &t.piloted
	if passed := key.tick - was.tick; key.in == was.in && key.planted == was.planted && key.refusals == was.refusals && passed >= 0 && passed < pilotFor {
		return was.found
	}
	switch {
	case (len(first) > 0 || !p.Bench().Armed()) && !t.pilotArms(p, first):
		key.found = PilotCannotArm
	case key.planted == 0:
		key.found = PilotFlies
	}
	*was = key
	return key.found
}

// pilotArms lets the pilot have a copy of a practice for as long as still time, clean time and its own patience with a refusal.
func (t *Teller) pilotArms(p *practice.Practice, readings []pulse.Reading) bool {
	p.CopyTo(&t.now)
	p.CopyTo(&t.what)
	cfg := t.cfg()
	pilot := lossrun.NewPilot(t.what.Craft(), 1, t.what.Snapshot)
	const patience = 4000
	until := t.what.Tick() + patience + int64(max(t.slots(cfg.Arming.StillSlots), t.slots(cfg.Link.CleanSlots))+t.slots(cfg.Arming.ArmDwell))
	for t.what.Tick() < until {
		readings, _ = pilot.Poll(readings, t.what.Tick()*1000) // it never ends by itself
		if t.what.Leap(readings); t.what.Bench().Armed() {
			return true
		}
		if !t.what.Bench().State().In.Powered {
			return false
		}
		readings = readings[:0]
	}
	return false
}
