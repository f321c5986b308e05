package lookup

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
)

// kind is one kind of file: how it is read, and files of it in which each of its fields stands once at least.
type kind struct {
	name string
	// means says what a field means.
	means     func(code string) words.Text
	read      func(text []byte) error
	specimens []string
	// free are the groups whose fields a person names.
	free []string
	// whole are the fields that are told as a whole, whatever stands in them.
	whole []string
	// elsewhere are the fields whose words are listed elsewhere, or are the person's own.
	elsewhere []string
	// fold gives a path that stands for several the name that is told; nil folds nothing.
	fold func(path []string) []string
}

// field is one field of a kind of file.
type field struct {
	path []string
	// such is what stands there in a specimen, which is the first, and may what its reader says can stand there.
	such  string
	first bool
	may   words.Text
}

// ownName stands in a path for a name that a person gives.
const ownName = "NAME"

// pairs are groups that are told in one row, by the names that may stand there.
var pairs = [][]string{{"from", "to", "north", "east"}, {"in", "out"}, {"988", "1500", "2012"}, {"low", "rest", "high"}, {"at", "spread"}}

// isPair tells whether a group is one of them.
func isPair(n *yaml.Node) bool {
	return slices.ContainsFunc(pairs, func(names []string) bool {
		for i := 0; i < len(n.Content); i += 2 {
			if !slices.Contains(names, n.Content[i].Value) {
				return false
			}
		}
		return true
	})
}

// leaf is the first single value in a group or list.
func leaf(n *yaml.Node) *yaml.Node {
	for n.Kind == yaml.MappingNode {
		n = n.Content[1]
	}
	return n
}

// fields are all fields in the order of the specimens, each once. What can stand in a field is asked of the reader itself: something that
// cannot is put there, and the refusal says what could.
func (k *kind) fields() []field {
	w := walk{kind: k, seen: map[string]bool{}}
	for i, text := range k.specimens {
		var doc yaml.Node
		if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
			panic(k.name + ": " + err.Error()) // they are part of the program, and a test reads them
		}
		w.text, w.first = text, i == 0
		w.group(doc.Content[0], nil)
	}
	return w.found
}

// walk goes through specimens.
type walk struct {
	*kind
	text  string
	first bool
	seen  map[string]bool
	found []field
}

// group goes through the fields of a group.
func (w *walk) group(n *yaml.Node, path []string) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		name := n.Content[i].Value
		if len(path) > 0 && slices.Contains(w.free, path[len(path)-1]) {
			name = ownName
		}
		w.value(n.Content[i+1], append(path[:len(path):len(path)], name))
	}
}

// value notes a field, or goes on in its group.
func (w *walk) value(n *yaml.Node, path []string) {
	if slices.Contains(w.whole, path[len(path)-1]) {
		w.add(n, leaf(n), path)
		return
	}
	switch n.Kind {
	case yaml.MappingNode:
		if isPair(n) {
			w.add(n, n.Content[1], path)
			return
		}
		w.group(n, path)
	case yaml.SequenceNode:
		for _, one := range n.Content {
			if one.Kind == yaml.MappingNode {
				w.value(one, path)
			}
		}
		if len(n.Content) > 0 && n.Content[0].Kind == yaml.ScalarNode {
			w.add(n, n.Content[0], path)
		}
	default:
		w.add(n, n, path)
	}
}

// add notes a field whose value is n; asked of its reader is what can stand in the place of at.
func (w *walk) add(n, at *yaml.Node, path []string) {
	if w.fold != nil {
		path = w.fold(path)
	}
	if key := strings.Join(path, "."); w.seen[key] || len(path) == 0 {
		return
	} else {
		w.seen[key] = true
	}
	from, to := w.place(n)
	f := field{path: path, such: w.text[from:to], first: w.first}
	switch {
	case path[len(path)-1] == "propsoff":
		f.may = words.AsIs(f.such)
	case !slices.Contains(w.elsewhere, path[len(path)-1]):
		f.may = w.may(at)
	}
	w.found = append(w.found, f)
}

// place is where a value stands in the text.
func (w *walk) place(n *yaml.Node) (from, to int) {
	line := 1
	for from = 0; line < n.Line; from++ {
		if w.text[from] == '\n' {
			line++
		}
	}
	from += n.Column - 1
	if n.Kind == yaml.ScalarNode {
		to = from + len(n.Value)
		if n.Style == yaml.DoubleQuotedStyle {
			to += 2
		}
		return from, to
	}
	depth := 0
	for to = from; to < len(w.text); to++ {
		switch w.text[to] {
		case '{', '[':
			depth++
		case '}', ']':
			if depth--; depth == 0 {
				return from, to + 1
			}
		}
	}
	return from, strings.IndexByte(w.text[from:], '\n') + from
}

// unit is the unit in a form such as "2 deg".
var unit = regexp.MustCompile(`"2 ?([^"]*)"`)

// may asks the reader what can stand in the place of a value.
func (w *walk) may(n *yaml.Node) words.Text {
	todo, ok := w.refused(n, "[]", "yaml.not-that").Value("todo").(words.Text)
	if !ok {
		for _, no := range []string{`"?"`, `["?"]`} { // of a list each is asked of
			if all, ok := w.refused(n, no, "yaml.word-unknown").Value("words").(words.Text); ok {
				return all
			}
		}
		return words.Text{}
	}
	switch todo.ID() {
	case "yaml.write-words":
		all, _ := todo.Value("words").(words.Text)
		return all
	case "yaml.write-text":
		return words.T("look-up.a-text")
	case "yaml.write-amount", "yaml.write-any-number":
		_, of, _ := strings.Cut(n.Value, " ")
		far := w.refused(n, strings.TrimSpace("1000000000000 "+of), "yaml.outside")
		forms, _ := todo.Value("forms").(words.Text)
		var other []words.Text
		for _, m := range unit.FindAllStringSubmatch(words.English().Say(forms), -1) {
			if m[1] != of && m[1] != "" {
				other = append(other, words.AsIs(m[1]))
			}
		}
		if far.Empty() {
			return words.Text{}
		}
		return bounds(far, words.Or(other...))
	}
	return bounds(todo, words.Text{})
}

// bounds are the two ends that a sentence tells, and in which other units they may be written.
func bounds(t, other words.Text) words.Text {
	low, high := t.Value("low"), t.Value("high")
	if low == nil || high == nil {
		return words.Text{}
	}
	return words.T("look-up.bounds", words.Args{"low": apart(low), "high": apart(high), "other": other})
}

// closed is a number with its unit right behind it.
var closed = regexp.MustCompile(`^([-0-9.]+)(ms|s|µs)$`)

// apart is a time as files that ship have it: with a space before its unit.
func apart(v words.Value) words.Value {
	if q, ok := v.(words.Quote); ok {
		return words.Quote(closed.ReplaceAllString(string(q), "$1 $2"))
	}
	return v
}

// refused puts something in the place of a value and gives what the reader says of it by that message; nothing where it says no such thing.
func (w *walk) refused(n *yaml.Node, by string, id words.ID) (said words.Text) {
	from, to := w.place(n)
	var all words.Problems
	if !errors.As(w.read([]byte(w.text[:from]+by+w.text[to:])), &all) {
		return said
	}
	for _, p := range all {
		if p.Text.ID() == id {
			return p.Text
		}
	}
	return said
}
