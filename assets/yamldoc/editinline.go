package yamldoc

import "strings"

// Inline is a value as it is written on one line, for [Set]. The zero Inline is an empty text.
type Inline struct{ text string }

// InlineText is a word or text, in quotes where needed ([Quote]).
func InlineText(s string) Inline { return Inline{Quote(s)} }

// InlineWord is a word that readers of other programs may take for something else (on, off, yes, no): it stays plain, as
// it is written in the files of this program.
func InlineWord(s string) Inline { return Inline{fieldName(s)} }

// fieldName writes a name: plain where it is made of letters, digits, hyphens and single spaces, else as Quote does.
func fieldName(s string) string {
	if Quote("x"+s) == "x"+s && s != "" && isLetter(s[0]) && len(s) < 200 {
		return s
	}
	return Quote(s)
}

// InlineValue is a number, with or without unit: plain where it is one, else as [InlineText].
func InlineValue(s string) Inline { return Inline{number(s)} }

// InlineField is one field of an inline group.
type InlineField struct {
	Name  string
	Value Inline
}

// InlineGroup is a group of fields in braces: {from: 1600, to: 2180}.
func InlineGroup(fields ...InlineField) Inline {
	parts := make([]string, len(fields))
	for i, f := range fields {
		parts[i] = fieldName(f.Name) + ": " + f.Value.String()
	}
	return Inline{"{" + strings.Join(parts, ", ") + "}"}
}

// InlineList is a list in brackets: [horizon, rate].
func InlineList(items ...Inline) Inline {
	parts := make([]string, len(items))
	for i, v := range items {
		parts[i] = v.String()
	}
	return Inline{"[" + strings.Join(parts, ", ") + "]"}
}

// String gives the value as it is written.
func (v Inline) String() string {
	if v.text == "" {
		return `""`
	}
	return v.text
}
