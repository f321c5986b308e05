package practice_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/sim"
	"propsoff.example/sim/body"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// faulty is a reading that plants a fault.
func faulty(t require.TestingT, d pulse.Deed, a, b int32) pulse.Reading {
	v, ok := fault.Plant(d, a, b)
	require.True(t, ok, "%s %d %d", fault.Code(d), a, b)
	return pulse.Reading{Kind: pulse.Instructor, Value: v}
}

// planted is the tick at which the faults of these tests are planted: the craft is ready by then.
const planted = 2500

// rounds are the readings of a pupil who tries everything after the tick planted: each stick, the modes, arming, the throttle, disarming, and the
// radio off and on again.
func rounds(air bool) map[int64][]pulse.Reading {
	f := pulse.Frame{pulse.Low, pulse.Centre, pulse.Centre, pulse.Centre, pulse.Low, pulse.Low}
	out := map[int64][]pulse.Reading{0: start()}
	if air {
		out[1] = []pulse.Reading{{Kind: pulse.Air, Value: 1}, {Kind: pulse.Propellers, Value: pulse.PropellersValue(body.Default().Hand, true)}}
	}
	put := func(at int64, ch int, w pulse.Width) {
		f[ch] = w
		out[at] = append(out[at], pulse.Reading{Kind: pulse.Controls, Frame: f})
	}
	if !air {
		put(2600, 1, pulse.High)
		put(2700, 1, pulse.Centre)
		put(2760, 3, pulse.Low)
		put(2820, 3, pulse.Centre)
		put(2880, 5, pulse.Centre)
		put(2940, 5, pulse.High)
		put(3000, 5, pulse.Low)
	}
	put(3100, 4, pulse.High)
	put(3300, 0, pulse.Micros(1600))
	put(3500, 0, pulse.Low)
	put(3600, 4, pulse.Low)
	out[3800] = append(out[3800], pulse.Reading{Kind: pulse.Link, Value: 0})
	out[4600] = append(out[4600], pulse.Reading{Kind: pulse.Link, Value: 1})
	return out
}

// differences appends the fields in which two snapshots differ; all of an array or a struct of another package counts as
// one, but for channels and what stands outside the craft.
func differences(dst []string, path string, a, b reflect.Value) []string {
	if a.Interface() == b.Interface() {
		return dst
	}
	frame := a.Type() == reflect.TypeFor[pulse.Frame]()
	switch {
	case frame:
		for i := range a.Len() {
			dst = differences(dst, fmt.Sprintf("%s %d", path, i+1), a.Index(i), b.Index(i))
		}
		return dst
	case a.Kind() == reflect.Struct && (path == "" || path == "In" || path == "In.Craft" || path == "Jobs"):
		for i := range a.NumField() {
			dst = differences(dst, strings.TrimPrefix(path+"."+a.Type().Field(i).Name, "."), a.Field(i), b.Field(i))
		}
		return dst
	}
	if !slices.Contains(dst, path) {
		dst = append(dst, path)
	}
	return dst
}

// TestEachFaultShowsWhereItShould runs a pupil's rounds with a fault and without: every field of the snapshot that ever differs is one
// that should, and every one that should does.
func TestEachFaultShowsWhereItShould(t *testing.T) {
	for _, c := range []struct {
		d    pulse.Deed
		a, b int32
		// roots are what the fault itself touches, follows what the craft makes of that.
		roots, follows string
	}{
		// No frame comes: nothing outside the craft differs, the radio's own switch neither. What the hands do is not received.
		{fault.RadioOff, 0, 0, "", "Armed, CleanLeftMillis, Jobs.Arm, Jobs.Roll, Jobs.Throttle, Jobs.Yaw, Link, Mode, Motor, Received 1, Received 2, Received 4, Received 5, Received 6, Receiving, Refusals, Seen, SilentMillis, ThrottleStillMillis, Valid"},
		// A gap of 400 ms loses the link; roll, yaw and mode move in it or while it is fresh, and arming comes too soon.
		{fault.Dropouts, 400, 0, "", "Armed, CleanLeftMillis, Jobs.Roll, Jobs.Yaw, Link, Mode, Motor, Received 2, Received 4, Received 6, Receiving, Refusals, Seen, SilentMillis, Valid"},
		// Another receiver shows only while the radio is off; stored values have something on all 16 channels.
		{fault.Receiver, 1, 0, "", "CleanLeftMillis, Link, Origin, Receiving, Refusals, SilentMillis, Valid"},
		{fault.Receiver, 2, 0, "Received 7, Received 8, Received 9, Received 10, Received 11, Received 12, Received 13, Received 14, Received 15, Received 16, Seen", "CleanLeftMillis, Link, Origin, Receiving, Refusals, SilentMillis, Valid"},
		{fault.Receiver, 0, 0, "", ""}, // what the craft has anyway
		{fault.Reversed, 2, 0, "In.Sent 2", "Jobs.Roll, Received 2, Seen"},
		{fault.Swapped, 2, 4, "In.Sent 2, In.Sent 4", "Jobs.Roll, Jobs.Yaw, Received 2, Received 4, Seen"},
		{fault.ShortTravel, 1, 1012, "In.Sent 1", "Jobs.Throttle, Received 1, Seen, ThrottleStillMillis, Armed, Motor, Refusals"}, // 1012 µs is not low: refused
		{fault.Stuck, 6, 0, "In.Sent 6", "Mode, Received 6, Seen"},
		{fault.Noisy, 3, 20, "In.Sent 3", "Jobs.Pitch, Received 3, Seen"},
		{fault.OffCentre, 4, 60, "In.Sent 4", "Jobs.Yaw, Received 4, Seen"},
		{fault.ChannelOut, 6, 0, "In.Sent 6", "Jobs.Missing, Mode, Received 6, Seen, Armed, Motor, Refusals"},                                                  // missing: refused
		{fault.ChannelOut, 2, 0, "In.Sent 2", "Jobs.Missing, Jobs.Roll, Received 2, Seen, CleanLeftMillis, Link, SilentMillis, Armed, Motor, Refusals, Valid"}, // no frame is valid: the link is lost
		{fault.ModeGap, 100, 0, "", "Mode"},
		{fault.LowPack, 13000, 0, "In.Craft.PackMilliVolts", "Armed, Motor, Refusals, Senses"},
		{fault.WrongPropeller, 1, 0, "In.Hands", "Air, Motor, Refusals, Senses, Volts"}, // it tips over: tilted
		{fault.CableIn, 0, 0, "In.Craft.Cable", "Armed, Motor, Refusals, Senses"},
	} {
		name := fmt.Sprint(fault.Code(c.d), c.a, c.b)
		t.Run(name, func(t *testing.T) {
			air := c.d == fault.WrongPropeller
			cfg := sim.Default()
			cfg.Arming.PackLimitMilliVolts = 13500
			with, without := practice.New(cfg), practice.New(cfg)
			does := rounds(air)
			var got []string
			var x, y sim.Snapshot
			for tick := int64(0); tick < 6500; tick++ {
				rs := does[tick]
				without.Step(rs)
				if tick == planted {
					rs = append([]pulse.Reading{faulty(t, c.d, c.a, c.b)}, rs...)
				}
				with.Step(rs)
				with.Snapshot(&x)
				without.Snapshot(&y)
				got = differences(got, "", reflect.ValueOf(x), reflect.ValueOf(y))
				if tick < planted {
					require.Empty(t, got)
				}
			}
			slices.Sort(got)
			want := strings.FieldsFunc(c.roots+", "+c.follows, func(r rune) bool { return r == ',' })
			for i := range want {
				want[i] = strings.TrimSpace(want[i])
			}
			want = slices.DeleteFunc(want, func(s string) bool { return s == "" })
			slices.Sort(want)
			assert.Equal(t, strings.Join(want, ", "), strings.Join(got, ", "))
		})
	}
}
