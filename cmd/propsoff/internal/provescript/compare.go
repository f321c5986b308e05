package provescript

import (
	"fmt"
	"path/filepath"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/script"
	"propsoff.example/sim/prove"
)

// WriteCompared writes the way to each difference of a comparison as two pilot scripts into a folder, which is there: one plays it to the first
// craft, one to the second, and each expects what that craft does at the end. of says which craft and radio each is. It gives the paths, by difference
// and craft.
func WriteCompared(w *world.World, dir string, crafts [2]*world.Craft, of [2]words.Text, l *[2]prove.Layout, c *prove.Comparison) (written [2][2]string, err error) {
	for k, d := range [2]*prove.Difference{c.Difference, c.Graver} {
		if d == nil {
			continue
		}
		for i, craft := range crafts {
			path := filepath.Join(dir, comparedName(k, i))
			text, err := comparedScript(w, dir, craft, of, l, d, i, k > 0)
			if err == nil {
				err = replaceOwn(w, path, text)
			}
			if err != nil {
				return written, err
			}
			written[k][i] = path
		}
	}
	return written, nil
}

// comparedName is the file of the way to a difference, as one of the two takes it.
func comparedName(k, i int) string {
	return [2]string{"difference", "difference-beyond-refusal"}[k] + [2]string{"-a", "-b"}[i] + ".yaml"
}

// ClearCompared takes the scripts away that an earlier comparison wrote into a folder, of differences that this one does not have, and gives their names.
// One that was not brought to its end says nothing against them.
func ClearCompared(dir string, c *prove.Comparison) (gone []string, err error) {
	for k, d := range [2]*prove.Difference{c.Difference, c.Graver} {
		if d != nil || c.Partial {
			continue
		}
		for i := range 2 {
			if was, err := takeAway(dir, comparedName(k, i)); err != nil {
				return gone, err
			} else if was {
				gone = append(gone, comparedName(k, i))
			}
		}
	}
	return gone, nil
}

// comparedScript is the way to a difference as a script for one of the two crafts.
func comparedScript(w *world.World, dir string, craft *world.Craft, of [2]words.Text, l *[2]prove.Layout, d *prove.Difference, i int, graver bool) ([]byte, error) {
	at, err := craftFrom(dir, craft.Path)
	if err != nil {
		return nil, err
	}
	gestures, err := gesturesFrom(dir, craft)
	if err != nil {
		return nil, err
	}
	name := w.Language().Say(words.T("compare.way-name", words.Args{"letter": tell.Letters()[i]}))
	return script.Write(script.Draft{
		Comment:  comparedComment(w.Language(), name, of, l, d, i, graver),
		Name:     name,
		Craft:    at,
		Gestures: gestures,
		Readings: d.Ways[i].Readings,
		Expects:  Expects(d.Ways[i]),
	}, craft.Words)
}

// comparedComment tells the steps at the head of a script, as one of the two takes them, and what each does at the end. Its first words are those by
// which a script is known as one of these.
func comparedComment(book *words.Book, name string, of [2]words.Text, l *[2]prove.Layout, d *prove.Difference, i int, graver bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s%s.\n", codes.WayMark, name)
	for k, one := range of {
		fmt.Fprintln(&b, book.Say(tell.EachOf(k, one)))
	}
	fmt.Fprintf(&b, "%s\n\n", book.Say(tell.DifferenceTitle(d, graver)))
	for _, s := range tell.ComparedSteps(l, d) {
		stepLine(&b, book, s.Number, s.At, s.Text[i], s.Then[i])
	}
	for k := range d.Answers {
		fmt.Fprintln(&b, book.Say(tell.EachOf(k, tell.Answered(&d.Answers[k]))))
	}
	return strings.TrimRight(b.String(), "\n")
}
