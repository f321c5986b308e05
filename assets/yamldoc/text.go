package yamldoc

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	oneDocument   = "a second document begins here: keep one document in a file, split the rest off into a file of its own"
	tabInLevel    = "a tab where the level of the line is told by spaces: replace each tab at the start of a line by spaces"
	refusedAlias  = "aliases (`*name`) are not read here: write the value out; a text that begins with `*` goes in quotes"
	refusedAnchor = "anchors (`&name`) are not read here: take the mark out; a text that begins with `&` goes in quotes"
	refusedTag    = "tags (`!name`, `!!type`) are not read here: take the mark out; a text that begins with `!` goes in quotes"
)

func emptyFile() *Error {
	return &Error{Line: 1, Col: 1, Msg: "the file is empty: write at least one `name: value` line, or leave the file out"}
}

// plainText checks that data is text of at most limit bytes and gives it
// without byte-order mark and with every line end (\r\n of Windows, \r of old
// Macs) as \n, which leaves line and column of everything as they were.
func plainText(data []byte, limit int) (string, *Error) {
	if len(data) > limit {
		return "", &Error{Msg: fmt.Sprintf("the file is larger than %s, the most that is read: is it the right file? split it if it is", size(limit))}
	}
	switch {
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), bytes.HasPrefix(data, []byte{0xFE, 0xFF}):
		return "", &Error{Line: 1, Col: 1, Msg: "the file is encoded in UTF-16: save it as UTF-8"}
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		data = data[3:]
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return "", emptyFile()
	}
	line, col := 1, 1
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		msg := ""
		switch {
		case r == 0:
			msg = "a zero byte: this is a binary file or a text in UTF-16, not a text in UTF-8; is it the right file?"
		case r == utf8.RuneError && n == 1:
			msg = fmt.Sprintf("the byte 0x%02X is not UTF-8 text: save the file as UTF-8; if it is no text at all, is it the right file?", data[i])
		case r == '\n', r == '\r' && !bytes.HasPrefix(data[i+1:], []byte{'\n'}):
			line, col = line+1, 0
		case r == '\r', r == '\t':
		case r < 0x20, r >= 0x7F && r < 0xA0, r == 0x2028, r == 0x2029, r == 0xFEFF, r == 0xFFFE, r == 0xFFFF:
			msg = fmt.Sprintf("the invisible character U+%04X: delete it, or write it as \"\\u%04X\" in double quotes", r, r)
		}
		if msg != "" {
			return "", &Error{Line: line, Col: col, Msg: msg}
		}
		i, col = i+n, col+1
	}
	s := strings.ReplaceAll(string(data), "\r\n", "\n")
	return strings.ReplaceAll(s, "\r", "\n"), nil
}

func size(n int) string {
	switch {
	case n >= 1<<20 && n%(1<<20) == 0:
		return fmt.Sprintf("%d MiB", n>>20)
	case n >= 1<<10 && n%(1<<10) == 0:
		return fmt.Sprintf("%d KiB", n>>10)
	}
	return fmt.Sprintf("%d bytes", n)
}

var yamlLine = regexp.MustCompile(`^line (\d+): `)

// parserSays lists the messages that yaml.v3 gives with a line that counts from
// 0; the others count from 1.
var parserSays = []string{
	"did not find expected key", "did not find expected '-' indicator", "did not find expected node content",
	"did not find expected ',' or ']'", "did not find expected ',' or '}'", "did not find expected <document start>",
}

// syntaxError turns yaml.v3's text into an error with a place. It knows the
// line at best, so the place is the first mark on it.
func syntaxError(text string, err error) *Error {
	msg := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if m := yamlLine.FindStringSubmatch(msg); m != nil {
		msg = msg[len(m[0]):]
		line, _ = strconv.Atoi(m[1])
		for _, s := range parserSays {
			if msg == s {
				line++
			}
		}
	}
	lines := strings.Split(text, "\n")
	line = min(max(line, 1), len(lines))
	col := 1
	if l := lines[line-1]; strings.TrimSpace(l) != "" {
		col = len(l) - len(strings.TrimLeft(l, " \t")) + 1
	}
	return &Error{Line: line, Col: col, Msg: "this is not well-formed YAML near here (" + msg + "): check indentation, colons, quotes and brackets in this line and the one before"}
}
