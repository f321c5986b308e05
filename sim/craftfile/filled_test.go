package craftfile

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// again writes a craft filled in and reads it.
func again(t require.TestingT, cfg sim.Config) sim.Config {
	text, err := Filled("A craft", &cfg)
	require.NoError(t, err)
	f, err := Parse("filled.yaml", text)
	require.NoError(t, err, "%s", text)
	return f.Config()
}

func TestShippedCraftsAreFilledIn(t *testing.T) {
	for _, name := range assets.Crafts() {
		file, text, _ := assets.Craft(name)
		f, err := Parse(file, text)
		require.NoError(t, err)
		cfg := f.Config()
		assert.Equal(t, plain(cfg), plain(again(t, cfg)))
	}
	least, err := Parse("c.yaml", []byte(flies))
	require.NoError(t, err)
	cfg := least.Config()
	filled, err := Filled(least.Name, &cfg)
	require.NoError(t, err)
	twice, err := Parse("d.yaml", filled)
	require.NoError(t, err)
	cfg = twice.Config()
	filledAgain, err := Filled(twice.Name, &cfg)
	require.NoError(t, err)
	assert.Equal(t, string(filled), string(filledAgain))
	assert.Equal(t, "x", twice.Name)
}

// Any craft that a file can describe reads back as itself, to the last bit.
func TestAnyCraftIsFilledIn(t *testing.T) {
	box := flight.Box()
	rapid.Check(t, func(t *rapid.T) {
		cfg := sim.Default()
		number := func(lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, "number") }
		whole := func(lo, hi int) int { return rapid.IntRange(lo, hi).Draw(t, "whole") }
		span := func() layout.Span {
			lo := whole(int(pulse.Lowest), int(pulse.High)-1)
			return layout.Span{Low: pulse.Width(lo), High: pulse.Width(whole(lo+1, int(pulse.High)))}
		}
		cfg.SlotTicks = uint16(whole(4, 50))
		slots := func(lo, hi int) uint16 { return sim.Slots(whole(lo, hi), cfg.SlotTicks) }
		channels := rapid.Permutation([]int8{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15}).Draw(t, "channels")
		l, a := &cfg.Layout, &cfg.Arming
		l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode = channels[0], channels[1], channels[2], channels[3], channels[4], channels[5], channels[6]
		l.ArmSpan, l.SecondSpan = span(), span()
		if whole(0, 1) == 0 {
			a.By, l.Arm = arming.BySticks, layout.NoChannel
		}
		if whole(0, 1) == 0 {
			l.Second = layout.NoChannel
		}
		switch whole(0, 3) {
		case 0:
			l.Mode, l.FixedMode, l.SpanCount = layout.NoChannel, layout.Mode(whole(0, 2)), 0
		case 1:
			l.SpanCount = 0
		}
		cfg.Link.SilenceSlots, cfg.Link.CleanSlots = slots(20, 5000), slots(0, 10_000)
		cfg.Link.OnLoss = link.OnLoss(whole(0, 2))
		if cfg.Link.OnLoss == link.SendsStored {
			for c := range cfg.Link.Stored {
				cfg.Link.Stored[c] = pulse.Width(whole(int(pulse.Lowest), int(pulse.Highest)))
			}
			cfg.Link.Stored[channels[10]] = pulse.Missing
		}
		cfg.Link.Needed = l.Needed()
		a.ArmDwell, a.DisarmDwell, a.StillSlots, a.SinkSlots = slots(100, 5000), slots(100, 5000), slots(0, 30_000), slots(0, 30_000)
		a.TiltLimitTenths, a.PackLimitMilliVolts = int16(whole(10, 1800)), uint16(whole(0, 65000))
		a.OnlySelfLevelling, a.CameraMenuCounts = whole(0, 1) == 0, whole(0, 1) == 0
		a.LowThrottle = pulse.Width(whole(990*pulse.Eighths, 1200*pulse.Eighths))
		a.LeaveThrottle = a.LowThrottle + pulse.Micros(20)
		f := &cfg.Flight
		f.AtLowThrottle, f.IdleSpeed = flight.AtLowThrottle(whole(0, 1)), uint16(whole(0, 3000))
		f.AirModes, f.AirWake = uint8(whole(0, 7)), whole(0, 1000)*pulse.ThrottleFull/1000
		f.SinkCarries = uint16(whole(0, 1000))
		b := &cfg.Body
		b.Mass, b.HalfHeight = number(0.2, 0.9), number(0.005, 0.1)
		b.Inertia.X = number(0.99*b.Inertia.X, 1.01*b.Inertia.X)
		b.ArmForward, b.FullSpeed = number(0.03, 0.3), number(2000, 10000)
		b.Thrust, b.Torque = body.PerSquare(number(6, 60), b.FullSpeed), body.PerSquare(number(0.01, 2), b.FullSpeed)
		b.Turns = body.Directions(whole(0, 1) == 0)
		b.Spin2, b.Drag1, b.Friction, b.Pack.Charge = number(1e-6, 0.0005), number(1e-6, 1), number(1e-6, 1.5), number(180, 36000)
		c := &cfg.Control
		c.Curve[1] = flight.Curve{Full: number(box.LagHigh+1, 20), Exponential: number(1e-6, 1)}
		c.BankLimit, c.FadeBelow, c.Filter = number(0.2, 1.3), number(0.01, 0.5), flight.CutOff(number(55, 65))
		cfg.Camera = sim.Camera{Tilt: float64(whole(-29, 59)) * flight.Degree, View: number(0.7, 2.4)}
		cfg.FitControl()
		require.Equal(t, plain(cfg), plain(again(t, cfg)))
	})
}

// Every number of a craft is either written or one of the few that no craft file can set: a field that is added to the craft must be
// added to what is written of it.
func TestNothingOfACraftIsForgotten(t *testing.T) {
	cfg := sim.Default()
	cfg.Link.OnLoss = link.SendsStored
	for c := range cfg.Link.Stored {
		cfg.Link.Stored[c] = pulse.Centre
	}
	cfg.Layout.Second, cfg.Layout.SecondSpan = 6, layout.Span{Low: pulse.Micros(1600), High: pulse.Highest}
	var fixed []string
	var walk func(path string, at func(*sim.Config) reflect.Value)
	walk = func(path string, at func(*sim.Config) reflect.Value) {
		v := at(&cfg)
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, func(c *sim.Config) reflect.Value { return at(c).Field(i) })
			}
			return
		case reflect.Array:
			for i := range v.Len() {
				walk(path, func(c *sim.Config) reflect.Value { return at(c).Index(i) })
			}
			return
		case reflect.Pointer:
			return // gestures and menus have a file of their own
		}
		if path == ".Layout.SpanCount" {
			return // it counts the spans, which are written
		}
		moved := false
		for _, up := range []bool{true, false} { // one way may not be allowed
			bent := cfg
			bend(at(&bent), up)
			bent.FitControl()
			bent.Link.Needed = bent.Layout.Needed()
			if plain(bent) == plain(cfg) {
				continue // worked out from other numbers, or of no account
			}
			moved = true
			if _, err := Filled("x", &bent); err == nil {
				return
			}
		}
		if moved {
			fixed = append(fixed, path)
		}
	}
	walk("", func(c *sim.Config) reflect.Value { return reflect.ValueOf(c).Elem() })
	got := map[string]bool{}
	for _, path := range fixed {
		got[strings.TrimPrefix(path, ".")] = true
	}
	want := map[string]bool{}
	for _, path := range []string{
		// Rules of the model, which no file changes.
		"Arming.YawRight", "Arming.YawLeft", "Arming.LeaveRight", "Arming.LeaveLeft", "Arming.LeaveThrottle",
		// The low mark takes LeaveThrottle along, how an arming method goes with a channel is checked, and motors turn in two ways.
		"Arming.LowThrottle", "Arming.By", "Body.Turns",
		"Body.Weightless",
	} {
		want[path] = true
	}
	assert.Equal(t, want, got)
}

// bend changes a number a little.
func bend(v reflect.Value, up bool) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Float64:
		if up {
			v.SetFloat(v.Float()*1.0001 + 1e-9)
		} else {
			v.SetFloat(v.Float() * 0.9999)
		}
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		n := v.Uint() + 1
		if !up {
			n = max(v.Uint(), 1) - 1
		}
		v.SetUint(n)
	default:
		n := v.Int() + 1
		switch v.Kind() {
		case reflect.Int: // the throttle's share goes in steps of 8
			n += 7
		case reflect.Int8: // a channel that nobody has
			n += 8
		}
		if !up {
			n = max(v.Int()-1, 0)
		}
		v.SetInt(n)
	}
}

// What a text of model 1 leaves out is what model 1 had by default. The numbers stand here as they were then.
func TestModelOneKeepsItsDefaults(t *testing.T) {
	f, err := ParseOf(1, "old.yaml", []byte(flies))
	require.NoError(t, err)
	cfg := f.Config()
	assert.EqualValues(t, 600, cfg.Flight.IdleSpeed)
	assert.Equal(t, 0.06, cfg.Control.LeastSpeed)
	for i, want := range []flight.Curve{{Full: 420 * flight.Degree, Exponential: 0.3}, {Full: 420 * flight.Degree, Exponential: 0.3}, {Full: 260 * flight.Degree, Exponential: 0.2}} {
		assert.Equal(t, want, cfg.Control.Curve[i])
	}
	assert.EqualValues(t, 12, cfg.Link.SilenceSlots)
	assert.EqualValues(t, 60, cfg.Link.CleanSlots)
	assert.EqualValues(t, 40, cfg.Arming.ArmDwell)
	assert.EqualValues(t, 20, cfg.Arming.DisarmDwell)
	assert.EqualValues(t, 100, cfg.Arming.StillSlots)
	f, err = ParseOf(1, "old.yaml", []byte(flies+"motors: {idle-speed: 9 %}\ncontrol: {stick-curve: {yaw: {exponential: 0.5}}}\n"))
	require.NoError(t, err)
	cfg = f.Config()
	assert.EqualValues(t, 900, cfg.Flight.IdleSpeed, "what it says counts")
	assert.Equal(t, 0.09, cfg.Control.LeastSpeed)
	assert.Equal(t, 0.5, cfg.Control.Curve[2].Exponential)
}

// A receiver stores values of channels without a job too; they are called by their number.
func TestStoredValuesByNumber(t *testing.T) {
	text := strings.Replace(flies, "yaw: 4, arm: 5}", "yaw: 4, arm: 5}\nreceiver: {when-silent: sends-stored, stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500, arm: 988, channel 9: 1700}}", 1)
	f, err := Parse("c.yaml", []byte(text))
	require.NoError(t, err)
	cfg := f.Config()
	assert.Equal(t, pulse.Micros(1700), cfg.Link.Stored[8])
	_, err = Parse("c.yaml", []byte(strings.Replace(text, "channel 9", "channel 5", 1)))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "channel 5 carries arm: call the value by that name")
}

// What a text of model 2 leaves out is what model 2 had: a craft in air that only drags, and a damper that was told in N s/m.
func TestModelTwoKeepsItsDefaults(t *testing.T) {
	f, err := ParseOf(2, "old.yaml", []byte(flies))
	require.NoError(t, err)
	cfg := f.Config()
	assert.Zero(t, cfg.Body.Idle+cfg.Body.RotorDrag+cfg.Body.Turning+cfg.Body.Pack.NoLoad+cfg.Body.Pack.Electronics+cfg.Body.Pack.Dies)
	assert.Zero(t, cfg.Control.Lead)
	assert.Equal(t, flight.Gains{Proportional: 24, Integral: 10, Derivative: 0.6}, cfg.Control.Gains[0])
	assert.Equal(t, flight.Gains{Proportional: 12, Integral: 20}, cfg.Control.Gains[2])
	assert.EqualValues(t, 900, cfg.Flight.IdleSpeed)
	f, err = ParseOf(2, "old.yaml", []byte(flies+"body:\n  ground: {stiffness: 2000 N/m, damping: 12 N s/m}\n"))
	require.NoError(t, err)
	assert.InDelta(t, 3, f.Config().Body.Damping, 1e-12)
}
