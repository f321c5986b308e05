package desk

import (
	"slices"
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/sim/fault"
	"propsoff/sim/happening"
	"propsoff/sim/pulse"
)

// part is the work behind the desk. What is planted it learns from the record, so that a take or a script that plants is seen too.
type part struct {
	screen.Base
	s        *screen.Screen
	hidden   bool
	selected int
	number   int
	// chosen are the numbers as they will be planted; planted those that stand now.
	chosen [fault.Count][2]int32
	begun  bool
	marks  []happening.Happening
	told   screen.Events
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s}
	s.Hidden = append(s.Hidden, p.hiddenKey)
	return p
}

// marksMost is how many commentary marks are listed.
const marksMost = 6

// hiddenFirst is the first of the keys that plant unseen; the keyboard pilot has those before it.
const hiddenFirst, hiddenLast = 4, 9

// hiddenFaults are what the hidden keys plant, from 4 on (ours: what an instructor shows most).
var hiddenFaults = [...]pulse.Deed{fault.RadioOff, fault.Dropouts, fault.ShortTravel, fault.Reversed, fault.ModeGap, fault.LowPack}

// Open lets time be stopped and looked back at from now on.
func (p *part) Open() {
	p.s.DeskUsed = true
	p.s.Options.Loop.KeepFilm()
}

// Turn follows the record.
func (p *part) Turn() {
	if !p.begun {
		p.begun = true
		p.usual()
	}
	for _, h := range p.told.Since(p.s.Options.Loop) {
		if h.Code != happening.Instructed {
			continue
		}
		switch d := pulse.Deed(h.A); {
		case d == pulse.DeedLiftAll:
			p.s.Planted = [fault.Count]bool{}
		case d == pulse.DeedHands:
			p.s.Hands = h.B != 0
		case d == pulse.DeedMark:
			p.marks = append(p.marks, h)
		case d > pulse.DeedLift && d-pulse.DeedLift < fault.Count:
			p.s.Planted[d-pulse.DeedLift] = false
		case d < fault.Count && fault.Right(d, h.B):
			p.s.Planted[d] = true
		}
	}
}

// usual takes the numbers that make sense for this craft.
func (p *part) usual() {
	for d := pulse.Deed(1); d < fault.Count; d++ {
		a, b, _ := fault.Usual(d, &p.s.Config.Layout)
		p.chosen[d] = [2]int32{a, b}
	}
}

func (p *part) deed() pulse.Deed { return pulse.Deed(p.selected + 1) }

// put plants a fault with the numbers that are chosen, or lifts it.
func (p *part) put(d pulse.Deed) {
	if p.s.Planted[d] {
		p.tell(fault.Lift(d))
	} else if v, ok := fault.Plant(d, p.chosen[d][0], p.chosen[d][1]); ok {
		p.tell(v)
	}
}

// Act does what a key of the desk stands for.
func (p *part) Act(a ui.Action) bool {
	n := int(fault.Count) - 1
	switch a {
	case Plant:
		p.put(p.deed())
	case Above:
		p.look(p.selected + n - 1)
	case Below:
		p.look(p.selected + 1)
	case More:
		p.change(1)
	case Less:
		p.change(-1)
	case Other:
		p.number = 1 - p.number
	case LiftAll:
		p.tell(fault.LiftAll())
	case Mark:
		p.tell(pulse.InstructorValue(pulse.DeedMark, int32(len(p.marks)+1)))
	case Hidden:
		p.hidden = !p.hidden
	case Radio:
		p.s.Options.Driver.NextInstructor()
	default:
		return false
	}
	return true
}

// look looks at another fault, round the list.
func (p *part) look(i int) { p.selected, p.number = i%(int(fault.Count)-1), 0 }

// tell puts a deed of the instructor into the record.
func (p *part) tell(deed int32) { p.s.Options.Loop.Desk().Put(pulse.Instructor, deed) }

// change moves the number that is looked at by one step; a fault that is planted is planted anew with it.
func (p *part) change(by int32) {
	d := p.deed()
	m := fault.Of(d)
	q := [...]fault.Quantity{m.A, m.B}[p.number]
	if q.Is == fault.Nothing {
		return
	}
	by *= stepOf(q.Is)
	next := p.chosen[d]
	v := next[p.number] + by
	if q.Is == fault.Off && v == 0 {
		v += by
	}
	next[p.number] = min(max(v, q.Low), q.High)
	planted, ok := fault.Plant(d, next[0], next[1])
	if !ok {
		return
	}
	p.chosen[d] = next
	if p.s.Planted[d] {
		p.tell(planted)
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
func (p *part) hiddenKey(name string, place ui.Place) bool {
	n := screen.Digit(name)
	if !p.hidden || n < hiddenFirst || n > hiddenLast || !p.s.House.Flown(place) {
		return false
	}
	p.put(hiddenFaults[n-hiddenFirst])
	return true
}

// Hit looks at a fault, and plants or lifts the one that is looked at already.
func (p *part) Hit(name string) bool {
	i, ok := ui.NumberOf(name, faultPrefix)
	if !ok || i >= int(fault.Count)-1 {
		return false
	}
	if p.selected == i {
		p.put(p.deed())
	} else {
		p.look(i)
	}
	return true
}

// Fill tells of every fault, and of the one looked at what it does.
func (p *part) Fill(v *ui.View) {
	d := Of(v)
	l := &p.s.Config.Layout
	*d = View{Faults: d.Faults[:0], Numbers: d.Numbers[:0], Marks: d.Marks[:0], Selected: p.selected, Number: p.number, Hidden: p.hidden}
	for i := pulse.Deed(1); i < fault.Count; i++ {
		_, _, fits := fault.Usual(i, l)
		d.Faults = append(d.Faults, Fault{Name: tell.FaultName(i), On: p.s.Planted[i], Fits: fits, Key: p.hiddenKeyOf(i)})
	}
	now := p.deed()
	a, b := p.chosen[now][0], p.chosen[now][1]
	if value, ok := fault.Plant(now, a, b); ok {
		_, number := pulse.InstructorOf(value)
		d.Does = tell.FaultDoes(now, number, l)
		if now == fault.LowPack {
			d.Does = words.Row(d.Does, tell.DeskPackLimit(int(p.s.Config.Arming.PackLimitMilliVolts), int(a)))
		}
	} else {
		d.Does = tell.DeskRefused(tell.FaultName(now))
	}
	d.Seen = tell.FaultSeen(now, a, b, v.Config)
	m := fault.Of(now)
	for i, q := range [...]fault.Quantity{m.A, m.B} {
		if q.Is != fault.Nothing {
			d.Numbers = append(d.Numbers, Number{Name: tell.FaultQuantity(q.Is), Value: tell.FaultValue(q.Is, p.chosen[now][i], l)})
		}
	}
	who := &p.s.Driving
	d.Radio = tell.DeskRadio(who.Instructor, who.Takes, v.KeyFor(Radio, ui.OnDesk), len(who.Choices) > 1)
	if who.Instructor != "" {
		d.Hands = tell.DeskHands(p.s.Hands)
	}
	for i := len(p.marks) - 1; i >= 0 && len(d.Marks) < marksMost; i-- {
		d.Marks = append(d.Marks, tell.DeskMark(int(p.marks[i].B), p.marks[i].Tick))
	}
}

func (p *part) hiddenKeyOf(d pulse.Deed) string {
	if i := slices.Index(hiddenFaults[:], d); p.hidden && i >= 0 {
		return strconv.Itoa(hiddenFirst + i)
	}
	return ""
}

// Draw draws the desk.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About { return About() }
