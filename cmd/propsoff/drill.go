package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"propsoff/assets"
	"propsoff/assets/mouth"
	"propsoff/assets/yamldoc"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/sim/drill/drillfile"
)

// newDrill holds the commands of drills.
func newDrill(w *world) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "drill",
		Short: "Run drills in the terminal, list them, read drill files",
		Args:  noArguments,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newDrillRun(w), newDrillList(w), newDrillCheck(w))
	return cmd
}

// drillKnown are the gestures and menus that a drill may name.
func (w *world) drillKnown(path string) (drillfile.Known, error) {
	c, err := w.loadFlown(&shared{gestures: path})
	if err != nil {
		return drillfile.Known{}, err
	}
	cfg := c.Config()
	return drillfile.Known{Gestures: cfg.Gestures, Menus: cfg.Menus}, nil
}

func newDrillList(w *world) *cobra.Command {
	asJSON := false
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List the drills of the shipped course in their order",
		Args:  noArguments,
		RunE: func(*cobra.Command, []string) error {
			known, err := w.drillKnown("")
			if err != nil {
				return err
			}
			course, drills, err := drillfile.Shipped("beginner", known)
			if err != nil {
				return badInput(err)
			}
			if asJSON {
				var out []byte
				for i, d := range drills {
					out = append(mouth.AppendJSON(out, drillLine{i + 1, d.Config.Code, d.Name, d.About, len(d.Config.Cases)}), '\n')
				}
				if err := put(w, out); err != nil {
					return err
				}
				if len(course.Unfit) > 0 {
					w.say(phrase.DrillsUnfit(course.Unfit))
				}
				return nil
			}
			fmt.Fprintf(w.out, "%s. %s\n\n", course.Name, course.About)
			for i, d := range drills {
				fmt.Fprintf(w.out, "%3d  %-22s %s\n", i+1, d.Config.Code, d.Name)
			}
			if len(course.Unfit) > 0 {
				fmt.Fprintf(w.out, "\n%s\n", phrase.DrillsUnfit(course.Unfit))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object a line")
	return cmd
}

// drillLine is a drill of the list as JSON.
type drillLine struct {
	Number int    `json:"number"`
	Drill  string `json:"drill"`
	Name   string `json:"name"`
	About  string `json:"about"`
	Cases  int    `json:"cases"`
}

func newDrillCheck(w *world) *cobra.Command {
	gestures := ""
	cmd := &cobra.Command{
		Use:   "check FILE…",
		Short: "Read drill and course files and say whether they are right",
		Long: "Reads drill files, and course files with all the drills that they name: each stands as CODE.yaml beside the course, or is a shipped one.\n" +
			"All that is wrong is said, each with its place and what to do.",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("give at least one drill or course file")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			known, err := w.drillKnown(gestures)
			if err != nil {
				return err
			}
			var wrong error
			for _, path := range args {
				said, err := w.readDrills(path, known)
				if err != nil {
					wrong = errors.Join(wrong, err)
					continue
				}
				fmt.Fprintln(w.out, mouth.Printable(said))
			}
			if wrong != nil {
				return badInput(wrong)
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&gestures, "gestures", "", "gesture `FILE` whose gestures and menus the drills name")
	return cmd
}

// readDrills reads a drill file, or a course file and its drills, and says what it was.
func (w *world) readDrills(path string, known drillfile.Known) (said string, err error) {
	text, err := w.readFile(path, "drill or course file")
	if err != nil {
		return "", err
	}
	if !isCourse(path, text) {
		d, err := drillfile.Parse(path, text, known)
		if err != nil {
			return "", err
		}
		return phrase.DrillReads(path, d.Name, len(d.Config.Cases)), nil
	}
	course, err := drillfile.ParseCourse(path, text)
	if err != nil {
		return "", err
	}
	var unread error
	drills, err := course.Read(known, func(code string) (string, []byte, bool) {
		beside := filepath.Join(filepath.Dir(path), code+".yaml")
		if _, err := os.Stat(beside); err != nil {
			return assets.Drill(code)
		}
		text, err := w.readFile(beside, "drill file")
		unread = errors.Join(unread, err)
		return beside, text, err == nil
	})
	if err = errors.Join(unread, err); err != nil {
		return "", err
	}
	return phrase.CourseReads(path, course.Name, len(drills)), nil
}

// isCourse reports whether a file calls itself a course of drills.
func isCourse(name string, text []byte) bool {
	doc, err := yamldoc.Parse(name, text)
	if err != nil || !doc.Root().IsMap() {
		return false
	}
	kind, _ := doc.Root().Map("file").Opt("propsoff").Text()
	word, _, _ := strings.Cut(kind, " ")
	return word == "course"
}
