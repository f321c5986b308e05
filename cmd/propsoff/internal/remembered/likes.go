package remembered

import (
	"bytes"
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// Like is what a layout was found to behave like.
type Like struct {
	// Of is a digest of everything that the comparison depends on of the layout, in hexadecimal digits.
	Of string
	// Day is when they were compared, in days since 1970.
	Day int
	// Craft and Radio are the names of the files of the other, empty for the same as its own. CraftWas: its craft file before it was changed; RadioWas: its
	// radio before it was learned anew.
	Craft, Radio       string
	CraftWas, RadioWas bool
}

const (
	mostLikes     = 24
	fieldLikes    = "alike"
	fieldCraft    = "craft"
	fieldCraftWas = "craft-changed-since"
	fieldRadioWas = "radio-learned-since"
)

// LikeOf is what a layout was found to behave like, nil for nothing known.
func (p *Proofs) LikeOf(digest string) *Like {
	if i := slices.IndexFunc(p.Likes, func(l Like) bool { return l.Of == digest }); i >= 0 {
		return &p.Likes[i]
	}
	return nil
}

// NoteLike notes what a layout was found to behave like, in the place of what was found before; of too many the oldest is forgotten.
func (p *Proofs) NoteLike(n Like) {
	p.Likes = append(slices.DeleteFunc(p.Likes, func(l Like) bool { return l.Of == n.Of }), n)
	if extra := len(p.Likes) - mostLikes; extra > 0 {
		p.Likes = slices.Delete(p.Likes, 0, extra)
	}
	p.write(p.Marshal())
}

// likes writes what is known of likeness.
func (p *Proofs) likes(b *bytes.Buffer) {
	if len(p.Likes) > 0 {
		fmt.Fprintf(b, "%s:\n", fieldLikes)
	}
	for i := range p.Likes {
		l := &p.Likes[i]
		fmt.Fprintf(b, "  - %s: %s\n    %s: %d\n", fieldOf, yamldoc.Quote(l.Of), fieldDay, l.Day)
		for _, one := range [...]struct{ field, text string }{{fieldCraft, l.Craft}, {fieldRadio, l.Radio}} {
			if one.text != "" {
				fmt.Fprintf(b, "    %s: %s\n", one.field, yamldoc.Quote(one.text))
			}
		}
		for _, one := range [...]struct {
			field string
			is    bool
		}{{fieldCraftWas, l.CraftWas}, {fieldRadioWas, l.RadioWas}} {
			if one.is {
				fmt.Fprintf(b, "    %s: yes\n", one.field)
			}
		}
	}
}

func parseLike(m *yamldoc.Map) (l Like) {
	l.Of = parseDigest(m)
	l.Day, _ = m.Need(fieldDay).Int(0, mostDay)
	l.Craft, l.Radio = text(m.Opt(fieldCraft)), text(m.Opt(fieldRadio))
	yes := func(field string) bool {
		said, _ := m.Opt(field).Word("yes", "no")
		return said == "yes"
	}
	l.CraftWas, l.RadioWas = yes(fieldCraftWas), yes(fieldRadioWas)
	m.Done()
	return l
}

// parseDigest reads what a layout is known by.
func parseDigest(m *yamldoc.Map) (digest string) {
	of := m.Need(fieldOf)
	if digest = text(of); of.Exists() && !isDigest(digest) {
		of.Wrong("remembered.no-digest", words.Args{"n": words.Whole(digestLength)})
	}
	return digest
}
