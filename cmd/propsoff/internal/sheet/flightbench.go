package sheet

import (
	"math"

	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/flown"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim"
	"propsoff/sim/pulse"
	"propsoff/sim/vec"
)

// airWide sets the hands at the left as on the desk bench; beside them the flying craft, over why not and the record.
func (b *board) airWide(r ink.Rect) {
	cols := r.Columns(b.v.cells[:0], b.gap*1.6, ink.Share(33, 0), ink.Share(66, 0))
	b.v.cells = cols
	left, right := cols[0], cols[1]
	b.hands(left)
	most := right.H - b.flightLeast() - b.gap
	share := 0.42
	why, size := b.airWhyNeeds(right.W*share, most)
	if why > most {
		share = 0.56
		why, size = b.airWhyNeeds(right.W*share, most)
	}
	low := clamp(why, min(right.H*0.29, most), most)
	bottom, top := right.CutBottom(low, b.gap)
	b.flight(top)
	judged, record := bottom.CutLeft(bottom.W*share, b.gap*1.6)
	b.airWhy(judged, size)
	b.airRecord(record)
}

// airStacked sets hands beside why not and the record, and the flying craft under them.
func (b *board) airStacked(r ink.Rect) {
	top, bottom := r.CutTop(r.H*0.46, b.gap)
	cols := top.Columns(b.v.cells[:0], b.gap*1.6, ink.Share(1, 0), ink.Share(1, 0))
	b.v.cells = cols
	left, right := cols[0], cols[1]
	b.hands(left)
	most := right.H * 0.72
	why, size := b.whyNeeds(right.W, most)
	judged, record := right.CutTop(clamp(why, right.H*0.25, most), b.gap)
	b.airWhy(judged, size)
	b.airRecord(record)
	b.flight(bottom)
}

// airWhyNeeds is whyNeeds for one who flies and looks elsewhere: armed, what disarms stands in smaller text.
func (b *board) airWhyNeeds(w, room float64) (height, size float64) {
	if b.v.Snap.Armed {
		return b.whyHeight(w, b.body), b.body
	}
	return b.whyNeeds(w, room)
}

// airWhy draws the refusals; where there is no room for all, as many as there is, and counts the rest.
func (b *board) airWhy(r ink.Rect, size float64) {
	if b.whyHeight(r.W, size) <= r.H+0.5 {
		b.why(r, size)
		return
	}
	b.Group("why not")
	title, sentence := b.whyHead()
	rest := b.section(r, "why heading", title)
	if sentence != "" {
		h, _ := b.Block("why sentence", rest.X, rest.Y, ink.Style{Size: b.small, Within: r}, ink.Block{Width: rest.W, MaxLines: max(1, int(rest.H/ink.LineHeight(b.small))), Shorten: true}, sentence)
		_, rest = rest.CutTop(h, 3*b.u)
	}
	b.rowsFor(rest, b.v.rows, b.small)
}

// airRecord is the link and the chart paper; while choosing between radios the choice stands in their place.
func (b *board) airRecord(r ink.Rect) {
	if b.v.choosing() {
		b.choice(r)
		return
	}
	if r.H > 240*b.u {
		r = b.link(r)
	}
	b.chart(r)
}

// flightLeast is the least height in which the flying craft can be drawn.
func (b *board) flightLeast() float64 {
	return b.sectionHeight() + b.flightHead() + 25*b.u + 100*b.u
}

// flightHead is what words and numbers take.
func (b *board) flightHead() float64 {
	return ink.BlockHeight(b.head, 1) + b.numbersHeight() + ink.BlockHeight(b.small, 1) + 9*b.u
}

func (b *board) numbersHeight() float64 {
	return ink.BlockHeight(b.small, 1) + ink.BlockHeight(b.head, 1)
}

// flight draws the flying craft: how it flies in words and numbers, the three views, and how time runs.
func (b *board) flight(r ink.Rect) {
	b.Group("flight")
	s := &b.v.Snap
	title := phrase.AirTitle(b.v.CraftName)
	if s.In.Hands == b.v.Config.Body.Turns && !b.v.Drills.Run.On { // a drill asks what it asks
		if hovers := phrase.AirHovers(b.v.CraftName, int(facts.HoverThrottle(b.v.Config)/pulse.Eighths)); ink.Width(hovers, b.small, ink.Bold) <= r.W {
			title = hovers
		}
	}
	rest := b.section(r, "flight heading", title)
	row, rest := rest.CutTop(ink.BlockHeight(b.head, 1), 3*b.u)
	b.fitted("flight stands", row, ink.Style{Size: b.head, Weight: ink.Bold}, phrase.FlightStands(b.v.flightFacts(s)))
	row, rest = rest.CutTop(b.numbersHeight(), 3*b.u)
	for i := range phrase.FlightNumbers {
		b.flightNumber(row.Cell(i, phrase.FlightNumbers, 1, 4*b.u), i, s)
	}
	row, rest = rest.CutTop(ink.BlockHeight(b.small, 1), 3*b.u)
	b.fitted("flight motors", row, ink.Style{Size: b.small, Colour: ink.Faint}, phrase.FlightMotors(s, b.v.Config))
	row, rest = rest.CutBottom(25*b.u, 2*b.u)
	b.paceRow(row)
	fl := newFlying(s, b.v.Config, b.v.Flight.Trail)
	b.views(rest, &fl)
}

// views draws the three views side by side, or where that is tall, the one from above under the others.
func (b *board) views(r ink.Rect, fl *flying) {
	if r.H > r.W*0.8 {
		top, low := r.CutTop(r.H*0.5, 6*b.u)
		b.upright("behind", top.Cell(0, 2, 1, b.gap), eyeBehind(fl.facing), fl)
		b.upright("side", top.Cell(1, 2, 1, b.gap), eyeBeside(fl.facing), fl)
		b.downward(low, fl)
		return
	}
	b.upright("behind", r.Cell(0, 3, 1, b.gap), eyeBehind(fl.facing), fl)
	b.upright("side", r.Cell(1, 3, 1, b.gap), eyeBeside(fl.facing), fl)
	b.downward(r.Cell(2, 3, 1, b.gap), fl)
}

// flightFacts are what a sentence on the flight needs.
func (v *View) flightFacts(s *sim.Snapshot) phrase.Flight {
	bank, pitch, _ := flown.Angles(s.Air.Body.Att.Unit())
	again := ""
	if shows, _ := v.showsFlight(StandAgain); shows && !v.playing() {
		again = physicalOf(StandAgain)
	}
	var sink *facts.Sink
	if v.Facts.SinkKnown && s == &v.Snap { // the facts are that craft's
		sink = &v.Facts.Sink
	}
	return phrase.Flight{
		Sink: sink, Up: s.Jobs.Throttle > pulse.Centre, Reaches: v.Facts.Reaches() && v.Facts.Tried && !v.Facts.Unsure, Powered: s.In.Powered, Armed: s.Armed, Sinking: s.Sinking, Ground: onGround(s, &v.Config.Body),
		Bank: bank, Pitch: pitch, Tilt: tiltOf(s.Air.Body.Att), Climb: -s.Air.Body.Vel.Z, Again: again,
	}
}

// tiltOf is how far an attitude is from level, degrees.
func tiltOf(q vec.Q) float64 {
	return math.Acos(clamp(q.Unit().Turn(vec.V{Z: 1}).Z, -1, 1)) * 180 / math.Pi
}

// flightNumberText is one of phrase.FlightNumber's numbers with its unit.
func flightNumberText(i int, s *sim.Snapshot) string {
	p := &s.Air.Body
	bank, pitch, heading := flown.Angles(p.Att.Unit())
	switch i {
	case 0:
		return phrase.Metres(-p.Pos.Z)
	case 1:
		return phrase.Speed(-p.Vel.Z)
	case 2:
		return phrase.Speed(math.Hypot(p.Vel.X, p.Vel.Y))
	case 3:
		return phrase.Bank(bank)
	case 4:
		return phrase.Pitch(pitch)
	case 5:
		return phrase.Heading(heading)
	case 6:
		return phrase.Metres(math.Hypot(p.Pos.X, p.Pos.Y))
	}
	return phrase.PackVolts(s.Volts)
}

// flightNumber draws a number under its name.
func (b *board) flightNumber(r ink.Rect, i int, s *sim.Snapshot) {
	name, value := r.CutTop(ink.BlockHeight(b.small, 1), 0)
	b.fitted("number name", name, ink.Style{Size: b.small, Colour: ink.Faint}, phrase.FlightNumber(i))
	size, _ := ink.Fit(value.W, b.small, b.head, ink.Bold, flightNumberText(i, s))
	b.fitted("number", value, ink.Style{Size: size, Weight: ink.Bold}, flightNumberText(i, s))
}

// The hit areas of a replay without an action of their own: a second back and on.
const (
	ReplayBack = "replay-back"
	ReplayOn   = "replay-on"
)

// paceRow draws how time runs, or where the replay stands, and what the ghost means.
func (b *board) paceRow(r ink.Rect) {
	b.Group("pace")
	p, re := &b.v.Flight.Pace, &b.v.Flight.Replay
	x := r.X
	y := r.Centre().Y
	b.paceMark(x+6*b.u, y, p.Paused, p.Slow > 1)
	x += 19 * b.u
	words := phrase.PaceWords(p.Paused, p.Slow)
	size := b.body
	box := b.Text("pace", x, y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Middle, Within: r}, words)
	x = box.Right() + 10*b.u
	if re.On {
		b.lookBack(ink.Rect{X: x, Y: r.Y, W: r.Right() - x, H: r.H}, re)
		return
	}
	if _, haunts := ghost(&b.v.Snap, b.v.Config); !haunts {
		return
	}
	sample := 22 * b.u
	means := phrase.GhostMeans(b.v.Snap.Mode, b.v.Snap.Sinking, false)
	w := min(ink.Width(means, b.small, ink.Regular)+1, r.Right()-x-sample-6*b.u)
	x = r.Right() - w - sample - 6*b.u
	b.Line("ghost sample", x, y, x+sample, y, ink.Paint{Line: ink.Focus, Width: 1.6 * b.u, Dash: ink.Dash{On: 4 * b.u, Off: 3 * b.u}})
	b.fitted("ghost means", ink.Rect{X: x + sample + 6*b.u, Y: r.Y, W: w, H: r.H}, ink.Style{Size: b.small, Colour: ink.Faint}, means)
}

// paceMark tells by its shape: a triangle runs, two bars stand, a triangle behind a bar is slow.
func (b *board) paceMark(x, y float64, paused, slow bool) {
	d := 5 * b.u
	if paused {
		b.Rect("paused", ink.Rect{X: x - d, Y: y - d, W: 0.7 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
		b.Rect("paused", ink.Rect{X: x + 0.3*d, Y: y - d, W: 0.7 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
		return
	}
	if slow {
		b.Rect("slow", ink.Rect{X: x - 1.3*d, Y: y - d, W: 0.5 * d, H: 2 * d}, ink.Paint{Fill: ink.Ink})
	}
	b.v.pts = append(b.v.pts[:0], ink.Point{X: x - 0.5*d, Y: y - d}, ink.Point{X: x + d, Y: y}, ink.Point{X: x - 0.5*d, Y: y + d})
	b.Polygon("runs", b.v.pts, ink.Paint{Fill: ink.Ink})
}

// lookBack draws the bar of time of a look back, with the keys that go a second back and on.
func (b *board) lookBack(r ink.Rect, re *Replay) {
	y := r.Centre().Y
	box := b.Text("replay", r.X, y, ink.Style{Size: b.body, Weight: ink.Bold, Colour: ink.Focus, Anchor: ink.Middle, Within: r}, phrase.ReplayWord())
	x := box.Right() + 8*b.u
	wide := max(25*b.u, b.cap+2*b.u)
	right := r.Right() - wide
	back := ink.Rect{X: x, Y: r.Y, W: wide, H: r.H}
	on := ink.Rect{X: right, Y: r.Y, W: wide, H: r.H}
	b.keyCap("replay back key", back.Centre().X, y, b.cap, capWord("Left"))
	b.keyCap("replay on key", on.Centre().X, y, b.cap, capWord("Right"))
	b.Hit(ReplayBack, "Left", back)
	b.Hit(ReplayOn, "Right", on)
	words := phrase.ReplayAt(re.At, re.Length)
	w := ink.Width(phrase.ReplayAt(29_900, 30_000), b.small, ink.Regular) + 8*b.u
	b.Text("replay at", right-4*b.u, y, ink.Style{Size: b.small, Anchor: ink.Right | ink.Middle, Within: r}, words)
	bar := ink.Rect{X: back.Right() + 5*b.u, Y: y - 5*b.u, W: right - w - back.Right() - 12*b.u, H: 10 * b.u}
	if bar.W < 10*b.u {
		return
	}
	share := 0.0
	if re.Length > 0 {
		share = clamp(float64(re.At)/float64(re.Length), 0, 1)
	}
	b.filling(bar, share)
	b.Circle("replay place", bar.X+bar.W*share, y, 4*b.u, ink.Paint{Fill: ink.Ink})
}

// how is what to do now, as it is said on a sheet: that of the bench, or what a replay and a pause ask for.
func (v *View) how(on Place) string {
	switch {
	case v.Flight.Replay.On:
		return phrase.ReplayHow(v.KeyFor(ReplayFlight, on))
	case v.Flight.Pace.Paused:
		return phrase.PausedHow(v.KeyFor(PauseFlight, on), v.KeyFor(StepFlight, on))
	}
	return phrase.Next(&v.Facts, v.keyWords(on))
}

// standing is the mode, and on the desk bench the motors, in one line.
func (v *View) standing() string {
	if v.Drills.Run.On && v.Drills.Run.HideMode {
		return phrase.ModeHidden()
	}
	if v.Snap.In.Air {
		return phrase.FlightStanding(&v.Snap)
	}
	return phrase.Standing(&v.Snap, v.Config)
}
