package report

import (
	"math"
	"strings"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// Lengths in points, 1/72 inch (ours). The margin leaves room for a pin or a punch.
const (
	margin = 34
	// most and least are the sizes of running text.
	most  = 9.5
	least = 7.5
	// plotLeast is the least height of a plot with its heading, plotMost the greatest that is of use.
	plotLeast = 108
	plotMost  = 290
)

// pen draws a report on a page.
type pen struct {
	*ink.Page
	d *Data
	// u is one point in pixels, size and small are text sizes in pixels.
	u, size, small float64
	undrawn        bool // a character that the face does not have was left out
	short          bool // a drill's name was cut short
}

func newPen(p *ink.Page, d *Data, points float64) *pen {
	k := &pen{Page: p, d: d, u: p.Scale, size: p.TextSize(points)}
	k.small = max(math.Floor(k.size*0.9), p.TextSize(least))
	return k
}

// Draw draws the report on one page whose Scale is pixels to the point (paper.Size.Page makes one): the largest text with which the table
// of drills stands there whole, else as many drills as fit, those that were run first.
func Draw(p *ink.Page, d *Data) {
	for points := float64(most); points > least; points -= 0.5 {
		trial := newPen(ink.NewPage(p.W, p.H, p.Scale, p.Theme), d, points)
		if trial.all() {
			newPen(p, d, points).all()
			return
		}
	}
	newPen(p, d, least).all()
}

// all draws everything; whole is false where drills had to be left out or their names cut.
func (k *pen) all() (whole bool) {
	r := k.Bounds().Inset(margin * k.u)
	r = k.head(r)
	r = k.foot(r)
	gap := k.size * 1.2
	rows, tall := k.tableRows(r.W, r.H-2*(plotLeast*k.u+gap))
	table, r := r.CutBottom(tall, gap)
	high := min((r.H-gap)/2, plotMost*k.u)
	times, r := r.CutTop(high, gap)
	k.reaction(times)
	rest, _ := r.CutTop(high, gap)
	var buf [2]ink.Rect
	both := rest.Columns(buf[:0], k.size*2, ink.Share(43, 0), ink.Share(57, 0))
	k.stood(k.heading("stood", both[0], phrase.ReportMastered()))
	k.refused(k.heading("refused", both[1], phrase.ReportRefused()))
	table.Y = rest.Bottom() + gap
	k.table(table, rows)
	return len(rows) == len(k.run()) && !k.short
}

// head writes what the page is, whose, of which days, and the sentences.
func (k *pen) head(r ink.Rect) ink.Rect {
	k.Group("head")
	y := r.Y
	head := math.Floor(k.size * 1.15)
	k.Text("report", r.X, y, ink.Style{Size: head, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Faint}, phrase.ReportTitle())
	if !k.d.Date.IsZero() {
		k.Text("date", r.Right(), y, ink.Style{Size: head, Anchor: ink.Right | ink.Top}, phrase.ReportDate(k.d.Date))
	}
	y += ink.BlockHeight(head, 1)
	name := k.drawn(k.d.Pupil)
	size, _ := ink.Fit(r.W, k.size*1.3, k.size*2.3, ink.Bold, name)
	h, _ := k.Block("pupil", r.X, y, ink.Style{Size: size, Weight: ink.Bold}, ink.Block{Width: r.W, MaxLines: 1, Shorten: true}, name)
	y += h
	if span := k.d.span(); span != "" {
		h, _ = k.Block("span", r.X, y, ink.Style{Size: k.size, Weight: ink.Bold}, ink.Block{Width: r.W, MaxLines: 1}, span)
		y += h
	}
	y += k.u
	h, _ = k.Block("sentences", r.X, y, ink.Style{Size: k.size}, ink.Block{Width: r.W, MaxLines: 5, Shorten: true}, k.drawn(k.d.sentences()))
	y += h + 3*k.u
	k.Line("head rule", r.X, y, r.Right(), y, ink.Paint{Line: ink.Ink, Width: 1.2 * k.u})
	_, r = r.CutTop(y-r.Y, 6*k.u)
	return r
}

// foot writes the caution and who made the page.
func (k *pen) foot(r ink.Rect) ink.Rect {
	k.Group("foot")
	made := phrase.ReportMade(k.d.Program)
	if k.undrawn {
		made = phrase.ReportUndrawn() + " " + made
	}
	lines, _ := ink.CountLines(phrase.ReportCaution(), r.W, k.small, ink.Bold)
	more, _ := ink.CountLines(made, r.W, k.small, ink.Regular)
	foot, rest := r.CutBottom(ink.BlockHeight(k.small, lines)+ink.BlockHeight(k.small, more)+6*k.u, 8*k.u)
	k.Line("foot rule", foot.X, foot.Y, foot.Right(), foot.Y, ink.Paint{Line: ink.Ink, Width: 0.8 * k.u})
	y := foot.Y + 4*k.u
	h, _ := k.Block("caution", foot.X, y, ink.Style{Size: k.small, Weight: ink.Bold}, ink.Block{Width: foot.W}, phrase.ReportCaution())
	k.Block("made", foot.X, y+h, ink.Style{Size: k.small, Colour: ink.Faint}, ink.Block{Width: foot.W}, made)
	return rest
}

// heading writes a heading with a thin rule to the right edge and gives what is left under it.
func (k *pen) heading(group string, r ink.Rect, text string) ink.Rect {
	k.Group(group)
	box := k.Text("heading", r.X, r.Y, ink.Style{Size: k.size, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Faint}, text)
	if from := box.Right() + 4*k.u; from < r.Right() {
		mid := box.Y + box.H*0.55
		k.Line("heading rule", from, mid, r.Right(), mid, ink.Paint{Line: ink.Rule, Width: 0.5 * k.u})
	}
	_, r = r.CutTop(ink.BlockHeight(k.size, 1), 2*k.u)
	return r
}

// drawn is a text with a dot in place of each character that the face cannot draw. Marks that go with a letter are left out.
func (k *pen) drawn(s string) string {
	return strings.Map(func(r rune) rune {
		if _, bad := ink.Missing(string(r), ink.Bold); !bad {
			return r
		}
		k.undrawn = true
		if r == '\u200c' || r == '\u200d' || r >= 0xfe00 && r <= 0xfe0f {
			return -1
		}
		return '·'
	}, s)
}
