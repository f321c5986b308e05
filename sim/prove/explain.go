package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/link"
	"slices"
)

// explain gives a broken rule its cause: what the receiver or the radio does, where that is it, else what the bench did.
func (s *search) explain(o *Result, b *broken, x *space) {
	c := &s.l.Config
	slot := int64(c.SlotTicks)
	o.Cause = b.cause
	sticks := c.Arming.By == arming.BySticks
	held, stored := c.Link.OnLoss == link.RepeatsLast, c.Link.OnLoss == link.SendsStored
	made := held || stored
	switch {
	case held && (o.Rule == LossStopsMotors || o.Rule == LinkBackNeverArms || o.Rule == HeldNeverArms):
		o.Cause = HeldSwitch
		if sticks {
			o.Cause = HeldSticks
		}
	case stored && o.Rule == StoredNeverArms && sticks:
		o.Cause = StoredCorner
	case stored && sticks && (o.Rule == LossStopsMotors || o.Rule == LinkBackNeverArms):
		o.Cause = StoredSticks
		if slots, ok := x.disarmsYet(b); ok && o.Rule == LossStopsMotors {
			o.Cause, o.Value = StoredLate, int64(x.most[watchLoss]+slots)*slot
		}
	case stored && (o.Rule == LossStopsMotors || o.Rule == StoredNeverArms):
		o.Cause, o.Value = StoredSwitchOn, int64(c.Link.Stored[c.Layout.Arm])
	case stored && o.Rule == LinkBackNeverArms:
		o.Cause, o.Value = StoredSwitchOff, int64(c.Link.Stored[c.Layout.Arm])
	}
	switch o.Cause {
	case StopsLate:
		o.Value = int64(x.most[watchLoss]) * slot
	case StillTimeShort:
		o.Value = int64(c.Arming.StillSlots) * slot
	case CleanTimeShort:
		o.Value = int64(c.Link.CleanSlots) * slot
	case ArmDwellShort:
		o.Value = int64(c.Arming.ArmDwell) * slot
	case DisarmDwellShort, CornerHeld:
		o.Value = int64(c.Arming.DisarmDwell) * slot
	case LowMarkHigh:
		o.Value = int64(c.Arming.LowThrottle)
	}
	if made && o.Rule == UnheardIsSilent {
		o.Cause = MakesUpFrames
	}
	if b.digit >= 0 {
		d := &x.h.digits[b.digit]
		o.Control = d.control
		at := d.of(uint32(x.plainKey(b.to) & x.c.handMask))
		for i := range d.classes { // where it sends no pulse, that place is what matters
			k := &d.classes[i]
			if b.cause == ControlNoPulse && !k.sign.valid || b.cause == NoiseCrosses && k.calm && k.trembles == d.classes[at].trembles {
				at = i
			}
		}
		if k := &d.classes[at]; k.trembles != 0 && !k.calm && !k.sign.valid && (b.cause == ControlNoPulse || b.cause == ArmNoPulse) ||
			b.cause == NoiseCrosses && !d.classes[d.of(uint32(x.plainKey(b.to)&x.c.handMask))].sign.valid {
			o.Cause = NoiseNoPulse
			at = slices.IndexFunc(d.classes, func(c class) bool { return c.calm && c.trembles == k.trembles })
		}
		o.Position, o.Value = d.classes[at].position, int64(d.classes[at].width)
	}
}

// disarmsYet goes on from a broken rule with the radio silent, and says after how many more slots the stored sticks disarm.
func (x *space) disarmsYet(b *broken) (slots uint32, ok bool) {
	var s situation
	x.c.unpack(x.plainKey(b.to), &s)
	in := sim.SlotInput{}
	in.Craft.Cable = s.hands&x.h.cable != 0
	for slots < uint32(x.cfg.Arming.DisarmDwell)+1 {
		slots++
		x.log.N = 0
		s.slot, _ = sim.StepSlot(x.cfg, s.slot, &in, 0, &x.log)
		if cornerHeld(disarmedBy(&x.log), x.cfg) {
			return slots, true
		}
	}
	return 0, false
}
