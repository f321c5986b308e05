package sheet

import (
	"strconv"

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/keyboard"
	"propsoff/sim/layout"
)

// helpRow is one line of the help sheet: a key and what it does; a heading has no key.
type helpRow struct{ key, text, name string }

// The groups of keys, as phrase.HelpHeading counts them.
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

// helpGroups are the groups of keys of the bench by column, for three columns and for two: as even as they get.
var helpGroups = [2][3][]int{
	{{groupSticks, groupSwitches}, {groupBench, groupSheets}, {groupDriver, groupAir, groupWindow, groupStart}},
	{{groupSticks, groupSwitches, groupDriver, groupStart}, {groupBench, groupSheets, groupAir, groupWindow}},
}

// groupOf is the group of an action of the bench.
func groupOf(a Action) int {
	switch {
	case placeOf(a) != 0:
		return groupSheets
	case a == Understood:
		return groupStart
	}
	switch a {
	case NextDriver, ChooseRadio, TurnStickMode, AskAgain, KeepAgain:
		return groupDriver
	case PauseFlight, SlowFlight, StepFlight, ReplayFlight, StandAgain:
		return groupAir
	case TurnSheet, TurnFullScreen, TurnSound, TurnRecording, ShowHelp, Leave:
		return groupWindow
	}
	return groupBench
}

// helpOf is the sheet on which help was asked for.
func (v *View) helpOf() Place {
	if v.HelpOf == 0 {
		return OnBench
	}
	return v.HelpOf
}

// helpColumns are the rows of the help sheet in columns: on the bench in their groups, on another sheet its own keys, and those of the
// keyboard pilot where it drives there.
func (v *View) helpColumns(rows [3][]helpRow, columns int) [3][]helpRow {
	of := v.helpOf()
	if of == OnBench {
		for c, groups := range helpGroups[3-columns] {
			for _, g := range groups {
				rows[c] = v.helpRows(rows[c], g, OnBench)
			}
		}
		return rows
	}
	group := groupSheet
	if of == OnQuestions {
		group = groupQuestions
	}
	all := v.helpRows(nil, group, of)
	if of&OnFlown != 0 {
		all = v.helpRows(v.helpRows(all, groupSticks, of), groupSwitches, of)
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

// helpRows appends a heading and every key of one group, as they are on the sheet of.
func (v *View) helpRows(dst []helpRow, group int, of Place) []helpRow {
	dst = append(dst, helpRow{text: phrase.HelpHeading(group), name: "help heading"})
	switch group {
	case groupSticks, groupSwitches:
		for _, k := range layoutKeys {
			if (k.Sort == keyboard.Switch) == (group == groupSwitches) {
				dst = append(dst, helpRow{capWord(k.Physical), v.keyHelp(k), k.Code})
			}
		}
		return dst
	case groupStart:
		of = OnCautions
	}
	for _, a := range acts {
		if a.On&of == 0 || of == OnBench && groupOf(a.Action) != group || group == groupStart && a.On != OnCautions {
			continue
		}
		text := phrase.ActionHelp(a.Code)
		if a.benchInput() && v.playing() {
			text = phrase.NotWhilePlaying()
		}
		dst = append(dst, helpRow{capWord(a.Physical), text, a.Code})
	}
	if group == groupQuestions {
		dst = append(dst, helpRow{"1–" + strconv.Itoa(MostChoices), phrase.ActionHelp("choose"), "choose"})
	}
	return dst
}

// keyHelp says what a key of the keyboard's layout does with this craft.
func (v *View) keyHelp(k keyboard.Binding) string {
	l := &v.Config.Layout
	switch {
	case k.Key == keyboard.Arm && l.Arm == layout.NoChannel:
		return phrase.NoSwitch("arm")
	case k.Key == keyboard.Second && l.Second == layout.NoChannel:
		return phrase.NoSwitch("second")
	case modeKeys[k.Key] && l.Mode == layout.NoChannel:
		return phrase.NoSwitch("mode")
	}
	return phrase.KeyHelp(k.Code)
}

// modeKeys are the keys of the mode switch.
var modeKeys = map[keyboard.Key]bool{keyboard.ModeLow: true, keyboard.ModeMiddle: true, keyboard.ModeHigh: true}

// Help draws every key, and the cautions, the transmitting radio first.
func Help(p *ink.Page, v *View) {
	b := newBoard(p, v)
	r := b.sheetArea()
	r = b.actions(r, OnHelp)
	b.Group("help")
	size := b.TextSize(20)
	b.Text("title", r.X, r.Y, ink.Style{Size: size, Weight: ink.Bold, Anchor: ink.Top, Within: r}, phrase.HelpTitle())
	_, r = r.CutTop(ink.BlockHeight(size, 1), 4*b.u)

	columns := 3
	if b.tall {
		columns = 2
	}
	rows := v.helpColumns([3][]helpRow{}, columns)
	most := 0
	for c := range columns {
		most = max(most, len(rows[c]))
	}
	highest := 44.0 // of a row
	if b.tall {
		highest = 72
	}
	need := b.cautionsHeight(r.W, b.body, 2)
	keys, rest := r.CutTop(min(float64(most)*clamp(r.H*0.6/float64(most), 27*b.u, highest*b.u), r.H-need-b.gap), b.gap)
	for c := range columns {
		for i, row := range rows[c] {
			b.helpRow(keys.Cell(i*columns+c, columns, most, 0), row)
		}
	}
	room := rest.H
	text := b.body
	for text < b.TextSize(24) && b.cautionsHeight(rest.W, text+1, 2) <= room {
		text++
	}
	b.cautions(rest, text, 2)
}

func (b *board) helpRow(r ink.Rect, row helpRow) {
	y := r.Centre().Y
	if row.key == "" {
		b.fitted(row.name, ink.Rect{X: r.X, Y: r.Y, W: r.W - 8*b.u, H: r.H}, ink.Style{Size: b.small, Weight: ink.Bold, Colour: ink.Faint}, row.text)
		return
	}
	w := b.capWidth(b.cap, row.key)
	column := max(w, 44*b.u)
	b.keyCap(row.name+" key", r.X+column-w/2, y, min(b.cap, r.H-b.u), row.key)
	x := r.X + column + 7*b.u
	// On two lines where they are needed and there is room.
	w = r.Right() - x - 8*b.u
	size := b.small
	if r.H > ink.BlockHeight(b.head, 2) {
		size = b.head
	}
	lines, _ := ink.CountLines(row.text, w, size, ink.Regular)
	for lines = min(lines, 2); lines > 1 && ink.BlockHeight(size, lines) > r.H+2*b.u; lines-- {
	}
	b.Block(row.name+" help", x, y-ink.BlockHeight(size, lines)/2, ink.Style{Size: size, Within: r.Inset(-1.5 * b.u)}, ink.Block{Width: w, MaxLines: lines, Shorten: true}, row.text)
}
