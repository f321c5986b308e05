package figure

import (
	"math"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/flightlog"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// FlightLeast is the least height in which the flying craft can be drawn: its heading, words and numbers, how time runs, and small views.
func (b *Board) FlightLeast() float64 {
	return b.SectionHeight() + ink.BlockHeight(b.Head, 1) + b.NumberHeight(b.Head) + ink.BlockHeight(b.Small, 1) + 134*b.U
}

// NumberHeight is what a number with its name over it takes.
func (b *Board) NumberHeight(size float64) float64 {
	return ink.BlockHeight(b.Small, 1) + ink.BlockHeight(size, 1)
}

// Number draws a number under the first of its names that fits, in text of a size or as much smaller as it must be.
func (b *Board) Number(r ink.Rect, names []words.Text, value words.Text, size float64) {
	top, low := r.CutTop(ink.BlockHeight(b.Small, 1), 0)
	style := ink.Style{Size: b.Small, Colour: ink.Faint}
	b.Fitted("number-name", top, style, b.FirstFit(r.W, style, names...))
	text := b.Say(value)
	size, _ = ink.Fit(low.W, b.Small, size, ink.Bold, text)
	b.Fitted("number", low, ink.Style{Size: size, Weight: ink.Bold}, text)
}

// Flight draws the flying craft: how it flies in words and numbers, the three views, and how time runs.
func (b *Board) Flight(r ink.Rect) {
	b.Group("flight")
	s := &b.V.Snap
	titles := []words.Text{tell.AirTitle(b.V.CraftName, s), tell.AirTitle("", s)}
	if s.In.Hung || facts.Held(s) {
		titles = append([]words.Text{tell.AirHelped(b.V.CraftName, s), tell.AirHelped("", s)}, titles...)
	} else if !b.V.Drilling { // a drill asks what it asks; and nobody is told whether the propellers are right
		titles = append([]words.Text{tell.AirHovers(b.V.CraftName, int(facts.HoverThrottle(b.V.Config)/pulse.Eighths))}, titles...)
	}
	d := b.Down(b.SectionOf(r, "flight-heading", titles...), 3*b.U)
	stands := b.Say(tell.FlightStands(b.V.FlightFacts(s)))
	size, _ := ink.Fit(r.W, b.Small, b.Head, ink.Bold, stands)
	style := ink.Style{Size: size, Weight: ink.Bold}
	row := d.Row(max(ink.BlockHeight(b.Head, 1), ui.TextHeight(stands, r.W, style)))
	b.Down(row, 0).Write("flight-stands", stands, style)
	row = d.Row(b.NumberHeight(b.Head))
	for i, n := range flightNumbers(s) {
		b.Number(row.Cell(i, tell.FlightNumbers, 1, 4*b.U), tell.FlightNumber(i), n, b.Head)
	}
	if b.V.Flight.From == ui.Drawn { // nobody sees that from afar
		b.Fitted("flight-motors", d.Row(ink.BlockHeight(b.Small, 1)), ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(tell.FlightMotors(s, b.V.Config)))
	}
	row, rest := d.R.CutBottom(b.ForFinger(25*b.U), 2*b.U)
	b.PaceRow(row)
	fl := NewFlying(s, b.V.Config, b.V.Flight.Trail)
	b.Scene(rest, &fl)
}

// flightNumbers are the numbers that tell.FlightNumber names.
func flightNumbers(s *sim.Snapshot) [tell.FlightNumbers]words.Text {
	p := &s.Air.Body
	bank, pitch, heading := flightlog.Angles(p.Att.Unit())
	return [...]words.Text{
		tell.Metres(-p.Pos.Z), tell.Speed(-p.Vel.Z), tell.Speed(math.Hypot(p.Vel.X, p.Vel.Y)), tell.Bank(bank), tell.Pitch(pitch), tell.Heading(heading),
		tell.Metres(math.Hypot(p.Pos.X, p.Pos.Y)), tell.PackVolts(s.Volts),
	}
}

// views draws the three views side by side, or where that is tall, the one from above under the others.
func (b *Board) views(r ink.Rect, fl *Flying) {
	behind, side, above := r.Cell(0, 3, 1, b.Gap), r.Cell(1, 3, 1, b.Gap), r.Cell(2, 3, 1, b.Gap)
	if r.H > r.W*0.8 {
		r, above = r.CutTop(r.H*0.5, 6*b.U)
		behind, side = r.Cell(0, 2, 1, b.Gap), r.Cell(1, 2, 1, b.Gap)
	}
	b.Upright("behind", behind, EyeBehind(fl.Facing), fl)
	b.Upright("side", side, EyeBeside(fl.Facing), fl)
	b.Downward(above, fl)
}

// PaceLine is how time runs, in one line.
func (b *Board) PaceLine(r ink.Rect) {
	p := &b.V.Flight.Pace
	b.paceMark(r.X+6*b.U, r.Centre().Y, p.Paused, p.Slow > 1)
	says := []words.Text{tell.PaceWords(p.Paused, p.Slow)}
	if p.Paused { // how slow it will be can wait; while it is slow that must be said, or nothing
		says = append(says, tell.PaceWords(true, 1))
	}
	b.WholeLine("pace", ink.Rect{X: r.X + 19*b.U, Y: r.Y, W: r.W - 19*b.U, H: r.H}, ink.Style{Size: b.Body, Weight: ink.Bold}, says...)
}

// PaceRow draws how time runs, or where the replay stands, and what the ghost means.
func (b *Board) PaceRow(r ink.Rect) {
	b.Group("pace")
	re, style := &b.V.Flight.Replay, ink.Style{Size: b.Body, Weight: ink.Bold}
	pace := b.Say(tell.PaceWords(b.V.Flight.Pace.Paused, b.V.Flight.Pace.Slow))
	left, rest := r.CutLeft(19*b.U+ink.Width(pace, style.Size, style.Weight), 10*b.U)
	b.PaceLine(left)
	if re.On {
		b.LookBack(rest, re)
		return
	}
	means, need := "", 0.0
	if _, haunts := ui.Ghost(&b.V.Snap, b.V.Config); haunts && b.V.Flight.From == ui.Drawn && b.On != ui.OnDesk { // which draws no craft
		means = b.Say(tell.GhostMeans(b.V.Snap.Mode, b.V.Snap.Sinking, false))
		need = ink.Width(means, b.Small, ink.Regular) + 29*b.U
	}
	for _, a := range [...]ui.Action{ui.StepFlight, ui.NextBench, ui.SeeFrom} { // what they do is seen here
		does, key := b.Say(b.V.Does(a, b.On)), b.V.House.KeyOf(a)
		if wide := b.KeyWidth(key, does); b.V.Shows(a, b.On) && r.H >= b.Least() && (wide+10*b.U+need <= rest.W || a == ui.StepFlight && wide <= rest.W) {
			left, rest = rest.CutLeft(wide, 10*b.U)
			b.KeyRow(left, a.Code(), key, does)
		}
	}
	if need == 0 {
		return
	}
	text, rest := rest.CutRight(min(need-28*b.U, rest.W-28*b.U), 6*b.U)
	sample, _ := rest.CutRight(22*b.U, 0)
	y := r.Centre().Y
	b.Line("ghost-sample", sample.X, y, sample.Right(), y, ink.Paint{Line: ink.Focus, Width: 1.6 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}})
	b.Fitted("ghost-means", text, ink.Style{Size: b.Small, Colour: ink.Faint}, means)
}

// paceMark tells by its shape: a triangle runs, two bars stand, a triangle behind a bar is slow.
func (b *Board) paceMark(x, y float64, paused, slow bool) {
	d := 5 * b.U
	if paused {
		b.Rect("paused", ink.Rect{X: x - d, Y: y - d, W: 0.7 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
		b.Rect("paused", ink.Rect{X: x + 0.3*d, Y: y - d, W: 0.7 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
		return
	}
	if slow {
		b.Rect("slow", ink.Rect{X: x - 1.3*d, Y: y - d, W: 0.5 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
	}
	b.Polygon("runs", []ink.Point{{X: x - 0.5*d, Y: y - d}, {X: x + d, Y: y}, {X: x - 0.5*d, Y: y + d}}, ink.Paint{Fill: ink.Ink})
}

// LookBack draws the bar of time of a look back, along which a hand draws the time, with the keys that go a second back and on.
func (b *Board) LookBack(r ink.Rect, re *ui.Replay) {
	y := r.Centre().Y
	box := b.Text("replay", r.X, y, ink.Style{Size: b.Body, Weight: ink.Bold, Colour: ink.Focus, Anchor: ink.Middle, Within: r}, b.Say(words.T("flight.replay")))
	wide := b.ForFinger(max(25*b.U, b.Cap+2*b.U))
	back, bar := ink.Rect{X: box.Right() + 8*b.U, Y: r.Y, W: r.Right() - box.Right() - 8*b.U, H: r.H}.CutLeft(wide, 5*b.U)
	on, bar := bar.CutRight(wide, 4*b.U)
	b.KeyCap(ui.ReplayBack+" key", back.Centre().X, y, b.Cap, "Left")
	b.KeyCap(ui.ReplayOn+" key", on.Centre().X, y, b.Cap, "Right")
	b.Hit(ui.ReplayBack, "Left", back)
	b.Hit(ui.ReplayOn, "Right", on)
	if wide := ink.Width(b.Say(tell.ReplayAt(29_900, 30_000)), b.Small, ink.Regular); wide <= bar.W {
		b.Text("replay-at", bar.Right(), y, ink.Style{Size: b.Small, Anchor: ink.Right | ink.Middle, Within: r}, b.Say(tell.ReplayAt(re.At, re.Length)))
		_, bar = bar.CutRight(wide+11*b.U, 0)
	}
	if bar.W < 10*b.U {
		return
	}
	if box := (ink.Rect{X: bar.X, Y: r.Y, W: bar.W, H: r.H}); b.Free(box) {
		b.Drag(ui.ReplayBar, box, bar)
	}
	bar.Y, bar.H = y-5*b.U, 10*b.U
	share := ui.Clamp(float64(re.At)/float64(max(re.Length, 1)), 0, 1)
	b.Filling(bar, share)
	if re.Marked { // the last moment at which it could have been saved
		x, d := bar.X+bar.W*ui.Clamp(float64(re.Mark)/float64(max(re.Length, 1)), 0, 1), 4*b.U
		b.Line("saved-mark", x, bar.Y, x, bar.Bottom(), ink.Paint{Line: ink.Ink, Width: 1.6 * b.U})
		b.Polygon("saved-mark", []ink.Point{{X: x, Y: bar.Y}, {X: x - d, Y: bar.Y - 1.4*d}, {X: x + d, Y: bar.Y - 1.4*d}}, ink.Paint{Fill: ink.Ink})
	}
	b.Circle("replay-place", bar.X+bar.W*share, y, 4*b.U, ink.Paint{Fill: ink.Ink})
}
