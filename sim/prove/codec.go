package prove

import (
	"math/bits"

	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// codec packs one situation into a key of 64 bits and back, exactly. From the lowest bit:
//
//	hands | lane | mode | heard | last | armed, inside, off-first, low | one | two | powered | age | odd
//
// The lane is the link's phase with its counter, of which only one runs at a time. One and two are counters that an armed craft
// and a disarmed one use differently: for disarm dwell and sinking, or for arm dwell and standing still. A state that does not fit
// this form (only a bench with a fault makes any) is kept aside, numbered and marked as odd: so the codec is exact for every state
// there is.
type codec struct {
	h     *hands
	lanes []link.State
	good  int // lane of a good link; its gaps follow, then the clean counts, then the gaps before clean

	laneAt, flagAt, oneAt, twoAt, modeAt, heardAt, lastAt, poweredAt, ageAt, oddAt uint
	handMask, laneMask, flagMask, oneMask, twoMask, modeMask, heardMask, lastMask  uint64
	silence, clean, armFull, still                                                 uint16
	front                                                                          uint64        // mask of link and mode
	up                                                                             sim.SlotState // at power-up
	odd                                                                            []sim.SlotState
	oddAs                                                                          map[sim.SlotState]uint64
	full                                                                           bool // more odd states than keys have room for
}

// situation is one key unpacked.
type situation struct {
	slot    sim.SlotState
	hands   uint32
	powered bool
	// age is the count of the watch that situations are told apart by, 0 where there is none.
	age uint32
}

// newCodec makes the codec for a watch that counts up to mostAge. It reports false where a key would not fit.
func newCodec(h *hands, mostAge uint32) (*codec, bool) {
	cfg := h.cfg
	c := &codec{h: h, silence: cfg.Link.SilenceSlots, clean: cfg.Link.CleanSlots, armFull: cfg.Arming.ArmDwell + 2, still: cfg.Arming.StillSlots, up: cfg.PowerUp()}
	c.up.Layout.Mode = h.foldMode(c.up.Layout.Mode)
	c.lanes = append(c.lanes, link.State{Phase: link.Never}, link.State{Phase: link.Lost})
	c.good = len(c.lanes)
	for g := range max(c.silence, 1) {
		c.lanes = append(c.lanes, link.State{Phase: link.Good, Gap: g})
	}
	for n := uint16(1); n <= c.clean; n++ {
		c.lanes = append(c.lanes, link.State{Phase: link.Fresh, Clean: n})
	}
	for g := uint16(1); g < c.silence; g++ {
		c.lanes = append(c.lanes, link.State{Phase: link.Fresh, Gap: g})
	}

	at := h.bits + 2
	c.handMask = 1<<at - 1
	field := func(where *uint, mask *uint64, most uint64) {
		*where = at
		n := uint(bits.Len64(most))
		if mask != nil {
			*mask = 1<<n - 1
		}
		at += n
	}
	a := &cfg.Arming
	one := uint64(0)
	if a.By == arming.BySticks {
		one = uint64(max(c.armFull, a.DisarmDwell))
	}
	modes, heard, last := uint64(0), uint64(0), uint64(0)
	if h.readsMode() {
		modes = layout.Modes - 1
	}
	if cfg.Link.OnLoss != link.FallsSilent {
		heard = 1
	}
	if cfg.Link.OnLoss == link.RepeatsLast {
		last = uint64(h.sentBits())
	}
	flags := uint64(7)
	if a.SinkSlots > 0 {
		flags = 15
	}
	field(&c.laneAt, &c.laneMask, uint64(len(c.lanes)-1))
	field(&c.modeAt, &c.modeMask, modes)
	field(&c.heardAt, &c.heardMask, heard)
	field(&c.lastAt, &c.lastMask, last)
	field(&c.flagAt, &c.flagMask, flags)
	field(&c.oneAt, &c.oneMask, one)
	field(&c.twoAt, &c.twoMask, uint64(max(a.StillSlots, a.SinkSlots)))
	field(&c.poweredAt, nil, 1)
	field(&c.ageAt, nil, uint64(mostAge))
	field(&c.oddAt, nil, 1)
	c.front = 1<<c.flagAt - 1<<c.laneAt
	c.oddAs = map[sim.SlotState]uint64{}
	return c, at <= 64
}

// pack makes the key. The state's mode must be folded already.
func (c *codec) pack(s *situation) uint64 {
	k := uint64(s.hands) | uint64(s.age)<<c.ageAt
	if !s.powered {
		return k
	}
	k |= 1 << c.poweredAt
	front, ok := c.packFront(&s.slot, s.hands)
	if back, fits := c.packArming(&s.slot.Arming); ok && fits {
		return k | front | back
	}
	n, known := c.oddAs[s.slot]
	if !known {
		n = uint64(len(c.odd))
		c.odd = append(c.odd, s.slot)
		c.oddAs[s.slot] = n
	}
	low := c.poweredAt - c.laneAt // the number's low bits stand where link and arming would, the rest at the very top
	c.full = c.full || n>>low>>(63-c.oddAt) != 0
	return k | n&(1<<low-1)<<c.laneAt | 1<<c.oddAt | n>>low<<(c.oddAt+1)
}

// packFront packs link and mode; false where they do not fit the form.
func (c *codec) packFront(s *sim.SlotState, hands uint32) (uint64, bool) {
	l := &s.Link
	lane, ok := c.lane(l)
	k := lane << c.laneAt
	switch {
	case c.modeMask != 0:
		k |= uint64(s.Layout.Mode) << c.modeAt
	case s.Layout != c.up.Layout:
		ok = false
	}
	switch {
	case c.heardMask != 0:
		k |= uint64(bit(l.Heard)) << c.heardAt
	case l.Heard:
		ok = false
	}
	switch {
	case c.heardMask != 0 && c.h.cfg.Link.OnLoss == link.RepeatsLast && l.Heard:
		h, found := c.sender(hands, &l.Last)
		k |= uint64(h) << c.lastAt
		ok = ok && found
	case l.Last != pulse.Frame{}:
		ok = false
	}
	return k, ok
}

// packArming packs what arming remembers; false where it does not fit the form.
func (c *codec) packArming(a *arming.State) (uint64, bool) {
	flags := uint64(bit(a.Armed) | bit(a.Inside)<<1 | bit(a.OffFirst)<<2 | bit(a.Low)<<3)
	one, two := uint64(a.ArmDwell), uint64(a.Still)
	ok := a.DisarmDwell|a.Sink == 0
	if a.Armed {
		one, two = uint64(a.DisarmDwell), uint64(a.Sink)
		ok = a.ArmDwell == 0 && a.Still == c.still
	}
	return flags<<c.flagAt | one<<c.oneAt | two<<c.twoAt, ok && flags <= c.flagMask && one <= c.oneMask && two <= c.twoMask
}

// lane is that of the link's phase and counter; false where they have none.
func (c *codec) lane(l *link.State) (uint64, bool) {
	switch {
	case l.Phase < link.Fresh:
		return uint64(l.Phase), l.Gap|l.Clean == 0
	case l.Phase == link.Good:
		return uint64(c.good) + uint64(l.Gap), l.Clean == 0 && l.Gap < c.silence
	case l.Gap == 0:
		return uint64(c.good) + uint64(c.silence) + uint64(l.Clean) - 1, l.Clean > 0 && l.Clean <= c.clean
	}
	return uint64(c.good) + uint64(c.silence) + uint64(c.clean) + uint64(l.Gap) - 1, l.Clean == 0 && l.Gap < c.silence
}

// sender finds the hands that sent a frame: most often those that hold the controls now.
func (c *codec) sender(hands uint32, f *pulse.Frame) (uint32, bool) {
	if now := hands & c.h.sentBits(); c.h.frames[now] == *f {
		return now, true
	}
	var h uint32
	for i := range c.h.digits {
		d := &c.h.digits[i]
		for n := range d.classes {
			if c.h.sends(d, n, f) {
				h = d.with(h, n)
				break
			}
		}
	}
	return h, c.h.frames[h] == *f
}

// unpack is the inverse of pack.
func (c *codec) unpack(k uint64, s *situation) {
	s.hands = uint32(k & c.handMask)
	s.powered = k>>c.poweredAt&1 == 1
	s.age = uint32(k & (1<<c.oddAt - 1) >> c.ageAt)
	switch {
	case !s.powered:
		s.slot = c.up
		return
	case k>>c.oddAt&1 == 1:
		s.slot = c.odd[k&(1<<c.poweredAt-1)>>c.laneAt|k>>(c.oddAt+1)<<(c.poweredAt-c.laneAt)]
		return
	}
	l := &s.slot.Link
	*l = c.lanes[k>>c.laneAt&c.laneMask]
	s.slot.Layout = c.up.Layout
	if c.modeMask != 0 {
		s.slot.Layout.Mode = layout.Mode(k >> c.modeAt & c.modeMask)
	}
	if c.heardMask != 0 {
		l.Heard = k>>c.heardAt&1 == 1
		if l.Heard && c.h.cfg.Link.OnLoss == link.RepeatsLast {
			l.Last = c.h.frames[k>>c.lastAt&c.lastMask]
		}
	}
	c.unpackArming(k, &s.slot.Arming)
}

func (c *codec) unpackArming(k uint64, a *arming.State) {
	flags := k >> c.flagAt & c.flagMask
	*a = arming.State{Armed: flags&1 == 1, Inside: flags&2 == 2, OffFirst: flags&4 == 4, Low: flags&8 == 8}
	one, two := uint16(k>>c.oneAt&c.oneMask), uint16(k>>c.twoAt&c.twoMask)
	if a.Armed {
		a.DisarmDwell, a.Sink, a.Still = one, two, c.still
	} else {
		a.ArmDwell, a.Still = one, two
	}
}

func bit(b bool) uint32 {
	if b {
		return 1
	}
	return 0
}
