package terminal

import (
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input"
	"propsoff.example/input/learn"
)

// LearnView is what the live screen of learning shows.
type LearnView struct {
	// Book is its language, nil for English.
	Book *words.Book
	// Name of the radio, empty while none is there; Info of it.
	Name string
	Info *input.Info
	// Learn is nil while no radio is there. Out: it is pulled out.
	Learn   *learn.View
	Out     bool
	Carries Carries
	Notices []words.Text
	// Kept is what is said of the radio file once it is written or could not be.
	Kept words.Text
	// Naming: a name is typed, so far Typed.
	Naming bool
	Typed  string
}

// LearnScreen makes the lines of the live screen, at most rows of them, each at most columns wide (0: no limit).
func LearnScreen(v *LearnView, columns, rows int) []string {
	var out []string
	add := func(lines ...string) { out = append(out, lines...) }
	wrapped := func(before string, t words.Text) {
		if !t.Empty() {
			add(wrap(before+say(v.Book, t), columns)...)
		}
	}
	head := "propsoff learn"
	if v.Name != "" {
		head += " · " + v.Name
	}
	l := v.Learn
	if l != nil && l.Question < learn.Done {
		head += " · " + say(v.Book, tell.AskedTitle(l))
	}
	add(head)
	for _, n := range v.Notices {
		wrapped("", n)
	}
	add("")
	if l == nil {
		return fit(out, columns, rows)
	}
	wrapped("", tell.Ask(l, v.Carries.of(l.Job)))
	wrapped("", tell.AskFirst(l))
	add("")
	add(wrap(v.phase(columns), columns)...)
	if !v.Out {
		wrapped("! ", tell.Noticed(l.Notice))
	}
	wrapped("", v.Kept)
	add("")
	add(learnPicture(v.Book, l, columns)...)
	add("")
	for _, keys := range v.keys() {
		add(wrap(keys, columns)...)
	}
	add("")
	add(v.answers(columns)...)
	if l.Begun && v.Info != nil && l.Question < learn.Done {
		add("")
		add(v.rawRows(columns)...)
	}
	return fit(out, columns, rows)
}

// phase says how far a step is.
func (v *LearnView) phase(columns int) string {
	l := v.Learn
	phase := tell.AskPhase(l, v.Out)
	if l.Step == learn.Choose && !v.Out && drawsModes(v.Book, columns) {
		phase = words.T("ask.hands-move")
	}
	s := say(v.Book, phase)
	if l.HoldFor > 0 && l.Held > 0 && !v.Out {
		s += "  " + bar(float64(l.Held)/float64(l.HoldFor), 20)
	}
	return s
}

// bar is a line of n places, filled by a share.
func bar(share float64, n int) string {
	full := int(min(max(share, 0), 1) * float64(n))
	return "[" + strings.Repeat("#", full) + strings.Repeat(".", n-full) + "]"
}

// answers are what was learned so far.
func (v *LearnView) answers(columns int) (rows []string) {
	wide := 0
	for i := range v.Learn.Answers {
		wide = max(wide, widest(v.Book, tell.JobName(v.Learn.Answers[i].Job)))
	}
	for i := range v.Learn.Answers {
		c := &v.Learn.Answers[i]
		rows = append(rows, hang(left(say(v.Book, tell.JobName(c.Job)), wide)+"   ", say(v.Book, tell.LearnedInFull(c)), columns)...)
	}
	return rows
}

// keys are the keys that do something now.
func (v *LearnView) keys() []string {
	l := v.Learn
	if v.Naming {
		return []string{say(v.Book, words.T("terminal.naming", words.Args{"typed": words.Quote(v.Typed), "enter": words.T("key-cap.enter")}))}
	}
	var keys []string
	key := func(name string, does words.Text) { keys = append(keys, name+" "+say(v.Book, does)) }
	if l.Enough != learn.NoUse && l.Question < learn.Done {
		key("Enter", tell.EnoughWord(l.Enough, l.Question))
	}
	if l.CanBack {
		key("B", tell.Does("question-back", false, 0))
	}
	if l.CanSkip {
		key("K", tell.Does("question-skip", false, 0))
	}
	if l.CanBack {
		key("O", tell.Does("questions-anew", false, 0))
	}
	if l.Trying && l.Question < learn.Done {
		key("A", tell.Does("learn-instead", false, 0))
	}
	key("Q", tell.Does("leave", false, 0))
	lines := []string{strings.Join(keys, " · ")}
	if l.Last >= 0 && l.Last < len(l.Answers) && l.Question < learn.Done {
		c := &l.Answers[l.Last]
		keys = nil
		key("L", tell.Does("side-left", false, 0))
		key("R", tell.Does("side-right", false, 0))
		key("T", tell.Does("side-top", false, 0))
		if c.IsSwitch() {
			key("M", tell.Does("springs-back", c.Momentary, 0))
		}
		if l.CanClick {
			key("I", tell.Does("clicks", c.IsSwitch(), 0))
		}
		key("C", tell.Does("call-switch", false, 0))
		lines = append(lines, say(v.Book, tell.JobName(c.Job))+": "+strings.Join(keys, " · "))
	}
	return lines
}

// rawRows are the axes as marks on lines, and the pressed buttons. While the radio is pulled out, none answers.
func (v *LearnView) rawRows(columns int) (rows []string) {
	l := v.Learn
	axis := say(v.Book, words.T("terminal.axis"))
	for i := range min(len(v.Info.Axes), input.MaxAxes) {
		line := strings.Repeat("-", penWidth)
		if s := l.Shares[i]; s >= 0 {
			at := min(max(s, 0), 1000) * (penWidth - 1) / 1000
			line = line[:at] + "O" + line[at+1:]
		}
		mark, answers := " ", ""
		if l.Axis == i && !v.Out {
			mark, answers = ">", " "+say(v.Book, words.T("learn-title.answers"))
		}
		rows = append(rows, fmt.Sprintf("%s %s %2d %7d  %s%s", mark, axis, i+1, l.Raw.Axes[i], line, answers))
	}
	if v.Info.Buttons > 0 {
		rows = append(rows, hang("  ", say(v.Book, buttons(v.Info.Buttons, pressed(&l.Raw))), columns)...)
	}
	return rows
}

// learnPicture draws in letters what is asked for: how the craft is to lean, the hands to choose from, both sticks, or the list of what
// was shown once more.
func learnPicture(b *words.Book, l *learn.View, columns int) (out []string) {
	switch l.Step {
	case learn.HighEnd, learn.LowEnd, learn.LetGo:
		return leanLine(b, l)
	case learn.Through:
		return []string{say(b, words.T("learn-title.lever")) + ": " + strings.TrimSpace(strings.Repeat("# ", max(l.Positions, 1)))}
	case learn.Choose:
		if drawsModes(b, columns) {
			return stickModes(b, l)
		}
		for mode := 1; mode <= 4; mode++ {
			out = append(out, hang(strconv.Itoa(mode)+"  ", say(b, tell.StickModeLine(mode)), columns)...)
		}
	case learn.Corners:
		out = stickBoxes(b, l)
		for _, c := range l.Corners {
			out = append(out, wrap(say(b, tell.CornerWords(tell.JobName(c.Job), c)), columns)...)
		}
	case learn.ItsWay, learn.AndBack:
		for i := range l.Plan {
			if item := &l.Plan[i]; item.Question == learn.Once {
				mark := map[bool]string{true: "[x] ", false: "[ ] "}[item.Answered]
				if i == l.Now {
					mark = "[>] "
				} else if item.Skipped {
					mark = "[-] "
				}
				out = append(out, mark+say(b, tell.PlanWord(item)))
			}
		}
	case learn.Each:
		for i := range l.Replayed {
			mark := "[ ] "
			if l.Replayed[i].Seen {
				mark = "[x] "
			}
			out = append(out, mark+say(b, tell.JobName(l.Replayed[i].Job)))
		}
	}
	return out
}

// leanWidth is how many letters a line has on which the craft leans.
const leanWidth = 41

// leanLine draws how the craft leans as its axis moves, and the zone that it is to come to.
func leanLine(b *words.Book, l *learn.View) []string {
	least, all := -1000, 2000
	if l.Job == "throttle" {
		least, all = 0, 1000
	}
	at := func(lean int) int { return min(max((lean-least)*(leanWidth-1)/all, 0), leanWidth-1) }
	line := []byte(strings.Repeat("-", leanWidth))
	for i := at(l.Zone[0]); i <= at(l.Zone[1]); i++ {
		line[i] = '/'
	}
	line[at(l.Lean)] = 'o'
	wide := 0
	for _, job := range [...]string{"pitch", "yaw", "roll", "throttle"} {
		low, _ := tell.LeanEnds(job)
		wide = max(wide, widest(b, low)+2)
	}
	low, high := tell.LeanEnds(l.Job)
	return []string{
		right(say(b, low), wide) + " |" + string(line) + "| " + say(b, high),
		strings.Repeat(" ", wide+2) + say(b, words.T("terminal.lean", words.Args{"craft": words.T("learn-title.craft"), "zone": tell.ZoneHere(true)})),
	}
}
