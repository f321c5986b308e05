package sheet

import (
	"math"
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// stickModes draws the four stick modes to choose from by number or click.
func (b *board) stickModes(r ink.Rect) {
	b.Group("stick modes")
	columns, rows := 2, 2
	if r.W > 4.2*r.H {
		columns, rows = 4, 1
	}
	for mode := 1; mode <= 4; mode++ {
		cell := r.Cell(mode-1, columns, rows, 6*b.u)
		paint := ink.Paint{Line: ink.Grid}
		if mode == b.v.Learn.StickMode {
			paint = ink.Paint{Line: ink.Ink, Width: 1.6 * b.u}
		}
		b.RoundRect("picture", cell, 5*b.u, paint)
		digit := strconv.Itoa(mode)
		b.Hit(picturePrefix+digit, digit, cell)
		in := cell.Inset(4 * b.u)
		head, in := in.CutTop(b.cap+2*b.u, 2*b.u)
		b.keyCap("picture key", head.X+b.cap/2, head.Centre().Y, b.cap, digit)
		b.fitted("picture title", ink.Rect{X: head.X + b.cap + 6*b.u, Y: head.Y, W: head.W - b.cap - 6*b.u, H: head.H}, ink.Style{Size: b.small, Weight: ink.Bold}, phrase.StickModeTitle(mode))
		for i, g := range gimbals[mode] {
			b.modeStick(in.Cell(i, 2, 1, 4*b.u), g)
		}
	}
}

// modeStick draws one stick of a picture: its cross of arrows, the job of each written at it.
func (b *board) modeStick(r ink.Rect, g gimbal) {
	line := ink.BlockHeight(b.small, 1)
	up, r := r.CutTop(line, b.u)
	across, r := r.CutBottom(line, b.u)
	size := min(r.W, r.H)
	c := r.Centre()
	d := size * 0.46
	if d > 5*b.u {
		w := max(1.5*b.u, size*0.03)
		for _, to := range [4]ink.Point{{X: c.X, Y: c.Y - d}, {X: c.X, Y: c.Y + d}, {X: c.X - d, Y: c.Y}, {X: c.X + d, Y: c.Y}} {
			b.arrow("stick way", c, to, w)
		}
		if g.up == throttle { // it stays where it is left: a foot instead of a spring
			b.Line("throttle foot", c.X-d*0.35, c.Y+d, c.X+d*0.35, c.Y+d, ink.Paint{Line: ink.Ink, Width: w})
		}
	}
	style := ink.Style{Size: b.small, Anchor: ink.Centre | ink.Middle, Within: up}
	b.Text("up job", c.X, up.Centre().Y, style, jobFacts[g.up].word)
	style.Within = across
	b.Text("across job", c.X, across.Centre().Y, style, jobFacts[g.across].word)
}

// through draws the radio with its switches marked, the positions seen of the one that moves, and what was found of the
// further controls.
func (b *board) through(r ink.Rect) {
	l := &b.v.Learn
	lever, rest := r.CutRight(max(70*b.u, ink.Width(phrase.LeverTitle(), b.small, ink.Bold)+4*b.u), b.gap)
	b.placesSeen(b.section(lever, "lever heading", phrase.LeverTitle()))
	first := len(l.Answers)
	for i := range l.Answers {
		if l.Question == learn.More && first == len(l.Answers) && b.v.numbered(l.Answers[i].Job) {
			first = i
		}
	}
	if n := len(l.Answers) - first; n > 0 {
		rows := min(n, 8)
		need := float64(rows) * (ink.BlockHeight(b.small, 1) + 2*b.u)
		if rest.H-need > 70*b.u {
			var list ink.Rect
			list, rest = rest.CutBottom(need, b.gap)
			b.Group("further")
			for i := range rows {
				c := &l.Answers[len(l.Answers)-rows+i]
				b.fitted("further", list.Cell(i, 1, rows, 0), ink.Style{Size: b.small}, c.Job+": "+phrase.LearnedInFull(c))
			}
		}
	}
	b.radioDrawing(b.section(rest, "radio heading", phrase.RadioTitle(stickMode(l.StickMode))))
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

// placesSeen draws the positions that were seen of a switch, the first one lowest, and where its axis stands now.
func (b *board) placesSeen(r ink.Rect) {
	b.Group("lever")
	l := &b.v.Learn
	x := r.X + r.W*0.42
	top, bottom := r.Y+12*b.u, r.Bottom()-12*b.u
	if bottom-top < 30*b.u {
		return
	}
	b.Line("lever way", x, top, x, bottom, ink.Paint{Line: ink.Rule, Width: 2 * b.u, Under: true})
	at := func(share float64) float64 { return bottom - (bottom-top)*clamp(share, 0, 1) }
	live := -1.0
	if l.Axis >= 0 && l.Shares[l.Axis] >= 0 {
		live = float64(l.Shares[l.Axis]) / 1000
	}
	places := make([]float64, 0, len(l.Levels)+1)
	for _, level := range l.Levels {
		places = append(places, at(float64(level)/1000))
	}
	for n := max(l.Positions, 1); len(places) < n && len(l.Levels) == 0; { // buttons: in equal steps
		places = append(places, at(float64(len(places))/float64(max(n-1, 1))))
	}
	last := math.Inf(1)
	for i, y := range places {
		b.Line("lever place", x-7*b.u, y, x+7*b.u, y, ink.Paint{Line: ink.Ink, Width: 2.5 * b.u, Under: true})
		if last-y > ink.BlockHeight(b.small, 1) {
			b.Text("lever number", x+14*b.u, y, ink.Style{Size: b.small, Anchor: ink.Middle}, strconv.Itoa(i+1))
			last = y
		}
	}
	if live >= 0 {
		b.Circle("lever now", x-16*b.u, at(live), 5*b.u, ink.Paint{Fill: ink.Focus, Line: ink.Focus})
	}
}

// cornersCheck draws both sticks where they stand, and marks each direction that is at its high end.
func (b *board) cornersCheck(r ink.Rect) {
	b.Group("corners")
	l := &b.v.Learn
	share := func(j job) (learn.Corner, bool) {
		for _, c := range l.Corners {
			if c.Job == jobFacts[j].word {
				return c, true
			}
		}
		return learn.Corner{}, false
	}
	line := ink.BlockHeight(b.body, 1) + 2*b.u
	for i, g := range gimbals[stickMode(l.StickMode)] {
		cell := r.Cell(i, 2, 1, b.gap)
		words, well := cell.CutBottom(2*line, 4*b.u)
		well = well.Square()
		b.RoundRect("corner well", well, 8*b.u, ink.Paint{Line: ink.Rule, Width: 1.2 * b.u})
		in := well.Inset(max(12*b.u, well.W*0.1))
		at := in.Centre()
		for k, j := range [2]job{g.up, g.across} {
			c, ok := share(j)
			row := words.Cell(k, 1, 2, 0)
			if ok && k == 0 {
				at.Y = in.Bottom() - in.H*clamp(float64(c.Share)/1000, 0, 1)
			} else if ok {
				at.X = in.X + in.W*clamp(float64(c.Share)/1000, 0, 1)
			}
			b.cornerRow(row, c, jobFacts[j].word)
		}
		goal := ink.Point{X: in.Right(), Y: in.Y}
		b.Circle("corner goal", goal.X, goal.Y, 9*b.u, ink.Paint{Line: ink.Focus, Width: 2 * b.u, Dash: ink.Dash{On: 4 * b.u, Off: 3 * b.u}, Under: true})
		b.Line("corner stick", well.Centre().X, well.Centre().Y, at.X, at.Y, ink.Paint{Line: ink.Ink, Width: 2.5 * b.u})
		b.Circle("corner stick end", at.X, at.Y, 6*b.u, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.u})
	}
}

// cornerRow is one direction: at its high end, turned round, or how far it is.
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
