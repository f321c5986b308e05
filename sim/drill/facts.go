package drill

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/mark"
	"propsoff.example/sim/pulse"
)

// Zone is where a stick stands.
type Zone uint8

// The zones, from low to high. The ends are as everywhere in this program (85 % of travel), the middle is within 25 % of the
// centre (ours). Down is the throttle's alone: below the craft's low mark.
const (
	Gone   Zone = iota // no pulse, or the radio's plug is out
	Down               // the throttle, below the low mark
	Low                // fully low
	Below              // between low and the middle
	Middle             // near the centre
	Above              // between the middle and high
	High               // fully high
	Zones              // one more than the last
)

// middleWithin is how far from the centre still counts as the middle.
const middleWithin = pulse.Travel / 4

// Facts is what the bench shows after one tick, as far as a drill may ask for it.
type Facts struct {
	Refusals arming.Set
	Link     link.Phase
	Mode     layout.Mode
	// Sticks are throttle, roll, pitch and yaw, Arm and Second the switches, and HandMode one more than the mode that the mode
	// switch asks for (0 none): all as the hands hold them now, whether or not the craft hears them.
	Sticks      [4]Zone
	Arm, Second layout.Place
	HandMode    uint8
	// Held is what the hands hold of each job, pulse.Missing where there is none.
	Held        [Jobs]pulse.Width
	Menu        uint8
	Armed       bool
	Turning     bool // at least one motor turns
	Transmitter bool
	Powered     bool
	Cable       bool
	Tilted      bool // beyond the craft's limit
	Checked     bool
	Flying      bool
	Broken      bool // a wreck on the air bench
	Hovers      bool // the hand holds the throttle where the craft hovers
	Flown       Flown
	// Bench is where the craft is, as the value of an Air reading.
	Bench int32
}

// FactsOf takes from a snapshot what a drill may ask for. cfg is the craft on the bench.
func FactsOf(s *sim.Snapshot, cfg *sim.Config) Facts {
	in, l := &s.In, &cfg.Layout
	f := Facts{
		Refusals: s.Refusals, Link: s.Link, Mode: s.Mode, Menu: in.Craft.Menu, Armed: s.Armed,
		Transmitter: in.Transmitter, Powered: in.Powered, Cable: in.Craft.Cable,
		Tilted: in.Craft.TiltTenths > cfg.Arming.TiltLimitTenths, Checked: in.Checked, Flying: in.Air && s.Air.Flying,
		Broken: in.Air && s.Air.Wreck != 0, Flown: flownOf(s), Bench: in.Bench(),
	}
	for _, m := range s.Motor {
		f.Turning = f.Turning || m > 0
	}
	if !in.HasSent || !in.Plugged {
		return f
	}
	for j := Throttle; j < Jobs; j++ {
		if c := j.Channel(l); c != layout.NoChannel {
			f.Held[j] = in.Sent[c]
		}
	}
	for i := range f.Sticks {
		f.Sticks[i] = zone(f.Held[Throttle+Job(i)])
	}
	if f.Sticks[0] != Gone && f.Held[Throttle] < cfg.Arming.LowThrottle {
		f.Sticks[0] = Down
	}
	if in.Air {
		from, to := HoverSpan(cfg)
		f.Hovers = f.Held[Throttle] >= from && f.Held[Throttle] <= to
	}
	f.Arm = place(l.Arm, l.ArmSpan, &in.Sent)
	f.Second = place(l.Second, l.SecondSpan, &in.Sent)
	if l.Mode != layout.NoChannel && in.Sent[l.Mode].Valid() {
		f.HandMode = 1 + uint8(l.ModeAt(in.Sent[l.Mode]))
	}
	return f
}

func zone(w pulse.Width) Zone {
	switch {
	case !w.Valid():
		return Gone
	case w <= pulse.FullyLow:
		return Low
	case w < pulse.Centre-middleWithin:
		return Below
	case w <= pulse.Centre+middleWithin:
		return Middle
	case w < pulse.FullyHigh:
		return Above
	}
	return High
}

// SpanOf is where a zone of a stick lies, both ends included; low is the craft's low mark, below which the throttle is Down.
func SpanOf(z Zone, throttle bool, low pulse.Width) (from, to pulse.Width, ok bool) {
	switch z {
	case Down:
		return pulse.Low, low - 1, throttle
	case Low:
		return pulse.Low, pulse.FullyLow, true
	case Below:
		return pulse.FullyLow + 1, pulse.Centre - middleWithin - 1, true
	case Middle:
		return pulse.Centre - middleWithin, pulse.Centre + middleWithin, true
	case Above:
		return pulse.Centre + middleWithin + 1, pulse.FullyHigh - 1, true
	case High:
		return pulse.FullyHigh, pulse.High, true
	}
	return 0, 0, false
}

func place(channel int8, span layout.Span, f *pulse.Frame) layout.Place {
	switch {
	case channel == layout.NoChannel:
		return layout.NoJob
	case !f[channel].Valid():
		return layout.NoPulse
	case span.Contains(f[channel]):
		return layout.Inside
	}
	return layout.Outside
}

// Input is what one tick brings to a drill.
type Input struct {
	// Tick is the tick that the bench has just run; Facts and Happened are those of it.
	Tick     int64
	Facts    Facts
	Happened []happening.Happening
	// Answer is one more than the choice that the pupil took in this tick, by its place in the file; 0 for none.
	Answer int
	// Cued is true once, as soon as it is known at which tick the cue could first be seen or heard: CueAt, which may be some ticks back.
	// Uncertain is how far off that may be, in ticks: one picture, or one buffer of sound.
	Cued      bool
	CueAt     int64
	Uncertain uint16
	// Followed is true once when the mark was followed to its end, and Hand is what that said.
	Followed bool
	Hand     mark.Hand
	// On is true once when the pupil has seen a wrong try again and wants to go on.
	On bool
}

// holds reports whether a want is true in this tick.
func (w *Want) holds(in *Input) bool {
	f := &in.Facts
	is := func(on bool) bool { return on == (w.A != 0) }
	set := func(n uint8) bool { return w.A>>n&1 == 1 }
	switch w.Kind {
	case Armed:
		return is(f.Armed)
	case Ready:
		return f.Powered && !f.Armed && f.Refusals == 0
	case Refuses:
		return f.Refusals&arming.Set(w.A) == arming.Set(w.A)
	case OnlyThose:
		return f.Powered && f.Refusals == arming.Set(w.A)
	case Clear:
		return f.Powered && f.Refusals&arming.Set(w.A) == 0
	case Link:
		return set(uint8(f.Link))
	case Mode:
		return f.Powered && int32(f.Mode) == w.A
	case Motors:
		return is(f.Turning)
	case Stick:
		return w.B>>f.Sticks[w.A&3]&1 == 1
	case ArmSwitch:
		return at(f.Arm, w.A)
	case SecondSwitch:
		return at(f.Second, w.A)
	case ModeSwitch:
		return int32(f.HandMode) == w.A+1
	case Transmitter:
		return is(f.Transmitter)
	case Power:
		return is(f.Powered)
	case Cable:
		return is(f.Cable)
	case Level:
		return is(!f.Tilted)
	case Menu:
		return int32(f.Menu) == w.A
	case Checked:
		return is(f.Checked)
	case Flying:
		return is(f.Flying)
	case HoverThrottle:
		return f.Hovers
	case Answer:
		return in.Answer == int(w.A)+1
	case Followed:
		return in.Followed && in.Hand.Measured
	case Flies:
		return w.Task.Keeps(&f.Flown)
	case Leaves:
		return f.Flown.On && !w.Task.Keeps(&f.Flown)
	}
	for i := range in.Happened {
		if w.happens(&in.Happened[i]) {
			return true
		}
	}
	return false
}

func at(p layout.Place, on int32) bool {
	return on != 0 && p == layout.Inside || on == 0 && p == layout.Outside
}

// happens reports whether a happening is the one that is wanted.
func (w *Want) happens(h *happening.Happening) bool {
	switch w.Kind {
	case Refused:
		return h.Code == happening.Refused && (w.A == 0 || h.A&w.A != 0)
	case DisarmedBy:
		return h.Code == happening.Disarmed && w.A>>h.A&1 == 1
	case Happens:
		return h.Code == happening.Code(w.A) && (w.B < 0 || h.A == w.B)
	case Gesture:
		return h.Code == happening.Gesture && h.A == w.A
	case MenuValue:
		return h.Code == happening.MenuValue && h.A == w.A && h.B == w.B
	case MenuLeft:
		return h.Code == happening.MenuLeft && h.A == w.A
	case TouchesDown:
		return h.Code == happening.TouchedDown && h.A >= w.A && (h.A < w.B || w.B == NoHigh)
	}
	return false
}
