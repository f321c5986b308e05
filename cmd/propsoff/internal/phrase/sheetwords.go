package phrase

import (
	"strconv"

	"propsoff/sim"
	"propsoff/sim/layout"
	"propsoff/sim/pulse"
)

// does are the few words beside a key: what it does where its thing is off, and where it is on.
var does = map[string][2]string{
	"radio-switch":    {"radio on", "radio off"},
	"pack":            {"connect pack", "pack off"},
	"set-up-cable":    {"cable in", "cable out"},
	"nudge":           {"nudge craft", ""},
	"choose-radio":    {"choose radio", "end choosing"},
	"first-questions": {"learn radio", ""},
	"check":           {"check controls", "back"},
	"layout":          {"switch layout", "back"},
	"prove":           {"prove layout", "back"},
	"card":            {"switch card", "back"},
	"sheet":           {"dark sheet", "light sheet"},
	"full-screen":     {"full screen", "window"},
	"help":            {"help", "back"},
	"leave":           {"leave", "back"},
	"understood":      {"I have read this", ""},
	"question-back":   {"one step back", ""},
	"question-skip":   {"skip this one", ""},
	"questions-anew":  {"start over", ""},
	"side-left":       {"left side", ""},
	"side-right":      {"right side", ""},
	"side-top":        {"on top", ""},
	"call-switch":     {"give a name", ""},
	"springs-back":    {"springs back", "stays"},
	"keep-again":      {"try to keep it", ""},
	"learn-anew":      {"learn it anew", ""},
	"rule-above":      {"above", ""},
	"rule-below":      {"below", ""},
	"more-steps":      {"more steps", ""},
	"search":          {"search", "stop searching"},
	"show-way":        {"show me", ""},
	"check-above":     {"above", ""},
	"check-below":     {"below", ""},
	"check-findings":  {"what to see to", "table"},
	"check-anew":      {"check anew", ""},
	"card-save":       {"save as PDF", ""},

	"first-flight":       {"first flight", "back"},
	"three":              {"three at once", "back"},
	"gestures":           {"gestures", "back"},
	"link-loss":          {"link loss shown", "back"},
	"drills":             {"drills", "back"},
	"desk":               {"instructor", "back"},
	"sound":              {"sound off", "sound on"},
	"take":               {"record", "end recording"},
	"desk-above":         {"above", ""},
	"desk-below":         {"below", ""},
	"desk-more":          {"one step on", ""},
	"desk-less":          {"one step back", ""},
	"desk-other":         {"other choice", ""},
	"desk-lift-all":      {"lift all", ""},
	"desk-mark":          {"set a mark", ""},
	"desk-radio":         {"second radio", ""},
	"drill-leave":        {"leave drill", ""},
	"call-pupil":         {"pupil's name", "name is right"},
	"propellers-right":   {"propellers right", ""},
	"flight-pause":       {"pause", "go on"},
	"flight-step":        {"one step", ""},
	"flight-replay":      {"replay", "back to now"},
	"stand-again":        {"back to start", ""},
	"next-motor":         {"next motor", ""},
	"propellers-checked": {"I checked them", "look again"},
	"go-out":             {"to air bench", "to desk bench"},
	"loss-fly":           {"fly for me", "stop the pilot"},
	"loss-stored":        {"store other", ""},
	"loss-anew":          {"begin again", ""},
	"gesture-above":      {"up", ""},
	"gesture-below":      {"down", ""},
	"gesture-record":     {"record new", "that was it"},
	"gesture-keep":       {"name and keep", "keep it"},
	"gesture-by-job":     {"by stick", "by job"},
	"gesture-menu":       {"other menu", ""},
	"gesture-drop":       {"throw it away", ""},
}

// Does says in at most fifteen letters what the key of an action does now. on tells how its thing stands; next is the
// value it goes to, for those that go through several.
func Does(code string, on bool, next int) string {
	switch code {
	case "tilt":
		if next == 0 {
			return "set level"
		}
		return "tilt to " + Degrees(next)
	case "menu":
		return [...]string{"close menu", "craft's menu", "camera's menu"}[min(max(next, 0), 2)]
	case "stick-mode":
		return "stick mode " + strconv.Itoa(next)
	case "next-driver":
		switch next {
		case 1:
			return "demo pilot"
		case 2:
			return "use the keys"
		}
		return "fly by radio"
	}
	w := does[code]
	if on && w[1] != "" {
		return w[1]
	}
	return w[0]
}

// Driving is what WhoDrives tells of. Who and Next: 0 nobody, 1 the demo pilot, 2 the keyboard, 3 a radio, 4 a script or
// take.
type Driving struct {
	Who      int
	Name     string
	Next     int
	NextName string
	Key      string // of the next driver; empty where it does nothing
	// Sticks: on this sheet the stick keys fly, or would at the first press. Caps: each of them stands beside what it moves.
	Sticks, Caps bool
	Blunted      bool
	Ended        bool
}

// WhoDrives says who moves the sticks and how to take over.
func WhoDrives(d Driving) string {
	next := ""
	switch {
	case d.Key == "":
	case d.Next == 1:
		next = " " + d.Key + ": the demo pilot drives."
	case d.Next == 2:
		next = " " + d.Key + ": the keyboard drives."
	case d.Next == 3 && d.NextName != "":
		next = " " + d.Key + ": on to " + d.NextName + "."
	}
	switch {
	case d.Who == 1 && d.Sticks:
		return "The demo pilot drives. Press any stick key (" + stickKeys + ") to take over." + next
	case d.Who == 1:
		return "The demo pilot drives." + next
	case d.Who == 2 && d.Caps:
		return "The keyboard drives: each key stands beside what it moves." + next
	case d.Who == 2 && d.Sticks:
		return "The keyboard drives." + next
	case d.Who == 2:
		return "The keyboard drives, on the bench. Its stick keys do nothing to the craft here." + next
	}
	switch d.Who {
	case 3:
		s := d.Name + " drives."
		if d.Blunted {
			s += " It is read with a blunted centre."
		}
		return s + next
	case 4:
		if d.Ended {
			return "Played to its end: " + d.Name + "." + next
		}
		return "Playing " + d.Name + "."
	}
	const plug = "No radio is plugged in: plug it in by USB and choose joystick on it"
	if d.Sticks {
		return plug + ", or press any stick key (" + stickKeys + ") to drive by keyboard." + next
	}
	return plug + "." + next
}

// stickKeys are the keys that fly.
const stickKeys = "W A S D, ← ↑ ↓ →"

// Idling is what Idle tells of. The keys are as the sheet has them, empty where they do nothing now.
type Idling struct {
	// Waits: the key does something once what is played has ended. Drill: a drill runs. Air: the craft is on the air bench.
	Waits, Drill, Air bool
	// CableHeld: the cable stays in whatever the hand does.
	CableHeld bool
	Radios    int
	Reading   bool // one of them is being read
	// Next is the key that lets a radio drive, First that of the sheet before the first flight. Pause stops time, Replay ends a look back.
	Next, First, Pause, Replay string
	// Record says why no gesture can be recorded; empty where one can.
	Record string
}

// Idle says why the key of an action does nothing now; empty where there is nothing to say.
func Idle(code string, i Idling) string {
	switch {
	case i.Waits:
		return "What is played moves everything here; wait until it has ended."
	case code == "gesture-record":
		return i.Record
	case code == "next-driver" && i.Drill:
		return RecordNotNow("drill")
	case code == "next-driver":
		return "Nobody else can drive: no radio is plugged in, and there is no demo pilot for this craft."
	case code == "choose-radio" && i.Radios == 0:
		return "No radio is plugged in, so there is none to choose."
	case code == "choose-radio" && i.Radios == 1 && i.Reading:
		return "One radio is plugged in, and there is no other to choose."
	case code == "first-questions" && i.Radios == 0:
		return "A radio is learned while it drives: plug one in."
	case code == "first-questions":
		return "A radio is learned while it drives. " + LetDrive("it", i.Next) + " first."
	case code == "three":
		return "Three at once fly on the air bench only; " + i.First + " leads there."
	case code == "flight-step" && i.Pause != "":
		return "That is for time that stands still; " + i.Pause + " stops it."
	case code == "stand-again" && i.Air:
		return "That is for now, and you are looking back; " + i.Replay + " goes back to now."
	case code == "set-up-cable" && i.CableHeld:
		return "The cable stays in: it is not your hand that keeps it there."
	}
	switch code {
	case "flight-pause", "flight-slow", "flight-step", "flight-replay", "stand-again":
		return "That is for a craft on the air bench; " + i.First + " leads there."
	case "nudge", "tilt", "set-up-cable", "menu":
		if i.Air {
			return "That is done to a craft on the desk bench, not to one that can fly."
		}
	}
	return ""
}

// LetDrive asks for a radio to drive, by a key, empty where none lets it now.
func LetDrive(which, key string) string {
	if key != "" {
		key = " (" + key + ")"
	}
	return "Let " + which + " drive" + key
}

// SticksTitle heads the two sticks.
func SticksTitle(mode int) string { return "sticks as held, stick mode " + strconv.Itoa(mode) }

// Corner names the side of the stick that arms, and the one that disarms.
func Corner(arms bool) string {
	if arms {
		return "arm"
	}
	return "disarm"
}

// SwitchesTitle heads the switches.
func SwitchesTitle() string { return "switches, and what the craft does in each position (µs)" }

// Position is a position of a switch that is on or off.
func Position(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

// Gap is a position of the mode switch that no span of the craft file holds.
func Gap(mode string) string { return mode + ", outside every span" }

// SpanWords is a span as it stands beside a position. The ends of the pulse range are no ends.
func SpanWords(s layout.Span) string {
	switch {
	case s.Low <= pulse.Lowest && s.High >= pulse.Highest:
		return "anywhere"
	case s.Low <= pulse.Lowest:
		return "below " + Exact(s.High)
	case s.High >= pulse.Highest:
		return "from " + Exact(s.Low)
	}
	return Exact(s.Low) + "–" + Exact(s.High)
}

// ChannelsTitle heads the channel values. made: the receiver makes them up while the radio is silent.
func ChannelsTitle(receiving, made bool) string {
	switch {
	case made:
		return "channels in µs, made up by the receiver"
	case !receiving:
		return "channels in µs; the craft gets none of them"
	}
	return "channels in µs"
}

// ChoiceTitle heads the radios to choose from.
func ChoiceTitle(n int) string { return count(n, "radio") + " plugged in: press a number" }

// BeingRead marks the radio that is being read.
func BeingRead(name string) string { return name + " (being read)" }

// CraftTitle heads the drawings of the craft.
func CraftTitle(name string) string {
	if name == "" {
		return "craft, propellers off"
	}
	return "craft " + name + ", propellers off"
}

// CraftStands says how the craft stands and what hangs on it.
func CraftStands(s *sim.Snapshot) string {
	c := &s.In.Craft
	out := "Level"
	switch {
	case c.TiltTenths > 900:
		out = "Upside down, tilted by " + Degrees(int(c.TiltTenths))
	case c.TiltTenths > 0:
		out = "Tilted by " + Degrees(int(c.TiltTenths))
	}
	if c.Cable {
		out += "; cable in"
	}
	switch c.Menu {
	case pulse.MenuCraft:
		out += "; its menu open"
	case pulse.MenuCamera:
		out += "; camera's menu open"
	}
	if !s.In.Powered {
		out += "; no power"
	}
	return out + "."
}

// ViewFrom names a drawing of the craft: above, behind, side. Short leaves out what the place says already.
func ViewFrom(where string, short bool) string {
	if short {
		return where
	}
	if where == "side" {
		return "from the side"
	}
	return "from " + where
}

// ChartTitle heads the chart paper and names the file that a take is written to, if any.
func ChartTitle() string { return "chart paper: the last ten seconds" }

// RecordingTo is the tag of a sheet while a take is written; file is its name.
func RecordingTo(file string) string { return "recording to " + file }

// ArmedBar names the bar beside the chart paper that stands as long as the craft was armed.
func ArmedBar() string { return "armed" }

// Now marks the newest line of the chart paper.
func Now() string { return "now" }

// Earlier counts the notes for which the paper has no room.
func Earlier(n int) string { return "… and " + strconv.Itoa(n) + " more" }
