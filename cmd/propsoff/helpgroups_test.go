//go:build unix

package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
)

// split is a line as a shell has it, with double quotes.
func split(line string) (args []string) {
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			args = append(args, part)
		} else {
			args = append(args, strings.Fields(part)...)
		}
	}
	return args
}

// each does something for a command and all under it, with their paths without the program's name.
func each(c *cobra.Command, do func(path string, c *cobra.Command)) {
	do(strings.TrimPrefix(strings.TrimPrefix(c.CommandPath(), "propsoff"), " "), c)
	for _, under := range c.Commands() {
		each(under, do)
	}
}

// Every command stands under what it is for, and its help has examples, each of which is a line that the program takes.
func TestEveryCommandHasItsTaskAndExamples(t *testing.T) {
	w, _, _ := testWorld(t)
	root := newRoot(w)
	known := map[string]bool{}
	each(root, func(path string, c *cobra.Command) {
		known[path] = true
		if c.Hidden {
			return
		}
		if c.Parent() == root {
			assert.True(t, root.ContainsGroup(c.GroupID), path)
		}
		assert.NotEmpty(t, examples()[path], "%q has no example: write one in helpgroups.go", path)
		for _, line := range examples()[path] {
			args := split(line)
			require.Equal(t, "propsoff", args[0], line)
			fresh := newRoot(w)
			found, rest, err := fresh.Find(args[1:])
			require.NoError(t, err, line)
			if path != "drill" && path != "completion" { // which only have commands under them
				assert.Equal(t, c.CommandPath(), found.CommandPath(), line)
			}
			require.NoError(t, found.ParseFlags(rest), line)
			assert.NoError(t, found.ValidateArgs(found.Flags().Args()), line)
		}
	})
	for path := range examples() {
		assert.True(t, known[path], "%q is no command any more", path)
	}
	var listed []string
	for _, task := range tasks {
		listed = append(listed, task.commands...)
	}
	for _, name := range listed {
		assert.True(t, known[name], "%q is no command any more", name)
	}
	assert.Len(t, slices.Compact(slices.Sorted(slices.Values(listed))), len(listed), "each stands under one task")
}

// Those that need neither a radio nor a file are run as they stand.
func TestExamplesThatNeedNothingAreRun(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	for _, line := range []string{"propsoff radios", "propsoff gestures", "propsoff gestures --stick-mode 1", "propsoff link-loss", "propsoff link-loss --height 25 --off 5s", "propsoff prove teasel",
		"propsoff drill list", "propsoff drill list --json", "propsoff run --demo", "propsoff version", "propsoff help watch", "propsoff completion bash"} {
		stands := false
		for _, all := range examples() {
			stands = stands || slices.Contains(all, line)
		}
		assert.True(t, stands, "%q is no example", line)
		code, out, errs := command(t, split(line)[1:]...)
		assert.Equal(t, exit.CodeDone, code, "%s: %s", line, errs)
		if line != "propsoff radios" { // none is plugged in
			assert.NotEmpty(t, out, line)
		}
	}
}

// The list of commands goes by task, in the order of tasks and of the commands in each, in every language.
func TestHelpGoesByTask(t *testing.T) {
	room := wordstest.Of("usage")
	for _, book := range wordstest.Books() {
		code, out, errs := command(t, "--help", "--language", book.Code())
		require.Equal(t, exit.CodeDone, code, errs)
		at := 0
		for _, task := range tasks {
			title := words.Of("usage.task", task.code)
			room.Text(t, title)
			next := strings.Index(out, "\n"+book.Say(title)+"\n")
			assert.Greater(t, next, at, "%s: %s", book.Code(), task.code)
			at = next
			for _, c := range task.commands {
				next := strings.Index(out[at:], "\n  "+c+" ")
				assert.Positive(t, next, "%s: %s", book.Code(), c)
				at += next
			}
		}
		for _, id := range []words.ID{"look-up.topics", "usage.usage", "usage.examples", "usage.flags"} { // a beginner first, whoever looks something up last
			head, _, _ := strings.Cut(book.Say(words.T(id, words.Args{"command": words.Quote("propsoff")})), "\n")
			next := strings.Index(out[at:], "\n\n"+head+"\n")
			assert.Positive(t, next, "%s: %s", book.Code(), id)
			at += max(next, 0)
		}
		_, out, _ = command(t, "fly", "--help", "--language", book.Code())
		room.Text(t, words.T("usage.examples"))
		assert.Contains(t, out, book.Say(words.T("usage.examples"))+"\n  propsoff fly climb.yaml --table climb.csv\n")
		_, out, _ = command(t, "fly", "-z", "--language", book.Code())
		assert.NotContains(t, out, "usage.")
	}
}

// A shell is offered what there is: drills, pupils, radios that are plugged in, crafts.
func TestAShellCompletesNames(t *testing.T) {
	data := t.TempDir()
	t.Setenv("XDG_DATA_HOME", data)
	t.Setenv("HOME", data)
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event5", "A"))
	completes := func(args ...string) []string {
		w, out, _ := testWorld(t)
		w.Radios = b
		require.Equal(t, exit.CodeDone, execute(t.Context(), append([]string{cobra.ShellCompNoDescRequestCmd}, args...), w))
		return strings.Split(strings.TrimSpace(out.String()), "\n")
	}
	folder := filepath.Join(data, "propsoff", "logbooks")
	require.NoError(t, os.MkdirAll(folder, 0o700))
	w, _, _ := testWorld(t)
	require.Equal(t, exit.CodeDone, execute(t.Context(), []string{"drill", "foresee", "--pupil", "Ada", "--questions", "1"}, w))
	assert.Contains(t, completes("drill", "run", ""), "find-throttle")
	assert.NotContains(t, completes("drill", "run", "find-throttle", ""), "find-throttle", "once is enough")
	assert.Contains(t, completes("logbook", "--drill", ""), "find-throttle")
	for _, args := range [][]string{{"watch", "--device", ""}, {"learn", "--device", ""}, {"check", "--device", ""}, {"drill", "run", "--device", ""}, {"card", "--device", ""}} {
		assert.Contains(t, completes(args...), "Moorland Desk 7", "%q", args)
	}
	for _, args := range [][]string{{"watch", "--craft", ""}, {"run", "--craft", ""}, {"card", "--craft", ""}, {"prove", ""}} {
		assert.Contains(t, completes(args...), "teasel", "%q", args)
	}
	for _, args := range [][]string{{"drill", "run", "--pupil", ""}, {"logbook", "--pupil", ""}, {"card", "--pupil", ""}, {"drill", "foresee", "--pupil", ""}, {"--pupil", ""}} {
		assert.Contains(t, completes(args...), "Ada", "%q", args)
	}
	assert.Contains(t, completes("watch", "--radio", ""), "yaml")
}
