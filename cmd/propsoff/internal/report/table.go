package report

import (
	"math"
	"strconv"
	"strings"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
)

// oneColumn is the most rows that stand under one another over the whole width (ours).
const oneColumn = 10

// columns are those behind the name.
const columns = 5

func (k *pen) rowHeight() float64 { return math.Ceil(k.size * 1.32) }

// run are the drills that were run, the others those that were not.
func (k *pen) run() (run []Row) {
	for _, w := range k.d.Rows {
		if w.Runs > 0 {
			run = append(run, w)
		}
	}
	return run
}

// notYet names the drills of which no run came to its end; empty where one of each did.
func (k *pen) notYet() string {
	var names []string
	for _, w := range k.d.Rows {
		if w.Runs == 0 {
			name := w.Name
			if ink.Width(name, k.size, ink.Regular) < k.W/2 { // stays in one line
				name = strings.ReplaceAll(name, " ", "\u00a0")
			}
			names = append(names, name)
		}
	}
	return k.drawn(phrase.ReportNotYet(names))
}

// notYetMost is the most lines that name drills not run to the end yet (ours).
const notYetMost = 9

func (k *pen) notYetLines(w float64) int {
	lines, _ := ink.CountLines(k.notYet(), w, k.small, ink.Regular)
	return min(lines, notYetMost)
}

// tableRows chooses the rows that a table of at most so many pixels can hold, and gives its height.
func (k *pen) tableRows(w, room float64) (rows []Row, tall float64) {
	all := k.run()
	tall = ink.BlockHeight(k.size, 1) + 2*k.u
	if n := k.notYetLines(w); n > 0 {
		tall += ink.BlockHeight(k.small, n) + 4*k.u
	}
	if len(all) == 0 {
		return nil, tall + ink.BlockHeight(k.size, 1)
	}
	tall += k.rowHeight()
	deep := max(2, int((room-tall)/k.rowHeight()))
	n := len(all)
	if n > oneColumn || n > deep {
		n = (n + 1) / 2
	}
	if n <= deep {
		return all, tall + float64(n)*k.rowHeight()
	}
	return all[:2*(deep-1)], tall + float64(deep)*k.rowHeight() // a row for the words on what is left out
}

// table draws the drills that were run one by one, in two columns where there are many, and names the others.
func (k *pen) table(r ink.Rect, rows []Row) {
	r = k.heading("drills", r, phrase.ReportDrills())
	left := len(k.run()) - len(rows)
	deep := len(rows)
	switch {
	case len(rows) == 0:
		k.Text("nothing", r.X, r.Y, ink.Style{Size: k.size, Anchor: ink.Top}, phrase.ReportNoDrills())
	case len(rows) <= oneColumn && left == 0 && float64(1+len(rows))*k.rowHeight() <= r.H+1:
		k.rows(r, rows, phrase.ReportColumns(), k.size)
	default:
		deep = (len(rows) + 1) / 2
		k.rows(r.Cell(0, 2, 1, k.size*2), rows[:deep], phrase.ReportColumns(), k.small)
		k.rows(r.Cell(1, 2, 1, k.size*2), rows[deep:], phrase.ReportColumns(), k.small)
	}
	if left > 0 {
		y := r.Y + float64(deep+1)*k.rowHeight()
		k.Text("more", r.X, y, ink.Style{Size: k.small, Anchor: ink.Top, Colour: ink.Faint}, phrase.ReportMore(left))
	}
	if n := k.notYetLines(r.W); n > 0 {
		y := r.Bottom() - ink.BlockHeight(k.small, n)
		k.Block("not yet", r.X, y, ink.Style{Size: k.small}, ink.Block{Width: r.W, MaxLines: notYetMost, Shorten: true}, k.notYet())
	}
}

// cells are the figures of a row behind its name.
func (w *Row) cells() [columns]string {
	c := [columns]string{columns - 1: phrase.ReportStands(&w.Card)}
	if w.Runs == 0 {
		return c
	}
	c[0], c[1], c[2] = strconv.Itoa(w.Runs), phrase.ReportOf(w.Right, w.Tries), strconv.Itoa(w.FalseStarts)
	if w.Times > 0 {
		c[3] = phrase.ReportSeconds(w.Median)
	}
	return c
}

// rows draws one column of the table.
func (k *pen) rows(r ink.Rect, rows []Row, names []string, size float64) {
	gap := size * 0.8
	var wide [columns]float64
	for i := range wide {
		wide[i] = ink.Width(names[i+1], size, ink.Regular)
		for j := range rows {
			wide[i] = math.Max(wide[i], ink.Width(rows[j].cells()[i], size, ink.Bold))
		}
	}
	rest := r.W
	for _, w := range wide {
		rest -= w + gap
	}
	line := func(y float64, name string, cells [columns]string, bold bool, colour ink.Role) {
		base := y + k.rowHeight()*0.72
		style := ink.Style{Size: size, Colour: colour}
		name = k.drawn(name)
		k.short = k.short || ink.Width(name, size, ink.Regular) > rest
		k.Block("drill", r.X, base-ink.Ascent(size, ink.Regular), style, ink.Block{Width: rest, MaxLines: 1, Shorten: true}, name)
		x := r.X + rest
		for i, c := range cells {
			s := style
			if x += gap; i < len(cells)-1 {
				s.Anchor = ink.Right
				k.Text("cell", x+wide[i], base, s, c)
			} else {
				if bold {
					s.Weight = ink.Bold
				}
				k.Text("cell", x, base, s, c)
			}
			x += wide[i]
		}
	}
	line(r.Y, names[0], [columns]string(names[1:]), false, ink.Faint)
	k.Line("table rule", r.X, r.Y+k.rowHeight(), r.Right(), r.Y+k.rowHeight(), ink.Paint{Line: ink.Rule, Width: 0.5 * k.u})
	for i := range rows {
		w := &rows[i]
		line(r.Y+float64(i+1)*k.rowHeight(), w.Name, w.cells(), w.Card.Mastered(), ink.Ink)
	}
}
