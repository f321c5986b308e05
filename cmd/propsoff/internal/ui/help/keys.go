package help

import (
	"strconv"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/ui"
	"propsoff/input/keyboard"
	"propsoff/sim/layout"
)

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
func columnsOf(v *ui.View, rows [3][]row, columns int) [3][]row {
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
			if (k.Sort == keyboard.Switch) == (group == groupSwitches) {
				dst = append(dst, row{ui.CapWord(k.Physical), keyHelp(v, k), k.Code})
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
		text := tell.ActionHelp(a.Action.Code())
		if ui.BenchInput(a.Action) && v.Playing() {
			text = words.T("help-sheet.not-while-playing")
		}
		dst = append(dst, row{ui.CapWord(a.Physical), text, a.Action.Code()})
	}
	if group == groupQuestions {
		dst = append(dst, row{"1–" + strconv.Itoa(ui.MostChoices), tell.ActionHelp("choose"), "choose"})
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
	return tell.KeyHelp(k.Code)
}

// modeKeys are the keys of the mode switch.
var modeKeys = map[keyboard.Key]bool{keyboard.ModeLow: true, keyboard.ModeMiddle: true, keyboard.ModeHigh: true}
