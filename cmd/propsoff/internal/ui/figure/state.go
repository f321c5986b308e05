package figure

import (
	"math"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
)

// Hands is the state of the craft, the sticks and the switches.
func (b *Board) Hands(r ink.Rect) {
	all := Levers(b.V)
	levers := b.leversHeight(all)
	r = b.state(r, levers+b.SectionHeight()+2*b.Cap+b.Body+55*b.U)
	if levers > 0 {
		var low ink.Rect
		low, r = r.CutBottom(levers, b.Gap)
		b.levers(low, all)
	}
	b.Sticks(r)
}

// stateWords are the two words; both must fit, so that the sheet stays as it is when one becomes the other.
func (b *Board) stateWords() []string {
	return []string{b.Say(tell.Armed(false)), b.Say(tell.Armed(true))}
}

// state draws the word, how to change it, and what is counting down; it gives what is left below, so much at the least where that can be. They have one
// room together that is the same whatever they say, so that nothing below moves under a hand.
func (b *Board) state(r ink.Rect, least float64) ink.Rect {
	b.Group("state")
	text, gap, counting := b.Say(b.V.How(b.On)), 6*b.U, b.RowHeight()+9*b.U
	mark := b.Px(stateMarkSize)
	word := b.stateSize(r.W, mark)
	high := b.stateHeight(mark, word)
	how := min(max(ink.BlockHeight(b.Head, 3), ink.BlockHeight(b.Small, 4)), r.H-high-gap-least-counting-b.Gap)
	how = max(how, ink.BlockHeight(b.Small, 2))
	all, rest := r.CutTop(high+gap+how+2*b.U+counting, b.Gap)

	// A sentence that is longer than most takes room of the word above it, then the line below where nothing counts; only then does it move what is below.
	need := ui.TextHeight(text, r.W, ink.Style{Size: b.Small})
	room := func() float64 { return how + high - b.stateHeight(mark, word) }
	for ; room() < need && mark > b.Px(leastStateMark); mark = max(mark-b.U, b.Px(leastStateMark)) {
		word = min(word, b.stateSize(r.W, mark), (mark-8*b.U)/ink.CapHeight(1, ink.Bold))
	}
	top, below := all.CutTop(b.stateHeight(mark, word), gap)
	b.stateIn(top, mark, 8*b.U, word, &b.V.Snap)
	line, above := below.CutBottom(counting, 2*b.U)
	_, _, counts := tell.Countdown(&b.V.Facts)
	if need > above.H && !counts {
		above = below
	}
	if over := need - above.H; over > 0 {
		above.H, line.Y = need, line.Y+over
		_, rest = rest.CutTop(over, 0)
	}
	size, _ := ink.FitBlock(above.W, above.H, b.Small, b.Large, ink.Regular, text)
	high, _ = b.Block("how", above.X, above.Y, ink.Style{Size: size, Within: above}, ink.Block{Width: above.W}, text)
	b.HowHit(ink.Rect{X: above.X, Y: above.Y, W: above.W, H: min(max(high, b.Least()), above.H)})
	if above.Bottom() <= line.Y {
		b.countdown(line)
	}
	return rest
}

// HowHit makes the place of the sentence that says what to do act like the key that it asks for.
func (b *Board) HowHit(r ink.Rect) {
	if a := b.V.HowKey(b.On); a != ui.NoAction {
		b.CapHit(a.Code(), b.V.House.KeyOf(a), r)
	}
}

// The mark of the state before its word as the head of a column, and the least that a long sentence leaves of it, px of the least window (ours).
const stateMarkSize, leastStateMark = 50, 28

// stateSize is how large both words of the state may be beside a mark, in a width.
func (b *Board) stateSize(w, mark float64) float64 {
	size, _ := ink.Fit(w-mark-8*b.U, b.Px(24), b.Px(72), ink.Bold, b.stateWords()...)
	return size
}

// stateHeight is how high mark and word of the state are as the head of a column.
func (b *Board) stateHeight(mark, word float64) float64 {
	return max(mark, ink.CapHeight(word, ink.Bold)+8*b.U)
}

// stateIn draws the state in the middle of a row: a mark so wide, and after a gap the word.
func (b *Board) stateIn(row ink.Rect, mark, gap, size float64, s *sim.Snapshot) {
	armed, role, y := s.Armed, ink.Disarmed, row.Centre().Y
	if armed {
		role = ink.Armed
	}
	b.stateMark(row.X+mark/2, y, mark/2, role, s)
	b.Text("state", row.X+mark+gap, y, ink.Style{Size: size, Weight: ink.Bold, Colour: role, Anchor: ink.Middle, State: true}, b.Say(tell.Armed(armed)))
}

// stateMark tells the state by its shape: armed is a closed ring with a filled, turning motor; disarmed is a ring that
// stands open, with an empty motor at rest. It turns once in three seconds, so nothing flashes, and
// not where nothing is to move for its own sake.
func (b *Board) stateMark(x, y, r float64, role ink.Role, s *sim.Snapshot) {
	w := math.Max(2, r*0.11)
	if !s.Armed {
		b.Arc("open-ring", x, y, r-w, -0.25*math.Pi, 1.25*math.Pi, ink.Paint{Line: role, Width: w})
		b.Circle("motor-at-rest", x, y, r*0.3, ink.Paint{Line: role, Width: w})
		return
	}
	b.Circle("closed-ring", x, y, r, ink.Paint{Line: role, Width: w * 1.5})
	b.Circle("motor", x, y, r*0.3, ink.Paint{Fill: role})
	round := float64(s.Tick%3000) / 3000 * 2
	if b.V.Still { // the craft's motors are not what turns here
		round = 0
	}
	for i := range 3 {
		from := (round + float64(i)*2/3) * math.Pi
		b.Arc("turning", x, y, r*0.58, from, from+1.35, ink.Paint{Line: role, Width: w * 1.3})
	}
}

// countdown draws whatever is counting: a sentence over a line that fills. Where nothing counts, mode and motors.
func (b *Board) countdown(r ink.Rect) {
	counting, share, counts := tell.Countdown(&b.V.Facts)
	line, _ := r.CutTop(b.RowHeight(), 0)
	if !counts {
		b.Down(r, 0).Whole("standing", b.V.Standing(), ink.Style{Size: b.Small, Colour: ink.Faint})
		return
	}
	b.Fitted("countdown", line, ink.Style{Size: b.Small, Weight: ink.Bold}, b.Say(counting))
	b.Filling(ink.Rect{X: r.X, Y: r.Bottom() - 6*b.U, W: r.W, H: 5 * b.U}, share)
}

// Filling is a line with end ticks that fills from the left.
func (b *Board) Filling(r ink.Rect, share float64) {
	y := r.Centre().Y
	b.Line("filling-way", r.X, y, r.Right(), y, ink.Paint{Line: ink.Rule})
	b.Line("filling-start", r.X, r.Y, r.X, r.Bottom(), ink.Paint{Line: ink.Rule})
	b.Line("filling-end", r.Right(), r.Y, r.Right(), r.Bottom(), ink.Paint{Line: ink.Rule})
	if w := r.W * ui.Clamp(share, 0, 1); w >= 1 {
		b.Rect("filling", ink.Rect{X: r.X, Y: y - 1.5*b.U, W: w, H: 3 * b.U}, ink.Paint{Fill: ink.Ink})
	}
}

// StateAfar draws the state as a class must see it, or up to so many times as large where the width has room for that; it gives the room beside it
// and what is left below.
func (b *Board) StateAfar(r ink.Rect, larger float64) (beside, rest ink.Rect) {
	return b.StateAfarOf(r, &b.V.Snap, larger)
}

// StateAfarOf is StateAfar of another craft than the pilot's own.
func (b *Board) StateAfarOf(r ink.Rect, s *sim.Snapshot, larger float64) (beside, rest ink.Rect) {
	b.Group("state")
	size := math.Ceil(min(b.H, b.W*ink.LeastHeight/ink.LeastWidth) * ui.ClassState / ink.CapHeight(1, ink.Bold))
	if larger > 1 {
		size, _ = ink.Fit((r.W-12*b.U)*0.84, size, larger*size, ink.Bold, b.stateWords()...)
	}
	tall := size * ink.CapHeight(1, ink.Bold)
	top, rest := r.CutTop(max(tall+10*b.U, 3*ink.LineHeight(b.Body)), 4*b.U)
	b.stateIn(top, tall, 12*b.U, size, s)
	wide := 0.0
	for _, w := range b.stateWords() {
		wide = max(wide, ink.Width(w, size, ink.Bold))
	}
	_, beside = top.CutLeft(tall+12*b.U+wide, 16*b.U)
	return beside, rest
}

// StateHead draws the state as the head of a column, as large as its width has room for between two sizes; it gives what is left below.
func (b *Board) StateHead(r ink.Rect, mark, least, most, gap float64) (rest ink.Rect) {
	return b.StateHeadOf(r, &b.V.Snap, mark, least, most, gap)
}

// StateHeadOf is StateHead of another craft than the pilot's own.
func (b *Board) StateHeadOf(r ink.Rect, s *sim.Snapshot, mark, least, most, gap float64) (rest ink.Rect) {
	size, _ := ink.Fit(r.W-mark-8*b.U, least, most, ink.Bold, b.stateWords()...)
	top, rest := r.CutTop(max(mark, ink.CapHeight(size, ink.Bold)+8*b.U), gap)
	b.stateIn(top, mark, 8*b.U, size, s)
	return rest
}

// StateAndHow is the state as a class must see it, with what to do beside it, or below where it is longer; it gives what is left below.
func (b *Board) StateAndHow(r ink.Rect) ink.Rect {
	beside, rest := b.StateAfar(r, 1)
	b.Group("pace")
	d := b.Down(beside, 0)
	if p := &b.V.Flight.Pace; beside.W > 9*b.Body && (p.Paused || p.Slow > 1) {
		b.PaceLine(d.Row(ink.LineHeight(b.Body)))
	}
	how, s := b.Say(words.Row(b.V.WhyDisarmed(), b.V.How(b.On))), ink.Style{Size: b.Body}
	if beside.W < 9*b.Body || ui.TextHeight(how, d.R.W, s) > d.R.H+3*b.U {
		d = b.Down(rest, 4*b.U)
		d.Write("how", how, s)
		return d.R
	}
	d.Write("how", how, s)
	return rest
}

// WhyNeeds is the height that the refusals take in a width, and the largest size of text at which that is at most room.
func (b *Board) WhyNeeds(w, room float64) (height, size float64) {
	for size = b.Large; ; size-- {
		if height = b.WhyHeight(w, size); height <= room || size <= b.Small {
			return height, size
		}
	}
}

// WhyHeight is what the refusals take in a width at a size of text.
func (b *Board) WhyHeight(w, size float64) float64 {
	return b.Takes(w, func(d *ui.Down) { b.why(d, size) })
}

// Why draws the refusals as sentences in their groups, each crossed off as it clears.
func (b *Board) Why(r ink.Rect, size float64) { b.why(b.Down(r, 0), size) }

func (b *Board) why(d *ui.Down, size float64) {
	rows, style, right, low := b.whyHead(d, size), ink.Style{Size: size}, d.R.Right(), 0.0
	group := facts.Groups
	for i := range rows {
		row := &rows[i]
		if g := row.Refusal.Group(); g != group {
			group = g
			d.Row(3 * b.U)
			at := d.Row(ink.BlockHeight(b.Small, 1) + b.U)
			b.Text("group", at.X, at.Y, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top, Within: at}, b.Say(tell.WhoCures(g)))
		}
		text, cure := d.R, Cures(b.V, row.Refusal)
		if cure != ui.NoAction {
			text.W -= b.Cap + 6*b.U
		}
		b.refusal(text, row, size, 13*b.U)
		high := b.SayHeight(row.Text, text.W-13*b.U, style)
		if cure != ui.NoAction && row.Stands {
			key, y, tall := b.V.House.KeyOf(cure), text.Y+max(b.Cap, ink.BlockHeight(size, 1))/2, max(high, b.Least())
			b.KeyCap("cure-key", right-b.Cap/2, y, b.Cap, key)
			// It takes a press on its row, and as far over those beside it as a hand needs; none of them may be another's.
			if hit := (ink.Rect{X: text.X, Y: max(text.Y+(high-tall)/2, low), W: right - text.X, H: tall}); hit.Y <= y {
				b.CapHit(cure.Code(), key, hit)
				low = hit.Bottom()
			}
		}
		d.Row(high + b.U)
	}
}

// whyHead draws what stands over the refusals, and gives them.
func (b *Board) whyHead(d *ui.Down, size float64) []ui.Row {
	b.Group("why-not")
	rows := b.V.RefusalRows()
	d.R = b.Section(d.R, "why-heading", b.Say(words.T("state.why-title", words.Args{"armed": words.Flag(b.V.Snap.Armed)})))
	d.Gap = 3 * b.U
	d.Say("why-sentence", tell.WhySentence(&b.V.Facts, len(rows) > 0), ink.Style{Size: size})
	d.Gap = 0
	return rows
}

// refusal writes one refusal with its mark at the top of r, its text so far in.
func (b *Board) refusal(r ink.Rect, row *ui.Row, size, in float64) {
	b.WhyMark(r.X+4.5*b.U, r.Y+ink.BlockHeight(size, 1)/2, row.Stands)
	style := ink.Style{Size: size, Within: ink.Rect{X: r.X, Y: r.Y, W: r.W, H: b.H}}
	if !row.Stands {
		style.Colour = ink.Faint
	}
	b.Block("refusal "+codes.Refusal(row.Refusal), r.X+in, r.Y, style, ink.Block{Width: r.W - in, Crossed: row.Crossed}, b.Say(row.Text))
}

// Cures is the action whose key cures a refusal at its next press, NoAction where hands, time or more presses do.
func Cures(v *ui.View, r facts.Refusal) ui.Action {
	x, _ := v.Facts.Of(r)
	if v.Playing() || v.Facts.Plain || !x.Cure.OK || x.Cure.N != 1 {
		return ui.NoAction
	}
	switch x.Cure.Deed[0].Do {
	case facts.SetLevel:
		if ui.NextTilt(v.Snap.In.Craft.TiltTenths) <= v.Config.Arming.TiltLimitTenths {
			return ui.TiltCraft
		}
	case facts.CableOut:
		return ui.PlugCable
	case facts.MenuClosed:
		return ui.TurnMenu
	case facts.RadioOn:
		if !v.Facts.RadioWaits() { // else something else comes first
			return ui.SwitchRadio
		}
	}
	return ui.NoAction
}

// WhyMark is a bar across the way for what refuses, a tick for what is cleared.
func (b *Board) WhyMark(x, y float64, stands bool) {
	d := 3.5 * b.U
	if stands {
		b.Rect("refuses", ink.Rect{X: x - d, Y: y - d*0.6, W: 2 * d, H: 1.2 * d}, ink.Paint{Fill: ink.Refusal})
		return
	}
	b.Tick("cleared", x, y, d, ink.Paint{Line: ink.Rule, Width: 1.6 * b.U})
}

// RefusalHeight is what Refusal takes in a width.
func (b *Board) RefusalHeight(row *ui.Row, w, size float64) float64 {
	return b.SayHeight(row.Text, w-1.2*size, ink.Style{Size: size})
}

// Refusal writes one refusal with its mark at the top of r.
func (b *Board) Refusal(r ink.Rect, row *ui.Row, size float64) { b.refusal(r, row, size, 1.2*size) }

// RowsFor writes as many of the refusals as there is room for and counts the rest, to which they are turned.
func (b *Board) RowsFor(r ink.Rect, rows []ui.Row, size float64) {
	high, sum, gap := make([]float64, len(rows)), 0.0, 3*b.U
	for i := range rows {
		high[i] = b.RefusalHeight(&rows[i], r.W, size) + gap
		sum += high[i]
	}
	list := ink.Rect{X: r.X, Y: r.Y, W: r.W, H: r.H + gap}
	if sum > list.H {
		list.H -= ink.BlockHeight(size, 1) + 2*b.U
	}
	from, end := b.Rolled("refusals "+codes.OnLoss(b.V.Config.Link.OnLoss), list, high, -1, 0) // there may be three crafts
	if from < end && high[from] > list.H {
		end = from
	}
	for i := from; i < end; i++ {
		b.Refusal(r, &rows[i], size)
		_, r = r.CutTop(high[i], 0)
	}
	if left := len(rows) - end; from > 0 || left > 0 {
		says := words.T("class.refusals-left", words.Args{"n": words.Count(left)})
		if from > 0 {
			says = tell.Unlisted(from, left)
		}
		b.Text("refusals-left", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, b.Say(says))
	}
}

// AirWhy draws the refusals; where there is no room for all, as many as there is, and counts the rest.
func (b *Board) AirWhy(r ink.Rect, size float64) {
	if b.WhyHeight(r.W, size) <= r.H+0.5 {
		b.Why(r, size)
		return
	}
	d := b.Down(r, 0)
	rows := b.whyHead(d, b.Small)
	b.RowsFor(d.R, rows, b.Small)
}
