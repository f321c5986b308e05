package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// DeskView is what the instructor's desk knows. Its texts are made by whoever fills it, in the words of phrase.
type DeskView struct {
	// Used: the desk was opened once; from then on time may be stopped and looked back at on both benches.
	Used bool
	// Faults are all that can be planted, Selected the one looked at.
	Faults   []DeskFault
	Selected int
	// Does says what the one looked at does with its numbers, Seen what a pupil notices of it.
	Does, Seen string
	// Numbers are its numbers, name and value; Number is the one that the keys change.
	Numbers []DeskNumber
	Number  int
	// Hidden: the hidden keys work on the pupil's sheet. Keys lists them, a line each.
	Hidden bool
	Keys   []string
	// Radio says which radio is the instructor's, Hands who has the sticks.
	Radio, Hands string
	// Marks are the commentary marks of the last half minute, newest first.
	Marks []string
}

// DeskFault is one fault that can be planted.
type DeskFault struct {
	Name string
	// On: it is planted. Fits: this craft has something for it.
	On, Fits bool
	// Key is the hidden key that plants and lifts it; empty for none.
	Key string
}

// DeskNumber is one number of a fault.
type DeskNumber struct{ Name, Value string }

// faultPrefix and a number from 1 name the hit areas of the faults.
const faultPrefix = "fault-"

// FaultOf finds the index in DeskView.Faults of a hit area.
func FaultOf(code string) (int, bool) { return numberOf(code, faultPrefix) }

// showsDesk tells whether an action of the desk is there to be done; known is false for other actions.
func (v *View) showsDesk(a Action) (shows, known bool) {
	d := &v.Desk
	switch a {
	case DeskPlant, DeskAbove, DeskBelow, DeskMark, DeskHidden:
		return len(d.Faults) > 0, true
	case DeskMore, DeskLess:
		return len(d.Numbers) > 0, true
	case DeskOther:
		return len(d.Numbers) > 1, true
	case DeskLiftAll:
		for i := range d.Faults {
			if d.Faults[i].On {
				return true, true
			}
		}
		return false, true
	case DeskRadio:
		return len(v.Radios) > 1 && (v.Driver == Radio || v.Driver == Keyboard), true
	}
	return false, false
}

// Desk draws the instructor's desk: what can be planted and what is, the bench as it is, and the record with everything in it.
func Desk(p *ink.Page, v *View) {
	b := newBoard(p, v)
	var r ink.Rect
	if v.Class {
		r = b.classKeys(OnDesk, DeskPlant, DeskAbove, DeskBelow, DeskLiftAll, TurnFullScreen, ShowHelp, Leave)
	} else {
		r = b.footer(b.sheetArea(), OnDesk)
	}
	if v.Class {
		b.classDesk(b.threeState(r))
		return
	}
	b.Group("desk")
	size := b.TextSize(20)
	row, r := r.CutTop(ink.BlockHeight(size, 1), 2*b.u)
	b.fitted("title", row, ink.Style{Size: size, Weight: ink.Bold}, phrase.DeskTitle())
	row, r = r.CutTop(ink.BlockHeight(b.body, 1), 6*b.u)
	b.fitted("what", row, ink.Style{Size: b.body}, phrase.DeskWhat())
	if b.tall {
		top, low := r.CutTop(r.H*0.56, b.gap)
		left, right := top.CutLeft(top.W*0.46, b.gap*1.4)
		b.deskFaults(left)
		b.deskFacts(right)
		b.deskBench(low)
		return
	}
	cols := r.Columns(nil, b.gap*1.4, ink.Share(29, 0), ink.Share(36, 0), ink.Share(33, 0))
	b.deskFaults(cols[0])
	b.deskFacts(cols[1])
	b.deskBench(cols[2])
}

// classDesk is what a class sees of the desk: what can be wrong, what this one does, and the sticks.
func (b *board) classDesk(r ink.Rect) {
	if b.tall {
		top, low := r.CutTop(r.H*0.7, b.gap)
		left, right := top.CutLeft(top.W*0.5, b.gap*1.4)
		b.deskFaults(left)
		b.deskFacts(right)
		b.threeSticks(low)
		return
	}
	cols := r.Columns(nil, b.gap*1.4, ink.Share(38, 0), ink.Share(42, 0), ink.Share(18, 0))
	b.deskFaults(cols[0])
	b.deskFacts(cols[1])
	b.threeSticks(cols[2])
}

// deskFaults lists the faults; what is planted bears a filled square and is bold.
func (b *board) deskFaults(r ink.Rect) {
	b.Group("faults")
	v := &b.v.Desk
	r = b.section(r, "faults heading", phrase.DeskFaults())
	n := len(v.Faults)
	if n == 0 {
		return
	}
	least := ink.BlockHeight(b.body, 1) + 6*b.u
	fit := min(n, max(1, int(r.H/least)))
	first := max(0, min(v.Selected-fit/2, n-fit))
	h := min(r.H/float64(fit), 1.6*least)
	for i := first; i < first+fit; i++ {
		f := &v.Faults[i]
		row := ink.Rect{X: r.X, Y: r.Y + float64(i-first)*h, W: r.W, H: h}
		if i == v.Selected {
			b.Rect("selected", row.Inset(0.5*b.u), ink.Paint{Fill: ink.Panel, Line: ink.Focus, Width: 1.5 * b.u})
		}
		d := ink.CapHeight(b.body, ink.Bold)
		box := ink.Rect{X: row.X + 6*b.u, Y: row.Centre().Y - d/2, W: d, H: d}
		paint := ink.Paint{Line: ink.Ink, Width: 1.3 * b.u}
		if f.On {
			paint = ink.Paint{Fill: ink.Refusal}
		}
		b.Rect("plant box", box, paint)
		style := ink.Style{Size: b.body}
		if f.On {
			style.Weight = ink.Bold
		}
		if !f.Fits {
			style.Colour = ink.Faint
		}
		in := ink.Rect{X: box.Right() + 8*b.u, Y: row.Y, W: row.Right() - box.Right() - 12*b.u, H: row.H}
		if f.Key != "" {
			w := b.capWidth(b.cap, f.Key)
			b.keyCap("hidden key", in.Right()-w/2, in.Centre().Y, min(b.cap, h-2*b.u), f.Key)
			in.W -= w + 6*b.u
		}
		b.fitted("fault "+strconv.Itoa(i+1), in, style, phrase.DeskFault(f.Name, f.On))
		b.Hit(faultPrefix+strconv.Itoa(i+1), "", row)
	}
}

// deskFacts is what the fault looked at does, its numbers, what a pupil sees, and what else the desk holds.
func (b *board) deskFacts(r ink.Rect) {
	b.Group("facts")
	v := &b.v.Desk
	if v.Selected < 0 || v.Selected >= len(v.Faults) {
		return
	}
	r = b.section(r, "facts heading", phrase.DeskLooked())
	say := func(name, text string, size float64, style ink.Style) {
		if text == "" {
			return
		}
		n, _ := ink.CountLines(text, r.W, size, style.Weight)
		most := int((r.H + 2*b.u) / ink.LineHeight(size))
		if most < 1 {
			return
		}
		style.Size, style.Within = size, r
		h, _ := b.Block(name, r.X, r.Y, style, ink.Block{Width: r.W, MaxLines: min(n, most), Shorten: true}, text)
		_, r = r.CutTop(h, 5*b.u)
	}
	say("name", v.Faults[v.Selected].Name, b.large, ink.Style{Weight: ink.Bold})
	say("does", v.Does, b.body, ink.Style{})
	for i, n := range v.Numbers {
		row, rest := r.CutTop(max(ink.BlockHeight(b.body, 1)+4*b.u, 22*b.u), 2*b.u)
		if i == v.Number {
			b.Rect("number chosen", row, ink.Paint{Line: ink.Focus, Width: 1.5 * b.u})
		}
		in := ink.Rect{X: row.X + 4*b.u, Y: row.Y, W: row.W - 8*b.u, H: row.H}
		name, value := in.CutLeft(in.W*0.55, 4*b.u)
		b.fitted("number name", name, ink.Style{Size: b.small, Colour: ink.Faint}, n.Name)
		b.fitted("number value", value, ink.Style{Size: b.body, Weight: ink.Bold}, n.Value)
		r = rest
	}
	if len(v.Numbers) > 0 {
		_, r = r.CutTop(0, 4*b.u)
	}
	say("seen head", phrase.DeskPupilSees(), b.small, ink.Style{Weight: ink.Bold, Colour: ink.Faint})
	say("seen", v.Seen, b.body, ink.Style{})
	if b.v.Class {
		return
	}
	say("radio", v.Radio, b.body, ink.Style{})
	say("hands", v.Hands, b.body, ink.Style{Weight: ink.Bold})
	say("hidden", phrase.DeskHidden(v.Hidden), b.small, ink.Style{})
	for _, m := range v.Marks {
		say("mark", m, b.small, ink.Style{Colour: ink.Faint})
	}
}

// deskBench is the bench as it is, small, with the whole record.
func (b *board) deskBench(r ink.Rect) {
	b.Group("state")
	mark := b.Px(24)
	size, _ := ink.Fit(r.W-mark-8*b.u, b.Px(16), b.Px(32), ink.Bold, stateWords[:]...)
	row, r := r.CutTop(max(mark, ink.CapHeight(size, ink.Bold)+6*b.u), 4*b.u)
	b.stateMark(row.X+mark/2, row.Centre().Y, mark/2)
	b.stateWord(row.X+mark+8*b.u, row.Centre().Y, size)
	line, r := r.CutTop(25*b.u, 4*b.u)
	b.paceRow(line)
	h := clamp(r.H*0.34, 90*b.u, 200*b.u)
	sticks, r := r.CutTop(h, b.gap)
	b.Group("sticks")
	for i, g := range gimbals[stickMode(b.v.StickMode)] {
		b.stick(sticks.Cell(i, 2, 1, b.gap), g, [2]string{"left", "right"}[i])
	}
	if r.H > 120*b.u {
		b.chart(r)
	}
}
