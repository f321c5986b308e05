package fault

import "propsoff.example/sim/pulse"

// Silent reports whether the transmitter sends nothing on this tick.
func (s *State) Silent(tick int64) bool {
	if s.has(RadioOff) {
		return true
	}
	if !s.has(Dropouts) {
		return false
	}
	a, b := Numbers(Dropouts, s.number[Dropouts])
	gone := tick - s.since
	if b != 0 {
		gone %= int64(b)
	}
	return gone < int64(a)
}

// Frame is what the radio sends on this tick; ok is false before the first reading of controls. The bends come in the order of a
// signal's way: first the control itself (it sticks, it trembles, it rests beside its middle), then what the radio makes of it (travel,
// reverse), then the channel on which it goes out, if at all. No bend makes a pulse where there is none, and only ChannelOut takes one away.
func (s *State) Frame(tick int64) (f pulse.Frame, ok bool) {
	f = s.own.frame
	if s.planted&bendsFrame == 0 {
		return f, s.own.hasFrame
	}
	if s.has(Stuck) && s.caught {
		f[s.channel(Stuck)] = s.stuck
	}
	if s.has(Noisy) {
		_, most := Numbers(Noisy, s.number[Noisy])
		s.each(Noisy, &f, func(w int32) int32 { return w + tremble(tick, most*pulse.Eighths) })
	}
	if s.has(OffCentre) {
		_, by := Numbers(OffCentre, s.number[OffCentre])
		s.each(OffCentre, &f, func(w int32) int32 { return w + by*pulse.Eighths })
	}
	if s.has(ShortTravel) {
		_, end := Numbers(ShortTravel, s.number[ShortTravel])
		s.each(ShortTravel, &f, func(w int32) int32 { return short(w, end*pulse.Eighths) })
	}
	if s.has(Reversed) {
		s.each(Reversed, &f, func(w int32) int32 { return 2*int32(pulse.Centre) - w })
	}
	if s.has(Swapped) {
		a, b := Numbers(Swapped, s.number[Swapped])
		f[a-1], f[b-1] = f[b-1], f[a-1]
	}
	if s.has(ChannelOut) {
		f[s.channel(ChannelOut)] = pulse.Missing
	}
	return f, s.own.hasFrame
}

// bendsFrame are the faults that Frame knows.
const bendsFrame = 1<<Stuck | 1<<Noisy | 1<<OffCentre | 1<<ShortTravel | 1<<Reversed | 1<<Swapped | 1<<ChannelOut

// each bends the channel of d, where it carries a pulse, into another pulse.
func (s *State) each(d pulse.Deed, f *pulse.Frame, bend func(int32) int32) {
	if w := &f[s.channel(d)]; w.Valid() {
		*w = pulse.Width(min(max(bend(int32(*w)), int32(pulse.Lowest)), int32(pulse.Highest)))
	}
}

// short is what becomes of the width w on a channel whose travel to one side ends at end: what lies to that side of the centre shrinks
// in proportion, as a radio's travel setting has it (common practice, no source), and nothing goes beyond.
func short(w, end int32) int32 {
	const centre, travel = int32(pulse.Centre), int32(pulse.Travel)
	switch {
	case end < centre && w < centre:
		return max(centre-(centre-w)*(centre-end)/travel, end)
	case end > centre && w > centre:
		return min(centre+(w-centre)*(end-centre)/travel, end)
	}
	return w
}

// tremble is a number from −most to most that looks like chance and follows from the tick alone: two rounds of multiplying by an
// odd number and folding the high half onto the low one (ours), so that neighbouring ticks have nothing in common.
func tremble(tick int64, most int32) int32 {
	h := uint64(tick)*0xd1342543de82ef95 + 0x2545f4914f6cdd1d
	h ^= h >> 32
	h *= 0x9fb21c651e98df25
	h ^= h >> 29
	h *= 0xd1342543de82ef95
	return int32((h>>32)*uint64(2*most+1)>>32) - most
}

// Cable is what the bench is to be told of the set-up cable, as the value of a pulse.Cable reading: 1 in, 0 out.
func (s *State) Cable() int32 {
	if s.own.cable || s.has(CableIn) {
		return 1
	}
	return 0
}

// Pack is what the bench is to be told of the pack's voltage, in mV; 0 where nobody has set one.
func (s *State) Pack() int32 {
	if s.has(LowPack) {
		return s.number[LowPack]
	}
	return s.own.pack
}

// Wind is what the bench is to be told of the wind, a pulse.WindValue; where both are planted, gusts blow.
func (s *State) Wind() int32 {
	if s.has(Gusts) {
		tenths, from := Numbers(Gusts, s.number[Gusts])
		return pulse.WindValue(tenths, from, true, int32(s.blows&0xfff))
	}
	if s.has(Breeze) {
		tenths, from := Numbers(Breeze, s.number[Breeze])
		return pulse.WindValue(tenths, from, false, 0)
	}
	return 0
}

// LevelOff is what the bench is to be told of the craft's idea of level, a pulse.LevelOffValue.
func (s *State) LevelOff() int32 {
	if !s.has(LevelOff) {
		return 0
	}
	return pulse.LevelOffValue(Numbers(LevelOff, s.number[LevelOff]))
}

// Propellers is what the bench is to be told of the propellers, a pulse.PropellersValue: those that the pupil has fitted, one of them of
// the other hand where that is planted.
func (s *State) Propellers() int32 {
	hands := s.own.hands
	if s.has(WrongPropeller) {
		hands[s.motor()] *= -1
	}
	return pulse.PropellersValue(hands, s.own.checked)
}
