package words

import (
	"errors"
	"strings"
	"text/template/parse"
	"unicode"
	"unicode/utf8"
)

// form is one form of a message, read once. A message asks for little of what templates can do (values, if, not, and, or, up, low): that little is done here,
// without reflection, by which the linker would have to keep every method of the program.
type form struct {
	tree *parse.ListNode
	err  error
}

// errBeyond: a message does something with a value that no message may.
var errBeyond = errors.New("beyond-a-message")

// functions are what a message may do with a value besides writing it out: up begins a sentence with it, low goes on with it.
var functions = map[string]any{"up": up, "low": low}

// known are the names that may stand at the beginning of {{…}}.
var known = map[string]any{"up": true, "low": true, "not": true, "and": true, "or": true}

// readForm reads a form of a message; nil for none.
func readForm(src string) *form {
	if src == "" {
		return nil
	}
	trees, err := parse.Parse("", src, "", "", known)
	if t := trees[""]; err == nil && t != nil {
		return &form{tree: t.Root}
	}
	return &form{err: err}
}

// say writes the form out, with values that are each a string or a bool.
func (f *form) say(values map[string]any) (string, error) {
	if f.err != nil {
		return "", f.err
	}
	var b strings.Builder
	err := write(&b, f.tree, values)
	return b.String(), err
}

func write(b *strings.Builder, list *parse.ListNode, values map[string]any) error {
	if list == nil {
		return nil
	}
	for _, n := range list.Nodes {
		switch n := n.(type) {
		case *parse.TextNode:
			b.Write(n.Text)
		case *parse.ActionNode:
			v, err := worth(n.Pipe, values)
			if err != nil {
				return err
			}
			s, isText := v.(string)
			if !isText {
				return errBeyond
			}
			b.WriteString(s)
		case *parse.IfNode:
			v, err := worth(n.Pipe, values)
			if err != nil {
				return err
			}
			then := n.ElseList
			if truth(v) {
				then = n.List
			}
			if err := write(b, then, values); err != nil {
				return err
			}
		default:
			return errBeyond
		}
	}
	return nil
}

// worth is what stands between {{ and }}, or between brackets there.
func worth(n parse.Node, values map[string]any) (any, error) {
	switch n := n.(type) {
	case *parse.PipeNode:
		if len(n.Cmds) != 1 || len(n.Decl) > 0 {
			return nil, errBeyond
		}
		if args := n.Cmds[0].Args; len(args) == 1 {
			return worth(args[0], values)
		}
		return done(n.Cmds[0].Args, values)
	case *parse.FieldNode:
		if v, ok := values[n.Ident[0]]; ok && len(n.Ident) == 1 {
			return v, nil
		}
		return nil, errors.New("no-value: " + n.Ident[0])
	}
	return nil, errBeyond
}

// done is what a function makes of its values. As in templates, and and or give the value that decides, and look at none behind it.
func done(args []parse.Node, values map[string]any) (v any, err error) {
	name, ok := args[0].(*parse.IdentifierNode)
	if !ok {
		return nil, errBeyond
	}
	for _, a := range args[1:] {
		if v, err = worth(a, values); err != nil {
			return nil, err
		}
		if name.Ident == "and" && !truth(v) || name.Ident == "or" && truth(v) {
			break
		}
	}
	switch s, isText := v.(string); {
	case name.Ident == "not" && len(args) == 2:
		return !truth(v), nil
	case name.Ident == "and", name.Ident == "or":
		return v, nil
	case name.Ident == "up" && isText && len(args) == 2:
		return up(s), nil
	case name.Ident == "low" && isText && len(args) == 2:
		return low(s), nil
	}
	return nil, errBeyond
}

func truth(v any) bool { return v == true || v != false && v != "" }

// up writes the first letter large.
func up(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// low writes the first letter small.
func low(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}
