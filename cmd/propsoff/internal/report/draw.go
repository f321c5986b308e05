package report

import (
	"math"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
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

// pen draws a report on a page, in a language.
type pen struct {
	*ink.Page
	d    *Data
	book *words.Book
	// u is one point in pixels, size and small are text sizes in pixels.
	u, size, small float64
	undrawn        bool // a name has a character that the face does not have
	short          bool // a drill was left out, or its name cut
}

func newPen(p *ink.Page, book *words.Book, d *Data, points float64) *pen {
	k := &pen{Page: p, d: d, book: book, u: p.Scale, size: p.TextSize(points)}
	k.small = max(math.Floor(k.size*0.9), p.TextSize(least))
	return k
}

// Draw draws the report on one page whose Scale is pixels to the point (paper.Size.Page makes one): the largest text with which the table
// of drills stands there whole, else as many drills as fit, those that were run first.
func Draw(p *ink.Page, book *words.Book, d *Data) {
	points := float64(most)
	for points > least && !newPen(ink.NewPage(p.W, p.H, p.Scale, p.Theme), book, d, points).all() {
		points -= 0.5
	}
	newPen(p, book, d, points).all()
}

// Paper is a report that was drawn on a page as it goes on paper, for paper.Fine pixels to the inch.
func Paper(page *ink.Page, book *words.Book, d *Data) paper.Print {
	return paper.Print{Page: page, DPI: paper.Fine, Title: book.Say(tell.ReportFileTitle(d.Pupil)), About: book.Say(words.T("report.file-about")), Language: book.Code(), Date: d.Date}
}

// say writes a text out. A dot stands in place of each character that the face cannot draw; marks that go with a letter are left out.
func (k *pen) say(t words.Text) string {
	return strings.Map(func(r rune) rune {
		if _, bad := ink.Missing(string(r), ink.Bold); !bad {
			return r
		}
		k.undrawn = true
		if r == '\u200c' || r == '\u200d' || r >= 0xfe00 && r <= 0xfe0f {
			return -1
		}
		return '·'
	}, k.book.Say(t))
}

func (k *pen) sayAll(all []words.Text) []string {
	out := make([]string, len(all))
	for i, t := range all {
		out[i] = k.say(t)
	}
	return out
}

// all draws everything; whole is false where drills had to be left out or their names cut.
func (k *pen) all() (whole bool) {
	for i := range k.d.Rows {
		k.say(k.d.Rows[i].name()) // so that the foot knows
	}
	r := k.hand(k.foot(k.head(k.Bounds().Inset(margin * k.u))))
	gap := k.size * 1.2
	table, _ := r.CutTop(r.H-2*(plotLeast*k.u+gap), 0)
	away := *k
	away.Page = ink.NewPage(k.W, k.H, k.Scale, k.Theme)
	tall := away.table(table).Y - table.Y
	high := min((r.H-tall-2*gap)/2, plotMost*k.u)
	times, r := r.CutTop(high, gap)
	k.reaction(times)
	rest, r := r.CutTop(high, gap)
	var buf [2]ink.Rect
	both := rest.Columns(buf[:0], k.size*2, ink.Share(43, 0), ink.Share(57, 0))
	k.stood(k.heading("stood", both[0], words.T("report.mastered")))
	k.refused(k.heading("refused", both[1], words.T("report.refused")))
	table.Y = r.Y
	k.table(table)
	return !k.short
}

// below writes a text in at most so many lines (0: all) at the top of a place, and gives what is left under it; an empty one takes no room.
func (k *pen) below(r ink.Rect, name, text string, lines int, s ink.Style) ink.Rect {
	if text == "" {
		return r
	}
	h, _ := k.Block(name, r.X, r.Y, s, ink.Block{Width: r.W, MaxLines: lines, Shorten: lines > 0}, text)
	_, r = r.CutTop(h, 0)
	return r
}

// above writes a text whole at the foot of a place, and gives what is left over it.
func (k *pen) above(r ink.Rect, name, text string, s ink.Style, gap float64) ink.Rect {
	lines, _ := ink.CountLines(text, r.W, s.Size, s.Weight)
	foot, r := r.CutBottom(ink.BlockHeight(s.Size, lines), gap)
	k.below(foot, name, text, 0, s)
	return r
}

// head writes what the page is, whose, of which days, and the sentences.
func (k *pen) head(r ink.Rect) ink.Rect {
	k.Group("head")
	head := math.Floor(k.size * 1.15)
	if !k.d.Date.IsZero() {
		k.Text("date", r.Right(), r.Y, ink.Style{Size: head, Anchor: ink.Right | ink.Top}, k.say(tell.Day(k.d.Date)))
	}
	r = k.below(r, "report", k.say(words.T("report.title")), 1, ink.Style{Size: head, Weight: ink.Bold, Colour: ink.Faint})
	name := k.say(words.AsIs(k.d.Pupil))
	size, _ := ink.Fit(r.W, k.size*1.3, k.size*2.3, ink.Bold, name)
	r = k.below(r, "pupil", name, 1, ink.Style{Size: size, Weight: ink.Bold})
	r = k.below(r, "span", k.say(k.d.span()), 1, ink.Style{Size: k.size, Weight: ink.Bold})
	_, r = r.CutTop(k.u, 0)
	r = k.below(r, "sentences", k.say(k.d.sentences()), 5, ink.Style{Size: k.size})
	_, r = r.CutTop(3*k.u, 0)
	k.Line("head-rule", r.X, r.Y, r.Right(), r.Y, ink.Paint{Line: ink.Ink, Width: 1.2 * k.u})
	_, r = r.CutTop(6*k.u, 0)
	return r
}

// foot writes the caution and who made the page.
func (k *pen) foot(r ink.Rect) ink.Rect {
	k.Group("foot")
	made := words.T("report.made", words.Args{"version": words.Quote(k.d.Program)})
	if k.undrawn {
		made = words.Row(words.T("report.undrawn"), made)
	}
	r = k.above(r, "made", k.say(made), ink.Style{Size: k.small, Colour: ink.Faint}, 0)
	r = k.above(r, "caution", k.say(tell.ReportCaution()), ink.Style{Size: k.small, Weight: ink.Bold}, 4*k.u)
	k.Line("foot-rule", r.X, r.Bottom(), r.Right(), r.Bottom(), ink.Paint{Line: ink.Ink, Width: 0.8 * k.u})
	_, r = r.CutBottom(8*k.u, 0)
	return r
}

// heading writes a heading with a thin rule to the right edge and gives what is left under it.
func (k *pen) heading(group string, r ink.Rect, t words.Text) ink.Rect {
	k.Group(group)
	box := k.Text("heading", r.X, r.Y, ink.Style{Size: k.size, Weight: ink.Bold, Anchor: ink.Top, Colour: ink.Faint}, k.say(t))
	if from := box.Right() + 4*k.u; from < r.Right() {
		mid := box.Y + box.H*0.55
		k.Line("heading-rule", from, mid, r.Right(), mid, ink.Paint{Line: ink.Rule, Width: 0.5 * k.u})
	}
	_, r = r.CutTop(ink.BlockHeight(k.size, 1), 2*k.u)
	return r
}
