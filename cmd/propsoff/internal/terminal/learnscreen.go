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
	if l.HoldFor > 0 && l.Held > 0 && !v.Out {
		phase += "  " + bar(float64(l.Held)/float64(l.HoldFor), 20)
	}
	out = append(out, wrap(phase, columns)...)
	if text := phrase.Noticed(l.Notice); text != "" {
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
		out = append(out, rawRows(v.Info, l)...)
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
	if l.Question != learn.StickMode && l.Question < learn.Done {
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

// rawRows are the axes as marks on lines, and the pressed buttons.
func rawRows(info *input.Info, l *learn.View) []string {
	var out []string
	for i := range min(len(info.Axes), input.MaxAxes) {
		line := strings.Repeat("-", penWidth)
		if s := l.Shares[i]; s >= 0 {
			at := min(max(s, 0), 1000) * (penWidth - 1) / 1000
			line = line[:at] + "O" + line[at+1:]
		}
		mark := " "
		if l.Axis == i {
			mark = ">"
		}
		out = append(out, fmt.Sprintf("%s axis %2d %7d  %s", mark, i+1, l.Raw.Axes[i], line))
	}
	if info.Buttons > 0 {
		down := "none"
		if p := pressed(&l.Raw); len(p) > 0 {
			down = strings.Trim(fmt.Sprint(p), "[]")
		}
		out = append(out, fmt.Sprintf("  %d buttons, pressed: %s", info.Buttons, down))
	}
	return out
}

// learnPicture draws in letters what is asked for: the stick modes, the two sticks with the movement, or the list that is
// ticked off.
func learnPicture(l *learn.View, columns int) []string {
	switch l.Question {
	case learn.StickMode:
		if columns > 0 && columns < 4*modeWidth {
			var out []string
			for mode := 1; mode <= 4; mode++ {
				out = append(out, fmt.Sprintf("%d  %s", mode, phrase.StickModeLine(mode)))
			}
			return out
		}
		return stickModes(l.StickMode)
	case learn.Replay:
		var out []string
		for i := range l.Replayed {
			mark := "[ ]"
			if l.Replayed[i].Seen {
				mark = "[x]"
			}
			out = append(out, mark+" "+l.Replayed[i].Job)
		}
		return out
	case learn.Done:
		return nil
	}
	out := stickBoxes(l)
	if l.Step == learn.Through {
		out = append(out, "", "positions seen: "+strings.TrimSpace(strings.Repeat("# ", max(l.Positions, 1))))
	}
	for _, c := range l.Corners {
		out = append(out, phrase.CornerWords(c.Job, c))
	}
	return out
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

// stickModes draws the four stick modes beside each other; the one that is chosen so far is marked.
func stickModes(chosen int) []string {
	rows := make([]string, 6)
	for mode := 1; mode <= 4; mode++ {
		mark := " "
		if mode == chosen {
			mark = "*"
		}
		leftAcross, leftUp := jobsOf(false, mode)
		rightAcross, rightUp := jobsOf(true, mode)
		for i, line := range []string{
			fmt.Sprintf("%d%s", mode, mark),
			centre(leftUp, 9) + centre(rightUp, 9),
			centre("|", 9) + centre("|", 9),
			centre("---+---", 9) + centre("---+---", 9),
			centre("|", 9) + centre("|", 9),
			centre(leftAcross, 9) + centre(rightAcross, 9),
		} {
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

// The box of a stick in letters, its frame left out.
const boxWidth, boxHeight = 13, 5

// stickBoxes draws both sticks: o where the movement starts, an arrow to where it goes; in the corner check where they are.
func stickBoxes(l *learn.View) []string {
	var boxes [2][]string
	for i, right := range [2]bool{false, true} {
		boxes[i] = stickBox(l, right)
	}
	var out []string
	for k := range boxes[0] {
		out = append(out, "   "+boxes[0][k]+"   "+boxes[1][k])
	}
	return out
}

func stickBox(l *learn.View, right bool) []string {
	grid := make([][]byte, boxHeight)
	for y := range grid {
		grid[y] = []byte(strings.Repeat(" ", boxWidth))
	}
	across, up := jobsOf(right, l.StickMode)
	x, y := boxWidth/2, boxHeight/2
	if up == "throttle" {
		y = boxHeight - 1
	}
	switch asked := l.Job; {
	case l.Question == learn.TopRight:
		for _, c := range l.Corners {
			s := min(max(c.Share, 0), 1000)
			if c.Job == across {
				x = s * (boxWidth - 1) / 1000
			}
			if c.Job == up {
				y = boxHeight - 1 - s*(boxHeight-1)/1000
			}
		}
	case asked == across && asked != "":
		way(grid[y], l.Step, x)
		x = startOf(l.Step, x, 0, boxWidth-1)
	case asked == up && asked != "":
		column := make([]byte, boxHeight) // from low to high
		for k := range column {
			column[k] = ' '
		}
		from := boxHeight - 1 - y
		way(column, l.Step, from)
		for k, c := range column {
			grid[boxHeight-1-k][x] = map[byte]byte{'-': '|', '>': '^', '<': 'v', ' ': ' '}[c]
		}
		y = boxHeight - 1 - startOf(l.Step, from, 0, boxHeight-1)
	}
	grid[y][x] = 'o'
	frame := "+" + strings.Repeat("-", boxWidth) + "+"
	out := []string{frame}
	for _, row := range grid {
		out = append(out, "|"+string(row)+"|")
	}
	return append(out, frame, centre(up+", "+across, boxWidth+2))
}

// startOf is where a movement starts on a line from low to high.
func startOf(s learn.Step, rest, low, high int) int {
	switch s {
	case learn.LowEnd:
		return high
	case learn.LetGo:
		return low
	}
	return rest
}

// way draws a movement on a line from low to high.
func way(line []byte, s learn.Step, rest int) {
	from, to := startOf(s, rest, 0, len(line)-1), rest
	switch s {
	case learn.HighEnd:
		to = len(line) - 1
	case learn.LowEnd:
		to = 0
	case learn.LetGo:
	default:
		return
	}
	if from == to {
		return
	}
	for i := min(from, to); i <= max(from, to); i++ {
		line[i] = '-'
	}
	line[to] = '>'
	if to < from {
		line[to] = '<'
	}
}
