package drills

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/body"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// shown is what of the bench a case is about, and so what stands on its sheet.
type shown struct {
	sticks, craft, situation, menu bool
	levers                         [drill.Jobs]bool // Arm, Second, ModeJob
}

// about is what a case is about: what it asks for, before the cue and after it, and what it has put wrong. It is the same from its beginning to its end,
// so nothing moves when the cue comes.
func (r *Run) about() (s shown) {
	c, _ := r.asked()
	bySticks := c.Craft.Arming == 2
	note := func(w *drill.Want, before bool) {
		switch w.Kind {
		case drill.Stick, drill.HoverThrottle, drill.Gesture, drill.Happens:
			s.sticks = true
		case drill.MenuValue, drill.MenuLeft:
			s.sticks, s.menu = true, true
		case drill.Armed, drill.DisarmedBy, drill.Refused, drill.Ready:
			if before && w.A == 0 && c.Choices > 0 { // only looked at from there on
				return
			}
			s.levers[drill.Arm] = s.levers[drill.Arm] || !bySticks
			s.sticks = s.sticks || bySticks
		case drill.ArmSwitch:
			s.levers[drill.Arm] = true
		case drill.SecondSwitch:
			s.levers[drill.Second] = true
		case drill.Mode, drill.ModeSwitch:
			s.levers[drill.ModeJob] = true
		case drill.Motors, drill.Flying, drill.Level, drill.Flies, drill.Leaves, drill.TouchesDown:
			s.craft = true
		case drill.Transmitter, drill.Power, drill.Cable, drill.Link, drill.Menu:
			s.situation = s.situation || !before || w.Kind != drill.Link && w.Kind != drill.Menu
		case drill.Clear, drill.OnlyThose, drill.Refuses:
			s.situation, s.craft = true, true
			s.levers[drill.Second] = s.levers[drill.Second] || arming.Set(w.A).Has(arming.SecondSwitchOff)
			s.levers[drill.ModeJob] = s.levers[drill.ModeJob] || arming.Set(w.A).Has(arming.NotSelfLevelling)
		}
	}
	for i := range c.Before {
		for k := range c.Before[i].Until {
			note(&c.Before[i].Until[k], true)
		}
	}
	for i := range c.Wants {
		note(&c.Wants[i], false)
	}
	s.wrong(c)
	for i := range c.With { // what the radio does is to be seen at the craft
		s.craft, s.situation = s.craft || c.With[i].Kind == pulse.Link, s.situation || c.With[i].Kind == pulse.Link
	}
	return s
}

// wrong adds where what the case has put wrong can be seen.
func (s *shown) wrong(c *drill.Case) {
	for i := range c.Set {
		switch f := &c.Set[i].Fault; f.Deed {
		case 0:
		case fault.ModeGap:
			s.levers[drill.ModeJob] = true
		case fault.Dropouts:
			s.situation = true
		case fault.Breeze, fault.Gusts, fault.LevelOff:
			s.craft = true
		case fault.ChannelOut:
			s.levers[drill.ModeJob], s.situation = s.levers[drill.ModeJob] || f.Job == drill.ModeJob, true
		default:
			s.sticks = true
		}
	}
	if c.Craft.AtLow > 0 || c.Craft.OnLoss > 0 && c.Choices > 0 {
		s.craft = true
	}
}

// scene is what the task is asked of: the hands, the bench as far as it matters, and the answers where there are any to choose from.
func (b *board) scene(r ink.Rect) {
	run := &Of(b.V).Run
	if c, _ := run.asked(); c.Mark.On() {
		b.followed(r, &c.Mark)
		return
	}
	s := run.about()
	_, said := run.asked()
	answers := run.Choices
	motor := said.Motor.Place != ""
	bench := s.craft || s.situation || s.menu || b.V.Snap.In.Air || run.propellers()
	hands := s.sticks || s.levers[drill.Arm] || s.levers[drill.ModeJob] || s.levers[drill.Second]
	picture := said.Picture != "" && !hands && !bench && !motor
	var parts []ink.Part
	var draw []func(ink.Rect)
	add := func(on bool, share float64, f func(ink.Rect)) {
		if on {
			parts, draw = append(parts, ink.Share(share, 0)), append(draw, f)
		}
	}
	wide := 5.0
	if len(answers) > 0 && bench {
		wide = 4
	}
	add(motor, 4, b.turning)
	add(picture, 2, func(r ink.Rect) { b.picture(r, said.Picture) })
	watched := len(answers) > 0 && (s.craft || b.V.Snap.In.Air || run.propellers()) // the answer is seen there
	if share := 3.4; watched {
		add(hands && !b.V.Class, 3, func(r ink.Rect) { b.hands(r, &s) })
		add(true, 4, func(r ink.Rect) { b.benchOf(r, &s) })
	} else {
		if b.V.Class {
			share = 4.4
		}
		if run.flown() { // the hands are busy, the eyes are on the craft
			wide, share = 4, 5
		}
		add(hands, wide, func(r ink.Rect) { b.hands(r, &s) })
		add(bench, share, func(r ink.Rect) { b.benchOf(r, &s) })
	}
	rest := r
	if len(answers) > 0 && len(parts) > 0 { // what is chosen from has the room that its words take
		need := b.choicesNeed(r, hands && bench)
		if b.Tall {
			rest, r = r.CutTop(r.H-need, b.Gap*1.6)
		} else {
			rest, r = r.CutLeft(r.W-need, b.Gap*1.6)
		}
	}
	if len(answers) > 0 {
		b.choices(r)
	}
	if r = rest; len(parts) == 0 {
		return
	}
	cells := r.Columns(nil, b.Gap*1.6, parts...)
	if b.Tall {
		cells = r.Rows(nil, b.Gap*1.6, parts...)
	}
	for i, cell := range cells {
		draw[i](cell)
	}
}

// benchOf is what of the bench a case is about: the craft in the air, its propellers, the craft on the desk, and how radio, pack and link stand.
func (b *board) benchOf(r ink.Rect, s *shown) {
	run := &Of(b.V).Run
	if run.propellers() {
		b.propellers(r)
		return
	}
	if s.menu { // moved blindly it would be a guess
		if _, said := run.asked(); b.V.Goggles.Open {
			b.GogglesPicture(r)
		} else {
			b.picture(r, said.Picture)
		}
		return
	}
	if b.V.Snap.In.Air && run.flown() {
		b.flight(r)
		return
	}
	if b.V.Snap.In.Air {
		b.Group("flight")
		fl := figure.NewFlying(&b.V.Snap, b.V.Config, b.V.Flight.Trail)
		if b.V.HideMode { // what the sticks ask for would tell it
			fl.Haunts = false
		}
		b.Upright("behind", r, figure.EyeBehind(fl.Facing), &fl)
		return
	}
	if s.situation {
		all := b.situation()
		style := ink.Style{Size: b.Body}
		stands := func(d *ui.Down) {
			d.Gap = 2 * b.U
			for _, t := range all {
				d.Say("stands", t, style)
			}
		}
		need := b.Takes(r.W, stands)
		foot, rest := r.CutBottom(min(need, r.H*0.6), b.Gap)
		if !s.craft {
			foot = r
		}
		b.Group("situation")
		stands(b.Down(foot, 2*b.U))
		r = rest
	}
	switch {
	case !s.craft:
	case (b.V.Class || r.W < 230*b.U) && r.H > 6*ink.BlockHeight(b.Small, 1): // one view large in place of three
		b.Group("craft")
		b.FromAbove(r)
	case !b.V.Class && r.H > b.CraftLeast():
		b.Craft(r)
	}
}

// situation says how radio, link, pack, cable and menu stand, as anybody sees it who stands before them; what that means is not told.
func (b *board) situation() (all []words.Text) {
	in := &b.V.Snap.In
	bit := map[bool]int32{true: 1}
	add := func(k drill.WantKind, a int32) { all = append(all, tell.WantSentence(drill.Want{Kind: k, A: a})) }
	add(drill.Transmitter, bit[in.Transmitter])
	add(drill.Power, bit[in.Powered])
	if in.Powered {
		add(drill.Link, 1<<b.V.Snap.Link)
	}
	if tilted := in.Craft.TiltTenths > b.V.Config.Arming.TiltLimitTenths; tilted && b.V.Class { // from afar the words tell it
		add(drill.Level, 0)
	}
	if in.Craft.Cable {
		add(drill.Cable, 1)
	}
	if in.Craft.Menu != pulse.MenuClosed {
		add(drill.Menu, int32(in.Craft.Menu))
	}
	if least := b.V.Config.Arming.PackLimitMilliVolts; least > 0 && in.Powered {
		all = append(all, words.T("drill.pack-stands", words.Args{"volts": tell.Volts(int(in.Craft.PackMilliVolts)), "least": tell.Volts(int(least))}))
	}
	if m := b.V.Config.Layout.Mode; b.V.Snap.Link == link.Good && m != layout.NoChannel && in.HasSent && !b.V.Snap.Received[m].Valid() {
		all = append(all, words.T("drill.no-pulse", words.Args{"channel": tell.ChannelNumber(int(m))}))
	}
	return all
}

// propellers draws the four motors from above with the propellers that are fitted.
func (b *board) propellers(r ink.Rect) {
	on := figure.Propellers{Turns: b.V.Config.Body.Turns, Hands: b.V.Snap.In.Hands, Selected: -1, Wordless: true}
	b.Group("propellers")
	r = b.Section(r, "propellers-heading", b.Say(words.T("drill.propellers")))
	b.Puzzle(&on, r)
}

// propellers tells whether the case that runs is about propellers: they are to be checked, or one is wrong on purpose.
func (r *Run) propellers() bool {
	if !r.On {
		return false
	}
	c, _ := r.asked()
	asks := func(all []drill.Want) bool {
		return slices.ContainsFunc(all, func(w drill.Want) bool { return w.Kind == drill.Checked })
	}
	wrong := func(p drill.Put) bool {
		hands, _ := pulse.PropellersOf(p.Value)
		return p.Kind == pulse.Propellers && hands != body.Directions(true)
	}
	return asks(c.Wants) || slices.ContainsFunc(c.Before, func(b drill.Preparation) bool { return asks(b.Until) || slices.ContainsFunc(b.Puts, wrong) }) ||
		slices.ContainsFunc(c.Set, wrong)
}
