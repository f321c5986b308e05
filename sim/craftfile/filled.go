package craftfile

import (
	"math"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
	"propsoff.example/sim/vec"
)

// Filled writes a craft as a craft file with every field filled in, so that it reads back as the same craft, number for number, whatever
// becomes of the defaults. It takes any craft of the bench, a drill's too; named jobs, which do nothing there, are left out. It fails
// where a number cannot be written so that it reads back the same.
func Filled(name string, cfg *sim.Config) ([]byte, error) {
	w := filler{cfg: cfg}
	w.Text("propsoff", Kind)
	w.Text("name", name)
	w.receiver()
	w.channels()
	w.arming()
	w.modes()
	w.motors()
	w.body()
	w.control()
	w.group("camera", []quantity{{"tilt", cfg.Camera.Tilt, "rad"}, {"view", cfg.Camera.View, "rad"}})
	text := w.Bytes()
	f, err := Parse("craft", text)
	if err != nil {
		return nil, words.Wrong("craft-file.not-written", words.Args{"why": words.Error(err)}).Because(err)
	}
	if again := f.Config(); !Same(&again, cfg) {
		return nil, words.Wrong("craft-file.reads-to-another")
	}
	return text, nil
}

// Same reports whether two crafts are the same to the bench, leaving aside their gestures, which stand in a file of their own.
func Same(a, b *sim.Config) bool { return plain(*a) == plain(*b) }

// plain is a craft without what makes no difference to the bench: its gestures, propellers that nobody has fitted, and spans of jobs that
// no channel has.
func plain(cfg sim.Config) sim.Config {
	cfg.Gestures, cfg.Menus, cfg.Body.Hand = nil, nil, [body.Motors]int8{}
	l := &cfg.Layout
	if l.Arm == layout.NoChannel {
		l.ArmSpan = layout.Span{}
	}
	if l.Second == layout.NoChannel {
		l.SecondSpan = layout.Span{}
	}
	if l.Mode == layout.NoChannel {
		l.SpanCount = 0
	} else {
		l.FixedMode = 0
	}
	clear(l.Spans[l.SpanCount:])
	if cfg.Link.OnLoss != link.SendsStored {
		cfg.Link.Stored = pulse.Frame{}
	}
	return cfg
}

// filler writes one craft.
type filler struct {
	yamldoc.Writer
	cfg *sim.Config
}

func (w *filler) word(name, word string) { w.Inline(name, yamldoc.InlineWord(word)) }

// slots writes a time of whole slots, which most may bound: a time rounds up to them.
func (w *filler) slots(name string, slots uint16, most int) {
	w.Value(name, strconv.Itoa(min(int(slots)*int(w.cfg.SlotTicks), most))+" ms")
}

// parts is v parts of 1/scale, as a file has it.
func parts(v, scale int) string { return strconv.FormatFloat(float64(v)/float64(scale), 'f', -1, 64) }

// quantity is one number in its base unit.
type quantity struct {
	name string
	v    float64
	unit string
}

// inline writes the number to the last bit.
func (q *quantity) inline() yamldoc.Inline {
	text := strconv.FormatFloat(q.v, 'f', -1, 64)
	if q.unit != "" {
		text += " " + q.unit
	}
	return yamldoc.InlineValue(text)
}

func (w *filler) quantities(list ...quantity) {
	for i := range list {
		w.Inline(list[i].name, list[i].inline())
	}
}

// group writes a group of numbers, and what else stands in it.
func (w *filler) group(name string, list []quantity, more ...yamldoc.InlineField) {
	var fields []yamldoc.InlineField
	for i := range list {
		fields = append(fields, yamldoc.InlineField{Name: list[i].name, Value: list[i].inline()})
	}
	w.Inline(name, yamldoc.InlineGroup(append(fields, more...)...))
}

func (w *filler) receiver() {
	c := w.cfg
	w.Open("receiver")
	w.word("when-silent", receiverWays[c.Link.OnLoss])
	w.Value("frame-every", strconv.Itoa(int(c.SlotTicks))+" ms")
	w.Value("frame-delay", strconv.Itoa(int(c.Transit.Delay))+" ms")
	w.Value("frame-jitter", strconv.Itoa(int(c.Transit.Jitter))+" ms")
	w.Value("frames-lost", parts(int(c.Transit.Lost), transit.Certain/100)+" %")
	w.Value("chance", strconv.FormatUint(c.Transit.Seed, 10))
	if c.Link.OnLoss == link.SendsStored {
		var stored []yamldoc.InlineField
		for channel, v := range c.Link.Stored {
			if v != pulse.Missing {
				stored = append(stored, yamldoc.InlineField{Name: w.calls(int8(channel)), Value: micros(v)})
			}
		}
		w.Inline("stored", yamldoc.InlineGroup(stored...))
	}
	w.Close()
	w.Open("link")
	w.slots("silence-limit", c.Link.SilenceSlots, 5000)
	w.slots("clean-time", c.Link.CleanSlots, 10_000)
	w.word("when-lost", map[bool]string{false: "cut", true: "sink"}[c.Arming.SinkSlots > 0])
	w.slots("sink-time", c.Arming.SinkSlots, 30_000)
	w.Value("sink-carries", parts(int(c.Flight.SinkCarries), 10)+" %")
	w.Close()
}

// jobs are the channels of benchJobs.
func (w *filler) jobs() [7]int8 {
	l := &w.cfg.Layout
	return [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode}
}

// calls is what a channel is called among stored values: its job, or its number where it has none.
func (w *filler) calls(channel int8) string {
	for i, c := range w.jobs() {
		if c == channel {
			return benchJobs[i]
		}
	}
	return channelWord + strconv.Itoa(int(channel)+1)
}

func (w *filler) channels() {
	var list []quantity
	for i, c := range w.jobs() {
		if c != layout.NoChannel {
			list = append(list, quantity{name: benchJobs[i], v: float64(c) + 1})
		}
	}
	w.group("channels", list)
}

func (w *filler) arming() {
	a, l := &w.cfg.Arming, &w.cfg.Layout
	w.Open("arming")
	w.word("by", [...]string{arming.BySwitch: "switch", arming.BySticks: "sticks"}[a.By])
	if l.Arm != layout.NoChannel {
		w.Inline("on", spanOf(l.ArmSpan))
	}
	w.Inline("low-throttle", micros(a.LowThrottle))
	w.slots("arm-dwell", a.ArmDwell, 5000)
	w.slots("disarm-dwell", a.DisarmDwell, 5000)
	w.slots("still-time", a.StillSlots, 30_000)
	w.Value("tilt-limit", parts(int(a.TiltLimitTenths), 10)+" deg")
	w.Value("pack-limit", parts(int(a.PackLimitMilliVolts), 1000)+" V")
	w.word("only-self-levelling", map[bool]string{false: "no", true: "yes"}[a.OnlySelfLevelling])
	w.word("camera-menu", map[bool]string{false: "unknown", true: "refuses"}[a.CameraMenuCounts])
	w.Close()
	if l.Second != layout.NoChannel {
		w.Inline("second-switch", yamldoc.InlineGroup(yamldoc.InlineField{Name: "on", Value: spanOf(l.SecondSpan)}))
	}
}

func (w *filler) modes() {
	l := &w.cfg.Layout
	var modes []yamldoc.InlineField
	if l.Mode == layout.NoChannel {
		modes = append(modes, yamldoc.InlineField{Name: "always", Value: yamldoc.InlineWord(modeNames[l.FixedMode])})
	}
	for m, name := range modeNames {
		var spans []yamldoc.Inline
		for _, s := range l.Spans[:l.SpanCount] {
			if int(s.Mode) == m {
				spans = append(spans, spanOf(s.Span))
			}
		}
		if len(spans) > 0 {
			modes = append(modes, yamldoc.InlineField{Name: name, Value: yamldoc.InlineList(spans...)})
		}
	}
	w.Inline("modes", yamldoc.InlineGroup(modes...))
}

func (w *filler) motors() {
	f := &w.cfg.Flight
	w.Open("motors")
	w.word("at-low-throttle", [...]string{flight.StandStill: "still", flight.Idle: "idle"}[f.AtLowThrottle])
	w.Value("idle-speed", parts(int(f.IdleSpeed), 100)+" %")
	w.Value("air-mode-wakes-at", parts(f.AirWake*1000/pulse.ThrottleFull, 10)+" %")
	var modes []yamldoc.Inline
	for m, name := range modeNames {
		if f.AirModes>>m&1 == 1 {
			modes = append(modes, yamldoc.InlineWord(name))
		}
	}
	w.Inline("air-mode-in", yamldoc.InlineList(modes...))
	w.Close()
}

func (w *filler) body() {
	b := &w.cfg.Body
	square := vec.Mul(b.FullSpeed, b.FullSpeed)
	perSquare := func(v float64) float64 { return body.PerSquare(v, b.FullSpeed) }
	turns := map[bool]string{false: "counter-clockwise", true: "clockwise"}[b.Turns == body.Directions(true)]
	w.Open("body")
	w.quantities(quantity{"mass", b.Mass, "kg"}, quantity{"half-height", b.HalfHeight, "m"})
	w.group("inertia", []quantity{{"roll", b.Inertia.X, "kg m2"}, {"pitch", b.Inertia.Y, "kg m2"}, {"yaw", b.Inertia.Z, "kg m2"}})
	w.group("arms", []quantity{{"forward", b.ArmForward, "m"}, {"right", b.ArmRight, "m"}})
	w.group("motor", []quantity{{"full-speed", b.FullSpeed, "rad/s"}, {"lag", b.Lag, "s"}, {"turning-inertia", b.Turning, "kg m2"}},
		yamldoc.InlineField{Name: "front-left-turns", Value: yamldoc.InlineWord(turns)})
	w.group("propeller", []quantity{
		{"thrust", back(b.Thrust, vec.Mul(b.Thrust, square), perSquare), "N"}, {"torque", back(b.Torque, vec.Mul(b.Torque, square), perSquare), "N m"},
		{"reversed", b.Reversed, ""}, {"diameter", b.Diameter, "m"}, {"no-thrust-at", b.Idle, ""}, {"drag", b.RotorDrag, "N s2/m2"},
	})
	w.group("drag", []quantity{
		{"linear", b.Drag1, "N s/m"}, {"square", b.Drag2, "N s2/m2"}, {"turning", b.Spin1, "N m s"}, {"turning-square", b.Spin2, "N m s2"},
	})
	w.group("ground", []quantity{{"stiffness", b.Stiffness, "N/m"}, {"damping", b.Damping, "s/m"}, {"friction", b.Friction, ""}})
	p := &b.Pack
	w.group("pack", []quantity{
		{"full", p.Full, "V"}, {"empty", p.Empty, "V"}, {"nominal", p.Nominal, "V"}, {"charge", p.Charge, "A s"},
		{"resistance", p.Resistance, "ohm"}, {"current", p.Current, "A"}, {"no-load", p.NoLoad, "A"}, {"electronics", p.Electronics, "A"}, {"dies-within", p.Dies, ""},
	})
	w.Close()
}

func (w *filler) control() {
	c := &w.cfg.Control
	axes := [...]string{"roll", "pitch", "yaw"}
	w.Open("control")
	w.Open("stick-curve")
	for i, axis := range axes {
		w.group(axis, []quantity{{"full", c.Curve[i].Full, "rad/s"}, {"exponential", c.Curve[i].Exponential, ""}})
	}
	w.Close()
	w.quantities(quantity{"bank-limit", c.BankLimit, "rad"}, quantity{"level-rate", c.Level, "1/s"}, quantity{"level-most", c.LevelMost, "rad/s"})
	w.Open("gains")
	for i, axis := range axes {
		g := &c.Gains[i]
		w.group(axis, []quantity{{"proportional", g.Proportional, "1/s"}, {"integral", g.Integral, "1/s2"}, {"derivative", g.Derivative, ""}})
	}
	w.Close()
	w.quantities(
		quantity{"integral-most", c.IntegralMost, "1/s2"},
		quantity{"filter", back(c.Filter, flight.CutOff(c.Filter), flight.CutOff), "Hz"}, // CutOff undoes itself, but for the last bit
		quantity{"fade-below", c.FadeBelow, ""},
	)
	w.Close()
}

// back finds the number near guess of which to makes v, to the last bit; of several that do, the shortest to write, which is the one a
// person wrote. Where there is none, guess has to do.
func back(v, guess float64, to func(float64) float64) float64 {
	best, letters := guess, math.MaxInt
	at := guess
	for range 32 {
		at = math.Nextafter(at, 0)
	}
	for range 64 {
		if n := len(strconv.FormatFloat(at, 'f', -1, 64)); to(at) == v && n < letters {
			best, letters = at, n
		}
		at = math.Nextafter(at, math.Inf(1))
	}
	return best
}
