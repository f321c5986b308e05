package phrase

// keyHelp says what a key of the keyboard pilot does, by its code in keyboard.Layout.
var keyHelp = map[string]string{
	"throttle-up":   "throttle up; it stays",
	"throttle-down": "throttle down; it stays",
	"yaw-left":      "yaw left; springs back",
	"yaw-right":     "yaw right; springs back",
	"pitch-forward": "pitch forward; springs back",
	"pitch-back":    "pitch back; springs back",
	"roll-left":     "roll left; springs back",
	"roll-right":    "roll right; springs back",
	"throttle-zero": "throttle to 988 at once",
	"gentle":        "held: half as far",
	"arm-switch":    "arm switch over",
	"mode-low":      "mode switch to low",
	"mode-middle":   "mode switch to the middle",
	"mode-high":     "mode switch to high",
	"second-switch": "second switch over",
	"extra-switch":  "extra switch over",
}

// KeyHelp says what a key of the keyboard pilot does.
func KeyHelp(code string) string { return keyHelp[code] }

// NoSwitch says of a key that the craft has no switch (arm, second, mode) for it.
func NoSwitch(name string) string { return "this craft has no " + name + " switch" }

// NotWhilePlaying says of a key of the bench that a script or take must first have ended.
func NotWhilePlaying() string { return "once what is played has ended" }

var actionHelp = map[string]string{
	"radio-switch":    "radio off and on: the link falls silent",
	"pack":            "craft's pack in and out",
	"set-up-cable":    "craft's set-up cable in and out",
	"tilt":            "tilt the craft: 20°, 45°, 170°, level",
	"nudge":           "nudge the craft",
	"menu":            "craft's or camera's menu in turn; closed again",
	"next-driver":     "who drives: radio, keyboard, demo",
	"choose-radio":    "with two radios: choose one of them",
	"stick-mode":      "stick mode 1 to 4, as drawn",
	"first-questions": "learn the radio: every stick, switch, knob",
	"check":           "check every control of the radio",
	"layout":          "what each switch position does",
	"prove":           "search for switch surprises",
	"card":            "the switch card, to print",
	"sheet":           "light or dark sheet",
	"full-screen":     "full screen, for a class",
	"help":            "this sheet, and back",
	"leave":           "back; on the bench: leave",
	"understood":      "the cautions are read",
	"question-back":   "one step back in the questions",
	"question-skip":   "skip this switch",
	"question-enough": "take it, or go on, as it is",
	"questions-anew":  "start over with the first question",
	"side-left":       "switch found last: left side",
	"side-right":      "switch found last: right side",
	"side-top":        "switch found last: on top",
	"springs-back":    "it springs back, or stays",
	"call-switch":     "its name: type, then Enter",
	"keep-again":      "radio file not kept: try again",
	"learn-anew":      "none of these files: learn the radio",
	"rule-above":      "prove: the rule above",
	"rule-below":      "prove: the rule below",
	"more-steps":      "prove: further steps of the way",
	"search":          "prove: search, or stop searching",
	"show-way":        "prove: play the way on the bench",
	"card-save":       "card: save it as a PDF file",
	"card-paper":      "card: another size of paper",
	"card-closer":     "card: closer, part by part, and back",

	"first-flight":       "propellers, and out to the air bench",
	"three":              "three modes side by side, in the air",
	"gestures":           "two-stick gestures, and their menus",
	"link-loss":          "link lost: three receivers side by side",
	"desk-plant":         "plant the fault looked at, or lift it",
	"desk-above":         "the fault above",
	"desk-below":         "the fault below",
	"desk-more":          "the number or choice of the fault: one step on",
	"desk-less":          "the number or choice of the fault: one step back",
	"desk-other":         "the fault's other number or choice",
	"desk-lift-all":      "lift everything that is planted",
	"desk-mark":          "a commentary mark in the record, to be found again when looking back",
	"desk-hidden":        "the keys 4 to 9 on the bench plant and lift unseen",
	"desk-radio":         "which plugged-in radio is the instructor's",
	"drill-begin":        "begin the drill looked at; while one asks for an answer: take it",
	"drill-above":        "the drill above, or the answer above",
	"drill-below":        "the drill below, or the answer below",
	"drill-leave":        "leave the drill that runs; it counts neither way",
	"call-pupil":         "type the name of who practises; the logbook is kept by it",
	"propellers-right":   "say that the propellers were checked",
	"drills":             "the course: one drill after another",
	"desk":               "instructor's desk: faults, freeze, look back",
	"sound":              "sounds off or on; singly: sounds.yaml",
	"take":               "record this practice as a take; end it",
	"flight-pause":       "pause, and go on",
	"flight-slow":        "slower, 4 and 10 times",
	"flight-step":        "while paused: 10 ms on",
	"flight-replay":      "replay the last 30 s",
	"stand-again":        "back to the start",
	"next-motor":         "first flight: the next motor",
	"turn-propeller":     "first flight: another propeller on it",
	"propellers-checked": "first flight: I have checked the propellers",
	"go-out":             "first flight: to the other bench",
	"check-above":        "check: the control above",
	"check-below":        "check: the control below",
	"check-findings":     "check: what to see to, or the table",
	"check-anew":         "check: from the beginning",
	"loss-fly":           "link loss: a pilot hovers, or stops",
	"loss-stored":        "link loss: store other values",
	"loss-anew":          "link loss: begin again",
	"gesture-above":      "gestures: the one above",
	"gesture-below":      "gestures: the one below",
	"gesture-record":     "record one from your own hand; again: it is whole",
	"gesture-keep":       "give the recorded one a name, and keep it",
	"gesture-by-job":     "the recorded one by job or by stick",
	"gesture-menu":       "which menu the recorded one opens",
	"gesture-drop":       "throw the recorded one away",
	"choose":             "while choosing: take that radio",
}

// ActionHelp says on the help sheet what an action's key does.
func ActionHelp(code string) string { return actionHelp[code] }

// HelpHeading heads a group of keys: 0 sticks, 1 switches, 2 bench, 3 questions, 4 cautions, 5 another sheet, 6 who drives, 7 sheets,
// 8 the air bench, 9 the window.
func HelpHeading(group int) string {
	switch group {
	case 0:
		return "sticks, while the keyboard drives"
	case 1:
		return "switches, while the keyboard drives"
	case 2:
		return "craft and link"
	case 3:
		return "first questions, and choosing a radio"
	case 4:
		return "at the first start"
	case 5:
		return "keys of this sheet"
	case 6:
		return "who drives, and by which radio"
	case 7:
		return "sheets over the bench, and back"
	case 8:
		return "in the air"
	case 9:
		return "this window"
	}
	return ""
}

// HelpTitle heads the help sheet.
func HelpTitle() string { return "Every key, and what to be careful about" }

// CautionsTitle heads the sheet of the first start.
func CautionsTitle() string { return "Before you start" }

// CautionsHeading heads the cautions wherever they stand.
func CautionsHeading() string { return "cautions" }

// CautionsRead is what a person says by going on.
func CautionsRead() string {
	return "I have read this, and every craft bound to my radio has its pack disconnected."
}
