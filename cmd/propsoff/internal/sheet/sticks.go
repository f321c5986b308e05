package sheet

import (
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// job is one of the four things that sticks carry.
type job uint8

const (
	throttle job = iota
	yaw
	pitch
	roll
	jobs
)

// gimbal says what one physical stick carries.
type gimbal struct{ across, up job }

// gimbals are left and right stick for each stick mode (common practice, no source).
var gimbals = [5][2]gimbal{
	1: {{yaw, pitch}, {roll, throttle}},
	2: {{yaw, throttle}, {roll, pitch}},
	3: {{roll, pitch}, {yaw, throttle}},
	4: {{roll, throttle}, {yaw, pitch}},
}

// stickMode keeps a stick mode within 1 to 4; 2 where it is not.
func stickMode(mode int) int {
	if mode < 1 || mode > 4 {
		return 2
	}
	return mode
}

// jobFacts: word, pen colour, and the keys that move it to its low and high end.
var jobFacts = [jobs]struct {
	word      string
	pen       ink.Role
	low, high keyboard.Key
}{
	throttle: {"throttle", ink.Throttle, keyboard.ThrottleDown, keyboard.ThrottleUp},
	yaw:      {"yaw", ink.Yaw, keyboard.YawLeft, keyboard.YawRight},
	pitch:    {"pitch", ink.Pitch, keyboard.PitchBack, keyboard.PitchForward},
	roll:     {"roll", ink.Roll, keyboard.RollLeft, keyboard.RollRight},
}

// channelOf is the channel, from 0, that carries a job.
func channelOf(l *layout.Config, j job) int {
	return int([jobs]int8{throttle: l.Throttle, yaw: l.Yaw, pitch: l.Pitch, roll: l.Roll}[j])
}

// sent is what the hands hold for a job; false where it carries no pulse or nothing was read yet.
func (v *View) sent(j job) (pulse.Width, bool) {
	w := v.Snap.In.Sent[channelOf(&v.Config.Layout, j)]
	return w, v.Snap.In.HasSent && w.Valid()
}

// share is where a width stands between the ends of travel, 0 … 1, kept a little beyond them.
func share(w pulse.Width) float64 {
	return clamp(float64(w-pulse.Low)/float64(pulse.High-pulse.Low), -0.04, 1.04)
}

// sticks draws both sticks at their true side.
func (b *board) sticks(r ink.Rect) {
	b.Group("sticks")
	mode := stickMode(b.v.StickMode)
	rest := b.section(r, "sticks heading", phrase.SticksTitle(mode))
	for i, g := range gimbals[mode] {
		b.stick(rest.Cell(i, 2, 1, b.gap), g, [2]string{"left", "right"}[i])
	}
}

// stick draws one stick in its well: the job of each direction with its value, and the keys that move it.
func (b *board) stick(r ink.Rect, g gimbal, name string) {
	line, key := b.body+3*b.u, 0.0
	cornered := g.across == yaw && facts.BySticks(b.v.Config)
	if b.stickKeys() || cornered {
		key = b.cap
	}
	head := max(line, key)
	foot := line + key + 2*b.u
	if !b.stickKeys() {
		head = line
	}
	size := min(r.W-2*(key+3*b.u), r.H-head-foot-6*b.u)
	if size < 20*b.u {
		size = 20 * b.u
	}
	top := r.Y + (r.H-head-foot-6*b.u-size)/2
	well := ink.Rect{X: r.Centre().X - size/2, Y: top + head + 3*b.u, W: size, H: size}
	mid := r.Centre().X

	// The upright direction above the well, the one across below it.
	upKey := key
	if !b.stickKeys() {
		upKey = 0
	}
	b.reading(name+" up", mid, top+head/2, upKey, jobFacts[g.up].high, g.up)
	if cornered && ink.Width(phrase.Corner(false), b.small, ink.Regular)+3*b.u < (size-key)/2 {
		y := well.Bottom() + 3*b.u + key/2
		b.Text("disarm corner", well.X, y, ink.Style{Size: b.small, Anchor: ink.Middle}, phrase.Corner(false))
		b.Text("arm corner", well.Right(), y, ink.Style{Size: b.small, Anchor: ink.Right | ink.Middle}, phrase.Corner(true))
	}
	if b.stickKeys() {
		b.keyCap(name+" down key", mid, well.Bottom()+3*b.u+key/2, key, keyOf(jobFacts[g.up].low))
		b.keyCap(name+" left key", well.X-3*b.u-key/2, well.Centre().Y, key, keyOf(jobFacts[g.across].low))
		b.keyCap(name+" right key", well.Right()+3*b.u+key/2, well.Centre().Y, key, keyOf(jobFacts[g.across].high))
	}
	b.reading(name+" across", mid, well.Bottom()+3*b.u+key+2*b.u+line/2, 0, 0, g.across)

	b.well(name, well, g)
}

// reading writes a job and its value to both sides of a place, with the key between them where there is one.
func (b *board) reading(name string, x, y, key float64, k keyboard.Key, j job) {
	half := 3 * b.u
	if key > 0 {
		b.keyCap(name+" key", x, y, key, keyOf(k))
		half = key/2 + 5*b.u
	}
	value := "–"
	if w, ok := b.v.sent(j); ok {
		value = phrase.Micros(w)
		if !b.v.Class {
			value += " µs"
		}
	}
	b.Text(name+" job", x-half, y, ink.Style{Size: b.body, Colour: ink.Faint, Anchor: ink.Right | ink.Middle}, jobFacts[j].word)
	b.Text(name+" value", x+half, y, ink.Style{Size: b.body, Weight: ink.Bold, Anchor: ink.Middle}, value)
}

// well draws the stick as it is held, with the last moments of its way, and the corners that arm and disarm.
func (b *board) well(name string, r ink.Rect, g gimbal) {
	b.RoundRect(name+" well", r, 8*b.u, ink.Paint{Line: ink.Rule, Width: 1.2 * b.u})
	b.inWell(name, r, g, b.trail)
}

// inWell draws what stands in a well: guides, corners, the way that trail draws and the stick, whose end it returns; ok is false
// where nothing is sent.
func (b *board) inWell(name string, r ink.Rect, g gimbal, trail func(name string, in ink.Rect, g gimbal)) (end ink.Point, ok bool) {
	in, c := r.Inset(10*b.u), r.Centre()
	guide := ink.Paint{Line: ink.Grid, Under: true}
	b.Line(name+" guide across", in.X, c.Y, in.Right(), c.Y, guide)
	b.Line(name+" guide up", c.X, in.Y, c.X, in.Bottom(), guide)
	b.ends(name, r, in)
	b.corners(name, r, in, g)

	across, okA := b.v.sent(g.across)
	up, okU := b.v.sent(g.up)
	if !okA && !okU {
		b.Circle(name+" rest", c.X, c.Y, 6*b.u, ink.Paint{Line: ink.Rule, Dash: ink.Dash{On: 2 * b.u, Off: 2 * b.u}})
		return end, false
	}
	end = place(in, across, okA, up, okU)
	trail(name, in, g)
	b.Line(name+" stick", c.X, c.Y, end.X, end.Y, ink.Paint{Line: ink.Ink, Width: 2.5 * b.u})
	b.Circle(name+" stick foot", c.X, c.Y, 2.5*b.u, ink.Paint{Fill: ink.Ink})
	b.Circle(name+" stick end", end.X, end.Y, 7*b.u, ink.Paint{Fill: ink.Paper, Line: ink.Ink, Width: 2 * b.u})
	b.Circle(name+" stick tip", end.X, end.Y, 2*b.u, ink.Paint{Fill: ink.Ink})
	return end, true
}

func place(in ink.Rect, across pulse.Width, okA bool, up pulse.Width, okU bool) ink.Point {
	at := in.Centre()
	if okA {
		at.X = in.X + in.W*share(across)
	}
	if okU {
		at.Y = in.Bottom() - in.H*share(up)
	}
	return at
}

// ends marks the ends of travel on the four sides.
func (b *board) ends(name string, r, in ink.Rect) {
	t := 4 * b.u
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
func (b *board) corners(name string, r, in ink.Rect, g gimbal) {
	a := &b.v.Config.Arming
	if !facts.BySticks(b.v.Config) {
		return
	}
	d := 17 * b.u
	p := ink.Paint{Line: ink.Ink, Width: 1.6 * b.u, Dash: ink.Dash{On: 4 * b.u, Off: 3 * b.u}}
	low := r.Bottom() - d
	left, right := in.X+in.W*share(a.YawLeft), in.X+in.W*share(a.YawRight)
	switch {
	case g.up == throttle && g.across == yaw:
		b.Line(name+" corner", right-4*b.u, low, r.Right(), low, p)
		b.Line(name+" corner", right-4*b.u, low, right-4*b.u, r.Bottom(), p)
		b.Line(name+" corner", r.X, low, left+4*b.u, low, p)
		b.Line(name+" corner", left+4*b.u, low, left+4*b.u, r.Bottom(), p)
	case g.up == throttle:
		b.Line(name+" low", r.X, low, r.Right(), low, p)
	case g.across == yaw:
		b.Line(name+" side", left+4*b.u, r.Y, left+4*b.u, r.Bottom(), p)
		b.Line(name+" side", right-4*b.u, r.Y, right-4*b.u, r.Bottom(), p)
	}
}

// trailTicks is how much of the way is shown (ours).
const trailTicks = 400

// trail draws where the stick has just been.
func (b *board) trail(name string, in ink.Rect, g gimbal) {
	b.been(in, g, trailTicks, 0)
	b.Polyline(name+" trail", b.v.pts, ink.Paint{Line: ink.Rule, Width: b.u})
}

// been fills v.pts with where the stick has been for some ticks, the newest place first, and gives how many of them are of the newest
// ticks.
func (b *board) been(in ink.Rect, g gimbal, ticks, newest int64) (fresh int) {
	v, l := b.v, &b.v.Config.Layout
	ca, cu := channelOf(l, g.across), channelOf(l, g.up)
	v.pts = v.pts[:0]
	for i := len(v.Chart) - 1; i >= 0; i-- {
		pt := &v.Chart[i]
		if pt.Tick > v.Snap.Tick { // a look back: that was later
			continue
		}
		a, u := pt.Sent[ca], pt.Sent[cu]
		if pt.Tick < v.Snap.Tick-ticks || !pt.HasSent || !a.Valid() || !u.Valid() {
			break
		}
		q := place(in, a, true, u, true)
		if n := len(v.pts); n == 0 || v.pts[n-1] != q {
			v.pts = append(v.pts, q)
		}
		if pt.Tick >= v.Snap.Tick-newest {
			fresh = len(v.pts)
		}
	}
	return fresh
}
