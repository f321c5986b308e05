package sheet

import (
	"math"
	"slices"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// stickModes draws the four stick modes to choose from by number or click: in each both hands, their sticks as they stand now.
func (b *board) stickModes(r ink.Rect) {
	b.Group("stick modes")
	columns, rows := 2, 2
	if r.W > 4.2*r.H {
		columns, rows = 4, 1
	}
	for mode := 1; mode <= 4; mode++ {
		cell := r.Cell(mode-1, columns, rows, 6*b.u)
		paint := ink.Paint{Line: ink.Rule}
		if mode == b.v.Learn.StickMode {
			paint = ink.Paint{Line: ink.Ink, Width: 3 * b.u}
		}
		b.RoundRect("picture", cell, 5*b.u, paint)
		digit := strconv.Itoa(mode)
		b.Hit(picturePrefix+digit, digit, cell)
		in := cell.Inset(5 * b.u)
		head, in := in.CutTop(b.cap+2*b.u, 2*b.u)
		b.keyCap("picture key", head.X+b.cap/2, head.Centre().Y, b.cap, digit)
		b.fitted("picture title", ink.Rect{X: head.X + b.cap + 6*b.u, Y: head.Y, W: head.W - b.cap - 6*b.u, H: head.H}, ink.Style{Size: b.small, Weight: ink.Bold}, phrase.StickModeTitle(mode))
		for i, g := range gimbals[mode] {
			b.hand(in.Cell(i, 2, 1, 4*b.u), g, i == 1)
		}
	}
}

// hand draws what one hand carries: its stick as it stands now, and the job of each of its directions.
func (b *board) hand(r ink.Rect, g gimbal, right bool) {
	line := ink.BlockHeight(b.small, 1)
	name := ink.Rect{X: r.X, Y: r.Y, W: r.W}
	if !b.v.Class { // from afar the picture itself tells
		name, r = r.CutTop(line, 0)
	}
	up, r := r.CutTop(line, b.u)
	across, r := r.CutBottom(line, b.u)
	style := func(within ink.Rect) ink.Style {
		return ink.Style{Size: b.small, Anchor: ink.Centre | ink.Middle, Within: within}
	}
	if name.H > 0 {
		faint := style(name)
		faint.Colour = ink.Faint
		b.Text("hand", name.Centre().X, name.Centre().Y, faint, phrase.HandTitle(right))
	}
	b.Text("up job", up.Centre().X, up.Centre().Y, style(up), jobFacts[g.up].word)
	b.Text("across job", across.Centre().X, across.Centre().Y, style(across), jobFacts[g.across].word)
	if min(r.W, r.H) > 16*b.u {
		b.handStick(r.Square(), g, false)
	}
}

// handStick draws one stick in its well where it stands now; goal draws the corner that it is to come to.
func (b *board) handStick(well ink.Rect, g gimbal, goal bool) {
	b.RoundRect("stick well", well, min(8*b.u, well.W*0.15), ink.Paint{Line: ink.Rule, Width: 1.2 * b.u})
	in := well.Inset(max(5*b.u, well.W*0.1))
	at, there := in.Centre(), true
	for _, c := range b.v.Learn.Corners {
		switch s := clamp(float64(c.Share)/1000, 0, 1); c.Job {
		case jobFacts[g.up].word:
			at.Y = in.Bottom() - in.H*s
			there = there && c.There
		case jobFacts[g.across].word:
			at.X = in.X + in.W*s
			there = there && c.There
		}
	}
	if goal {
		d := in.W * 0.2
		b.zone("corner zone", ink.Rect{X: well.Right() - d - (well.W-in.W)/2, Y: well.Y + 3*b.u, W: d + (well.W-in.W)/2 - 3*b.u, H: d + (well.H-in.H)/2 - 3*b.u}, there)
	}
	c := well.Centre()
	b.Line("stick", c.X, c.Y, at.X, at.Y, ink.Paint{Line: ink.Ink, Width: 2.5 * b.u})
	b.Circle("stick end", at.X, at.Y, max(4*b.u, well.W*0.045), ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.u})
}

// through draws the positions of the switch that moves, and what was found of the further controls.
func (b *board) through(r ink.Rect) {
	l := &b.v.Learn
	first := len(l.Answers)
	for i := range l.Answers {
		if l.Question == learn.More && first == len(l.Answers) && b.v.numbered(l.Answers[i].Job) {
			first = i
		}
	}
	if n := min(len(l.Answers)-first, 8); n > 0 && !b.v.Class {
		need := float64(n) * (ink.BlockHeight(b.small, 1) + 2*b.u)
		if r.H-need > 90*b.u {
			var list ink.Rect
			list, r = r.CutBottom(need, b.gap)
			b.Group("further")
			for i := range n {
				c := &l.Answers[len(l.Answers)-n+i]
				b.fitted("further", list.Cell(i, 1, n, 0), ink.Style{Size: b.small}, c.Job+": "+phrase.LearnedInFull(c))
			}
		}
	}
	b.Group("lever")
	r = b.section(r, "lever heading", phrase.LeverTitle())
	key, r := r.CutBottom(ink.BlockHeight(b.small, 1), 4*b.u)
	b.zoneKey(key)
	b.placesSeen(r)
}

// numbered tells whether a job is a channel by number that no question of the plan asked for.
func (v *View) numbered(job string) bool {
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
	l := &b.v.Learn
	slot := ink.Rect{W: min(r.W*0.4, 130*b.u, r.H*0.6), Y: r.Y + 4*b.u, H: r.H - 8*b.u}
	slot.X = r.Centre().X - slot.W/2
	if slot.H < 50*b.u {
		return
	}
	zone := clamp(slot.H*0.16, 12*b.u, 40*b.u)
	at := func(share float64) float64 {
		return slot.Bottom() - zone/2 - (slot.H-zone)*clamp(share, 0, 1)
	}
	b.RoundRect("slot", slot, 10*b.u, ink.Paint{Line: ink.Rule, Width: 1.4 * b.u})
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
	word := func(name string, y float64, words string) {
		b.Text(name, slot.Right()+8*b.u, y, ink.Style{Size: b.small, Colour: ink.Faint, Anchor: ink.Middle}, words)
	}
	for _, p := range places {
		b.Line("lever place", slot.X, at(p), slot.X+slot.W*0.24, at(p), ink.Paint{Line: ink.Ink, Width: 3 * b.u})
		b.Line("lever place", slot.Right()-slot.W*0.24, at(p), slot.Right(), at(p), ink.Paint{Line: ink.Ink, Width: 3 * b.u})
	}
	if !knob {
		word("lever first", at(first), phrase.FirstPlace(l.Question == learn.Arm))
	}
	for _, end := range [2]float64{1, 0} { // away from where it stood at first; from its middle to both sides
		if !knob && math.Abs(end-first) < 0.35 {
			continue
		}
		z := ink.Rect{X: slot.X + 4*b.u, Y: at(end) - zone/2 + 4*b.u, W: slot.W - 8*b.u, H: zone - 8*b.u}
		b.zone("lever zone", z, live >= 0 && math.Abs(live-end) < 0.1)
		if !knob {
			word("lever last", at(end), phrase.LastPlace())
		}
	}
	if live >= 0 {
		w := slot.W * 0.44
		b.RoundRect("lever now", ink.Rect{X: slot.Centre().X - w/2, Y: at(live) - 7*b.u, W: w, H: 14 * b.u}, 4*b.u, ink.Paint{Fill: ink.Focus, Line: ink.Focus})
	}
}

// cornersCheck draws both sticks where they stand with the corners that they are to come to, and tells how far each direction is.
func (b *board) cornersCheck(r ink.Rect) {
	b.Group("corners")
	l := &b.v.Learn
	line := ink.BlockHeight(b.body, 1) + 2*b.u
	if !b.v.Class {
		key, rest := r.CutBottom(ink.BlockHeight(b.small, 1), 4*b.u)
		b.zoneKey(key)
		r = rest
	}
	for i, g := range gimbals[stickMode(l.StickMode)] {
		cell := r.Cell(i, 2, 1, b.gap)
		size := min(cell.W, cell.H-3*line-6*b.u)
		_, cell = cell.CutTop((cell.H-size-3*line-6*b.u)*0.3, 0)
		name, cell := cell.CutTop(line, 2*b.u)
		b.Text("hand", cell.Centre().X, name.Centre().Y, ink.Style{Size: b.body, Colour: ink.Faint, Anchor: ink.Centre | ink.Middle}, phrase.HandTitle(i == 1))
		well, words := cell.CutTop(size, 4*b.u)
		words.H = 2 * line
		b.handStick(ink.Rect{X: well.Centre().X - size/2, Y: well.Y, W: size, H: size}, g, true)
		for k, j := range [2]job{g.up, g.across} {
			at := slices.IndexFunc(l.Corners, func(c learn.Corner) bool { return c.Job == jobFacts[j].word })
			if at >= 0 {
				b.cornerRow(words.Cell(k, 1, 2, 0), l.Corners[at], jobFacts[j].word)
			}
		}
	}
}

// cornerRow is one direction: in the corner, at its wrong end, or how far it is.
func (b *board) cornerRow(r ink.Rect, c learn.Corner, name string) {
	mark := ink.Point{X: r.X + 9*b.u, Y: r.Centre().Y}
	style := ink.Style{Size: b.body}
	switch {
	case c.There:
		b.tick("corner there", mark)
		style.Weight = ink.Bold
	case c.Turned:
		b.warning(r.X+3*b.u, mark.Y)
		style.Weight = ink.Bold
	default:
		b.Circle("corner open", mark.X, mark.Y, 4*b.u, ink.Paint{Line: ink.Faint, Width: 1.2 * b.u})
	}
	b.fitted("corner", ink.Rect{X: r.X + 22*b.u, Y: r.Y, W: r.W - 22*b.u, H: r.H}, style, phrase.CornerWords(name, c))
}

// onceMore lists every control and ticks off those that have moved once more.
func (b *board) onceMore(r ink.Rect) {
	b.Group("replay")
	all := b.v.Learn.Replayed
	seen := 0
	for i := range all {
		if all[i].Seen {
			seen++
		}
	}
	if b.v.Class && !b.tall {
		right, left := r.CutRight(r.W*0.45, b.gap)
		b.radioDrawing(right)
		r = left
		b.Group("replay")
	}
	r = b.section(r, "replay heading", phrase.ReplayTitle(seen, len(all)))
	if len(all) == 0 {
		return
	}
	least := ink.BlockHeight(b.small, 1) + 3*b.u
	columns := 1
	for columns < 3 && (least+6*b.u)*float64((len(all)+columns-1)/columns) > r.H {
		columns++
	}
	rows := (len(all) + columns - 1) / columns
	height := min(26*b.u, max(r.H/float64(rows), least))
	size := b.head
	if height < ink.BlockHeight(b.head, 1)+2*b.u || columns > 1 {
		size = b.small
	}
	area := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: height * float64(rows)}
	for i := range all {
		cell := area.Cell(i/rows+i%rows*columns, columns, rows, 0)
		c := ink.Point{X: cell.X + 8*b.u, Y: cell.Centre().Y}
		style := ink.Style{Size: size, Colour: ink.Ink}
		if all[i].Seen {
			b.tick("replayed", c)
			style.Colour = ink.Faint
		} else {
			b.Circle("to replay", c.X, c.Y, 4*b.u, ink.Paint{Line: ink.Ink, Width: 1.2 * b.u})
		}
		text := all[i].Job
		if k := b.v.answer(all[i].Job); k != nil && columns == 1 {
			text += ": " + phrase.Learned(k)
			if where := phrase.Side(k.Side); k.Side != radio.NoSide {
				text += ", " + where
			}
		}
		b.fitted("replay", ink.Rect{X: cell.X + 20*b.u, Y: cell.Y, W: cell.W - 24*b.u, H: cell.H}, style, text)
	}
	_, r = r.CutTop(area.H, b.gap)
	b.restRadio(r)
}
