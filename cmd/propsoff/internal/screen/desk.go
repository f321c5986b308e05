package screen

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/sheet"
	"propsoff/sim/fault"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// deskPart is the work behind the instructor's desk. What is planted it learns from the record, so that a take or a script that
// plants is seen too.
type deskPart struct {
	s        *Screen
	used     bool
	hidden   bool
	selected int
	number   int
	// chosen are the numbers as they will be planted; planted those that stand now.
	chosen  [fault.Count][2]int32
	begun   bool
	planted [fault.Count]bool
	hands   bool
	marks   []happening.Happening
	told    events
}

// marksMost is how many commentary marks are listed.
const marksMost = 6

// hiddenFirst is the first of the keys that plant unseen; the keyboard pilot has those before it.
const hiddenFirst, hiddenLast = 4, 9

// hiddenFaults are what the hidden keys plant, from 4 on (ours: what an instructor shows most).
var hiddenFaults = [...]pulse.Deed{fault.RadioOff, fault.Dropouts, fault.ShortTravel, fault.Reversed, fault.ModeGap, fault.LowPack}

func (p *deskPart) open() {
	p.used = true
	p.s.o.Loop.KeepFilm()
}

func (p *deskPart) close() {}

// turn follows the record.
func (p *deskPart) turn() {
	if !p.begun {
		p.begun = true
		p.usual()
	}
	for _, h := range p.told.since(p.s.o.Loop) {
		if h.Code != happening.Instructed {
			continue
		}
		switch d := pulse.Deed(h.A); {
		case d == pulse.DeedLiftAll:
			p.planted = [fault.Count]bool{}
		case d == pulse.DeedHands:
			p.hands = h.B != 0
		case d == pulse.DeedMark:
			p.marks = append(p.marks, h)
		case d > pulse.DeedLift && d-pulse.DeedLift < fault.Count:
			p.planted[d-pulse.DeedLift] = false
		case d < fault.Count && fault.Right(d, h.B):
			p.planted[d] = true
		}
	}
}

// usual takes the numbers that make sense for this craft.
func (p *deskPart) usual() {
	for d := pulse.Deed(1); d < fault.Count; d++ {
		a, b, _ := fault.Usual(d, &p.s.cfg.Layout)
		p.chosen[d] = [2]int32{a, b}
	}
}

func (p *deskPart) deed() pulse.Deed { return pulse.Deed(p.selected + 1) }

// put plants a fault with the numbers that are chosen, or lifts it.
func (p *deskPart) put(d pulse.Deed) {
	if p.planted[d] {
		p.s.o.Loop.Desk().Put(pulse.Instructor, fault.Lift(d))
		return
	}
	if v, ok := fault.Plant(d, p.chosen[d][0], p.chosen[d][1]); ok {
		p.s.o.Loop.Desk().Put(pulse.Instructor, v)
	}
}

func (p *deskPart) act(a sheet.Action) bool {
	n := int(fault.Count) - 1
	switch a {
	case sheet.DeskPlant:
		p.put(p.deed())
	case sheet.DeskAbove, sheet.DeskBelow:
		step := 1
		if a == sheet.DeskAbove {
			step = n - 1
		}
		p.selected, p.number = (p.selected+step)%n, 0
	case sheet.DeskMore:
		p.change(1)
	case sheet.DeskLess:
		p.change(-1)
	case sheet.DeskOther:
		p.number = 1 - p.number
	case sheet.DeskLiftAll:
		p.s.o.Loop.Desk().Put(pulse.Instructor, fault.LiftAll())
	case sheet.DeskMark:
		p.mark()
	case sheet.DeskHidden:
		p.hidden = !p.hidden
	case sheet.DeskRadio:
		p.s.o.Driver.NextInstructor()
	default:
		return false
	}
	return true
}

// mark sets a commentary mark in the record.
func (p *deskPart) mark() {
	p.s.o.Loop.Desk().Put(pulse.Instructor, pulse.InstructorValue(pulse.DeedMark, int32(len(p.marks)+1)))
}

// change moves the number that is looked at by one step; a fault that is planted is planted anew with it.
func (p *deskPart) change(by int32) {
	d := p.deed()
	m := fault.Of(d)
	q := m.A
	if p.number == 1 {
		q = m.B
	}
	if q.Is == fault.Nothing {
		return
	}
	v := p.chosen[d][p.number] + by*stepOf(q.Is)
	if q.Is == fault.Off && v == 0 {
		v += by * stepOf(q.Is)
	}
	next := p.chosen[d]
	next[p.number] = min(max(v, q.Low), q.High)
	if _, ok := fault.Plant(d, next[0], next[1]); !ok {
		return
	}
	p.chosen[d] = next
	if p.planted[d] {
		v, _ := fault.Plant(d, next[0], next[1])
		p.s.o.Loop.Desk().Put(pulse.Instructor, v)
	}
}

// stepOf is by how much a key changes a number (ours).
func stepOf(q fault.What) int32 {
	switch q {
	case fault.EndsAt, fault.Within, fault.Off:
		return 12
	case fault.Millis:
		return 60
	case fault.Every:
		return 500
	case fault.MilliVolts:
		return 150
	}
	return 1
}

// hiddenKey plants or lifts by a hidden key on the pupil's sheet; false leaves the key.
func (p *deskPart) hiddenKey(name string, place sheet.Place) bool {
	n := digit(name)
	if !p.hidden || n < hiddenFirst || n > hiddenLast || place&sheet.OnFlown == 0 {
		return false
	}
	p.put(hiddenFaults[n-hiddenFirst])
	return true
}

func (p *deskPart) key(string, bool) bool { return false }

func (p *deskPart) hit(name string) bool {
	i, ok := sheet.FaultOf(name)
	if !ok || i >= int(fault.Count)-1 {
		return false
	}
	if p.selected == i {
		p.put(p.deed())
	} else {
		p.selected, p.number = i, 0
	}
	return true
}

func (p *deskPart) fill(v *sheet.View) {
	d := &v.Desk
	l := &p.s.cfg.Layout
	*d = sheet.DeskView{Used: p.used, Faults: d.Faults[:0], Numbers: d.Numbers[:0], Marks: d.Marks[:0], Selected: p.selected, Number: p.number, Hidden: p.hidden}
	for i := pulse.Deed(1); i < fault.Count; i++ {
		_, _, fits := fault.Usual(i, l)
		d.Faults = append(d.Faults, sheet.DeskFault{Name: phrase.FaultName(i), On: p.planted[i], Fits: fits, Key: p.hiddenKeyOf(i)})
	}
	now := p.deed()
	a, b := p.chosen[now][0], p.chosen[now][1]
	if value, ok := fault.Plant(now, a, b); ok {
		_, number := pulse.InstructorOf(value)
		d.Does = phrase.FaultDoes(now, number, l)
		if now == fault.LowPack {
			if none := phrase.DeskPackLimit(int(p.s.cfg.Arming.PackLimitMilliVolts), int(a)); none != "" {
				d.Does += " " + none
			}
		}
	} else {
		d.Does = phrase.DeskRefused(phrase.FaultName(now))
	}
	d.Seen = phrase.FaultSeen(now, a, b, v.Config)
	m := fault.Of(now)
	for i, q := range [...]fault.Quantity{m.A, m.B} {
		if q.Is != fault.Nothing {
			d.Numbers = append(d.Numbers, sheet.DeskNumber{Name: phrase.FaultQuantity(q.Is), Value: phrase.FaultValue(q.Is, p.chosen[now][i], l)})
		}
	}
	name := p.s.driver.Instructor
	d.Radio = phrase.DeskRadio(name, p.s.driver.Takes, v.KeyFor(sheet.DeskRadio, sheet.OnDesk), len(p.s.driver.Choices) > 1)
	if name != "" {
		d.Hands = phrase.DeskHands(p.hands)
	}
	for i := len(p.marks) - 1; i >= 0 && len(d.Marks) < marksMost; i-- {
		d.Marks = append(d.Marks, phrase.DeskMark(int(p.marks[i].B), p.marks[i].Tick, ""))
	}
}

func (p *deskPart) hiddenKeyOf(d pulse.Deed) string {
	for i, one := range hiddenFaults {
		if p.hidden && one == d {
			return strconv.Itoa(hiddenFirst + i)
		}
	}
	return ""
}

// secret tells whether a line of the record is for the instructor alone.
func secret(h *happening.Happening) bool {
	d := pulse.Deed(h.A)
	return h.Code == happening.Instructed && d != pulse.DeedHands && d != pulse.DeedArmOff
}
