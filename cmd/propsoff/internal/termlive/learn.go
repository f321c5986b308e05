package termlive

import (
	"context"
	"errors"
	"os"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// LearnOptions says which radio is learned, and where that is kept.
type LearnOptions struct {
	// Device is the radio that is wanted, by name, number or path; empty takes the first.
	Device string
	// Craft is a craft file, empty for the built-in one: what its channels are for is asked.
	Craft string
	// Output is the radio file to be written, empty for one in the store; Over lets it take the place of one that is there.
	Output string
	Over   bool
	// StickMode is 1 to 4, 0 to ask for it.
	StickMode int
	// Anew has a radio learned though a file that somebody else learned could be tried.
	Anew bool
	// JSON has what is asked and found told as JSON Lines.
	JSON bool
}

// Learn asks for one movement at a time, finds the axis or button behind it, and keeps what was found in a radio file. The error has its
// status (exit).
func Learn(ctx context.Context, w *world.World, o *LearnOptions) error {
	w.Door.In = nil // commands come from there
	c, err := o.check(w)
	if err != nil {
		return err
	}
	r, err := newReader(w, o.Device, nil)
	if err != nil {
		return err
	}
	defer r.close()
	r.radio.Faithful = true
	g := &learning{reader: r, options: whodrives.LearnOptions(c.Words, o.StickMode), output: o.Output, over: o.Over, anew: o.Anew, carries: carries(c.Words)}
	g.shows = newShows(w, o.JSON, PlainNever, func(dst []byte, t words.Text) []byte { return g.tell.Notice(dst, g.ms(), t) })
	if w.Saw != nil {
		w.Saw(g.lines)
	}
	g.options.ModeGiven = o.StickMode != 0
	g.tell = terminal.LearnLines{Form: g.form, Carries: g.carries}
	g.caution()
	return g.run(ctx)
}

// check says what is wrong with the flags before anything is asked.
func (o *LearnOptions) check(w *world.World) (*world.Craft, error) {
	if o.StickMode < 0 || o.StickMode > 4 {
		return nil, exit.BadInput(words.Wrong("refused.stick-mode", words.Args{"value": words.Whole(o.StickMode)}))
	}
	if o.Output == door.Dash || o.Output == os.DevNull {
		return nil, exit.BadInput(words.Wrong("typed.no-radio-file", words.Args{"path": words.Quote(o.Output)}))
	}
	c, err := w.LoadCraft(o.Craft, "")
	if err != nil {
		return nil, err
	}
	return c, w.Try(door.Out{Over: o.Over, Private: true}, o.Output)
}

// carries gives the craft's own words for what the channel of a job named by number does.
func carries(names input.Names) func(job string) string {
	return func(job string) string {
		var own []string
		for name, channel := range names.Channel {
			if job == "channel "+strconv.Itoa(channel+1) && !slices.Contains(radio.Jobs(), name) {
				own = append(own, name)
			}
		}
		slices.Sort(own)
		return strings.Join(own, ", ")
	}
}

// save writes the radio file to path, or where nothing else was said; it gives where that was.
func (g *learning) save(path string) (string, error) {
	if path == "" {
		path = g.output
	}
	if path != "" {
		if err := g.w.Door.Free(path); err != nil {
			return path, err
		}
		err := radio.WriteFile(path, g.file, g.over || path == g.wrote)
		if err == nil {
			g.wrote = path
		}
		return path, err
	}
	return g.w.Store.Save(g.file)
}

// giveUp prints what was learned and could not be written.
func (g *learning) giveUp(why error) error {
	out := g.tell.File(nil, g.ms(), &g.file)
	if g.screen {
		out = g.file.Marshal()
	}
	if _, err := g.w.Out.Write(out); err != nil {
		return exit.Trouble(errors.Join(why, err))
	}
	return exit.Trouble(words.Wrong("ask.not-kept", words.Args{"why": words.Error(why)}))
}
