package yamldoc

import (
	"iter"
	"slices"
	"strings"

	"propsoff.example/assets/words"
)

// Map is a group of fields that is being read. It remembers which names were
// asked for, so that [Map.Done] can tell what the file has beyond them.
type Map struct {
	what  words.ID
	node  Node
	keys  []Node
	vals  []Node
	taken []bool
	known []string // asked for, in the order of asking

	missing map[string]int // needed and not there: index of the error noted
}

// Map reads the node as a group of fields. what is the message that names
// it ("craft-file.craft"). On another kind of node an error is noted; the Map is then
// empty, and neither [Map.Need] nor [Map.Done] says anything more.
func (n Node) Map(what words.ID) *Map {
	m := &Map{what: what}
	if n.y == nil {
		return m
	}
	if !n.IsMap() {
		n.Wrong("yaml.fields-wanted", words.Args{"here": n.kind(), "what": words.T(what)})
		return m
	}
	m.node = n
	seen := make(map[string]bool)
	for i := 0; i+1 < len(n.y.Content); i += 2 {
		k := n.doc.node(n.y.Content[i])
		// What is no name or is given twice was noted when the file was read.
		if !k.IsScalar() || seen[k.y.Value] || k.y.Value == "<<" && !k.IsQuoted() {
			continue
		}
		seen[k.y.Value] = true
		m.keys = append(m.keys, k)
		m.vals = append(m.vals, n.doc.node(n.y.Content[i+1]))
	}
	m.taken = make([]bool, len(m.keys))
	return m
}

// Node gives the group itself, for its place and for errors about the whole.
func (m *Map) Node() Node { return m.node }

// Keys gives the names in the order of the file, each once.
func (m *Map) Keys() []Node { return slices.Clone(m.keys) }

// Len gives the number of fields.
func (m *Map) Len() int { return len(m.keys) }

// Field gives the value of a field that may be left out, and whether it is there.
func (m *Map) Field(name string) (Node, bool) {
	if !slices.Contains(m.known, name) {
		m.known = append(m.known, name)
	}
	for i, k := range m.keys {
		if k.y.Value == name {
			m.taken[i] = true
			return m.vals[i], true
		}
	}
	return Node{doc: m.node.doc, pos: m.node.pos}, false
}

// Opt is [Map.Field] without the second result, for use in one line:
//
//	if v, ok := m.Opt("dwell").Duration(0, time.Second); ok { … }
func (m *Map) Opt(name string) Node {
	n, _ := m.Field(name)
	return n
}

// Need is [Map.Opt] for a field that must be there; its absence is noted at the
// group, and a missing Node given. Where [Map.Done] then finds the name
// misspelt, it says that instead.
func (m *Map) Need(name string) Node {
	n, ok := m.Field(name)
	if _, noted := m.missing[name]; !ok && !noted && m.node.Exists() {
		if m.missing == nil {
			m.missing = make(map[string]int)
		}
		m.missing[name] = len(m.node.doc.wrong)
		m.node.Wrong("yaml.missing-field", words.Args{"what": words.T(m.what), "field": shown(name), "example": words.Quote("`" + name + ": …`")})
	}
	return n
}

// Rest gives name and value of the fields that were not asked for so far, in
// the order of the file, for groups whose names are free or long in number.
// They count as known; whether a name is right is then for the caller to say
// ([Node.Word] on the name).
func (m *Map) Rest() iter.Seq2[Node, Node] {
	return func(yield func(Node, Node) bool) {
		for i := range m.keys {
			if m.taken[i] {
				continue
			}
			m.taken[i] = true
			if !yield(m.keys[i], m.vals[i]) {
				return
			}
		}
	}
}

// Done notes an error for each field that was not asked for, with the known
// name nearest to it and the list of all. It is called last.
func (m *Map) Done() {
	if !slices.Contains(m.taken, false) {
		return
	}
	absent, known, fields := foldAll(m.absent()), foldAll(m.known), m.node.doc.listed(m.known)
	for i, k := range m.keys {
		if m.taken[i] {
			continue
		}
		m.taken[i] = true
		word := k.y.Value
		if len(m.known) == 0 {
			k.Wrong("yaml.no-fields-here", words.Args{"field": shown(word), "what": words.T(m.what)})
			continue
		}
		// A field that is still missing is more likely meant than one that is there.
		likely, ok := near(word, absent)
		if at, noted := m.missing[likely]; ok && noted {
			m.node.doc.wrong[at] = nil // one slip, one error
			delete(m.missing, likely)
		}
		if !ok {
			likely, ok = near(word, known)
		}
		hint := words.Quote("")
		if ok {
			hint = shown(likely)
		}
		k.Wrong("yaml.unknown-field", words.Args{"field": shown(word), "what": words.T(m.what), "near": hint, "fields": fields})
	}
}

// listed are words as a list in a sentence, made once: a file can have very many fields, or groups, that are told with the same one.
func (d *Doc) listed(all []string) words.Text {
	key := strings.Join(all, ", ")
	list, ok := d.lists[key]
	if !ok {
		if d.lists == nil {
			d.lists = make(map[string]words.Text)
		}
		list = words.Listed(words.AsAre(all...)...)
		d.lists[key] = list
	}
	return list
}

func (m *Map) absent() []string {
	var out []string
	for _, name := range m.known {
		if !slices.ContainsFunc(m.keys, func(k Node) bool { return k.y.Value == name }) {
			out = append(out, name)
		}
	}
	return out
}
