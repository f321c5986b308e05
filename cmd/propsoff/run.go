package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"propsoff/assets"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/loop"
	"propsoff/cmd/propsoff/internal/records"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/script"
	"propsoff/input/take"
	"propsoff/sim"
	"propsoff/sim/practice"
	"propsoff/sim/pulse"
)

// takeMark begins every take.
const takeMark = "propsoff take "

// demoName is the shipped demo pilot.
const demoName = "demo"

type runFlags struct {
	json, live, demo bool
}

func newRun(w *world, flags *shared) *cobra.Command {
	var rf runFlags
	cmd := &cobra.Command{
		Use:   "run FILE",
		Short: "Run a pilot script or a take without a window",
		Long: "Run a pilot script or a take as fast as the machine can, and print what happens. The first bytes of the file\n" +
			"say which it is. \"" + demoName + "\" is the demo pilot that ships with the program.\n\n" +
			"Exit status: 0 run whole; 1 an expectation of the script failed, or the take did not replay to the same; 2 bad input.\n" +
			"A take of an older model of the bench is told as it was recorded, and today's model plays the same hands: what comes out otherwise\n" +
			"is told and is no failure. With --craft a take's hands are run on another craft, and nothing is compared.",
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case rf.demo && len(args) > 0:
				return errors.New("give a file or --demo, not both")
			case !rf.demo && len(args) == 0:
				return errors.New("give the path of a pilot script or a take; \"propsoff run demo\" runs the demo pilot")
			case len(args) > 1:
				return errors.New("give one file at a time")
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return assets.Scripts(), cobra.ShellCompDirectiveDefault
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			name := demoName
			if !rf.demo {
				name = args[0]
			}
			return run(cmd.Context(), w, flags, rf, name)
		},
	}
	cmd.Flags().BoolVar(&rf.json, "json", false, "print one JSON object a line")
	cmd.Flags().BoolVar(&rf.live, "live", false, "play in real time, with the live screen where this is a terminal")
	cmd.Flags().BoolVar(&rf.demo, "demo", false, "run the demo pilot that ships with the program")
	return cmd
}

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

func run(ctx context.Context, w *world, flags *shared, rf runFlags, name string) error {
	p, err := newPlan(flags, name)
	if err != nil {
		return err
	}
	defer p.Close()
	rec, err := p.record(flags.record)
	if err != nil {
		return err
	}
	if rf.live {
		return runLive(ctx, w, rf, p, rec)
	}
	out := bufio.NewWriterSize(w.out, 64<<10)
	r := newReport(p, rf.json, func(f func([]byte) []byte) { _, _ = out.Write(f(out.AvailableBuffer())) })
	if !rf.json {
		r.add(func(dst []byte) []byte { return terminal.AppendRunning(dst, p.name, p.craft.Name, p.replay) })
	}
	err = runFast(ctx, p, r, rec)
	if ferr := out.Flush(); ferr != nil && err == nil {
		err = trouble(ferr)
	}
	return err
}

// newPlan reads a script or a take: which of the two its first bytes tell.
func newPlan(flags *shared, name string) (*plan, error) {
	f, err := openFile(name, "script or take")
	if errors.Is(err, os.ErrNotExist) || err != nil && !fileExists(name) {
		if file, text, ok := assets.Script(name); ok {
			return planScript(flags, file, "", text)
		}
		return nil, badInput(withShipped(err, name))
	}
	if err != nil {
		return nil, badInput(err)
	}
	head := make([]byte, len(takeMark))
	n, err := io.ReadFull(f, head)
	if err != nil && n == 0 && !errors.Is(err, io.EOF) {
		f.Close()
		return nil, badInput(err)
	}
	whole := io.MultiReader(bytes.NewReader(head[:n]), f)
	if string(head[:n]) == takeMark || n == 0 && filepath.Ext(name) == ".take" {
		f.Close()
		return planTake(flags, name)
	}
	defer f.Close()
	if n > 0 && n < len(takeMark) && strings.HasPrefix(takeMark, string(head[:n])) { // no script is so short
		return nil, badInput(fmt.Errorf("%s: this is the beginning of a take that was cut off before its settings; nothing can be saved of it", name))
	}
	text, err := readText(whole, name)
	if err != nil {
		return nil, badInput(err)
	}
	return planScript(flags, name, filepath.Dir(name), text)
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

func planScript(flags *shared, file, dir string, text []byte) (*plan, error) {
	craftPath, craftDir, radioPath, radioDir := flags.craft, "", flags.radio, ""
	head := scriptHead(file, text)
	if craftPath == "" {
		craftPath, craftDir = head.craft, dir
	}
	if radioPath == "" {
		radioPath, radioDir = head.radio, dir
	}
	c, err := loadCraft(craftPath, craftDir)
	if err != nil {
		return nil, asked(err, flags.craft, head.craftAt, "its craft")
	}
	r, err := loadRadio(radioPath, radioDir, c)
	if err != nil {
		return nil, asked(err, flags.radio, head.radioAt, "its radio file")
	}
	gesturePath, gestureDir := flags.gestures, ""
	if gesturePath == "" {
		gesturePath, gestureDir = head.gestures, dir
	}
	cfg := c.Config()
	g, err := loadGestures(gesturePath, gestureDir, false, cfg.SlotTicks) // never the pilot's own: a script plays alike everywhere
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

func planTake(flags *shared, name string) (*plan, error) {
	r, err := take.Open(name)
	if err != nil {
		return nil, badInput(err)
	}
	p := &plan{name: name, replay: true, close: []io.Closer{r}}
	if err := p.fromTake(flags, r); err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

func (p *plan) fromTake(flags *shared, r *take.Reader) error {
	read := func(s *take.Settings) (*records.Part, error) { return p.readPart(flags, r.Name(), s) }
	s := r.Settings()
	first, err := read(&s)
	if err != nil {
		return err
	}
	p.takeUp(first)
	p.start = *first.Start()
	if flags.radio != "" {
		f, err := loadRadio(flags.radio, "", p.craft)
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
		if p.judge, err = records.NewJudge(r.Name()); err != nil {
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
func (p *plan) readPart(flags *shared, name string, s *take.Settings) (*records.Part, error) {
	if err := records.CheckModel(name, s); err != nil {
		return nil, badInput(err)
	}
	part := *s
	if flags.craft != "" { // a file of today
		c, err := loadCraft(flags.craft, "")
		if err != nil {
			return nil, err
		}
		part.Model, part.CraftName, part.CraftText, part.CraftFilled = sim.Model, c.Name, string(c.Text), ""
	}
	if flags.gestures != "" {
		cfg := sim.Default() // the craft's own slots count when the part is read
		g, err := loadGestures(flags.gestures, "", false, cfg.SlotTicks)
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
func (p *plan) record(path string) (*records.Recorder, error) {
	rec, err := beginTake(path, p.papers, &p.start)
	if rec != nil {
		p.onPart(func(part *records.Part) { rec.Use(part.Papers) })
	}
	return rec, err
}

// onPart has f told of each part of a take that follows the first, before it begins.
func (p *plan) onPart(f func(*records.Part)) { p.told = append(p.told, f) }

// runFast runs a plan without waiting for the clock.
func runFast(ctx context.Context, p *plan, r *report, rec *records.Recorder) error {
	pr, err := stepThrough(ctx, p, rec, nil, r.observe)
	if err != nil {
		return err
	}
	return r.finish(pr.Tick()-1, pr.Digest())
}

// stepThrough steps a practice through a plan to its end, without waiting for the clock. before are readings for the first tick that
// come before the plan's own; seen is called after every tick. The take is ended, however the run ends.
func stepThrough(ctx context.Context, p *plan, rec *records.Recorder, before []pulse.Reading, seen func(*practice.Practice)) (*practice.Practice, error) {
	pr := practice.Begin(p.start.Craft, p.start.Tick, p.start.Stands)
	readings := append([]pulse.Reading(nil), before...)
	var end error
	for end == nil {
		if pr.Tick()%4096 == 0 && ctx.Err() != nil {
			end = ctx.Err()
			break
		}
		readings, end = p.source.Poll(readings, pr.Tick()*1000)
		if start, ok := p.nextPart(pr.Tick()); ok {
			recordPart(rec, pr, start)
			pr, end = practice.Begin(start.Craft, start.Tick, start.Stands), nil
			continue
		}
		pr.Step(readings)
		record(rec, pr, readings)
		seen(pr)
		readings = readings[:0]
	}
	recErr := endRecord(rec, pr)
	switch {
	case errors.Is(end, input.ErrEnd):
	case errors.Is(end, context.Canceled):
		return nil, trouble(errors.New("stopped before the end"))
	default:
		return nil, badInput(end)
	}
	if recErr != nil {
		return nil, trouble(recErr)
	}
	return pr, nil
}

// nextPart is the part of a take that begins at a tick.
func (p *plan) nextPart(tick int64) (*loop.Start, bool) {
	if p.parts == nil {
		return nil, false
	}
	return p.parts.Part(tick * 1000)
}

// record notes one tick in a take; its errors stick and are told at the end.
func record(rec *records.Recorder, pr *practice.Practice, readings []pulse.Reading) {
	if rec == nil {
		return
	}
	tick := pr.Tick() - 1
	for _, x := range readings {
		_ = rec.Reading(tick, x)
	}
	for _, h := range pr.Happenings() {
		_ = rec.Happening(h.Tick, uint8(h.Code), h.A, h.B)
	}
	if tick%1000 == 999 {
		_ = rec.Digest(tick, pr.Digest())
	}
}

// recordPart ends the part of pr in a take and begins the next.
func recordPart(rec *records.Recorder, pr *practice.Practice, start *loop.Start) {
	if rec == nil {
		return
	}
	_ = rec.Digest(pr.Tick()-1, pr.Digest())
	_ = rec.Part(start)
}

func endRecord(rec *records.Recorder, pr *practice.Practice) error {
	if rec == nil {
		return nil
	}
	_ = rec.Digest(pr.Tick()-1, pr.Digest())
	return rec.Close()
}
