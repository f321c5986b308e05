package drillfile

import (
	"errors"
	"slices"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// Course is drills in order.
type Course struct {
	// Code is its word in logbooks, Name what it is called, About what it is for.
	Code, Name, About string
	// Drills are code words of drills; a drill stands in a file CODE.yaml beside the course, or is a shipped one.
	Drills []string
	// Chapters are the parts of the course in order; each of Drills is in one of them, and none has any where there are no chapters.
	Chapters []Chapter
	// Unfit are those of Drills that name gestures or menu items which are not known; only a shipped course can have any.
	Unfit []string

	at []yamldoc.Pos // where each is named
}

// Chapter is a part of a course.
type Chapter struct {
	// Name is what it is called, Drills its drills in order.
	Name   string
	Drills []string
}

// mostChapters is the most chapters of a course (ours).
const mostChapters = 20

// mostDrills is the most drills of a course (ours).
const mostDrills = 200

// ParseCourse reads a course file, as Parse does a drill. Beside an error stands what could be read of the course, nil where that is nothing: so its
// drills can be looked at all the same.
func ParseCourse(name string, data []byte) (*Course, error) {
	doc, err := yamldoc.ParseAs("course", name, data)
	if err != nil {
		return nil, err
	}
	c := &Course{}
	m := doc.Root().Map("drill-file.course")
	kind, _ := m.Need("propsoff").Word(CourseKind, bareCourse)
	c.Code = code(m.Need("code"))
	c.Name = text(m.Need("name"))
	c.About = text(m.Need("about"))
	seen := map[string]int{}
	if kind == bareCourse {
		c.drills(m.Need("drills"), seen)
	} else {
		c.chapters(m.Need("chapters"), seen)
	}
	m.Done()
	return c, doc.Err()
}

// chapters reads the parts of a course: each a name and its drills.
func (c *Course) chapters(n yamldoc.Node, seen map[string]int) {
	list, _ := n.ListOf(1, mostChapters)
	for _, one := range list {
		m := one.Map("drill-file.chapter")
		if !one.IsMap() {
			continue
		}
		from := len(c.Drills)
		name := text(m.Need("name"))
		c.drills(m.Need("drills"), seen)
		m.Done()
		c.Chapters = append(c.Chapters, Chapter{Name: name, Drills: slices.Clone(c.Drills[from:])})
	}
}

// drills reads a list of code words of drills.
func (c *Course) drills(n yamldoc.Node, seen map[string]int) {
	list, _ := n.ListOf(1, mostDrills)
	for _, n := range list {
		word := code(n)
		if line := seen[word]; line > 0 {
			n.Wrong("drill-file.drill-twice", words.Args{"drill": words.Quote(word), "line": words.Whole(line)})
			continue
		}
		if !isCode(word) {
			continue
		}
		seen[word] = n.Pos().Line
		c.Drills, c.at = append(c.Drills, word), append(c.at, n.Pos())
	}
}

// Shipped reads a shipped course and its drills; behind its last come the shipped drills that no shipped course names, so that a new drill
// is one file. Those that name gestures or menu items which are not known are left out and listed in the course's Unfit: with gestures of one's
// own one still gets the rest. It fails where there is no such course.
func Shipped(course string, known Known) (*Course, []*Drill, error) {
	name, data, ok := assets.Course(course)
	if !ok {
		return nil, nil, words.Wrong("drill-file.no-shipped", words.Args{"course": words.Typed(course)})
	}
	c, err := ParseCourse(name, data)
	if err != nil {
		return nil, nil, err
	}
	if err := c.addUnnamed(); err != nil {
		return nil, nil, err
	}
	all := c.Drills
	var drills []*Drill
	var why []error
	for i, word := range all {
		one := Course{Drills: all[i : i+1], at: c.at[i : i+1]}
		read, err := one.Read(known, assets.Drill)
		if err != nil {
			c.Unfit = append(c.Unfit, word)
			why = append(why, err)
			continue
		}
		drills = append(drills, read...)
	}
	if len(drills) == 0 {
		return nil, nil, errors.Join(why...)
	}
	return c, drills, nil
}

// addUnnamed puts the shipped drills that no shipped course names behind those of this one.
func (c *Course) addUnnamed() error {
	named := map[string]bool{}
	for _, course := range assets.Courses() {
		name, data, _ := assets.Course(course)
		other, err := ParseCourse(name, data)
		if err != nil {
			return err
		}
		for _, word := range other.Drills {
			named[word] = true
		}
	}
	for _, word := range assets.Drills() {
		if !named[word] {
			file, _, _ := assets.Drill(word)
			c.Drills, c.at = append(c.Drills, word), append(c.at, yamldoc.Pos{File: file, Line: 1, Col: 1})
			if n := len(c.Chapters); n > 0 {
				c.Chapters[n-1].Drills = append(c.Chapters[n-1].Drills, word)
			}
		}
	}
	return nil
}

// Read reads the drills of a course, each found by its code word. The error holds what is wrong with any of them, and names those that
// are not found.
func (c *Course) Read(known Known, find func(code string) (name string, data []byte, ok bool)) ([]*Drill, error) {
	var out []*Drill
	var all []error
	for i, word := range c.Drills {
		at := c.at[i]
		name, data, ok := find(word)
		if !ok {
			all = append(all, words.Wrong("drill-file.no-drill", words.Args{"drill": words.Quote(word)}).At(at.File, at.Line, at.Col))
			continue
		}
		d, err := Parse(name, data, known)
		if err != nil {
			all = append(all, err)
			continue
		}
		if d.Config.Code != word {
			args := words.Args{"file": words.Quote(name), "own": words.Quote(d.Config.Code), "drill": words.Quote(word)}
			all = append(all, words.Wrong("drill-file.drill-renamed", args).At(at.File, at.Line, at.Col))
			continue
		}
		out = append(out, d)
	}
	return out, errors.Join(all...)
}
