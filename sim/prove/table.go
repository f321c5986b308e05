package prove

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/prove/explore"
	"propsoff.example/sim/pulse"
)

// conditions holds what the search folds together against a table: every single reason gives its own refusal and no other,
// its limit itself gives none, and every span holds its low end and not its high end. A bench without a fault passes; it reports
// whether this one did.
func (s *search) conditions() (sound bool) {
	sound = true
	c := &s.l.Config
	none := func() *Way { return newTeller(s.h).end() } // no search leads here
	for i, row := range refusalTable(c) {
		if arming.Refusals(&c.Arming, &row.state, &row.in) != row.want {
			rule := RefusalNeverArms
			if row.throttle {
				rule = ThrottleUpNeverArms
			}
			sound = false
			s.alsoBroken(rule, Result{Cause: RefusalTable, Control: -1, Position: -1, Value: int64(i)}, none())
		}
	}
	l := &c.Layout
	spans := []layout.Span{}
	if l.Arm != layout.NoChannel {
		spans = append(spans, l.ArmSpan)
	}
	if l.Second != layout.NoChannel {
		spans = append(spans, l.SecondSpan)
	}
	for i := range l.Spans[:l.SpanCount] {
		spans = append(spans, l.Spans[i].Span)
	}
	for _, p := range spans {
		for _, edge := range [...]struct {
			w  pulse.Width
			in bool
		}{{p.Low, p.Low.Valid() && p.Low < p.High}, {p.Low - 1, false}, {p.High - 1, p.High > p.Low && (p.High - 1).Valid()}, {p.High, p.High == pulse.Highest}} {
			if p.Contains(edge.w) != edge.in {
				sound = false
				s.alsoBroken(RefusalNeverArms, Result{Cause: SpanEdges, Control: -1, Position: -1, Value: int64(edge.w)}, none())
			}
		}
	}
	return sound
}

// alsoBroken notes as broken a rule that the search by itself found to hold.
func (s *search) alsoBroken(r Rule, found Result, w *Way) {
	if o := &s.r.Results[r]; o.Outcome != Broken {
		o.Outcome = Undecided
		s.broken(r, found, w)
	}
}

// refusalRow is one single reason, and what must refuse then.
type refusalRow struct {
	state    arming.State
	in       arming.Input
	want     arming.Set
	throttle bool
}

// refusalTable has no reason at all in its first row, then one reason a row.
func refusalTable(c *sim.Config) []refusalRow {
	a, l := &c.Arming, &c.Layout
	well := refusalRow{state: arming.State{Still: a.StillSlots}, in: arming.Input{
		Phase: link.Good, Received: true, Valid: true, Throttle: pulse.Low, Yaw: pulse.Centre, Arm: layout.NoJob, Second: layout.NoJob,
	}}
	well.in.Throttle = min(well.in.Throttle, a.LowThrottle-1)
	rows := []refusalRow{well}
	add := func(want arming.Set, change func(*refusalRow)) {
		r := well
		r.want = want
		change(&r)
		rows = append(rows, r)
	}
	one := func(r arming.Refusal, on bool) arming.Set { return arming.Set(0).With(r, on) }
	add(one(arming.ThrottleUp, true), func(r *refusalRow) { r.in.Throttle, r.throttle = a.LowThrottle, true })
	add(0, func(r *refusalRow) { r.in.Throttle, r.throttle = a.LowThrottle-1, true })
	add(one(arming.ThrottleUp, true), func(r *refusalRow) { r.in.Throttle, r.throttle = pulse.Highest, true })
	add(one(arming.OffFirst, true), func(r *refusalRow) {
		r.state.OffFirst, r.in.Arm = true, layout.Inside
		r.state.ArmDwell = uint16(bit(a.By == arming.BySticks))
	})
	add(one(arming.SecondSwitchOff, true), func(r *refusalRow) { r.in.Second = layout.Outside })
	add(0, func(r *refusalRow) { r.in.Second = layout.Inside })
	add(one(arming.NotSelfLevelling, a.OnlySelfLevelling), func(r *refusalRow) { r.in.Mode = layout.Rate })
	add(0, func(r *refusalRow) { r.in.Mode = layout.Horizon })
	add(one(arming.NoLink, true), func(r *refusalRow) { r.in.Phase = link.Lost })
	add(one(arming.NoLink, true), func(r *refusalRow) { r.in.Phase = link.Never })
	add(one(arming.LinkTooFresh, true), func(r *refusalRow) { r.in.Phase = link.Fresh })
	for _, ch := range [...]int8{l.Throttle, l.Roll, l.Pitch, l.Yaw, l.Arm, l.Second, l.Mode} {
		if ch != layout.NoChannel {
			add(one(arming.ChannelMissing, true), func(r *refusalRow) { r.in.Missing = 1 << ch })
		}
	}
	if a.StillSlots > 0 {
		add(one(arming.NotYetStill, true), func(r *refusalRow) { r.state.Still-- })
	}
	add(0, func(r *refusalRow) { r.in.Craft.TiltTenths = a.TiltLimitTenths })
	add(one(arming.IsTilted, true), func(r *refusalRow) { r.in.Craft.TiltTenths = a.TiltLimitTenths + 1 })
	add(one(arming.BeingSetUp, true), func(r *refusalRow) { r.in.Craft.Cable = true })
	add(one(arming.BeingSetUp, true), func(r *refusalRow) { r.in.Craft.Menu = pulse.MenuCraft })
	add(one(arming.BeingSetUp, a.CameraMenuCounts), func(r *refusalRow) { r.in.Craft.Menu = pulse.MenuCamera })
	add(0, func(r *refusalRow) { r.in.Craft.PackMilliVolts = a.PackLimitMilliVolts })
	if a.PackLimitMilliVolts > 1 {
		add(one(arming.PackLow, true), func(r *refusalRow) { r.in.Craft.PackMilliVolts = a.PackLimitMilliVolts - 1 })
	}
	add(one(arming.PropellersUnchecked, true), func(r *refusalRow) { r.in.Craft.PropellersUnchecked = true })
	add(one(arming.BeingSetUp, true), func(r *refusalRow) { r.in.Craft.Cable, r.in.Craft.Menu = true, pulse.MenuCraft })
	return rows
}

// craftConditions are the conditions of the craft in the table: those that refuse, and those that do not.
func craftConditions(c *sim.Config) (refusing, free []arming.Conditions) {
	for _, row := range refusalTable(c) {
		switch craft := row.in.Craft; {
		case craft == arming.Conditions{}:
		case row.want != 0:
			refusing = append(refusing, craft)
		default:
			free = append(free, craft)
		}
	}
	return refusing, free
}

// sampled is in how many situations the folding is checked.
const sampled = 1024

// sameWithin checks, in situations spread over all that were found, that what the search takes for one is one to the bench:
// every width of a class, and every condition of the craft that refuses.
func (x *space) sameWithin(w *explore.Walk) error {
	var s situation
	every := max(w.Found()/sampled, 1)
	for p := uint64(0); p < w.Found(); p += every {
		x.c.unpack(w.Key(uint32(p)), &s)
		if !s.powered {
			continue
		}
		if err := x.sameWidths(&s); err != nil {
			return err
		}
		if err := x.sameConditions(&s); err != nil {
			return err
		}
	}
	return nil
}

// bench runs one slot with a frame and conditions, and folds the state that it comes to.
func (x *space) bench(s *situation, on bool, f *pulse.Frame, craft arming.Conditions) sim.SlotState {
	in := sim.SlotInput{Transmitting: on, Sent: *f, Craft: craft}
	out, _ := sim.StepSlot(x.cfg, s.slot, &in, 0, nil)
	out.Layout.Mode = x.h.foldMode(out.Layout.Mode)
	out.Link.Last = pulse.Frame{} // it differs as the frames do
	return out
}

func (x *space) sameWidths(s *situation) error {
	craft := arming.Conditions{Cable: s.hands&x.h.cable != 0}
	f := x.h.frames[s.hands&x.h.sentBits()]
	want := x.bench(s, true, &f, craft)
	for i := range x.h.radio.Controls {
		c := &x.h.radio.Controls[i]
		at := 0
		if d := x.h.on(c.Channel); d != nil {
			at = d.of(s.hands)
		}
		if x.classes == nil {
			x.classes = make([][]class, len(x.h.radio.Controls))
		}
		if x.classes[i] == nil {
			x.classes[i] = x.h.classesOf(i)
		}
		for _, w := range x.classes[i][at].edges {
			if w == f[c.Channel] {
				continue
			}
			g := f
			g[c.Channel] = w
			if x.bench(s, true, &g, craft) != want {
				return words.Wrong("search.told-apart", words.Args{"channel": words.Whole(c.Channel + 1), "at": words.Whole(w.Whole())})
			}
		}
	}
	return nil
}

func (x *space) sameConditions(s *situation) error {
	on, f := s.hands&x.h.radioOn != 0, x.h.frames[s.hands&x.h.sentBits()]
	if x.refusing == nil {
		x.refusing, x.free = craftConditions(x.cfg)
	}
	for _, group := range [...]struct {
		as  arming.Conditions
		all []arming.Conditions
	}{{arming.Conditions{Cable: true}, x.refusing}, {arming.Conditions{}, x.free}} {
		want := x.bench(s, on, &f, group.as)
		for _, c := range group.all {
			if x.bench(s, on, &f, c) != want {
				return words.Wrong("search.conditions-told-apart")
			}
		}
	}
	return nil
}
