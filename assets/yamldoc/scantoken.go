package yamldoc

import (
	"strings"

	"propsoff.example/assets/words"
)

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
		s.stopHere("yaml.closes-nothing", words.Args{"sign": sign(r)})
	}
	b := s.brackets[len(s.brackets)-1]
	if want := closing(b.r); want != r {
		s.stopHere("yaml.closes-another", words.Args{
			"sign": sign(r), "open": sign(b.r), "line": words.Whole(b.line), "column": words.Whole(b.col), "close": sign(want),
		})
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
	s.stop(b.line, b.col, words.Wrong("yaml.never-closed", words.Args{"open": sign(b.r), "close": sign(closing(b.r))}))
}

func (s *scanner) separate() {
	if len(s.brackets) == 0 {
		s.stopHere("yaml.comma-outside")
	}
	if s.comma {
		s.stopHere("yaml.comma-first")
	}
	s.count()
	s.key = mark{}
	s.ready, s.keyOK, s.comma = true, true, true
	s.next()
}

// dash treats the `- ` before a list item.
func (s *scanner) dash() {
	if len(s.brackets) > 0 {
		s.stopHere("yaml.dash-in-brackets")
	}
	if !s.keyOK || !s.ready {
		s.stopHere("yaml.no-list-here")
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
			s.stopHere("yaml.no-name-before-colon")
		case s.first:
			s.stopHere("yaml.colon-alone")
		default:
			s.stopHere("yaml.second-colon")
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
			s.stop(line, col, words.Wrong("yaml.open-quote", words.Args{"sign": sign(q)}))
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
		s.stop(line, col, words.Wrong("yaml.escape-unknown", words.Args{"sign": words.Quote(strings.Trim(show(string(r)), "`"))}))
	}
	s.next()
	code := 0
	for range hex {
		d := strings.IndexRune("0123456789abcdef", s.peek(0)|0x20)
		if d < 0 || s.peek(0) == 0 || s.peek(0) < '0' {
			s.stop(line, col, words.Wrong("yaml.escape-short", words.Args{"sign": sign(r), "digits": words.Whole(hex)}))
		}
		code = code<<4 + d
		s.next()
	}
	if code > 0x10FFFF || code < 0 || code >= 0xD800 && code <= 0xDFFF {
		s.stop(line, col, words.Wrong("yaml.escape-no-character", words.Args{"sign": sign(r)}))
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
			s.stop(line, col, words.Wrong("yaml.lines-begin-below", words.Args{"sign": sign(begin)}))
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
		s.stop(line, col, words.Wrong("yaml.lines-stand-below"))
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
