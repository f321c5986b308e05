package desk

import (
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// part is the work behind the desk. Marks it learns from the record, so that those of a take or a script are seen too.
type part struct {
	screen.Base
	s    *screen.Screen
	view View
	told screen.Events
}

// New makes the sheet.
func New(s *screen.Screen) screen.Sheet {
	p := &part{s: s, view: View{Looked: 1}}
	for d := range p.view.Chosen { // numbers that make sense for this craft
		p.view.Chosen[d][0], p.view.Chosen[d][1], _ = fault.Usual(pulse.Deed(d), &s.Config.Layout)
	}
	s.Hidden = append(s.Hidden, p.hiddenKey)
	return p
}

// hiddenFirst and hiddenLast are the ends of the row of number keys that plant unseen; the keyboard pilot has those before them.
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
	for _, h := range p.told.Since(p.s.Options.Loop) {
		if h.Code == happening.Instructed && pulse.Deed(h.A) == pulse.DeedMark {
			p.view.Marks = append(p.view.Marks, h)
		}
	}
}

// put plants a fault with the numbers that are chosen, or lifts it.
func (p *part) put(d pulse.Deed) {
	if p.s.Planted().Has(d) {
		p.tell(fault.Lift(d))
	} else if v, ok := fault.Plant(d, p.view.Chosen[d][0], p.view.Chosen[d][1]); ok {
		p.tell(v)
	}
}

// look looks at another fault, round the list.
func (p *part) look(d pulse.Deed) {
	const n = fault.Count - 1
	p.view.Looked, p.view.Number = (d+n-1)%n+1, 0
}

// tell puts a deed of the instructor into the record.
func (p *part) tell(deed int32) { p.s.Options.Loop.Desk().Put(pulse.Instructor, deed) }

// change moves the number that is looked at by one step; a fault that is planted is planted anew with it.
func (p *part) change(by int32) {
	d, number := p.view.Looked, p.view.Number
	all := quantities(d)
	if number >= len(all) {
		return
	}
	q, next := all[number], p.view.Chosen[d]
	by *= stepOf(q.Is)
	v := next[number] + by
	if q.Is == fault.Off && v == 0 {
		v += by
	}
	next[number] = min(max(v, q.Low), q.High)
	planted, ok := fault.Plant(d, next[0], next[1])
	if !ok {
		return
	}
	p.view.Chosen[d] = next
	if p.s.Planted().Has(d) {
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
	case fault.Wind, fault.Bank, fault.Nose:
		return 5
	case fault.From:
		return 15
	}
	return 1
}

// hiddenKey plants or lifts by a hidden key on the pupil's sheet; false leaves the key.
func (p *part) hiddenKey(name string, place ui.Place) bool {
	n := screen.Digit(name)
	if !p.view.Hidden || n < hiddenFirst || n > hiddenLast || !p.s.House.Flown(place) {
		return false
	}
	p.put(hiddenFaults[n-hiddenFirst])
	return true
}

// pick looks at fault i, from 0, and plants or lifts the one that is looked at already.
func (p *part) pick(i int) {
	switch d := pulse.Deed(i + 1); {
	case d >= fault.Count:
	case d == p.view.Looked:
		p.put(d)
	default:
		p.look(d)
	}
}

// Fill tells of every fault, and who has which radio.
func (p *part) Fill(v *ui.View) {
	who := &p.s.Driving
	p.view.Planted, p.view.Hands = p.s.Planted(), words.Text{}
	p.view.Radio = words.T("desk.radio", words.Args{"radio": words.Quote(who.Instructor), "takes": who.Takes, "key": v.KeyFor(Radio, ui.OnDesk), "several": words.Flag(len(who.Choices) > 1), "switch": words.Flag(v.Config.Layout.Arm >= 0)})
	if who.Instructor != "" {
		p.view.Hands = words.T("desk.hands", words.Args{"instructor": words.Flag(p.s.SticksTaken())})
	}
	if p.view.Drill = (words.Text{}); p.s.Drill != nil && len(p.s.Run.Tries) > 0 {
		p.view.Drill = words.T("desk.drill", words.Args{"drill": tell.DrillText(p.s.Drill.Config.Code, p.s.Drill.Name), "sum": tell.DrillSum(drill.Summarise(p.s.Run.Tries))})
	}
	*Of(v) = p.view
}

// hiddenKeyOf is the hidden key that plants and lifts a fault, empty for none.
func hiddenKeyOf(d pulse.Deed) string {
	if i := slices.Index(hiddenFaults[:], d); i >= 0 {
		return strconv.Itoa(hiddenFirst + i)
	}
	return ""
}

// Draw draws the desk.
func (p *part) Draw(page *ink.Page, v *ui.View) { Draw(page, v) }
