// Package codes names things by code words, which are the same in every language.
//
// Files, JSON Lines, takes and logbooks have them, so one that was ever used is never changed. Sentences for people are told by package tell.
package codes

import (
	"slices"
	"strconv"

	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/flight"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

var codeWords = [happening.CodeCount]string{
	happening.Armed:        "armed",
	happening.Disarmed:     "disarmed",
	happening.Refused:      "refused",
	happening.LinkLost:     "link-lost",
	happening.LinkBack:     "link-back",
	happening.LinkClean:    "link-clean",
	happening.Sinking:      "sinking",
	happening.SinkEnded:    "control-back",
	happening.Mode:         "mode",
	happening.AirMode:      "air-mode",
	happening.Settled:      "settled",
	happening.Power:        "power",
	happening.Cable:        "cable",
	happening.Transmitter:  "transmitter",
	happening.Plug:         "plug",
	happening.Tilted:       "tilt",
	happening.Nudged:       "nudged",
	happening.Menu:         "menu",
	happening.Pack:         "pack-volts",
	happening.TravelShort:  "travel-short",
	happening.ReadingsLost: "readings-lost",
	happening.Slept:        "slept",
	happening.Moved:        "bench",
	happening.Fitted:       "propellers",
	happening.TookOff:      "took-off",
	happening.TouchedDown:  "touched-down",
	happening.TippedOver:   "tipped-over",
	happening.StickMode:    "stick-mode",
	happening.Gesture:      "gesture",
	happening.GestureNear:  "gesture-missed",
	happening.MenuMark:     "menu-mark",
	happening.MenuValue:    "menu-value",
	happening.MenuLeft:     "menu-left",
	happening.Instructed:   "instructor",
	happening.Broke:        "broke",
}

var causeWords = [happening.CauseCount]string{
	happening.BySwitch:    "by-switch",
	happening.BySticks:    "by-sticks",
	happening.ByLinkLoss:  "cut-on-loss",
	happening.BySinkEnd:   "sunk",
	happening.ByPowerLoss: "power-lost",
	happening.ByStored:    "by-stored-values",
	happening.ByRepeated:  "by-repeated-values",
}

// Broke are the code words of what broke a craft.
func Broke(b happening.Breakage) []string {
	return among(uint(b), "by-blade", "on-top", "too-fast", "motors-off")
}

// Place is the code word of where a craft is; nothing where it may fly.
func Place(p happening.Place) string {
	if p > happening.Broken {
		return ""
	}
	return [...]string{happening.Free: "", happening.OnStand: "stand", happening.OnGround: "ground", happening.Broken: "broken"}[p]
}

// Refusal is the code word of r, "refusal 99" for one that is unknown.
func Refusal(r facts.Refusal) string { return r.Code() }

// Code is the code word of a happening.
func Code(c happening.Code) string { return word(codeWords[:], int(c), "code") }

// Cause is the code word of a cause of disarming.
func Cause(c happening.Cause) string { return word(causeWords[:], int(c), "cause") }

// word is the code word of a number, and for one that is unknown its kind and the number.
func word(words []string, i int, kind string) string {
	if i < 0 || i >= len(words) || words[i] == "" {
		return kind + " " + strconv.Itoa(i)
	}
	return words[i]
}

// codeOf is the number of a code word; an empty one is none.
func codeOf(words []string, s string) (int, bool) {
	i := slices.Index(words, s)
	return max(i, 0), s != "" && i >= 0
}

// among are the words of the bits that are set, the lowest first.
func among(set uint, words ...string) (out []string) {
	for i, w := range words {
		if set>>i&1 == 1 {
			out = append(out, w)
		}
	}
	return out
}

// Refusals are the code words of all refusals, in the order in which they are shown.
func Refusals() []string {
	var out []string
	for _, r := range facts.Shown() {
		out = append(out, Refusal(r))
	}
	return out
}

// OldRefusals are the code words that files of earlier programs may have, with the word of today for each.
func OldRefusals() map[string]string {
	old := map[string]string{}
	for _, r := range arming.Ever() {
		if today := r.Today(); today != r {
			old[r.Code()] = today.Code()
		}
	}
	return old
}

// Happenings are the code words of all happenings.
func Happenings() []string { return slices.Clone(codeWords[1:]) }

// Codes are the code words of happenings by their number: element n is that of number n, element 0 is empty. A take
// keeps them, so that it stays readable when the numbers of a later program differ.
func Codes() []string { return slices.Clone(codeWords[:]) }

// RefusalOf is the refusal of a code word, of one that is no more too: logbooks and takes have them.
func RefusalOf(s string) (facts.Refusal, bool) { return arming.RefusalOf(s) }

// CodeOf is the happening of a code word.
func CodeOf(s string) (happening.Code, bool) {
	i, ok := codeOf(codeWords[:], s)
	return happening.Code(i), ok
}

// Why are the code words of a set of refusals, in the order in which they are shown.
func Why(set facts.Set) []string {
	var out []string
	for _, r := range arming.Ever() {
		if set.Has(r) {
			out = append(out, Refusal(r))
		}
	}
	return out
}

// SetUpBy are the code words of what a craft was being set up by.
func SetUpBy(by happening.SetUp) []string {
	return among(uint(by), "cable", "craft-menu", "camera-menu")
}

// Hears is the code word of what reaches the craft of a snapshot.
func Hears(s *sim.Snapshot) string {
	h := facts.HearingOf(s)
	if h == facts.ItsReceiver {
		return Origin(s.Origin)
	}
	return word(hearingWords, int(h), "hearing")
}

var hearingWords = []string{facts.NoPower: "no-power", facts.TheRadio: "radio", facts.Damaged: "radio-not-whole", facts.ItsReceiver: "", facts.Nothing: "nothing"}

// Hearings are the code words of all that may reach a craft.
func Hearings() []string {
	all := slices.DeleteFunc(slices.Clone(hearingWords), func(w string) bool { return w == "" })
	return append(all, originWords[1:]...)
}

// Origin is the code word of where a frame came from.
func Origin(o facts.Origin) string {
	return word(originWords, int(o), "origin")
}

var originWords = []string{"radio", "repeated-values", "stored-values"}

// Mode is the code word of a flight mode.
func Mode(m layout.Mode) string { return m.Code() }

// Link is the code word of the craft's judgement of the link.
func Link(p facts.Phase) string {
	return word([]string{facts.NeverHeard: "never", facts.Lost: "lost", facts.Fresh: "fresh", facts.Good: "good"}, int(p), "link")
}

// Menu is the code word of which menu is open: closed, craft, camera.
func Menu(m int) string {
	return word([]string{pulse.MenuClosed: "closed", pulse.MenuCraft: "craft", pulse.MenuCamera: "camera"}, m, "menu")
}

// Places are the code words of the motors by place, in the order of the snapshot.
func Places() [flight.Motors]string {
	return [flight.Motors]string{"front left", "front right", "rear left", "rear right"}
}

// Job is the code word of what a channel (from 0) does in this craft, empty where it has no job.
func Job(cfg *layout.Config, channel int) string {
	for _, job := range [...]struct {
		on   int8
		word string
	}{
		{cfg.Throttle, "throttle"}, {cfg.Roll, "roll"}, {cfg.Pitch, "pitch"}, {cfg.Yaw, "yaw"}, {cfg.Arm, "arm"}, {cfg.Second, "second"}, {cfg.Mode, "mode"},
	} {
		if channel >= 0 && channel == int(job.on) {
			return job.word
		}
	}
	return ""
}

// Bench is the code word of a bench, by the value of an Air reading; that of the air bench where the craft was flown there for the pilot is its own.
func Bench(at int32) string {
	if _, hovers := pulse.HoverOf(at); hovers {
		return "hover"
	}
	return [...]string{pulse.OnDesk: "desk", pulse.InAir: "air", pulse.OnStand: "stand", pulse.HeightHeld: "height-held"}[min(max(at, pulse.OnDesk), pulse.HeightHeld)]
}

// Hands are the code words of propellers: which way each lifts, seen from above.
func Hands(hands [4]int8) []string {
	out := make([]string, len(hands))
	for i, h := range hands {
		out[i] = [...]string{"counter-clockwise", "none", "clockwise"}[min(max(h, -1), 1)+1]
	}
	return out
}

// OnLoss is the code word of what a receiver does when the radio goes silent, as craft files have it.
func OnLoss(o facts.OnLoss) string {
	return word([]string{facts.FallsSilent: "falls-silent", facts.RepeatsLast: "repeats-last", facts.SendsStored: "sends-stored"}, int(o), "receiver")
}
