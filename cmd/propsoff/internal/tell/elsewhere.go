package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/handset"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// TurnTitle heads what comes of a control elsewhere; number is that of the step that moves it, empty where it is let go there, or stands so from the
// beginning.
func TurnTitle(l *prove.Layout, t *prove.Turn, number string) words.Text {
	name := words.Args{"name": provedName(&l.Radio.Controls[t.Control]), "number": words.AsIs(number)}
	switch {
	case t.Step == 0:
		return words.T("elsewhere.beginning", name)
	case number == "":
		return words.T("elsewhere.let-go", name)
	}
	return words.T("elsewhere.movement", name)
}

// TurnPlace is a place of a turn with what comes of it.
func TurnPlace(l *prove.Layout, t *prove.Tried, n int) words.Text {
	return words.T("elsewhere.place", words.Args{"place": turnAt(l, &t.Turn, n), "comes": TurnComes(t, n)})
}

// TurnComes says what comes of a place of a turn: half a sentence, or one and a half.
func TurnComes(t *prove.Tried, n int) words.Text {
	answer := t.Came[n].Answer()
	does := words.Args{"does": Answered(&answer)}
	switch {
	case n == t.Own:
		return words.T("elsewhere.own")
	case t.Came[n].Happens:
		return words.T("elsewhere.again", does)
	}
	return words.T("elsewhere.not-here", does)
}

// TurnNone says that no place of a control avoids it; nothing where one does.
func TurnNone(l *prove.Layout, t *prove.Tried) words.Text {
	if t.Avoided {
		return words.Text{}
	}
	return words.T("elsewhere.none", words.Args{"name": provedName(&l.Radio.Controls[t.Control])})
}

// turnAt is where a control stands in a place of a turn.
func turnAt(l *prove.Layout, t *prove.Turn, n int) words.Text {
	p := &t.Places[n]
	return ControlAt(&l.Radio.Controls[t.Control], p.Position, p.Width)
}

// TurnRow names a control and a place of it, for a list of what to choose from.
func TurnRow(l *prove.Layout, t *prove.Turn, n int) words.Text {
	return words.T("elsewhere.row", words.Args{"name": ControlName(&l.Radio.Controls[t.Control]), "place": turnAt(l, t, n)})
}

// TurnRowShort is TurnRow where there is little room: the width tells the place, where there is one.
func TurnRowShort(l *prove.Layout, t *prove.Turn, n int) words.Text {
	w := t.Places[n].Width
	if !w.Valid() {
		return TurnRow(l, t, n)
	}
	return words.T("elsewhere.row-short", words.Args{"name": ControlName(&l.Radio.Controls[t.Control]), "width": Micros(w)})
}

// Elsewhere says what is another way than it was found, and what comes of that; number as for TurnTitle.
func Elsewhere(l *prove.Layout, t *prove.Turn, n int, number string, came *prove.Again) words.Text {
	id := words.ID("elsewhere.instead")
	switch {
	case t.Step == 0:
		id = "elsewhere.at-start"
	case number == "":
		id = "elsewhere.instead-let-go"
	}
	what := words.T(id, words.Args{"place": TurnRow(l, t, n), "step": words.AsIs(number)})
	return words.Row(words.T("elsewhere.changed", words.Args{"what": what}), CameTo(came))
}

// CameTo says whether it happened, and what the craft does.
func CameTo(came *prove.Again) words.Text {
	answer := came.Answer()
	does := words.Args{"does": Answered(&answer)}
	if came.Happens {
		return words.T("elsewhere.happens", does)
	}
	return words.T("elsewhere.spared", does)
}

// InMend says what the same hands come to in the layout of a mend, by its number from 0.
func InMend(n int, came *prove.Again) words.Text {
	answer := came.Answer()
	return words.T("elsewhere.mended", words.Args{"number": words.Whole(n + 1), "does": Answered(&answer)})
}

// StandsWrong says of a control that it is to stand elsewhere than the hand has it.
func StandsWrong(c *handset.Control, is, want pulse.Width) words.Text {
	at := func(w pulse.Width) words.Text {
		position := -1
		if c.Kind == handset.Switch {
			position = c.Nearest(w)
		}
		return ControlAt(c, position, w)
	}
	return words.T("elsewhere.wrong", words.Args{"name": provedName(c), "is": at(is), "place": at(want)})
}

// Played says beside the large word how the craft of a way stands while that is played.
func Played(s *sim.Snapshot) words.Text {
	if !s.In.Powered {
		return words.T("elsewhere.no-power")
	}
	return words.T("elsewhere.motors", words.Args{"turn": words.Flag(s.Motor != [len(s.Motor)]uint16{}), "sinking": words.Flag(s.Sinking), "mode": Mode(s.Mode),
		"link": LinkWord(facts.Phase(s.Link))})
}
