// Package drillfile is the drill file and the course file: a drill as data, read strictly from YAML.
package drillfile

import (
	"fmt"
	"regexp"
	"slices"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures"
	"propsoff.example/gestures/menu"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/pulse"
)

// Kind and CourseKind are what the first line of each such file says: what it is, and its version. A course file of version 1 has no chapters and is read for
// ever.
const (
	Kind       = "drill 1"
	CourseKind = "course 2"
	// bareCourse is what a course file says that has no chapters.
	bareCourse = "course 1"
)

// Known is what a drill may name that stands in another file: gestures and menus, nil for none.
type Known struct {
	Gestures *gestures.Config
	Menus    *menu.Config
}

// Drill is one drill file: what the engine runs, and the words that a person reads.
type Drill struct {
	Config drill.Config
	// Name is what it is called, About what it is for, Caution what to beware of; each is empty where the file has none.
	// Source says where what it teaches comes from; empty where the file does not say.
	Name, About, Caution, Source string
	// Cases are the words of Config.Cases, in the same order.
	Cases []Words
}

// Flown tells whether a drill is flown: then the craft must be seen.
func (d *Drill) Flown() bool {
	return slices.ContainsFunc(d.Config.Cases, func(c drill.Case) bool { return c.Flown() })
}

// Words are those of one case. A text that the file does not give is empty.
type Words struct {
	// Say, Sound and Picture are the cue; Sounds and Pictures list the names that the last two may have.
	Say, Sound, Picture string
	// Motor is the motor that turns by itself in the picture; Motor.Place is empty where none does.
	Motor Motor
	// Before is what each step of preparation asks for.
	Before []string
	// Choices are the answers, in the order of the file, Codes their code words.
	Choices, Codes []string
	// Wants and Nevers say what must and what must not follow.
	Wants, Nevers []string
	// After is what is said when the try is over.
	After string
}

// Motor is a motor that turns by itself in a picture of the craft seen from above: at its Place, by the words of motors, clockwise or not. Nose is how
// many quarter turns to the right the craft is turned, its nose away from the pupil where it is 0.
type Motor struct {
	Place     string
	Clockwise bool
	Nose      int
}

// Sounds are the names of the sounds that a cue may give.
func Sounds() []string { return []string{"none", "alarm", "call"} }

// Pictures are the names of the pictures that a cue may show.
func Pictures() []string {
	return []string{"none", "alarm", "sticks", "arm-switch", "mode-switch", "craft", "motors", "propellers", "link", "pack", "menu", "list"}
}

// The limits of times (ours).
const (
	mostWithin = 10 * time.Minute
	mostWait   = time.Minute
	mostAfter  = time.Minute
	mostFor    = time.Minute
)

// Parse reads a drill file, which messages call name. The error holds everything that is wrong, each fault with file:line:column and
// what to do (words.Problems).
func Parse(name string, data []byte, known Known) (*Drill, error) {
	doc, err := yamldoc.ParseAs("drill", name, data)
	if err != nil {
		return nil, err
	}
	d := decoder{d: &Drill{}, known: known}
	d.drill(doc.Root().Map("drill-file.drill"))
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return d.d, nil
}

// decoder walks one file.
type decoder struct {
	d     *Drill
	known Known
	top   *yamldoc.Map
}

var codeForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

// isCode tells whether a word can be a code word.
func isCode(s string) bool { return codeForm.MatchString(s) && len(s) <= 40 }

// code reads a code word: small letters, digits, hyphens.
func code(n yamldoc.Node) string {
	s, ok := n.Text()
	if ok && !isCode(s) {
		n.Wrong("drill-file.no-code", words.Args{"text": words.Quote(fmt.Sprintf("%.40s", s))})
	}
	return s
}

// atMost are the values of a message about too many things.
func atMost(n, most int) words.Args {
	return words.Args{"n": words.Whole(n), "most": words.Whole(most)}
}

// text reads a text that may be left out, but not be empty.
func text(n yamldoc.Node) string {
	s, ok := n.Text()
	if ok && len(s) > 600 {
		n.Wrong("drill-file.text-long")
	}
	return s
}

// sections are the parts of a drill that a case may give in place of the drill's own.
func sections() []string {
	return []string{"craft", "bench", "before", "cue", "wait", "with-cue", "next-pack", "choices", "keep-order", "mark", "follow", "never", "after"}
}

func (d *decoder) drill(m *yamldoc.Map) {
	d.top = m
	m.Need("propsoff").Word(Kind)
	cfg := &d.d.Config
	cfg.Code = code(m.Need("code"))
	d.d.Name = text(m.Need("name"))
	d.d.About = text(m.Need("about"))
	d.d.Caution = text(m.Opt("caution"))
	d.d.Source = text(m.Opt("source"))
	d.times(m.Opt("hands"))
	d.runs(m.Need("runs"))
	if w, ok := m.Opt("order").Word("in-turn", "shuffled"); ok {
		cfg.Shuffled = w == "shuffled"
	}
	for _, s := range sections() {
		m.Opt(s) // known, whether or not a case takes it
	}
	cases, there := m.Field("cases")
	if !there {
		d.oneCase(nil, m.Node())
		m.Done()
		return
	}
	list, ok := cases.ListOf(1, drill.MostCases)
	for _, n := range list {
		c := n.Map("drill-file.case")
		if n.IsMap() && ok {
			d.oneCase(c, n)
			c.Done()
		}
	}
	m.Done()
}

// times reads how long hands must rest and stay, in a file that wants it otherwise.
func (d *decoder) times(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	t := &d.d.Config.Times
	m := n.Map("drill-file.hands")
	t.Rest, _ = millis(m.Opt("rest"), time.Millisecond, mostFor)
	t.Dwell, _ = millis(m.Opt("stay"), time.Millisecond, mostFor)
	if v, ok := m.Opt("still-within").Fixed("us", 1, 1, 500); ok {
		t.Band = pulse.Micros(int(v))
	}
	m.Done()
}

// runs reads how long a run is and when it counts as learned.
func (d *decoder) runs(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	cfg := &d.d.Config
	m := n.Map("drill-file.runs")
	tries, _ := m.Need("tries").Int(1, drill.MostTries)
	cfg.Tries = uint16(tries)
	row, inARow := m.Field("in-a-row")
	right, some := m.Field("right")
	switch {
	case inARow && some:
		right.Wrong("drill-file.row-and-right")
	case inARow:
		if v, ok := row.Int(1, drill.MostTries); ok {
			cfg.InARow = uint16(v)
			if v > tries && tries > 0 {
				row.Wrong("drill-file.row-beyond-tries", words.Args{"right": words.Whole(v), "tries": words.Whole(tries)})
			}
		}
	case some:
		of, _ := m.Need("of").Int(1, drill.MostTries)
		if v, ok := right.Int(1, drill.MostTries); ok {
			cfg.Right, cfg.Of = uint16(v), uint16(of)
			if of > 0 && v > of {
				right.Wrong("drill-file.right-beyond-of", words.Args{"right": words.Whole(v), "of": words.Whole(of)})
			}
			if of > tries && tries > 0 {
				m.Opt("of").Wrong("drill-file.of-beyond-tries", words.Args{"of": words.Whole(of), "tries": words.Whole(tries)})
			}
		}
	default:
		n.Wrong("drill-file.never-learned")
	}
	m.Done()
}

// oneCase reads a case: its own sections, and those of the drill where it has none. c is nil for a drill without cases.
func (d *decoder) oneCase(c *yamldoc.Map, at yamldoc.Node) {
	get := func(name string) yamldoc.Node {
		if c != nil {
			if n, ok := c.Field(name); ok {
				return n
			}
		}
		return d.top.Opt(name)
	}
	p := part{decoder: d, c: drill.Case{}, at: at}
	p.craft(d.top.Opt("craft"))
	b := newBench()
	p.bench(d.top.Opt("bench"), &b)
	if c != nil {
		p.craft(c.Opt("craft"))
		p.bench(c.Opt("bench"), &b)
	}
	p.c.Craft.OnAir, p.grounded = b.at != pulse.OnDesk, b.at == pulse.OnDesk || b.at == pulse.OnStand
	if p.c.Set = b.puts(); len(p.c.Set) > drill.MostPuts {
		at.Wrong("drill-file.many-puts", atMost(len(p.c.Set), drill.MostPuts))
	}
	p.cue(d.top.Opt("cue"))
	if c != nil {
		p.cue(c.Opt("cue"))
	}
	if p.w.Say == "" {
		at.Wrong("drill-file.no-cue")
	}
	p.choices(get("choices"))
	if w, ok := get("keep-order").Word("no", "yes"); ok {
		p.c.KeepOrder = w == "yes"
	}
	p.before(get("before"))
	p.wait(get("wait"))
	p.withCue(get("with-cue"))
	if v, ok := volts(get("next-pack")); ok {
		p.c.NextPack = v
	}
	if m := get("mark"); m.Exists() {
		p.mark(m, get("follow"), get("choices"))
	} else {
		p.follow(get("follow"))
	}
	p.never(get("never"))
	p.w.After = text(get("after"))
	d.d.Config.Cases = append(d.d.Config.Cases, p.c)
	d.d.Cases = append(d.d.Cases, p.w)
}
