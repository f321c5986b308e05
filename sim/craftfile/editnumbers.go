package craftfile

import (
	"strconv"

	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Field is one number or choice of a craft file that stands for itself.
type Field uint8

// The fields, each with what its value counts.
const (
	FrameEvery    Field = iota // ms
	SilenceLimit               // ms
	CleanTime                  // ms
	SinkTime                   // ms
	SinkCarries                // tenths of a percent
	LowThrottle                // eighths of a µs
	ArmDwell                   // ms
	DisarmDwell                // ms
	StillTime                  // ms
	TiltLimit                  // tenths of a degree
	OnlyLevelling              // 1: arming only in angle and horizon
	AtLowThrottle              // a flight.AtLowThrottle
	IdleSpeed                  // hundredths of a percent
	AirModes                   // the bits of the modes
	AirWakes                   // tenths of a percent
	AlwaysMode                 // a layout.Mode
	CameraTilt                 // tenths of a degree
	CameraView                 // tenths of a degree
	FieldCount                 // one more than the last
)

// fields say where each stands in a file, and how its value is written.
var fields = [FieldCount]struct {
	path  [2]string
	write func(v int64) yamldoc.Inline
}{
	FrameEvery:    {[2]string{"receiver", "frame-every"}, millis},
	SilenceLimit:  {[2]string{"link", "silence-limit"}, millis},
	CleanTime:     {[2]string{"link", "clean-time"}, millis},
	SinkTime:      {[2]string{"link", "sink-time"}, millis},
	SinkCarries:   {[2]string{"link", "sink-carries"}, percentOf(10)},
	LowThrottle:   {[2]string{"arming", "low-throttle"}, func(v int64) yamldoc.Inline { return micros(pulse.Width(v)) }},
	ArmDwell:      {[2]string{"arming", "arm-dwell"}, millis},
	DisarmDwell:   {[2]string{"arming", "disarm-dwell"}, millis},
	StillTime:     {[2]string{"arming", "still-time"}, millis},
	TiltLimit:     {[2]string{"arming", "tilt-limit"}, degrees},
	CameraTilt:    {[2]string{"camera", "tilt"}, degrees},
	CameraView:    {[2]string{"camera", "view"}, degrees},
	OnlyLevelling: {[2]string{"arming", "only-self-levelling"}, func(v int64) yamldoc.Inline { return yamldoc.InlineWord([]string{"no", "yes"}[v&1]) }},
	AtLowThrottle: {[2]string{"motors", "at-low-throttle"}, func(v int64) yamldoc.Inline {
		return yamldoc.InlineWord([...]string{flight.StandStill: "still", flight.Idle: "idle"}[v&1])
	}},
	IdleSpeed:  {[2]string{"motors", "idle-speed"}, percentOf(100)},
	AirModes:   {[2]string{"motors", "air-mode-in"}, modesIn},
	AirWakes:   {[2]string{"motors", "air-mode-wakes-at"}, percentOf(10)},
	AlwaysMode: {[2]string{"modes", "always"}, func(v int64) yamldoc.Inline { return yamldoc.InlineWord(layout.Mode(v).Code()) }},
}

func millis(v int64) yamldoc.Inline { return yamldoc.InlineValue(strconv.FormatInt(v, 10) + " ms") }

func degrees(v int64) yamldoc.Inline { return yamldoc.InlineValue(parts(int(v), 10) + " deg") }

func percentOf(scale int) func(int64) yamldoc.Inline {
	return func(v int64) yamldoc.Inline { return yamldoc.InlineValue(parts(int(v), scale) + " %") }
}

func modesIn(v int64) yamldoc.Inline {
	var in []yamldoc.Inline
	for m, name := range modeNames {
		if v>>m&1 == 1 {
			in = append(in, yamldoc.InlineWord(name))
		}
	}
	return yamldoc.InlineList(in...)
}

// SetField gives a field another value, in the units of the field. A value that no craft file may have is refused with the reader's own words.
func (f *File) SetField(n Field, v int64) (*File, error) {
	c := f.change()
	at := &fields[n]
	c.set(at.write(v), at.path[:]...)
	return c.done()
}

// SetStored says what the receiver stores for a channel (from 0), and sends when the radio goes silent.
func (f *File) SetStored(channel int8, w pulse.Width) (*File, error) {
	c := f.change()
	name := channelWord + strconv.Itoa(int(channel)+1)
	for _, job := range benchJobs {
		if at, has := f.jobs[job]; has && at == int(channel) {
			name = job
		}
	}
	for i := range f.more {
		if f.more[i].Channel == channel && c.at("receiver", "stored", f.more[i].Name).Exists() {
			name = f.more[i].Name
		}
	}
	c.set(micros(w), "receiver", "stored", name)
	return c.done()
}
