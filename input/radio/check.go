package radio

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/input"
	"propsoff.example/sim/pulse"
)

// A fault is one thing wrong with a file: where, by control index and part ("", "axis", "buttons/2", "scale",
// "reach", "positions/1" …), control -1 for the whole; and what.
type fault struct {
	control int
	part    string
	id      words.ID
	args    words.Args
	missing string // the job that is missing, where that is what is wrong
}

// check finds what is wrong with the meaning of file, in file order. info and names may be nil: then what depends on
// them is not checked.
func check(file *File, info *input.Info, names *input.Names) []fault {
	var out []fault
	say := func(control int, part string, id words.ID, args words.Args) {
		out = append(out, fault{control: control, part: part, id: id, args: args})
	}
	if file.StickMode < 1 || file.StickMode > 4 {
		say(-1, "stick-mode", "radio.stick-mode", words.Args{"mode": words.Whole(file.StickMode)})
	}
	jobs := map[string]bool{}
	axes, buttons, channels := map[int]string{}, map[int]string{}, map[int]string{}
	for i, c := range file.Controls {
		_, near, ok := channelJob(c.Job)
		switch {
		case near && !ok:
			meant, _ := channelMeant(c.Job)
			say(i, "", "radio.no-channel", words.Args{"job": words.Quote(c.Job), "near": words.Quote(meant), "most": words.Whole(pulse.Channels)})
		case !near && !knownJob(c.Job, names):
			meant, ok := channelMeant(c.Job)
			if !ok {
				meant, ok = yamldoc.Near(c.Job, Jobs())
			}
			if !ok && names == nil && craftJob(c.Job) {
				break // a craft may have such a job; which one is not known here
			}
			say(i, "", "radio.no-job", words.Args{"job": words.Quote(c.Job), "near": words.Quote(meant), "jobs": words.Listed(words.AsAre(Jobs()...)...)})
		}
		if jobs[c.Job] {
			say(i, "", "radio.twice", words.Args{"job": words.Quote(c.Job)})
			continue
		}
		jobs[c.Job] = true
		if names != nil {
			if ch, ok := ChannelOf(c.Job, *names); ok {
				if other := channels[ch]; other != "" {
					say(i, "", "radio.same-channel", words.Args{"other": words.Quote(other), "job": words.Quote(c.Job), "channel": words.Whole(ch + 1)})
				} else {
					channels[ch] = c.Job
				}
			}
		}
		if c.With != "" { // what it moves with is checked
			continue
		}
		switch c.Form {
		case Axis:
			checkAxis(i, c, info, axes, say)
		case Button, Row:
			checkButtons(i, c, info, buttons, say)
		default:
			say(i, "", "radio.no-form", words.Args{"job": words.Quote(c.Job)})
			continue
		}
		checkFindings(i, c, say)
	}
	for _, job := range Needed() {
		if !jobs[job] {
			out = append(out, fault{control: -1, part: "controls", id: "radio.missing", args: words.Args{"job": words.Quote(job)}, missing: job})
		}
	}
	return out
}

// channelMeant gives the job that was meant by a channel written in another way, such as "ch7" or "Channel-7".
func channelMeant(job string) (string, bool) {
	low := strings.ToLower(job)
	digits := strings.TrimLeft(low, "chanel")
	if letters := low[:len(low)-len(digits)]; letters != "ch" && letters != "chan" && letters != "channel" {
		return "", false
	}
	n, err := strconv.ParseUint(strings.TrimLeft(digits, " -_"), 10, 8)
	if err != nil || n < 1 || n > pulse.Channels {
		return "", false
	}
	return fmt.Sprintf("channel %d", n), true
}

// craftJob reports whether job can be the name of a job that a craft file gives (finder sound, lights …): words of letters
// and digits with single spaces or hyphens between, begun with a letter, that mean nothing else here.
func craftJob(job string) bool {
	var last rune = ' '
	for i, r := range job {
		gap := r == ' ' || r == '-'
		if gap && (last == ' ' || last == '-') || !gap && !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r)) {
			return false
		}
		last = r
	}
	rest := strings.ToLower(job)
	for _, word := range []string{"channel", "chan", "ch"} { // a channel, written otherwise
		if cut, ok := strings.CutPrefix(rest, word); ok && strings.Trim(cut, " -0123456789") == "" {
			return false
		}
	}
	return last != ' ' && last != '-' && utf8.RuneCountInString(job) <= 24
}

func knownJob(job string, names *input.Names) bool {
	for _, j := range Jobs() {
		if j == job {
			return true
		}
	}
	if names != nil {
		_, ok := names.Channel[job]
		return ok
	}
	return false
}

type sayer func(control int, part string, id words.ID, args words.Args)

func checkAxis(i int, c Control, info *input.Info, used map[int]string, say sayer) {
	most := input.MaxAxes
	if info != nil {
		most = min(most, len(info.Axes))
	}
	switch {
	case c.Axis < 0 || c.Axis >= input.MaxAxes:
		say(i, "axis", "radio.axis-number", words.Args{"axis": words.Whole(c.Axis + 1), "job": words.Quote(c.Job), "most": words.Whole(input.MaxAxes)})
	case c.Axis >= most:
		say(i, "axis", "radio.axis-beyond", words.Args{"axis": words.Whole(c.Axis + 1), "job": words.Quote(c.Job), "n": words.Count(most)})
	case used[c.Axis] != "":
		say(i, "axis", "radio.axis-taken", words.Args{"axis": words.Whole(c.Axis + 1), "other": words.Quote(used[c.Axis]), "job": words.Quote(c.Job)})
	default:
		used[c.Axis] = c.Job
	}
	if c.Scale != nil && !c.Scale.Sound() {
		say(i, "scale", "radio.scale-unsound", words.Args{"job": words.Quote(c.Job)})
	}
	if r := c.Reach; r != nil && !(r.Low <= r.Rest && r.Rest <= r.High && r.Low < r.High) {
		say(i, "reach", "radio.reach-unsound", words.Args{"job": words.Quote(c.Job)})
	}
}

func checkButtons(i int, c Control, info *input.Info, used map[int]string, say sayer) {
	most := input.MaxButtons
	if info != nil {
		most = min(most, info.Buttons)
	}
	if c.Form == Row && len(c.Buttons) >= 2 && !slices.ContainsFunc(c.Buttons, func(b int) bool { return b != None }) {
		say(i, "buttons", "radio.row-of-none", words.Args{"job": words.Quote(c.Job)})
		return
	}
	none := 0
	for k, b := range c.Buttons {
		part := "button"
		if c.Form == Row {
			part = fmt.Sprintf("buttons/%d", k)
		}
		switch {
		case b == None && c.Form == Row:
			if none++; none > 1 {
				say(i, part, "radio.none-twice", words.Args{"job": words.Quote(c.Job)})
			}
			continue
		case b < 0 || b >= input.MaxButtons:
			say(i, part, "radio.button-number", words.Args{"button": words.Whole(b + 1), "job": words.Quote(c.Job), "most": words.Whole(input.MaxButtons)})
		case b >= most:
			say(i, part, "radio.button-beyond", words.Args{"button": words.Whole(b + 1), "job": words.Quote(c.Job), "n": words.Count(most)})
		case used[b] != "":
			say(i, part, "radio.button-taken", words.Args{"button": words.Whole(b + 1), "other": words.Quote(used[b]), "job": words.Quote(c.Job)})
		default:
			used[b] = c.Job
		}
	}
	switch {
	case c.Form == Button && len(c.Buttons) != 1:
		say(i, "button", "radio.one-button", words.Args{"job": words.Quote(c.Job)})
	case c.Form == Row && (len(c.Buttons) < 2 || len(c.Buttons) > MostPositions):
		say(i, "buttons", "radio.row-length", words.Args{"job": words.Quote(c.Job), "n": words.Count(len(c.Buttons)), "most": words.Whole(MostPositions)})
	}
}
