package fakeradio

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// width is what a raw value of axis i means by the field's own limits: lowest, middle and highest are 988, 1500, 2012 µs.
func width(l Layout, i int, raw int32) float64 {
	lo, hi := l.AxisRange(i)
	return 988 + 1024*(float64(raw)-float64(lo))/(float64(hi)-float64(lo))
}

func TestFleet_IsSound(t *testing.T) {
	names := map[string]int{}
	for _, m := range Fleet() {
		require.NoError(t, m.Check())
		names[m.Name+m.Serial]++
		for _, job := range []string{"throttle", "yaw", "pitch", "roll", "arm"} {
			_, ok := m.Control(job)
			assert.True(t, ok, "%s has no %s", m.Name, job)
		}
	}
	assert.Len(t, names, len(Fleet()), "no two are the same")
	a, b := Twins()
	assert.Equal(t, a.Name, b.Name)
	assert.Equal(t, [2]uint32{a.Vendor, a.Product}, [2]uint32{b.Vendor, b.Product})
	assert.Equal(t, a.Layout, b.Layout)
	assert.NotEqual(t, a.Serial, b.Serial)
	assert.NotEqual(t, a.Controls, b.Controls)
}

// Every trait that learning is held against is on some radio of the fleet.
func TestFleet_HasEveryTrait(t *testing.T) {
	row := func(places []Place, rests int) func(*Made) bool { // buttons alone, so many places without one
		return func(m *Made) bool {
			for _, c := range m.Controls {
				none := 0
				for _, p := range c.Places {
					if p.Button == Nothing {
						none++
					}
				}
				if c.Axis == Nothing && c.Grip == Switch && len(c.Places) == len(places) && none == rests {
					return true
				}
			}
			return false
		}
	}
	control := func(is func(m *Made, c Control) bool) func(*Made) bool {
		return func(m *Made) bool {
			for _, c := range m.Controls {
				if is(m, c) {
					return true
				}
			}
			return false
		}
	}
	field := func(m *Made, bits int, lo, hi int32) bool {
		for _, p := range m.Layout.Parts {
			if p.Kind == Axes && p.Bits == bits && p.Min == lo && p.Max == hi {
				return true
			}
		}
		return false
	}
	for name, has := range map[string]func(*Made) bool{
		"9 axes and 21 buttons":                  func(m *Made) bool { return m.Layout.AxisCount() == 9 && m.Layout.ButtonCount() == 21 },
		"6 axes":                                 func(m *Made) bool { return m.Layout.AxisCount() == 6 },
		"16 bits with a sign":                    func(m *Made) bool { return field(m, 16, math.MinInt16, math.MaxInt16) },
		"8 bits":                                 func(m *Made) bool { return field(m, 8, 0, 255) },
		"a row of buttons, one each place":       row(make([]Place, 3), 0),
		"a row of six":                           row(make([]Place, 6), 0),
		"three positions on two buttons":         row(make([]Place, 3), 1),
		"two positions on one button":            row(make([]Place, 2), 1),
		"a key that springs back":                control(func(_ *Made, c Control) bool { return c.Grip == Key && c.Places[1].Button != Nothing }),
		"a hat":                                  control(func(_ *Made, c Control) bool { return len(c.Places) > 1 && c.Places[1].Hat != Nothing }),
		"a throttle that runs backwards":         control(func(_ *Made, c Control) bool { return c.Job == "throttle" && c.Backwards() }),
		"a stick that runs backwards":            control(func(_ *Made, c Control) bool { return c.Springs && c.Backwards() }),
		"a switch that runs backwards":           control(func(_ *Made, c Control) bool { return len(c.Places) > 0 && c.Backwards() }),
		"noise of 8 raw steps":                   func(m *Made) bool { return m.Noise == 8 },
		"six levels on an axis":                  control(func(_ *Made, c Control) bool { return c.Axis != Nothing && len(c.Places) == 6 }),
		"a knob":                                 control(func(_ *Made, c Control) bool { return c.Grip == Knob }),
		"two alike in all but the serial number": func(m *Made) bool { return m.Serial == "LP-0002" },
		"levels short of the ends": control(func(m *Made, c Control) bool {
			return len(c.Places) > 2 && width(m.Layout, c.Axis, c.Places[0].Value) > 1020
		}),
		"a throttle that ends at 1012 µs": control(func(m *Made, c Control) bool {
			return c.Job == "throttle" && math.Abs(width(m.Layout, c.Axis, c.Low)-1012) < 0.1
		}),
		"a rest 30 µs off centre": control(func(m *Made, c Control) bool {
			return c.Springs && math.Abs(width(m.Layout, c.Axis, c.Rest)-1530) < 0.15
		}),
		"axes without a control": func(m *Made) bool {
			used := 0
			for _, c := range m.Controls {
				if c.Axis != Nothing {
					used++
				}
			}
			return used < m.Layout.AxisCount()
		},
	} {
		found := 0
		for _, m := range Fleet() {
			if has(&m) {
				found++
			}
		}
		assert.NotZero(t, found, name)
	}
}

// The descriptors by the rules of HID 1.11 section 6.2.2 and the usage tables, read back by the parser: one application
// collection of usage Joystick (the first bytes), axes from X upwards in order, buttons from 1, a hat with a null state, and
// fields that fill whole bytes.
func TestFleet_DescriptorsKeepTheRules(t *testing.T) {
	for _, m := range Fleet() {
		desc, err := m.Layout.Descriptor()
		require.NoError(t, err)
		assert.Equal(t, unhex(t, "05 01 09 04 a1 01"), desc[:6], m.Name)
		fields, err := Parse(desc)
		require.NoError(t, err)
		axes, buttons, hats, bits := 0, 0, 0, 0
		for _, f := range fields {
			assert.Equal(t, bits, f.Bit, "%s: no gap, no overlap", m.Name)
			bits += f.Bits
			switch {
			case f.Constant():
			case f.Page == pageDesktop && f.Usage == UsageHat:
				hats++
				assert.Equal(t, [4]int{0, 7, 4, flagVariable | flagNull}, [4]int{int(f.Min), int(f.Max), f.Bits, int(f.Flags)})
			case f.Page == pageDesktop:
				assert.EqualValues(t, UsageX+axes, f.Usage, m.Name)
				lo, hi := m.Layout.AxisRange(axes)
				assert.Equal(t, [2]int32{lo, hi}, [2]int32{f.Min, f.Max}, m.Name)
				axes++
			default:
				buttons++
				assert.EqualValues(t, pageButton, f.Page)
				assert.EqualValues(t, buttons, f.Usage, m.Name)
			}
		}
		assert.Zero(t, bits%8, m.Name)
		assert.Equal(t, m.Layout.ReportSize()*8, bits, m.Name)
		assert.Equal(t, [3]int{m.Layout.AxisCount(), m.Layout.ButtonCount(), m.Layout.HatCount()}, [3]int{axes, buttons, hats}, m.Name)
	}
}

func TestCheck_FindsWhatCannotBe(t *testing.T) {
	for name, spoil := range map[string]func(*Made){
		"an axis twice":          func(m *Made) { m.Controls[1].Axis = m.Controls[0].Axis },
		"an axis that is absent": func(m *Made) { m.Controls[0].Axis = 9 },
		"a button twice":         func(m *Made) { m.Controls = append(m.Controls, switched("x", Nothing, buttons(20, 1))) },
		"a button that is absent": func(m *Made) {
			m.Controls = append(m.Controls, switched("x", Nothing, buttons(21, 1)))
		},
		"a hat that is absent":    func(m *Made) { m.Controls[8].Places[1].Hat = 2 },
		"a value out of range":    func(m *Made) { m.Controls[0].High = 2048 },
		"a rest outside":          func(m *Made) { m.Controls[2].Low, m.Controls[2].Rest = 100, 99 },
		"a level out of range":    func(m *Made) { m.Controls[5].Places[2].Value = 2048 },
		"one place":               func(m *Made) { m.Controls[5].Places = m.Controls[5].Places[:1] },
		"a job twice":             func(m *Made) { m.Controls[0].Job = "pitch" },
		"neither axis nor place":  func(m *Made) { m.Controls[0].Axis = Nothing },
		"a layout that cannot be": func(m *Made) { m.Layout.Parts = nil },
	} {
		m := Whole()
		require.NoError(t, m.Check())
		spoil(&m)
		assert.Error(t, m.Check(), name)
	}
}
