package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/sim/prove"
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
	return words.T("compare.unfinished", searched)
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
			case st.Kind == prove.LetGo && st.From == st.To: // the other's springs back
				s.Text[i] = words.T("compare.stays-put", words.Args{"name": ControlName(&l[i].Radio.Controls[st.Control])})
			}
		}
		out = append(out, s)
	}
	return out
}

// Answered says what one of the two does at the end.
func Answered(a *prove.Answer) words.Text {
	return words.T("compare.does", words.Args{"armed": Armed(a.Armed), "turn": words.Flag(a.Motors), "sinking": words.Flag(a.Sinking), "mode": Mode(a.Mode),
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

// ComparedNotes say what was taken for granted of two layouts and what was not compared.
func ComparedNotes(l *[2]prove.Layout, c *prove.Comparison) []words.Text {
	var elsewhere, alone []words.Text
	for i := range l {
		for k := range l[i].Radio.Controls {
			one := &l[i].Radio.Controls[k]
			found := false
			for n := range l[1-i].Radio.Controls {
				two := &l[1-i].Radio.Controls[n]
				found = found || two.Job == one.Job || two.Channel == one.Channel
				if i == 0 && two.Job == one.Job && two.Channel != one.Channel {
					elsewhere = append(elsewhere, words.T("compare.other-channel", words.Args{"job": JobName(one.Job), "a": words.Whole(one.Channel + 1), "b": words.Whole(two.Channel + 1)}))
				}
			}
			if !found {
				alone = append(alone, words.T("compare.one-alone", words.Args{"letter": Letters()[i], "name": ControlName(one)}))
			}
		}
	}
	out := alone
	if len(elsewhere) > 0 {
		out = append(out, words.T("compare.other-channels", words.Args{"jobs": words.And(elsewhere...)}))
	}
	if c.Thin > 0 {
		out = append(out, words.T("compare.thin", words.Args{"n": words.Count(c.Thin)}))
	}
	for _, code := range codes.Apart(c.Apart) {
		out = append(out, words.Of("compare-apart", code, words.Args{"a": words.Whole(l[0].Config.SlotTicks), "b": words.Whole(l[1].Config.SlotTicks)}))
	}
	return out
}
