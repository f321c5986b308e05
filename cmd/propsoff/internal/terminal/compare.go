package terminal

import (
	"fmt"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/prove"
)

// Compared is a comparison of two layouts as it is printed.
type Compared struct {
	// Book is the language of its text, nil for English.
	Book       *words.Book
	Layouts    [2]prove.Layout
	Comparison *prove.Comparison
	// Of says which craft and radio each is; Crafts and Radios are their names, a radio's empty for an ideal one.
	Of             [2]words.Text
	Crafts, Radios [2]string
	// CraftFiles and RadioFiles are what they were read from, a radio's empty for none.
	CraftFiles, RadioFiles [2]string
	// Writes: what is found is to be written as scripts.
	Writes bool
	// Written has the paths of the two scripts of the difference, and then those of the graver one; empty for none.
	Written [2][2]string
	// Cleared are the names of scripts of earlier comparisons that were taken away.
	Cleared []string
}

// AppendText appends the whole as text: which two were compared and what that came to, the way to the difference with what each does at its end,
// and what was left out.
func (c *Compared) AppendText(dst []byte) []byte {
	p := Proof{Book: c.Book}
	for i, of := range c.Of {
		dst = p.wrapped(dst, "", tell.EachOf(i, of))
	}
	dst = p.wrapped(dst, "", tell.Likeness(c.Comparison))
	for k, d := range c.differences() {
		if d != nil {
			dst = c.wayText(append(dst, '\n'), &p, k, d)
		}
	}
	if d := c.Comparison.Difference; d != nil && d.Parts == prove.InRefusing && c.Comparison.Graver == nil {
		dst = p.wrapped(append(dst, '\n'), "", words.T("compare.none-graver"))
	}
	notes := tell.ComparedNotes(&c.Layouts, c.Comparison)
	if c.Writes && c.Comparison.Difference == nil {
		notes = append(notes, words.T("compare.nothing-written"))
	}
	if len(c.Cleared) > 0 {
		notes = append(notes, cleared(c.Cleared))
	}
	if len(notes) > 0 {
		dst = append(dst, '\n')
	}
	for _, note := range notes {
		dst = p.wrapped(dst, "", note)
	}
	return dst
}

// differences are the shortest and the graver one, nil where there is none.
func (c *Compared) differences() [2]*prove.Difference {
	return [2]*prove.Difference{c.Comparison.Difference, c.Comparison.Graver}
}

// wayText appends the way to a difference.
func (c *Compared) wayText(dst []byte, p *Proof, k int, d *prove.Difference) []byte {
	const under = "  "
	dst = p.wrapped(dst, "", words.T("terminal.way", words.Args{"title": tell.DifferenceTitle(d, k > 0)}))
	blank := strings.Repeat(" ", len(under)+16)
	for _, s := range tell.ComparedSteps(&c.Layouts, d) {
		dst = p.wrapped(dst, fmt.Sprintf("%s%3s  %9s  ", under, s.Number, say(c.Book, s.At)), tell.ForBoth(s.Text))
		if then := tell.ForBoth(s.Then); !then.Empty() {
			dst = p.wrapped(dst, blank, words.Row(words.AsIs("→"), then))
		}
	}
	for i := range d.Answers {
		dst = p.wrapped(dst, under, tell.EachOf(i, tell.Answered(&d.Answers[i])))
	}
	if lasts := tell.Lasts(d); !lasts.Empty() {
		dst = p.wrapped(dst, under, lasts)
	}
	for i, path := range c.Written[k] {
		if path != "" {
			dst = p.wrapped(dst, under, tell.EachOf(i, words.T("prove.written", words.Args{"path": words.Quote(path)})))
		}
	}
	return dst
}

// AppendJSON appends the whole as lines of JSON: one with the code "difference" for the shortest, one more for the graver where there is one, and one with
// the code "compared" at the end. Times are ms from the beginning of the way.
func (c *Compared) AppendJSON(dst []byte) []byte {
	for k, d := range c.differences() {
		if d != nil {
			dst = AppendFields(dst, c.difference(k, d)...)
		}
	}
	r := c.Comparison
	fields := []any{"code", "compared"}
	for i, letter := range [2]string{"a", "b"} {
		fields = append(fields, letter, Fields{"craft", c.Crafts[i], "radio", orNil(c.Radios[i]), "ideal", c.Radios[i] == "",
			"craft_file", c.CraftFiles[i], "radio_file", orNil(c.RadioFiles[i])})
	}
	return AppendFields(dst, append(fields, "situations", r.Situations, "slots_stepped", r.Steps, "partial", r.Partial, "likeness", r.Likeness().Code(),
		"left_out", c.leftOut(), "noise", c.shaken(), "noise_differs", r.ByNoise, "not_compared", orNone(codes.Apart(r.Apart)), "notes", tell.ComparedNotes(&c.Layouts, r))...)
}

// leftOut are the fields of each stretch that was left out.
func (c *Compared) leftOut() (all []Fields) {
	for _, s := range c.Comparison.LeftOut {
		one := Fields{"job", c.Layouts[0].Radio.Controls[s.Controls[0]].Job}
		for i, letter := range [2]string{"a", "b"} {
			one = append(one, letter, Fields{"channel", int(c.Layouts[i].Radio.Controls[s.Controls[i]].Channel) + 1, "from_us", exact(s.From[i]), "to_us", exact(s.To[i])})
		}
		all = append(all, one)
	}
	return all
}

// shaken are the fields of each place of which noise makes something else.
func (c *Compared) shaken() (all []Fields) {
	for _, s := range c.Comparison.Shaken {
		of := &c.Layouts[s.Layout].Radio.Controls[s.Control]
		position := any(nil)
		if s.Position >= 0 {
			position = s.Position + 1
		}
		all = append(all, Fields{"layout", [2]string{"a", "b"}[s.Layout], "job", of.Job, "channel", int(of.Channel) + 1, "position", position, "us", exact(s.At), "noise_us", exact(s.To)})
	}
	return all
}

// difference are the fields of one difference.
func (c *Compared) difference(k int, d *prove.Difference) []any {
	lasts := any(nil) // as long as nothing moves
	if d.Lasts >= 0 {
		lasts = d.Lasts
	}
	line := []any{"code", "difference", "graver", k > 0, "in", codes.Parts(d.Parts), "movements", d.Ways[0].Movements, "ms", d.Ways[0].Ms, "lasts_ms", lasts}
	var steps []Fields
	for n, s := range tell.ComparedSteps(&c.Layouts, d) {
		st := &d.Ways[0].Steps[n]
		one := Fields{"number", orNil(s.Number), "t_ms", st.At - d.Ways[0].Steps[0].At, "does", codes.Step(st.Kind), "wait_ms", orNil(st.Ms), "text", tell.ForBoth(s.Text)}
		for i, letter := range [2]string{"a", "b"} {
			own := &d.Ways[i].Steps[n]
			var side Fields
			if then := codes.Events(own.Then); len(then) > 0 {
				side = Fields{"then", then}
			}
			if own.Control >= 0 {
				side = append(side, "channel", int(c.Layouts[i].Radio.Controls[own.Control].Channel)+1, "us", string(exact(own.To)))
			}
			if len(side) > 0 {
				one = append(one, letter, side)
			}
		}
		steps = append(steps, one)
	}
	line = append(line, "steps", steps)
	for i, letter := range [2]string{"a", "b"} {
		a := &d.Answers[i]
		line = append(line, letter, Fields{"t_ms", d.Ways[i].Final, "armed", a.Armed, "motors_turn", a.Motors, "sinking", a.Sinking, "mode", codes.Mode(a.Mode),
			"refused", orNone(codes.Why(a.Refused)), "text", tell.Answered(a), "script", orNil(c.Written[k][i])})
	}
	return line
}
