package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim/prove"
)

// Letters are what two layouts that are held against each other are called.
func Letters() [2]words.Text { return [2]words.Text{words.AsIs("A"), words.AsIs("B")} }

// EachOf is a text about one of two layouts, behind its letter.
func EachOf(i int, text words.Text) words.Text {
	return words.T("compare.each", words.Args{"letter": Letters()[i], "text": text})
}

// ForBoth is what is said of two layouts: once where it is the same of both, and nothing where that is nothing.
func ForBoth(texts [2]words.Text) words.Text {
	a, b := words.English().Say(texts[0]), words.English().Say(texts[1])
	switch {
	case a == b:
		return texts[0]
	case b == "":
		return EachOf(0, texts[0])
	case a == "":
		return EachOf(1, texts[1])
	}
	return words.Row(EachOf(0, texts[0]), EachOf(1, texts[1]))
}

// Likeness is what a comparison came to, in a sentence.
func Likeness(c *prove.Comparison) words.Text {
	searched := words.Args{"situations": SituationsStand(c.Situations, 0)}
	switch c.Likeness() {
	case prove.Alike:
		return words.T("compare.alike", searched)
	case prove.Different:
		return words.T("compare.different")
	}
	if !c.Partial {
		return words.T("compare.by-noise-apart", searched)
	}
	return words.T("compare.unfinished", searched)
}

// OfFiles says which craft and radio each of two layouts is, with the names of their files (a radio's empty for none) where nothing else tells them apart.
func OfFiles(of [2]words.Text, crafts, radios [2]string) [2]words.Text {
	if words.English().Say(of[0]) != words.English().Say(of[1]) {
		return of
	}
	for i := range of {
		of[i] = words.T("compare.of-files", words.Args{"of": of[i], "craft": words.Quote(crafts[i]), "radio": words.Quote(radios[i])})
	}
	return of
}

// DifferenceTitle heads the way to a difference; graver where it is told beside a shorter one that ends in a refusal alone.
func DifferenceTitle(d *prove.Difference, graver bool) words.Text {
	args := words.Args{"n": words.Count(d.Ways[0].Movements), "time": Seconds(d.Ways[0].Ms)}
	if graver {
		return words.T("compare.graver", args)
	}
	return words.T("compare.shortest", args)
}

// ComparedStep is one line of a way that two layouts answer differently; what is not the same of both stands in two texts.
type ComparedStep struct {
	Number     string
	At         words.Text
	Text, Then [2]words.Text
}

// ComparedSteps are the lines of the way to a difference, without its end.
func ComparedSteps(l *[2]prove.Layout, d *prove.Difference) []ComparedStep {
	lines := [2][]ProvedStep{ProvedSteps(&l[0], d.Ways[0]), ProvedSteps(&l[1], d.Ways[1])}
	var out []ComparedStep
	for k := range d.Ways[0].Steps {
		a, b := &lines[0][k], &lines[1][k]
		s := ComparedStep{Number: a.Number, At: a.At, Text: [2]words.Text{a.Text, b.Text}, Then: [2]words.Text{a.Then, b.Then}}
		for i, w := range d.Ways {
			switch st := &w.Steps[k]; {
			case st.Kind != prove.Move && st.Kind != prove.LetGo:
			case st.Control < 0: // the other's control moves
				s.Text[i] = s.Text[1-i]
			case st.From != st.To:
			case st.Kind == prove.LetGo: // the other's springs back
				s.Text[i] = words.T("compare.stays-put", words.Args{"name": ControlName(&l[i].Radio.Controls[st.Control])})
			default: // it stood there before
				s.Text[i] = words.T("compare.stays-still", words.Args{"name": ControlName(&l[i].Radio.Controls[st.Control])})
			}
		}
		out = append(out, s)
	}
	return out
}

// Answered says what one of the two does at the end.
func Answered(a *prove.Answer) words.Text {
	return words.T("compare.does", words.Args{"armed": Armed(a.Armed), "on": words.Flag(a.Armed), "turn": words.Flag(a.Motors), "sinking": words.Flag(a.Sinking), "mode": Mode(a.Mode),
		"why": words.And(whys(a.Refused, 0)...)})
}

// Lasts says whether the two agree again by themselves; nothing where they differ in a refusal alone.
func Lasts(d *prove.Difference) words.Text {
	switch {
	case d.Lasts < 0:
		return words.T("compare.stays")
	case d.Lasts > 0:
		return words.T("compare.agrees", words.Args{"time": Seconds(d.Lasts)})
	}
	return words.Text{}
}
