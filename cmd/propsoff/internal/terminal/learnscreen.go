package terminal

import (
	"fmt"
	"strings"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input"
	"propsoff/input/learn"
)

// LearnView is what the live screen of learning shows.
type LearnView struct {
	// Name of the radio, empty while none is there; Info of it.
	Name string
	Info *input.Info
	// Learn is nil while no radio is there. Out: it is pulled out.
	Learn *learn.View
	Out   bool
	// Carries as in LearnLines.
	Carries func(job string) string
	Notices []string
	// Kept is set once the radio file is written or could not be: the sentence about it.
	Kept string
	// Naming: a name is typed, so far Typed.
	Naming bool
	Typed  string
}

// LearnScreen makes the lines of the live screen, at most rows of them, each at most columns wide (0: no limit).
func LearnScreen(v *LearnView, columns, rows int) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	head := "propsoff learn"
	if v.Name != "" {
		head += " · " + v.Name
	}
	l := v.Learn
	if l != nil && l.Question < learn.Done {
		head += " · " + phrase.AskedTitle(l)
	}
	add("%s", head)
	for _, n := range v.Notices {
		out = append(out, wrap(n, columns)...)
	}
	add("")
	if l == nil {
		return fitScreen(out, columns, rows)
	}
	carries := ""
	if v.Carries != nil {
		carries = v.Carries(l.Job)
	}
	out = append(out, wrap(phrase.Ask(l, carries), columns)...)
	if first := phrase.AskFirst(l); first != "" {
		out = append(out, wrap(first, columns)...)
	}
	add("")
	phase := phrase.AskPhase(l, v.Out)
	if l.Step == learn.Choose && !v.Out && drawsModes(columns) {
		phase = phrase.HandsMove()
	}
	if l.HoldFor > 0 && l.Held > 0 && !v.Out {
		phase += "  " + bar(float64(l.Held)/float64(l.HoldFor), 20)
	}
	out = append(out, wrap(phase, columns)...)
	if text := phrase.Noticed(l.Notice); text != "" && !v.Out {
		out = append(out, wrap("! "+text, columns)...)
	}
	if v.Kept != "" {
		out = append(out, wrap(v.Kept, columns)...)
	}
	add("")
	out = append(out, learnPicture(l, columns)...)
	add("")
	out = append(out, learnKeys(v)...)
	add("")
	for i := range l.Answers {
		add("%-10s %s", l.Answers[i].Job, phrase.LearnedInFull(&l.Answers[i]))
	}
	if l.Begun && v.Info != nil && l.Question < learn.Done {
		add("")
		out = append(out, rawRows(v.Info, l, v.Out)...)
	}
	return fitScreen(out, columns, rows)
}

// fitScreen leaves out from the bottom what does not fit.
func fitScreen(out []string, columns, rows int) []string {
	if rows > 0 && len(out) > rows {
		out = out[:rows]
	}
	for i := range out {
		out[i] = cut(out[i], columns)
	}
	return out
}

// bar is a line of n places, filled by a share.
func bar(share float64, n int) string {
	full := int(min(max(share, 0), 1) * float64(n))
	return "[" + strings.Repeat("#", full) + strings.Repeat(".", n-full) + "]"
}

// learnKeys are the keys that do something now.
func learnKeys(v *LearnView) []string {
	l := v.Learn
	if v.Naming {
		return []string{"its name, then Enter: " + v.Typed + "_"}
	}
	var keys []string
	if word := phrase.EnoughWord(l.Enough, l.Question); l.Enough != learn.NoUse && l.Question < learn.Done {
		keys = append(keys, "Enter "+word)
	}
	if l.CanBack {
		keys = append(keys, "B "+phrase.Does("question-back", false, 0))
	}
	if l.CanSkip {
		keys = append(keys, "K "+phrase.Does("question-skip", false, 0))
	}
	if l.CanBack {
		keys = append(keys, "O "+phrase.Does("questions-anew", false, 0))
	}
	lines := []string{strings.Join(append(keys, "Q "+phrase.Does("leave", false, 0)), " · ")}
	if l.Last >= 0 && l.Last < len(l.Answers) && l.Question < learn.Done {
		c := &l.Answers[l.Last]
		lines = append(lines, c.Job+": L "+phrase.Does("side-left", false, 0)+" · R "+phrase.Does("side-right", false, 0)+" · T "+phrase.Does("side-top", false, 0)+
			" · M "+phrase.Does("springs-back", c.Momentary, 0)+" · C "+phrase.Does("call-switch", false, 0))
	}
	return lines
}

// rawRows are the axes as marks on lines, and the pressed buttons. out: the radio is pulled out, and none answers.
func rawRows(info *input.Info, l *learn.View, out bool) (rows []string) {
	for i := range min(len(info.Axes), input.MaxAxes) {
		line := strings.Repeat("-", penWidth)
		if s := l.Shares[i]; s >= 0 {
			at := min(max(s, 0), 1000) * (penWidth - 1) / 1000
			line = line[:at] + "O" + line[at+1:]
		}
		mark, word := " ", ""
		if l.Axis == i && !out {
			mark, word = ">", " "+phrase.PenAnswers()
		}
		rows = append(rows, fmt.Sprintf("%s axis %2d %7d  %s%s", mark, i+1, l.Raw.Axes[i], line, word))
	}
	if info.Buttons > 0 {
		down := "none"
		if p := pressed(&l.Raw); len(p) > 0 {
			down = strings.Trim(fmt.Sprint(p), "[]")
		}
		rows = append(rows, fmt.Sprintf("  %d buttons, pressed: %s", info.Buttons, down))
	}
	return rows
}

// learnPicture draws in letters what is asked for: how the craft is to lean, the hands to choose from, both sticks, or the list of what
// was shown once more.
func learnPicture(l *learn.View, columns int) (out []string) {
	switch l.Step {
	case learn.HighEnd, learn.LowEnd, learn.LetGo:
		return leanLine(l)
	case learn.Through:
		return []string{phrase.LeverTitle() + ": " + strings.TrimSpace(strings.Repeat("# ", max(l.Positions, 1)))}
	case learn.Choose:
		if drawsModes(columns) {
			return stickModes(l)
		}
		for mode := 1; mode <= 4; mode++ {
			out = append(out, fmt.Sprintf("%d  %s", mode, phrase.StickModeLine(mode)))
		}
	case learn.Corners:
		out = stickBoxes(l)
		for _, c := range l.Corners {
			out = append(out, phrase.CornerWords(c.Job, c))
		}
	case learn.Each:
		for i := range l.Replayed {
			mark := "[ ]"
			if l.Replayed[i].Seen {
				mark = "[x]"
			}
			out = append(out, mark+" "+l.Replayed[i].Job)
		}
	}
	return out
}

// leanWidth is how many letters a line has on which the craft leans.
const leanWidth = 41

// leanLine draws how the craft leans as its axis moves, and the zone that it is to come to.
func leanLine(l *learn.View) []string {
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
	low, high := phrase.LeanEnds(l.Job)
	return []string{fmt.Sprintf("%8s |%s| %s", low, line, high), "          o: " + phrase.TheCraft() + "; " + strings.ReplaceAll(phrase.ZoneHere(), "hatched", "/")}
}

// jobsOf are the jobs of a stick in a mode: across and up.
func jobsOf(right bool, mode int) (across, up string) {
	for _, job := range [...]string{"yaw", "roll"} {
		if phrase.RightStick(job, mode) == right {
			across = job
		}
	}
	for _, job := range [...]string{"throttle", "pitch"} {
		if phrase.RightStick(job, mode) == right {
			up = job
		}
	}
	return across, up
}

// modeWidth is the width of one picture of a stick mode in letters.
const modeWidth = 20

func drawsModes(columns int) bool { return columns == 0 || columns >= 4*modeWidth }

// stickModes draws the four stick modes beside each other, each with both sticks as they stand; the one that is chosen so far is marked.
func stickModes(l *learn.View) []string {
	const w, h = 5, 3
	rows := make([]string, h+6)
	for mode := 1; mode <= 4; mode++ {
		mark := " "
		if mode == l.StickMode {
			mark = "*"
		}
		lines := []string{fmt.Sprintf("%d%s", mode, mark)}
		for _, right := range [2]bool{false, true} {
			across, up := jobsOf(right, mode)
			box := append([]string{strings.TrimSuffix(phrase.HandTitle(right), " hand"), up}, stickBox(l, across, up, w, h)...)
			for i, line := range append(box, across) {
				if right {
					lines[i+1] += centre(line, 10)
				} else {
					lines = append(lines, centre(line, 10))
				}
			}
		}
		for i, line := range lines {
			rows[i] += line + strings.Repeat(" ", modeWidth-len(line))
		}
	}
	for i := range rows {
		rows[i] = strings.TrimRight(rows[i], " ")
	}
	return rows
}

func centre(s string, w int) string {
	left := (w - len(s)) / 2
	return strings.Repeat(" ", left) + s + strings.Repeat(" ", w-len(s)-left)
}

// stickBoxes draws both sticks where they are, and the corners that they are to come to.
func stickBoxes(l *learn.View) []string {
	const w, h = 13, 5
	var out []string
	for _, right := range [2]bool{false, true} {
		across, up := jobsOf(right, l.StickMode)
		box := append(stickBox(l, across, up, w, h), centre(up+", "+across, w+2))
		for i, line := range box {
			if right {
				out[i] += "   " + line
			} else {
				out = append(out, "   "+line)
			}
		}
	}
	return out
}

// stickBox draws one stick in a frame: o where it is; in the check of all at once / where it is to go.
func stickBox(l *learn.View, across, up string, w, h int) []string {
	grid := make([][]byte, h)
	for y := range grid {
		grid[y] = []byte(strings.Repeat(" ", w))
	}
	x, y := w/2, h/2
	for _, c := range l.Corners {
		s := min(max(c.Share, 0), 1000)
		if c.Job == across {
			x = s * (w - 1) / 1000
		}
		if c.Job == up {
			y = h - 1 - s*(h-1)/1000
		}
	}
	if l.Step == learn.Corners {
		grid[0][w-2], grid[0][w-1] = '/', '/'
	}
	grid[y][x] = 'o'
	frame := "+" + strings.Repeat("-", w) + "+"
	out := []string{frame}
	for _, row := range grid {
		out = append(out, "|"+string(row)+"|")
	}
	return append(out, frame)
}
