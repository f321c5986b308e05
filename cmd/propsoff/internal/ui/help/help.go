// Package help is one sheet: all keys, and the cautions.
package help

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/cmd/propsoff/internal/ui/figure"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/input/keyboard"
	"propsoff/sim/layout"
)

// About is what there is to know of the sheet.
func About() *ui.About {
	return &ui.About{Place: ui.OnHelp, NoClass: true, Shared: ui.Usual(ui.TurnLanguage), Common: []ui.Action{ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen}}
}

// part is the sheet in the window.
type part struct{ screen.Base }

// New makes the sheet.
func New(*screen.Screen) screen.Sheet { return part{} }

func (part) About() *ui.About { return About() }

func (part) Draw(p *ink.Page, v *ui.View) { Draw(p, v) }

// board is a page being drawn, with what this sheet draws on it.
type board struct{ *figure.Board }

// Draw draws every key, and the cautions, the transmitting radio first.
func Draw(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	r := b.Actions(b.SheetArea(), ui.OnHelp)
	b.Group("help")
	d := b.Down(r, 4*b.U)
	d.Say("title", words.T("help-sheet.title"), ink.Style{Size: b.TextSize(20), Weight: ink.Bold})
	columns, highest := 3, 44*b.U // of a row
	if b.Tall {
		columns, highest = 2, 72*b.U
	}
	all, most := columnsOf(v, columns), 0
	for _, rows := range all {
		most = max(most, len(rows))
	}
	_, cautions := b.cautionsFit(d.R, b.Body, b.Body, 2)
	keys, rest := d.R.CutTop(min(float64(most)*ui.Clamp(d.R.H*0.6/float64(most), 27*b.U, highest), d.R.H-cautions-b.Gap), b.Gap)
	for c, rows := range all {
		for i := range rows {
			b.row(keys.Cell(i*columns+c, columns, most, 0), &rows[i])
		}
	}
	b.cautions(rest, b.TextSize(24), 2)
}

// row draws a heading, or a key and what it does: on two lines where they are needed and there is room.
func (b *board) row(r ink.Rect, row *row) {
	r.W -= 8 * b.U
	if row.key == "" {
		b.Fitted(row.name, r, ink.Style{Size: b.Small, Weight: ink.Bold, Colour: ink.Faint}, b.Say(row.text))
		return
	}
	w := b.CapWidth(b.Cap, row.key)
	key, text := r.CutLeft(max(w, 44*b.U), 7*b.U)
	b.KeyCap(row.name+" key", key.Right()-w/2, key.Centre().Y, min(b.Cap, r.H-b.U), row.key)
	size := b.Small
	if r.H > ink.BlockHeight(b.Head, 2) {
		size = b.Head
	}
	h := min(b.SayHeight(row.text, text.W, ink.Style{Size: size}), ink.BlockHeight(size, 2))
	if h > r.H+2*b.U {
		h = ink.BlockHeight(size, 1)
	}
	text.Y, text.H = text.Centre().Y-h/2, h
	b.Down(text, 0).Say(row.name+" help", row.text, ink.Style{Size: size})
}

// row is one line of the help sheet: a key and what it does; a heading has no key.
type row struct {
	key  string
	text words.Text
	name string
}

// The groups of keys, as tell.HelpHeading counts them.
const (
	groupSticks = iota
	groupSwitches
	groupBench
	groupQuestions
	groupStart
	groupSheet
	groupDriver
	groupSheets
	groupAir
	groupWindow
)

// groups are the groups of keys of the bench by column, for three columns and for two: as even as they get.
var groups = [2][3][]int{
	{{groupSticks, groupSwitches}, {groupBench, groupSheets}, {groupDriver, groupAir, groupWindow, groupStart}},
	{{groupSticks, groupSwitches, groupDriver, groupStart}, {groupBench, groupSheets, groupAir, groupWindow}},
}

// groupOf is the group of an action of the bench.
func groupOf(v *ui.View, a ui.Action) int {
	if v.House.Of(ui.Place(a)) != nil && a != ui.ShowHelp {
		return groupSheets
	}
	switch a {
	case ui.NextDriver, ui.ChooseRadio, ui.TurnStickMode, ui.AskAgain, ui.KeepAgain:
		return groupDriver
	case ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight, ui.StandAgain:
		return groupAir
	case ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen, ui.TurnSound, ui.TurnRecording, ui.ShowHelp, ui.Leave:
		return groupWindow
	}
	return groupBench
}

// columnsOf are the rows of the help sheet in columns: on the bench in their groups, on another sheet its own keys, and those of the
// keyboard pilot where it drives there.
func columnsOf(v *ui.View, columns int) (rows [3][]row) {
	of := v.HelpOf
	if of == "" || of == ui.OnBench {
		for c, groups := range groups[3-columns] {
			for _, g := range groups {
				rows[c] = rowsOf(v, rows[c], g, ui.OnBench)
			}
		}
		return rows
	}
	group := groupSheet
	if of == ui.OnQuestions {
		group = groupQuestions
	}
	all := rowsOf(v, nil, group, of)
	if v.House.Flown(of) {
		all = rowsOf(v, rowsOf(v, all, groupSticks, of), groupSwitches, of)
	}
	each := (len(all) + columns - 1) / columns
	for c := range columns {
		n := min(each, len(all))
		if n > 1 && n < len(all) && all[n-1].key == "" { // a heading stands over its keys
			n--
		}
		if c == columns-1 {
			n = len(all)
		}
		rows[c], all = append(rows[c], all[:n]...), all[n:]
	}
	return rows
}

// rowsOf appends a heading and every key of one group, as they are on the sheet of.
func rowsOf(v *ui.View, dst []row, group int, of ui.Place) []row {
	dst = append(dst, row{text: tell.HelpHeading(group), name: "help-heading"})
	switch group {
	case groupSticks, groupSwitches:
		for _, k := range ui.LayoutKeys {
			if k.Key.Stick() == (group != groupSwitches) {
				dst = append(dst, row{k.Physical, keyHelp(v, k), k.Code})
			}
		}
		return dst
	case groupStart:
		of = ui.OnCautions
	}
	for _, a := range v.House.Keys(of) {
		if of == ui.OnBench && groupOf(v, a.Action) != group || group == groupStart && a.Action != ui.Understood {
			continue
		}
		text := tell.KeyHelp(a.Action.Code(), v.Language().Next().Name())
		if ui.BenchInput(a.Action) && v.Playing() {
			text = words.T("help-sheet.not-while-playing")
		}
		dst = append(dst, row{a.Physical, text, a.Action.Code()})
	}
	if group == groupQuestions {
		dst = append(dst, row{"1–" + strconv.Itoa(ui.MostChoices), tell.KeyHelp("choose", ""), "choose"})
	}
	return dst
}

// keyHelp says what a key of the keyboard's layout does with this craft.
func keyHelp(v *ui.View, k keyboard.Binding) words.Text {
	l := &v.Config.Layout
	switch {
	case k.Key == keyboard.Arm && l.Arm == layout.NoChannel:
		return tell.NoSwitch("arm")
	case k.Key == keyboard.Second && l.Second == layout.NoChannel:
		return tell.NoSwitch("second")
	case modeKeys[k.Key] && l.Mode == layout.NoChannel:
		return tell.NoSwitch("mode")
	}
	return words.Of("hand", k.Code)
}

// modeKeys are the keys of the mode switch.
var modeKeys = map[keyboard.Key]bool{keyboard.ModeLow: true, keyboard.ModeMiddle: true, keyboard.ModeHigh: true}

// AboutCautions is what there is to know of the sheet of the first start.
func AboutCautions() *ui.About {
	return &ui.About{
		Place: ui.OnCautions, NoClass: true,
		Shared: []ui.Action{ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen, ui.Leave},
		Own:    []ui.Act{{Action: ui.Understood, Physical: "Enter"}},
		Common: []ui.Action{ui.TurnSheet, ui.TurnLanguage, ui.TurnFullScreen},
	}
}

// cautionsPart is the sheet in the window.
type cautionsPart struct{ screen.Base }

// NewCautions makes the sheet of the first start.
func NewCautions(*screen.Screen) screen.Sheet { return cautionsPart{} }

func (cautionsPart) About() *ui.About { return AboutCautions() }

func (cautionsPart) Draw(p *ink.Page, v *ui.View) { DrawCautions(p, v) }

// DrawCautions draws what must be read before the first start, and the key that says it was.
func DrawCautions(p *ink.Page, v *ui.View) {
	b := &board{figure.NewBoard(p, v)}
	r := b.Actions(b.SheetArea(), ui.OnCautions)
	b.Group("cautions")
	d := b.Down(r, b.Gap)
	d.Say("title", words.T("help-sheet.cautions-title"), ink.Style{Size: b.TextSize(30), Weight: ink.Bold})
	read, rest := d.R.CutBottom(44*b.U, b.Gap)
	b.RoundRect("understood-frame", read, 6*b.U, ink.Paint{Fill: ink.Panel, Line: ink.Ink, Width: 2 * b.U})
	key, h := b.V.House.KeyOf(ui.Understood), 26*b.U
	_, in := read.CutLeft(16*b.U, 0)
	text := b.KeyAt(in, "understood-key", key, h, 12*b.U).Inset(2 * b.U)
	size, _ := ink.FitBlock(text.W, text.H, b.Body, b.Large, ink.Bold, b.Say(words.T("help-sheet.cautions-read")))
	style := ink.Style{Size: size, Weight: ink.Bold}
	_, text = text.CutTop((text.H-b.SayHeight(words.T("help-sheet.cautions-read"), text.W, style))/2, 0)
	b.Down(text, 0).Say("understood", words.T("help-sheet.cautions-read"), style)
	b.Hit(ui.Understood.Code(), key, read)
	b.cautions(rest, b.TextSize(34), 1)
}

// cautionsFit is the largest size of text from least to most at which the cautions fit into so many columns, and what they take then.
func (b *board) cautionsFit(r ink.Rect, least, most float64, columns int) (size, height float64) {
	takes := func(size float64) float64 {
		return b.Takes(r.W, func(d *ui.Down) { d.R.Y = b.cautionsIn(d.R, columns, size, 0) })
	}
	for size = least; size < most && takes(size+1) <= r.H; size++ {
	}
	return size, takes(size)
}

// cautions writes the cautions as large as they fit; what room is left stands between them.
func (b *board) cautions(r ink.Rect, most float64, columns int) {
	b.Group("cautions")
	size, height := b.cautionsFit(r, b.Body, most, columns)
	each := (len(tell.Cautions()) + columns - 1) / columns
	b.cautionsIn(r, columns, size, ui.Clamp((r.H-height)/float64(each), 0, 40*b.U))
}

// cautionsIn writes the cautions, numbered, in columns, with so much room to spare for each; the first, which can hurt somebody at this very
// moment, in bold. It gives how far down they reach.
func (b *board) cautionsIn(r ink.Rect, columns int, size, spare float64) (low float64) {
	all := tell.Cautions()
	each := (len(all) + columns - 1) / columns
	r = b.Section(r, "cautions-heading", b.Say(words.T("help-sheet.cautions")))
	var d *ui.Down
	for i, t := range all {
		cell := r.Cell(i/each, columns, 1, b.Gap*1.6)
		if i%each == 0 {
			d = b.Down(ink.Rect{X: cell.X + 2*size, Y: cell.Y + spare/2, W: cell.W - 2*size, H: cell.H - spare/2}, size*0.7+spare)
		}
		b.Text("caution-number", cell.X, d.R.Y, ink.Style{Size: size, Weight: ink.Bold, Colour: ink.Faint, Anchor: ink.Top}, strconv.Itoa(i+1))
		d.Say("caution", t, ink.Style{Size: size, Weight: ui.CautionWeight(i)})
		low = max(low, d.R.Y)
	}
	return low
}
