package prove

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
)

// lying is what lies around the way that is looked at.
type lying struct {
	l     *prove.Layout
	way   *prove.Way // as it was found
	a     *prove.Around
	turns []prove.Turn
	tried map[int][]prove.Tried // by step, once it was looked at
	rows  []place               // of the step rowsOf
	of    int
	// chosen is the place that a control was put elsewhere, nil for the way as it was found; mended is the number of a mend from 0 in whose layout
	// the way is made, −1 for none.
	chosen *place
	mended int
	layout *prove.Layout // in which it is made
	came   *prove.Again
}

// place is a place in which a control can stand in a step.
type place struct {
	tried *prove.Tried
	n     int
}

// Place is a line of the list of places.
type Place struct {
	Says    words.Text
	Short   words.Text // where there is little room
	Outcome words.Text
	// Own is the way as it was found; else Happens tells whether it happens again.
	Own, Happens bool
}

// lieAround looks at what lies around a way; nil where nothing does.
func lieAround(l *prove.Layout, r *prove.Result) *lying {
	if r == nil || r.Way == nil || len(r.Way.Steps) == 0 || len(r.Way.Readings) == 0 {
		return nil
	}
	a, err := prove.NewAround(l, r)
	if err != nil {
		return nil
	}
	return &lying{l: l, way: r.Way, a: a, turns: a.Turns(), tried: map[int][]prove.Tried{}, of: -1, mended: -1, layout: l, came: a.Plain()}
}

// look lists the places of a step: first the way as it was found, then every other.
func (y *lying) look(step int) []place {
	if y.of == step {
		return y.rows
	}
	all, known := y.tried[step]
	if !known {
		for _, t := range y.turns {
			if t.Step == step {
				all = append(all, y.a.Try(t))
			}
		}
		y.tried[step] = all
	}
	y.of, y.rows = step, nil
	for i := range all {
		for n := range all[i].Places {
			if n != all[i].Own {
				y.rows = append(y.rows, place{&all[i], n})
			}
		}
	}
	return y.rows
}

// choose puts a control elsewhere, or with nil nothing.
func (y *lying) choose(p *place) {
	y.chosen, y.mended, y.layout, y.came = p, -1, y.l, y.a.Plain()
	if p != nil {
		y.came = &p.tried.Came[p.n]
	}
}

// mend makes the way in the layout of the first of some mends from one on in which it does not happen; back to the way as it was found after the last.
func (y *lying) mend(all []mend.Mend) {
	from := y.mended + 1
	y.choose(nil)
	for n := from; n < len(all); n++ {
		if came, err := y.a.In(&all[n].After); err == nil && !came.Happens {
			y.mended, y.layout, y.came = n, &all[n].After, &came
			return
		}
	}
}

// plain tells whether the way is as it was found.
func (y *lying) plain() bool { return y.chosen == nil && y.mended < 0 }

// says is what is another way, and what comes of that; nothing for the way as it was found.
func (y *lying) says() words.Text {
	switch {
	case y.mended >= 0:
		return tell.InMend(y.mended, y.came)
	case y.chosen != nil:
		t := &y.chosen.tried.Turn
		return tell.Elsewhere(y.layout, t, y.chosen.n, tell.ProvedSteps(y.l, y.way)[t.Step].Number, y.came)
	}
	return words.Text{}
}

// rule is the rule that is looked at, with the way as it is made now.
func (y *lying) rule(of Rule) Rule {
	if y.plain() {
		return of
	}
	r := &y.layout.Radio
	return Rule{Outcome: of.Outcome, Short: of.Short, Whole: of.Whole, Found: y.says(), Way: words.T("elsewhere.title-way"), Steps: tell.ProvedSteps(y.layout, &y.came.Way),
		Moves: MovesOf(r, &y.came.Way), Frames: FramesOf(&y.came.Way), Radio: r, Layout: &y.layout.Config.Layout}
}

// places are the lines of a step, and which of them stands: the first where the way is as it was found, none where it is another in another step.
func (y *lying) places(step int) (out []Place, at int) {
	rows := y.look(step)
	if len(rows) == 0 {
		return nil, 0
	}
	out = append(out, Place{Says: words.T("elsewhere.as-found"), Short: words.T("elsewhere.as-found"), Outcome: words.T("elsewhere.word-own"), Own: true, Happens: true})
	if at = -1; y.plain() {
		at = 0
	}
	for i := range rows {
		p := &rows[i]
		happens := p.tried.Came[p.n].Happens
		word := words.ID("elsewhere.word-not")
		if happens {
			word = "elsewhere.word-again"
		}
		out = append(out, Place{Says: tell.TurnRow(y.l, &p.tried.Turn, p.n), Short: tell.TurnRowShort(y.l, &p.tried.Turn, p.n), Outcome: words.T(word), Happens: happens})
		if c := y.chosen; c != nil && c.tried == p.tried && c.n == p.n {
			at = i + 1
		}
	}
	return out, at
}

// none says of a step that no place of a control in it avoids what happens; nothing where one does.
func (y *lying) none(step int) words.Text {
	var all []words.Text
	for i := range y.tried[step] {
		all = append(all, tell.TurnNone(y.l, &y.tried[step][i]))
	}
	return words.Row(all...)
}
