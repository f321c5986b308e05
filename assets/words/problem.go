package words

import (
	"cmp"
	"io/fs"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"syscall"
)

// Problem is an error that a person is told of: what is wrong and what to do about it, and where. Readers of files make it; whoever shows
// it asks a Book for the sentence. It is comparable by pointer only.
type Problem struct {
	// Text says what is wrong, and what to do.
	Text Text
	// File is what was read, empty for none; Line and Column count from 1, 0 for none. A column is counted in characters, not bytes.
	File         string
	Line, Column int
	// Cause is the error behind it, nil for none.
	Cause error
}

// Wrong is an error that says a message.
func Wrong(id ID, args ...Args) *Problem { return &Problem{Text: T(id, args...)} }

// Problem is a text as an error that says it.
func (t Text) Problem() *Problem { return &Problem{Text: t} }

// Within is an error that says another one with a file before it; errors.Is and errors.As find the other.
func Within(file string, err error) *Problem {
	return &Problem{Text: Error(err), File: file, Cause: err}
}

// In gives it a file.
func (p *Problem) In(file string) *Problem { p.File = file; return p }

// At gives it a place in a file: line and column from 1, 0 for none.
func (p *Problem) At(file string, line, column int) *Problem {
	p.File, p.Line, p.Column = file, line, column
	return p
}

// Because gives it the error behind it, for errors.Is and errors.As; it is not said.
func (p *Problem) Because(cause error) *Problem { p.Cause = cause; return p }

// Error is the sentence in English, with its place: for logs, tests and whoever does not ask a Book.
func (p *Problem) Error() string { return English().problem(p) }

// Unwrap gives the error behind it, nil for none.
func (p *Problem) Unwrap() error { return p.Cause }

// place is where a problem is, as compilers write it: "file:line:column: ".
func (p *Problem) place() string {
	s := p.File
	for _, n := range [...]int{p.Line, p.Column} {
		if n > 0 {
			if s != "" {
				s += ":"
			}
			s += strconv.Itoa(n)
		}
	}
	if s != "" {
		s += ": "
	}
	return s
}

func (b *Book) problem(p *Problem) string { return p.place() + b.Say(p.Text) }

// Problems is everything that was found wrong in one file.
type Problems []*Problem

// mostShown is how many problems are written out; a file that is wholly wrong should not push its first line off the screen.
const mostShown = 20

// Sorted gives a copy in the order of the file, each problem once. A nil among them is one that was taken back.
func (ps Problems) Sorted() Problems {
	out := slices.DeleteFunc(slices.Clone(ps), func(p *Problem) bool { return p == nil })
	slices.SortStableFunc(out, func(a, b *Problem) int { return cmp.Or(a.Line-b.Line, a.Column-b.Column) })
	return slices.CompactFunc(out, func(a, b *Problem) bool {
		return a.File == b.File && a.Line == b.Line && a.Column == b.Column && reflect.DeepEqual(a.Text, b.Text)
	})
}

// Err is the problems, sorted, as an error; nil where there are none.
func (ps Problems) Err() error {
	if sorted := ps.Sorted(); len(sorted) > 0 {
		return sorted
	}
	return nil
}

// Error gives one line in English for each problem, at most 20, then "and N more".
func (ps Problems) Error() string { return English().problems(ps) }

// Unwrap lets errors.As find the first Problem.
func (ps Problems) Unwrap() []error {
	out := make([]error, len(ps))
	for i, p := range ps {
		out[i] = p
	}
	return out
}

func (b *Book) problems(ps Problems) string {
	shown := ps[:min(len(ps), mostShown)]
	lines := make([]string, 0, len(shown)+1)
	for _, p := range shown {
		lines = append(lines, b.problem(p))
	}
	if more := len(ps) - len(shown); more > 0 {
		lines = append(lines, b.Say(T("list.more-problems", Args{"n": Count(more)})))
	}
	return strings.Join(lines, "\n")
}

// told is an error of its own type that can be said: it gives itself as a Problem.
type told interface{ Problem() *Problem }

// Error says an error: problems in this language with their places, one line each where several are joined. What the file system
// says is said too; another error that is no Problem, and gives itself as none, stands as it is.
func (b *Book) Error(err error) string {
	switch e := err.(type) {
	case nil:
		return ""
	case *Problem:
		return b.problem(e)
	case Problems:
		return b.problems(e)
	case told:
		return b.problem(e.Problem())
	case *fs.PathError:
		return e.Op + " " + e.Path + ": " + b.Error(e.Err)
	case syscall.Errno:
		if id := system[e]; id != "" {
			return b.Say(T(id))
		}
	case interface{ Unwrap() []error }:
		var lines []string
		for _, one := range e.Unwrap() {
			lines = append(lines, b.Error(one))
		}
		return strings.Join(lines, "\n")
	}
	return err.Error()
}
