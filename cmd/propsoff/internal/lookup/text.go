package lookup

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"propsoff.example/assets/words"
)

// The widths of columns in a terminal (ours): the last column stands beside the others where it has at least so much room, else below them;
// one between the first and the last is no wider than most, but for a word that is longer.
const (
	leastLast  = 30
	mostInside = 24
	gap        = 2
)

// Text writes a topic for a terminal of a width in characters.
func Text(t Topic, b *words.Book, width int) string {
	var w strings.Builder
	w.WriteString(b.Say(t.Title) + "\n\n")
	paragraph(&w, b.Say(t.About), "", width)
	for _, p := range t.Parts() {
		w.WriteString("\n")
		if !p.Heading.Empty() {
			head := large(p.Heading, b)
			w.WriteString(head + "\n" + strings.Repeat("─", min(utf8.RuneCountInString(head), max(width, 1))) + "\n")
		}
		for i, s := range p.Says {
			if i > 0 {
				w.WriteString("\n")
			}
			paragraph(&w, b.Say(s), "", width)
		}
		if len(p.Rows) > 0 {
			if len(p.Says) > 0 {
				w.WriteString("\n")
			}
			table(&w, p, b, width)
		}
		if p.Example != "" {
			if len(p.Says) > 0 {
				w.WriteString("\n")
			}
			for line := range strings.SplitSeq(strings.TrimRight(p.Example, "\n"), "\n") {
				w.WriteString("  " + line + "\n")
			}
		}
	}
	return w.String()
}

// large is a heading with its first letter large: some are words of the sheets, where they are small. A name stands as it is.
func large(t words.Text, b *words.Book) string {
	s := b.Say(t)
	if r, n := utf8.DecodeRuneInString(s); t.ID() != "" {
		s = string(unicode.ToUpper(r)) + s[n:]
	}
	return s
}

// paragraph writes a text in lines that begin below one another.
func paragraph(w *strings.Builder, text, indent string, width int) {
	for _, line := range broken(text, width-utf8.RuneCountInString(indent)) {
		w.WriteString(indent + line + "\n")
	}
}

// broken breaks a text at spaces into lines of at most so many characters; a longer word stands alone.
func broken(text string, width int) (lines []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}

// table writes the rows of a part. What does not fit beside one another stands below: the last column first, then each.
func table(w *strings.Builder, p Part, b *words.Book, width int) {
	rows := make([][]string, 0, len(p.Rows)+1)
	head := make([]string, len(p.Columns))
	for i, c := range p.Columns {
		head[i] = b.Say(c)
	}
	rows = append(rows, head)
	for _, cells := range p.Rows {
		line := make([]string, len(cells))
		for i, c := range cells {
			line[i] = strings.TrimSpace(strings.Join(c.Codes, ", ") + " " + b.Say(c.Text))
		}
		rows = append(rows, line)
	}
	last := len(head) - 1
	wide, inFront := make([]int, last), gap
	for i := range wide {
		for _, r := range rows {
			n := utf8.RuneCountInString(r[i])
			if i > 0 && n > mostInside {
				n = mostInside
				for _, word := range strings.Fields(r[i]) {
					n = max(n, utf8.RuneCountInString(word))
				}
			}
			wide[i] = max(wide[i], n)
		}
		inFront += wide[i] + gap
	}
	beside, below := width-inFront >= leastLast, inFront > width
	for _, r := range rows {
		switch {
		case below:
			paragraph(w, r[0], "  ", width)
			for _, cell := range r[1:] {
				if cell != "" {
					paragraph(w, cell, "      ", width)
				}
			}
		case beside:
			sideBySide(w, r, append(wide[:last:last], width-inFront))
		default:
			sideBySide(w, r[:last], wide)
			if r[last] != "" {
				paragraph(w, r[last], "      ", width)
			}
		}
	}
}

// sideBySide writes cells beside one another, each broken into its own width.
func sideBySide(w *strings.Builder, cells []string, wide []int) {
	lines := make([][]string, len(cells))
	high := 0
	for i, c := range cells {
		lines[i] = broken(c, wide[i])
		high = max(high, len(lines[i]))
	}
	for n := range high {
		line := strings.Repeat(" ", gap)
		for i := range cells {
			text := ""
			if n < len(lines[i]) {
				text = lines[i][n]
			}
			line += text + strings.Repeat(" ", max(wide[i]-utf8.RuneCountInString(text), 0)+gap)
		}
		w.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}
