// Package bench is one sheet: the bench: the craft armed and disarmed, on the desk and in the air.
package bench

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/figure"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"slices"
	"strings"
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnBench, Flown: true,
		Shared: ui.Usual(ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu, ui.NextDriver, ui.ChooseRadio, ui.TurnStickMode, ui.TurnLanguage, ui.KeepAgain, ui.TurnRecording,
			ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight, ui.SeeFrom, ui.StandAgain, ui.FlyAgain, ui.NextBench, ui.TurnSound, ui.LeafBack, ui.LeafOn),
		Own:    []ui.Act{{Action: ui.AskAgain, Physical: "F2", Shows: func(v *ui.View) bool { return v.Driver == ui.Radio }}},
		Front:  []ui.Action{ui.SwitchRadio, ui.SwitchPack, ui.NextDriver, ui.ChooseRadio, ui.PauseFlight, ui.ReplayFlight, ui.FlyAgain, ui.StandAgain},
		Common: []ui.Action{ui.KeepAgain, ui.OnDrills.Open(), ui.TurnRecording},
	}
}

// part is the sheet in the window; the bench itself is worked by the screen.
type part struct{ screen.Base }

// New makes the sheet.
func New(*screen.Screen) screen.Sheet { return part{} }

func (part) About() *ui.About { return About() }

func (part) Draw(p *ink.Page, v *ui.View) { Draw(p, v) }

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws the bench: state and why not, sticks and switches, craft and link, the chart paper, and what can be done. In the air the craft has
// more room. In class view it shows less, larger.
func Draw(p *ink.Page, v *ui.View) {
	on, r := figure.Open(p, v, ui.OnBench)
	b := &board{on}
	if v.Class {
		b.class(r)
		return
	}
	switch air := v.Snap.In.Air; {
	case air && b.Tall:
		b.airStacked(r)
	case air:
		b.airWide(r)
	default:
		b.onDesk(r)
	}
}

// onDesk sets three columns: what the hands do, what the craft makes of it, and the record; on a portrait page two columns over the record.
func (b *board) onDesk(r ink.Rect) {
	hands, craft, record := b.Three(r, [3]float64{33, 33, 31}, b.Gap*1.6, 0.48, 0.485)
	b.Hands(hands)
	b.judgement(craft)
	b.record(record)
}

// airWide sets the hands at the left as on the desk bench; beside them the flying craft, over why not and the record.
func (b *board) airWide(r ink.Rect) {
	left, right := r.CutLeft((r.W-b.Gap*1.6)/3, b.Gap*1.6)
	b.Hands(left)
	most, share := right.H-b.FlightLeast()-b.Gap, 0.42
	why, size := b.airWhyNeeds(right.W*share, most)
	if why > most {
		share = 0.56
		why, size = b.airWhyNeeds(right.W*share, most)
	}
	bottom, top := right.CutBottom(ui.Clamp(why, min(right.H*0.29, most), most), b.Gap)
	b.Flight(top)
	judged, record := bottom.CutLeft(bottom.W*share, b.Gap*1.6)
	b.AirWhy(judged, size)
	b.airRecord(record)
}

// airStacked sets hands beside why not and the record, and the flying craft under them.
func (b *board) airStacked(r ink.Rect) {
	top, bottom := r.CutTop(r.H*0.46, b.Gap)
	b.Hands(top.Cell(0, 2, 1, b.Gap*1.6))
	right := top.Cell(1, 2, 1, b.Gap*1.6)
	most := right.H * 0.72
	why, size := b.WhyNeeds(right.W, most)
	judged, record := right.CutTop(ui.Clamp(why, right.H*0.25, most), b.Gap)
	b.AirWhy(judged, size)
	b.airRecord(record)
	b.Flight(bottom)
}

// judgement is why not, and the craft; in a large window the radio below.
func (b *board) judgement(r ink.Rect) {
	r = b.radio(r)
	need, size := b.WhyNeeds(r.W, r.H-b.CraftLeast()-b.Gap)
	top, rest := r.CutTop(ui.Clamp(need, r.H*0.3, r.H), b.Gap)
	b.Why(top, size)
	b.Craft(rest)
}

// airWhyNeeds is WhyNeeds for one who flies and looks elsewhere: armed, what disarms stands in smaller text.
func (b *board) airWhyNeeds(w, room float64) (height, size float64) {
	if b.V.Snap.Armed {
		return b.WhyHeight(w, b.Body), b.Body
	}
	return b.WhyNeeds(w, room)
}

// record is the link, the channels and the chart paper; while choosing between radios the choice stands first.
func (b *board) record(r ink.Rect) {
	if b.V.ChoosesRadio() {
		r = b.Choice(r)
	}
	b.Chart(b.Channels(b.Link(r)))
}

// airRecord is the link and the chart paper; while choosing between radios the choice stands in their place.
func (b *board) airRecord(r ink.Rect) {
	if b.V.ChoosesRadio() {
		b.Choice(r)
		return
	}
	if r.H > 300*b.U {
		r = b.Link(r)
	}
	b.Chart(r)
}

// class draws the bench for a room: state, how to change it, why not, sticks and switches. What is left out is found in the window. The hands have a
// place of their own, so that they stay where they are whatever is said; words that have no room above them stand beside them.
func (b *board) class(r ink.Rect) {
	larger := 1.0
	if b.Tall { // a portrait screen has the height for more
		larger = 3
	}
	b.Group("driver")
	r = b.ClassCaution(r)
	beside, r := b.StateAfar(r, larger)
	says := func(d *ui.Down) {
		d.Gap = 4 * b.U
		b.classSays(beside, d)
	}
	room := ink.BlockHeight(b.Body, 3) + 20*b.U // two lines and what counts
	said, hands := r.CutLeft(r.W*0.56, b.Gap*1.5)
	_, hands = hands.CutTop(room, 0)
	if b.Tall {
		hands, said = r.CutBottom(r.H*0.4, b.Gap)
	}
	d := b.Down(said, 0)
	if wide, below := r.CutTop(room, 0); !b.Tall && b.Takes(r.W, says) <= room {
		says(b.Down(wide, 0))
		below.W = said.W
		d.R = below
	} else {
		says(d)
	}
	b.classWhy(d.R)
	b.classHands(hands)
}

// classSays writes link, mode and motors, how to change the state, and what counts.
func (b *board) classSays(beside ink.Rect, d *ui.Down) {
	b.classFacts(beside, d)
	d.Say("disarmed", b.V.WhyDisarmed(), ink.Style{Size: b.Body})
	from := d.R
	d.Say("how", b.V.How(b.On), ink.Style{Size: b.Body, Weight: ink.Bold})
	b.HowHit(ink.Rect{X: from.X, Y: from.Y, W: from.W, H: d.R.Y - from.Y})
	if counts, share, any := tell.Countdown(&b.V.Facts); any {
		row := d.Row(ink.BlockHeight(b.Body, 1) + 8*b.U)
		b.Fitted("countdown", ink.Rect{X: row.X, Y: row.Y, W: row.W, H: ink.BlockHeight(b.Body, 1)}, ink.Style{Size: b.Body}, b.Say(counts))
		b.Filling(ink.Rect{X: row.X, Y: row.Bottom() - 6*b.U, W: row.W, H: 6 * b.U}, share)
	}
	b.Line("class-rule", d.R.X, d.R.Y, d.R.Right(), d.R.Y, ink.Paint{Line: ink.Grid})
	d.Row(0)
}

// classFacts are link, mode and motors, a line each beside the state; where there is no room for one, all below it.
func (b *board) classFacts(r ink.Rect, below *ui.Down) {
	s := &b.V.Snap
	last := words.T("class.motors", words.Args{"motors": tell.Motor(s.Motor[0], b.V.Config.Flight.IdleSpeed)})
	if s.In.Air {
		last = words.T("flight.class-height", words.Args{"height": tell.Metres(-s.Air.Body.Pos.Z), "climb": tell.Speed(-s.Air.Body.Vel.Z)})
	}
	all, style := [...]words.Text{tell.ClassLink(&b.V.Facts), tell.ClassMode(s), last}, ink.Style{Size: b.Body}
	for _, t := range all {
		if ink.Width(b.Say(t), b.Body, ink.Regular) > r.W {
			below.Say("fact", words.Clauses(all[:]...), style)
			return
		}
	}
	for i, t := range all {
		b.Fitted("fact", r.Cell(i, 1, len(all), 0), style, b.Say(t))
	}
}

// classWhy writes what disarms now, sentence by sentence, or the refusals that stand, page by page; where there is room left below the last, the craft with its motors.
func (b *board) classWhy(r ink.Rect) {
	b.Group("why-not")
	rows := b.V.RefusalRows()
	said := slices.DeleteFunc(strings.SplitAfter(b.Say(tell.ClassWhy(&b.V.Facts, len(rows) > 0)), ". "), func(s string) bool { return s == "" })
	style := ink.Style{Size: b.Body}
	high := func(i int) float64 {
		if i < len(said) {
			return ui.TextHeight(said[i], r.W, style)
		}
		return b.RefusalHeight(&rows[i-len(said)], r.W, b.Body)
	}
	rest := b.Leafed(r, len(said)+len(rows), 3*b.U, high, func(i int, at ink.Rect) {
		if i < len(said) {
			b.Block("why-sentence", at.X, at.Y, style, ink.Block{Width: at.W}, said[i])
			return
		}
		b.Refusal(at, &rows[i-len(said)], b.Body)
	})
	switch {
	case b.V.Leaves.Of > 1:
	case b.V.Snap.In.Air:
		b.classFlight(rest)
	case rest.H > 5*b.RowHeight()+50*b.U:
		b.Group("craft")
		b.FromAbove(rest)
	}
}

// classHands draws the sticks, and the switches as words.
func (b *board) classHands(r ink.Rect) {
	if b.V.ChoosesRadio() {
		b.Choice(r)
		return
	}
	b.Group("sticks")
	all := figure.Levers(b.V)
	line := ink.LineHeight(b.Body)
	low, sticks := r.CutBottom(float64(len(all))*line, 6*b.U)
	b.BothSticks(sticks, b.Stick)
	b.Group("switches")
	for i := range all {
		b.Fitted(all[i].Name+" switch", low.Cell(i, 1, len(all), 0), ink.Style{Size: b.Body}, b.Say(all[i].Stands(b.V)))
	}
}

// classFlight draws the flying craft for a room: from behind and from above, with how it flies in words where there is room.
func (b *board) classFlight(r ink.Rect) {
	b.Group("flight")
	s, re := &b.V.Snap, &b.V.Flight.Replay
	stands, style := tell.FlightStands(b.V.FlightFacts(s)), ink.Style{Size: b.Body, Weight: ink.Bold}
	if b.SayHeight(stands, r.W, style) > r.H {
		return
	}
	d := b.Down(r, 5*b.U)
	d.Say("flight-stands", stands, style)
	if p := &b.V.Flight.Pace; re.On || p.Paused || p.Slow > 1 {
		high := b.ForFinger(max(25*b.U, b.Cap+2*b.U))
		if d.R.H < high {
			return
		}
		if row := d.Row(high); re.On {
			b.LookBack(row, re)
		} else {
			b.PaceLine(row)
		}
	}
	if d.R.H < 100*b.U {
		return
	}
	fl := figure.NewFlying(s, b.V.Config, b.V.Flight.Trail)
	if b.V.Flight.From != ui.Drawn {
		b.Scene(d.R, &fl)
		return
	}
	b.Upright("behind", d.R.Cell(0, 2, 1, b.Gap), figure.EyeBehind(fl.Facing), &fl)
	b.Downward(d.R.Cell(1, 2, 1, b.Gap), &fl)
}
