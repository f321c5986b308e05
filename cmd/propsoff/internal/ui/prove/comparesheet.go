package prove

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/prove"
)

// CompareView is what the sheet of comparing knows besides what all know.
type CompareView struct {
	// Of says which layout is compared. Status says how far that is, or what it came to; Done is the share that was searched of all that is known of so far.
	Of, Status words.Text
	Comparing  bool
	Done       float64
	// Others is what it can be compared with, At the one looked at.
	Others []Other
	At     int
	// InWay: the way to the difference is shown step by step; Step is the one looked at, from 0.
	InWay bool
	Step  int
}

// Other is a layout to compare with, and what came of that.
type Other struct {
	// Outcome is NotAsked before they were compared, then Holds where they are alike, Broken where they are not.
	Outcome prove.Outcome
	// Short names it in a few words. Whole says what came of it, Found what each of the two does then, or what A and B are, Notes what was not compared.
	Short, Whole, Found words.Text
	Notes               []words.Text
	// Way is the title over the steps; empty where there is no difference to show.
	Way   words.Text
	Steps []tell.ComparedStep
	// Sides are the radio and the movements of A and B, Names what they are, Ends what each does at the end.
	Sides       [2]Rule
	Names, Ends [2]words.Text
}

// CompareOf is what the sheet of comparing knows besides what all know.
func CompareOf(v *ui.View) *CompareView { return ui.Own[CompareView](v) }

// other is the one that is looked at; an empty one where there is none.
func (v *CompareView) other() Other {
	if v.At < len(v.Others) {
		return v.Others[v.At]
	}
	return Other{}
}

// otherPrefix and a number from 1 name the hit areas of what can be compared with, pairPrefix those of the steps.
const (
	otherPrefix = "compare-with-"
	pairPrefix  = "compare-step-"
)

// Likeness is the word for what came of comparing.
func likeness(o prove.Outcome) words.Text {
	code := "unknown"
	switch o {
	case prove.Holds:
		code = "alike"
	case prove.Broken:
		code = "different"
	case prove.Undecided:
		code = "undecided"
	}
	return words.Of("compare-word", code)
}

// DrawCompare draws what the layout can be compared with, what came of it, and the way to a difference, A and B beside one another.
func DrawCompare(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnCompare)
	b := &board{on}
	if v.Class && b.Tall {
		b.Larger(1.3)
	}
	c := CompareOf(v)
	if c.InWay && len(c.other().Steps) > 0 {
		b.pairWay(r, c)
		return
	}
	r = b.compared(r, c)
	if len(c.Others) == 0 {
		b.RadioNow(r, nil)
		return
	}
	row := max(34*b.U, ink.LineHeight(b.Body)+10*b.U)
	if b.Tall { // a portrait page has the height for the radio
		var radio ink.Rect
		radio, r = r.CutBottom(r.H*0.43, b.Gap)
		b.RadioNow(radio, nil)
	}
	list, found := b.Split(r, r.W*0.5, min(r.H*0.45, float64(len(c.Others))*row+b.SectionHeight()), 1.6)
	b.others(list, c)
	b.came(found, c)
}

// compared draws which layout is compared and how far that is; it gives what is left below.
func (b *board) compared(r ink.Rect, c *CompareView) ink.Rect {
	b.Group("search")
	d := b.Down(r, 3*b.U)
	if !b.V.Class {
		d.R = b.Section(d.R, "compare-heading", b.Say(words.T("compare.title")))
	}
	d.Say("compared", c.Of, ink.Style{Size: b.Small, Colour: ink.Faint})
	d.Say("status", c.Status, ink.Style{Size: b.Head, Weight: ink.Bold})
	d.Gap = b.Gap
	if row := d.Row(8 * b.U); c.Comparing {
		b.Filling(row, c.Done)
	}
	return d.R
}

// others draws the list of what it can be compared with.
func (b *board) others(r ink.Rect, c *CompareView) {
	b.Group("others")
	if !b.V.Class {
		r = b.Section(r, "others-heading", b.Say(words.T("compare.list-title")))
	}
	most := max(34*b.U, ink.LineHeight(b.Body)+10*b.U)
	least := max(b.LeastHit, ink.LineHeight(b.Body)+4*b.U)
	high := ui.Clamp(r.H/float64(len(c.Others)), least, most)
	if _, rest := r.CutTop(b.ForFinger(high)*float64(len(c.Others)), 2*b.Gap); rest.H > 150*b.U {
		b.RadioNow(rest, nil)
		b.Group("others")
	}
	b.ListAll("others", r, len(c.Others), c.At, high, func(r ink.Rect, i int) {
		o := &c.Others[i]
		row := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - 2*b.U}
		if i == c.At {
			b.Chosen(row)
		}
		mark := b.mark()
		b.OutcomeMark(row.X+mark+6*b.U, row.Centre().Y, mark, o.Outcome)
		_, name := row.CutLeft(2*mark, 13*b.U)
		name = b.AtRight(name, "likeness", b.Say(likeness(o.Outcome)), ink.Style{Size: b.Body, Weight: ink.Bold}, 7*b.U, 9*b.U)
		b.Fitted("other", name, ink.Style{Size: b.Body}, b.Say(o.Short))
		b.Hit(otherPrefix+strconv.Itoa(i+1), "", r)
	})
}

// came draws what came of the one looked at: in a sentence, what each does, the way in short, and what was not compared.
func (b *board) came(r ink.Rect, c *CompareView) {
	b.Group("finding")
	o := c.other()
	if !b.V.Class {
		r = b.Section(r, "came-heading", b.Say(words.T("compare.one-title")))
	}
	d := b.Down(r, 5*b.U)
	if !b.V.Class {
		d.Say("other-name", o.Short, ink.Style{Size: b.Body, Colour: ink.Faint})
	}
	d.Say("whole", o.Whole, ink.Style{Size: b.Head, Weight: ink.Bold})
	d.Gap = b.Gap
	d.Say("found", o.Found, ink.Style{Size: b.Body})
	if !b.V.Class {
		for _, n := range o.Notes {
			d.Whole("note", n, ink.Style{Size: b.Small})
		}
	}
	if len(o.Steps) == 0 {
		return
	}
	all := make([]tell.ProvedStep, len(o.Steps))
	for i, s := range o.Steps {
		all[i] = tell.ProvedStep{Number: s.Number, At: s.At, Text: tell.ForBoth(s.Text), Then: tell.ForBoth(s.Then)}
	}
	if b.V.Class {
		all = all[1:]
	}
	if d.Gap = 2 * b.U; d.R.H > 5*ink.LineHeight(b.Body) {
		d.Say("way", o.Way, ink.Style{Size: b.Body, Weight: ink.Bold, Colour: ink.Faint})
		b.steps(d.R, "step", all, -1, tell.StepsLeft)
	}
}
