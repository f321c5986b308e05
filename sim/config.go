package sim

import (
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
	"propsoff.example/sim/transit"
	"propsoff.example/sim/vec"
)

// Config is the whole craft as the bench needs it. The craft file makes it (sim/craftfile); Default is the built-in one.
type Config struct {
	// SlotTicks is the receiver's frame period in ms, 4..50.
	SlotTicks uint16
	// Transit is what becomes of the frames on their way; as it stands, nothing.
	Transit transit.Config
	Link    link.Config
	Layout  layout.Config
	Arming  arming.Config
	Flight  flight.Config
	// Control and Body are flown on the air bench.
	Control flight.Control
	Body    body.Config
	// Camera is the one on board; the bench itself has no use for it.
	Camera Camera
	// Gestures and Menus are the two-stick gestures and the menus that they open, read only; nil for none.
	Gestures *gestures.Config
	Menus    *menu.Config
}

// Camera is what a camera on board sees: it looks Tilt up from the craft's nose, and View wide from side to side, both in rad.
type Camera struct{ Tilt, View float64 }

// Slots rounds a time in ms (0 or more) up to whole slots of slotTicks ms, at most 65535 of them: the craft file sees to that.
func Slots(ms int, slotTicks uint16) uint16 {
	n := int(slotTicks)
	return uint16((ms + n - 1) / n)
}

// Default is a craft with every number at its default (ours): armed by a switch on channel 5, mode on
// channel 6, a receiver that falls silent, a craft that cuts on a lost link.
func Default() Config {
	const slot = 20
	cfg := Config{SlotTicks: slot}
	cfg.Layout = layout.Config{
		Throttle: 0, Roll: 1, Pitch: 2, Yaw: 3,
		Arm: 4, ArmSpan: layout.Span{Low: pulse.Micros(1600), High: pulse.Highest},
		Second: layout.NoChannel,
		Mode:   5, SpanCount: 3,
		Spans: [layout.MaxModeSpans]layout.ModeSpan{
			{Mode: layout.Angle, Span: layout.Span{Low: pulse.Lowest, High: pulse.Micros(1250)}},
			{Mode: layout.Horizon, Span: layout.Span{Low: pulse.Micros(1250), High: pulse.Micros(1750)}},
			{Mode: layout.Rate, Span: layout.Span{Low: pulse.Micros(1750), High: pulse.Highest}},
		},
	}
	cfg.Link = link.Config{
		OnLoss:       link.FallsSilent,
		SilenceSlots: Slots(240, slot),
		CleanSlots:   Slots(1200, slot),
	}
	cfg.Arming = arming.Config{
		By:          arming.BySwitch,
		LowThrottle: pulse.Micros(1000),
		ArmDwell:    Slots(800, slot), DisarmDwell: Slots(400, slot),
		YawRight: pulse.FullyHigh, YawLeft: pulse.FullyLow,
		LeaveRight: pulse.Percent(750), LeaveLeft: pulse.Percent(-750),
		LeaveThrottle:   pulse.Micros(1020),
		StillSlots:      Slots(2000, slot),
		TiltLimitTenths: 300,
	}
	cfg.Flight = flight.Config{
		AtLowThrottle: flight.StandStill,
		IdleSpeed:     flight.FullSpeed * 9 / 100,
		AirModes:      1<<layout.Horizon | 1<<layout.Rate,
		AirWake:       pulse.ThrottleFull * 18 / 100,
		SinkCarries:   900,
	}
	cfg.Body, cfg.Control = body.Default(), flight.DefaultControl()
	cfg.Camera = Camera{Tilt: vec.Mul(15, flight.Degree), View: vec.Mul(100, flight.Degree)}
	cfg.FitControl()
	cfg.Link.Needed = cfg.Layout.Needed()
	return cfg
}

// FitControl tells the control loops about the body that they fly. Call it whenever Body or the idle speed has changed.
func (cfg *Config) FitControl() {
	b := &cfg.Body
	cfg.Control.LeastSpeed = float64(cfg.Flight.IdleSpeed) / flight.FullSpeed
	full := vec.Mul(b.FullSpeed, b.FullSpeed)
	cfg.Control.Fit(b.Inertia, b.Held(), b.ArmForward, b.ArmRight, vec.Mul(b.Thrust, full), vec.Mul(b.Torque, full), b.Lead(), b.Turns)
}
