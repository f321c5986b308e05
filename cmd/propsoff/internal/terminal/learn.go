package terminal

import (
	"fmt"
	"slices"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input"
	"propsoff/input/learn"
	"propsoff/input/radio"
)

// LearnLines tells the learning of a radio as lines: text, or one JSON object each. It remembers what it has told and
// tells what is new.
type LearnLines struct {
	JSON bool
	// Carries gives the craft's own words for what a job named by its channel does; empty for none.
	Carries func(job string) string

	told  learn.View
	begun bool
	found map[string]string // what was told of each control
	ticks map[string]bool   // the controls told as moved once more
}

// line writes one object, or its text where lines are text.
func (t *LearnLines) line(dst []byte, object any, format string, args ...any) []byte {
	if !t.JSON {
		return append(append(dst, mouth.Printable(fmt.Sprintf(format, args...))...), '\n')
	}
	return appendObject(dst, object)
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
func (t *LearnLines) Notice(dst []byte, ms int64, text string) []byte {
	return t.line(dst, learnText{learnHead{ms, "notice"}, text}, "%s", text)
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
	}{learnHead{ms, "radio"}, info.Name, info.Path, len(info.Axes), info.Buttons}, "%s", phrase.Found(info.Name, info.Way))
}

// Unplugged appends that the radio was pulled out.
func (t *LearnLines) Unplugged(dst []byte, ms int64, name string) []byte {
	return t.line(dst, struct {
		learnHead
		Name string `json:"name"`
	}{learnHead{ms, "unplugged"}, name}, "%s", phrase.LearnWait(name))
}

// Kept appends where the radio file was written.
func (t *LearnLines) Kept(dst []byte, ms int64, name, path string) []byte {
	return t.line(dst, struct {
		learnHead
		Path string `json:"path"`
	}{learnHead{ms, "kept"}, path}, "kept: %s", phrase.KeptIn(name, path))
}

// NotKept appends where the radio file could not be written, why, and what to do.
func (t *LearnLines) NotKept(dst []byte, ms int64, why string) []byte {
	return t.line(dst, learnText{learnHead{ms, "not-kept"}, why}, "not kept: %s", phrase.LearnKeepAgain(why, false))
}

// File appends the radio file itself.
func (t *LearnLines) File(dst []byte, ms int64, file *radio.File) []byte {
	text := file.Marshal()
	if !t.JSON {
		return append(dst, text...)
	}
	return t.line(dst, learnText{learnHead{ms, "file"}, string(text)}, "")
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
	text, first := phrase.Ask(v, t.carries(v.Job)), phrase.AskFirst(v)
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
	}{learnHead{ms, "question"}, number, of, phrase.LearnQuestion(v.Question), phrase.LearnStep(v.Step), v.Job, mode, Can(v), text, first},
		"question %d of %d: %s", number, of, text)
	if t.JSON {
		return dst
	}
	if first != "" {
		dst = fmt.Appendf(dst, "  %s\n", first)
	}
	if v.Step == learn.Choose {
		for mode := 1; mode <= 4; mode++ {
			dst = fmt.Appendf(dst, "  %d  %s\n", mode, phrase.StickModeLine(mode))
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
	if text := phrase.AskPhase(v, false); !t.JSON {
		if text == "" || v.Phase == learn.Moving && v.Positions <= 1 && t.told.Phase == learn.Holding {
			return dst
		}
		return t.line(dst, nil, "  %s", text)
	}
	return t.line(dst, struct {
		learnHead
		Phase     string   `json:"phase"`
		Positions int      `json:"positions"`
		Enough    string   `json:"enough"`
		Can       []string `json:"can"`
	}{learnHead{ms, "phase"}, phrase.LearnPhase(v.Phase), v.Positions, phrase.LearnEnough(v.Enough), Can(v)}, "")
}

func (t *LearnLines) noticed(dst []byte, ms int64, n *learn.Notice) []byte {
	number := func(i int) *int {
		if i < 0 {
			return nil
		}
		i++
		return &i
	}
	text := phrase.Noticed(*n)
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
	}{learnHead{ms, "noticed"}, phrase.LearnNotice(n.Code), number(n.Axis), number(n.Button), number(n.OtherAxis), number(n.OtherButton),
		n.Job, n.OtherJob, float64(n.Share) / 10, n.Count, text}, "noticed: %s", text)
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
		text := phrase.LearnedInFull(c)
		dst = t.line(dst, struct {
			learnHead
			Job  string `json:"job"`
			Text string `json:"text"`
		}{learnHead{ms, "found"}, c.Job, text}, "found: %s: %s", c.Job, text)
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
	}{learnHead{ms, "corners"}, there, turned}, "  there: %v; at their wrong ends: %v", there, turned)
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
		}{learnHead{ms, "replayed"}, r.Job, left}, "  moved once more: %s (left: %d)", r.Job, len(left))
	}
	return dst
}
