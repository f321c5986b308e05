package radio

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/input"
)

// Known is what is known while a radio file is read; each may be nil. With Info the axis and button numbers are checked
// against the device, with Names two jobs on one channel are found.
type Known struct {
	Info  *input.Info
	Names *input.Names
}

// longestText is the longest name, serial number or port that is read from a file, in bytes (ours; a USB string holds
// 126 characters).
const longestText = 512

// Parse reads a radio file. name stands before each message. The error is a words.Problems with everything that was
// found wrong, each `file:line:col: what, and what to do`; the File is then not to be used.
func Parse(name string, data []byte, known Known) (File, error) {
	doc, err := yamldoc.ParseAs("radio", name, data)
	if err != nil {
		return File{}, err
	}
	p := parser{places: map[place]yamldoc.Node{}}
	top := doc.Root().Map("radio.file")
	if !readVersion(top) {
		return File{}, doc.Err()
	}
	p.file.StickMode = 2
	if d, ok := top.Field("device"); ok {
		p.device(d.Map("radio.device"))
	}
	if n, ok := top.Field("stick-mode"); ok {
		if v, ok := n.Int(1, 4); ok {
			p.file.StickMode = v
		}
	}
	if n, ok := top.Field("given"); ok {
		p.file.Given = readYes(n)
	}
	controls := top.Need("controls")
	p.places[place{-1, "controls"}] = controls
	m := controls.Map("radio.controls")
	for key, value := range m.Rest() {
		p.control(key, value)
	}
	m.Done()
	top.Done()
	p.join()

	// What could not be read leaves holes; only what was read whole is checked for its meaning, so that one slip gives
	// one message.
	for _, f := range check(&p.file, known.Info, known.Names) {
		if f.control >= 0 && p.broken[f.control] && f.part == "" {
			continue
		}
		n, ok := p.places[place{f.control, f.part}]
		if !ok {
			n = p.places[place{f.control, ""}]
		}
		if f.part == "controls" && (!n.IsMap() || slices.Contains(p.misspelt, f.missing)) {
			continue
		}
		n.Wrong(f.id, f.args)
	}
	if err := doc.Err(); err != nil {
		return File{}, err
	}
	return p.file, nil
}

func readVersion(top *yamldoc.Map) bool {
	n := top.Need("propsoff")
	text, ok := n.Text()
	want := "radio " + strconv.Itoa(Version)
	switch {
	case !ok:
		return false
	case text == want:
		return true
	case !strings.HasPrefix(text, "radio "):
		n.Wrong("radio.no-radio-file", words.Args{"text": words.Quote(text), "wanted": words.Quote(want)})
	default:
		n.Wrong("radio.other-version", words.Args{"text": words.Quote(text), "wanted": words.Quote(want)})
	}
	return false
}

// place is a control's index (-1: the file) and a part of it, as in fault.
type place struct {
	control int
	part    string
}

type parser struct {
	file     File
	places   map[place]yamldoc.Node
	broken   map[int]bool
	misspelt []string // jobs that are there under a name that is near to theirs
}

func (p *parser) device(m *yamldoc.Map) {
	text := func(field string) string {
		n, ok := m.Field(field)
		if !ok {
			return ""
		}
		s, _ := n.Text()
		if len(s) > longestText {
			n.Wrong("radio.text-long", words.Args{"most": words.Whole(longestText)})
			return ""
		}
		return s
	}
	number := func(field string) uint16 {
		n, ok := m.Field(field)
		if !ok {
			return 0
		}
		s, ok := n.Text()
		if !ok {
			return 0
		}
		v, err := strconv.ParseUint(s, 16, 16)
		if err != nil || len(s) != 4 {
			n.Wrong("radio.no-usb-number", words.Args{"text": words.Quote(s)})
			return 0
		}
		return uint16(v)
	}
	d := &p.file.Device
	d.Name = text("name")
	d.Vendor, d.Product = number("vendor"), number("product")
	d.Serial, d.Port = text("serial"), text("port")
	m.Done()
}

func (p *parser) control(key, value yamldoc.Node) {
	job, ok := key.Text()
	if !ok {
		return
	}
	i := len(p.file.Controls)
	c := Control{Job: job}
	p.places[place{i, ""}] = key
	if _, near, _ := channelJob(job); !near && !knownJob(job, nil) {
		if w, ok := yamldoc.Near(job, Jobs()); ok {
			p.misspelt = append(p.misspelt, w)
		}
	}
	m := value.Map("radio.control")
	form, ok := p.form(i, value, m, &c)
	isAxis := form == "axis"
	scale, hasScale := m.Field("scale")
	reach, hasReach := m.Field("reach")
	if hasScale && !isAxis && ok {
		scale.Wrong("radio.scale-of-buttons")
	}
	if hasReach && !isAxis && ok {
		reach.Wrong("radio.reach-of-buttons")
	}
	if hasScale && isAxis {
		p.places[place{i, "scale"}] = scale
		readScale(scale, &c)
	}
	if hasReach && isAxis {
		p.places[place{i, "reach"}] = reach
		c.Reach = readReach(reach)
	}
	if form != "moves-with" { // else all of it is as the other control has it, and nothing may be said again
		p.findings(i, m, &c, isAxis || !ok)
	}
	m.Done()
	if !ok {
		// The job stays, so that it is not called missing as well, with nothing that could clash.
		if p.broken == nil {
			p.broken = map[int]bool{}
		}
		p.broken[i] = true
		c = Control{Job: job}
	}
	p.file.Controls = append(p.file.Controls, c)
}

// form reads what carries a job, and gives the field that says it: the first of several. It reports whether that could be read.
func (p *parser) form(i int, value yamldoc.Node, m *yamldoc.Map, c *Control) (form string, ok bool) {
	var said yamldoc.Node
	count := 0
	for _, name := range [...]string{"axis", "button", "buttons", "moves-with"} {
		n, is := m.Field(name)
		if !is {
			continue
		}
		if count++; count == 1 {
			form, said = name, n
		}
	}
	turned, isTurned := m.Field("turned")
	ok = value.IsMap()
	if count > 1 {
		value.Wrong("radio.several-forms", words.Args{"job": words.Quote(c.Job)})
		return "several", false
	}
	if form != "buttons" && form != "" {
		p.places[place{i, form}] = said
	}
	switch form {
	case "axis":
		c.Form = Axis
		c.Axis, ok = counted(said, input.MaxAxes)
	case "button":
		c.Form = Button
		var b int
		b, ok = counted(said, input.MaxButtons)
		c.Buttons = []int{b}
	case "buttons":
		c.Form = Row
		ok = p.row(i, said, c)
	case "moves-with":
		c.With, ok = said.Text()
		c.Turned = isTurned && readYes(turned)
		return form, ok
	}
	if isTurned && ok {
		turned.Wrong("radio.turned-alone")
	}
	return form, ok
}

func counted(n yamldoc.Node, most int) (int, bool) {
	v, ok := n.Int(1, most)
	return v - 1, ok
}

func (p *parser) row(i int, n yamldoc.Node, c *Control) bool {
	items, ok := n.ListOf(2, MostPositions)
	p.places[place{i, "buttons"}] = n
	for k, item := range items {
		p.places[place{i, fmt.Sprintf("buttons/%d", k)}] = item
		if item.IsScalar() && !item.StartsNumber() {
			if word, _ := item.Text(); word != "none" {
				item.Wrong("radio.no-button", words.Args{"word": words.Quote(word)})
				ok = false
			}
			c.Buttons = append(c.Buttons, None)
			continue
		}
		b, is := counted(item, input.MaxButtons)
		ok = ok && is
		c.Buttons = append(c.Buttons, b)
	}
	return ok
}

func readScale(n yamldoc.Node, c *Control) {
	if n.IsScalar() {
		_, c.Backwards = n.Word("backwards")
		return
	}
	m := n.Map("radio.scale")
	var s Scale
	all := true
	for _, point := range []struct {
		name string
		to   *Half
	}{{"988", &s.Low}, {"1500", &s.Middle}, {"2012", &s.High}} {
		v, ok := m.Need(point.name).Fixed("", 2, -int64(farthest), int64(farthest))
		*point.to = Half(v)
		all = all && ok
	}
	m.Done()
	if all {
		c.Scale = &s
	}
}

func readReach(n yamldoc.Node) *Reach {
	m := n.Map("radio.reach")
	var r Reach
	all := true
	for _, point := range []struct {
		name string
		to   *int32
	}{{"low", &r.Low}, {"rest", &r.Rest}, {"high", &r.High}} {
		v, ok := m.Need(point.name).Int(-1<<31, 1<<31-1)
		*point.to = int32(v)
		all = all && ok
	}
	m.Done()
	if !all {
		return nil
	}
	return &r
}
