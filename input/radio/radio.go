// Package radio: raw axes and buttons to microseconds by what was learned; the radio file.
//
// The radio file keeps two things apart. The scale says which raw values mean 988, 1500 and 2012 µs; the reach says how
// far the control was really seen to go. Learning writes the reach and never stretches the scale, so a throttle that
// ends at 1012 µs reads 1012 µs and the fault that the pilot is looking for stays in sight.
package radio

import (
	"slices"
	"strconv"
	"strings"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Version is that of the radio file that is written, and the only one that is read.
const Version = 1

// None stands in a row of buttons for the position that holds while no button of the row is pressed.
const None = -1

// MostPositions is the longest row of buttons that is read (ours; six-position rows are met).
const MostPositions = 12

// Device is what a radio file says of the radio it was learned for.
type Device struct {
	Name string
	// Vendor and Product are the USB numbers, 0 where unknown.
	Vendor, Product uint16
	Serial, Port    string
}

// DeviceOf takes from info what a radio file keeps: texts without broken letters, at most 512 bytes each.
func DeviceOf(info input.Info) Device {
	return Device{keep(info.Name), info.Vendor, info.Product, keep(info.Serial), keep(info.Port)}
}

func keep(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	if len(s) > longestText {
		s = strings.ToValidUTF8(s[:longestText], "")
	}
	return s
}

// Form tells what a control is made of.
type Form uint8

const (
	// Axis: one raw axis, a hat's half included.
	Axis Form = iota + 1
	// Button: one button; released is 988 µs and pressed is 2012 µs.
	Button
	// Row: one button a position, from 988 to 2012 µs in equal steps.
	Row
)

// Reach is how far a control was found to go, in raw values: Low <= Rest <= High whichever way the scale runs.
type Reach struct{ Low, Rest, High int32 }

// Control says what carries one job.
type Control struct {
	// Job is a job's name, or "channel 7" (channels counted from 1 as in the file).
	Job  string
	Form Form
	// With is the job of another control that is the same piece of the radio, empty for none: a hand that moves one moves both. All below
	// but Turned is then as that one has it. Turned: this one goes down as that one goes up.
	With   string
	Turned bool
	// Axis counts from 0 (Axis only).
	Axis int
	// Scale is nil where the device's own lowest, middle and highest value mean 988, 1500 and 2012 µs; Backwards is
	// then true where they mean 2012, 1500 and 988 (Axis only).
	Scale     *Scale
	Backwards bool
	// Reach is nil where nothing was measured (Axis only).
	Reach *Reach
	// Buttons count from 0: the one button of a Button; the positions of a Row from low to high, None at most once.
	Buttons []int
	// Positions are the resting places that were found on an axis, from low to high by the scale; nil for a stick, a knob
	// and an axis that was not looked at for them (Axis only).
	Positions []Position
	// Noise is the standard deviation of the raw value while nobody moves it; 0 where it was not measured (Axis only).
	Noise Tenth
	// Stays is true for a stick or knob without a spring: it stays where it is let go (Axis only). A file that does not say it
	// leaves it to the reach: staysUnsaid.
	Stays bool
	// Momentary is true for a control that springs back when it is let go (Button, Row, or an axis with Positions).
	Momentary bool
	// Side is where on the radio the control sits, as the pilot said.
	Side Side
	// Spot is where it sits, as the pilot said; it tells the Side too. A stick has none.
	Spot Spot
	// Called is what the pilot calls the control, or empty.
	Called string
}

// IsSwitch tells whether a control stands in positions: buttons do, and an axis on which some were found.
func (c *Control) IsSwitch() bool { return c.Form != Axis || len(c.Positions) > 0 }

// staysUnsaid is what Stays is where a radio file does not say it. A spring takes a control back to the middle of its way, so
// one that was found at rest outside the middle half of its reach (ours) has none. Where no reach is known, the throttle and
// what is no stick stay where they are put (common practice, no source).
func (c *Control) staysUnsaid() bool {
	switch r := c.Reach; {
	case c.IsSwitch() || c.Momentary:
		return false
	case r == nil:
		return c.Job == "throttle" || !slices.Contains(Needed(), c.Job)
	default:
		low, rest, high := int64(r.Low), int64(r.Rest), int64(r.High)
		return rest < low+(high-low)/4 || rest > high-(high-low)/4
	}
}

// Position is one resting place of a switch on an axis.
type Position struct {
	// At is the middle of the raw values that were seen there, Spread their standard deviation.
	At     Half
	Spread Tenth
}

// Tenth is a raw value times ten: spreads and noise are told to one place.
type Tenth int32

// Side is where on the radio a control sits, seen by whoever holds it.
type Side uint8

// The sides.
const (
	NoSide Side = iota // nobody has said
	Left
	Right
	Top // in the middle, or on the top face
)

// ScaleOn is the scale of an axis on a device; false for no axis, or where the file leaves the scale to a device that is not
// at hand (info is nil) or has no such axis.
func (c *Control) ScaleOn(info *input.Info) (Scale, bool) {
	switch {
	case c.Form != Axis:
		return Scale{}, false
	case c.Scale != nil:
		return *c.Scale, true
	case info == nil || c.Axis >= len(info.Axes) || info.Axes[c.Axis].Min >= info.Axes[c.Axis].Max:
		return Scale{}, false
	case c.Backwards:
		return Own(info.Axes[c.Axis]).Turned(), true
	}
	return Own(info.Axes[c.Axis]), true
}

// File is what a radio file holds.
type File struct {
	Device Device
	// StickMode is the stick mode, 1 to 4.
	StickMode int
	// Given: the file came from elsewhere, and nobody has tried yet whether each control of this radio here is where it says.
	Given bool
	// Controls are in the order in which they were written. Every job stands at most once.
	Controls []Control
}

// Control gives the control that carries job.
func (f *File) Control(job string) (Control, bool) {
	i := slices.IndexFunc(f.Controls, func(c Control) bool { return c.Job == job })
	if i < 0 {
		return Control{}, false
	}
	return f.Controls[i], true
}

// Needed are the jobs without which a radio file is no use.
func Needed() []string { return []string{"throttle", "roll", "pitch", "yaw"} }

// Jobs are all jobs by name that a radio file may give a control to, besides channels by number.
func Jobs() []string { return []string{"throttle", "roll", "pitch", "yaw", "arm", "second", "mode"} }

// channelJob reads "channel 7": the number counted from 0. near is true for anything that begins with the word, so
// that "channel 17" and "channel x" get an error of their own.
func channelJob(job string) (channel int, near, ok bool) {
	rest, near := strings.CutPrefix(job, "channel")
	if !near {
		return 0, false, false
	}
	digits := strings.TrimPrefix(rest, " ")
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 || n > pulse.Channels || "channel "+strconv.Itoa(n) != job {
		return 0, true, false
	}
	return n - 1, true, true
}

// ChannelOf gives the channel (from 0) that carries job under names; false where the craft has no such job.
func ChannelOf(job string, names input.Names) (int, bool) {
	if ch, near, ok := channelJob(job); near {
		return ch, ok
	}
	ch, ok := names.Channel[job]
	return ch, ok && ch >= 0 && ch < pulse.Channels
}
