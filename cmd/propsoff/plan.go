package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"propsoff/assets"
	"propsoff/assets/door"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/script"
	"propsoff/input/take"
	"propsoff/sim"
)

// plan is what is to be run: a source, the craft it is run on, and what it is held against.
type plan struct {
	craft  *craft
	radio  *radio.File
	source input.Source
	name   string
	// last is the last tick, known once the source has ended.
	last func() int64
	// checker is that of a script, expects its expectations.
	checker *script.Checker
	expects []script.Expect
	// judge holds a take against its replay, nil for a script or another craft; parts are the parts of a take that follow the first.
	judge  *records.Judge
	parts  loop.Parts
	replay bool
	// start is how the practice begins, papers the files that it goes by; told are told of each part of a take that follows.
	start  loop.Start
	papers records.Papers
	told   []func(*records.Part)
	// note says what is to be known at the end, once the source has ended.
	note  func() string
	close []io.Closer
}

func (p *plan) Close() {
	for _, c := range p.close {
		_ = c.Close()
	}
}

// newPlan reads a script or a take: which of the two its first bytes tell.
func (w *world) newPlan(flags *shared, name string) (*plan, error) {
	f, err := w.door.Open(name, "script or take")
	if errors.Is(err, os.ErrNotExist) || err != nil && !fileExists(name) {
		if file, text, ok := assets.Script(name); ok {
			return w.planScript(flags, file, "", text)
		}
		return nil, badInput(withShipped(err, name))
	}
	if err != nil {
		return nil, badInput(err)
	}
	defer f.Close()
	head := make([]byte, len(takeMark))
	n, err := io.ReadFull(f, head)
	if err != nil && n == 0 && !errors.Is(err, io.EOF) {
		return nil, badInput(fmt.Errorf("%s: cannot be read: %w", name, err))
	}
	whole := io.MultiReader(bytes.NewReader(head[:n]), f)
	if string(head[:n]) == takeMark || n == 0 && filepath.Ext(name) == ".take" {
		open, err := opener(name, whole)
		if err != nil {
			return nil, badInput(err)
		}
		return w.planTake(flags, open)
	}
	if n > 0 && n < len(takeMark) && strings.HasPrefix(takeMark, string(head[:n])) { // no script is so short
		return nil, badInput(fmt.Errorf("%s: this is the beginning of a take that was cut off before its settings; nothing can be saved of it", name))
	}
	text, err := readText(whole, name)
	if err != nil {
		return nil, badInput(err)
	}
	return w.planScript(flags, name, filepath.Dir(name), text)
}

func fileExists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// withShipped adds the shipped script that was probably meant.
func withShipped(err error, name string) error {
	if near, ok := yamldoc.Near(name, assets.Scripts()); ok {
		return errors.New(err.Error() + "; did you mean the shipped script \"" + near + "\"?")
	}
	return err
}

func (w *world) planScript(flags *shared, file, dir string, text []byte) (*plan, error) {
	craftPath, craftDir, radioPath, radioDir := flags.craft, "", flags.radio, ""
	head := scriptHead(file, text)
	if craftPath == "" {
		craftPath, craftDir = head.craft, dir
	}
	if radioPath == "" {
		radioPath, radioDir = head.radio, dir
	}
	c, err := w.loadCraft(craftPath, craftDir)
	if err != nil {
		return nil, asked(err, flags.craft, head.craftAt, "its craft")
	}
	r, err := w.loadRadio(radioPath, radioDir, c)
	if err != nil {
		return nil, asked(err, flags.radio, head.radioAt, "its radio file")
	}
	gesturePath, gestureDir := flags.gestures, ""
	if gesturePath == "" {
		gesturePath, gestureDir = head.gestures, dir
	}
	cfg := c.Config()
	g, err := w.loadGestures(gesturePath, gestureDir, false, cfg.SlotTicks) // never the pilot's own: a script plays alike everywhere
	if err != nil {
		return nil, asked(err, flags.gestures, head.gesturesAt, "its gesture file")
	}
	c.learn(g)
	s, err := script.Parse(file, text, c.names)
	if err != nil {
		return nil, badInput(err)
	}
	p := &plan{
		craft: c, radio: r, source: s.Source(), name: s.Title(), expects: s.Expectations(), checker: s.NewChecker(),
		last: func() int64 { return s.End() / 1000 }, note: func() string { return "" }, papers: papersOf(c).WithRadio(r, nil),
	}
	p.start = loop.Start{Craft: c.Config(), Note: p.name}
	return p, nil
}

// head is what must be known of a script before its words can be resolved.
type head struct {
	craft, radio, gestures       string
	craftAt, radioAt, gesturesAt yamldoc.Pos
}

// asked puts the place of the script that asks for a file before what is wrong with that file, where no flag names the
// file. What is wrong within the file has a place of its own.
func asked(err error, flag string, at yamldoc.Pos, what string) error {
	var within yamldoc.Errors
	if flag != "" || errors.As(err, &within) {
		return err
	}
	return badInput(fmt.Errorf("%s: %s: %w", at, what, err))
}

// scriptHead reads a script's craft and radio. What is wrong in the file script.Parse will say.
func scriptHead(file string, text []byte) head {
	doc, err := yamldoc.Parse(file, text)
	if err != nil || !doc.Root().IsMap() {
		return head{}
	}
	m := doc.Root().Map("script")
	var h head
	craft, radio, gestures := m.Opt("craft"), m.Opt("radio-file"), m.Opt("gestures")
	h.gestures, _ = gestures.Text()
	h.gesturesAt = gestures.Pos()
	h.craft, _ = craft.Text()
	h.radio, _ = radio.Text()
	h.craftAt, h.radioAt = craft.Pos(), radio.Pos()
	return h
}

// streamedMost is the longest take, in bytes, that is read from a pipe: it is read more than once, so a pipe's is kept in memory.
const streamedMost = 64 << 20

// opener opens a take as often as it is asked to: an ordinary file by its name, and of a pipe what is read of it, whole.
func opener(name string, whole io.Reader) (func() (*take.Reader, error), error) {
	if st, err := os.Stat(name); err == nil && st.Mode().IsRegular() && name != door.Dash {
		return func() (*take.Reader, error) { return take.Open(name) }, nil
	}
	kept, err := door.ReadAll(whole, streamedMost)
	switch {
	case errors.Is(err, door.ErrTooLong):
		return nil, fmt.Errorf("%s: a take of more than %d MiB is read from a file only; keep it in one", name, streamedMost>>20)
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	return func() (*take.Reader, error) { return take.NewReader(bytes.NewReader(kept), name) }, nil
}

func (w *world) planTake(flags *shared, open func() (*take.Reader, error)) (*plan, error) {
	r, err := open()
	if err != nil {
		return nil, badInput(err)
	}
	p := &plan{name: r.Name(), replay: true, close: []io.Closer{r}}
	if err := p.fromTake(w, flags, r, open); err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

func (p *plan) fromTake(w *world, flags *shared, r *take.Reader, open func() (*take.Reader, error)) error {
	read := func(s *take.Settings) (*records.Part, error) { return w.readPart(flags, r.Name(), s) }
	s := r.Settings()
	first, err := read(&s)
	if err != nil {
		return err
	}
	p.takeUp(first)
	p.start = *first.Start()
	if flags.radio != "" {
		f, err := w.loadRadio(flags.radio, "", p.craft)
		if err != nil {
			return err
		}
		p.papers = p.papers.WithRadio(f, nil)
	}
	p.note = func() string {
		switch t := r.Torn(); {
		case t != nil:
			return t.String()
		case !r.Closed():
			return "The recording was not ended cleanly; what was written is whole."
		case flags.craft != "":
			return "Run on another craft, so nothing was compared."
		case flags.gestures != "":
			return "Run with other gestures, so nothing was compared."
		}
		return ""
	}
	if flags.craft == "" && flags.gestures == "" {
		if p.judge, err = records.NewJudge(open); err != nil {
			return badInput(err)
		}
		p.close = append(p.close, p.judge)
	}
	player := records.NewPlayer(r, read)
	player.Begins = func(part *records.Part) {
		p.takeUp(part)
		for _, f := range p.told {
			f(part)
		}
	}
	p.source, p.parts, p.last = player, player, r.Tick
	return nil
}

// takeUp makes a part of a take the one that is run.
func (p *plan) takeUp(part *records.Part) {
	p.craft = newCraft(part.CraftName, part.Craft)
	if part.Gestures != nil {
		p.craft.learn(&gestureFile{part.Gestures, part.GesturesName, part.GesturesName == shippedGestures})
	}
	p.papers = part.Papers
}

// readPart reads a part of a take, with the craft and the gestures of the flags where they name others.
func (w *world) readPart(flags *shared, name string, s *take.Settings) (*records.Part, error) {
	if err := records.CheckModel(name, s); err != nil {
		return nil, badInput(err)
	}
	part := *s
	if flags.craft != "" { // a file of today
		c, err := w.loadCraft(flags.craft, "")
		if err != nil {
			return nil, err
		}
		part.Model, part.CraftName, part.CraftText, part.CraftFilled = sim.Model, c.Name, string(c.Text), ""
	}
	if flags.gestures != "" {
		cfg := sim.Default() // the craft's own slots count when the part is read
		g, err := w.loadGestures(flags.gestures, "", false, cfg.SlotTicks)
		if err != nil {
			return nil, err
		}
		part.GesturesName, part.GesturesText, part.GesturesFilled = g.name, string(g.Text), ""
	}
	read, err := records.Read(name, &part)
	switch {
	case errors.Is(err, records.ErrNoCraft):
		return nil, badInput(errors.New(name + ": the take carries no craft file; give one by --craft FILE"))
	case err != nil:
		return nil, badInput(err)
	}
	return read, nil
}

// record begins the take of --record; nil where none is asked for.
func (p *plan) record(w *world, path string) (*records.Recorder, error) {
	rec, err := w.beginTake(path, p.papers, &p.start)
	if rec != nil {
		p.onPart(func(part *records.Part) { rec.Use(part.Papers) })
	}
	return rec, err
}

// onPart has f told of each part of a take that follows the first, before it begins.
func (p *plan) onPart(f func(*records.Part)) { p.told = append(p.told, f) }
