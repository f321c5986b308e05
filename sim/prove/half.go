package prove

import (
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
)

// half is the first half of one slot: what link and layout made of what the radio sent. It depends on nothing but their own
// state and the hands, so the bench is asked for each once, and the answer kept.
type half struct {
	input  arming.Input // Craft and First left out
	key    uint64       // link and layout after it, packed
	made   bool
	calm   bool // it fits the plain form, and contradicts no guess about the link
	sure   bool // a valid frame of a radio that transmits
	off    bool // the arm channel stands where it disarms
	seen   bool // the arm control is seen off
	corner corner
	link   link.State
	layout layout.State
	facts  sim.SlotFacts
}

// corner says where the sticks stand, seen from the disarm corner.
type corner uint8

const (
	outOfCorner corner = iota
	nearCorner
	inCorner
)

// row is every half of one state of link and layout, by what the radio sends, and each in brief.
type row struct {
	brief []brief
	whole []half
	// kind is that of kindOf, 0 where nobody asked yet; heard and silent are what all hands have in common then, by whether the radio
	// transmits.
	kind          int32
	heard, silent brief
}

// brief is all of a half that a step which plainly breaks no rule asks for.
type brief struct {
	key   uint64 // link and layout after it, packed
	input uint32 // number of what arming reads (ahead.number), 0 where none was made yet
	gap   uint32 // slots without a frame so far, or silent once the link is lost
}

// silent stands for the gap of a lost link: from there on sinking counts.
const silent = ^uint32(0)

// halves keeps every half that was asked for.
type halves struct {
	c    *codec
	rows []*row          // by link and layout packed
	more map[uint64]*row // where there are too many for a plain table
	row  *row            // of the situation that is gone on from, nil where nothing is kept
	lone half            // where nothing is kept
	room int             // how many more halves may be kept
	// e is the step that watchClean judges, from, to and none its ends and its empty log: kept here, they cost no memory each time.
	e        step
	from, to situation
	none     happening.Log
}

const (
	mostRows = 1 << 18
	mostKept = 1 << 18 // about 50 MB
)

func newHalves(c *codec) halves {
	h := halves{c: c, room: mostKept}
	if n := c.front>>c.laneAt + 1; n <= mostRows {
		h.rows = make([]*row, n)
	} else {
		h.more = map[uint64]*row{}
	}
	return h
}

// turn chooses the row for a situation.
func (h *halves) turn(key uint64, powered bool) {
	h.row = nil
	if !powered || key>>h.c.oddAt&1 == 1 {
		return // a state without a place in the table
	}
	at := key & h.c.front >> h.c.laneAt
	if h.more == nil {
		h.row = h.rows[at]
	} else {
		h.row = h.more[at]
	}
	if n := int(h.c.h.radioOn) + 1; h.row == nil && n <= h.room {
		h.room -= n
		h.row = &row{brief: make([]brief, n), whole: make([]half, n)}
		if h.more == nil {
			h.rows[at] = h.row
		} else {
			h.more[at] = h.row
		}
	}
}

// sends is the place in a row of what these hands send: the same for all of a silent radio.
func (h *halves) sends(hands uint32) uint32 {
	if on := h.c.h.radioOn; hands&on == 0 {
		return on
	}
	return hands & h.c.h.sentBits()
}

// of gives the half for what these hands send.
func (h *halves) of(hands uint32, from *situation, x *space) *half {
	f := &h.lone
	if h.row != nil {
		if f = &h.row.whole[h.sends(hands)]; f.made {
			return f
		}
	}
	h.make(f, hands, from, x)
	return f
}

// make asks the bench for a whole slot, keeps what link and layout did, and checks that arming, asked by itself, does the same.
func (h *halves) make(f *half, hands uint32, from *situation, x *space) {
	hs, cfg := h.c.h, x.cfg
	in := sim.SlotInput{Transmitting: hands&hs.radioOn != 0}
	if in.Transmitting {
		in.Sent = hs.frames[hands&hs.sentBits()]
	}
	var log happening.Log
	s, facts := sim.StepSlot(cfg, from.slot, &in, 0, &log)
	*f = half{made: true, link: s.Link, facts: facts}
	f.layout = layout.State{Mode: hs.foldMode(s.Layout.Mode)}
	f.input = arming.Input{
		Phase: s.Link.Phase, Received: facts.Link.Received, Valid: facts.Link.Valid, Origin: facts.Link.Origin, Throttle: facts.Layout.Throttle, Yaw: facts.Layout.Yaw,
		Arm: facts.Layout.Arm, Second: facts.Layout.Second, Mode: s.Layout.Mode, Missing: facts.Layout.Missing,
	}
	if arming.Step(&cfg.Arming, from.slot.Arming, &f.input, 0, nil) != s.Arming {
		x.wrong = true
	}
	h.from, h.to = situation{slot: from.slot, powered: true}, situation{slot: s, hands: hands, powered: true}
	h.to.slot.Layout = f.layout
	fits := false
	f.key, fits = h.c.packFront(&h.to.slot, hands)

	l, a := &cfg.Layout, &cfg.Arming
	f.sure = in.Transmitting && facts.Link.Valid
	f.off = l.Arm != layout.NoChannel && !l.ArmSpan.Contains(facts.Link.Frame[l.Arm])
	if thr, yaw := facts.Link.Frame[l.Throttle], facts.Link.Frame[l.Yaw]; !facts.Link.Valid {
		f.corner = nearCorner // as there, time in the corner goes on and none begins
	} else if thr < a.LeaveThrottle && yaw <= a.LeaveLeft {
		f.corner = nearCorner
		if thr < a.LowThrottle && yaw <= a.YawLeft {
			f.corner = inCorner
		}
	}
	h.from.slot.Arming, h.to.slot.Arming = arming.State{}, arming.State{}
	h.e = step{cfg: cfg, from: &h.from, to: &h.to, facts: &f.facts, log: &h.none}
	f.seen = h.e.seenOff()
	f.calm = fits && !watchClean.contradicts(watchClean.guess(from, cfg), &h.e, x.most[watchClean]) && (in.Transmitting || !facts.Link.Received || from.slot.Link.Heard)
}
