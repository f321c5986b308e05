package yamldoc

import "strings"

// This file holds the single tokens of the scanner: brackets, dashes, colons
// and the three ways to write a text.

func (s *scanner) open(r rune) {
	s.startValue()
	s.brackets = append(s.brackets, bracket{r, s.line, s.col, s.key})
	s.deeper()
	s.key = mark{}
	s.ready, s.keyOK, s.comma = true, true, true
	s.next()
}

func (s *scanner) close(r rune) {
	if len(s.brackets) == 0 {
		s.stopHere("a %c closes nothing: delete it, or put the text in quotes", r)
	}
	b := s.brackets[len(s.brackets)-1]
	if want := closing(b.r); want != r {
		s.stopHere("a %c cannot close the %c of %d:%d: write %c", r, b.r, b.line, b.col, want)
	}
	s.brackets = s.brackets[:len(s.brackets)-1]
	s.key = b.key
	s.ready, s.keyOK, s.comma = false, false, false
	s.next()
}

func closing(open rune) rune {
	if open == '[' {
		return ']'
	}
	return '}'
}

func (s *scanner) unclosed() {
	b := s.brackets[len(s.brackets)-1]
	s.stop(b.line, b.col, "this %c is never closed: write %c where the values end", b.r, closing(b.r))
}

func (s *scanner) separate() {
	if len(s.brackets) == 0 {
		s.stopHere("a comma begins nothing outside brackets: delete it, or put the text in quotes")
	}
	if s.comma {
		s.stopHere("nothing stands before this comma: write a value, or delete the comma")
	}
	s.count()
	s.key = mark{}
	s.ready, s.keyOK, s.comma = true, true, true
	s.next()
}

// dash treats the `- ` before a list item.
func (s *scanner) dash() {
	if len(s.brackets) > 0 {
		s.stopHere("a `- ` inside brackets: write the values with commas between them, without `- `")
	}
	if !s.keyOK || !s.ready {
		s.stopHere("a list cannot begin here: start it on the next line, or put the text in quotes")
	}
	s.count()
	t := s.top()
	switch {
	case s.col > t.col:
		s.levels = append(s.levels, level{col: s.col, list: true})
	case !t.list:
		s.levels = append(s.levels, level{col: s.col, list: true, flat: true})
	}
	s.deeper()
	s.key = mark{}
	s.ready, s.keyOK = true, true
	s.next()
}

// colon treats the `:` behind a name.
func (s *scanner) colon() {
	if !s.key.ok || s.key.line != s.line {
		switch {
		case s.ready && (s.comma || s.first):
			s.stopHere("a value without a name: write `name: value`; a text that begins with `:` goes in quotes")
		case s.first:
			s.stopHere("the colon stands on a line without its name: write `name: value` on one line")
		default:
			s.stopHere("a second colon in one value: put the text in quotes, or start the field on a line of its own at the level of its neighbours")
		}
	}
	s.count()
	if len(s.brackets) == 0 && s.key.col > s.top().col {
		s.levels = append(s.levels, level{col: s.key.col})
		s.deeper()
	}
	s.key = mark{}
	s.ready, s.keyOK, s.comma = true, false, false
	s.next()
}

// quoted goes over a text in quotes.
func (s *scanner) quoted(q rune) {
	line, col := s.line, s.col
	s.next()
	for {
		switch r := s.peek(0); {
		case r == 0 || s.atMarker("---") || s.atMarker("..."):
			s.stop(line, col, "the quote that begins here is never closed: write %c where the text ends", q)
		case r == '\\' && q == '"':
			s.escape()
		case r == q && q == '\'' && s.peek(1) == q:
			s.next()
			s.next()
		case r == q:
			s.next()
			return
		default:
			s.next()
		}
	}
}

// escape goes over a backslash and what belongs to it in double quotes.
func (s *scanner) escape() {
	line, col := s.line, s.col
	s.next()
	r := s.peek(0)
	hex := map[rune]int{'x': 2, 'u': 4, 'U': 8}[r]
	if r == 0 || hex == 0 && !strings.ContainsRune("0abt\tnvfre \"'\\N_LP\n", r) {
		s.stop(line, col, "`\\%s` means nothing in double quotes: write `\\\\` for one backslash, or use single quotes", strings.Trim(show(string(r)), "`"))
	}
	s.next()
	code := 0
	for range hex {
		d := strings.IndexRune("0123456789abcdef", s.peek(0)|0x20)
		if d < 0 || s.peek(0) == 0 || s.peek(0) < '0' {
			s.stop(line, col, "`\\%c` must be followed by %d digits 0 to 9, a to f: write them, or `\\\\` for one backslash", r, hex)
		}
		code = code<<4 + d
		s.next()
	}
	if code > 0x10FFFF || code < 0 || code >= 0xD800 && code <= 0xDFFF {
		s.stop(line, col, "`\\%c` does not name a character: write the character itself", r)
	}
}

// plain goes over a text without quotes, which may go on over several lines.
func (s *scanner) plain() {
	newLine := false
text:
	for {
		if s.atMarker("---") || s.atMarker("...") || s.peek(0) == '#' {
			break
		}
		for r := s.peek(0); !blankOrEnd(r); r = s.peek(0) {
			if r == ':' && blankOrEnd(s.peek(1)) || len(s.brackets) > 0 && strings.ContainsRune(",?[]{}", r) {
				break text
			}
			newLine = false
			s.next()
		}
		for r := s.peek(0); r == ' ' || r == '\t' || r == '\n'; r = s.peek(0) {
			if r == '\t' && newLine && s.col <= s.top().col {
				s.stopHere(tabInLevel)
			}
			newLine = newLine || r == '\n'
			s.next()
		}
		if s.pos >= len(s.src) || newLine && len(s.brackets) == 0 && s.col <= s.top().col {
			break
		}
	}
	if newLine {
		s.lineHead = true
		s.keyOK = s.keyOK || len(s.brackets) == 0
	}
}

// block goes over a text of whole lines behind `|` or `>`.
func (s *scanner) block() {
	line, col, begin := s.line, s.col, s.peek(0)
	s.key = mark{}
	s.next()
	step := 0
	for r := s.peek(0); !blankOrEnd(r); r = s.peek(0) {
		switch {
		case r >= '1' && r <= '9' && step == 0:
			step = int(r - '0')
		case r == '+' || r == '-':
		default:
			s.stop(line, col, "%c begins a text of whole lines, which stand on the next lines: start the text there, or put it in quotes", begin)
		}
		s.next()
	}
	for s.peek(0) == ' ' || s.peek(0) == '\t' {
		s.next()
	}
	if s.peek(0) == '#' {
		for r := s.peek(0); r != '\n' && r != 0; r = s.peek(0) {
			s.next()
		}
	}
	if r := s.peek(0); r != '\n' && r != 0 {
		s.stop(line, col, "a text of whole lines stands on the lines after this mark: start the text on the next line, or put it in quotes")
	}
	s.keyOK, s.lineHead = true, true
	s.blockLines(step)
}

// blockLines goes over the lines of the text; step is the written indentation,
// 0 where the first lines tell it. The widest of the leading lines counts, as
// yaml.v3 does it.
func (s *scanner) blockLines(step int) {
	around := s.top().col - 1 // spaces before the names of the level around, -1 outside all
	indent, widest := 0, 0
	if step > 0 {
		indent = max(around, 0) + step
	}
	for s.pos < len(s.src) {
		s.next() // the line end before
		for s.peek(0) == ' ' && (indent == 0 || s.col <= indent) {
			s.next()
		}
		if indent == 0 {
			widest = max(widest, s.col-1)
		}
		r := s.peek(0)
		if r == '\t' && (indent == 0 || s.col <= indent) {
			s.stopHere(tabInLevel)
		}
		if r == '\n' {
			continue
		}
		if indent == 0 {
			indent = max(widest, around+1, 1)
		}
		if s.pos >= len(s.src) || s.col != indent+1 {
			return
		}
		for r := s.peek(0); r != '\n' && r != 0; r = s.peek(0) {
			s.next()
		}
	}
}
