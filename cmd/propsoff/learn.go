package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff/assets/door"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/follow"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/radio"
)

// stickModes says what --stick-mode takes.
const stickModes = "write 1, 2, 3 or 4"

type learnFlags struct {
	json                  bool
	craft, device, output string
	over                  bool
	stickMode             int
}

func newLearn(w *world) *cobra.Command {
	var lf learnFlags
	cmd := &cobra.Command{
		Use:   "learn",
		Short: "Learn a radio: which stick, switch and knob is what",
		Long: "Ask for one movement at a time, find the axis or button behind it, and keep what was found in a radio file.\n" +
			"In a terminal single keys answer; elsewhere commands are read as lines: enough (or an empty line), back, skip, over,\n" +
			"1 to 4 (which hand carries what), left, right, top, springs, call NAME, save [FILE], quit.\n\n" + phrase.Cautions()[0],
		Args: noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error { return learnRadio(cmd.Context(), w, &lf) },
	}
	f := cmd.Flags()
	f.BoolVar(&lf.json, "json", false, "print one JSON object a line")
	f.StringVar(&lf.craft, "craft", "", "craft `FILE`, or a shipped craft: what its channels are for is asked, and the others are free")
	f.StringVar(&lf.device, "device", "", "which radio: `NAME` or a part of it, its number as listed by \"propsoff radios\", or its path")
	f.StringVarP(&lf.output, "output", "o", "", "write the radio file to `FILE` instead of your configuration folder")
	f.BoolVar(&lf.over, "over", false, "write over a radio file that is there already")
	cmd.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		var bad *pflag.InvalidValueError
		if errors.As(err, &bad) && bad.GetFlag().Name == "stick-mode" {
			return fmt.Errorf("--stick-mode %s: %s", bad.GetValue(), stickModes)
		}
		return flagError(cmd, err)
	})
	f.IntVar(&lf.stickMode, "stick-mode", 0, "stick mode `N`, 1 to 4, instead of asking for it")
	return cmd
}

func learnRadio(ctx context.Context, w *world, lf *learnFlags) error {
	w.door.In = nil // commands come from there
	c, err := lf.check(w)
	if err != nil {
		return err
	}
	watcher, err := w.radios.Watch()
	if err != nil {
		return trouble(err)
	}
	defer watcher.Close()
	g := &learning{
		w: w, watcher: watcher, policy: follow.Policy{Wanted: lf.device, Store: w.store}, options: drive.LearnOptions(c.names, lf.stickMode),
		output: lf.output, over: lf.over, epoch: w.now(), manner: mannerOf(w, lf.json),
		carries: carries(c.names),
	}
	g.lines = terminal.NewLines(w.out, func(dst []byte, n int) []byte { return g.tell.Notice(dst, g.ms(), phrase.LinesLeftOut(n)) })
	if w.saw != nil {
		w.saw(g.lines)
	}
	g.options.ModeGiven = lf.stickMode != 0
	g.tell = terminal.LearnLines{JSON: g.manner == asJSON, Carries: g.carries}
	if g.manner == asScreen {
		g.notice(phrase.Cautions()[0])
	} else {
		w.say(phrase.Cautions()[0])
	}
	return g.run(ctx)
}

// check says what is wrong with the flags before anything is asked.
func (lf *learnFlags) check(w *world) (*craft, error) {
	if lf.stickMode < 0 || lf.stickMode > 4 {
		return nil, badInput(fmt.Errorf("--stick-mode %d: %s", lf.stickMode, stickModes))
	}
	if lf.output == door.Dash || lf.output == os.DevNull {
		return nil, badInput(fmt.Errorf("-o %s: a radio file is kept in an ordinary file; give the name of one", lf.output))
	}
	c, err := w.loadCraft(lf.craft, "")
	if err != nil {
		return nil, err
	}
	return c, w.try(door.Out{Over: lf.over, Private: true}, lf.output)
}

// carries gives the craft's own words for what the channel of a job named by number does.
func carries(names input.Names) func(job string) string {
	return func(job string) string {
		var words []string
		for name, channel := range names.Channel {
			if job == fmt.Sprintf("channel %d", channel+1) && !slices.Contains(radio.Jobs(), name) {
				words = append(words, name)
			}
		}
		slices.Sort(words)
		return strings.Join(words, ", ")
	}
}

// save writes the radio file to path, or where nothing else was said; it gives where that was.
func (g *learning) save(path string) (string, error) {
	if path == "" {
		path = g.output
	}
	if path != "" {
		if err := g.w.door.Free(path); err != nil {
			return path, err
		}
		err := radio.WriteFile(path, g.file, g.over || path == g.wrote)
		if err == nil {
			g.wrote = path
		}
		return path, err
	}
	return g.w.store.Save(g.file)
}

// giveUp prints what was learned and could not be written.
func (g *learning) giveUp(why error) error {
	out := g.tell.File(nil, g.ms(), &g.file)
	if g.manner == asScreen {
		out = g.file.Marshal()
	}
	if _, err := g.w.out.Write(out); err != nil {
		return trouble(errors.Join(why, err))
	}
	return trouble(errors.New(phrase.LearnNotKept(why.Error())))
}
