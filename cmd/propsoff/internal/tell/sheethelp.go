package tell

import "propsoff/assets/words"

// KeyHelp says what a key of the keyboard pilot does, by its code in keyboard.Layout.
func KeyHelp(code string) words.Text { return words.Of("hand", code) }

// ActionHelp says on the help sheet what an action's key does.
func ActionHelp(code string) words.Text { return words.Of("help", code) }

// NoSwitch says of a key that the craft has no switch (arm, second, mode) for it.
func NoSwitch(job string) words.Text { return words.Of("help-sheet", "no-"+job+"-switch") }

var helpHeadings = [...]words.ID{
	"help-sheet.group-sticks", "help-sheet.group-switches", "help-sheet.group-bench", "help-sheet.group-questions", "help-sheet.group-start",
	"help-sheet.group-sheet", "help-sheet.group-drives", "help-sheet.group-sheets", "help-sheet.group-air", "help-sheet.group-window",
}

// HelpHeading heads a group of keys: 0 sticks, 1 switches, 2 bench, 3 questions, 4 cautions, 5 another sheet, 6 who drives, 7 sheets,
// 8 the air bench, 9 the window.
func HelpHeading(group int) words.Text { return words.T(helpHeadings[group]) }
