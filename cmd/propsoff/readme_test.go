package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/house"
)

// readme is the README with what it leads to, and their examples of each kind of file, by the first word of their first line.
func readme(t *testing.T) (text string, examples map[string][]string) {
	var b []byte
	for _, file := range []string{"README.md", "docs/learn.md", "docs/do.md", "docs/why.md", "docs/measured.md", "docs/look-up/formats.md"} {
		one, err := os.ReadFile(filepath.Join("../..", file))
		require.NoError(t, err)
		b = append(append(b, one...), '\n')
	}
	examples = map[string][]string{}
	for _, block := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(string(b), -1) {
		first, _, _ := strings.Cut(block[1], "\n")
		kind := strings.Fields(strings.TrimPrefix(first, "propsoff:"))[0]
		examples[kind] = append(examples[kind], block[1])
	}
	return string(b), examples
}

// The examples in the README are run as they stand, so that a reader can copy them: the script plays, and the radio proves the craft.
func TestReadmeExamples(t *testing.T) {
	text, examples := readme(t)
	var kinds []string
	for k, all := range examples {
		kinds = append(kinds, k)
		assert.Len(t, all, 1, k)
	}
	require.ElementsMatch(t, []string{"radio", "craft", "script"}, kinds, "every kind of example has its test here")
	dir := t.TempDir()
	file := func(kind string) string {
		path := filepath.Join(dir, kind+".yaml")
		require.NoError(t, os.WriteFile(path, []byte(examples[kind][0]), 0o600))
		return path
	}
	code, out, errs := command(t, "run", file("script"))
	assert.Equal(t, exit.CodeDone, code, "%s%s", out, errs)

	// With the craft beside it and with the shipped one nothing is broken: a throttle that rests near its low end stays where it is put.
	for _, craft := range []string{file("craft"), "teasel"} {
		code, out, errs = command(t, "prove", craft, file("radio"), "--gestures", "examples")
		assert.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
		said := strings.Join(strings.Fields(out), " ")
		assert.Contains(t, said, "No rule is broken.")
		assert.Contains(t, said, "radio Moorland Desk 7, as far as its file says: full travel is assumed for roll, pitch, yaw and channel 7 switch (lights).")
		assert.Contains(t, said, "Nothing about the switch layout is called out.")
		code, out, errs = command(t, "card", "--craft", craft, "--radio", file("radio"), "-o", filepath.Join(dir, "card.svg"), "--over")
		assert.Equal(t, exit.CodeDone, code, "%s%s", out, errs)
	}
	// The job in the text goes into a craft file as it stands.
	jobs := regexp.MustCompile("`(jobs: [^`]*)`").FindStringSubmatch(text)
	require.NotNil(t, jobs)
	var rest []string
	for _, line := range strings.Split(examples["craft"][0], "\n") {
		if !strings.HasPrefix(line, "jobs:") {
			rest = append(rest, line)
		}
	}
	examples["craft"][0] = strings.Join(rest, "\n") + jobs[1] + "\n"
	c, err := bareWorld().LoadCraft(file("craft"), "")
	require.NoError(t, err)
	require.Len(t, c.More(), 1)
	assert.Equal(t, "finder sound", c.More()[0].Name)
}

// Every command and flag that the README names is there, and every file of the tree.
func TestReadmeCommands(t *testing.T) {
	text, _ := readme(t)
	w, _, _ := testWorld(t)
	root := newRoot(w)
	flags := map[string]bool{"help": true, "version": true}
	var all func(c *cobra.Command)
	all = func(c *cobra.Command) {
		c.LocalFlags().VisitAll(func(f *pflag.Flag) { flags[f.Name] = true })
		for _, sub := range c.Commands() {
			all(sub)
		}
	}
	all(root)
	commands, named, paths := 0, 0, 0
	text = regexp.MustCompile("(?s)```yaml\n.*?```").ReplaceAllString(text, "")
	text = regexp.MustCompile("```([^`]*)```").ReplaceAllStringFunc(text, func(block string) string { // a line each
		return "`" + strings.Join(strings.Split(strings.Trim(block, "`\n"), "\n"), "` `") + "`"
	})
	for _, span := range regexp.MustCompile("`([^`\n]+)`").FindAllStringSubmatch(text, -1) {
		said, _, _ := strings.Cut(span[1], " #")
		for _, word := range strings.Fields(said) {
			if name, ok := strings.CutPrefix(word, "--"); ok && !strings.Contains(said, "sudo") && !strings.HasPrefix(said, "go ") {
				name, _, _ = strings.Cut(name, "=")
				named++
				assert.True(t, flags[name], "%s: there is no flag --%s", said, name)
			}
			path := strings.TrimSuffix(strings.TrimPrefix(word, "./"), "/...")
			if strings.Contains(word, "VERSION") { // a package, which is made
				continue
			}
			if strings.HasPrefix(word, "./") || strings.HasPrefix(word, "scripts/") || strings.HasPrefix(word, "assets/") {
				paths++
				_, err := os.Stat(filepath.Join("../..", path))
				assert.NoError(t, err, said)
			}
		}
		args, ok := strings.CutPrefix(said, "propsoff ")
		if !ok {
			continue
		}
		commands++
		fields := strings.Fields(strings.NewReplacer("[", "", "]", "").Replace(args))
		cmd, rest, err := root.Find(fields)
		require.NoError(t, err, said)
		assert.NotEqual(t, root, cmd, said)
		assert.NoError(t, cmd.ParseFlags(rest), said)
	}
	assert.Greater(t, commands, 15)
	assert.Greater(t, named, 15)
	assert.Greater(t, paths, 10)
}

// lookedUp is a page of docs/look-up, in English.
func lookedUp(t *testing.T, name string) string {
	text, err := os.ReadFile("../../docs/look-up/" + name + ".md")
	require.NoError(t, err)
	return string(text)
}

// The tables name every sheet that --open opens, and have a row for each key of the bench.
func TestTheTablesNameEverySheet(t *testing.T) {
	commands, keys := lookedUp(t, "commands"), lookedUp(t, "keys")
	for _, name := range house.Openable() {
		assert.Contains(t, keys, "`--open "+name+"`")
		assert.Contains(t, commands, name)
	}
	for _, act := range house.Sheets().Keys(ui.OnBench) {
		sign := strings.NewReplacer("[", `\[`, "`", "\\`").Replace(words.English().Say(ui.Caps(nil).Word(act.Physical)))
		assert.Contains(t, keys, "\n| "+sign+" | ", "%s (%s)", act.Physical, act.Action)
	}
}

func TestTheTablesNameEveryCode(t *testing.T) {
	page := lookedUp(t, "codes")
	for _, code := range append(codes.Refusals(), codes.Happenings()...) {
		assert.True(t, strings.Contains(page, "| `"+code+"` |"), "docs/look-up/codes.md has no row for the code %s", code)
	}
}

// The README carries every caution as the sheet does.
func TestReadmeHasTheCautions(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	for _, caution := range tell.Cautions() {
		text := regexp.MustCompile(`\s+|\*\*`).ReplaceAllString(string(readme), " ")
		assert.Contains(t, strings.ReplaceAll(text, "  ", " "), words.English().Say(caution))
	}
}
