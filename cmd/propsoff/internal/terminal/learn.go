package terminal

import (
	"fmt"
	"slices"

	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/input"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// LearnLines tells the learning of a radio as lines: text, or one JSON object each. It remembers what it has told and
// tells what is new.
type LearnLines struct {
	JSON bool
	// Book is the language of lines of text, nil for English.
	Book *words.Book
	// Carries gives the craft's own words for what a job named by its channel does; empty for none.
	Carries func(job string) string

	told  learn.View
	begun bool
	found map[string]string // what was told of each control
	ticks map[string]bool   // the controls told as moved once more
}

// line writes one object, or its text where lines are text.
func (t *LearnLines) line(dst []byte, object any, text words.Text) []byte {
	if !t.JSON {
		return append(append(dst, say(t.Book, text)...), '\n')
	}
	return appendObject(dst, object)
}

// under writes a line of text set in below the one that it belongs to.
func (t *LearnLines) under(dst []byte, text words.Text) []byte {
	return fmt.Appendf(dst, "  %s\n", say(t.Book, text))
}

type learnHead struct {
	MS   int64  `json:"t_ms"`
	Code string `json:"code"`
}

type learnText struct {
	learnHead
	Text string `json:"text"`
}

// Notice appends a sentence. ms is the time since the start.
func (t *LearnLines) Notice(dst []byte, ms int64, text words.Text) []byte {
	return t.line(dst, learnText{learnHead{ms, "notice"}, english(text)}, text)
}

// Radio appends that a radio is open.
func (t *LearnLines) Radio(dst []byte, ms int64, info *input.Info) []byte {
	t.begun = false // the question is told again, for whoever comes back to it
	return t.line(dst, struct {
		learnHead
		Name    string `json:"name"`
		Path    string `json:"path"`
		Axes    int    `json:"axes"`
		Buttons int    `json:"buttons"`
	}{learnHead{ms, "radio"}, info.Name, info.Path, len(info.Axes), info.Buttons}, tell.Found(info.Name, info.Way))
}

// Unplugged appends that the radio was pulled out.
func (t *LearnLines) Unplugged(dst []byte, ms int64, name string) []byte {
	return t.line(dst, struct {
		learnHead
		Name string `json:"name"`
	}{learnHead{ms, "unplugged"}, name}, tell.LearnWait(name))
}

// Kept appends where the radio file was written.
func (t *LearnLines) Kept(dst []byte, ms int64, name, path string) []byte {
	return t.line(dst, struct {
		learnHead
		Path string `json:"path"`
	}{learnHead{ms, "kept"}, path}, words.T("terminal.kept", words.Args{"how": tell.KeptIn(name, path)}))
}

// NotKept appends where the radio file could not be written, why, and what to do.
func (t *LearnLines) NotKept(dst []byte, ms int64, why words.Text) []byte {
	return t.line(dst, learnText{learnHead{ms, "not-kept"}, english(why)}, words.T("terminal.not-kept", words.Args{"how": tell.LearnKeepAgain(why, false)}))
}

// File appends the radio file itself.
func (t *LearnLines) File(dst []byte, ms int64, file *radio.File) []byte {
	text := file.Marshal()
	if !t.JSON {
		return append(dst, text...)
	}
	return appendObject(dst, learnText{learnHead{ms, "file"}, string(text)})
}

// See appends what is new in v.
func (t *LearnLines) See(dst []byte, ms int64, v *learn.View) []byte {
	was := &t.told
	asked := !t.begun || v.Question != was.Question || v.Step != was.Step || v.Now != was.Now || v.Job != was.Job
	dst = t.answers(dst, ms, v)
	if asked {
		dst = t.question(dst, ms, v)
	}
	if asked || v.Phase != was.Phase || v.Positions != was.Positions || v.Enough != was.Enough {
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
	text, first := tell.Ask(v, t.carries(v.Job)), tell.AskFirst(v)
	number, of := min(v.Now+1, len(v.Plan)), len(v.Plan)
	mode := 0 // not known yet
	if v.ModeKnown {
		mode = v.StickMode
	}
	dst = t.line(dst, struct {
		learnHead
		Number    int      `json:"number"`
		Of        int      `json:"of"`
		Question  string   `json:"question"`
		Step      string   `json:"step"`
		Job       string   `json:"job"`
		StickMode int      `json:"stick_mode,omitempty"`
		Can       []string `json:"can"`
		Text      string   `json:"text"`
		First     string   `json:"first,omitempty"`
	}{learnHead{ms, "question"}, number, of, codes.LearnQuestion(v.Question), codes.LearnStep(v.Step), v.Job, mode, Can(v), english(text), english(first)},
		words.T("terminal.question", words.Args{"n": words.Whole(number), "all": words.Whole(of), "text": text}))
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

func (t *LearnLines) carries(job string) string {
	if t.Carries == nil {
		return ""
	}
	return t.Carries(job)
}

// Can are the words of the commands that do something now.
func Can(v *learn.View) []string {
	can := []string{}
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
	if v.Last >= 0 && v.Question < learn.Done {
		can = append(can, "left", "right", "top", "springs", "call")
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
	return appendObject(dst, struct {
		learnHead
		Phase     string   `json:"phase"`
		Positions int      `json:"positions"`
		Enough    string   `json:"enough"`
		Can       []string `json:"can"`
	}{learnHead{ms, "phase"}, codes.LearnPhase(v.Phase), v.Positions, codes.LearnEnough(v.Enough), Can(v)})
}

func (t *LearnLines) noticed(dst []byte, ms int64, n *learn.Notice) []byte {
	number := func(i int) *int {
		if i < 0 {
			return nil
		}
		i++
		return &i
	}
	text := tell.Noticed(*n)
	return t.line(dst, struct {
		learnHead
		Notice      string  `json:"notice"`
		Axis        *int    `json:"axis"`
		Button      *int    `json:"button"`
		OtherAxis   *int    `json:"other_axis"`
		OtherButton *int    `json:"other_button"`
		Job         string  `json:"job"`
		OtherJob    string  `json:"other_job"`
		Share       float64 `json:"share"`
		Count       int     `json:"count"`
		Text        string  `json:"text"`
	}{learnHead{ms, "noticed"}, codes.LearnNotice(n.Code), number(n.Axis), number(n.Button), number(n.OtherAxis), number(n.OtherButton),
		n.Job, n.OtherJob, float64(n.Share) / 10, n.Count, english(text)}, words.T("terminal.noticed", words.Args{"text": text}))
}

// answers tells of controls that were found, or of which something else is known now. That a reach grows by a step is no
// news.
func (t *LearnLines) answers(dst []byte, ms int64, v *learn.View) []byte {
	if t.found == nil {
		t.found = map[string]string{}
	}
	for job := range t.found {
		if !slices.ContainsFunc(v.Answers, func(c radio.Control) bool { return c.Job == job }) {
			delete(t.found, job) // asked again
		}
	}
	for i := range v.Answers {
		c := &v.Answers[i]
		known := fmt.Sprint(c.Form, c.Axis, c.Buttons, len(c.Positions), c.Stays, c.Momentary, c.Side, c.Called)
		if t.found[c.Job] == known {
			continue
		}
		t.found[c.Job] = known
		text := tell.LearnedInFull(c)
		dst = t.line(dst, struct {
			learnHead
			Job  string `json:"job"`
			Text string `json:"text"`
		}{learnHead{ms, "found"}, c.Job, english(text)}, words.T("terminal.found", words.Args{"job": tell.JobName(c.Job), "text": text}))
	}
	return dst
}

func (t *LearnLines) corners(dst []byte, ms int64, v *learn.View) []byte {
	lists := func(all []learn.Corner) (there, turned []string) {
		there, turned = []string{}, []string{}
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
	oldThere, oldTurned := lists(nil)
	if t.told.Question == learn.TopRight {
		oldThere, oldTurned = lists(t.told.Corners)
	}
	if v.Question != learn.TopRight || slices.Equal(there, oldThere) && slices.Equal(turned, oldTurned) {
		return dst
	}
	return t.line(dst, struct {
		learnHead
		There  []string `json:"there"`
		Turned []string `json:"turned"`
	}{learnHead{ms, "corners"}, there, turned}, words.T("terminal.corners", words.Args{"there": jobs(there), "turned": jobs(turned)}))
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

func (t *LearnLines) replayed(dst []byte, ms int64, v *learn.View) []byte {
	if v.Question != learn.Replay {
		t.ticks = nil
		return dst
	}
	if t.ticks == nil {
		t.ticks = map[string]bool{}
	}
	left := []string{}
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
		dst = t.line(dst, struct {
			learnHead
			Job  string   `json:"job"`
			Left []string `json:"left"`
		}{learnHead{ms, "replayed"}, r.Job, left}, words.T("terminal.moved", words.Args{"job": tell.JobName(r.Job), "n": words.Whole(len(left))}))
	}
	return dst
}
