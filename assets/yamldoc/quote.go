package yamldoc

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Quote writes s as one scalar on one line, so that every reader of YAML 1.1 or
// 1.2 gets s back as a string. It stays plain where that is safe beyond doubt:
// ASCII letters first, then letters, digits, `_`, `-`, `.`, `/` and single
// spaces, and none of the words that some reader takes for a truth value, for
// nothing or for a number (on, off, yes, no, y, n, true, false, null, …; the
// list is that of yaml.org/type/bool.html and YAML 1.2.2 section 10.3).
// Everything else goes in double quotes. Bytes that are not UTF-8 cannot be
// written in YAML and become U+FFFD. As a name, the result must stay within
// 1024 characters, as YAML asks of names.
func Quote(s string) string {
	if plainSafe(s) {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == utf8.RuneError, r < 0x80 && r >= 0x20 && r != 0x7F, r >= 0x80 && unicode.IsPrint(r):
			b.WriteRune(r)
		case r < 0x100:
			fmt.Fprintf(&b, `\x%02X`, r)
		case r < 0x10000:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			fmt.Fprintf(&b, `\U%08X`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

func plainSafe(s string) bool {
	if s == "" || len(s) > 200 || !isLetter(s[0]) || s[len(s)-1] == ' ' {
		return false
	}
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case isLetter(c), isDigit(c), c == '_', c == '-', c == '.', c == '/':
		case c == ' ' && isLetter(s[i+1]):
		default:
			return false
		}
	}
	switch strings.ToLower(s) {
	case "y", "n", "yes", "no", "on", "off", "true", "false", "null", "nil", "none", "inf", "nan":
		return false
	}
	return true
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }
