// Package yamldoc: strict YAML: `file:line:col: what, and what to do`, near names, limits on size and aliases.
//
// Every file that a person may write for propsoff is read through this
// package. A file is read in two steps. [Parse] turns bytes into a
// [Doc]; it fails at once when the bytes cannot be read as one YAML document
// in the part of the language that is accepted. A hand-written decoder then
// walks the Doc from [Doc.Root]; everything that is wrong is noted and nothing
// stops at the first mistake, so that [Doc.Err], asked at the end, holds all of
// them in the order of the file:
//
//	doc, err := yamldoc.Parse("my.yaml", data)
//	if err != nil {
//		return nil, err
//	}
//	m := doc.Root().Map("radio.file")
//	if v, ok := m.Need("centre").Fixed("us", 8, 860*8, 2180*8); ok {
//		out.Centre = v
//	}
//	m.Done()
//	return out, doc.Err()
//
// What is stricter than YAML: one document, encoded in UTF-8; no anchors,
// aliases, tags, merge keys, directives and `? ` keys; names are single-line
// scalars and are given once; scalars are what is written: on, off, yes, no,
// null, ~, 1:30 and 010 are words, and plain or quoted makes no difference.
package yamldoc

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
)

// Most is the longest file that is read, in bytes (ours): no person writes a longer text.
const Most = 1 << 20

// limits bound what a file may ask of the reader.
type limits struct {
	bytes int
	depth int // levels of fields, lists and brackets inside one another
	nodes int // names, values and marks between them
}

// usual are the limits of every file (ours).
var usual = limits{bytes: Most, depth: 32, nodes: 200_000}

// Doc is one YAML document and the list of what was found wrong in it.
// It is not safe for concurrent use.
type Doc struct {
	name  string
	root  *yaml.Node
	wrong words.Problems        // a nil is one that was taken back
	lists map[string]words.Text // of known fields, by their names
}

// Parse reads data. name is the file name that stands before each message. The error is a [words.Problems], and is there when no Doc could
// be made; names given twice and the like do not stop the reading and are told
// by [Doc.Err].
func Parse(name string, data []byte) (*Doc, error) { return usual.parse(name, data) }

func (l limits) parse(name string, data []byte) (*Doc, error) {
	text, bad := plainText(data, l.bytes)
	if bad != nil {
		return nil, words.Problems{bad.In(name)}
	}
	if wrong := scan(text, l); len(wrong) > 0 {
		for _, p := range wrong {
			p.In(name)
		}
		return nil, wrong.Sorted()
	}
	root, bad := build(text)
	if bad != nil {
		return nil, words.Problems{bad.In(name)}
	}
	d := &Doc{name: name, root: root}
	if d.refuseMarks(root); len(d.wrong) > 0 {
		return nil, d.wrong.Sorted()
	}
	d.checkNames(root)
	return d, nil
}

// Name gives the file name that stands before each message.
func (d *Doc) Name() string { return d.name }

// Root gives the outermost node. Which kind it must be is said by the method
// used on it: [Node.Map], [Node.List].
func (d *Doc) Root() Node {
	return Node{doc: d, y: d.root, pos: Pos{d.name, d.root.Line, d.root.Column}}
}

// Err gives all that was noted so far as a [words.Problems] sorted by place, or nil.
func (d *Doc) Err() error { return d.wrong.Err() }

func (d *Doc) note(p Pos, t words.Text) {
	d.wrong = append(d.wrong, (&words.Problem{Text: t}).At(d.name, p.Line, p.Col))
}

// build lets yaml.v3 make the tree; it is also the last judge of what is well
// formed.
func build(text string) (root *yaml.Node, bad *words.Problem) {
	bad = guard(func() *words.Problem {
		dec := yaml.NewDecoder(strings.NewReader(text))
		var doc, more yaml.Node
		if err := dec.Decode(&doc); errors.Is(err, io.EOF) {
			return emptyFile()
		} else if err != nil {
			return syntaxError(text, err)
		}
		if err := dec.Decode(&more); err == nil {
			return words.Wrong(oneDocument).At("", max(more.Line, 1), max(more.Column, 1))
		} else if !errors.Is(err, io.EOF) {
			return syntaxError(text, err)
		}
		if doc.Kind != yaml.DocumentNode || len(doc.Content) != 1 || doc.Content[0] == nil {
			return emptyFile()
		}
		root = doc.Content[0]
		return nil
	})
	return root, bad
}

// guard makes an error of a panic in read: yaml.v3 is known to panic on some
// malformed input.
func guard(read func() *words.Problem) (bad *words.Problem) {
	defer func() {
		if r := recover(); r != nil {
			bad = words.Wrong("yaml.gave-up", words.Args{"why": shown(fmt.Sprint(r))}).At("", 1, 1)
		}
	}()
	return read()
}

// refuseMarks is the second lock behind scan: nothing that shares or retypes a
// node may be in the tree. Aliases are not followed.
func (d *Doc) refuseMarks(y *yaml.Node) {
	p := Pos{d.name, y.Line, y.Column}
	switch {
	case y.Kind == yaml.AliasNode:
		d.note(p, words.T(refusedAlias))
		return
	case y.Anchor != "":
		d.note(p, words.T(refusedAnchor))
	case y.Style&yaml.TaggedStyle != 0:
		d.note(p, words.T(refusedTag))
	}
	for _, c := range y.Content {
		d.refuseMarks(c)
	}
}

// checkNames notes names that are no names and names given twice.
func (d *Doc) checkNames(y *yaml.Node) {
	if y.Kind == yaml.MappingNode {
		first := make(map[string]*yaml.Node, len(y.Content)/2)
		for i := 0; i+1 < len(y.Content); i += 2 {
			k := y.Content[i]
			p := Pos{d.name, k.Line, k.Column}
			switch {
			case k.Kind != yaml.ScalarNode:
				d.note(p, words.T("yaml.bracket-as-name"))
			case isEmpty(k):
				d.note(p, words.T("yaml.no-name"))
			case k.Value == "<<" && k.Style == 0:
				d.note(p, words.T("yaml.merge"))
			default:
				if f, twice := first[k.Value]; twice {
					d.note(p, words.T("yaml.twice", words.Args{"field": shown(k.Value), "line": words.Whole(f.Line), "column": words.Whole(f.Column)}))
				} else {
					first[k.Value] = k
				}
			}
		}
	}
	for _, c := range y.Content {
		d.checkNames(c)
	}
}
