package radio

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"propsoff/assets/yamldoc"
	"propsoff/input"
	"propsoff/sim/pulse"
)

// A fault is one thing wrong with a file; at tells where: control index and part ("", "axis", "buttons/2", "scale",
// "reach", "positions/1" …), control -1 for the whole.
type fault struct {
	control int
	part    string
	text    string
}

// check finds what is wrong with the meaning of file, in file order. info and names may be nil: then what depends on
// them is not checked.
func check(file *File, info *input.Info, names *input.Names) []fault {
	var out []fault
	say := func(control int, part, format string, args ...any) {
		out = append(out, fault{control, part, fmt.Sprintf(format, args...)})
	}
	if file.StickMode < 1 || file.StickMode > 4 {
		say(-1, "stick-mode", "stick-mode is %d; give 1, 2, 3 or 4", file.StickMode)
	}
	jobs := map[string]bool{}
	axes, buttons, channels := map[int]string{}, map[int]string{}, map[int]string{}
	for i, c := range file.Controls {
		_, near, ok := channelJob(c.Job)
		switch {
		case near && !ok:
			hint := ""
			if w, ok := channelMeant(c.Job); ok {
				hint = fmt.Sprintf(": did you mean `%s`?", w)
			}
			say(i, "", "`%s` is no channel%s channels are `channel 1` to `channel %d`", c.Job, cmp.Or(hint, ";"), pulse.Channels)
		case !near && !knownJob(c.Job, names):
			hint := ""
			w, ok := channelMeant(c.Job)
			if !ok {
				w, ok = yamldoc.Near(c.Job, Jobs())
			}
			if !ok && names == nil && craftJob(c.Job) {
				break // a craft may have such a job; which one is not known here
			}
			if ok {
				hint = fmt.Sprintf(": did you mean `%s`?", w)
			}
			say(i, "", "`%s` is no job%s jobs are %s, or `channel 7`", c.Job, cmp.Or(hint, ";"), strings.Join(Jobs(), ", "))
		}
		if jobs[c.Job] {
			say(i, "", "%s is given twice; keep one", c.Job)
			continue
		}
		jobs[c.Job] = true
		if names != nil {
			if ch, ok := channelOf(c.Job, *names); ok {
				if other := channels[ch]; other != "" {
					say(i, "", "%s and %s are both channel %d for this craft; keep one", other, c.Job, ch+1)
				} else {
					channels[ch] = c.Job
				}
			}
		}
		switch c.Form {
		case Axis:
			checkAxis(i, c, info, axes, say)
		case Button, Row:
			checkButtons(i, c, info, buttons, say)
		default:
			say(i, "", "%s has neither an axis nor buttons; give one, such as `{axis: 3}`", c.Job)
			continue
		}
		checkFindings(i, c, say)
	}
	for _, job := range Needed() {
		if !jobs[job] {
			say(-1, "controls", "%s is missing; say which axis it is, such as `%s: {axis: 3}`", job, job)
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

type sayer func(control int, part, format string, args ...any)

func checkAxis(i int, c Control, info *input.Info, used map[int]string, say sayer) {
	most := input.MaxAxes
	if info != nil {
		most = min(most, len(info.Axes))
	}
	switch {
	case c.Axis < 0 || c.Axis >= input.MaxAxes:
		say(i, "axis", "axis %d of %s: axes count from 1 to %d", c.Axis+1, c.Job, input.MaxAxes)
	case c.Axis >= most:
		say(i, "axis", "axis %d of %s: this radio has %s", c.Axis+1, c.Job, plural(most, "axis", "axes"))
	case used[c.Axis] != "":
		say(i, "axis", "axis %d is %s already; give %s another", c.Axis+1, used[c.Axis], c.Job)
	default:
		used[c.Axis] = c.Job
	}
	if c.Scale != nil && !c.Scale.Sound() {
		say(i, "scale", "the scale of %s must rise or fall from 988 over 1500 to 2012, within ±4294967296", c.Job)
	}
	if r := c.Reach; r != nil && !(r.Low <= r.Rest && r.Rest <= r.High && r.Low < r.High) {
		say(i, "reach", "the reach of %s must have low <= rest <= high with low below high (raw values, whichever way the scale runs)", c.Job)
	}
}

func checkButtons(i int, c Control, info *input.Info, used map[int]string, say sayer) {
	most := input.MaxButtons
	if info != nil {
		most = min(most, info.Buttons)
	}
	if c.Form == Row && len(c.Buttons) >= 2 && !slices.ContainsFunc(c.Buttons, func(b int) bool { return b != None }) {
		say(i, "buttons", "the row of %s has no button, so it could never be moved; give at least one, such as `[6, none, 8]`", c.Job)
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
				say(i, part, "`none` stands twice in %s; one position at most holds while no button is pressed", c.Job)
			}
			continue
		case b < 0 || b >= input.MaxButtons:
			say(i, part, "button %d of %s: buttons count from 1 to %d", b+1, c.Job, input.MaxButtons)
		case b >= most:
			say(i, part, "button %d of %s: this radio has %s", b+1, c.Job, plural(most, "button", "buttons"))
		case used[b] != "":
			say(i, part, "button %d belongs to %s already; give %s another", b+1, used[b], c.Job)
		default:
			used[b] = c.Job
		}
	}
	switch {
	case c.Form == Button && len(c.Buttons) != 1:
		say(i, "button", "%s needs exactly one button", c.Job)
	case c.Form == Row && (len(c.Buttons) < 2 || len(c.Buttons) > MostPositions):
		say(i, "buttons", "the row of %s has %s; give 2 to %d, such as `[6, none, 8]`", c.Job,
			plural(len(c.Buttons), "position", "positions"), MostPositions)
	}
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
