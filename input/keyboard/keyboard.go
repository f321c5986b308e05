package keyboard

import (
	"sync"

	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// Grid is the time between two steps of the sticks in µs (ours).
const Grid = 5000

// latest is the last time that is played, so that no sum overflows: a hundred thousand years and more.
const latest = 1 << 62

// How fast things move (ours). A stick is held in 75ths of an eighth of a µs, so that each step is a whole number and
// the way out and back is the same on every machine.
const (
	fine     = 75
	stick    = int32(pulse.Travel) * fine     // centre to end
	throttle = int32(pulse.Travel) * 2 * fine // end to end

	outSteps  = 250_000 / Grid // centre to end in 250 ms
	backSteps = 120_000 / Grid // end to centre in 120 ms

	flickSteps = 80_000 / Grid // end to end in 80 ms, where a pointer pulls

	flick = throttle / flickSteps
	out   = stick / outSteps
	back  = stick / backSteps

	// The throttle gathers speed while its key is held, so that a tap moves it a little: a hand holds a height with it. It is slow for tapSteps, goes
	// faster until growSteps, and is end to end in 1.2 s.
	tapSteps  = 100_000 / Grid
	growSteps = 400_000 / Grid
	slow      = fine * 8 * 60 / (1_000_000 / Grid) // 60 µs a second
	quick     = slow * 18                          // 1080 µs a second
	gently    = 4                                  // so many times slower with Gentle held
)

// Each speed is a whole number: these do not compile otherwise.
const (
	_ = uint(-(stick % outSteps))
	_ = uint(-(stick % backSteps))
	_ = uint(-(fine * 8 * 60 % (1_000_000 / Grid)))
	_ = uint(-((quick - slow) % (growSteps - tapSteps)))
	_ = uint(-(slow % gently))
	_ = uint(-(throttle % flickSteps))
)

// stroke is one press or release of a key, or what a pointer does to a stick.
type stroke struct {
	at      int64
	key     Key // 0: every key is released, unless a pointer is meant
	pressed bool
	grasp   grasp
}

// grasp is a pointer at one axis: it wants it at a width, or lets it go.
type grasp struct {
	by   bool // a pointer is meant
	axis Axis
	on   bool
	to   pulse.Width
	last bool // let go of before it was there: the throttle, which stays, goes there all the same
}

// Source is the keyboard as an input.Source. Press, Release and ReleaseAll may be called from any goroutine, and may be
// given ahead of their time.
//
// The sticks move in steps of 5 ms by the stamps of the strokes, so the same strokes give the same readings however
// often it is polled. A stroke that comes in after its step was handed out counts at the next step.
type Source struct {
	wake chan struct{}

	mu      sync.Mutex
	strokes []stroke // in order of time
	held    [keys]bool
	tapped  [keys]bool  // pressed since the last step, released or not
	grasped [axes]grasp // by a pointer, where on
	at      int64       // the next step
	begun   bool
	closed  bool

	throttle         int32 // 0 .. throttle
	pulled           int32 // for how many steps it has been moved by a key, below 0 downwards
	yaw, roll, pitch int32 // −stick .. stick
	arm, second      bool
	extra            bool
	mode             pulse.Width
	frame            pulse.Frame

	channels channels
}

// channels tells where each control goes, −1 where the craft has none, and what its switches' positions are.
type channels struct {
	throttle, roll, pitch, yaw, arm, second, mode, extra int
	armOff, armOn, secondOff, secondOn                   pulse.Width
}

// New makes a keyboard with the channels of names. The extra switch gets the lowest channel that has no job. Arm and
// second switch go to the positions off and on as names has them (the middle of the craft's own spans), else to 988 and
// 2012 µs; the mode switch stands at 988, 1500 or 2012 µs as a switch does.
func New(names input.Names) *Source {
	s := &Source{wake: make(chan struct{}, 1), mode: pulse.Low}
	var taken [pulse.Channels]bool
	for _, ch := range names.Channel {
		if ch >= 0 && ch < pulse.Channels {
			taken[ch] = true
		}
	}
	channel := func(job string) int {
		if ch, ok := names.Channel[job]; ok && ch >= 0 && ch < pulse.Channels {
			return ch
		}
		return -1
	}
	position := func(job, word string, otherwise pulse.Width) pulse.Width {
		if w, ok := names.Position[job][word]; ok && w.Valid() {
			return w
		}
		return otherwise
	}
	s.channels = channels{
		throttle: channel("throttle"), roll: channel("roll"), pitch: channel("pitch"), yaw: channel("yaw"),
		arm: channel("arm"), second: channel("second"), mode: channel("mode"), extra: -1,
		armOff: position("arm", "off", pulse.Low), armOn: position("arm", "on", pulse.High),
		secondOff: position("second", "off", pulse.Low), secondOn: position("second", "on", pulse.High),
	}
	for ch, t := range taken {
		if !t {
			s.channels.extra = ch
			break
		}
	}
	return s
}

// Name is input.Source's.
func (s *Source) Name() string { return "keyboard" }

// Wake carries a value after each stroke.
func (s *Source) Wake() <-chan struct{} { return s.wake }

// Press presses a key at a time in µs since the source was opened. A key that is down already stays down (the repeats
// that an operating system sends do no harm).
func (s *Source) Press(key Key, at int64) { s.stroke(stroke{at: at, key: key, pressed: true}) }

// Release releases a key at a time in µs.
func (s *Source) Release(key Key, at int64) { s.stroke(stroke{at: at, key: key}) }

// ReleaseAll releases every key and stick at a time in µs, as when the window loses the focus. Throttle and switches stay.
func (s *Source) ReleaseAll(at int64) { s.stroke(stroke{at: at}) }

// Hold pulls an axis to a width, 988 to 2012 µs, at a time in µs, as a pointer does that has the stick. It is there within 80 ms, and stays
// until it is pulled elsewhere or let go. Keys do not move it meanwhile.
func (s *Source) Hold(axis Axis, to pulse.Width, at int64) {
	s.stroke(stroke{at: at, grasp: grasp{by: true, axis: axis, on: true, to: min(max(to, pulse.Low), pulse.High)}})
}

// LetGo lets an axis go at a time in µs: the throttle stays, the others spring back.
func (s *Source) LetGo(axis Axis, at int64) {
	s.stroke(stroke{at: at, grasp: grasp{by: true, axis: axis}})
}

func (s *Source) stroke(k stroke) {
	if int(k.key) >= keys || k.key == 0 && k.pressed || int(k.grasp.axis) >= axes {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	i := len(s.strokes)
	for i > 0 && s.strokes[i-1].at > k.at {
		i--
	}
	s.strokes = append(s.strokes, stroke{})
	copy(s.strokes[i+1:], s.strokes[i:])
	s.strokes[i] = k
	select {
	case s.wake <- struct{}{}:
	default:
	}
}

// Poll is input.Source's. It begins with Plug 1 and the resting controls at 0 µs; a keyboard never ends but by Close.
func (s *Source) Poll(dst []pulse.Reading, until int64) ([]pulse.Reading, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return dst, input.ErrEnd
	}
	until = min(until, latest)
	for s.at <= until {
		if !s.begun {
			dst = append(dst, pulse.Reading{At: s.at, Kind: pulse.Plug, Value: 1})
		}
		s.listen()
		moved := s.step()
		frame := s.hold()
		if frame != s.frame || !s.begun {
			s.frame, s.begun = frame, true
			dst = append(dst, pulse.Reading{At: s.at, Kind: pulse.Controls, Frame: frame})
		}
		s.at += Grid
		if !moved {
			s.rest(until)
		}
	}
	return dst, nil
}

// rest skips the steps in which nothing can happen: to the next stroke, else to the first step after until.
func (s *Source) rest(until int64) {
	to := until + 1
	if len(s.strokes) > 0 {
		to = min(to, s.strokes[0].at)
	}
	if to > s.at {
		s.at += (to - s.at + Grid - 1) / Grid * Grid
	}
}

// listen takes the strokes that are due.
func (s *Source) listen() {
	n := 0
	for ; n < len(s.strokes) && s.strokes[n].at <= s.at; n++ {
		k := s.strokes[n]
		switch {
		case k.grasp.by && !k.grasp.on && k.grasp.axis == Throttle:
			s.grasped[Throttle].last = true
		case k.grasp.by:
			s.grasped[k.grasp.axis] = k.grasp
		case k.key == 0:
			s.held, s.grasped = [keys]bool{}, [axes]grasp{}
		case !k.pressed:
			s.held[k.key] = false
		case !s.held[k.key]:
			s.held[k.key], s.tapped[k.key] = true, true
			s.press(k.key)
		}
	}
	s.strokes = s.strokes[:copy(s.strokes, s.strokes[n:])]
}

// press does what happens once at each press.
func (s *Source) press(key Key) {
	switch key {
	case ThrottleZero:
		s.throttle, s.grasped[Throttle] = 0, grasp{}
	case Arm:
		s.arm = !s.arm
	case Second:
		s.second = !s.second
	case Extra:
		s.extra = !s.extra
	case ModeLow:
		s.mode = pulse.Low
	case ModeMiddle:
		s.mode = pulse.Centre
	case ModeHigh:
		s.mode = pulse.High
	}
}

// step moves the sticks for one grid step and reports whether anything may move in the next one by itself.
func (s *Source) step() bool {
	share := int32(1)
	if s.down(Gentle) {
		share = 2
	}
	before := [4]int32{s.throttle, s.yaw, s.roll, s.pitch}
	if !s.drawn(Throttle, &s.throttle, pulse.Low) {
		s.throttle = min(max(s.throttle+s.power(), 0), throttle)
	}
	if !s.drawn(Yaw, &s.yaw, pulse.Centre) {
		s.yaw = towards(s.yaw, s.pull(YawLeft, YawRight)*stick/share)
	}
	if !s.drawn(Roll, &s.roll, pulse.Centre) {
		s.roll = towards(s.roll, s.pull(RollLeft, RollRight)*stick/share)
	}
	if !s.drawn(Pitch, &s.pitch, pulse.Centre) {
		s.pitch = towards(s.pitch, s.pull(PitchBack, PitchForward)*stick/share)
	}
	tapped := s.tapped != [keys]bool{}
	s.tapped = [keys]bool{}
	return tapped || before != [4]int32{s.throttle, s.yaw, s.roll, s.pitch}
}

// power is by how much a key moves the throttle in this step.
func (s *Source) power() int32 {
	pull := s.pull(ThrottleDown, ThrottleUp)
	if pull == 0 || pull*s.pulled < 0 {
		s.pulled = 0
	}
	s.pulled += pull
	held := max(s.pulled, -s.pulled)
	v := slow + (quick-slow)/(growSteps-tapSteps)*min(max(held-tapSteps, 0), growSteps-tapSteps)
	if s.down(Gentle) {
		v /= gently
	}
	return pull * v
}

// drawn moves an axis one step to where a pointer pulls it, and reports whether one does. zero is the width at which v is 0.
func (s *Source) drawn(axis Axis, v *int32, zero pulse.Width) bool {
	p := s.grasped[axis]
	if !p.on {
		return false
	}
	goal := int32(p.to-zero) * fine
	if *v = min(max(goal, *v-flick), *v+flick); p.last && *v == goal {
		s.grasped[axis] = grasp{}
	}
	return true
}

// down reports whether key is held, or was for a moment since the last step: a tap shorter than a step still counts.
func (s *Source) down(key Key) bool { return s.held[key] || s.tapped[key] }

// pull is −1, 0 or 1: two opposite keys hold each other.
func (s *Source) pull(low, high Key) int32 {
	var p int32
	if s.down(low) {
		p--
	}
	if s.down(high) {
		p++
	}
	return p
}

// towards moves a stick one step: outwards slowly, back towards the centre quickly, and never past its goal or centre.
func towards(now, goal int32) int32 {
	if now < 0 || now == 0 && goal < 0 {
		return -towards(-now, -goal)
	}
	if goal >= now {
		return min(now+out, goal)
	}
	return max(now-back, goal, 0)
}

// hold is the frame as the sticks and switches stand.
func (s *Source) hold() pulse.Frame {
	var f pulse.Frame
	put := func(ch int, w pulse.Width) {
		if ch >= 0 {
			f[ch] = w
		}
	}
	c := &s.channels
	put(c.throttle, pulse.Low+width(s.throttle))
	put(c.roll, pulse.Centre+width(s.roll))
	put(c.pitch, pulse.Centre+width(s.pitch))
	put(c.yaw, pulse.Centre+width(s.yaw))
	put(c.arm, either(s.arm, c.armOff, c.armOn))
	put(c.second, either(s.second, c.secondOff, c.secondOn))
	put(c.extra, either(s.extra, pulse.Low, pulse.High))
	put(c.mode, s.mode)
	return f
}

// width is a stick's way in eighths, rounded towards the centre (a throttle's towards low).
func width(v int32) pulse.Width { return pulse.Width(v / fine) }

func either(on bool, off, high pulse.Width) pulse.Width {
	if on {
		return high
	}
	return off
}

// Close is input.Source's.
func (s *Source) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = true
	return nil
}

var _ input.Source = (*Source)(nil)
