// Package transit is what the air does to the radio's frames on their way: they come late, unevenly late, or not at all.
//
// It stands between the radio and the receiver. Step is called once a slot, as link is, with what the radio sends there, and gives what
// arrives there. What chance does to a frame follows from the seed and the tick on which it was sent, so that more loss leaves the delays as they are.
package transit

import (
	"propsoff.example/sim/chance"
	"propsoff.example/sim/pulse"
)

// Most is the longest that a frame may be on its way, in ticks (ours; it bounds the size of State).
const Most = 60

// room is for the frames that are on their way at the shortest slot, 4 ticks: one sent in each, both ends counted.
const room = Most/4 + 1

// Certain is the value of Config.Lost at which every frame is lost.
const Certain = 10000

// Config is the way of the frames; the zero value leaves them as they are.
type Config struct {
	// Delay is how long each frame is on its way, in ticks, and Jitter how much longer it may be: each frame by 0 to Jitter, all as likely.
	Delay, Jitter uint16
	// Lost is how many of 10,000 frames are lost, each by itself.
	Lost uint16
	// Seed decides which, and the jitter of each.
	Seed uint64
}

// Valid reports whether every number is within its bounds. Whoever reads a Config sees to it; frames that would be on their way for
// longer than Most may never arrive.
func (c Config) Valid() bool { return int(c.Delay)+int(c.Jitter) <= Most && c.Lost <= Certain }

// State is the frames on their way, none in the zero value: the state at power-up.
type State struct {
	// Waiting are the frames, the first sent first, Due the tick from which each may arrive; N is how many there are, and what is
	// beyond them is 0.
	Waiting [room]pulse.Frame
	Due     [room]int64
	N       uint8
}

var _ = map[State]struct{}{}

// Step is one slot, on the given tick: sent is the frame that the radio sends there, if sending says that it does, and what comes back is
// the frame that arrives, and whether one does. A frame arrives in the first slot on or after its time. None overtakes
// another: a late one holds up those behind it. Where several arrive in one slot the newest is handed on, as the receiver has room for one. The state is
// stepped in place: it has a kilobyte, which would be most of the work to copy.
func Step(cfg *Config, s *State, sent pulse.Frame, sending bool, tick int64) (pulse.Frame, bool) {
	if cfg.Delay == 0 && cfg.Jitter == 0 && cfg.Lost == 0 {
		s.drop(int(s.N)) // what was on its way is older than this
		return sent, sending
	}
	if sending && !cfg.loses(tick) {
		s.add(&sent, tick+cfg.takes(tick))
	}
	arrived := 0 // one that is not due yet holds up those behind it
	for arrived < int(s.N) && s.Due[arrived] <= tick {
		arrived++
	}
	if arrived == 0 {
		return pulse.Frame{}, false
	}
	newest := s.Waiting[arrived-1]
	s.drop(arrived)
	return newest, true
}

// loses reports whether the frame of this tick is lost.
func (c *Config) loses(tick int64) bool {
	return chance.Below(chance.At(c.Seed, 2*uint64(tick)), Certain) < uint64(c.Lost)
}

// takes is how long the frame of this tick is on its way.
func (c *Config) takes(tick int64) int64 {
	return int64(c.Delay) + int64(chance.Below(chance.At(c.Seed, 2*uint64(tick)+1), uint64(c.Jitter)+1))
}

// add puts a frame behind the others; where there is no room the oldest is lost.
func (s *State) add(f *pulse.Frame, due int64) {
	if s.N == room {
		s.drop(1)
	}
	s.Waiting[s.N], s.Due[s.N] = *f, due
	s.N++
}

// drop takes the first n frames away.
func (s *State) drop(n int) {
	left := copy(s.Waiting[:], s.Waiting[n:s.N])
	copy(s.Due[:], s.Due[n:s.N])
	clear(s.Waiting[left:s.N])
	clear(s.Due[left:s.N])
	s.N = uint8(left)
}
