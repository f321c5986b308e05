package help

import (
	"slices"
	"strings"
	"unicode"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/input/keyboard"
	"propsoff.example/sim/layout"

	"golang.org/x/text/unicode/norm"
)

// row is one line of the help sheet: a key and what it does; a heading has no key.
type row struct {
	key  string
	text words.Text
	name string
	// does is what a click does, empty for a key that is held or that stands for several.
	does ui.Action
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
	groupOnBench
)

// Group is keys that belong together, and what heads them.
type Group struct {
	Heading words.Text
	Acts    []ui.Act
}

// sharedGroups are the groups of keys that several sheets have, in the order in which help tells them.
var sharedGroups = [...]int{groupBench, groupDriver, groupAir, groupSheets, groupWindow}

// Shared are the keys that are no sheet's own, each once, by what they are for.
func Shared(h *ui.House) []Group {
	owned := map[ui.Action]bool{}
	for _, s := range h.Sheets() {
		for _, a := range s.Own {
			owned[a.Action] = true
		}
	}
	out := make([]Group, len(sharedGroups))
	for i, g := range sharedGroups {
		out[i].Heading = tell.HelpHeading(g)
		for _, a := range h.All() {
			if !owned[a.Action] && groupOf(h, a.Action) == g {
				out[i].Acts = append(out[i].Acts, a)
			}
		}
	}
	return out
}

// groupOf is the group of an action that several sheets have.
func groupOf(h *ui.House, a ui.Action) int {
	if h.Of(ui.Place(a)) != nil && a != ui.ShowHelp {
		return groupSheets
	}
	switch a {
	case ui.NextDriver, ui.ChooseRadio, ui.TurnStickMode, ui.AskAgain, ui.KeepAgain:
		return groupDriver
	case ui.PauseFlight, ui.SlowFlight, ui.StepFlight, ui.ReplayFlight, ui.SeeFrom, ui.StandAgain, ui.FlyAgain, ui.NextBench:
		return groupAir
	}
	if ui.BenchInput(a) {
		return groupBench
	}
	return groupWindow
}

// rowsOf are the keys of a sheet: its own first, then those that it shares, by what they are for, the pilot's where it drives there; last those that
// work on the bench alone.
func rowsOf(v *ui.View, of ui.Place) (all []row) {
	head := func(group int) { all = append(all, row{text: tell.HelpHeading(group), name: "help-heading"}) }
	told := map[ui.Action]bool{}
	add := func(acts []ui.Act, group int, belongs func(ui.Action) bool) {
		headed := false
		for _, a := range acts {
			if told[a.Action] || !belongs(a.Action) {
				continue
			}
			if !headed {
				head(group)
				headed = true
			}
			told[a.Action] = true
			all = append(all, rowOf(v, a))
		}
	}
	here := v.House.Keys(of)
	about := v.House.Of(of)
	own := func(a ui.Action) bool {
		return slices.Contains(about.Front, a) || slices.ContainsFunc(about.Own, func(o ui.Act) bool { return o.Action == a })
	}
	if of == ui.OnQuestions {
		add(here, groupQuestions, own)
	} else if of != ui.OnBench {
		add(here, groupSheet, own)
	}
	if about.More != nil {
		for _, a := range about.More(v) {
			all = append(all, row{a.Physical, a.Says(v), a.Action.Code(), a.Action})
		}
	}
	if of != ui.OnAsk && v.ChoosesRadio() || slices.ContainsFunc(about.Picks, func(p ui.Pick) bool { return p.Keys }) {
		all = append(all, row{key: ui.Numbers, text: words.T("help.choose", words.Args{"radio": words.Flag(of != ui.OnStart)}), name: "choose"})
	}
	for _, g := range sharedGroups {
		add(here, g, func(a ui.Action) bool { return groupOf(v.House, a) == g })
	}
	if v.House.Flown(of) {
		for _, g := range [...]int{groupSticks, groupSwitches} {
			head(g)
			for _, k := range ui.LayoutKeys {
				if k.Key.Stick() == (g == groupSticks) {
					all = append(all, row{key: k.Physical, text: keyHelp(v, k), name: k.Code})
				}
			}
		}
	}
	add(v.House.Keys(ui.OnBench), groupOnBench, func(ui.Action) bool { return true })
	add(v.House.Keys(ui.OnCautions), groupStart, func(a ui.Action) bool { return a == ui.Understood })
	return all
}

// rowOf tells of one key.
func rowOf(v *ui.View, a ui.Act) row {
	text := tell.KeyHelp(a.Action.Code(), v.Language().Next().Name())
	if ui.BenchInput(a.Action) && v.Playing() {
		text = words.T("help-sheet.not-while-playing")
	}
	return row{a.Physical, text, a.Action.Code(), a.Action}
}

// found are the rows in which all of some words stand, in what they say or on the key; each under its heading. Where there are none, those in which
// the words begin alike: whoever types "larger" means "large", and one language has more endings than another.
func found(v *ui.View, all []row, typed string) []row {
	want := strings.Fields(plain(typed))
	if out := having(v, all, want); len(out) > 0 {
		return out
	}
	for i, w := range want {
		if r := []rune(w); len(r) > 4 {
			want[i] = string(r[:len(r)-2])
		}
	}
	return having(v, all, want)
}

// plain is a text as it is searched in: small letters without marks, so that "grosser" finds "größer".
func plain(text string) string {
	low := strings.ReplaceAll(strings.ToLower(text), "ß", "ss")
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(low))
}

// having are the rows in which all of some plain words stand.
func having(v *ui.View, all []row, want []string) (out []row) {
	var head *row
	for i := range all {
		if all[i].key == "" {
			head = &all[i]
			continue
		}
		says := plain(v.Say(all[i].text) + " " + v.Say(v.Caps.Word(all[i].key)))
		if slices.ContainsFunc(want, func(w string) bool { return !strings.Contains(says, w) }) {
			continue
		}
		if head != nil {
			out, head = append(out, *head), nil
		}
		out = append(out, all[i])
	}
	return out
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
