package yamldoc

import (
	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
)

// Node is one value of a file and its place. The zero Node, and a Node for a
// field that is not there, is missing: every reader on it gives false and notes
// nothing, so that a decoder can go on after [Map.Need] without looking.
//
// Every reader that finds something wrong notes an error at the node and gives
// false; the value is then the zero value.
type Node struct {
	doc *Doc
	y   *yaml.Node // nil: missing
	pos Pos
}

func isEmpty(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Style&^yaml.TaggedStyle == 0 && y.Value == ""
}

// Exists tells whether the file has this node.
func (n Node) Exists() bool { return n.y != nil }

// IsMap tells whether the node is a group of fields `name: value`.
func (n Node) IsMap() bool { return n.y != nil && n.y.Kind == yaml.MappingNode }

// IsList tells whether the node is a list.
func (n Node) IsList() bool { return n.y != nil && n.y.Kind == yaml.SequenceNode }

// IsScalar tells whether the node is a word, number or text (also "" in quotes).
func (n Node) IsScalar() bool { return n.y != nil && n.y.Kind == yaml.ScalarNode && !isEmpty(n.y) }

// IsEmpty tells whether a name is there and nothing behind it.
func (n Node) IsEmpty() bool { return n.y != nil && isEmpty(n.y) }

// IsQuoted tells whether a scalar was written in quotes. Meaning must not hang
// on it; it is there for writing a file back as it was.
func (n Node) IsQuoted() bool {
	return n.y != nil && n.y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0
}

// Pos gives the place of the first character; for a missing node that of the
// group in which it was looked for.
func (n Node) Pos() Pos { return n.pos }

// Wrong notes an error at this node. By custom its message says what, and what to
// do: "the span runs backwards: write the lower end first".
func (n Node) Wrong(id words.ID, args ...words.Args) { n.note(words.T(id, args...)) }

func (n Node) note(t words.Text) {
	if n.doc != nil {
		n.doc.note(n.pos, t)
	}
}

// kind says for a message what the node is.
func (n Node) kind() words.Text {
	switch {
	case n.IsMap():
		return words.T("yaml.a-group")
	case n.IsList():
		return words.T("yaml.a-list")
	case n.IsEmpty():
		return words.T("yaml.nothing-here")
	}
	return words.T("yaml.a-value", words.Args{"value": shown(n.y.Value)})
}

// scalar gives the text of a scalar; asked says what is wanted: "write …".
func (n Node) scalar(asked words.Text) (string, bool) {
	if n.y == nil {
		return "", false
	}
	if !n.IsScalar() {
		n.Wrong("yaml.not-that", words.Args{"here": n.kind(), "todo": asked})
		return "", false
	}
	return n.y.Value, true
}

// List gives the items of a list in their order; nil, with an error noted, for
// anything else.
func (n Node) List() []Node {
	if n.y == nil {
		return nil
	}
	if !n.IsList() {
		n.Wrong("yaml.list-wanted", words.Args{"here": n.kind()})
		return nil
	}
	out := make([]Node, len(n.y.Content))
	for i, c := range n.y.Content {
		out[i] = n.doc.node(c)
	}
	return out
}

// ListOf is [Node.List] with lo to hi items. Another number of items is noted
// and gives false, with the items that are there.
func (n Node) ListOf(lo, hi int) ([]Node, bool) {
	items := n.List()
	if !n.IsList() {
		return nil, false
	}
	if c := len(items); c < lo || c > hi {
		if lo == hi {
			n.Wrong("yaml.items-exactly", words.Args{"n": words.Count(c), "wanted": words.Whole(lo)})
		} else {
			n.Wrong("yaml.items-between", words.Args{"n": words.Count(c), "low": words.Whole(lo), "high": words.Whole(hi)})
		}
		return items, false
	}
	return items, true
}

func (d *Doc) node(y *yaml.Node) Node { return Node{d, y, Pos{d.name, y.Line, y.Column}} }
