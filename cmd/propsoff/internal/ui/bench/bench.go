// Package bench is one sheet: the bench: the craft armed and disarmed, on the desk and in the air.
package bench

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/cmd/propsoff/internal/ui/screen"
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{
		Place: ui.OnBench, Flown: true,
		Shared: []ui.Action{ui.SwitchRadio, ui.SwitchPack, ui.PlugCable, ui.TiltCraft, ui.NudgeCraft, ui.TurnMenu, ui.NextDriver, ui.ChooseRadio, ui.TurnStickMode, ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen, ui.ShowHelp, ui.Leave, ui.KeepAgain, ui.TurnRecording, ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight, ui.StandAgain},
		Own: []ui.Act{
			{Action: ui.AskAgain, Physical: "F2"},
			{Action: ui.TurnSound, Physical: "Z"},
		},
		Shows: shows,
		Does:  does,
	}
}

func shows(v *ui.View, a ui.Action) (shows, known bool) {
	switch a {
	case ui.AskAgain:
		return v.Driver == ui.Radio, true
	case ui.OnThree.Open():
		return v.Snap.In.Air, true
	}
	return false, false
}

func does(v *ui.View, a ui.Action) words.Text {
	if a == ui.TurnSound {
		return tell.Does(a.Code(), v.Sound.Off, 0)
	}
	return words.Text{}
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
	b := &board{figure.NewBoard(p, v)}
	if v.Class {
		b.class()
		return
	}
	r := b.Footer(b.SheetArea(), ui.OnBench)
	switch air := v.Snap.In.Air; {
	case air && b.Tall:
		b.airStacked(r)
	case air:
		b.airWide(r)
	case b.Tall:
		b.stacked(r)
	default:
		b.wide(r)
	}
}

// wide sets three columns: what the hands do, what the craft makes of it, and the record.
func (b *board) wide(r ink.Rect) {
	b.V.Cells = r.Columns(b.V.Cells[:0], b.Gap*1.6, ink.Share(33, 0), ink.Share(33, 0), ink.Share(31, 0))
	hands, craft, record := b.V.Cells[0], b.V.Cells[1], b.V.Cells[2]
	b.Hands(hands)
	b.judgement(craft)
	b.record(record)
}

// stacked sets two columns over the record.
func (b *board) stacked(r ink.Rect) {
	top, bottom := r.CutTop(r.H*0.48, b.Gap)
	b.Hands(top.Cell(0, 2, 1, b.Gap*1.6))
	b.judgement(top.Cell(1, 2, 1, b.Gap*1.6))
	b.record(bottom)
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

// judgement is why not, and the craft.
func (b *board) judgement(r ink.Rect) {
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
