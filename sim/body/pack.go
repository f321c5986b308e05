package body

import "propsoff.example/sim/vec"

// Pack is the battery. Its voltage falls in a straight line with the charge used, and by the current through its resistance; an empty
// one dies.
type Pack struct {
	// Full and Empty are the voltages at rest, Nominal the one for which FullSpeed holds; all in V.
	Full, Empty, Nominal float64
	// Charge is in A·s, Resistance in Ω; Current is what turning one propeller at FullSpeed takes, in A (it grows with the cube of speed).
	Charge, Resistance, Current float64
	// NoLoad is what one motor takes at FullSpeed for its own losses, in A (it grows with the speed), Electronics what everything else on
	// the craft takes, in A, as long as the pack is plugged in.
	NoLoad, Electronics float64
	// Dies is the share of Charge within which an empty pack's voltage falls from Empty to nothing; 0 for one that never dies.
	Dies float64
}

// now gives the pack's voltage under load and its current. A Pack with no Nominal voltage is an ideal one.
func (p *Pack) now(s *State, full float64, on bool) (volts, amps float64) {
	if p.Nominal <= 0 {
		return 0, 0
	}
	if on {
		amps = p.Electronics
	}
	for _, w := range s.Speed {
		f := w / full
		amps += vec.Mul(f, p.NoLoad+vec.Mul(p.Current, vec.Mul(f, f)))
	}
	used := s.Used / p.Charge
	rest := p.Empty + vec.Mul(p.Full-p.Empty, min(max(1-used, 0), 1))
	if p.Dies > 0 && used > 1 {
		rest = vec.Mul(p.Empty, max(1-(used-1)/p.Dies, 0))
	}
	return max(rest-vec.Mul(amps, p.Resistance), 0), amps
}

// Volts is the pack's voltage under its present load, V; on says whether it is plugged in.
func (cfg *Config) Volts(s *State, on bool) float64 {
	v, _ := cfg.Pack.now(s, cfg.FullSpeed, on)
	return v
}
