package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/world"
)

// tasks are what somebody may want to do, in the order in which a newcomer comes to it, each with the commands for it. A command that stands nowhere is of
// the last.
var tasks = [...]struct {
	code     string
	commands []string
}{
	{"radio", []string{"radios", "learn", "check"}},
	{"look", []string{"watch", "gestures", "link-loss"}},
	{"layout", []string{"prove", "card"}},
	{"practise", []string{"drill", "logbook"}},
	{"recorded", []string{"run", "fly", "repair"}},
	{"program", []string{"version", "completion", "help"}},
}

// examples are lines that may be typed, by the command: what is shown in its help. Each is parsed in a test, and those that need nothing are run.
var examples = map[string][]string{
	"":                {"propsoff", "propsoff --language de"},
	"radios":          {"propsoff radios", "propsoff radios --json"},
	"radios take":     {"propsoff radios take club-radio.yaml"},
	"learn":           {"propsoff learn", "propsoff learn --stick-mode 1 --output my-radio.yaml"},
	"check":           {"propsoff check", "propsoff check --for 2m --json"},
	"watch":           {"propsoff watch", "propsoff watch --plain --record evening.take"},
	"gestures":        {"propsoff gestures", "propsoff gestures --stick-mode 1"},
	"link-loss":       {"propsoff link-loss", "propsoff link-loss --height 25 --off 5s", "propsoff link-loss --map --plot where-it-leads.pdf"},
	"prove":           {"propsoff prove teasel", "propsoff prove my-craft.yaml my-radio.yaml --mend"},
	"card":            {"propsoff card --radio my-radio.yaml", "propsoff card --size page --paper letter --output folder.pdf"},
	"drill":           {"propsoff drill list", "propsoff drill run find-throttle"},
	"drill list":      {"propsoff drill list", "propsoff drill list --json"},
	"drill check":     {"propsoff drill check my-drill.yaml my-course.yaml"},
	"drill foresee":   {"propsoff drill foresee --questions 5", "propsoff drill foresee --pupil Ada"},
	"drill run":       {"propsoff drill run --pupil Ada", "propsoff drill run alarm-by-switch arm-by-switch --tries 5", "propsoff drill run --plain"},
	"logbook":         {"propsoff logbook --pupil Ada", "propsoff logbook --all --csv everybody.csv"},
	"logbook report":  {"propsoff logbook report --pupil Ada --output ada.pdf"},
	"logbook rename":  {"propsoff logbook rename Ada \"Ada B.\""},
	"logbook merge":   {"propsoff logbook merge \"Ada B.\" Ada"},
	"logbook forget":  {"propsoff logbook forget --pupil Ada"},
	"run":             {"propsoff run --demo", "propsoff run evening.take --live --plain"},
	"fly":             {"propsoff fly climb.yaml --table climb.csv", "propsoff fly evening.take --plot evening.png"},
	"repair":          {"propsoff repair evening.take"},
	"version":         {"propsoff version"},
	"help":            {"propsoff help watch"},
	"completion":      {"propsoff completion bash"},
	"completion bash": {"propsoff completion bash"}, "completion zsh": {"propsoff completion zsh"},
	"completion fish": {"propsoff completion fish"}, "completion powershell": {"propsoff completion powershell"},
}

// groupCommands puts the commands under what they are for, and gives each its examples.
func groupCommands(w *world.World, root *cobra.Command) {
	group := map[string]string{}
	for _, t := range tasks {
		root.AddGroup(&cobra.Group{ID: t.code, Title: w.Say(words.Of("usage.task", t.code))})
		for _, c := range t.commands {
			group[c] = t.code
		}
	}
	last := tasks[len(tasks)-1].code
	for _, c := range root.Commands() {
		if c.GroupID = group[c.Name()]; c.GroupID == "" {
			c.GroupID = last
		}
	}
	exemplify(root, "")
}

// exemplify writes the examples of a command, which has a path without the program's name, and of those under it.
func exemplify(c *cobra.Command, path string) {
	for i, line := range examples[path] {
		if i > 0 {
			c.Example += "\n"
		}
		c.Example += "  " + line
	}
	for _, under := range c.Commands() {
		name := under.Name()
		if path != "" {
			name = path + " " + name
		}
		exemplify(under, name)
	}
}
