package propsoff_test

import (
	"fmt"
	"go/ast"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// unsaid are the exported names, by package, that have no doc yet or one that begins with another name. It may only shrink: a name that
// has its doc now, and one that is gone, must leave the list.
var unsaid = map[string]string{}

// Every exported constant, variable, type, function and method has a doc that begins with its name, after an article if need be. In a
// group one doc may speak for all: the group's own, or the one above that names what stands below it. A remark on the same line
// needs no name. A field may be plain from its struct's doc, but its own doc begins with no other field's name.
func TestDocsSayWhatTheyAreOf(t *testing.T) {
	seen := 0
	for dir, r := range rooms(t) {
		c := docs{owed: strings.Fields(unsaid[dir])}
		for _, f := range r.names {
			for _, d := range f.Decls {
				c.declared(d)
			}
		}
		seen += c.seen
		slices.Sort(c.bad)
		assert.Empty(t, c.bad, dir)
		assert.Empty(t, c.owed, "%s: these have their doc, or are gone: take them out of the list", dir)
	}
	assert.Greater(t, seen, 1500)
}

// docs looks at one package.
type docs struct {
	seen int
	owed []string // what the list still expects to be without a doc
	bad  []string
}

func (c *docs) declared(d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		of := ""
		if d.Recv != nil {
			of = receiver(d.Recv.List[0].Type) + "."
		}
		if of == "" || ast.IsExported(of) {
			c.over(of, []*ast.Ident{d.Name}, d.Doc)
		}
	case *ast.GenDecl:
		grouped, above := d.Lparen.IsValid(), ""
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				if s.Doc == nil && !grouped {
					s.Doc = d.Doc
				}
				c.over("", []*ast.Ident{s.Name}, s.Doc)
				c.members(s)
			case *ast.ValueSpec:
				if s.Doc == nil && !grouped {
					s.Doc = d.Doc
				}
				if s.Doc != nil {
					above = s.Doc.Text()
				} else if grouped && d.Doc != nil || s.Comment != nil || named(above, s.Names) {
					c.seen += len(s.Names)
					continue
				}
				c.over("", s.Names, s.Doc)
			}
		}
	}
}

// receiver is the name of a method's type.
func receiver(x ast.Expr) string {
	for {
		switch v := x.(type) {
		case *ast.StarExpr:
			x = v.X
		case *ast.IndexExpr:
			x = v.X
		case *ast.Ident:
			return v.Name
		default:
			return fmt.Sprintf("%T", x)
		}
	}
}

// members looks at the methods of an interface as at any other, and at the fields of a struct for a doc that begins with another's name.
func (c *docs) members(s *ast.TypeSpec) {
	if !s.Name.IsExported() {
		return
	}
	switch x := s.Type.(type) {
	case *ast.InterfaceType:
		for _, f := range x.Methods.List {
			c.over(s.Name.Name+".", f.Names, f.Doc)
		}
	case *ast.StructType:
		for i, f := range x.Fields.List {
			for j, other := range x.Fields.List {
				if f.Doc != nil && i != j && slices.ContainsFunc(other.Names, func(n *ast.Ident) bool { return n.IsExported() && begins(f.Doc.Text(), n.Name) }) && !begins(f.Doc.Text(), fieldName(f)) {
					c.fault(s.Name.Name+"."+fieldName(f), "begins with "+other.Names[0].Name)
				}
			}
		}
	}
}

func fieldName(f *ast.Field) string {
	if len(f.Names) == 0 {
		return receiver(f.Type)
	}
	return f.Names[0].Name
}

// over judges the doc that stands over some names.
func (c *docs) over(of string, names []*ast.Ident, doc *ast.CommentGroup) {
	var exported []*ast.Ident
	for _, n := range names {
		if n.IsExported() {
			exported = append(exported, n)
		}
	}
	c.seen += len(exported)
	switch {
	case len(exported) == 0:
	case doc.Text() == "":
		c.fault(of+exported[0].Name, "has no doc")
	case !slices.ContainsFunc(exported, func(n *ast.Ident) bool { return begins(doc.Text(), n.Name) }):
		first, _, _ := strings.Cut(doc.Text(), "\n")
		c.fault(of+exported[0].Name, "begins: "+first)
	}
}

func (c *docs) fault(name, what string) {
	if i := slices.Index(c.owed, name); i >= 0 {
		c.owed = slices.Delete(c.owed, i, i+1)
		return
	}
	c.bad = append(c.bad, name+" "+what)
}

func begins(doc, name string) bool {
	return regexp.MustCompile(`^((A|An|The) )?` + name + `\b`).MatchString(doc)
}

// named tells whether a doc names each of these.
func named(doc string, names []*ast.Ident) bool {
	for _, n := range names {
		if !regexp.MustCompile(`\b` + n.Name + `\b`).MatchString(doc) {
			return false
		}
	}
	return true
}
