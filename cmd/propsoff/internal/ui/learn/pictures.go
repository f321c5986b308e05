package learn

import (
	"math"
	"slices"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/handheld"
	"propsoff.example/input/learn"
)

// stickModes draws the four stick modes to choose from by number or click: in each both hands, their sticks as they stand now.
func (b *board) stickModes(r ink.Rect) {
	b.Group("stick-modes")
	columns, rows := 2, 2
	if r.W > 4.2*r.H {
		columns, rows = 4, 1
	}
	for mode := 1; mode <= 4; mode++ {
		cell := r.Cell(mode-1, columns, rows, 6*b.U)
		paint := ink.Paint{Line: ink.Rule}
		if mode == b.V.Learn.StickMode {
			paint = ink.Paint{Line: ink.Ink, Width: 3 * b.U}
		}
		b.RoundRect("picture", cell, 5*b.U, paint)
		digit := strconv.Itoa(mode)
		b.Hit(picturePrefix+digit, digit, cell)
		in := cell.Inset(5 * b.U)
		head, in := in.CutTop(b.Cap+2*b.U, 2*b.U)
		b.KeyCap("picture-key", head.X+b.Cap/2, head.Centre().Y, b.Cap, digit)
		b.Fitted("picture-title", ink.Rect{X: head.X + b.Cap + 6*b.U, Y: head.Y, W: head.W - b.Cap - 6*b.U, H: head.H}, ink.Style{Size: b.Small, Weight: ink.Bold}, b.Say(words.T("learn-title.stick-mode", words.Args{"mode": words.Whole(mode)})))
		for i, g := range figure.Gimbals[mode] {
			b.hand(in.Cell(i, 2, 1, 4*b.U), g, i == 1)
		}
	}
}

// hand draws what one hand carries: its stick as it stands now, and the job of each of its directions.
func (b *board) hand(r ink.Rect, g figure.Gimbal, right bool) {
	line := ink.BlockHeight(b.Small, 1)
	name := ink.Rect{X: r.X, Y: r.Y, W: r.W}
	if !b.V.Class { // from afar the picture itself tells
		name, r = r.CutTop(line, 0)
	}
	up, r := r.CutTop(line, b.U)
	across, r := r.CutBottom(line, b.U)
	style := func(within ink.Rect) ink.Style {
		return ink.Style{Size: b.Small, Anchor: ink.Centre | ink.Middle, Within: within}
	}
	if name.H > 0 {
		faint := style(name)
		faint.Colour = ink.Faint
		b.Text("hand", name.Centre().X, name.Centre().Y, faint, b.Say(tell.HandTitle(right)))
	}
	b.Text("up-job", up.Centre().X, up.Centre().Y, style(up), b.Say(tell.JobName(figure.JobFacts[g.Up].Word)))
	b.Text("across-job", across.Centre().X, across.Centre().Y, style(across), b.Say(tell.JobName(figure.JobFacts[g.Across].Word)))
	if min(r.W, r.H) > 16*b.U {
		r.Y, r.H = r.Y+2*b.U, r.H-2*b.U
		b.handStick(r.Square(), g, false)
	}
}

// handStick draws one stick in its well where it stands now; goal draws the corner that it is to come to.
func (b *board) handStick(well ink.Rect, g figure.Gimbal, goal bool) {
	b.RoundRect("stick-well", well, min(8*b.U, well.W*0.15), ink.Paint{Line: ink.Rule, Width: 1.2 * b.U})
	in := well.Inset(max(5*b.U, well.W*0.1))
	at, there := in.Centre(), true
	for _, c := range b.V.Learn.Corners {
		switch s := ui.Clamp(float64(c.Share)/1000, 0, 1); c.Job {
		case figure.JobFacts[g.Up].Word:
			at.Y = in.Bottom() - in.H*s
			there = there && c.There
		case figure.JobFacts[g.Across].Word:
			at.X = in.X + in.W*s
			there = there && c.There
		}
	}
	if goal {
		d := in.W * 0.2
		b.zone("corner-zone", ink.Rect{X: well.Right() - d - (well.W-in.W)/2, Y: well.Y + 3*b.U, W: d + (well.W-in.W)/2 - 3*b.U, H: d + (well.H-in.H)/2 - 3*b.U}, there)
	}
	c := well.Centre()
	b.Line("stick", c.X, c.Y, at.X, at.Y, ink.Paint{Line: ink.Ink, Width: 2.5 * b.U})
	b.Circle("stick-end", at.X, at.Y, max(4*b.U, well.W*0.045), ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.U})
}

// through draws the positions of the switch that moves, and what was found of the further controls.
func (b *board) through(r ink.Rect) {
	l := &b.V.Learn
	first := len(l.Answers)
	for i := range l.Answers {
		if l.Question == learn.More && first == len(l.Answers) && numbered(b.V, l.Answers[i].Job) {
			first = i
		}
	}
	n := min(len(l.Answers)-first, 8)
	if need := float64(n) * (ink.BlockHeight(b.Small, 1) + 2*b.U); n > 0 && !b.V.Class && r.H-need > 90*b.U {
		var list ink.Rect
		list, r = r.CutBottom(need, b.Gap)
		b.Group("further")
		for i := range n {
			c, s := &l.Answers[len(l.Answers)-n+i], ink.Style{Size: b.Small}
			b.Fitted("further", list.Cell(i, 1, n, 0), s, b.FirstFit(list.W, s, tell.LearnedLine(c, false), tell.LearnedLine(c, true)))
		}
	}
	if r.H > 300*b.U && !b.V.Class && len(b.V.Handset.Controls) > 4 { // what was found so far, where it sits
		var drawing ink.Rect
		drawing, r = r.CutBottom(r.H*0.44, b.Gap)
		b.RadioNow(drawing, func(d *handheld.Radio) {
			if c := lastFound(b.V); c != nil {
				d.Mark(c.Job, handheld.Chosen, -1)
			}
		})
	}
	b.Group("lever")
	r = b.Section(r, "lever-heading", b.Say(words.T("learn-title.lever")))
	key, r := r.CutBottom(ink.BlockHeight(b.Small, 1), 4*b.U)
	b.zoneKey(key)
	b.placesSeen(r)
}

// numbered tells whether a job is a channel by number that no question of the plan asked for.
func numbered(v *ui.View, job string) bool {
	for i := range v.Learn.Plan {
		if v.Learn.Plan[i].Job == job {
			return false
		}
	}
	return true
}

// placesSeen draws the switch as a slot: the positions seen so far, the zone of its last one, and where it stands now. Of buttons the
// first position is the lowest. A knob has a zone at each end and no positions.
func (b *board) placesSeen(r ink.Rect) {
	l := &b.V.Learn
	wide := 130 * b.U
	if b.V.Class {
		wide = 300 * b.U
	}
	slot := ink.Rect{W: min(r.W*0.4, wide, r.H*0.75), Y: r.Y + 4*b.U, H: r.H - 8*b.U}
	slot.X = r.Centre().X - slot.W/2
	if slot.H < 50*b.U {
		return
	}
	zone := ui.Clamp(slot.H*0.16, 12*b.U, 40*b.U)
	at := func(share float64) float64 {
		return slot.Bottom() - zone/2 - (slot.H-zone)*ui.Clamp(share, 0, 1)
	}
	b.RoundRect("slot", slot, 10*b.U, ink.Paint{Line: ink.Rule, Width: 1.4 * b.U})
	knob := l.Axis >= 0 && l.Positions == 0
	places := make([]float64, 0, len(l.Levels)+1)
	for _, level := range l.Levels {
		places = append(places, float64(level)/1000)
	}
	for n := max(l.Positions, 1); len(places) < n && len(l.Levels) == 0 && !knob; { // buttons, and before anything has moved: in equal steps
		places = append(places, float64(len(places))/float64(n))
	}
	live := -1.0
	switch {
	case l.Axis >= 0 && l.Shares[l.Axis] >= 0:
		live = float64(l.Shares[l.Axis]) / 1000
	case l.Button >= 0:
		live = places[len(places)-1]
	}
	first := 0.0
	if len(l.Levels) > 0 {
		first = float64(l.Start) / 1000
	}
	word := func(name string, y float64, t words.Text) {
		b.Text(name, slot.Right()+8*b.U, y, ink.Style{Size: b.Small, Colour: ink.Faint, Anchor: ink.Middle}, b.Say(t))
	}
	for _, p := range places {
		b.Line("lever-place", slot.X, at(p), slot.X+slot.W*0.24, at(p), ink.Paint{Line: ink.Ink, Width: 3 * b.U})
		b.Line("lever-place", slot.Right()-slot.W*0.24, at(p), slot.Right(), at(p), ink.Paint{Line: ink.Ink, Width: 3 * b.U})
	}
	if !knob {
		word("lever-first", at(first), words.T("learn-title.first-place", words.Args{"arm": words.Flag(l.Question == learn.Arm)}))
	}
	for _, end := range [2]float64{1, 0} { // away from where it stood at first; from its middle to both sides
		if !knob && math.Abs(end-first) < 0.35 {
			continue
		}
		z := ink.Rect{X: slot.X + 4*b.U, Y: at(end) - zone/2 + 4*b.U, W: slot.W - 8*b.U, H: zone - 8*b.U}
		b.zone("lever-zone", z, live >= 0 && math.Abs(live-end) < 0.1)
		if !knob {
			word("lever-last", at(end), words.T("learn-title.last-place"))
		}
	}
	if live >= 0 {
		w := slot.W * 0.44
		b.RoundRect("lever-now", ink.Rect{X: slot.Centre().X - w/2, Y: at(live) - 7*b.U, W: w, H: 14 * b.U}, 4*b.U, ink.Paint{Fill: ink.Focus, Line: ink.Focus})
	}
}

// corners draws both sticks where they stand with the corners that they are to come to, and tells how far each direction is.
func (b *board) corners(r ink.Rect) {
	b.Group("corners")
	l := &b.V.Learn
	line := ink.BlockHeight(b.Body, 1) + 2*b.U
	if !b.V.Class {
		key, rest := r.CutBottom(ink.BlockHeight(b.Small, 1), 4*b.U)
		b.zoneKey(key)
		r = rest
	}
	for i, g := range figure.Gimbals[ui.StickMode(l.StickMode)] {
		cell := r.Cell(i, 2, 1, b.Gap)
		size := min(cell.W, cell.H-3*line-6*b.U)
		_, cell = cell.CutTop((cell.H-size-3*line-6*b.U)*0.3, 0)
		name, cell := cell.CutTop(line, 2*b.U)
		b.Text("hand", cell.Centre().X, name.Centre().Y, ink.Style{Size: b.Body, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}, b.Say(tell.HandTitle(i == 1)))
		well, rows := cell.CutTop(size, 4*b.U)
		rows.H = 2 * line
		b.handStick(ink.Rect{X: well.Centre().X - size/2, Y: well.Y, W: size, H: size}, g, true)
		for k, j := range [2]figure.Job{g.Up, g.Across} {
			at := slices.IndexFunc(l.Corners, func(c learn.Corner) bool { return c.Job == figure.JobFacts[j].Word })
			if at >= 0 {
				b.cornerRow(rows.Cell(k, 1, 2, 0), l.Corners[at])
			}
		}
	}
}

// cornerRow is one direction: in the corner, at its wrong end, or how far it is.
func (b *board) cornerRow(r ink.Rect, c learn.Corner) {
	mark := ink.Point{X: r.X + 9*b.U, Y: r.Centre().Y}
	style := ink.Style{Size: b.Body}
	switch {
	case c.There:
		b.tick("corner-there", mark)
		style.Weight = ink.Bold
	case c.Turned:
		b.Warning(r.X+3*b.U, mark.Y)
		style.Weight = ink.Bold
	default:
		b.Circle("corner-open", mark.X, mark.Y, 4*b.U, ink.Paint{Line: ink.Faint, Width: 1.2 * b.U})
	}
	says := b.Say(tell.CornerWords(tell.JobName(c.Job), c))
	style.Size, _ = ink.Fit(r.W-22*b.U, b.Small, b.Body, style.Weight, says)
	b.Fitted("corner", ink.Rect{X: r.X + 22*b.U, Y: r.Y, W: r.W - 22*b.U, H: r.H}, style, says)
}
