// Package playback runs a pilot script or a take: what is to be run, step by step to its end, and what it is held against.
package playback

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// Plan is what is to be run: a source, the craft it is run on, and what it is held against.
type Plan struct {
	// Craft is that of the part under way, Radio the file that goes with it, nil for none.
	Craft *world.Craft
	Radio *radio.File
	// Source plays the script or the take, and Name is what it is called.
	Source input.Source
	Name   string
	// Last is the last tick, known once the source has ended.
	Last func() int64
	// Expects are the expectations of a script.
	Expects []script.Expect
	checker *script.Checker
	// Judge holds a take against its replay, nil for a script or another craft. A take is replayed (Replay); its other parts follow the first.
	Judge  *takes.Judge
	Replay bool
	parts  live.Parts
	stands func() (says, air bool)
	// Start is how the practice begins, Papers the files that it goes by.
	Start  live.Start
	Papers takes.Papers
	// Note says what is to be known at the end, once the source has ended; an empty Text for nothing.
	Note  func() words.Text
	told  []func(*takes.Part)
	kept  lesson.Keeper // the last seconds, for a wreck
	close []io.Closer
	book  *words.Book // that of the world that it is run in
}

// Close closes the files that are played from.
func (p *Plan) Close() {
	for _, c := range p.close {
		_ = c.Close()
	}
}

// New reads a script or a take: which of the two its first bytes tell.
func New(w *world.World, flags *world.Named, name string) (*Plan, error) {
	if _, _, ships := assets.Script(name); !ships {
		name = world.KeptTake(name)
	}
	f, err := w.Door.Open(name, "door.script-or-take")
	if errors.Is(err, os.ErrNotExist) || err != nil && !fileExists(name) {
		if file, text, ok := assets.Script(name); ok {
			return planScript(w, flags, file, "", text)
		}
		return nil, exit.BadInput(world.Meant(err, name, assets.Scripts()))
	}
	if err != nil {
		return nil, exit.BadInput(err)
	}
	defer f.Close()
	head := make([]byte, len(world.TakeMark))
	n, err := io.ReadFull(f, head)
	if err != nil && n == 0 && !errors.Is(err, io.EOF) {
		return nil, exit.BadInput(world.Unreadable(name, err))
	}
	whole := io.MultiReader(bytes.NewReader(head[:n]), f)
	if string(head[:n]) == world.TakeMark || n == 0 && filepath.Ext(name) == ".take" {
		open, err := opener(name, whole)
		if err != nil {
			return nil, exit.BadInput(err)
		}
		return planTake(w, flags, open)
	}
	if n > 0 && n < len(world.TakeMark) && strings.HasPrefix(world.TakeMark, string(head[:n])) { // no script is so short
		return nil, exit.BadInput(words.Wrong("play.cut-off").In(name))
	}
	text, err := world.ReadText(whole, name)
	if err != nil {
		return nil, exit.BadInput(err)
	}
	return planScript(w, flags, name, filepath.Dir(name), text)
}

func fileExists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func planScript(w *world.World, flags *world.Named, file, dir string, text []byte) (*Plan, error) {
	wants := wantsOf(file, dir, text)
	craft, radio, gestures := wants("craft", flags.Craft), wants("radio-file", flags.Radio), wants("gestures", flags.Gestures)
	c, err := w.LoadCraft(craft.path, craft.dir)
	if err != nil {
		return nil, craft.asked(err, "play.its-craft")
	}
	r, err := w.LoadRadio(radio.path, radio.dir, c)
	if err != nil {
		return nil, radio.asked(err, "play.its-radio")
	}
	cfg := c.Config()
	g, err := w.LoadGestures(gestures.path, gestures.dir, false, cfg.SlotTicks) // never the pilot's own: a script plays alike everywhere
	if err != nil {
		return nil, gestures.asked(err, "play.its-gestures")
	}
	c.TakeUp(g)
	s, err := script.Parse(file, text, c.Words)
	if err != nil {
		return nil, exit.BadInput(err)
	}
	p := &Plan{
		Craft: c, Radio: r, Source: s.Source(), Name: s.Title(), Expects: s.Expectations(), checker: s.NewChecker(),
		Last: func() int64 { return s.End() / 1000 }, Note: func() (none words.Text) { return none }, Papers: c.Papers().WithRadio(r, nil), book: w.Language(),
	}
	p.Start = live.Start{Craft: c.Config(), Note: p.Name}
	p.stands = func() (says, air bool) {
		readings, _ := s.Source().Poll(nil, s.End())
		return carried(readings)
	}
	return p, nil
}

// Stands tells whether what is played says on which bench the craft stands, and whether that is ever the air bench. A take says it always.
func (p *Plan) Stands() (says, air bool) { return p.stands() }

// carried tells whether readings carry the craft to a bench at all, and whether they carry it outside.
func carried(readings []pulse.Reading) (says, air bool) {
	for i := range readings {
		r := &readings[i]
		says = says || r.Kind == pulse.Air
		air = air || r.Kind == pulse.Air && r.Value != pulse.OnDesk
	}
	return says, air
}

// outside tells whether the craft of a take ever stands outside. A take that cannot be read to its end is played as far as it goes.
func outside(open func() (*take.Reader, error)) bool {
	r, err := open()
	if err != nil {
		return false
	}
	defer r.Close()
	_, air := carried(r.Settings().Stands)
	for !air {
		e, err := r.Next()
		if err != nil {
			return false
		}
		switch e.Kind {
		case take.Reading:
			_, air = carried([]pulse.Reading{e.Reading})
		case take.Part:
			_, air = carried(r.Settings().Stands)
		}
	}
	return true
}

// wanted is a file that a script is played with: the one of a flag, else what the script names, from where the script lies.
type wanted struct {
	path, dir string
	flagged   bool
	at        yamldoc.Pos // in the script
}

// wantsOf says which files a script of this text is played with, before its words can be resolved. What is wrong in it script.Parse will say.
func wantsOf(file, dir string, text []byte) func(key, flag string) wanted {
	doc, err := yamldoc.Parse(file, text)
	return func(key, flag string) wanted {
		if flag != "" || err != nil || !doc.Root().IsMap() {
			return wanted{path: flag, flagged: true}
		}
		node := doc.Root().Map("script.script").Opt(key)
		path, _ := node.Text()
		return wanted{path: path, dir: dir, at: node.Pos()}
	}
}

// asked puts the place of the script that asks for a file before what is wrong with that file, where no flag names the
// file. What is wrong within the file has a place of its own.
func (f *wanted) asked(err error, what words.ID) error {
	var within words.Problems
	if f.flagged || errors.As(err, &within) {
		return err
	}
	return exit.BadInput(words.Wrong(what, words.Args{"why": words.Error(err)}).At(f.at.File, f.at.Line, f.at.Col).Because(err))
}

// StreamedMost is the longest take, in bytes, that is read from a pipe: it is read more than once, so a pipe's is kept in memory.
const StreamedMost = 64 << 20

// opener opens a take as often as it is asked to: an ordinary file by its name, and of a pipe what is read of it, whole.
func opener(name string, whole io.Reader) (func() (*take.Reader, error), error) {
	if st, err := os.Stat(name); err == nil && st.Mode().IsRegular() && name != door.Dash {
		return func() (*take.Reader, error) { return take.Open(name) }, nil
	}
	kept, err := door.ReadAll(whole, StreamedMost)
	switch {
	case errors.Is(err, door.ErrTooLong):
		return nil, words.Wrong("play.piped-too-long", words.Args{"most": words.Whole(StreamedMost >> 20)}).In(name).Because(err)
	case err != nil:
		return nil, world.Unreadable(name, err)
	}
	return func() (*take.Reader, error) { return take.NewReader(bytes.NewReader(kept), name) }, nil
}

func planTake(w *world.World, flags *world.Named, open func() (*take.Reader, error)) (*Plan, error) {
	r, err := open()
	if err != nil {
		return nil, exit.BadInput(err)
	}
	p := &Plan{Name: r.Name(), Replay: true, close: []io.Closer{r}, book: w.Language()}
	p.stands = func() (says, air bool) { return true, outside(open) }
	if err := p.fromTake(w, flags, r, open); err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

func (p *Plan) fromTake(w *world.World, flags *world.Named, r *take.Reader, open func() (*take.Reader, error)) error {
	read := func(s *take.Settings) (*takes.Part, error) { return readPart(w, flags, r.Name(), s) }
	s := r.Settings()
	first, err := read(&s)
	if err != nil {
		return err
	}
	p.takeUp(first)
	p.Start = *first.Start()
	if flags.Radio != "" {
		f, err := w.LoadRadio(flags.Radio, "", p.Craft)
		if err != nil {
			return err
		}
		p.Papers = p.Papers.WithRadio(f, nil)
	}
	p.Note = func() (none words.Text) {
		switch t := r.Torn(); {
		case t != nil:
			return t.Text()
		case !r.Closed():
			return words.T("play.not-ended")
		case flags.Craft != "":
			return words.T("play.other-craft")
		case flags.Gestures != "":
			return words.T("play.other-gestures")
		}
		return none
	}
	if flags.Craft == "" && flags.Gestures == "" {
		if p.Judge, err = takes.NewJudge(open); err != nil {
			return exit.BadInput(err)
		}
		p.close = append(p.close, p.Judge)
	}
	player := takes.NewPlayer(r, read)
	player.Begins = func(part *takes.Part) {
		p.takeUp(part)
		for _, f := range p.told {
			f(part)
		}
	}
	p.Source, p.parts, p.Last = player, player, r.Tick
	return nil
}

// takeUp makes a part of a take the one that is run.
func (p *Plan) takeUp(part *takes.Part) {
	p.Craft = world.NewCraft(part.CraftName, part.Craft)
	if part.Gestures != nil {
		p.Craft.TakeUp(&world.GestureFile{File: part.Gestures, Name: part.GesturesName, Shipped: part.GesturesName == world.ShippedGestures})
	}
	p.Papers = takes.Papers(part.Settings)
}

// readPart reads a part of a take, with the craft and the gestures of the flags where they name others.
func readPart(w *world.World, flags *world.Named, name string, s *take.Settings) (*takes.Part, error) {
	if err := takes.CheckModel(name, s); err != nil {
		return nil, exit.BadInput(err)
	}
	part := *s
	if flags.Craft != "" { // a file of today
		c, err := w.LoadCraft(flags.Craft, "")
		if err != nil {
			return nil, err
		}
		part.Model, part.CraftName, part.CraftText, part.CraftFilled = sim.Model, c.Name, string(c.Text), ""
	}
	if flags.Gestures != "" {
		cfg := sim.Default() // the craft's own slots count when the part is read
		g, err := w.LoadGestures(flags.Gestures, "", false, cfg.SlotTicks)
		if err != nil {
			return nil, err
		}
		part.GesturesName, part.GesturesText, part.GesturesFilled = g.Name, string(g.Text), ""
	}
	read, err := takes.Read(name, &part)
	switch {
	case errors.Is(err, takes.ErrNoCraft):
		return nil, exit.BadInput(words.Wrong("play.no-craft").In(name).Because(err))
	case err != nil:
		return nil, exit.BadInput(err)
	}
	return read, nil
}

// Record begins the take of --record; nil where none is asked for.
func (p *Plan) Record(w *world.World, path string) (*takes.Recorder, error) {
	rec, err := w.BeginTake(path, p.Papers, &p.Start)
	if rec != nil {
		p.OnPart(func(part *takes.Part) { rec.Use(takes.Papers(part.Settings)) })
	}
	return rec, err
}

// OnPart has f told of each part of a take that follows the first, before it begins.
func (p *Plan) OnPart(f func(*takes.Part)) { p.told = append(p.told, f) }
