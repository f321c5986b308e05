package yamldoc

import (
	"errors"

	"gopkg.in/yaml.v3"
)

// This file finds where each name and value of a file begins and ends: yaml.v3 gives the tree and the beginnings, the
// scanner gives the tokens, and both are walked side by side.

// stretch is a piece of a file's text: runes from from up to, not including, to.
type stretch struct{ from, to int }

// token is one token of the scanner: a bracket, comma, colon or dash, or 's' for a text in any style.
type token struct {
	r rune
	stretch
}

// pieces is the text of a file, taken apart.
type pieces struct {
	src      []rune
	tokens   []token
	comments []stretch
}

// takeApart finds the tokens and comments of a text that scan has accepted.
func takeApart(text string) *pieces {
	s := &scanner{src: []rune(text), lim: usual, line: 1, col: 1, ready: true, keyOK: true, levels: []level{{col: 0}}, lineHead: true}
	p := &pieces{src: s.src}
	end := 0 // of the token before
	for {
		s.skipBlank()
		p.findComments(end, s.pos)
		if s.pos >= len(s.src) {
			return p
		}
		end = s.pos
		if s.col == 1 && s.documentMark() {
			p.findComments(end, s.pos)
			end = s.pos
			continue
		}
		s.dropKey()
		s.first, s.lineHead, s.started = s.lineHead, false, true
		if s.first && len(s.brackets) == 0 {
			s.settle()
		}
		from, r, in := s.pos, s.peek(0), len(s.brackets) > 0
		s.token()
		t := token{r: 's', stretch: stretch{from, s.pos}}
		switch {
		case s.pos == from+1 && (r == '[' || r == ']' || r == '{' || r == '}' || r == ',' || r == '-' || r == ':'):
			t.r = r
		case (r == '|' || r == '>') && !in:
			t.to = p.blockEnd(from, s.pos)
		default: // a plain text is read with the blanks behind it
			for t.to > t.from && blank(p.src[t.to-1]) {
				t.to--
			}
		}
		p.tokens = append(p.tokens, t)
		end = t.to
	}
}

func blank(r rune) bool { return r == ' ' || r == '\t' || r == '\n' }

// findComments notes the comments between two tokens, where nothing but them and blanks stands.
func (p *pieces) findComments(from, to int) {
	for i := from; i < to; i++ {
		if p.src[i] == '#' {
			end := min(p.lineEnd(i), to)
			p.comments = append(p.comments, stretch{i, end})
			i = end
		}
	}
}

// blockEnd is where the last line of a text of whole lines ends; the scanner stands at or in the line behind it. A comment
// beside the mark that begins it is noted.
func (p *pieces) blockEnd(from, pos int) int {
	head := p.lineEnd(from)
	for i := from + 1; i < head; i++ {
		if p.src[i] == '#' && (p.src[i-1] == ' ' || p.src[i-1] == '\t') {
			p.comments = append(p.comments, stretch{i, head})
			break
		}
	}
	if pos >= len(p.src) {
		if n := len(p.src); n > head && p.src[n-1] == '\n' {
			return n - 1
		}
		return len(p.src)
	}
	return max(p.lineStart(pos)-1, head)
}

func (p *pieces) lineStart(i int) int {
	for i > 0 && p.src[i-1] != '\n' {
		i--
	}
	return i
}

// lineEnd is the place of the line break behind i, or the end of the text.
func (p *pieces) lineEnd(i int) int {
	for i < len(p.src) && p.src[i] != '\n' {
		i++
	}
	return i
}

// remarks are the comments that begin within s.
func (p *pieces) remarks(s stretch) (out []string) {
	for _, c := range p.comments {
		if c.from >= s.from && c.from < s.to {
			out = append(out, string(p.src[c.from:c.to]))
		}
	}
	return out
}

// branch is a value and where it stands. Of a group it has the fields; the items of lists are not needed.
type branch struct {
	y *yaml.Node
	stretch
	brackets bool // written in { } or [ ]
	fields   []field
}

// field is one field of a group. colon is the place behind the colon, −1 where none is written.
type field struct {
	name  string
	key   stretch
	colon int
	value branch // an empty value stands, empty, where it would begin
}

// end is where a field ends.
func (f *field) end() int { return max(f.key.to, f.colon, f.value.to) }

// errOdd is for a file whose tree and tokens cannot be brought together.
var errOdd = errors.New("tree-and-tokens-differ")

// locate brings tree and tokens together.
func (p *pieces) locate(root *yaml.Node) (b branch, err error) {
	w := walker{tokens: p.tokens}
	defer func() {
		if r := recover(); r != nil {
			if r != errOdd {
				panic(r)
			}
			err = errOdd
		}
	}()
	b = w.value(root, 0)
	if len(w.tokens) > 0 {
		return b, errOdd
	}
	return b, nil
}

type walker struct{ tokens []token }

func (w *walker) next() rune {
	if len(w.tokens) == 0 {
		return 0
	}
	return w.tokens[0].r
}

func (w *walker) take(r rune) stretch {
	if w.next() != r {
		panic(errOdd)
	}
	t := w.tokens[0]
	w.tokens = w.tokens[1:]
	return t.stretch
}

// value walks over one value; after is where the token before it ends.
func (w *walker) value(y *yaml.Node, after int) branch {
	b := branch{y: y, stretch: stretch{after, after}}
	switch {
	case isEmpty(y):
	case y.Kind == yaml.ScalarNode:
		b.stretch = w.take('s')
	case y.Kind == yaml.MappingNode && w.next() == '{':
		b.brackets = true
		b.from = w.take('{').from
		w.fields(&b, true)
		b.to = w.take('}').to
	case y.Kind == yaml.MappingNode:
		w.fields(&b, false)
	case y.Kind == yaml.SequenceNode && w.next() == '[':
		b.brackets = true
		b.from = w.take('[').from
		for _, c := range y.Content {
			w.value(c, 0)
			if w.next() == ',' {
				w.take(',')
			}
		}
		b.to = w.take(']').to
	case y.Kind == yaml.SequenceNode:
		for i, c := range y.Content {
			dash := w.take('-')
			if i == 0 {
				b.from = dash.from
			}
			b.to = w.value(c, dash.to).to
		}
	default:
		panic(errOdd)
	}
	return b
}

func (w *walker) fields(b *branch, brackets bool) {
	for i := 0; i+1 < len(b.y.Content); i += 2 {
		f := field{name: b.y.Content[i].Value, key: w.take('s'), colon: -1}
		at := f.key.to
		if w.next() == ':' {
			f.colon = w.take(':').to
			at = f.colon
		}
		f.value = w.value(b.y.Content[i+1], at)
		if brackets && w.next() == ',' {
			w.take(',')
		}
		if !brackets && i == 0 {
			b.from = f.key.from
		}
		if !brackets {
			b.to = f.end()
		}
		b.fields = append(b.fields, f)
	}
}

func (b *branch) field(name string) *field {
	for i := range b.fields {
		if b.fields[i].name == name {
			return &b.fields[i]
		}
	}
	return nil
}
