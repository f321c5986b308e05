package figure

import (
	"math"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim/happening"
)

// lane is one strip of the chart paper.
type lane struct {
	name    string
	r       ink.Rect
	channel int // −1 for none
	pen     ink.Role
	steps   bool // a switch: drawn as steps
	axis    int  // 1 roll, 2 pitch, 3 yaw: asked and done as a band; 0 for none
	wide    float64
}

// Chart draws the chart paper: time runs down the page, the newest at the top.
func (b *Board) Chart(r ink.Rect) {
	b.Group("chart")
	title, part, wide := words.T("sheet.chart"), 0.5, 320.0
	air := b.V.Snap.In.Air
	if air {
		title, part, wide = words.T("flight.chart-title"), 0.55, 440
	}
	rest := b.SectionOf(r, "chart-heading", title, words.T("sheet.chart"), words.T("sheet.chart-short"))
	line := b.RowHeight()
	head, paper := rest.CutTop(2*line+2*b.U, 2*b.U)
	paper.H -= 2 * b.U

	// Seconds, lanes, margin notes.
	seconds := 6*b.U + max(ink.Width(b.Say(tell.Seconds(live.ChartTicks)), b.Small, ink.Regular), ink.Width(b.Say(words.T("sheet.now")), b.Small, ink.Regular))
	room := ui.Clamp((r.W-seconds)*part, 110*b.U, wide*b.U)
	c := &b.V.Config.Layout
	lanes := []lane{
		{name: "throttle", channel: int(c.Throttle), pen: ink.Throttle, wide: 5}, {name: "yaw", channel: int(c.Yaw), pen: ink.Yaw, wide: 5},
		{name: "pitch", channel: int(c.Pitch), pen: ink.Pitch, wide: 5}, {name: "roll", channel: int(c.Roll), pen: ink.Roll, wide: 5},
		{name: "arm", channel: int(c.Arm), pen: ink.Ink, steps: true, wide: 3}, {name: "mode", channel: int(c.Mode), pen: ink.Ink, steps: true, wide: 3.6},
		{name: "link", channel: -1, pen: ink.Ink, wide: 2.4},
	}
	if air { // what came of the stick is told instead of the stick
		lanes[1].axis, lanes[2].axis, lanes[3].axis = 3, 2, 1
		lanes[1].wide, lanes[2].wide, lanes[3].wide = 6, 7, 7
	}
	x := b.placeLanes(ink.Rect{X: paper.X + seconds, Y: paper.Y, W: room, H: paper.H}, lanes)
	b.TimeMarks(ink.Rect{X: paper.X + seconds - 4*b.U, Y: paper.Y, W: x - paper.X - seconds + b.U, H: paper.H}, live.ChartTicks/1000)
	for i := range lanes {
		if lanes[i].channel >= 0 || !lanes[i].steps {
			b.laneHead(head, &lanes[i], i, line)
		}
	}
	b.armedBand(paper, x-3*b.U)
	b.Text("lane-armed", x-2*b.U, head.Y+line, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Armed, Anchor: ink.Top}, b.Say(words.T("sheet.armed-bar")))
	for i := range lanes {
		switch l := &lanes[i]; {
		case l.name == "link":
			b.linkLane(l)
		case l.axis > 0:
			b.followed(l)
		case l.channel >= 0:
			b.penLine(l)
		}
	}
	b.savedLine(paper, lanes[0].r.X, x)
	b.notes(ink.Rect{X: x + 15*b.U, Y: paper.Y, W: r.Right() - x - 15*b.U, H: paper.H})
}

// placeLanes places lanes side by side on a paper in proportion to how wide they are to be, wider where the name of one would meet that of the
// next but one, which stands in the same line, or the last but one's the word beside the lanes; it gives where they end.
func (b *Board) placeLanes(paper ink.Rect, lanes []lane) (x float64) {
	all, half := 0.0, make([]float64, len(lanes))
	for i := range lanes {
		all += lanes[i].wide
		half[i] = ink.Width(b.Say(lanes[i].word()), b.Small, ink.Bold) / 2
	}
	for i := range lanes {
		lanes[i].wide *= paper.W / all
	}
	n := len(lanes) - 1
	for i := 1; i < n; i++ {
		lanes[i].wide = max(lanes[i].wide, half[i-1]+half[i+1]+2*b.U-(lanes[i-1].wide+lanes[i+1].wide)/2)
	}
	lanes[n].wide = max(lanes[n].wide, half[n-1]-lanes[n-1].wide/2+4*b.U)
	for i := range lanes {
		lanes[i].r = ink.Rect{X: paper.X, Y: paper.Y, W: lanes[i].wide - 4*b.U, H: paper.H}
		paper.X += lanes[i].wide
	}
	return paper.X
}

// word names the lane, with a mark behind it where another name follows in its line.
func (l *lane) word() words.Text {
	if l.channel < 0 {
		return tell.Group(facts.OnLink)
	}
	return words.T("sheet.lane", words.Args{"name": tell.JobName(l.name)})
}

// depth is the y of a tick on the paper. The paper moves by whole pixels, so what was drawn keeps its look while it moves down; and what
// is no further from an end than the paper moves at once stands at that end, so that a pen that stands looks the same as time goes on.
func (b *Board) depth(paper ink.Rect, tick int64) float64 {
	at := func(ticks int64) float64 { return paper.H * float64(ticks) / live.ChartTicks }
	y, once := math.Floor(at(b.V.Snap.Tick))-at(tick), 1+at(live.PointTicks)
	switch {
	case y < once:
		y = 0
	case y > paper.H-once:
		y = paper.H
	}
	return paper.Y + y
}

// TimeMarks marks across chart paper of so many seconds how long ago what is drawn was, the words at its left.
func (b *Board) TimeMarks(paper ink.Rect, seconds int) {
	every := seconds
	for _, n := range [...]int{seconds / 2, 2} {
		if paper.H*float64(n)/float64(seconds) > 1.6*ink.LineHeight(b.Small) {
			every = n
		}
	}
	for s := 0; s <= seconds; s += every {
		y := paper.Y + paper.H*float64(s)/float64(seconds)
		b.Line("time-mark", paper.X, y, paper.Right(), y, ink.Paint{Line: ink.Grid, Under: true})
		word, anchor := tell.Seconds(int64(s)*1000), ink.Right|ink.Middle
		switch s {
		case 0:
			word, anchor = words.T("sheet.now"), ink.Right|ink.Top
		case seconds:
			anchor = ink.Right | ink.Bottom
		}
		b.Text("time-mark-word", paper.X-3*b.U, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: anchor}, b.Say(word))
	}
}

// laneHead names a lane, every second one a line lower, so that the names have room.
func (b *Board) laneHead(head ink.Rect, l *lane, i int, line float64) {
	y := head.Y
	if i%2 == 1 {
		y += line
	}
	b.Text("lane "+l.name, l.r.Centre().X, y, ink.Style{Size: b.Small, Anchor: ink.Centre | ink.Top, Weight: ink.Bold, Colour: l.pen}, b.Say(l.word()))
	x := l.r.X - 2*b.U
	b.Line(l.name+" edge", x, l.r.Y, x, l.r.Bottom(), ink.Paint{Line: ink.Grid})
}

// notes writes what happened in the last ten seconds beside its moment, whole: a note cut short says nothing. The newest stand at the top;
// a note that finds its place taken is pushed down, and one that would run off the paper stands higher. Those for which there is no room
// are counted in one line: kept chooses.
func (b *Board) notes(r ink.Rect) {
	v := b.V
	v.Lines = v.Lines[:0]
	one, gap, need := ink.BlockHeight(b.Small, 1), 3*b.U, 0.0
	add := func(tick int64, text words.Text, tells bool) {
		n := ui.Note{At: b.depth(r, tick), Text: b.Say(text), Tells: tells}
		n.Lines, _ = ink.CountLines(n.Text, r.W, b.Small, ink.Regular)
		v.Lines = append(v.Lines, n)
		need += ink.BlockHeight(b.Small, n.Lines) + gap
	}
	mark, marked := b.savedMark()
	for i := len(v.Happenings) - 1; i >= 0; i-- {
		h := v.Happenings[i]
		if marked && h.Tick <= mark {
			marked = false
			add(mark, tell.SavedAt(v.Flight.Wreck.Found, mark), true)
		}
		if h.Tick < v.Snap.Tick-live.ChartTicks {
			break
		}
		if h.Tick <= v.Snap.Tick {
			add(h.Tick, tell.Note(h, v.Config), h.Code == happening.Armed || h.Code == happening.Disarmed)
		}
	}
	if marked {
		add(mark, tell.SavedAt(v.Flight.Wreck.Found, mark), true)
	}
	left, oldest := 0, r.Bottom()
	if need -= gap; need > r.H {
		oldest = v.Lines[len(v.Lines)-1].At
		v.Lines, need, left = b.kept(v.Lines, r.H-one, gap)
		need += one
	}
	y := r.Y
	for _, n := range v.Lines {
		h := ink.BlockHeight(b.Small, n.Lines)
		top := max(y, min(n.At-one/2, r.Bottom()-need))
		b.noteText(ink.Rect{X: r.X, Y: top, W: r.W, H: h}, n.At, n.Lines, n.Text)
		y, need = top+h+gap, need-h-gap
	}
	if left > 0 && y+one <= r.Bottom()+0.5 && ink.Width(b.Say(tell.AndMore(left)), b.Small, ink.Regular) <= r.W {
		b.noteText(ink.Rect{X: r.X, Y: y, W: r.W, H: one}, oldest, 1, b.Say(tell.AndMore(left)))
	}
}

// kept are the notes for which there is room: what was told last of arming before anything else, then the newest, as many as fit. It gives how high
// they are with the gaps behind them, and how many are left out.
func (b *Board) kept(all []ui.Note, room, gap float64) (kept []ui.Note, high float64, left int) {
	keep := make([]bool, len(all))
	take := func(i int) bool {
		h := ink.BlockHeight(b.Small, all[i].Lines) + gap
		if keep[i] = high+h <= room; keep[i] {
			high += h
		}
		return keep[i]
	}
	first := slices.IndexFunc(all, func(n ui.Note) bool { return n.Tells })
	if first >= 0 {
		take(first)
	}
	for i := range all {
		if i != first && !take(i) {
			break
		}
	}
	kept = all[:0]
	for i, n := range all {
		if keep[i] {
			kept = append(kept, n)
		}
	}
	return kept, high, len(all) - len(kept)
}

func (b *Board) noteText(r ink.Rect, at float64, lines int, text string) {
	mid := r.Y + ink.BlockHeight(b.Small, 1)/2
	x := r.X - 3*b.U
	b.Polyline("note-lead", []ink.Point{{X: x - 10*b.U, Y: at}, {X: x - 8*b.U, Y: at}, {X: x - 2*b.U, Y: mid}, {X: x, Y: mid}}, ink.Paint{Line: ink.Rule})
	b.Block("note", r.X, r.Y, ink.Style{Size: b.Small, Within: r}, ink.Block{Width: r.W, MaxLines: lines, Shorten: true}, text)
}
