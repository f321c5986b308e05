package terminal

import (
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/learn"
)

// jobsOf are the jobs of a stick in a mode: across and up.
func jobsOf(right bool, mode int) (across, up string) {
	for _, job := range [...]string{"yaw", "roll"} {
		if tell.RightStick(job, mode) == right {
			across = job
		}
	}
	for _, job := range [...]string{"throttle", "pitch"} {
		if tell.RightStick(job, mode) == right {
			up = job
		}
	}
	return across, up
}

// stickCell is how many places one stick of the picture of a stick mode takes: its frame, and every word that stands over or under one.
func stickCell(b *words.Book) int {
	return max(8, widest(b, tell.HandSide(false), tell.HandSide(true), tell.JobName("throttle"), tell.JobName("yaw"), tell.JobName("pitch"), tell.JobName("roll"))) + 2
}

// drawsModes tells whether there is room for the pictures of all four stick modes beside each other.
func drawsModes(b *words.Book, columns int) bool { return columns == 0 || columns >= 8*stickCell(b) }

// stickModes draws the four stick modes beside each other, each with both sticks as they stand; the one that is chosen so far is marked.
func stickModes(b *words.Book, l *learn.View) []string {
	const w, h = 5, 3
	cell := stickCell(b)
	rows := make([]string, h+6)
	for mode := 1; mode <= 4; mode++ {
		mark := " "
		if mode == l.StickMode {
			mark = "*"
		}
		rows[0] += left(strconv.Itoa(mode)+mark, 2*cell)
		for _, right := range [2]bool{false, true} {
			across, up := jobsOf(right, mode)
			box := append([]string{say(b, tell.HandSide(right)), say(b, tell.JobName(up))}, stickBox(l, across, up, w, h)...)
			for i, line := range append(box, say(b, tell.JobName(across))) {
				rows[i+1] += centre(line, cell)
			}
		}
	}
	for i := range rows {
		rows[i] = strings.TrimRight(rows[i], " ")
	}
	return rows
}

// stickBoxes draws both sticks where they are, and the corners that they are to come to.
func stickBoxes(b *words.Book, l *learn.View) []string {
	const w, h = 13, 5
	out := make([]string, h+3)
	for _, right := range [2]bool{false, true} {
		across, up := jobsOf(right, l.StickMode)
		names := say(b, words.Listed(tell.JobName(up), tell.JobName(across)))
		for i, line := range append(stickBox(l, across, up, w, h), names) {
			out[i] += "   " + centre(line, w+2)
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
