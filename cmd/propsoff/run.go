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
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/script"
	"propsoff/input/take"
	"propsoff/sim/craftfile"
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
			"With --craft a take's hands are run on another craft, and nothing is compared.",
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
	// comparer is that of a take, nil for a script or another craft.
	comparer *take.Comparer
	replay   bool
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
	rec, err := beginTake(flags.record, p.craft, p.radio, p.name)
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
	return &plan{
		craft: c, radio: r, source: s.Source(), name: s.Title(), expects: s.Expectations(), checker: s.NewChecker(),
		last: func() int64 { return s.End() / 1000 }, note: func() string { return "" },
	}, nil
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
	s := r.Settings()
	switch {
	case flags.craft != "":
		c, err := loadCraft(flags.craft, "")
		if err != nil {
			return err
		}
		p.craft = c
	case s.CraftText == "":
		return badInput(errors.New(r.Name() + ": the take carries no craft file; give one by --craft FILE"))
	default:
		f, err := craftfile.Parse(r.Name()+": its craft file", []byte(s.CraftText))
		if err != nil {
			return badInput(err)
		}
		p.craft = newCraft(s.CraftName, f)
	}
	if err := p.takeGestures(flags, r.Name(), &s); err != nil {
		return err
	}
	if s.RadioText != "" && flags.radio == "" {
		if f, err := radio.Parse(r.Name()+": its radio file", []byte(s.RadioText), radio.Known{}); err == nil {
			p.radio = &f // of interest to a new recording only
		}
	}
	if flags.radio != "" {
		f, err := loadRadio(flags.radio, "", p.craft)
		if err != nil {
			return err
		}
		p.radio = f
	}
	if flags.craft == "" && flags.gestures == "" {
		second, err := take.Open(r.Name())
		if err != nil {
			return badInput(err)
		}
		p.close = append(p.close, second)
		p.comparer = take.NewComparer(second, phrase.Codes())
	}
	p.source = take.NewSource(r)
	p.last = r.Tick
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
	return nil
}

// takeGestures gives the craft the gestures that the take carries; a take of before there were any has none, and goes without.
func (p *plan) takeGestures(flags *shared, name string, s *take.Settings) error {
	cfg := p.craft.Config()
	var g *gestureFile
	var err error
	switch {
	case flags.gestures != "":
		g, err = loadGestures(flags.gestures, "", false, cfg.SlotTicks)
	case s.GesturesText != "":
		g, err = parseGestures(name+": its gesture file", s.GesturesName, []byte(s.GesturesText), cfg.SlotTicks)
	}
	if err != nil {
		return err
	}
	p.craft.learn(g)
	return nil
}

// runFast runs a plan without waiting for the clock.
func runFast(ctx context.Context, p *plan, r *report, rec *take.Writer) error {
	pr, err := stepThrough(ctx, p, rec, nil, r.observe)
	if err != nil {
		return err
	}
	return r.finish(pr.Tick()-1, pr.Digest())
}

// stepThrough steps a practice through a plan to its end, without waiting for the clock. before are readings for tick 0 that
// come before the plan's own; seen is called after every tick. The take is ended, however the run ends.
func stepThrough(ctx context.Context, p *plan, rec *take.Writer, before []pulse.Reading, seen func(*practice.Practice)) (*practice.Practice, error) {
	pr := practice.New(p.craft.Config())
	readings := append([]pulse.Reading(nil), before...)
	var end error
	for end == nil {
		if pr.Tick()%4096 == 0 && ctx.Err() != nil {
			end = ctx.Err()
			break
		}
		readings, end = p.source.Poll(readings, pr.Tick()*1000)
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

// record notes one tick in a take; its errors stick and are told at the end.
func record(rec *take.Writer, pr *practice.Practice, readings []pulse.Reading) {
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

func endRecord(rec *take.Writer, pr *practice.Practice) error {
	if rec == nil {
		return nil
	}
	_ = rec.Digest(pr.Tick()-1, pr.Digest())
	return rec.Close()
}
