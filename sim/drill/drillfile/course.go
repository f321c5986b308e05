package drillfile

import (
	"errors"
	"fmt"

	"propsoff/assets"
	"propsoff/assets/yamldoc"
)

// Course is drills in order.
type Course struct {
	// Code is its word in logbooks, Name what it is called, About what it is for.
	Code, Name, About string
	// Drills are code words of drills; a drill stands in a file CODE.yaml beside the course, or is a shipped one.
	Drills []string
	// Unfit are those of Drills that name gestures or menu items that are not known; only a shipped course has some.
	Unfit []string

	at []yamldoc.Pos // where each is named
}

// mostDrills is the most drills of a course (ours).
const mostDrills = 200

// ParseCourse reads a course file, as Parse does a drill.
func ParseCourse(name string, data []byte) (*Course, error) {
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		return nil, err
	}
	c := &Course{}
	m := doc.Root().Map("course")
	m.Need("propsoff").Word(CourseKind)
	c.Code = code(m.Need("code"))
	c.Name = text(m.Need("name"))
	c.About = text(m.Need("about"))
	seen := map[string]int{}
	list, _ := m.Need("drills").ListOf(1, mostDrills)
	for _, n := range list {
		word := code(n)
		if line := seen[word]; line > 0 {
			n.Errorf("`%s` stands in line %d already: name each drill once", word, line)
		}
		seen[word] = n.Pos().Line
		c.Drills, c.at = append(c.Drills, word), append(c.at, n.Pos())
	}
	m.Done()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return c, nil
}

// Shipped reads a shipped course and its drills. Those that name gestures or menu items that are not known are left out and
// stand in Unfit of the course: whoever has gestures of his own still gets the rest.
func Shipped(course string, known Known) (*Course, []*Drill, error) {
	name, data, ok := assets.Course(course)
	if !ok {
		return nil, nil, fmt.Errorf("there is no shipped course %q", course)
	}
	c, err := ParseCourse(name, data)
	if err != nil {
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

// Read reads the drills of a course, each found by its code word. The error holds what is wrong with any of them.
func (c *Course) Read(known Known, find func(code string) (name string, data []byte, ok bool)) ([]*Drill, error) {
	var out []*Drill
	var all []error
	for i, word := range c.Drills {
		wrong := func(format string, args ...any) {
			p := c.at[i]
			all = append(all, yamldoc.Error{File: p.File, Line: p.Line, Col: p.Col, Msg: fmt.Sprintf(format, args...)})
		}
		name, data, ok := find(word)
		if !ok {
			wrong("there is no drill `%s`: put it beside the course as %s.yaml, or take it out", word, word)
			continue
		}
		d, err := Parse(name, data, known)
		if err != nil {
			all = append(all, err)
			continue
		}
		if d.Config.Code != word {
			wrong("the drill in %s calls itself `%s`: write `code: %s` there, or name the file %s.yaml", name, d.Config.Code, word, d.Config.Code)
			continue
		}
		out = append(out, d)
	}
	return out, errors.Join(all...)
}
