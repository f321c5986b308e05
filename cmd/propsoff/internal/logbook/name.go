package logbook

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"propsoff.example/assets/words"
)

// MostName is the longest name, in bytes of UTF-8: what a file name of 255 can hold in the worst case.
const MostName = 80

// Name gives the name as it is kept and shown: as it was typed, without spaces at its ends, inner ones single. Any writing will do. An
// error says why it cannot be a name: empty, too long, nothing to be seen, or with characters that steer instead of being seen.
func Name(s string) (string, error) { return tidy(s, seen) }

// tidy is Name with another opinion on what is seen.
func tidy(s string, seen func(rune) bool) (string, error) {
	if !utf8.ValidString(s) {
		return "", words.Wrong("logbook-file.name-not-utf8")
	}
	s = strings.Join(strings.Fields(s), " ")
	any := false
	for _, r := range s {
		if unicode.IsControl(r) || unicode.In(r, unicode.Zl, unicode.Zp) || steers(r) {
			return "", words.Wrong("logbook-file.name-unseen", words.Args{"name": words.Quote(fmt.Sprintf("%+q", s)), "sign": words.Quote(fmt.Sprintf("U+%04X", r))})
		}
		any = any || seen(r)
	}
	switch {
	case !any:
		return "", words.Wrong("logbook-file.name-empty")
	case len(s) > MostName:
		return "", words.Wrong("logbook-file.name-long", words.Args{"n": words.Whole(len(s)), "most": words.Whole(MostName)})
	}
	return s, nil
}

// steers reports characters that change how the others are shown. The two joiners are needed to write some languages.
func steers(r rune) bool {
	return unicode.Is(unicode.Cf, r) && r != '\u200c' && r != '\u200d' || unicode.Is(unicode.Noncharacter_Code_Point, r)
}

// sign reports letters, figures and signs; that was enough for a name once.
func sign(r rune) bool { return unicode.In(r, unicode.L, unicode.N, unicode.P, unicode.S) }

// seen reports those that leave a mark: not the letters and signs that stand for nothing (the fillers of Hangul, the blank of Braille, of
// music and of the hieroglyphs; the last three from memory).
func seen(r rune) bool {
	return sign(r) && !ignorable(r) && r != '\u2800' && r != 0x1D159 && r != 0x13441 && r != 0x13442
}

// ignorable reports what is not drawn by itself: Default_Ignorable_Code_Point of Unicode (DerivedCoreProperties.txt; the rest of
// it steers, and no name has it).
func ignorable(r rune) bool {
	return r == '\u200c' || r == '\u200d' || unicode.In(r, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector)
}

// Key tells one pupil from another: capitals and small letters count as the same (full case folding), composed and decomposed letters too,
// and what is not drawn counts for nothing. It is a canonical caseless match (The Unicode Standard, 3.13, D145), kept in form C.
func Key(name string) string {
	k := cases.Fold().String(norm.NFD.String(name))
	if drawn := strings.Map(func(r rune) rune {
		switch {
		case ignorable(r):
			return -1
		case unicode.Is(unicode.Cherokee, r): // which folds to capitals (CaseFolding.txt), and which x/text turns round
			return unicode.ToUpper(r)
		}
		return r
	}, k); strings.TrimSpace(drawn) != "" {
		k = drawn
	}
	return norm.NFC.String(strings.Join(strings.Fields(k), " ")) // last: what is not drawn may have stood between spaces
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

// pupilOf reads the name back, also one that would not do today; ok is false for any file name that fileName does not make.
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
	if as, err := tidy(name, sign); err != nil || as != name || fileName(name) != file {
		return "", false
	}
	return name, true
}
