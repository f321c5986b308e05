package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"propsoff.example/assets"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim/drill/drillfile"
)

// newDrill holds the commands of drills.
func newDrill(w *world.World) *cobra.Command {
	cmd := newCommand(w, "drill", words.T("command.drill"), words.Text{})
	cmd.Args = commandsOnly
	cmd.RunE = func(cmd *cobra.Command, _ []string) error { return cmd.Help() }
	cmd.AddCommand(newDrillRun(w), newDrillForesee(w), newDrillList(w), newDrillCheck(w))
	return cmd
}

// drillKnown are the gestures and menus that a drill may name.
func drillKnown(w *world.World, path string) (drillfile.Known, error) {
	c, _, err := w.LoadFlown(&world.Named{Gestures: path})
	if err != nil {
		return drillfile.Known{}, err
	}
	cfg := c.Config()
	return drillfile.Known{Gestures: cfg.Gestures, Menus: cfg.Menus}, nil
}

func newDrillList(w *world.World) *cobra.Command {
	asJSON := false
	cmd := newCommand(w, "list", words.T("command.drill-list"), words.Text{})
	cmd.RunE = func(*cobra.Command, []string) error {
		known, err := drillKnown(w, "")
		if err != nil {
			return err
		}
		course, drills, err := drillfile.Shipped("beginner", known)
		if err != nil {
			return exit.BadInput(err)
		}
		var out []byte
		if !asJSON {
			out = fmt.Appendf(out, "%s. %s\n\n", w.Say(tell.CourseText(course.Code, course.Name)), w.Say(tell.CourseText(course.Code, course.About)))
		}
		for i, d := range drills {
			if asJSON {
				out = terminal.AppendFields(out, "number", i+1, "drill", d.Config.Code, "name", d.Name, "about", d.About, "cases", len(d.Config.Cases), "flown", d.Flown())
			} else {
				name := tell.DrillText(d.Config.Code, d.Name)
				if d.Flown() {
					name = words.T("drill.in-window", words.Args{"name": name})
				}
				out = fmt.Appendf(out, "%3d  %-22s %s\n", i+1, d.Config.Code, w.Say(name))
			}
		}
		var unfit words.Text
		if len(course.Unfit) > 0 {
			unfit = words.T("drill.unfit", words.Args{"codes": words.Listed(words.AsAre(course.Unfit...)...)})
		}
		if !unfit.Empty() && !asJSON {
			out = fmt.Appendf(out, "\n%s\n", w.Say(unfit))
		}
		if err := put(w, out); err != nil {
			return err
		}
		if !unfit.Empty() && asJSON {
			w.Tell(unfit)
		}
		return nil
	}
	jsonFlag(w, cmd, &asJSON)
	return cmd
}

func newDrillCheck(w *world.World) *cobra.Command {
	gestures := ""
	cmd := newCommand(w, "check FILE…", words.T("command.drill-check"), words.T("command.drill-check-about"))
	cmd.Args = func(_ *cobra.Command, args []string) error {
		if len(args) == 0 {
			return words.Wrong("refused.no-drill-file")
		}
		return nil
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		known, err := drillKnown(w, gestures)
		if err != nil {
			return err
		}
		var wrong error
		for _, path := range args {
			said, err := readDrills(w, path, known)
			if err != nil {
				wrong = errors.Join(wrong, err)
				continue
			}
			fmt.Fprintln(w.Out, mouth.Printable(w.Say(said)))
		}
		if wrong != nil {
			return exit.BadInput(wrong)
		}
		return nil
	}
	cmd.Flags().StringVar(&gestures, "gestures", "", w.Say(words.T("flag.gestures-named")))
	return cmd
}

// readDrills reads a drill file, or a course file and its drills, and says what it was.
func readDrills(w *world.World, path string, known drillfile.Known) (said words.Text, err error) {
	text, err := w.ReadFile(path, "door.drill-or-course-file")
	if err != nil {
		return said, err
	}
	if yamldoc.KindOf(path, text) != "course" {
		d, err := drillfile.Parse(path, text, known)
		if err != nil {
			return said, err
		}
		return tell.DrillReads(path, tell.DrillText(d.Config.Code, d.Name), len(d.Config.Cases)), nil
	}
	course, wrong := drillfile.ParseCourse(path, text)
	if course == nil {
		return said, wrong
	}
	var unread error
	drills, err := course.Read(known, func(code string) (string, []byte, bool) {
		beside := filepath.Join(filepath.Dir(path), code+".yaml")
		if _, err := os.Stat(beside); err != nil {
			return assets.Drill(code)
		}
		text, err := w.ReadFile(beside, "door.drill-file")
		unread = errors.Join(unread, err)
		return beside, text, err == nil
	})
	if err = errors.Join(wrong, unread, err); err != nil {
		return said, err
	}
	return tell.CourseReads(path, tell.CourseText(course.Code, course.Name), len(drills)), nil
}
