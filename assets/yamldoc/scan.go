package yamldoc

import (
	"fmt"
	"strings"

	"propsoff.example/assets/words"
)

// scan walks over text once, before yaml.v3 sees it, as a YAML scanner does:
// it knows where each name, value and mark begins. So it can refuse what is not
// accepted (aliases first of all) and what goes over the limits at small cost,
// and can name the common slips (a tab, a quote left open, a level that fits no
// line above) at their exact place, which yaml.v3 cannot. It stops at the first
// slip; anchors, aliases and tags are all listed.
//
// text holds no \r and no control characters other than \t and \n.
func scan(text string, l limits) words.Problems {
	s := &scanner{src: []rune(text), lim: l, line: 1, col: 1, ready: true, keyOK: true, levels: []level{{col: 0}}}
	func() {
		defer func() {
			if r := recover(); r != nil {
				stop, ours := r.(scanStop)
				if !ours {
					panic(r)
				}
				s.wrong = append(s.wrong, stop.problem)
			}
		}()
		s.run()
	}()
	return s.wrong
}

// scanStop is the panic value with which the scanner leaves at a slip.
type scanStop struct{ problem *words.Problem }

// level is one level of indentation: a group of fields or a list.
type level struct {
	col  int  // column of its names or dashes; 0 for the level around everything
	list bool // a list; else a group of fields
	flat bool // a list whose dashes stand at the column of the field that holds it
}

// mark is a place that may turn out to be the beginning of a name.
type mark struct {
	pos, line, col int
	ok, must       bool // must: nothing but a name may stand here
}

// bracket is one `[` or `{` that is open.
type bracket struct {
	r         rune
	line, col int
	key       mark // the key mark around the bracket, back in force after it
}

type scanner struct {
	src       []rune
	lim       limits
	pos       int
	line, col int // of src[pos], from 1
	nodes     int
	wrong     words.Problems

	levels   []level
	brackets []bracket
	key      mark
	keyOK    bool // a name may begin here
	ready    bool // a value may begin here
	comma    bool // in brackets: nothing since the bracket or the last comma
	lineHead bool // no token on this line yet
	first    bool // the token now read is the first on its line
	started  bool // something has been found
	dashes   bool // a `---` has been found
}

// stop leaves with an error at a place, and stopHere where the scanner is.
func (s *scanner) stop(line, col int, p *words.Problem) { panic(scanStop{p.At("", line, col)}) }

func (s *scanner) stopHere(id words.ID, args ...words.Args) {
	s.stop(s.line, s.col, words.Wrong(id, args...))
}

// peek gives the rune k places on, 0 after the end.
func (s *scanner) peek(k int) rune {
	if s.pos+k < len(s.src) {
		return s.src[s.pos+k]
	}
	return 0
}

func (s *scanner) next() {
	if s.src[s.pos] == '\n' {
		s.line, s.col = s.line+1, 1
	} else {
		s.col++
	}
	s.pos++
}

// sign is a single mark as a value of a message.
func sign(r rune) words.Quote { return words.Quote(string(r)) }

func blankOrEnd(r rune) bool { return r == ' ' || r == '\t' || r == '\n' || r == 0 }

func (s *scanner) atMarker(m string) bool {
	return s.col == 1 && s.peek(0) == rune(m[0]) && s.peek(1) == rune(m[1]) && s.peek(2) == rune(m[2]) && blankOrEnd(s.peek(3))
}

func (s *scanner) top() *level { return &s.levels[len(s.levels)-1] }

// count notes one more name, value or mark, and stops where there are too many.
func (s *scanner) count() {
	if s.nodes++; s.nodes > s.lim.nodes {
		s.stopHere("yaml.too-many", words.Args{"most": words.Whole(s.lim.nodes)})
	}
}

func (s *scanner) deeper() {
	if len(s.levels)-1+len(s.brackets) > s.lim.depth {
		s.stopHere("yaml.too-deep", words.Args{"most": words.Whole(s.lim.depth)})
	}
}

func (s *scanner) run() {
	s.lineHead = true
	for {
		s.skipBlank()
		if s.pos >= len(s.src) {
			s.end()
			return
		}
		if s.col == 1 && s.documentMark() {
			continue
		}
		s.dropKey()
		s.first, s.lineHead, s.started = s.lineHead, false, true
		if s.first && len(s.brackets) == 0 {
			s.settle()
		}
		s.token()
	}
}

// skipBlank goes to the next token over blanks, line ends and comments.
func (s *scanner) skipBlank() {
	for {
		switch r := s.peek(0); {
		case r == '\t' && s.keyOK && len(s.brackets) == 0:
			s.stopHere(tabInLevel)
		case r == ' ' || r == '\t':
			s.next()
		case r == '#':
			for s.pos < len(s.src) && s.peek(0) != '\n' {
				s.next()
			}
		case r == '\n':
			s.next()
			s.lineHead = true
			if len(s.brackets) == 0 {
				s.keyOK = true
			}
		default:
			return
		}
	}
}

// documentMark treats what may stand at the first column only, and tells
// whether it ate something.
func (s *scanner) documentMark() bool {
	switch {
	case s.peek(0) == '%' && len(s.brackets) == 0:
		s.stopHere("yaml.directive")
	case s.atMarker("---"):
		if len(s.brackets) > 0 {
			s.unclosed()
		}
		if s.started || s.dashes {
			s.stopHere(oneDocument)
		}
		s.dashes = true
		for range 3 {
			s.next()
		}
		for s.peek(0) == ' ' {
			s.next()
		}
		if r := s.peek(0); r != '\n' && r != '#' && r != 0 {
			s.stopHere("yaml.behind-begin")
		}
		return true
	case s.atMarker("..."):
		if len(s.brackets) > 0 {
			s.unclosed()
		}
		for range 3 {
			s.next()
		}
		for s.skipBlank(); s.pos < len(s.src); s.skipBlank() {
			s.stopHere("yaml.behind-end")
		}
		return true
	}
	return false
}

// settle looks at the first token of a line outside brackets and finds its
// level from its column.
func (s *scanner) settle() {
	dash := s.peek(0) == '-' && blankOrEnd(s.peek(1))
	popped := false
	for s.col < s.top().col || s.col == s.top().col && s.top().flat && !dash {
		s.levels = s.levels[:len(s.levels)-1]
		s.ready, popped = false, true
	}
	t := s.top()
	switch {
	case s.col > t.col && s.ready && !popped:
		return // the value of the name or dash before
	case s.col > t.col && t.col == 0:
		s.stopHere("yaml.belongs-nowhere")
	case s.col > t.col:
		s.stopHere("yaml.indented", words.Args{"column": words.Whole(s.col), "columns": s.columns()})
	case t.list && !dash:
		s.stopHere("yaml.no-dash")
	case !t.list && dash && !s.ready:
		s.stopHere("yaml.item-among-fields")
	}
	s.ready = true
}

// columns names the levels that a line may stand at.
func (s *scanner) columns() words.Text {
	var w []string
	for _, l := range s.levels[1:] {
		if c := fmt.Sprint(l.col); len(w) == 0 || w[len(w)-1] != c {
			w = append(w, c)
		}
	}
	return either(w)
}

func (s *scanner) token() {
	r, blank := s.peek(0), blankOrEnd(s.peek(1))
	in := len(s.brackets) > 0
	switch {
	case r == '[' || r == '{':
		s.open(r)
	case r == ']' || r == '}':
		s.close(r)
	case r == ',':
		s.separate()
	case r == '-' && blank:
		s.dash()
	case r == '?' && (in || blank):
		s.stopHere("yaml.question-mark")
	case r == ':' && (in || blank):
		s.colon()
	case r == '&' || r == '*' || r == '!':
		s.property(r)
	case (r == '|' || r == '>') && !in:
		s.startValue()
		s.block()
	case r == '"' || r == '\'':
		s.startValue()
		s.quoted(r)
	case strings.ContainsRune("|>%@`", r):
		s.stopHere("yaml.begins-no-text", words.Args{"sign": sign(r)})
	default:
		s.startValue()
		s.plain()
	}
}

// startValue checks that a name or value may begin here and remembers the place.
func (s *scanner) startValue() {
	if !s.ready {
		if len(s.brackets) > 0 {
			s.stopHere("yaml.behind-value-in-brackets")
		}
		s.stopHere("yaml.behind-value")
	}
	s.count()
	if s.keyOK {
		s.key = mark{s.pos, s.line, s.col, true, len(s.brackets) == 0 && s.col == s.top().col}
	}
	s.ready, s.keyOK, s.comma = false, false, false
}

// dropKey forgets a possible name once its line is over, or says that a colon
// is missing behind it.
func (s *scanner) dropKey() {
	if !s.key.ok || s.key.line == s.line && s.pos-s.key.pos <= 1024 {
		return
	}
	s.missingColon()
	s.key.ok = false
}

func (s *scanner) missingColon() {
	k := s.key
	if !k.ok || !k.must {
		return
	}
	end := k.pos
	for end < len(s.src) && s.src[end] != '\n' {
		end++
	}
	word := strings.TrimSpace(string(s.src[k.pos:end]))
	if i := strings.IndexByte(word, ':'); i > 0 && i < len(word)-1 && !strings.ContainsAny(word[:i], `"'[{ `) {
		s.stop(k.line, k.col, words.Wrong("yaml.no-space", words.Args{"text": shown(word)}))
	}
	s.stop(k.line, k.col, words.Wrong("yaml.no-field-here", words.Args{"text": shown(word)}))
}

func (s *scanner) property(r rune) {
	id := map[rune]words.ID{'&': refusedAnchor, '*': refusedAlias, '!': refusedTag}[r]
	s.wrong = append(s.wrong, words.Wrong(id).At("", s.line, s.col))
	if len(s.wrong) >= 100 {
		s.stopHere("yaml.and-so-on")
	}
	if s.keyOK {
		s.key = mark{s.pos, s.line, s.col, true, false}
	}
	s.keyOK = false
	// The alias stands for a whole value; the other two stand before one.
	if r == '*' {
		s.ready, s.comma = false, false
	}
	s.count()
	for !blankOrEnd(s.peek(0)) && !(len(s.brackets) > 0 && strings.ContainsRune(",[]{}", s.peek(0))) {
		s.next()
	}
}

func (s *scanner) end() {
	if len(s.brackets) > 0 {
		s.unclosed()
	}
	if !s.started {
		panic(scanStop{emptyFile()})
	}
	s.missingColon()
}
