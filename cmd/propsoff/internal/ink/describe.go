package ink

import (
	"fmt"
	"math"
)

// Sheet says in plain values what a page draws, ready for JSON: what a test of a screen reads.
type Sheet struct {
	Width  float64     `json:"width"`
	Height float64     `json:"height"`
	Scale  float64     `json:"scale"`
	Theme  string      `json:"theme"`
	Empty  float64     `json:"empty"` // share of the page with nothing on it, 0 … 1
	Items  []Described `json:"items"`
	Hits   []Described `json:"hits,omitempty"`
}

// Described is one item or hit area. The lines of a text block are one item, joined by spaces.
type Described struct {
	Kind     string     `json:"kind"`
	Group    string     `json:"group,omitempty"`
	Name     string     `json:"name"`
	Key      string     `json:"key,omitempty"`
	Text     string     `json:"text,omitempty"`
	Lines    int        `json:"lines,omitempty"`
	Size     float64    `json:"size,omitempty"`
	Bold     bool       `json:"bold,omitempty"`
	State    bool       `json:"state,omitempty"`
	Crossed  float64    `json:"crossed,omitempty"` // 0 … 1
	Colour   string     `json:"colour,omitempty"`  // role of a text, of a fill
	Line     string     `json:"line,omitempty"`    // role of a stroke
	On       string     `json:"on,omitempty"`      // role that a text stands on
	Contrast float64    `json:"contrast,omitempty"`
	Points   int        `json:"points,omitempty"`
	Box      [4]float64 `json:"box"` // x, y, width, height in pixels
}

// Describe lists what a page draws, in the order of drawing. The strokes that cross texts off are told by the texts.
func Describe(p *Page) Sheet {
	c := &checker{p: p}
	c.prepare()
	s := Sheet{Width: p.W, Height: p.H, Scale: tidy(p.Scale, 1000), Theme: p.Theme.Name, Empty: tidy(EmptyShare(p), 1000), Items: []Described{}}
	for i := range p.items {
		it := &p.items[i]
		if it.owner >= 0 {
			continue
		}
		d := Described{Kind: it.Kind.String(), Group: it.Group, Name: it.Name, Box: corners(it.Box)}
		if it.Fill != None {
			d.Colour = it.Fill.String()
		}
		if it.Line != None {
			d.Line = it.Line.String()
		}
		if it.Kind != KindText {
			d.Points = len(p.Points(it))
			s.Items = append(s.Items, d)
			continue
		}
		if it.Row > 0 && len(s.Items) > 0 {
			s.Items[len(s.Items)-1].join(p, i)
			continue
		}
		on, _ := c.ground(i, c.ink[i])
		d.Text, d.Lines, d.Size, d.Bold, d.State = it.Text, 1, tidy(it.Size, 100), it.Weight == Bold, it.State
		d.Crossed, d.On, d.Contrast = tidy(it.Crossed, 1000), on.String(), tidy(c.contrast(it.Fill, on), 100)
		s.Items = append(s.Items, d)
	}
	for _, h := range p.hits {
		s.Hits = append(s.Hits, Described{Kind: "hit", Group: h.Group, Name: h.Name, Key: h.Key, Box: corners(h.Box)})
	}
	return s
}

// join adds the next line of a block: its words, its box, and its part of the crossing off by width.
func (d *Described) join(p *Page, i int) {
	whole, gone := 0.0, 0.0
	var box Rect
	for first := i - p.items[i].Row; first <= i; first++ {
		it := &p.items[first]
		whole, gone, box = whole+it.Box.W, gone+it.Box.W*it.Crossed, box.Union(it.Box)
	}
	d.Text += " " + p.items[i].Text
	d.Lines++
	d.Box = corners(box)
	if whole > 0 {
		d.Crossed = tidy(gone/whole, 1000)
	}
}

// Text finds the text of the first item with a name; ok is false if there is none.
func (s Sheet) Text(name string) (text string, ok bool) {
	for _, d := range s.Items {
		if d.Name == name && d.Text != "" {
			return d.Text, true
		}
	}
	return "", false
}

// Named gives all items with a name, in the order of drawing.
func (s Sheet) Named(name string) (found []Described) {
	for _, d := range s.Items {
		if d.Name == name {
			found = append(found, d)
		}
	}
	return found
}

func corners(r Rect) [4]float64 {
	return [4]float64{tidy(r.X, 10), tidy(r.Y, 10), tidy(r.W, 10), tidy(r.H, 10)}
}

// tidy rounds to one part in n: a description is read by people too.
func tidy(v, n float64) float64 { return math.Round(v*n) / n }

// String gives a rectangle as its place and size, rounded to a tenth of a pixel.
func (r Rect) String() string { return fmt.Sprintf("(%.1f, %.1f) %.1f×%.1f", r.X, r.Y, r.W, r.H) }
