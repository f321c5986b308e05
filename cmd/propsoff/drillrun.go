package main

import (
	"cmp"
	"context"
	"slices"

	"github.com/spf13/cobra"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/pupils"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/drill/drillfile"
)

// newDrillRun is `propsoff drill run`.
func newDrillRun(w *world.World) *cobra.Command {
	var o termlive.DrillOptions
	pupil := ""
	cmd := newCommand(w, "run [DRILL…]", words.T("command.drill-run"), words.T("command.drill-run-about", words.Args{"typed": withCommas(termlive.TypedWords()), "caution": tell.Cautions()[0]}))
	cmd.Args = cobra.ArbitraryArgs
	cmd.ValidArgsFunction = func(_ *cobra.Command, given []string, _ string) ([]string, cobra.ShellCompDirective) {
		left := slices.DeleteFunc(assets.Drills(), func(code string) bool { return slices.Contains(given, code) })
		return left, cobra.ShellCompDirectiveNoFileComp
	}
	plain := plainFlag(w, cmd)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		o.Plain = plain()
		if o.Tries == 0 && cmd.Flags().Changed("tries") {
			return exit.BadInput(words.Wrong("refused.no-tries"))
		}
		return runDrills(cmd.Context(), w, &o, pupil, args)
	}
	f := cmd.Flags()
	radioFlag(w, cmd, &o.Radio)
	craftFlag(cmd, &o.Craft, flownCraft(w))
	f.StringVar(&o.Gestures, "gestures", "", w.Say(words.T("flag.gestures-drilled")))
	deviceFlag(w, cmd, &o.Device)
	pupilFlag(f, &pupil, w.Say(words.T("flag.pupil-drills")))
	f.StringVar(&o.Record, "record", "", w.Say(words.T("flag.record-drills")))
	jsonFlag(w, cmd, &o.JSON)
	f.Uint16Var(&o.Tries, "tries", 0, w.Say(words.T("flag.tries")))
	f.Uint64Var(&o.Seed, "seed", 0, w.Say(words.T("flag.seed")))
	return cmd
}

// runDrills runs the shipped course, or these drills of it, and keeps what came of them for the pupil, if there is one.
func runDrills(ctx context.Context, w *world.World, o *termlive.DrillOptions, pupil string, codes []string) (err error) {
	w.Door.In = nil // answers come from there
	if o.Flown, o.Read, err = w.LoadFlown(&o.Named); err != nil {
		return err
	}
	c := o.Flown
	course, end, err := pupils.Course(c, drillrun.New(), pupil)
	if err != nil {
		return err
	}
	defer func() {
		if ending := end(); err == nil {
			err = exit.Trouble(ending)
		}
	}()
	o.Coach, o.Day, o.ShippedGestures, o.Seed = course.Coach, course.Day, course.ShippedGestures, cmp.Or(o.Seed, course.Seed)
	byEar := o.TellsPlain(w)
	if o.Drills, err = chosenDrills(course.Drills, codes); err != nil {
		return err
	}
	switch left := len(course.Drills) - len(o.Drills); {
	case byEar && len(codes) == 0:
		o.Drills = course.Drills
		err = o.ByEar(w, false)
	case byEar:
		err = o.ByEar(w, true)
	case len(codes) == 0 && left > 0:
		w.Tell(words.T("drill.flown-left", words.Args{"n": words.Count(left)}))
	}
	if err != nil {
		return err
	}
	if course.Pupils != nil {
		held := screen.Held{Craft: c.File}
		if c.Gestures != nil {
			held.Gestures = c.Gestures.Name
		}
		o.Keep = func(run *drillrun.Result, d *drillfile.Drill, radio string, stickMode int) error {
			held.Radio, held.StickMode = radio, stickMode
			return course.Pupils.Keep(run, d, held)
		}
	}
	return termlive.Drills(ctx, w, o)
}

// chosenDrills finds drills by their code words; without any it is the whole course, but for what is flown, which is refused by name: a terminal shows no craft.
func chosenDrills(all []*drillfile.Drill, codes []string) (out []*drillfile.Drill, err error) {
	if len(codes) == 0 {
		return slices.DeleteFunc(slices.Clone(all), (*drillfile.Drill).Flown), nil
	}
	var known []string
	for _, d := range all {
		known = append(known, d.Config.Code)
	}
	for _, code := range codes {
		i := slices.Index(known, code)
		if i < 0 {
			near, _ := yamldoc.Near(code, known)
			return nil, words.Wrong("refused.no-drill", words.Args{"word": words.Typed(code), "near": words.Typed(near)})
		}
		if all[i].Flown() {
			return nil, exit.BadInput(words.Wrong("refused.flown-drill", words.Args{"drill": words.Typed(code)}))
		}
		out = append(out, all[i])
	}
	return out, nil
}
