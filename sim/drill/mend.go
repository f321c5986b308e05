package drill

import "propsoff.example/sim/pulse"

// pack connects a fresh pack where the case has one and the old one has been taken off.
func (s *State) pack(cfg *Config, in *Input, out *Events) {
	if s.Phase == Running && s.powered && !in.Facts.Powered {
		if mv := cfg.Cases[s.Case].NextPack; mv > 0 {
			out.add(Event{Kind: Tell, Case: s.Case, Put: Put{Kind: pulse.Pack, Value: mv}})
		}
	}
	s.powered = in.Facts.Powered
}

// mend puts a broken craft back, whole, when it is not in the middle of a try, and has what comes before one begin afresh.
func (s *State) mend(cfg *Config, in *Input, out *Events) {
	broken := in.Facts.Broken && s.Phase != Running
	if broken && !s.mending {
		out.add(Event{Kind: Tell, Case: s.Case, Put: Put{Kind: pulse.Air, Value: 0}})
		out.add(Event{Kind: Tell, Case: s.Case, Put: Put{Kind: pulse.Air, Value: in.Facts.Bench}})
		switch s.Phase {
		case Preparing, Settling, Waiting:
			s.At = 0
			s.ask(cfg, in, out)
		}
	}
	s.mending = broken
}
