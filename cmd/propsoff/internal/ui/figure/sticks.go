package figure

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Job is one of the four things that sticks carry.
type Job uint8

// The jobs; Jobs is how many there are.
const (
	Throttle Job = iota
	Yaw
	pitch
	roll
	Jobs
)

// Gimbal says what one physical stick carries.
type Gimbal struct{ Across, Up Job }

// Gimbals are left and right stick for each stick mode (common practice, no source).
var Gimbals = [5][2]Gimbal{
	1: {{Yaw, pitch}, {roll, Throttle}},
	2: {{Yaw, Throttle}, {roll, pitch}},
	3: {{roll, pitch}, {Yaw, Throttle}},
	4: {{roll, Throttle}, {Yaw, pitch}},
}

// JobFacts: word, pen colour, the keys that move it to its low and high end, and what a pointer moves.
var JobFacts = [Jobs]struct {
	Word      string
	Pen       ink.Role
	Low, High keyboard.Key
	Axis      keyboard.Axis
}{
	Throttle: {"throttle", ink.Throttle, keyboard.ThrottleDown, keyboard.ThrottleUp, keyboard.Throttle},
	Yaw:      {"yaw", ink.Yaw, keyboard.YawLeft, keyboard.YawRight, keyboard.Yaw},
	pitch:    {"pitch", ink.Pitch, keyboard.PitchBack, keyboard.PitchForward, keyboard.Pitch},
	roll:     {"roll", ink.Roll, keyboard.RollLeft, keyboard.RollRight, keyboard.Roll},
}

// ChannelOf is the channel, from 0, that carries a job.
func ChannelOf(l *layout.Config, j Job) int {
	return int([Jobs]int8{Throttle: l.Throttle, Yaw: l.Yaw, pitch: l.Pitch, roll: l.Roll}[j])
}

// Sent is what the hands hold for a job; false where it carries no pulse or nothing was read yet.
func Sent(v *ui.View, j Job) (pulse.Width, bool) {
	w := v.Snap.In.Sent[ChannelOf(&v.Config.Layout, j)]
	return w, v.Snap.In.HasSent && w.Valid()
}

// Share is where a width stands between the ends of travel, 0 … 1, kept a little beyond them.
func Share(w pulse.Width) float64 {
	return ui.Clamp(float64(w-pulse.Low)/float64(pulse.High-pulse.Low), -0.04, 1.04)
}

// Sticks draws both sticks at their true side, outside class view under a heading.
func (b *Board) Sticks(r ink.Rect) {
	b.Group("sticks")
	if !b.V.Class && r.H > 8*b.Body {
		r = b.SectionOf(r, "sticks-heading", words.T("sheet.sticks", words.Args{"n": words.Whole(ui.StickMode(b.V.StickMode))}), words.T("key.stick-mode", words.Args{"n": words.Whole(ui.StickMode(b.V.StickMode))}))
	}
	b.BothSticks(r, b.Stick)
}

// BothSticks has each stick drawn at its true side; in a narrow column one over the other.
func (b *Board) BothSticks(r ink.Rect, draw func(r ink.Rect, g Gimbal, name string)) {
	for i, g := range Gimbals[ui.StickMode(b.V.StickMode)] {
		cell := r.Cell(i, 2, 1, b.Gap)
		if r.H > r.W*1.3 {
			cell = r.Cell(i, 1, 2, b.Gap)
		}
		draw(cell, g, [2]string{"left", "right"}[i])
	}
}

// Stick draws one stick in its well: the job of each direction with its value, and the keys that move it.
func (b *Board) Stick(r ink.Rect, g Gimbal, name string) {
	line, key, upKey := b.Body+3*b.U, 0.0, 0.0
	keys, cornered := b.StickCaps(), g.Across == Yaw && facts.BySticks(b.V.Config)
	if keys || cornered {
		key = b.Cap
	}
	if keys {
		upKey = key
	}
	head, foot := max(line, upKey), line+key+2*b.U
	size := max(min(r.W-2*(key+3*b.U), r.H-head-foot-6*b.U), 20*b.U)
	top := r.Y + (r.H-head-foot-6*b.U-size)/2
	well := ink.Rect{X: r.Centre().X - size/2, Y: top + head + 3*b.U, W: size, H: size}
	mid := r.Centre().X

	// The upright direction above the well, the one across below it.
	b.Reading(name+" up", mid, top+head/2, upKey, JobFacts[g.Up].High, g.Up)
	if cornered && ink.Width(b.Say(tell.Corner(false)), b.Small, ink.Regular)+3*b.U < (size-key)/2 {
		y := well.Bottom() + 3*b.U + key/2
		b.Text("disarm-corner", well.X, y, ink.Style{Size: b.Small, Anchor: ink.Middle}, b.Say(tell.Corner(false)))
		b.Text("arm-corner", well.Right(), y, ink.Style{Size: b.Small, Anchor: ink.Right | ink.Middle}, b.Say(tell.Corner(true)))
	}
	if keys {
		b.KeyCap(name+" down-key", mid, well.Bottom()+3*b.U+key/2, key, ui.KeyOf(JobFacts[g.Up].Low))
		b.KeyCap(name+" left-key", well.X-3*b.U-key/2, well.Centre().Y, key, ui.KeyOf(JobFacts[g.Across].Low))
		b.KeyCap(name+" right-key", well.Right()+3*b.U+key/2, well.Centre().Y, key, ui.KeyOf(JobFacts[g.Across].High))
	}
	b.Reading(name+" across", mid, well.Bottom()+3*b.U+key+2*b.U+line/2, 0, 0, g.Across)

	b.Well(name, well, g)
}

// Reading writes a job and its value to both sides of a place, with the key between them where there is one.
func (b *Board) Reading(name string, x, y, key float64, k keyboard.Key, j Job) {
	half := 3 * b.U
	if key > 0 {
		b.KeyCap(name+" key", x, y, key, ui.KeyOf(k))
		half = key/2 + 5*b.U
	}
	value := "–"
	if w, ok := Sent(b.V, j); ok {
		value = b.Say(tell.Width(w))
		if b.V.Class {
			value = b.Say(tell.Plain(tell.Micros(w)))
		}
	}
	b.Text(name+" job", x-half, y, ink.Style{Size: b.Body, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, b.Say(tell.JobName(JobFacts[j].Word)))
	b.Text(name+" value", x+half, y, ink.Style{Size: b.Body, Weight: ink.Bold, Anchor: ink.Middle}, value)
}

// Well draws the stick as it is held, with the last moments of its way, and the corners that arm and disarm.
func (b *Board) Well(name string, r ink.Rect, g Gimbal) {
	b.RoundRect(name+" well", r, 8*b.U, ink.Paint{Line: ink.Rule, Width: 1.2 * b.U})
	b.InWell(name, r, g, b.trail)
}

// InWell draws what stands in a well: guides, corners, the way that trail draws and the stick, whose end it returns; ok is false
// where nothing is sent.
func (b *Board) InWell(name string, r ink.Rect, g Gimbal, trail func(name string, in ink.Rect, g Gimbal)) (end ink.Point, ok bool) {
	in, c := r.Inset(10*b.U), r.Centre()
	guide := ink.Paint{Line: ink.Grid, Under: true}
	b.Line(name+" guide-across", in.X, c.Y, in.Right(), c.Y, guide)
	b.Line(name+" guide-up", c.X, in.Y, c.X, in.Bottom(), guide)
	b.ends(name, r, in)
	b.corners(name, r, in, g)
	if b.StickKeys() && r.W >= b.Least() {
		b.Drag(ui.StickHit(JobFacts[g.Across].Axis, JobFacts[g.Up].Axis), r, in)
	}

	across, okA := Sent(b.V, g.Across)
	up, okU := Sent(b.V, g.Up)
	if !okA && !okU {
		b.Circle(name+" rest", c.X, c.Y, 6*b.U, ink.Paint{Line: ink.Rule, Dash: ink.Dash{On: 2 * b.U, Off: 2 * b.U}})
		return end, false
	}
	end = Place(in, across, okA, up, okU)
	trail(name, in, g)
	b.Line(name+" stick", c.X, c.Y, end.X, end.Y, ink.Paint{Line: ink.Ink, Width: 2.5 * b.U})
	b.Circle(name+" stick-foot", c.X, c.Y, 2.5*b.U, ink.Paint{Fill: ink.Ink})
	b.Circle(name+" stick-end", end.X, end.Y, 7*b.U, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.U})
	b.Circle(name+" stick-tip", end.X, end.Y, 2*b.U, ink.Paint{Fill: ink.Ink})
	return end, true
}

// Place is where the end of a stick is drawn in the inside of its well; what carries nothing stands in the middle.
func Place(in ink.Rect, across pulse.Width, okA bool, up pulse.Width, okU bool) ink.Point {
	at := in.Centre()
	if okA {
		at.X = in.X + in.W*Share(across)
	}
	if okU {
		at.Y = in.Bottom() - in.H*Share(up)
	}
	return at
}

// ends marks the ends of travel on the four sides.
func (b *Board) ends(name string, r, in ink.Rect) {
	t := 4 * b.U
	p := ink.Paint{Line: ink.Rule}
	for _, x := range [3]float64{in.X, in.Centre().X, in.Right()} {
		b.Line(name+" mark", x, r.Bottom()-t, x, r.Bottom(), p)
		b.Line(name+" mark", x, r.Y, x, r.Y+t, p)
	}
	for _, y := range [3]float64{in.Y, in.Centre().Y, in.Bottom()} {
		b.Line(name+" mark", r.X, y, r.X+t, y, p)
		b.Line(name+" mark", r.Right()-t, y, r.Right(), y, p)
	}
}

// corners marks where the sticks of a craft armed by sticks must be held.
func (b *Board) corners(name string, r, in ink.Rect, g Gimbal) {
	a := &b.V.Config.Arming
	if !facts.BySticks(b.V.Config) {
		return
	}
	d := 17 * b.U
	p := ink.Paint{Line: ink.Ink, Width: 1.6 * b.U, Dash: ink.Dash{On: 4 * b.U, Off: 3 * b.U}}
	low := r.Bottom() - d
	for _, at := range [2]struct{ x, edge float64 }{{in.X + in.W*Share(a.YawLeft) + 4*b.U, r.X}, {in.X + in.W*Share(a.YawRight) - 4*b.U, r.Right()}} {
		switch {
		case g.Up == Throttle && g.Across == Yaw:
			b.Line(name+" corner", at.x, low, at.edge, low, p)
			b.Line(name+" corner", at.x, low, at.x, r.Bottom(), p)
		case g.Across == Yaw:
			b.Line(name+" side", at.x, r.Y, at.x, r.Bottom(), p)
		}
	}
	if g.Up == Throttle && g.Across != Yaw {
		b.Line(name+" low", r.X, low, r.Right(), low, p)
	}
}

// trailTicks is how much of the way is shown (ours).
const trailTicks = 400

// trail draws where the stick has just been.
func (b *Board) trail(name string, in ink.Rect, g Gimbal) {
	b.Been(in, g, trailTicks, 0)
	b.Polyline(name+" trail", b.V.Pts, ink.Paint{Line: ink.Rule, Width: b.U})
}

// Been fills V.Pts with where the stick has been for some ticks, the newest place first, and gives how many of them are of the newest
// ticks.
func (b *Board) Been(in ink.Rect, g Gimbal, ticks, newest int64) (fresh int) {
	v, l := b.V, &b.V.Config.Layout
	ca, cu := ChannelOf(l, g.Across), ChannelOf(l, g.Up)
	v.Pts = v.Pts[:0]
	points := b.points()
	for i := len(points) - 1; i >= 0; i-- {
		pt := &points[i]
		a, u := pt.Sent[ca], pt.Sent[cu]
		if pt.Tick < v.Snap.Tick-ticks || !pt.HasSent || !a.Valid() || !u.Valid() {
			break
		}
		q := Place(in, a, true, u, true)
		if n := len(v.Pts); n == 0 || v.Pts[n-1] != q {
			v.Pts = append(v.Pts, q)
		}
		if pt.Tick >= v.Snap.Tick-newest {
			fresh = len(v.Pts)
		}
	}
	return fresh
}
