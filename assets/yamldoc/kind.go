package yamldoc

import (
	"strings"

	"propsoff.example/assets/words"
)

// kinds is what a person calls each file of this program, by the word with which the file names its kind.
var kinds = map[string]words.ID{
	"craft": "craft-file.craft", "radio": "radio.file", "gestures": "gesture-file.file", "script": "door.script", "drill": "door.drill-file", "course": "named-file.course", "sounds": "sound-file.file",
}

// kind is the word with which the file names its kind, and its place; where it names none, the kind that its fields tell, if they do.
func (d *Doc) kind() (word string, at Pos) {
	if !d.Root().IsMap() {
		return "", at
	}
	m := d.Root().Map("yaml.file")
	n := m.Opt("propsoff")
	switch {
	case n.IsScalar():
		text, _ := n.Text()
		word, _, _ = strings.Cut(text, " ")
		return word, n.Pos()
	case n.Exists():
	case m.Opt("steps").Exists():
		return "script", at
	case m.Opt("controls").Exists():
		return "radio", at
	}
	return "", at
}

// ParseAs is Parse for a file of a kind, by its word. Where it is another one of this program's files, that alone is wrong with it.
func ParseAs(wanted, name string, data []byte) (*Doc, error) {
	d, err := Parse(name, data)
	if err != nil {
		return nil, err
	}
	word, at := d.kind()
	if is := kinds[word]; word != wanted && is != "" {
		return nil, words.Problems{OtherKind(is, kinds[wanted]).At(name, at.Line, at.Col)}
	}
	return d, nil
}

// OtherKind says that a file is not what is wanted.
func OtherKind(is, wanted words.ID) *words.Problem {
	return words.Wrong("yaml.other-kind", words.Args{"what": words.T(is), "wanted": words.T(wanted)})
}

// KindOf is the word for what a file is; empty where nothing tells.
func KindOf(name string, data []byte) string {
	d, err := Parse(name, data)
	if err != nil {
		return ""
	}
	word, _ := d.kind()
	return word
}
