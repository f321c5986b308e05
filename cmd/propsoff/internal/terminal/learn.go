package terminal

import (
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// Carries gives the craft's own words for what a job named by its channel does, empty for none; nil knows none at all.
type Carries func(job string) string

func (c Carries) of(job string) string {
	if c == nil {
		return ""
	}
	return c(job)
}

// LearnLines tells the learning of a radio as lines: text, or one JSON object each. It remembers what it has told and
// tells what is new.
type LearnLines struct {
	Form
	Carries Carries

	told  learn.View
	begun bool
	found map[string]string // what was told of each control
	ticks map[string]bool   // the controls told as moved once more
}

// line appends time, code and fields as JSON, or the text.
func (t *LearnLines) line(dst []byte, ms int64, code string, text words.Text, fields ...any) []byte {
	if t.JSON {
		return AppendFields(dst, append([]any{"t_ms", ms, "code", code}, fields...)...)
	}
	return append(append(dst, say(t.Book, text)...), '\n')
}

// under appends a line of text set in below the one that it belongs to.
func (t *LearnLines) under(dst []byte, text words.Text) []byte {
	return fmt.Appendf(dst, "  %s\n", say(t.Book, text))
}

// Notice appends a sentence. ms is the time since the start.
func (t *LearnLines) Notice(dst []byte, ms int64, text words.Text) []byte {
	return t.line(dst, ms, "notice", text, "text", text)
}

// Radio appends that a radio is open.
func (t *LearnLines) Radio(dst []byte, ms int64, info *input.Info) []byte {
	t.begun = false // the question is told again, for whoever comes back to it
	return t.line(dst, ms, "radio", tell.Found(info.Name, info.Way), "name", info.Name, "path", info.Path, "axes", len(info.Axes), "buttons", info.Buttons)
}

// Unplugged appends that the radio was pulled out.
func (t *LearnLines) Unplugged(dst []byte, ms int64, name string) []byte {
	return t.line(dst, ms, "unplugged", words.T("ask.wait", words.Args{"name": words.Quote(name)}), "name", name)
}

// Kept appends where the radio file was written.
func (t *LearnLines) Kept(dst []byte, ms int64, name, path string) []byte {
	return t.line(dst, ms, "kept", words.T("terminal.kept", words.Args{"how": tell.KeptIn(name, path)}), "path", path)
}

// NotKept appends where the radio file could not be written, why, and what to do.
func (t *LearnLines) NotKept(dst []byte, ms int64, why words.Text) []byte {
	return t.line(dst, ms, "not-kept", words.T("terminal.not-kept", words.Args{"how": tell.LearnKeepAgain(why, "", "")}), "text", why)
}

// File appends the radio file itself.
func (t *LearnLines) File(dst []byte, ms int64, file *radio.File) []byte {
	text := file.Marshal()
	if !t.JSON {
		return append(dst, text...)
	}
	return t.line(dst, ms, "file", words.Text{}, "text", string(text))
}

// See appends what is new in v.
func (t *LearnLines) See(dst []byte, ms int64, v *learn.View) []byte {
	was := &t.told
	asked := !t.begun || v.Question != was.Question || v.Step != was.Step || v.Now != was.Now || v.Job != was.Job
	dst = t.right(t.answers(dst, ms, v), ms, v)
	if asked {
		dst = t.question(dst, ms, v)
	}
	if asked || v.Phase != was.Phase || v.Positions != was.Positions || v.Seen != was.Seen || v.Enough != was.Enough {
		dst = t.phase(dst, ms, v)
	}
	if v.Notice != was.Notice && v.Notice.Code != learn.Nothing {
		dst = t.noticed(dst, ms, &v.Notice)
	}
	dst = t.corners(dst, ms, v)
	dst = t.replayed(dst, ms, v)
	t.told, t.begun = *v, true
	return dst
}

func (t *LearnLines) question(dst []byte, ms int64, v *learn.View) []byte {
	text, first := tell.Ask(v, t.Carries.of(v.Job)), tell.AskFirst(v)
	number, of := min(v.Now+1, len(v.Plan)), len(v.Plan)
	mode := 0 // not known yet
	if v.ModeKnown {
		mode = v.StickMode
	}
	dst = t.line(dst, ms, "question", words.T("terminal.question", words.Args{"n": words.Whole(number), "all": words.Whole(of), "text": text}),
		"number", number, "of", of, "question", codes.LearnQuestion(v.Question), "step", codes.LearnStep(v.Step), "job", v.Job, "stick_mode", orNil(mode),
		"can", Can(v), "text", text, "first", orNil(english(first)))
	if t.JSON {
		return dst
	}
	if !first.Empty() {
		dst = t.under(dst, first)
	}
	if v.Step == learn.Choose {
		for mode := 1; mode <= 4; mode++ {
			dst = fmt.Appendf(dst, "  %d  %s\n", mode, say(t.Book, tell.StickModeLine(mode)))
		}
	}
	return dst
}

// Can are the words of the commands that do something now.
func Can(v *learn.View) (can []string) {
	if v.Enough != learn.NoUse {
		can = append(can, "enough")
	}
	if v.CanBack {
		can = append(can, "back")
	}
	if v.CanSkip {
		can = append(can, "skip")
	}
	if v.Question == learn.StickMode {
		can = append(can, "1", "2", "3", "4")
	}
	if v.Question < learn.Done {
		can = append(can, "over")
	}
	if v.Trying && v.Question < learn.Done {
		can = append(can, "anew")
	}
	if v.Last >= 0 && v.Question < learn.Done {
		can = append(can, "left", "right", "top")
		if v.Answers[v.Last].IsSwitch() {
			can = append(can, "springs")
		}
		if v.CanClick {
			can = append(can, "clicks")
		}
		can = append(can, "call")
	}
	return can
}

func (t *LearnLines) phase(dst []byte, ms int64, v *learn.View) []byte {
	if text := tell.AskPhase(v, false); !t.JSON {
		if text.Empty() || v.Phase == learn.Moving && v.Positions <= 1 && t.told.Phase == learn.Holding {
			return dst
		}
		return t.under(dst, text)
	}
	return t.line(dst, ms, "phase", words.Text{}, "phase", codes.LearnPhase(v.Phase), "positions", v.Positions, "enough", codes.LearnEnough(v.Enough), "can", Can(v))
}

func (t *LearnLines) noticed(dst []byte, ms int64, n *learn.Notice) []byte {
	number := func(i int) *int { // a nil pointer is null in JSON
		if i < 0 {
			return nil
		}
		i++
		return &i
	}
	text := tell.Noticed(*n)
	return t.line(dst, ms, "noticed", words.T("terminal.noticed", words.Args{"text": text}), "notice", codes.LearnNotice(n.Code),
		"axis", number(n.Axis), "button", number(n.Button), "other_axis", number(n.OtherAxis), "other_button", number(n.OtherButton),
		"job", n.Job, "other_job", n.OtherJob, "share", float64(n.Share)/10, "count", n.Count, "text", text)
}

// answers tells of controls that were found, or of which something else is known now. That a reach grows by a step is no
// news.
func (t *LearnLines) answers(dst []byte, ms int64, v *learn.View) []byte {
	if t.found == nil {
		t.found = map[string]string{}
	}
	if v.Trying { // nothing is found
		return dst
	}
	for job := range t.found {
		if !slices.ContainsFunc(v.Answers, func(c radio.Control) bool { return c.Job == job }) {
			delete(t.found, job) // asked again
		}
	}
	for i := range v.Answers {
		c := &v.Answers[i]
		known := fmt.Sprint(c.Form, c.Axis, c.Buttons, len(c.Positions), c.Stays, c.Momentary, c.Side, c.Spot, c.Called)
		if t.found[c.Job] == known {
			continue
		}
		t.found[c.Job] = known
		text := tell.LearnedInFull(c)
		dst = t.line(dst, ms, "found", words.T("terminal.found", words.Args{"job": tell.JobName(c.Job), "text": text}), "job", c.Job, "text", text)
	}
	return dst
}

func (t *LearnLines) corners(dst []byte, ms int64, v *learn.View) []byte {
	lists := func(all []learn.Corner) (there, turned []string) {
		for _, c := range all {
			if c.There {
				there = append(there, c.Job)
			}
			if c.Turned {
				turned = append(turned, c.Job)
			}
		}
		return there, turned
	}
	there, turned := lists(v.Corners)
	var oldThere, oldTurned []string
	if t.told.Question == learn.TopRight {
		oldThere, oldTurned = lists(t.told.Corners)
	}
	if v.Question != learn.TopRight || slices.Equal(there, oldThere) && slices.Equal(turned, oldTurned) {
		return dst
	}
	return t.line(dst, ms, "corners", words.T("terminal.corners", words.Args{"there": jobs(there), "turned": jobs(turned)}), "there", there, "turned", turned)
}

// jobs lists jobs by their names, or says that there is none.
func jobs(all []string) words.Text {
	if len(all) == 0 {
		return words.T("terminal.no-job")
	}
	var out []words.Text
	for _, job := range all {
		out = append(out, tell.JobName(job))
	}
	return words.Listed(out...)
}

// right tells of the controls of a file that is tried which answered as it says.
func (t *LearnLines) right(dst []byte, ms int64, v *learn.View) []byte {
	for i := range v.Plan {
		item := &v.Plan[i]
		if item.Question != learn.Once || !item.Answered || i < len(t.told.Plan) && t.told.Plan[i] == *item {
			continue
		}
		dst = t.line(dst, ms, "right", words.T("terminal.right", words.Args{"job": tell.JobName(item.Job)}), "job", item.Job)
	}
	return dst
}

func (t *LearnLines) replayed(dst []byte, ms int64, v *learn.View) []byte {
	if v.Question != learn.Replay {
		t.ticks = nil
		return dst
	}
	if t.ticks == nil {
		t.ticks = map[string]bool{}
	}
	var left []string
	for _, r := range v.Replayed {
		if !r.Seen {
			left = append(left, r.Job)
		}
	}
	for _, r := range v.Replayed {
		if !r.Seen || t.ticks[r.Job] {
			continue
		}
		t.ticks[r.Job] = true
		moved := words.T("terminal.moved", words.Args{"job": tell.JobName(r.Job), "n": words.Whole(len(left))})
		dst = t.line(dst, ms, "replayed", moved, "job", r.Job, "left", left)
	}
	return dst
}
