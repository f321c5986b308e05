package yamldoc

import (
	"bytes"
	"cmp"
	"slices"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// This file makes an edit's cuts and holds what came of them against what was asked for.

// finish makes the cuts and looks at what came of them: value is what must stand at path, the zero one for nothing.
func (e *edit) finish(path []string, value Inline) ([]byte, error) {
	slices.SortStableFunc(e.cuts, func(a, b cut) int { return cmp.Compare(a.from, b.from) })
	var out bytes.Buffer
	at, offsets := 0, runeOffsets(e.data)
	for _, c := range e.cuts {
		if offsets[c.from] < at {
			return nil, e.odd()
		}
		out.Write(e.data[at:offsets[c.from]])
		out.WriteString(c.text)
		at = offsets[c.to]
	}
	out.Write(e.data[at:])
	if !e.sound(out.Bytes(), path, value) {
		return nil, e.odd()
	}
	return out.Bytes(), nil
}

// runeOffsets gives for each rune of plainText's result, and for its end, where it begins in data.
func runeOffsets(data []byte) []int {
	out := make([]int, 0, len(data)+1)
	i := 0
	if bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}) {
		i = 3
	}
	for i < len(data) {
		out = append(out, i)
		if data[i] == '\r' && i+1 < len(data) && data[i+1] == '\n' {
			i += 2
			continue
		}
		_, n := utf8.DecodeRune(data[i:])
		i += n
	}
	return append(out, len(data))
}

// sound tells whether data is the old tree with just the change asked for, and no comment is lost.
func (e *edit) sound(data []byte, path []string, value Inline) bool {
	d, err := Parse(e.name, data)
	if err != nil || d.Err() != nil {
		return false
	}
	text, _ := plainText(data, Most)
	now := takeApart(text)
	whole := func(p *pieces) []string {
		r := p.remarks(stretch{0, len(p.src) + 1})
		slices.Sort(r)
		return r
	}
	if !slices.Equal(whole(now), whole(e.pieces)) {
		return false
	}
	was, _ := without(e.root.y, path)
	is, got := without(d.root, path)
	if value == (Inline{}) {
		return got == nil && alike(was, is)
	}
	want, bad := build(value.String())
	return bad == nil && got != nil && alike(was, is) && alike(want, got)
}

// without gives a copy of a tree that lacks the field at path, and the field's value. What is not there is not missed.
func without(y *yaml.Node, path []string) (rest, value *yaml.Node) {
	if y.Kind != yaml.MappingNode {
		return y, nil
	}
	out := *y
	out.Content = nil
	for i := 0; i+1 < len(y.Content); i += 2 {
		k, v := y.Content[i], y.Content[i+1]
		if k.Value == path[0] && len(path) == 1 {
			value = v
			continue
		}
		if k.Value == path[0] {
			v, value = without(v, path[1:])
		}
		out.Content = append(out.Content, k, v)
	}
	return &out, value
}

// alike tells whether two trees hold the same.
func alike(a, b *yaml.Node) bool {
	return a.Kind == b.Kind && a.Value == b.Value && isEmpty(a) == isEmpty(b) && slices.EqualFunc(a.Content, b.Content, alike)
}
