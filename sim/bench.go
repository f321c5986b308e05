// Package sim is the bench: it wires the parts in fixed order for one millisecond.
//
// The bench is headless and deterministic: it never reads a clock, does no input or output, allocates nothing, and the
// same readings at the same ticks give the same bytes. One slot of the receiver is Config.SlotTicks ticks long, counted
// from the craft's power-up; link and arming advance once a slot.
package sim

import (
	"math"

	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
	"propsoff.example/sim/vec"
	"propsoff.example/sim/wind"
)

// Inputs is what stands outside the craft, as last told by the readings.
type Inputs struct {
	// Sent is the frame that the pilot's hands hold; HasSent is false until the first reading of controls.
	Sent    pulse.Frame
	HasSent bool
	// Transmitter is the radio's own switch, Plugged its USB cable; both silence the link when off.
	Transmitter, Plugged bool
	// Powered is the craft's pack.
	Powered bool
	// Craft is what the craft knows about itself; its Moved stays set until the next slot has seen it.
	Craft arming.Conditions
	// StickMode says which physical stick carries what, 1 to 4; 0 means that nobody has said so yet, and counts as 2.
	StickMode uint8
	// Air: the craft moves as a body does; Hung: it hangs on the stand; Held: its height is held. Neither Hung nor Held is the air bench
	// with the whole craft. Hands are the propellers fitted to its motors (as body.Config.Hand), Checked that the pilot says they are right;
	// both count where Air.
	Air     bool
	Hung    bool
	Held    bool
	Hands   [flight.Motors]int8
	Checked bool
	// Wind is how the air moves there, as pulse.WindValue, LevelOff how far off the craft's idea of level is, as pulse.LevelOffValue.
	Wind, LevelOff int32
}

// Bench is where the craft is, as the value of an Air reading.
func (in *Inputs) Bench() int32 {
	switch {
	case in.Hung:
		return pulse.OnStand
	case in.Held:
		return pulse.HeightHeld
	case in.Air:
		return pulse.InAir
	}
	return pulse.OnDesk
}

// Transmitting reports whether the radio sends frames now.
func (in *Inputs) Transmitting() bool { return in.HasSent && in.Transmitter && in.Plugged }

// Seen is the lowest and highest valid width of one channel since power-up; both 0 before the first.
type Seen struct{ Low, High pulse.Width }

// State is the whole bench as one comparable value: copying it is a snapshot, putting it back is a rewind.
type State struct {
	// Tick is the tick that the next Step will run, in ms since the practice began.
	Tick int64
	In   Inputs
	// SincePower counts ticks since power-up.
	SincePower int64
	Slot       SlotState
	Facts      SlotFacts
	// LastValid is the last valid frame, which came at LastValidTick; its throttle drives the motors.
	LastValid     pulse.Frame
	LastValidTick int64
	// SinkFrom is the throttle fraction of the last valid frame when sinking began: the motors never turn faster than it asks.
	SinkFrom int
	Flight   flight.State
	// Motor is the speed asked of each motor, in 1/10000 of full speed.
	Motor [flight.Motors]uint16
	Seen  [pulse.Channels]Seen
	// Way is the frames on their way to the receiver.
	Way    transit.State
	Travel travelState
	// Air is the flying craft; the zero value on the desk bench.
	Air AirState
	// Rest is where the throttle stands still (within 2 µs), RestSince the tick since which it has.
	Rest      pulse.Width
	RestSince int64
}

var _ = map[State]struct{}{}

// Bench is the simulated craft with its link. Use New; a copy is independent.
type Bench struct {
	cfg Config
	s   State
	// weather is made of blows, a pulse.WindValue.
	weather wind.Config
	blows   int32
	// words is room for AirWords.
	words [14]uint64
}

// New makes a bench with the craft unpowered, the radio unplugged and everything else at rest.
func New(cfg Config) Bench { return Bench{cfg: cfg} }

// State is a copy of the whole state.
func (b *Bench) State() State { return b.s }

// Restore puts back a state that State gave.
func (b *Bench) Restore(s State) {
	b.s = s
	b.forecast()
}

// Config is the craft that is stepped.
func (b *Bench) Config() *Config { return &b.cfg }

// Step runs one millisecond: first the readings, in order, then link, layout and arming where a slot falls on this
// tick, then the motors. What happened is added to the log.
func (b *Bench) Step(readings []pulse.Reading, log *happening.Log) {
	s, cfg := &b.s, &b.cfg
	b.Apply(readings, log)
	if s.In.Powered {
		if s.SincePower%int64(cfg.SlotTicks) == 0 {
			b.slot(log)
		}
		b.motors(log)
		s.SincePower++
	}
	if s.In.Air {
		b.fly(log)
	}
	s.Tick++
}

// Leap is Step for those who ask what would happen: it goes at once to the tick on which the next slot falls, at most a slot away, and
// runs link, layout and arming there, which come to the same as if every tick had been stepped. The motors stay as they are and a craft
// in the air stands still.
func (b *Bench) Leap(readings []pulse.Reading, log *happening.Log) {
	s := &b.s
	b.Apply(readings, log)
	gone := b.ToSlot()
	s.Tick += gone
	if !s.In.Powered {
		return
	}
	s.SincePower += gone
	b.slot(log)
	s.Tick, s.SincePower = s.Tick+1, s.SincePower+1
}

// Apply takes readings without stepping, for what is to be known between two steps.
func (b *Bench) Apply(readings []pulse.Reading, log *happening.Log) {
	for i := range readings {
		b.apply(&readings[i], log)
	}
}

// Sticks is what gestures and menus may know of the slot that ran last.
type Sticks struct {
	// Sticks are throttle, roll, pitch and yaw as last received.
	Sticks    [4]pulse.Width
	StickMode uint8
	Valid     bool
	Powered   bool
	Armed     bool
	Link      link.Phase
	Menu      uint8
}

// Sticks gives what gestures and menus may know.
func (b *Bench) Sticks() Sticks {
	s, l := &b.s, &b.cfg.Layout
	f := &s.LastValid
	return Sticks{
		Sticks:    [4]pulse.Width{f[l.Throttle], f[l.Roll], f[l.Pitch], f[l.Yaw]},
		StickMode: s.In.StickMode, Powered: s.In.Powered, Valid: s.Facts.Link.Valid, Armed: s.Slot.Arming.Armed, Link: b.linkPhase(), Menu: s.In.Craft.Menu,
	}
}

// slot runs link, layout and arming, and keeps what the ticks until the next slot need.
func (b *Bench) slot(log *happening.Log) {
	s, cfg := &b.s, &b.cfg
	sent, sending := transit.Step(&cfg.Transit, &s.Way, s.In.Sent, s.In.Transmitting(), s.Tick)
	in := SlotInput{Transmitting: sending, Sent: sent, Craft: b.conditions(), First: s.SincePower == 0}
	sinking := s.Slot.Arming.Sink > 0
	facts := SlotFacts{}
	from := 0
	if log != nil {
		from = log.N
	}
	s.Slot, facts = StepSlot(cfg, s.Slot, &in, s.Tick, log)
	if facts.Link.Valid {
		s.LastValid, s.LastValidTick = facts.Link.Frame, s.Tick
	}
	b.completeLog(log, from)
	if facts.Link.Received {
		s.Facts = facts
		b.see(&facts.Link.Frame)
		b.rest(facts.Layout.Throttle)
		b.s.Travel = stepTravel(cfg, b.s.Travel, &facts, &s.Slot, &s.Seen, s.Tick, log)
	} else {
		s.Facts.Link.Received, s.Facts.Link.Valid = false, false
		if !s.Slot.Link.Phase.Up() {
			s.Facts.Layout.Missing = 0 // a silent receiver says nothing of single channels
		}
	}
	if s.Slot.Arming.Sink > 0 && !sinking {
		s.SinkFrom = b.throttle()
	}
	s.In.Craft.Moved = false
}

// completeLog fills in numbers in ms that the slot's own counters do not carry.
func (b *Bench) completeLog(log *happening.Log, from int) {
	if log == nil {
		return
	}
	for i := from; i < log.N; i++ {
		h := &log.Item[i]
		switch h.Code {
		case happening.LinkLost:
			h.A = int32(b.s.Tick - b.s.LastValidTick)
		case happening.Sinking:
			h.A, h.B = int32(b.cfg.Arming.SinkSlots)*int32(b.cfg.SlotTicks), int32(PlaceOf(&b.s.In, &b.s.Air))
		case happening.SinkEnded:
			h.A, h.B = h.A*int32(b.cfg.SlotTicks), int32(PlaceOf(&b.s.In, &b.s.Air))
		}
	}
}

// see keeps the lowest and highest value of every channel.
func (b *Bench) see(f *pulse.Frame) {
	for c, w := range f {
		if !w.Valid() {
			continue
		}
		e := &b.s.Seen[c]
		if e.Low == 0 || w < e.Low {
			e.Low = w
		}
		if w > e.High {
			e.High = w
		}
	}
}

// rest notes since when the throttle stands still, 2 µs of noise allowed.
func (b *Bench) rest(w pulse.Width) {
	const noise = 2 * pulse.Eighths
	if s := &b.s; w > s.Rest+noise || w < s.Rest-noise {
		s.Rest, s.RestSince = w, s.Tick
	}
}

// motors asks flight for this tick's motor speeds.
func (b *Bench) motors(log *happening.Log) {
	s, cfg := &b.s, &b.cfg
	a := &s.Slot.Arming
	in := flight.Input{
		Armed: a.Armed, Throttle: b.throttle(),
		Low: !b.helped() && s.LastValid[cfg.Layout.Throttle] < cfg.Arming.LowThrottle, Mode: s.Slot.Layout.Mode,
	}
	if a.Sink > 0 {
		in.Sinking, in.Throttle, in.SinkSpeed = true, s.SinkFrom, b.sinkSpeed()
	}
	if s.Air.Wreck != 0 {
		s.Flight, s.Motor = flight.State{}, [flight.Motors]uint16{}
		return
	}
	awake := s.Flight.AirAwake
	s.Flight, s.Motor = flight.Step(&cfg.Flight, s.Flight, in)
	if s.Flight.AirAwake && !awake {
		log.Add(s.Tick, happening.AirMode, 0, 0)
	}
}

// sinkSpeed is the motor speed, in 1/10000 of full speed, that carries the craft's share of its weight while it sinks, at the pack's
// present voltage; on the desk bench that is the voltage that was last set, or the nominal one if none was.
func (b *Bench) sinkSpeed() uint16 {
	volts := float64(b.s.In.Craft.PackMilliVolts) / 1000
	if b.s.In.Air {
		volts = b.cfg.Body.Volts(&b.s.Air.Body, true)
	}
	return uint16(vec.Mul(b.cfg.Body.Carries(float64(b.cfg.Flight.SinkCarries)/1000, volts), flight.FullSpeed))
}

// Refusals is every reason why arming is refused at this moment; none while the craft has no power.
func (b *Bench) Refusals() arming.Set {
	s := &b.s
	if !s.In.Powered {
		return 0
	}
	in := armingInput(&s.Slot, &s.Facts, b.conditions())
	return arming.Refusals(&b.cfg.Arming, &s.Slot.Arming, &in)
}

// Armed reports whether the craft is armed.
func (b *Bench) Armed() bool { return b.s.Slot.Arming.Armed }

// Sinking reports whether the craft is coming down on a lost link.
func (b *Bench) Sinking() bool { return b.s.Slot.Arming.Sink > 0 }

// Believes reports whether the craft takes the link to be there; with a receiver that makes frames up it may be mistaken.
func (b *Bench) Believes() bool { return b.linkPhase().Up() }

// Stored reports whether the craft hears its receiver's stored values instead of a hand.
func (b *Bench) Stored() bool {
	return b.s.Facts.Link.Received && b.s.Facts.Link.Origin == link.FromStore
}

// Jobs is the meaning of the last frame that the receiver handed on; to be read until the next step.
func (b *Bench) Jobs() *layout.Output { return &b.s.Facts.Layout }

// Dwelling reports whether the sticks are in the arm corner.
func (b *Bench) Dwelling() bool { return b.s.Slot.Arming.ArmDwell > 0 }

// OffFirst reports whether the arm control must be seen off before it can arm.
func (b *Bench) OffFirst() bool { return b.s.Slot.Arming.OffFirst }

// linkPhase is the link as a powered craft sees it.
func (b *Bench) linkPhase() link.Phase {
	if !b.s.In.Powered {
		return link.Never
	}
	return b.s.Slot.Link.Phase
}

// mode is the flight mode.
func (b *Bench) mode() layout.Mode { return b.s.Slot.Layout.Mode }

// Tick is the tick that the next Step will run.
func (b *Bench) Tick() int64 { return b.s.Tick }

// ToSlot is how many ticks after the next one the next slot falls, 0 where it falls on that; a whole slot while the craft has no power.
func (b *Bench) ToSlot() int64 {
	slot := int64(b.cfg.SlotTicks)
	if !b.s.In.Powered {
		return slot
	}
	return (slot - b.s.SincePower%slot) % slot
}

// SlotRan reports whether the last Step ran a slot.
func (b *Bench) SlotRan() bool {
	return b.s.In.Powered && (b.s.SincePower-1)%int64(b.cfg.SlotTicks) == 0
}

// Received is the last frame that the receiver has handed on since power-up; to be read until the next step.
func (b *Bench) Received() *pulse.Frame { return &b.s.Facts.Link.Frame }

// Words packs the state of the craft into two words for a digest: 0 is link, mode, arming and refusals, 1 the motors.
func (b *Bench) Words(n int) uint64 {
	s := &b.s
	if n == 1 {
		return uint64(s.Motor[0])<<48 | uint64(s.Motor[1])<<32 | uint64(s.Motor[2])<<16 | uint64(s.Motor[3])
	}
	w := uint64(s.Slot.Link.Phase) | uint64(s.Slot.Layout.Mode)<<4 | uint64(b.Refusals())<<8 | uint64(s.Slot.Arming.Sink)<<40
	if s.Slot.Arming.Armed {
		w |= 1 << 63
	}
	return w
}

// AirWords are the bits of the flying craft's place, speed, attitude, rate and used charge, for a digest; nil on the desk bench. They
// are valid until the next call.
func (b *Bench) AirWords() []uint64 {
	if !b.s.In.Air {
		return nil
	}
	s := &b.s.Air.Body
	b.words = [...]uint64{
		bits(s.Pos.X), bits(s.Pos.Y), bits(s.Pos.Z), bits(s.Vel.X), bits(s.Vel.Y), bits(s.Vel.Z), bits(s.Att.W), bits(s.Att.X),
		bits(s.Att.Y), bits(s.Att.Z), bits(s.Spin.X), bits(s.Spin.Y), bits(s.Spin.Z), bits(s.Used),
	}
	return b.words[:]
}

func bits(f float64) uint64 { return math.Float64bits(f) }
