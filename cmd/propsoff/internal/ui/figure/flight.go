package figure

import (
	"math"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/flightlog"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/sim"
	"propsoff/sim/pulse"
)

// FlightLeast is the least height in which the flying craft can be drawn.
func (b *Board) FlightLeast() float64 {
	return b.SectionHeight() + b.flightHead() + 25*b.U + 100*b.U
}

// flightHead is what words and numbers take.
func (b *Board) flightHead() float64 {
	return ink.BlockHeight(b.Head, 1) + b.numbersHeight() + ink.BlockHeight(b.Small, 1) + 9*b.U
}

func (b *Board) numbersHeight() float64 {
	return ink.BlockHeight(b.Small, 1) + ink.BlockHeight(b.Head, 1)
}

// Flight draws the flying craft: how it flies in words and numbers, the three views, and how time runs.
func (b *Board) Flight(r ink.Rect) {
	b.Group("flight")
	s := &b.V.Snap
	titles := []words.Text{tell.AirTitle(b.V.CraftName), tell.AirTitle("")}
	if s.In.Hands == b.V.Config.Body.Turns && !b.V.Drilling { // a drill asks what it asks
		titles = append([]words.Text{tell.AirHovers(b.V.CraftName, int(facts.HoverThrottle(b.V.Config)/pulse.Eighths))}, titles...)
	}
	rest := b.SectionOf(r, "flight-heading", titles...)
	stands := b.Say(tell.FlightStands(b.V.FlightFacts(s)))
	size, _ := ink.Fit(rest.W, b.Small, b.Head, ink.Bold, stands)
	style := ink.Style{Size: size, Weight: ink.Bold}
	row, rest := rest.CutTop(max(ink.BlockHeight(b.Head, 1), ui.TextHeight(stands, rest.W, style)), 3*b.U)
	b.Down(row, 0).Write("flight-stands", stands, style)
	row, rest = rest.CutTop(b.numbersHeight(), 3*b.U)
	for i := range tell.FlightNumbers {
		b.flightNumber(row.Cell(i, tell.FlightNumbers, 1, 4*b.U), i, s)
	}
	row, rest = rest.CutTop(ink.BlockHeight(b.Small, 1), 3*b.U)
	b.Fitted("flight-motors", row, ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(tell.FlightMotors(s, b.V.Config)))
	row, rest = rest.CutBottom(25*b.U, 2*b.U)
	b.PaceRow(row)
	fl := NewFlying(s, b.V.Config, b.V.Flight.Trail)
	b.views(rest, &fl)
}

// views draws the three views side by side, or where that is tall, the one from above under the others.
func (b *Board) views(r ink.Rect, fl *Flying) {
	if r.H > r.W*0.8 {
		top, low := r.CutTop(r.H*0.5, 6*b.U)
		b.Upright("behind", top.Cell(0, 2, 1, b.Gap), EyeBehind(fl.Facing), fl)
		b.Upright("side", top.Cell(1, 2, 1, b.Gap), EyeBeside(fl.Facing), fl)
		b.Downward(low, fl)
		return
	}
	b.Upright("behind", r.Cell(0, 3, 1, b.Gap), EyeBehind(fl.Facing), fl)
	b.Upright("side", r.Cell(1, 3, 1, b.Gap), EyeBeside(fl.Facing), fl)
	b.Downward(r.Cell(2, 3, 1, b.Gap), fl)
}

// flightNumberText is one of phrase.FlightNumber's numbers with its unit.
func flightNumberText(i int, s *sim.Snapshot) words.Text {
	p := &s.Air.Body
	bank, pitch, heading := flightlog.Angles(p.Att.Unit())
	switch i {
	case 0:
		return tell.Metres(-p.Pos.Z)
	case 1:
		return tell.Speed(-p.Vel.Z)
	case 2:
		return tell.Speed(math.Hypot(p.Vel.X, p.Vel.Y))
	case 3:
		return tell.Bank(bank)
	case 4:
		return tell.Pitch(pitch)
	case 5:
		return tell.Heading(heading)
	case 6:
		return tell.Metres(math.Hypot(p.Pos.X, p.Pos.Y))
	}
	return tell.PackVolts(s.Volts)
}

// flightNumber draws a number under its name.
func (b *Board) flightNumber(r ink.Rect, i int, s *sim.Snapshot) {
	name, value := r.CutTop(ink.BlockHeight(b.Small, 1), 0)
	b.Fitted("number-name", name, ink.Style{Size: b.Small, Colour: ink.Faint}, b.Say(tell.FlightNumber(i)))
	size, _ := ink.Fit(value.W, b.Small, b.Head, ink.Bold, b.Say(flightNumberText(i, s)))
	b.Fitted("number", value, ink.Style{Size: size, Weight: ink.Bold}, b.Say(flightNumberText(i, s)))
}
