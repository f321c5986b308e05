package logbook

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MostName is the longest name, in bytes of UTF-8: what a file name of 255 can hold in the worst case.
const MostName = 80

// Name gives the name as it is kept: without spaces at its ends, inner ones single. Any writing will do. An error says why it
// cannot be a name: empty, too long, no text at all, or with characters that steer instead of being seen. Names that look alike but
// are written from other characters are different names.
func Name(s string) (string, error) {
	if !utf8.ValidString(s) {
		return "", errors.New("the name is not UTF-8 text; type it anew")
	}
	s = strings.Join(strings.Fields(s), " ")
	seen := false
	for _, r := range s {
		switch {
		case unicode.IsControl(r), unicode.In(r, unicode.Zl, unicode.Zp), steers(r):
			return "", fmt.Errorf("the name %+q holds a character that is not seen (U+%04X); leave it out", s, r)
		case unicode.In(r, unicode.L, unicode.N, unicode.P, unicode.S):
			seen = true
		}
	}
	switch {
	case !seen:
		return "", errors.New("a name needs at least one letter, figure or sign")
	case len(s) > MostName:
		return "", fmt.Errorf("the name is %d bytes long as UTF-8, and %d are the most; choose a shorter one", len(s), MostName)
	}
	return s, nil
}

// steers reports characters that change how the others are shown. The two joiners are needed to write some languages.
func steers(r rune) bool {
	return unicode.Is(unicode.Cf, r) && r != '\u200c' && r != '\u200d' || unicode.Is(unicode.Noncharacter_Code_Point, r)
}

// A file is named start + name + ending. In the name a to z, 0 to 9 and - stand for themselves, _ for a space, +a for A, and every
// other byte of its UTF-8 is % and two figures of base 16. So the name can be read back, no two names share a file even where
// large and small letters are alike or the system rewrites accents, and no name is a path or a device.
const (
	start  = "pupil-"
	ending = ".jsonl"
)

func fileName(name string) string {
	b := []byte(start)
	for i := range len(name) {
		switch c := name[i]; {
		case 'a' <= c && c <= 'z', '0' <= c && c <= '9', c == '-':
			b = append(b, c)
		case 'A' <= c && c <= 'Z':
			b = append(b, '+', c-'A'+'a')
		case c == ' ':
			b = append(b, '_')
		default:
			b = fmt.Appendf(b, "%%%02x", c)
		}
	}
	return string(append(b, ending...))
}

// pupilOf reads the name back; ok is false for any file name that fileName does not make.
func pupilOf(file string) (name string, ok bool) {
	s, a := strings.CutPrefix(file, start)
	s, b := strings.CutSuffix(s, ending)
	if !a || !b {
		return "", false
	}
	var out []byte
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c == '_':
			out = append(out, ' ')
		case c == '+' && i+1 < len(s):
			i++
			out = append(out, s[i]-'a'+'A')
		case c == '%' && i+2 < len(s):
			var v byte
			if _, err := fmt.Sscanf(s[i+1:i+3], "%02x", &v); err != nil {
				return "", false
			}
			out = append(out, v)
			i += 2
		default:
			out = append(out, c)
		}
	}
	name = string(out)
	if tidy, err := Name(name); err != nil || tidy != name || fileName(name) != file {
		return "", false
	}
	return name, true
}
