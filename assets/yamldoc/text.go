package yamldoc

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"propsoff.example/assets/words"
)

// Messages that are asked for in several places.
const (
	oneDocument   words.ID = "yaml.one-document"
	tabInLevel    words.ID = "yaml.tab"
	refusedAlias  words.ID = "yaml.alias"
	refusedAnchor words.ID = "yaml.anchor"
	refusedTag    words.ID = "yaml.tag"
)

func emptyFile() *words.Problem { return words.Wrong("yaml.empty-file").At("", 1, 1) }

// plainText checks that data is text of at most limit bytes and gives it
// without byte-order mark and with every line end (\r\n of Windows, \r of old
// Macs) as \n, which leaves line and column of everything as they were.
func plainText(data []byte, limit int) (string, *words.Problem) {
	if len(data) > limit {
		return "", words.Wrong("yaml.too-large", words.Args{"size": size(limit)})
	}
	switch {
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), bytes.HasPrefix(data, []byte{0xFE, 0xFF}):
		return "", words.Wrong("yaml.utf-16").At("", 1, 1)
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		data = data[3:]
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return "", emptyFile()
	}
	line, col := 1, 1
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		var bad *words.Problem
		switch {
		case r == 0:
			bad = words.Wrong("yaml.zero-byte")
		case r == utf8.RuneError && n == 1:
			bad = words.Wrong("yaml.not-utf-8", words.Args{"byte": words.Quote(fmt.Sprintf("0x%02X", data[i]))})
		case r == '\n', r == '\r' && !bytes.HasPrefix(data[i+1:], []byte{'\n'}):
			line, col = line+1, 0
		case r == '\r', r == '\t':
		case r < 0x20, r >= 0x7F && r < 0xA0, r == 0x2028, r == 0x2029, r == 0xFEFF, r == 0xFFFE, r == 0xFFFF:
			bad = words.Wrong("yaml.invisible", words.Args{"code": words.Quote(fmt.Sprintf("%04X", r))})
		}
		if bad != nil {
			return "", bad.At("", line, col)
		}
		i, col = i+n, col+1
	}
	s := strings.ReplaceAll(string(data), "\r\n", "\n")
	return strings.ReplaceAll(s, "\r", "\n"), nil
}

func size(n int) words.Text {
	switch {
	case n >= 1<<20 && n%(1<<20) == 0:
		return words.T("yaml.mebibytes", words.Args{"n": words.Whole(n >> 20)})
	case n >= 1<<10 && n%(1<<10) == 0:
		return words.T("yaml.kibibytes", words.Args{"n": words.Whole(n >> 10)})
	}
	return words.T("yaml.bytes", words.Args{"n": words.Whole(n)})
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
func syntaxError(text string, err error) *words.Problem {
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
	return words.Wrong("yaml.malformed", words.Args{"why": words.Quote(msg)}).At("", line, col)
}
