package main

import (
	_ "embed" // the examples
	"strings"

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
	{"elsewhere", []string{"serve", "keep", "pack", "give"}},
	{"program", []string{"version", "licences", "completion", "help"}},
}

// exampleLines are lines that may be typed, by the command.
//
//go:embed examples.txt
var exampleLines string

// examples are what is shown in the help of a command, by its path without the program's name. Each is parsed in a test, and those that need nothing are run.
func examples() map[string][]string {
	all := map[string][]string{}
	for l := range strings.Lines(exampleLines) {
		if path, line, ok := strings.Cut(strings.TrimSpace(l), "| "); ok {
			path = strings.TrimSpace(path)
			all[path] = append(all[path], line)
		}
	}
	return all
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
	exemplify(root, "", examples())
}

// exemplify writes the examples of a command, which has a path without the program's name, and of those under it.
func exemplify(c *cobra.Command, path string, all map[string][]string) {
	c.Example = "" // the library's own commands come late, and all are gone through again
	for i, line := range all[path] {
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
		exemplify(under, name, all)
	}
}
