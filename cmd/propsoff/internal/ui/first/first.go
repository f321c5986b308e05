// Package first is one sheet: what comes before the first flight.
package first

import (
	"math"
	"strconv"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/flight"
)

// What its own keys do.
const (
	NextMotor         ui.Action = "next-motor"         // the next motor
	TurnPropeller     ui.Action = "turn-propeller"     // another propeller on it: NextHand
	PropellersChecked ui.Action = "propellers-checked" // the propellers are right, or to be looked at again
	GoOut             ui.Action = "go-out"             // carry the craft to the other bench
	ShowOutside       ui.Action = "show-outside"       // carry it out for those who teach, the list left as it is
)

// Of is what this sheet knows besides what all know.
func Of(v *ui.View) *View { return ui.Own[View](v) }

// About is what there is to know of the sheet.
func About() *ui.About { return new(part).About() }

// About is what there is to know of the sheet.
func (p *part) About() *ui.About {
	free := func(v *ui.View) bool { return !v.Playing() }
	return &ui.About{
		Place: ui.OnFirst, Key: "B",
		Shared: ui.Usual(),
		Own: []ui.Act{
			{Action: NextMotor, Physical: "Right", Shows: free, Do: func() { p.view.Selected = (p.view.Selected + 1) % len(p.view.Hands) }},
			{Action: TurnPropeller, Physical: "Up", Shows: free, Do: p.turnPropeller, Says: func(v *ui.View) words.Text { return tell.FitNext(NextHand(Of(v).hand())) }},
			{Action: PropellersChecked, Physical: "Period", Shows: free, Do: p.check, On: func(v *ui.View) bool { return Of(v).Checked }},
			{Action: GoOut, Physical: "Enter", Do: p.goOut, On: func(v *ui.View) bool { return v.Snap.In.Air },
				Shows: func(v *ui.View) bool { return free(v) && (v.Snap.In.Air || Of(v).Ready()) }},
			{Action: ShowOutside, Physical: "Slash", Do: p.askToShow, Shows: func(v *ui.View) bool { return free(v) && !v.Snap.In.Air && !Of(v).Ready() }},
		},
		Picks: []ui.Pick{{Prefix: needPrefix, Do: p.need}},
	}
}

// needPrefix and a number from 1 name the hit areas of the needs that are not met.
const needPrefix = "need-"

// What must have been seen before the first flight, in the order in which it is shown.
const (
	NeedCheck      = iota // every control of the radio was checked
	NeedArmed             // the craft armed on the desk bench
	NeedDisarmed          // … and disarmed
	NeedLinkLost          // it was seen what it does when the radio goes silent
	NeedPropellers        // the propellers are checked; View.Checked says so
	NeedCount
)

// View is what the sheet may know.
type View struct {
	// Needs are the things that must have been seen on the desk bench; that of NeedPropellers is not used, Checked is.
	Needs [NeedCount]Need
	figure.Propellers
	// Checked: the pilot says that the propellers are right. Changing one takes it back.
	Checked bool
	// Came is what the last flight came to, Tried the propellers with which it was flown. Planted: an instructor put another one on.
	Came    Outing
	Tried   [flight.Motors]int8
	Planted bool
}

// Need is one thing that must have been seen.
type Need struct {
	Done bool
	// Tick is when it was seen, in ms of the practice; negative where that is not known.
	Tick int64
	// How says how it was seen, as a sentence; it says nothing where there is nothing to add.
	How words.Text
}

// Outing is what a flight with the propellers as they were came to.
type Outing uint8

// The outings.
const (
	NoOuting Outing = iota
	Flipped         // it tipped over
	NoLift          // it never left the ground, with the throttle up
)

// done tells whether a need is met.
func (v *View) done(need int) bool {
	if need == NeedPropellers {
		return v.Checked
	}
	return v.Needs[need].Done
}

// Ready tells whether everything is done that is asked for before the craft may be carried out.
func (v *View) Ready() bool {
	for i := range NeedCount {
		if !v.done(i) {
			return false
		}
	}
	return true
}

// NextHand is the propeller after one: clockwise, counter-clockwise, none.
func NextHand(hand int8) int8 {
	switch hand {
	case 1:
		return -1
	case -1:
		return 0
	}
	return 1
}

// hand is the propeller on the motor selected.
func (v *View) hand() int8 {
	if v.Selected < 0 || v.Selected >= len(v.Hands) {
		return 0
	}
	return v.Hands[v.Selected]
}

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws what must have been seen before the first flight, and the propellers.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnFirst)
	b := &board{on}
	size, air := b.TextSize(20), v.Snap.In.Air
	if v.Class {
		size = b.Body * 1.3
	}
	b.Group("first")
	size, _ = ink.Fit(r.W, b.Body, size, ink.Bold, b.Say(tell.FirstTitle(true)), b.Say(tell.FirstTitle(false)))
	d := b.Down(r, 4*b.U)
	d.Say("title", tell.FirstTitle(air), ink.Style{Size: size, Weight: ink.Bold})
	if !v.Class {
		d.Say("what", words.T("first.what", words.Args{"air": words.Flag(air)}), ink.Style{Size: b.Head})
	}
	b.outing(d)
	left, right := b.Split(d.R, d.R.W*0.44, d.R.H*0.4, 1.6)
	b.needs(left)
	b.puzzle(right)
}

// outing says what the last flight came to, where it came to grief.
func (b *board) outing(d *ui.Down) {
	v := Of(b.V)
	if v.Came == NoOuting {
		return
	}
	came, style := words.T("first.came", words.Args{"flipped": words.Flag(v.Came == Flipped)}), ink.Style{Size: b.Head, Weight: ink.Bold}
	if !v.Planted { // else it is for the pupil to find out
		came = tell.WrongPropellers(v.Turns, v.Tried, v.Came == Flipped)
	}
	b.Beware(d, "outing", came, style)
}

// needs lists what must have been seen: a box with a tick in it, or an empty one, what it is, and how it was seen or can be.
func (b *board) needs(r ink.Rect) {
	b.Group("needs")
	v := Of(b.V)
	r = b.Section(r, "needs-heading", b.Say(words.T("first.heading")))
	left := 0
	for i := range NeedCount {
		if !v.done(i) {
			left++
		}
	}
	style := ink.Style{Size: b.Large, Weight: ink.Bold}
	ready := tell.FirstReady(b.V.Snap.In.Air, left, b.V.KeyFor(GoOut, ui.OnFirst))
	foot, r := b.Foot(r, 6*b.U, math.MaxInt, "ready", ready, style)
	if b.V.Shows(GoOut, ui.OnFirst) {
		more := max(b.Least()-foot.H, 0)
		_, r = r.CutBottom(more, 0)
		b.CapHit(GoOut.Code(), b.V.House.KeyOf(GoOut), ink.Rect{X: foot.X, Y: foot.Y - more, W: foot.W, H: foot.H + more})
	}

	// The names as large as they fit, the sentences below a little smaller.
	name, small := style, ink.Style{Size: b.Body}
	switch {
	case b.V.Class:
		name.Size = b.Body
	case b.V.Touch: // a small screen has no room to waste
		small.Size = b.Large
	}
	_, text := r.CutLeft(ink.BlockHeight(name.Size, 1), 8*b.U)
	list := func(d *ui.Down, seen bool, space float64) {
		for i := range NeedCount {
			d.Row(3 * b.U)
			from := d.R.Y
			b.NeedMark(r.X, d.R.Y, ink.BlockHeight(name.Size, 1), v.done(i))
			d.Say("need", tell.Need(i), name)
			if small.Colour = ink.Ink; v.done(i) {
				small.Colour = ink.Faint
			}
			if seen {
				d.Say("need-seen", b.seen(i), small)
			}
			if key := cures(i); !v.done(i) && !b.V.Playing() {
				d.Row(max(from+b.Least()-d.R.Y, 0))
				b.CapHit(needPrefix+strconv.Itoa(i+1), b.V.House.KeyOf(key), ink.Rect{X: r.X, Y: from, W: r.W, H: d.R.Y - from})
			}
			d.Row(space)
		}
	}
	height := func(seen bool) float64 { return b.Takes(text.W, func(d *ui.Down) { list(d, seen, b.U) }) }
	for !b.V.Class && height(true) > r.H && name.Size > b.Small {
		name.Size, small.Size = name.Size-1, max(small.Size-1, b.Small)
	}
	seen := !b.V.Class && height(true) <= r.H
	list(b.Down(text, 0), seen, ui.Clamp((r.H-height(seen))/NeedCount, 0, 22*b.U))
}

// cures is what leads to a need being met: the sheet of the controls check, the bench, or here that the propellers were looked at.
func cures(need int) ui.Action {
	switch need {
	case NeedCheck:
		return ui.OnCheck.Open()
	case NeedPropellers:
		return PropellersChecked
	}
	return ui.OnBench.Open()
}

// seen says how a need was met, or how it can be.
func (b *board) seen(need int) words.Text {
	key := func(a ui.Action) words.Text { return b.V.Named(a, ui.OnFirst) }
	switch v := Of(b.V); {
	case !v.done(need):
		how := tell.NeedHow(need, tell.FirstKeys{Check: key(ui.OnCheck.Open()), First: key(ui.OnFirst.Open()), Radio: key(ui.SwitchRadio), Checked: key(PropellersChecked),
			Played: b.V.Playing(), Drives: b.V.Driver == ui.Radio, LetDrive: b.V.KeyToRadio(ui.OnFirst), Radios: len(b.V.Radios)})
		if need == NeedPropellers {
			how = words.Row(tell.MissingPropellers(v.Hands), how)
		}
		return how
	case need == NeedPropellers:
		return words.Row(words.T("first.propellers-seen"), tell.MissingPropellers(v.Hands))
	default:
		return tell.NeedSeen(v.Needs[need].Tick, v.Needs[need].How)
	}
}

// puzzle draws the four motors from above, what turns how, and the propeller on each.
func (b *board) puzzle(r ink.Rect) {
	b.Group("propellers")
	r = b.Section(r, "puzzle-heading", b.Say(words.T("first.puzzle-heading")))
	for _, rule := range [...]words.Text{words.T("first.puzzle-not-told"), words.T("first.puzzle-rules")} {
		if !b.V.Class {
			_, r = b.Foot(r, 3*b.U, math.MaxInt, "puzzle-rule", rule, ink.Style{Size: b.Small})
		}
	}
	b.Puzzle(&Of(b.V).Propellers, r)
}
