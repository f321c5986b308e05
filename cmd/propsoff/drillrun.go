package main

import (
	"cmp"
	"context"

	"github.com/spf13/cobra"

	"propsoff/assets/words"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/termlive"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/sim/drill/drillfile"
)

type drillRunFlags struct {
	world.Named
	device, pupil string
	json          bool
	tries         uint16
	seed          uint64
}

// newDrillRun is `propsoff drill run`.
func newDrillRun(w *world.World) *cobra.Command {
	var df drillRunFlags
	cmd := &cobra.Command{
		Use:   "run [DRILL…]",
		Short: w.Say(words.T("command.drill-run")),
		Long:  w.Say(words.T("command.drill-run-about", words.Args{"typed": withCommas(termlive.TypedWords()), "caution": tell.Cautions()[0]})),
		RunE: func(cmd *cobra.Command, args []string) error {
			if df.tries == 0 && cmd.Flags().Changed("tries") {
				return exit.BadInput(words.Wrong("refused.no-tries"))
			}
			return runDrills(cmd.Context(), w, &df, args)
		},
	}
	f := cmd.Flags()
	radioFlag(w, cmd, &df.Radio)
	craftFlag(cmd, &df.Craft, flownCraft(w))
	f.StringVar(&df.Gestures, "gestures", "", w.Say(words.T("flag.gestures-drilled")))
	deviceFlag(w, cmd, &df.device)
	f.Var(pupilName{&df.pupil}, "pupil", w.Say(words.T("flag.pupil-drills")))
	f.StringVar(&df.Record, "record", "", w.Say(words.T("flag.record-drills")))
	jsonFlag(w, cmd, &df.json)
	f.Uint16Var(&df.tries, "tries", 0, w.Say(words.T("flag.tries")))
	f.Uint64Var(&df.seed, "seed", 0, w.Say(words.T("flag.seed")))
	return cmd
}

// runDrills runs the shipped course, or these drills of it, and keeps what came of them for the pupil, if there is one.
func runDrills(ctx context.Context, w *world.World, df *drillRunFlags, codes []string) (err error) {
	w.Door.In = nil // answers come from there
	c, err := w.LoadFlown(df.Named)
	if err != nil {
		return err
	}
	file, err := w.LoadRadio(df.Radio, "", c)
	if err != nil {
		return err
	}
	course, end, err := drillOptions(c, drillrun.New(), df.pupil)
	if err != nil {
		return err
	}
	defer func() {
		if ending := end(); err == nil && ending != nil {
			err = exit.Trouble(ending)
		}
	}()
	o := termlive.DrillOptions{
		Craft: c, Radio: file, RadioPath: df.Radio, Device: df.device, Record: df.Record, JSON: df.json, Tries: df.tries, Seed: cmp.Or(df.seed, course.Seed),
		Coach: course.Coach, Day: course.Day, ShippedGestures: course.ShippedGestures,
	}
	if o.Drills, err = chosenDrills(course.Drills, codes); err != nil {
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
	return termlive.Drills(ctx, w, &o)
}

// chosenDrills finds drills by their code words; without any it is the whole course.
func chosenDrills(all []*drillfile.Drill, codes []string) ([]*drillfile.Drill, error) {
	if len(codes) == 0 {
		return all, nil
	}
	var known []string
	by := map[string]*drillfile.Drill{}
	for _, d := range all {
		known = append(known, d.Config.Code)
		by[d.Config.Code] = d
	}
	var out []*drillfile.Drill
	for _, code := range codes {
		d, ok := by[code]
		if !ok {
			near, _ := yamldoc.Near(code, known)
			return nil, exit.BadInput(words.Wrong("refused.no-drill", words.Args{"word": typed(code), "near": typed(near)}))
		}
		out = append(out, d)
	}
	return out, nil
}
