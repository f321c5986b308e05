package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// What the rig expects of the program under test stands in this file: its place, its words, its file formats.

// propsoffPath is where the program under test lies in the guest, from the root.
const propsoffPath = "bin/propsoff"

// Codes and words of the program's JSON Lines.
const (
	codeValues   = "values"
	codeArmed    = "armed"
	codeDisarmed = "disarmed"
	codeRefused  = "refused"
	codeLinkLost = "link-lost"
	codePlug     = "plug"
	codeNotice   = "notice"

	causeSwitch = "by-switch"
	causeSticks = "by-sticks"
	causeLink   = "cut-on-loss"

	whyThrottle = "throttle-up"
	whyOffFirst = "off-first"
)

// line is one line of `propsoff watch --json`: a happening, or the values of all channels after one of them changed.
type line struct {
	At    int64    `json:"t_ms"`
	Code  string   `json:"code"`
	Why   []string `json:"why"`
	Cause string   `json:"cause"`

	Channels []*float64 `json:"channels"` // µs, from channel 1; null: no pulse
	Armed    bool       `json:"armed"`
	Refusals []string   `json:"refusals"`
	Link     string     `json:"link"`
	Text     string     `json:"text"` // of a notice
	Gesture  string     `json:"gesture"`
	Near     string     `json:"near"`
	Menu     string     `json:"menu"`
}

// String is the line as it is shown in a failure.
func (l line) String() string {
	if l.Code != codeValues {
		return fmt.Sprintf("{%d ms %s %v %s}", l.At, l.Code, l.Why, l.Cause)
	}
	var ch []string
	for _, c := range l.Channels {
		if c == nil {
			ch = append(ch, "-")
			continue
		}
		ch = append(ch, strconv.FormatFloat(*c, 'f', -1, 64))
	}
	return fmt.Sprintf("{%d ms values %s armed=%v refusals=%v link=%s}", l.At, strings.Join(ch, " "), l.Armed, l.Refusals, l.Link)
}

// channel gives channel n (from 0) in µs, NaN where there is no pulse.
func (l line) channel(n int) float64 {
	if n >= len(l.Channels) || l.Channels[n] == nil {
		return math.NaN()
	}
	return *l.Channels[n]
}

// rawLine is one line of `propsoff watch --json --raw`.
type rawLine struct {
	At      int64   `json:"t_us"`
	Axes    []int32 `json:"axes"`
	Buttons []int   `json:"pressed"` // numbers from 1
	Resync  bool    `json:"resync"`
	Code    string  `json:"code"` // a raw state has none: notices may stand between the states
}

// spoken tells lines that are no raw state.
func (l rawLine) spoken() bool { return l.Code != "" }

// radioLine is one line of `propsoff radios --json`.
type radioLine struct {
	Number  int    `json:"number"`
	Name    string `json:"name"`
	Path    string `json:"path"`
	Vendor  string `json:"vendor"`
	Product string `json:"product"`
	Serial  string `json:"serial"`
	Axes    []struct {
		Number int   `json:"number"`
		Min    int32 `json:"min"`
		Max    int32 `json:"max"`
		Value  int32 `json:"value"`
	} `json:"axes"`
	Buttons int   `json:"buttons"`
	Pressed []int `json:"pressed"`
	Blunted bool  `json:"blunted"`
}

// Codes of `propsoff learn --json`.
const (
	codeQuestion  = "question"
	codePhase     = "phase"
	codeNoticed   = "noticed"
	codeReplayed  = "replayed"
	codeUnplugged = "unplugged"
	codeRadio     = "radio"
	codeKept      = "kept"
)

// learnLine is one line of `propsoff learn --json`; each code has some of the fields.
type learnLine struct {
	At       int64    `json:"t_ms"`
	Code     string   `json:"code"`
	Question string   `json:"question"`
	Step     string   `json:"step"`
	Job      string   `json:"job"`
	Phase    string   `json:"phase"`
	Enough   string   `json:"enough"`
	Notice   string   `json:"notice"`
	Left     []string `json:"left"`
	Path     string   `json:"path"`
	Text     string   `json:"text"`
}

// String is the line as it is shown in a failure.
func (l learnLine) String() string {
	return strings.Join(strings.Fields(fmt.Sprintln(l.At, "ms", l.Code, l.Question, l.Job, l.Step, l.Phase, l.Notice, l.Enough, l.Path, l.Text)), " ")
}

// Codes and words of `propsoff check --json`.
const (
	codeAsks     = "check-asks"
	codeFinished = "check-finished"

	asksCorner   = "top-right"
	asksMove     = "move"
	asksHandsOff = "hands-off"
	asksQuickly  = "quickly"

	verdictPasses = "passes"
	verdictWarns  = "warns"
	verdictFails  = "fails"
)

// checkLine is one line of `propsoff check --json`.
type checkLine struct {
	Code    string      `json:"code"`
	Asks    string      `json:"asks"`
	Control string      `json:"control"`
	Whole   bool        `json:"whole"`
	Text    string      `json:"text"`
	Items   []checkItem `json:"items"`
}

// checkItem is one thing that was looked at; widths in µs.
type checkItem struct {
	Control string      `json:"control"`
	Item    string      `json:"item"`
	Verdict string      `json:"verdict"`
	Value   json.Number `json:"value"`
	Limit   json.Number `json:"limit"`
	Unit    string      `json:"unit"`
}

func (i checkItem) String() string {
	return fmt.Sprintf("%s %s %s: %s, limit %s %s", i.Control, i.Item, i.Verdict, i.Value, i.Limit, i.Unit)
}

// radioFolder is where the program keeps radio files, in the user's configuration folder.
const radioFolder = "propsoff/radios"

// hex is how the program writes a USB number.
func hex(n uint32) string { return fmt.Sprintf("%04x", n) }

// Jobs of channels 1 to 8 in a radio file, with the craft `built-in`.
var jobs = []string{"throttle", "roll", "pitch", "yaw", "arm", "mode", "channel 7", "channel 8", "channel 9"}

// radioFile gives a radio file of a radio; controls are lines of the form "throttle: {axis: 3}".
func radioFile(r fakeradio.Radio, controls ...string) string {
	return fmt.Sprintf("propsoff: radio 1\ndevice: {name: %q, vendor: %q, product: %q, serial: %q}\nstick-mode: 2\ncontrols:\n  %s\n",
		r.Name, hex(r.Vendor), hex(r.Product), r.Serial, strings.Join(controls, "\n  "))
}

// straight puts axis n on channel n, for as many channels as there are axes and jobs.
func straight(r fakeradio.Radio) string {
	var controls []string
	for i := range min(r.Layout.AxisCount(), len(jobs)) {
		controls = append(controls, fmt.Sprintf("%s: {axis: %d}", jobs[i], i+1))
	}
	return radioFile(r, controls...)
}

// Where the main radio's controls are in the scenarios that fly it; none in an obvious place. Axes and buttons from 0.
const (
	axisRoll, axisPitch, axisThrottle, axisYaw = 0, 1, 2, 3
	axisMode, axisArm                          = 4, 5
	buttonArm                                  = 16 // past the sixteenth, where the kernel's codes jump
	chanThrottle, chanRoll, chanPitch, chanYaw = 0, 1, 2, 3
	chanArm, chanMode                          = 4, 5
)

// What the arm control is.
const (
	byButton = iota
	byAxis
)

// pilotFile is the main radio's file for those scenarios.
func pilotFile(r fakeradio.Radio, armed int) string {
	arm := fmt.Sprintf("arm: {button: %d}", buttonArm+1)
	if armed == byAxis {
		arm = fmt.Sprintf("arm: {axis: %d}", axisArm+1)
	}
	return radioFile(r,
		fmt.Sprintf("throttle: {axis: %d}", axisThrottle+1),
		fmt.Sprintf("roll: {axis: %d}", axisRoll+1),
		fmt.Sprintf("pitch: {axis: %d}", axisPitch+1),
		fmt.Sprintf("yaw: {axis: %d}", axisYaw+1),
		arm,
		fmt.Sprintf("mode: {axis: %d}", axisMode+1),
	)
}

// craftBuiltIn is the craft that is armed by a switch; craftBySticks is one that is armed by sticks.
const (
	craftBuiltIn  = "built-in"
	craftBySticks = "propsoff: craft 1\nname: Rig by sticks\nchannels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, mode: 6}\narming: {by: sticks}\n"
)

// Times of the craft in ms, and what an emulated machine may add to them.
const (
	silenceLimitMS = 240 // as the built-in craft has it
	slotMS         = 20
	slackMS        = 700
)

// micros gives what a raw value means with the scale of a file that states none: minimum, middle and maximum are 988,
// 1500 and 2012 µs.
func micros(raw, lo, hi int32) float64 {
	return 988 + 1024*(float64(raw)-float64(lo))/(float64(hi)-float64(lo))
}

// rawFor gives the raw value nearest to a pulse width.
func rawFor(us float64, lo, hi int32) int32 {
	return lo + int32(math.Round((us-988)/1024*(float64(hi)-float64(lo))))
}

// The largest word of the sheet.
const (
	wordArmed    = "ARMED"
	wordDisarmed = "DISARMED"
)

// windowArguments open the window on the radio file in the folder dir, record and write a picture. The program would end with its last one; the second never comes.
func windowArguments(dir string, after time.Duration) []string {
	return []string{
		"--radio", dir + "/radio.yaml", "--craft", craftBuiltIn, "--record", dir + "/window.take",
		"--picture", fmt.Sprintf("%s=%s/window.png", after, dir), "--picture", fmt.Sprintf("%s=%s/never.png", time.Hour, dir),
	}
}
