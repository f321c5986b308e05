package prove

import (
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// placePrefix and a number from 1 name the hit areas of the places in which a control could stand.
const placePrefix = "place-"

// played draws a way that is being played: how the craft stands, large; what comes, or is done; and the radio, on which the control that moves is marked
// before it does.
func (b *board) played(r ink.Rect, rule *Rule, at int) {
	v := Of(b.V)
	s := &v.Show
	b.Group("step")
	if !b.V.Class {
		title := words.T("elsewhere.now")
		switch {
		case s.Over:
			title = words.T("elsewhere.done")
		case s.Comes:
			title = words.T("elsewhere.next")
		}
		r = b.Section(r, "looked-at-heading", b.Say(words.T("elsewhere.heading", words.Args{"title": title, "over": words.Flag(s.Over),
			"step": words.T("prove.step", words.Args{"at": words.Whole(at + 1), "of": words.Whole(len(rule.Steps))})})))
	}
	size := max(b.Head, b.Body)
	d := b.Down(r, 4*b.U)
	if !b.V.Class { // there it stands above
		d.R = b.StateHeadOf(r, &s.Snap, b.Px(34), b.Px(24), b.Px(44), 3*b.U)
		d.Say("stands", tell.Played(&s.Snap), ink.Style{Size: b.Body})
	}
	if s.Over {
		d.Say("found", rule.Found, ink.Style{Size: b.Body, Weight: ink.Bold})
		b.radioOf(b.places(d.R), rule, at)
		return
	}
	d.Gap = 6 * b.U
	b.Filling(d.Row(8*b.U), s.Share)
	d.Gap = 4 * b.U
	step := &rule.Steps[at]
	d.Say("looked-at", step.Text, ink.Style{Size: size, Weight: ink.Bold})
	if s.Comes {
		d.Say("goes-on", b.goesOn(s), ink.Style{Size: b.Body, Colour: ink.Faint})
		if !s.Wrong.Empty() {
			b.Beware(d, "stands-wrong", s.Wrong, ink.Style{Size: b.Body})
		}
	} else if s.Said {
		d.Say("looked-at-did", step.Then, ink.Style{Size: size, Weight: ink.Bold})
	}
	b.radioOf(d.R, rule, at)
}

// goesOn says what it waits for.
func (b *board) goesOn(s *Show) words.Text {
	key := words.Args{"key": b.V.KeyHere(ShowWay, b.On)}
	switch {
	case s.Waits:
		return words.T("elsewhere.your-hand", key)
	case s.Led:
		return words.T("elsewhere.by-itself", key)
	}
	return words.T("elsewhere.plays", key)
}

// places draws where controls could stand in the step that is looked at, and what comes of each; it gives what is left below.
func (b *board) places(r ink.Rect) (rest ink.Rect) {
	v := Of(b.V)
	n := len(v.Places)
	if n == 0 {
		return r
	}
	b.Group("places")
	_, r = r.CutTop(0, b.Gap)
	if !b.V.Class {
		r = b.Section(r, "places-heading", b.Say(words.T("elsewhere.list-title")))
	}
	high := b.ForFinger(max(b.LeastHit, ink.LineHeight(b.Body)+4*b.U))
	all := min(float64(n)*high, max(r.H-170*b.U, min(r.H, 3*high+b.UnlistedHeight())))
	list, rest := r.CutTop(all, b.Gap)
	b.ListAll("places-"+strconv.Itoa(v.Step), list, n, v.PlaceAt, high, b.place)
	if !v.None.Empty() {
		d := b.Down(rest, b.Gap)
		d.Whole("none-avoids", v.None, ink.Style{Size: b.Body, Weight: ink.Bold})
		rest = d.R
	}
	return rest
}

// place draws one line of them.
func (b *board) place(r ink.Rect, i int) {
	p := &Of(b.V).Places[i]
	row := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H - 2*b.U}
	if i == Of(b.V).PlaceAt {
		b.Chosen(row)
	}
	mark := b.mark()
	if c := row.Centre(); p.Happens {
		b.Cross("place-happens", row.X+mark+6*b.U, c.Y, mark*0.8, ink.Paint{Line: ink.Ink, Width: max(1.5, mark*0.35)})
	} else {
		b.Tick("place-spared", row.X+mark+6*b.U, c.Y, mark, ink.Paint{Line: ink.Link, Width: max(1.5, mark*0.35)})
	}
	_, in := row.CutLeft(2*mark, 13*b.U)
	in = b.AtRight(in, "place-comes", b.Say(p.Outcome), ink.Style{Size: b.Body, Weight: ink.Bold}, 7*b.U, 9*b.U)
	style := ink.Style{Size: b.Body}
	b.Fitted("place", in, style, b.FirstFit(in.W, style, p.Says, p.Short))
	b.Hit(placePrefix+strconv.Itoa(i+1), "", r)
}
