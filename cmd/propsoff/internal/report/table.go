package report

import (
	"math"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// Bounds of the table of drills (ours).
const (
	// oneColumn is the most rows that stand under one another over the whole width.
	oneColumn = 10
	// notYetMost is the most lines that name drills not run to the end yet.
	notYetMost = 9
)

// table writes the drills that were run one by one, in two columns where there are many, and names the others; it gives what is left below. What
// has no room is counted, and the pen notes that it is short.
func (k *pen) table(r ink.Rect) ink.Rect {
	r = k.heading("drills", r, words.T("report.drills"))
	rows, notYet := k.run()
	lines, _ := ink.CountLines(notYet, r.W, k.small, ink.Regular)
	foot := ink.BlockHeight(k.small, min(lines, notYetMost)) + 4*k.u
	if len(rows) == 0 {
		r = k.below(r, "nothing", k.say(words.T("report.no-drills")), 1, ink.Style{Size: k.size})
	} else {
		high := math.Ceil(k.size * 1.32) // of a row
		deep, columns, left, size := max(2, int((r.H-foot)/high)-1), 1, 0, k.size
		if len(rows) > min(oneColumn, deep) {
			columns, size = 2, k.small
		}
		if len(rows) > columns*deep { // a row for the words on what is left out
			left = len(rows) - columns*(deep-1)
			rows = rows[:columns*(deep-1)]
		}
		n := (len(rows) + columns - 1) / columns
		for c := range columns {
			k.rows(r.Cell(c, columns, 1, k.size*2), high, rows[c*n:min((c+1)*n, len(rows))], size)
		}
		_, r = r.CutTop(float64(n+1)*high, 0)
		if left > 0 {
			k.short = true
			more, rest := r.CutTop(high, 0)
			k.below(more, "more", k.say(words.T("report.more", words.Args{"n": words.Count(left)})), 1, ink.Style{Size: k.small, Colour: ink.Faint})
			r = rest
		}
	}
	if notYet != "" {
		_, r = r.CutTop(4*k.u, 0)
	}
	return k.below(r, "not-yet", notYet, notYetMost, ink.Style{Size: k.small})
}

// run are the drills that were run; the others are named, those of which no run came to its end.
func (k *pen) run() (run []*Row, notYet string) {
	var names []words.Text
	for i := range k.d.Rows {
		w := &k.d.Rows[i]
		if w.Runs > 0 {
			run = append(run, w)
			continue
		}
		name := k.say(w.name())
		if ink.Width(name, k.size, ink.Regular) < k.W/2 { // stays in one line
			name = strings.ReplaceAll(name, " ", "\u00a0")
		}
		names = append(names, words.AsIs(name))
	}
	return run, k.say(tell.ReportNotYet(names))
}

// name is a drill's name.
func (w Row) name() words.Text { return tell.DrillText(w.Code, w.Name) }

// line is a row of the table: a drill's name, and its figures.
func (w Row) line() []words.Text {
	c := []words.Text{w.name(), {}, {}, {}, {}, tell.ReportStands(&w.Card)}
	if w.Runs > 0 {
		c[1], c[2], c[3] = count(w.Runs), words.T("report.of", words.Args{"n": words.Whole(w.Right), "of": words.Whole(w.Tries)}), count(w.FalseStarts)
	}
	if w.Times > 0 {
		c[4] = tell.ReportSeconds(w.Median)
	}
	return c
}

// rows writes a column of the table under its head, each row so high: names at the left, how a drill stands at the right, figures between.
func (k *pen) rows(r ink.Rect, high float64, rows []*Row, size float64) {
	lines := [][]string{k.sayAll(tell.ReportColumns())}
	for _, w := range rows {
		lines = append(lines, k.sayAll(w.line()))
	}
	ends := make([]float64, len(lines[0])) // the right edge of each column
	last := len(ends) - 1
	for x, i := r.Right(), last; i >= 0; i-- {
		ends[i] = x
		wide := ink.Width(lines[0][i], size, ink.Regular)
		for _, l := range lines[1:] {
			wide = math.Max(wide, ink.Width(l[i], size, ink.Bold))
		}
		x -= wide + size*0.8
		if i == last {
			ends[i] = x + size*0.8 // it is set left
		}
	}
	k.Line("table-rule", r.X, r.Y+high, r.Right(), r.Y+high, ink.Paint{Line: ink.Rule, Width: 0.5 * k.u})
	for n, l := range lines {
		base := r.Y + (float64(n)+0.72)*high
		style := ink.Style{Size: size}
		if n == 0 {
			style.Colour = ink.Faint
		}
		k.short = k.short || ink.Width(l[0], size, ink.Regular) > ends[0]-r.X
		k.Block("drill", r.X, base-ink.Ascent(size, ink.Regular), style, ink.Block{Width: ends[0] - r.X, MaxLines: 1, Shorten: true}, l[0])
		for i := 1; i < last; i++ {
			k.Text("cell", ends[i], base, ink.Style{Size: size, Colour: style.Colour, Anchor: ink.Right}, l[i])
		}
		if n > 0 && rows[n-1].Card.Mastered() {
			style.Weight = ink.Bold
		}
		k.Text("cell", ends[last], base, style, l[last])
	}
}
