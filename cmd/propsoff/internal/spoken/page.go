package spoken

import (
	"slices"
	"strings"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// aside are the groups of a page that are about no sheet in particular, or are told otherwise.
var aside = []string{"sheet", "pupil", "recording", "sound", "keys"}

// Chosen is what is written in what the keyboard acts on: in a frame of the colour that says so, or beside a mark of it. It is empty where nothing on
// the page is chosen.
func Chosen(p *ink.Page) string {
	var in ink.Rect
	var row bool // a row of a list, before all else
	items := p.Items()
	for i := range items {
		it := &items[i]
		box := it.Box
		switch {
		case slices.Contains(aside, it.Group):
			continue
		case (it.Kind == ink.KindRoundRect || it.Kind == ink.KindRect) && (it.Line == ink.Focus && it.Dash == ink.Dash{} || it.Name == "chosen"):
		default:
			continue
		}
		if is := it.Name == "chosen"; in == (ink.Rect{}) || is && !row || is == row && box.W*box.H < in.W*in.H {
			in, row = box, is
		}
	}
	if in == (ink.Rect{}) {
		return marked(items)
	}
	var all []string
	for i := range items {
		if it := &items[i]; it.Kind == ink.KindText && in.Has(it.Box.Centre()) {
			all = append(all, it.Text)
		}
	}
	return strings.Join(all, " ")
}

// marked is the text beside a mark in the colour of what the keyboard acts on.
func marked(items []ink.Item) string {
	for i := range items {
		it := &items[i]
		if it.Kind != ink.KindPolygon || it.Fill != ink.Focus || !strings.HasSuffix(it.Name, "-mark") || slices.Contains(aside, it.Group) {
			continue
		}
		y := it.Box.Centre().Y
		for j := range items {
			if t := &items[j]; t.Kind == ink.KindText && t.Box.Y <= y && y <= t.Box.Bottom() && t.Box.X >= it.Box.X {
				return block(items, j)
			}
		}
	}
	return ""
}

// block is a text with the rows that follow it.
func block(items []ink.Item, first int) string {
	for first > 0 && items[first].Row > 0 && items[first-1].Kind == ink.KindText && items[first-1].Name == items[first].Name {
		first--
	}
	all := []string{items[first].Text}
	for i := first + 1; i < len(items) && items[i].Kind == ink.KindText && items[i].Row > 0 && items[i].Name == items[first].Name; i++ {
		all = append(all, items[i].Text)
	}
	return strings.Join(all, " ")
}

// Texts are the texts of a page in the order in which they are drawn, but for what is about no sheet in particular and for keys; large alone: those of its largest text.
func Texts(p *ink.Page, large bool) (all []string) {
	items := p.Items()
	most := 0.0
	for i := range items {
		if it := &items[i]; it.Kind == ink.KindText && !slices.Contains(aside, it.Group) {
			most = max(most, it.Size)
		}
	}
	for i := range items {
		it := &items[i]
		if it.Kind == ink.KindText && it.Row == 0 && !slices.Contains(aside, it.Group) && (!large || it.Size >= most) {
			all = append(all, block(items, i))
		}
	}
	return all
}
