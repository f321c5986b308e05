package drillfile_test

import (
	"slices"

	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// pupil is a hand that does what it is asked, with delay ms before each act. A pupil who looks before answering goes by what the
// bench shows, never by what the drill file wants.
type pupil struct {
	l *lab
	// delay is before each act, late more before the first one.
	delay, late int64
	careless    bool
	// forgets: the pupil never disarms once the cue has been given.
	forgets bool

	acts  int   // acts of this try so far
	next  int64 // tick at which the next act is due
	done  uint32
	since int64 // tick of the first act, −1 before
	seen  looked
	eye   eye
	fly   flyer
}

// looked is what a pupil remembers of what was to be seen in this try.
type looked struct {
	tilt   float64
	answer string
	began  int64 // tick at which a gesture was begun, 0 for none
}

// turn lets the pupil act once a tick.
func (q *pupil) turn() {
	l := q.l
	switch {
	case l.begun:
		q.acts, q.done, q.since, q.seen = 0, 0, -1, looked{}
		q.rest()
		q.fly.off()
	case l.s.Phase == drill.Preparing:
		q.prepare()
	case l.s.Phase == drill.Running && l.shown >= 0:
		q.respond()
	}
	q.fly.steer(q.l)
}

// rest brings the hands where they belong.
func (q *pupil) rest() {
	lay := q.l.layout()
	q.l.move(lay.Throttle, pulse.Low)
	q.l.move(lay.Roll, pulse.Centre)
	q.l.move(lay.Pitch, pulse.Centre)
	q.l.move(lay.Yaw, pulse.Centre)
	q.l.move(4, pulse.Low)
	q.l.move(5, pulse.Low)
	q.l.move(6, pulse.Low)
}

// prepare does what is still missing, once in a while.
func (q *pupil) prepare() {
	l := q.l
	if l.in.Tick < q.next {
		return
	}
	missing := drill.Missing(&l.d.Config, &l.s, &l.in)
	until := l.kase().Before
	if int(l.s.At) >= len(until) {
		return
	}
	for i := range until[l.s.At].Until {
		w := &until[l.s.At].Until[i]
		if w.Kind == drill.Flies && missing == 0 && !q.fly.on { // handed a craft that flies, he flies it
			q.do(w)
		}
		if missing>>i&1 == 1 && w.Kind != drill.OnlyThose && w.Kind != drill.Refuses && w.Kind != drill.Link {
			q.do(w) // one thing after the other: nobody raises the throttle while arming is refused
			break
		}
	}
	q.next = l.in.Tick + 50
}

// respond does one act after the other.
func (q *pupil) respond() {
	l := q.l
	if q.since < 0 {
		q.since = l.shown
		q.next = l.shown + q.delay + q.late
	}
	if l.s.Done != q.done { // seen: on to the next
		q.done = l.s.Done
		q.acts++
		q.next = max(q.next, l.in.Tick+q.delay)
	}
	if l.off.On && !q.careless && l.in.Tick >= q.next {
		q.followMark()
		return
	}
	q.seen.tilt = max(q.seen.tilt, q.tilt()) // eyes do not wait
	if l.in.Tick+1 < q.next {                // what is done now reaches the bench at the next tick
		if q.done != 0 && l.d.Config.Code == "find-the-fault" && !q.careless {
			q.look() // a pupil who is looking goes on looking
		}
		return
	}
	if q.careless {
		q.blunder()
		return
	}
	q.look()
	c := l.kase()
	for i := range c.Wants {
		if q.done>>i&1 == 1 {
			continue
		}
		looks := l.d.Config.Code == "reversed-channel" || l.d.Config.Code == "find-the-fault" // the hands are busy with looking
		if k := c.Wants[i].Kind; !looks || k != drill.Stick && k != drill.Mode {
			q.do(&c.Wants[i])
		}
		if c.InOrder {
			return
		}
	}
}

// do is what a hand does for one want.
func (q *pupil) do(w *drill.Want) {
	l, lay := q.l, q.l.layout()
	on := map[bool]pulse.Width{true: pulse.High, false: pulse.Low}
	bit := func(z drill.Zone) bool { return w.B>>z&1 == 1 }
	switch w.Kind {
	case drill.Ready:
		if l.snap.Armed {
			q.disarm()
		} else if len(l.kase().Before) > 1 && l.snap.Refusals.Has(arming.ThrottleUp) { // put back after a crash, with the hands as they were
			q.rest()
		} else if lay.Arm == layout.NoChannel {
			l.move(lay.Yaw, pulse.Centre)
		}
	case drill.Armed:
		if w.A == 0 {
			q.disarm()
		} else {
			q.arm()
		}
	case drill.DisarmedBy:
		if w.A&(1<<happening.BySwitch|1<<happening.BySticks) != 0 && l.snap.Link.Up() && !(q.forgets && l.s.Phase == drill.Running) {
			q.disarm()
		}
	case drill.Stick:
		to := pulse.High
		switch {
		case bit(drill.Middle):
			to = pulse.Centre
		case bit(drill.High):
		case bit(drill.Low) || bit(drill.Down):
			to = pulse.Low
		}
		l.move([]int8{lay.Throttle, lay.Roll, lay.Pitch, lay.Yaw}[w.A], to)
	case drill.HoverThrottle:
		from, to := drill.HoverSpan(l.p.Bench().Config())
		l.move(lay.Throttle, (from+to)/2)
	case drill.ArmSwitch:
		if w.A == 0 {
			q.fly.off()
		}
		l.move(lay.Arm, on[w.A == 1])
	case drill.SecondSwitch:
		l.move(lay.Second, on[w.A == 1])
	case drill.Mode, drill.ModeSwitch:
		for _, at := range []pulse.Width{pulse.Low, pulse.Centre, pulse.High} {
			if lay.ModeAt(at) == layout.Mode(w.A) {
				l.move(lay.Mode, at)
			}
		}
	case drill.Transmitter:
		q.tell(pulse.Link, w.A, l.snap.In.Transmitter == (w.A == 1))
	case drill.Power:
		q.tell(pulse.Power, w.A, l.snap.In.Powered == (w.A == 1))
	case drill.Cable:
		q.tell(pulse.Cable, w.A, l.snap.In.Craft.Cable == (w.A == 1))
	case drill.Checked:
		q.tell(pulse.Propellers, pulse.PropellersValue(l.snap.In.Hands, w.A == 1), l.snap.In.Checked == (w.A == 1))
	case drill.Motors:
		if w.A == 1 { // still they become by what is done to the radio
			l.move(lay.Throttle, pulse.Micros(1500))
		}
	case drill.Flying:
		l.move(lay.Throttle, pulse.Micros(1500))
	case drill.Flies:
		if l.snap.Armed {
			q.fly.to(&w.Task)
		}
	case drill.TouchesDown:
		q.fly.land()
	case drill.Clear:
		q.cure(arming.Set(w.A))
	case drill.Happens:
		if happening.Code(w.A) == happening.TravelShort {
			l.move(lay.Throttle, pulse.Low)
			l.move(lay.Yaw, pulse.High)
		}
	case drill.Gesture:
		q.gesture(int(w.A))
	case drill.MenuValue:
		q.menu(w)
	case drill.MenuLeft:
		q.leaveMenu()
	case drill.Answer:
		if a := q.knows(w); a != "" {
			l.answer(a)
		}
	}
}

// gesture holds the parts of a gesture one after the other, a little longer than they ask for.
func (q *pupil) gesture(n int) {
	l := q.l
	p := &l.kase().Craft.Gestures.Patterns[n]
	if q.seen.began == 0 {
		q.seen.began = l.in.Tick
	}
	t := l.in.Tick - q.seen.began
	for part := range int(p.Count) {
		long := (int64(p.Parts[part].Dwell) + 4) * 20
		if t >= long {
			t -= long
			continue
		}
		for d, zone := range p.JobZones(part, l.mode) {
			if zone != gestures.Any {
				l.move(l.channel(gestures.Direction(d)), map[gestures.Zone]pulse.Width{gestures.Low: pulse.Low, gestures.Middle: pulse.Centre, gestures.High: pulse.High}[zone])
			}
		}
		return
	}
}

// push pushes the right stick in one direction for a moment, then lets it rest; it is called once a tick. The first act after a gesture
// lets its sticks go. Where the right stick carries the throttle, it is brought back to the middle by hand.
func (q *pupil) push(stick gestures.Direction, to pulse.Width) {
	l, t := q.l, q.l.in.Tick%200
	on := gestures.OnSticks(l.mode)
	for d := gestures.Throttle; d < gestures.Directions; d++ {
		switch {
		case t >= 100 && to.Valid() && d == on[stick]:
			l.move(l.channel(d), to)
		case d != gestures.Throttle || on[gestures.RightUp] == gestures.Throttle:
			l.move(l.channel(d), pulse.Centre)
		}
	}
}

// letGo leaves the sticks alone.
func (q *pupil) letGo() { q.push(gestures.RightUp, pulse.Missing) }

// The pushes of the right stick.
const (
	across = gestures.RightAcross
	up     = gestures.RightUp
)

// menu moves the mark to an item of the first page of a menu moved by one stick, goes in, and changes it.
func (q *pupil) menu(w *drill.Want) {
	l := q.l
	cfg, s := l.kase().Craft.Menus, l.p.Menu()
	it := &cfg.Items[w.A]
	switch at := cfg.Marked(&s); {
	case at < 0 || !s.Rested:
		q.letGo()
	case at < int(w.A):
		q.push(up, pulse.Low)
	case at > int(w.A):
		q.push(up, pulse.High)
	case !s.Inside:
		q.push(across, pulse.High)
	case s.Now[it.Index] < w.B:
		q.push(up, pulse.High)
	default:
		q.push(up, pulse.Low)
	}
}

// leaveMenu goes out, and keeps what was changed.
func (q *pupil) leaveMenu() {
	switch s := q.l.p.Menu(); {
	case s.Open == 0 || !s.Rested:
		q.letGo()
	case s.Asked == menu.Keep:
		q.push(across, pulse.High)
	case s.Asked != menu.NoQuestion:
		q.push(up, pulse.High)
	default:
		q.push(across, pulse.Low)
	}
}

func (q *pupil) tell(k pulse.Kind, v int32, already bool) {
	if !already {
		q.l.tell(k, v)
	}
}

// arm arms when nothing refuses, as the bench shows it.
func (q *pupil) arm() {
	l, lay := q.l, q.l.layout()
	switch {
	case l.snap.Armed:
		if lay.Arm == layout.NoChannel {
			l.move(lay.Yaw, pulse.Centre)
		}
	case lay.Arm != layout.NoChannel:
		l.move(lay.Throttle, pulse.Low)
		if l.snap.Refusals == 0 {
			l.move(lay.Arm, pulse.High)
		} else if l.snap.Refusals.Has(arming.OffFirst) {
			l.move(lay.Arm, pulse.Low)
		}
	default:
		l.move(lay.Throttle, pulse.Low)
		if l.snap.Refusals&^(1<<arming.OffFirst) == 0 {
			l.move(lay.Yaw, pulse.High)
		}
	}
}

func (q *pupil) disarm() {
	l, lay := q.l, q.l.layout()
	q.fly.off()
	if lay.Arm != layout.NoChannel {
		l.move(lay.Arm, pulse.Low)
		return
	}
	l.move(lay.Throttle, pulse.Low)
	l.move(lay.Yaw, pulse.Low)
}

// cure does what the sentence of a refusal says.
func (q *pupil) cure(set arming.Set) {
	l, lay := q.l, q.l.layout()
	switch {
	case set.Has(arming.ThrottleUp):
		l.move(lay.Throttle, pulse.Low)
	case set.Has(arming.OffFirst):
		l.move(lay.Arm, pulse.Low)
	case set.Has(arming.SecondSwitchOff):
		l.move(lay.Second, pulse.High)
	case set.Has(arming.NotSelfLevelling):
		l.move(lay.Mode, pulse.Low)
	case set.Has(arming.IsTilted):
		q.tell(pulse.Tilt, 0, l.snap.In.Craft.TiltTenths == 0)
	case set.Has(arming.BeingSetUp):
		q.tell(pulse.Menu, pulse.MenuClosed, l.snap.In.Craft.Menu == pulse.MenuClosed)
	}
}

// blunder is what a pupil does who arms with the throttle up, forgets to disarm, and answers without looking.
func (q *pupil) blunder() {
	l, lay, c := q.l, q.l.layout(), q.l.kase()
	if q.fly.spoil(l, c) {
		return
	}
	if len(l.words().Codes) > 0 {
		for i := range c.Wants {
			if w := &c.Wants[i]; w.Kind == drill.Answer {
				l.in.Answer = 1 + (int(w.A)+1)%len(l.words().Codes) // the next one on the list
				for k := range l.words().Codes {                    // or one that is never right, where there is one
					if !slices.ContainsFunc(c.Wants, func(w drill.Want) bool { return w.Kind == drill.Answer && int(w.A) == k }) {
						l.in.Answer = 1 + k
					}
				}
				return
			}
		}
	}
	for i := range c.Wants {
		if w := &c.Wants[i]; w.Kind == drill.Armed && w.A == 1 { // again and again, with the throttle up
			l.move(lay.Throttle, pulse.Centre)
			l.move(lay.Arm, map[bool]pulse.Width{true: pulse.High, false: pulse.Low}[l.in.Tick/100%2 == 0])
			q.tell(pulse.Link, 1, l.snap.In.Transmitter)
			return
		}
	}
	for i := range c.Nevers { // in and out of the menu, and the errand forgotten
		if w := &c.Nevers[i]; w.Kind == drill.MenuLeft {
			if l.p.Menu().Open == 0 {
				q.do(&c.Wants[0])
			} else {
				q.leaveMenu()
			}
			return
		}
	}
	for i := range c.Nevers { // the hand goes to the wrong stick
		if w := &c.Nevers[i]; w.Kind == drill.Stick {
			q.do(w)
			return
		}
	}
	if last := len(c.Wants) - 1; last >= 0 { // the last thing first
		q.do(&c.Wants[last])
	}
}
