package yamldoc

import (
	"bytes"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
)

// Set changes one field of a file, or adds it, and leaves everything else as it is, byte for byte: order, indentation,
// line ends, quotes and every comment. path are the names from the outermost group to the field. Groups on the way that
// are missing are added too.
//
// order[i], where given, are the names of the group that has path[i], in their usual order: a new field goes behind the
// nearest of them that is there, else to the head of its group; without an order it goes to the end.
//
// name stands in errors, which come where the file cannot be read ([words.Problems]), where the path leads through something
// that is no group, and where the file is written so oddly that the change cannot be made safely. What Set gives has
// been read again: it is the old tree with just this change, and no comment is lost. A comment inside a value that is
// replaced stays behind the new value.
func Set(name string, data []byte, path []string, value Inline, order ...[]string) ([]byte, error) {
	e, err := startEdit(name, data, path)
	if err != nil {
		return nil, err
	}
	at := &e.root
	for i, word := range path {
		if at.y.Kind != yaml.MappingNode {
			return nil, e.noGroup(path[:i], at)
		}
		f := at.field(word)
		last := i == len(path)-1
		switch {
		case f == nil:
			var usual []string
			if i < len(order) {
				usual = order[i]
			}
			e.insert(at, path, i, value, usual)
			return e.finish(path[:i+1], nested(path[i+1:], value))
		case last, isEmpty(f.value.y):
			v := nested(path[i+1:], value)
			e.replace(f, v)
			return e.finish(path[:i+1], v)
		}
		e.above = append(e.above, f)
		at = &f.value
	}
	panic("unreachable")
}

// Delete takes one field out of a file and leaves everything else as it is; comments beside it or in it stay. A group
// whose last field is taken out stays as {}. A field that is not there is no error. Errors are as with [Set].
func Delete(name string, data []byte, path ...string) ([]byte, error) {
	e, err := startEdit(name, data, path)
	if err != nil {
		return nil, err
	}
	at := &e.root
	for i, word := range path {
		if at.y.Kind != yaml.MappingNode {
			return nil, e.noGroup(path[:i], at)
		}
		f := at.field(word)
		switch {
		case f == nil:
			return bytes.Clone(data), nil
		case i == len(path)-1:
			e.remove(at, f)
			return e.finish(path, Inline{})
		case isEmpty(f.value.y):
			return bytes.Clone(data), nil
		}
		e.above = append(e.above, f)
		at = &f.value
	}
	panic("unreachable")
}

func nested(path []string, v Inline) Inline {
	for i := len(path) - 1; i >= 0; i-- {
		v = InlineGroup(InlineField{path[i], v})
	}
	return v
}

// edit is one change being made.
type edit struct {
	*pieces
	name  string
	data  []byte
	root  branch
	above []*field // those on the way to the group that is changed
	cuts  []cut
	eol   string
}

// cut replaces a stretch by a text.
type cut struct {
	stretch
	text string
}

func startEdit(name string, data []byte, path []string) (*edit, error) {
	d, err := Parse(name, data)
	if err == nil {
		err = d.Err()
	}
	if err != nil {
		return nil, err
	}
	if len(path) == 0 {
		return nil, words.Wrong("yaml.no-path").In(name)
	}
	text, _ := plainText(data, Most)
	e := &edit{pieces: takeApart(text), name: name, data: data, eol: lineBreak(data)}
	if e.root, err = e.locate(d.root); err != nil {
		return nil, e.odd()
	}
	return e, nil
}

// lineBreak is the first line break of a file.
func lineBreak(data []byte) string {
	switch i := bytes.IndexAny(data, "\r\n"); {
	case i < 0 || data[i] == '\n':
		return "\n"
	case bytes.HasPrefix(data[i:], []byte("\r\n")):
		return "\r\n"
	}
	return "\r"
}

func (e *edit) odd() error {
	return words.Wrong("yaml.cannot-change").In(e.name)
}

func (e *edit) noGroup(path []string, b *branch) error {
	where := words.Quote("")
	if len(path) > 0 {
		where = shown(strings.Join(path, " / "))
	}
	return words.Wrong("yaml.no-group", words.Args{"path": where}).At(e.name, b.y.Line, b.y.Column)
}

func (e *edit) cut(from, to int, text string) { e.cuts = append(e.cuts, cut{stretch{from, to}, text}) }

// indent are the spaces before the first mark of the line of i.
func (e *edit) indent(i int) string {
	from := e.lineStart(i)
	to := from
	for to < len(e.src) && e.src[to] == ' ' {
		to++
	}
	return string(e.src[from:to])
}

// replace writes a new value to a field.
func (e *edit) replace(f *field, v Inline) {
	old, text := &f.value, v.String()
	switch {
	case isEmpty(old.y) && f.colon < 0:
		e.cut(f.key.to, f.key.to, ": "+text)
	case isEmpty(old.y):
		e.cut(f.colon, f.colon, " "+text)
	case old.y.Kind == yaml.ScalarNode && (e.src[old.from] == '|' || e.src[old.from] == '>'):
		// The mark goes, a comment beside it stays, and the lines go.
		head := e.lineEnd(old.from)
		to := old.from + 1
		for to < head && !blank(e.src[to]) {
			to++
		}
		e.cut(old.from, to, text)
		e.cut(head, max(head, old.to), "")
	case old.y.Kind == yaml.ScalarNode || old.brackets:
		rest := strings.TrimRight(string(e.src[old.to:e.lineEnd(old.to)]), " \t") != ""
		for i, c := range e.remarks(old.stretch) {
			if i > 0 {
				text += e.eol + e.indent(f.key.from) + " "
			}
			text += " " + c
			if rest && i == len(e.remarks(old.stretch))-1 {
				text += e.eol + e.indent(f.key.from) + " "
			}
		}
		e.cut(old.from, old.to, text)
	default: // lines of their own below the name
		e.cut(f.colon, f.colon, " "+text)
		from, to := e.lineStart(old.from), min(e.lineEnd(old.to)+1, len(e.src))
		e.cut(from, to, e.kept(stretch{from, to}, e.indent(old.from)))
	}
}

// kept are the comments of a stretch of whole lines, each on a line of its own.
func (e *edit) kept(s stretch, indent string) string {
	out := ""
	for _, c := range e.remarks(s) {
		out += indent + c + e.eol
	}
	if out != "" && s.to == len(e.src) && e.src[s.to-1] != '\n' {
		out = strings.TrimSuffix(out, e.eol)
	}
	return out
}

// insert adds the field path[i:] to a group.
func (e *edit) insert(at *branch, path []string, i int, v Inline, order []string) {
	before := e.neighbour(at, path[i], order)
	if at.brackets {
		text := fieldName(path[i]) + ": " + nested(path[i+1:], v).String()
		switch {
		case len(at.fields) == 0:
			e.cut(at.from+1, at.from+1, text)
		case before == nil:
			e.cut(at.fields[0].key.from, at.fields[0].key.from, text+", ")
		case isEmpty(before.value.y) && before.colon >= 0:
			e.cut(before.end(), before.end(), " , "+text)
		default:
			e.cut(before.end(), before.end(), ", "+text)
		}
		return
	}
	indent := e.indent(at.fields[0].key.from)
	var lines strings.Builder
	if before != nil && len(path)-i > 1 && i == 0 && e.airy(at) {
		lines.WriteString(e.eol)
	}
	for n, word := range path[i:] {
		lines.WriteString(indent + strings.Repeat(e.step(), n) + fieldName(word) + ":")
		if n < len(path)-i-1 {
			lines.WriteString(e.eol)
		}
	}
	lines.WriteString(" " + v.String())
	var place int
	switch {
	case before != nil:
		place = e.lineEnd(before.end())
	case len(e.above) > 0: // below the name of the group
		place = e.lineEnd(e.above[len(e.above)-1].colon)
	default:
		place = e.lineEnd(at.fields[len(at.fields)-1].end())
	}
	e.cut(place, place, e.eol+lines.String())
}

// neighbour is the field behind which a new one goes, nil for the head of the group.
func (e *edit) neighbour(at *branch, name string, order []string) *field {
	if len(at.fields) == 0 {
		return nil
	}
	if len(order) == 0 {
		return &at.fields[len(at.fields)-1]
	}
	for i := slices.Index(order, name) - 1; i >= 0; i-- {
		if f := at.field(order[i]); f != nil {
			return f
		}
	}
	if !slices.Contains(order, name) {
		return &at.fields[len(at.fields)-1]
	}
	return nil
}

// airy tells whether blank lines stand between the fields of a group.
func (e *edit) airy(at *branch) bool {
	for i := 1; i < len(at.fields); i++ {
		if strings.Contains(string(e.src[at.fields[i-1].end():at.fields[i].key.from]), "\n\n") {
			return true
		}
	}
	return false
}

// step is by how much the file indents a group below its name.
func (e *edit) step() string {
	for i := range e.root.fields {
		v := &e.root.fields[i].value
		if v.y.Kind == yaml.MappingNode && !v.brackets && len(v.fields) > 0 {
			return e.indent(v.from)
		}
	}
	return "  "
}

// remove takes a field out of its group.
func (e *edit) remove(at *branch, f *field) {
	whole := stretch{f.key.from, f.end()}
	switch {
	case !at.brackets:
		from, to := e.lineStart(whole.from), min(e.lineEnd(whole.to)+1, len(e.src))
		left := e.kept(stretch{from, to}, e.indent(whole.from))
		if len(at.fields) == 1 {
			if len(e.above) > 0 {
				up := e.above[len(e.above)-1].colon
				e.cut(up, up, " {}")
			} else {
				left = "{}" + e.eol + left
			}
		}
		e.cut(from, to, left)
		return
	default:
		inner := ""
		for _, c := range e.remarks(whole) {
			inner += " " + c + e.eol + e.indent(f.key.from) + " "
		}
		n := slices.IndexFunc(e.tokens, func(t token) bool { return t.from >= whole.to })
		if n >= 0 && e.tokens[n].r == ',' { // with the comma behind it
			comma := e.tokens[n].stretch
			to := comma.to
			for to < len(e.src) && e.src[to] == ' ' {
				to++
			}
			if strings.TrimSpace(string(e.src[whole.to:comma.from])) == "" {
				e.cut(whole.from, to, inner)
				return
			}
			e.cut(whole.from, whole.to, inner)
			e.cut(comma.from, to, "")
			return
		}
		n = slices.IndexFunc(e.tokens, func(t token) bool { return t.from >= whole.from }) - 1
		if n >= 0 && e.tokens[n].r == ',' { // with the comma before it
			comma := e.tokens[n].stretch
			if strings.TrimSpace(string(e.src[comma.to:whole.from])) == "" {
				e.cut(comma.from, whole.to, inner)
				return
			}
			e.cut(comma.from, comma.to, "")
		}
		e.cut(whole.from, whole.to, inner)
	}
}
