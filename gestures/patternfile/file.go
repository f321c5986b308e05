// Package patternfile is gesture and menu files.
//
// A gesture file is YAML, read strictly. Its gestures are a group with one field for each, named by its code word:
//
//	propsoff: gestures 1
//	gestures:
//	  craft-menu:
//	    name: the craft's own menu
//	    parts:
//	      - {stand: {throttle: low, yaw: left, pitch: middle}, for: 300ms}
//	      - {stand: {throttle: low, yaw: middle, pitch: forward}, for: 300ms, within: 500ms}
//	    opens: craft-menu
//
// A stand is given by job (throttle, roll, pitch, yaw) or by physical stick (left, right: "down", "mid-height right"). Where it
// names throttle or pitch, it asks roll and yaw to be in the middle where it does not name them; where it names how high a physical
// stick is, it asks that stick's across to be in the middle. A chain has parts instead of a stand, each with within, the time
// limit from leaving the part before.
package patternfile

import (
	"math"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
)

// Kind is what the first line of each such file says: what it is, and its version.
const Kind = "gestures 1"

// File is one gesture file: its text, the patterns, and the menus that they open.
type File struct {
	Text     []byte
	Gestures gestures.Config
	Menus    menu.Config
}

// The limits of a file (ours), and the dwell of a gesture that gives none.
const (
	mostGestures  = gestures.MostTogether
	leastDwell    = 100 * time.Millisecond
	mostDwell     = 10 * time.Second
	leastWithin   = 100 * time.Millisecond
	mostWithin    = 20 * time.Second
	defaultDwell  = 600 * time.Millisecond
	longestName   = 60
	longestCode   = 40
	leastGap      = 20 // between the edges where a zone is entered and left, in tenths of a percent
	mostMiddle    = 450
	leastEnd      = 500
	mostEnd       = 950
	defaultEndIn  = 700
	defaultEndOut = 600
	defaultMidIn  = 250
	defaultMidOut = 350
)

// Parse reads a gesture file, which messages call name; the times in it are rounded up to slots of slotTicks ms. The error holds
// everything that is wrong, each fault with file:line:column and what to do (words.Problems).
func Parse(name string, data []byte, slotTicks uint16) (*File, error) {
	return ParseOf(math.MaxInt, name, data, slotTicks)
}

// ParseOf is Parse for a file that was written for a model of the bench, this one or an older one: what it leaves out becomes what that
// model had by default.
func ParseOf(model int, name string, data []byte, slotTicks uint16) (*File, error) {
	doc, err := yamldoc.ParseAs("gestures", name, data)
	if err != nil {
		return nil, err
	}
	d := decoder{f: &File{Text: data, Gestures: gestures.Default(slotTicks)}, ticks: max(int(slotTicks), 1), left: leftOut(model)}
	d.f.Gestures.SetEdges(d.left.endIn, d.left.endOut, d.left.midIn, d.left.midOut)
	m := doc.Root().Map("gesture-file.file")
	m.Need("propsoff").Word(Kind)
	d.edges(m.Opt("edges"))
	list := m.Opt("gestures")
	d.f.Menus = readMenus(m.Opt("menus"), slotTicks)
	d.gestures(list)
	m.Done()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return d.f, nil
}

// left is what stands for what a file leaves out: the edges in tenths of a percent, and how long a stand is held.
type left struct {
	endIn, endOut, midIn, midOut int
	dwell                        time.Duration
}

// leftOut is what stands for what files of a model leave out. An older model's stays what it was, whatever becomes of today's.
func leftOut(model int) left {
	if model <= 1 {
		return left{700, 600, 250, 350, 600 * time.Millisecond}
	}
	return left{defaultEndIn, defaultEndOut, defaultMidIn, defaultMidOut, defaultDwell}
}

// decoder walks one file.
type decoder struct {
	f     *File
	ticks int
	left  left
	codes []string
	nodes []yamldoc.Node
	with  []yamldoc.Node
}

func (d *decoder) edges(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("gesture-file.edges")
	pair := func(n yamldoc.Node, in, out, lo, hi int) (int, int) {
		if !n.Exists() {
			return in, out
		}
		p := n.Map("gesture-file.edge")
		if v, ok := p.Need("in").Fixed("%", 10, int64(lo), int64(hi)); ok {
			in = int(v)
		}
		if v, ok := p.Need("out").Fixed("%", 10, int64(lo), int64(hi)); ok {
			out = int(v)
		}
		p.Done()
		return in, out
	}
	ends, middle := m.Opt("ends"), m.Opt("middle")
	endIn, endOut := pair(ends, d.left.endIn, d.left.endOut, leastEnd, mostEnd)
	midIn, midOut := pair(middle, d.left.midIn, d.left.midOut, leastGap, mostMiddle)
	m.Done()
	if endIn-endOut < leastGap {
		ends.Wrong("gesture-file.end-trembles")
	}
	if midOut-midIn < leastGap {
		middle.Wrong("gesture-file.middle-trembles")
	}
	d.f.Gestures.SetEdges(endIn, endOut, midIn, midOut)
}

func (d *decoder) gestures(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("gesture-file.gestures")
	for key, value := range m.Rest() {
		code, ok := codeWord(key)
		if !ok {
			continue
		}
		if len(d.codes) == mostGestures {
			key.Wrong("gesture-file.many-gestures", words.Args{"most": words.Whole(mostGestures)})
			return
		}
		d.codes, d.nodes = append(d.codes, code), append(d.nodes, key)
		p := d.gesture(value)
		p.Code = code
		d.f.Gestures.Patterns = append(d.f.Gestures.Patterns, p)
	}
	for i, n := range d.with {
		d.together(i, n)
	}
	d.clashes()
}

// gesture reads one gesture; a pattern that is not whole has no parts.
func (d *decoder) gesture(n yamldoc.Node) gestures.Pattern {
	var p gestures.Pattern
	m := n.Map("gesture-file.gesture")
	name := m.Need("name")
	p.Name, _ = name.Text()
	if len([]rune(p.Name)) > longestName {
		name.Wrong("gesture-file.name-long", words.Args{"most": words.Whole(longestName)})
	}
	parts, chain := m.Field("parts")
	stand, single := m.Field("stand")
	switch {
	case chain && single:
		stand.Wrong("gesture-file.stand-and-parts")
	case chain:
		d.parts(&p, parts)
	case d.part(&p, m, 0):
		p.Count = 1
	}
	d.with = append(d.with, m.Opt("with"))
	d.opens(&p, m.Opt("opens"))
	m.Done()
	return p
}

func (d *decoder) parts(p *gestures.Pattern, n yamldoc.Node) {
	list, ok := n.ListOf(2, gestures.MostParts)
	if !ok {
		return
	}
	whole := true
	for i, one := range list {
		m := one.Map("gesture-file.part")
		whole = d.part(p, m, i) && whole
		m.Done()
	}
	if whole {
		p.Count = uint8(len(list))
	}
}

// part reads the fields of a part: stand, for and, from the second part on, within. It reports whether there is a stand.
func (d *decoder) part(p *gestures.Pattern, m *yamldoc.Map, i int) bool {
	var part gestures.Part
	n := m.Need("stand")
	physical, ok := readStand(n, &part.Zones)
	if i == 0 {
		p.Physical = physical
	}
	switch {
	case !ok:
	case physical != p.Physical:
		n.Wrong("gesture-file.parts-unlike")
	case i == 0 && atRest(physical, part.Zones):
		n.Wrong("gesture-file.at-rest")
	}
	part.Dwell = d.slots(m.Opt("for"), d.left.dwell, leastDwell, mostDwell)
	if i > 0 {
		part.Within = d.slots(m.Need("within"), d.left.dwell, leastWithin, mostWithin)
	} else if within := m.Opt("within"); within.Exists() {
		within.Wrong("gesture-file.within-first")
	}
	p.Parts[i] = part
	return ok
}

// slots reads a time and rounds it up to slots.
func (d *decoder) slots(n yamldoc.Node, t, lo, hi time.Duration) uint16 {
	if v, ok := n.Duration(lo, hi); ok {
		if t = v; t%time.Millisecond != 0 {
			n.Wrong("gesture-file.whole-millis", words.Args{"time": words.Quote(t.Round(time.Millisecond).String())})
		}
	}
	ms := int(t / time.Millisecond)
	return uint16(max((ms+d.ticks-1)/d.ticks, 1))
}

func (d *decoder) opens(p *gestures.Pattern, n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	if len(d.f.Menus.Menus) == 0 {
		n.Wrong("gesture-file.no-menus")
		return
	}
	codes := make([]string, len(d.f.Menus.Menus))
	for i := range codes {
		codes[i] = d.f.Menus.Menus[i].Code
	}
	if w, ok := n.Word(codes...); ok {
		for i, code := range codes {
			if code == w {
				p.Opens = uint8(i + 1)
			}
		}
	}
}

// together reads which gestures may be made together with gesture i. It counts on both sides.
func (d *decoder) together(i int, n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	g := d.f.Gestures.Patterns
	for _, one := range n.List() {
		w, ok := one.Word(d.codes...)
		if !ok {
			continue
		}
		for k, code := range d.codes {
			switch {
			case code != w:
			case k == i:
				one.Wrong("gesture-file.with-itself")
			case g[i].Opens > 0 && g[k].Opens > 0:
				one.Wrong("gesture-file.both-open", words.Args{"one": words.Quote(d.codes[i]), "other": words.Quote(w)})
			default:
				g[i].With |= 1 << k
				g[k].With |= 1 << i
			}
		}
	}
}

// clashes notes two gestures of which one can never be made, because the same sticks make the other.
func (d *decoder) clashes() {
	g := d.f.Gestures.Patterns
	for i := range g {
		for k := range i {
			a, b := &g[i], &g[k]
			if a.Count == 0 || a.Count != b.Count || a.Physical != b.Physical || a.With>>k&1 == 1 {
				continue
			}
			same := true
			for n := range int(a.Count) {
				same = same && a.Parts[n].Zones == b.Parts[n].Zones
			}
			if same {
				d.nodes[i].Wrong("gesture-file.same-sticks", words.Args{"one": words.Quote(a.Code), "other": words.Quote(b.Code)})
			}
		}
	}
}

// codeWord reads the code word of a gesture or menu; ok is false where it is not text. What is not a code word is noted.
func codeWord(n yamldoc.Node) (code string, ok bool) {
	code, ok = n.Text()
	if ok && !isCode(code) {
		n.Wrong("gesture-file.no-code", words.Args{"text": words.Typed(code), "most": words.Whole(longestCode)})
	}
	return code, ok
}

// isCode reports whether a word is made of small letters, digits and hyphens, a letter first.
func isCode(s string) bool {
	if s == "" || len(s) > longestCode || s[0] < 'a' || s[0] > 'z' || s[len(s)-1] == '-' {
		return false
	}
	for _, c := range s {
		if (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' {
			return false
		}
	}
	return true
}
