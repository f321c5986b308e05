package craftfile

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/vec"
)

// The units that a craft file may be written in, as shares of the one that the bench counts in.
var (
	mass      = map[string]float64{"kg": 1, "g": 1e-3}
	inertia   = map[string]float64{"kg m2": 1, "g m2": 1e-3}
	length    = map[string]float64{"m": 1, "mm": 1e-3}
	turning   = map[string]float64{"rad/s": 1, "rpm": body.RPM}
	seconds   = map[string]float64{"s": 1, "ms": 1e-3}
	force     = map[string]float64{"N": 1}
	moment    = map[string]float64{"N m": 1}
	perSpeed  = map[string]float64{"N s/m": 1}
	noUnit    = map[string]float64{"": 1}
	perSquare = map[string]float64{"N s2/m2": 1}
	spinDrag  = map[string]float64{"N m s": 1}
	spinTwice = map[string]float64{"N m s2": 1}
	stiffness = map[string]float64{"N/m": 1}
	volts     = map[string]float64{"V": 1}
	charge    = map[string]float64{"A s": 1, "mAh": 3.6}
	ohms      = map[string]float64{"ohm": 1, "mohm": 1e-3}
	amperes   = map[string]float64{"A": 1}
	angle     = map[string]float64{"rad": 1, "deg": flight.Degree}
	rate      = map[string]float64{"rad/s": 1, "deg/s": flight.Degree}
	perSecond = map[string]float64{"1/s": 1}
	perSecon2 = map[string]float64{"1/s2": 1}
	share     = map[string]float64{"": 1, "%": 1e-2}
)

// amount is one field of a group: where it goes, its units and its limits in the unit that counts 1 (all limits ours).
type amount struct {
	name   string
	to     *float64
	units  map[string]float64
	lo, hi float64
}

// amounts reads a group whose fields may all be left out; more, where given, reads the fields that are not amounts.
func amounts(n yamldoc.Node, what words.ID, list []amount, more func(*yamldoc.Map)) {
	if !n.Exists() {
		return
	}
	m := n.Map(what)
	for _, a := range list {
		if v, ok := m.Opt(a.name).Quantity(a.units, a.lo, a.hi); ok {
			*a.to = v
		}
	}
	if more != nil {
		more(m)
	}
	m.Done()
}

// body reads the craft's body: every constant of it with its unit.
func (d *decoder) body(n yamldoc.Node) {
	b := &d.f.cfg.Body
	box := flight.Box()
	lift, reaction := vec.Mul(b.Thrust, vec.Mul(b.FullSpeed, b.FullSpeed)), vec.Mul(b.Torque, vec.Mul(b.FullSpeed, b.FullSpeed))
	full := b.FullSpeed
	given := false
	amounts(n, "craft-file.body", []amount{
		{"mass", &b.Mass, mass, box.MassLow, box.MassHigh},
		{"half-height", &b.HalfHeight, length, 0.005, 0.1},
	}, func(m *yamldoc.Map) {
		i, low, high := &b.Inertia, box.InertiaLow, box.InertiaHigh
		amounts(m.Opt("inertia"), "craft-file.inertia", []amount{
			{"roll", &i.X, inertia, low.X, high.X}, {"pitch", &i.Y, inertia, low.Y, high.Y}, {"yaw", &i.Z, inertia, low.Z, high.Z},
		}, nil)
		amounts(m.Opt("arms"), "craft-file.arms", []amount{{"forward", &b.ArmForward, length, 0.03, 0.3}, {"right", &b.ArmRight, length, 0.03, 0.3}}, nil)
		amounts(m.Opt("motor"), "craft-file.motor", []amount{
			{"full-speed", &full, turning, 300, 10000}, {"lag", &b.Lag, seconds, box.LagLow, box.LagHigh},
			{"turning-inertia", &b.Turning, inertia, 0, 1e-4},
		}, func(m *yamldoc.Map) {
			if w, ok := m.Opt("front-left-turns").Word("clockwise", "counter-clockwise"); ok {
				b.Turns = body.Directions(w == "clockwise")
				b.Hand = b.Turns
			}
		})
		amounts(m.Opt("propeller"), "craft-file.propeller", []amount{
			{"thrust", &lift, force, 0.3, 60}, {"torque", &reaction, moment, 0.001, 2}, {"reversed", &b.Reversed, share, 0, 1},
			{"diameter", &b.Diameter, length, 0.03, 0.3}, {"no-thrust-at", &b.Idle, noUnit, 0, 2}, {"drag", &b.RotorDrag, perSquare, 0, 0.001},
		}, nil)
		amounts(m.Opt("drag"), "craft-file.drag", []amount{
			{"linear", &b.Drag1, perSpeed, 0, 1}, {"square", &b.Drag2, perSquare, 0, 0.2},
			{"turning", &b.Spin1, spinDrag, 0, 0.005}, {"turning-square", &b.Spin2, spinTwice, 0, 0.0005},
		}, nil)
		amounts(m.Opt("ground"), "craft-file.ground", []amount{
			{"stiffness", &b.Stiffness, stiffness, 500, 5000}, {"friction", &b.Friction, share, 0, 1.5},
		}, func(m *yamldoc.Map) {
			// Models 1 and 2 had a damper of so many N s/m whatever the depth; one of today is as strong at a depth of 2 mm (ours).
			damping := map[string]float64{"s/m": 1, "N s/m": 1 / vec.Mul(b.Stiffness, 0.002)}
			if v, ok := m.Opt("damping").Quantity(damping, 0.2, 25); ok {
				b.Damping = v
			}
		})
		p := &b.Pack
		amounts(m.Opt("pack"), "craft-file.pack", []amount{
			{"full", &p.Full, volts, 3, 60}, {"empty", &p.Empty, volts, 2, 60}, {"nominal", &p.Nominal, volts, 3, 60},
			{"charge", &p.Charge, charge, 180, 36000}, {"resistance", &p.Resistance, ohms, 0, 1}, {"current", &p.Current, amperes, 0.1, 150},
			{"no-load", &p.NoLoad, amperes, 0, 20}, {"electronics", &p.Electronics, amperes, 0, 20}, {"dies-within", &p.Dies, share, 0, 1},
		}, nil)
		given = true
	})
	if !given {
		return
	}
	b.FullSpeed = full
	b.Thrust, b.Torque = body.PerSquare(lift, full), body.PerSquare(reaction, full)
	p := &b.Pack
	if !(p.Empty < p.Nominal && p.Nominal < p.Full) {
		n.Wrong("craft-file.pack-order")
	}
	if weight := vec.Mul(b.Mass, body.Gravity); vec.Mul(4, lift) < vec.Mul(1.5, weight) {
		n.Wrong("craft-file.too-heavy", words.Args{"lift": tenths(4 * lift), "weight": tenths(weight)})
	}
	if most := (4*(p.Current+p.NoLoad) + p.Electronics) * p.Resistance; most > 0.4*p.Nominal {
		n.Wrong("craft-file.pack-resistance", words.Args{"lost": tenths(most)})
	}
}

// camera reads what the camera on board sees: how far up it looks, and how wide its picture is from side to side.
func (d *decoder) camera(n yamldoc.Node) {
	c := &d.f.cfg.Camera
	amounts(n, "craft-file.camera", []amount{
		{"tilt", &c.Tilt, angle, -30 * flight.Degree, 60 * flight.Degree}, {"view", &c.View, angle, 40 * flight.Degree, 140 * flight.Degree},
	}, nil)
}

// tenths is a number with one decimal.
func tenths(v float64) words.Fixed {
	return words.Fixed{N: int64(math.Round(v * 10)), Places: 1, Least: 1}
}

// control reads how attitude is flown, and notes an error where that is not stable.
func (d *decoder) control(n yamldoc.Node) {
	c := &d.f.cfg.Control
	if n.Exists() {
		m := n.Map("craft-file.control")
		axes := []string{"roll", "pitch", "yaw"}
		if at := m.Opt("stick-curve"); at.Exists() {
			curves := at.Map("craft-file.stick-curves")
			for i, name := range axes {
				amounts(curves.Opt(name), "craft-file.stick-curve", []amount{
					{"full", &c.Curve[i].Full, rate, 50 * flight.Degree, 1500 * flight.Degree}, {"exponential", &c.Curve[i].Exponential, share, 0, 1},
				}, nil)
			}
			curves.Done()
		}
		for _, a := range []amount{
			{"bank-limit", &c.BankLimit, angle, 10 * flight.Degree, 75 * flight.Degree},
			{"level-rate", &c.Level, perSecond, 1, 15},
			{"level-most", &c.LevelMost, rate, 50 * flight.Degree, 1000 * flight.Degree},
			{"integral-most", &c.IntegralMost, perSecon2, 0, 500},
			{"fade-below", &c.FadeBelow, share, 0.01, 0.5},
		} {
			if v, ok := m.Opt(a.name).Quantity(a.units, a.lo, a.hi); ok {
				*a.to = v
			}
		}
		if v, ok := m.Opt("filter").Quantity(map[string]float64{"Hz": 1}, 10, 500); ok {
			c.Filter = flight.CutOff(v)
		}
		if at := m.Opt("gains"); at.Exists() {
			gains := at.Map("craft-file.gains")
			for i, name := range axes {
				g := &c.Gains[i]
				amounts(gains.Opt(name), "craft-file.gains", []amount{
					{"proportional", &g.Proportional, perSecond, 1, 100}, {"integral", &g.Integral, perSecon2, 0, 300},
					{"derivative", &g.Derivative, share, 0, 5},
				}, nil)
			}
			gains.Done()
		}
		m.Done()
	}
	d.f.cfg.FitControl()
	at := n
	if !at.Exists() {
		at = d.top
	}
	for i, name := range []string{"roll", "pitch", "yaw"} {
		if !c.Stable(i, d.f.cfg.Body.Lag) {
			at.Wrong("craft-file.unstable", words.Args{"lag": words.Whole(math.Round(d.f.cfg.Body.Lag * 1000)), "axis": words.Quote(name)})
		}
	}
}
