package yamldoc

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// pen writes a random file by hand: every style, comments with marks of their own, blank lines.
type pen struct {
	rt    *rapid.T
	marks []string
	keys  int
	paths [][]string // of every field that names alone lead to
}

func (p *pen) coin(what string) bool { return rapid.Bool().Draw(p.rt, what) }

// mark is a comment to stand at a line's end, or nothing.
func (p *pen) mark() string {
	if !p.coin("comment") {
		return ""
	}
	m := fmt.Sprintf("#~%d~", len(p.marks))
	p.marks = append(p.marks, m)
	return strings.Repeat(" ", rapid.IntRange(1, 3).Draw(p.rt, "gap")) + m + rapid.SampledFrom([]string{"", " a: b", " {", " - 'x"}).Draw(p.rt, "words")
}

func (p *pen) scalar() string {
	return rapid.SampledFrom([]string{"x", "two words", "'it''s # no'", `"a \" # b"`, "1500.5", "on", "a#b", "h: i", "\"é\"", "~", "''", "x:y"}).Filter(func(s string) bool { return s != "h: i" }).Draw(p.rt, "scalar")
}

func (p *pen) key() string {
	p.keys++
	return fmt.Sprintf(rapid.SampledFrom([]string{"k%d", "'k%d'", "\"k%d\"", "k %d"}).Draw(p.rt, "key"), p.keys)
}

func bare(k string) string { return strings.Trim(k, `'"`) }

// flow writes a value in brackets; path is nil within lists.
func (p *pen) flow(path []string, reach bool, depth int) string {
	kind := rapid.IntRange(0, 3).Draw(p.rt, "flow kind")
	if depth <= 0 || kind == 0 {
		return p.scalar()
	}
	sep := func() string {
		if p.coin("spread") {
			if m := p.mark(); m != "" {
				return m + "\n        "
			}
			return "\n        "
		}
		return rapid.SampledFrom([]string{"", " ", "  "}).Draw(p.rt, "sep")
	}
	var parts []string
	n := rapid.IntRange(0, 3).Draw(p.rt, "items")
	for range n {
		if kind == 1 {
			parts = append(parts, sep()+p.flow(nil, false, depth-1)+sep())
			continue
		}
		k := p.key()
		at := append(slices.Clone(path), bare(k))
		if reach {
			p.paths = append(p.paths, at)
		}
		v := ""
		if p.coin("no value") {
			v = rapid.SampledFrom([]string{"", ": "}).Draw(p.rt, "nothing")
		} else {
			v = ": " + p.flow(at, reach, depth-1)
		}
		parts = append(parts, sep()+k+v+sep())
	}
	in := strings.Join(parts, ",")
	if n > 0 && p.coin("comma") {
		in += ", "
	}
	if kind == 1 {
		return "[" + in + "]"
	}
	return "{" + in + "}"
}

// block writes the lines of a group.
func (p *pen) block(path []string, reach bool, indent string, depth int) string {
	var b strings.Builder
	for range rapid.IntRange(1, 4).Draw(p.rt, "fields") {
		if p.coin("blank") {
			b.WriteString("\n")
		}
		if m := p.mark(); m != "" && p.coin("own line") {
			b.WriteString(indent + strings.TrimLeft(m, " ") + "\n")
		} else if m != "" {
			p.marks = p.marks[:len(p.marks)-1]
		}
		k := p.key()
		at := append(slices.Clone(path), bare(k))
		if reach {
			p.paths = append(p.paths, at)
		}
		deeper := indent + strings.Repeat(" ", rapid.IntRange(1, 4).Draw(p.rt, "step"))
		b.WriteString(indent + k + ":")
		kind := rapid.IntRange(0, 6).Draw(p.rt, "kind")
		switch {
		case kind == 0:
			b.WriteString(p.mark() + "\n")
		case kind == 1:
			b.WriteString(rapid.SampledFrom([]string{" |", " >-", " |+", "  |2"}).Draw(p.rt, "lines") + p.mark() + "\n")
			if strings.HasSuffix(strings.TrimRight(strings.Split(b.String(), "\n")[strings.Count(b.String(), "\n")-1], " "), "|2") {
				deeper = indent + "  "
			}
			b.WriteString(deeper + "text # not\n" + rapid.SampledFrom([]string{"", "\n", deeper + "more\n", "\n\n" + deeper + "- z\n"}).Draw(p.rt, "more"))
		case kind == 2 && depth > 0:
			b.WriteString(p.mark() + "\n")
			b.WriteString(p.block(at, reach, deeper, depth-1))
		case kind == 3 && depth > 0:
			b.WriteString(p.mark() + "\n")
			dash := rapid.SampledFrom([]string{indent, deeper}).Draw(p.rt, "dash")
			for range rapid.IntRange(1, 3).Draw(p.rt, "items") {
				b.WriteString(dash + "- " + p.flow(nil, false, 1) + p.mark() + "\n")
			}
		case kind == 4:
			b.WriteString(" plain text\n" + indent + "  that goes on" + p.mark() + "\n")
		default:
			b.WriteString(" " + p.flow(at, reach, 2) + p.mark() + "\n")
		}
	}
	return b.String()
}
