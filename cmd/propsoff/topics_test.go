package main

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/lookup"
)

// The page of commands is what the commands say; -update writes it anew.
func TestThePageOfCommands(t *testing.T) {
	for _, b := range wordstest.Books() {
		w, _, _ := testWorld(t)
		w.Book = b
		all := topicsOf(w, newRoot(w))
		at := slices.IndexFunc(all, func(topic lookup.Topic) bool { return topic.Name == "commands" })
		want, path := lookup.Markdown(all[at], b), "../../docs/look-up/"+lookup.Page("commands", b)
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(want), 0o600))
		}
		is, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, want == string(is), "%s is not what the commands say: scripts/tables writes it anew", path)
		each(newRoot(w), func(path string, c *cobra.Command) {
			assert.True(t, !c.IsAvailableCommand() || regexp.MustCompile(`(?m)^## `+c.CommandPath()+`( |$)`).MatchString(want), path)
		})
	}
}

// Every topic is shown and listed, in every language, apart from the commands; a shell is offered it.
func TestHelpTellsOfTopics(t *testing.T) {
	for _, b := range wordstest.Books() {
		w, _, _ := testWorld(t)
		_, listed, _ := command(t, "help", "--language", b.Code())
		_, more, ok := strings.Cut(listed, "\n"+b.Say(words.T("look-up.topics")))
		require.True(t, ok, listed)
		_, offered, _ := command(t, "__complete", "--language", b.Code(), "help", "")
		for _, topic := range topicsOf(w, newRoot(w)) {
			code, out, errs := command(t, "help", topic.Name, "--language", b.Code())
			assert.Equal(t, exit.CodeDone, code, errs)
			assert.True(t, strings.HasPrefix(out, b.Say(topic.Title)+"\n\n"), out)
			assert.NotContains(t, out, "⟦")
			assert.Contains(t, more, "\n  "+topic.Name+" ", b.Code())
			assert.Contains(t, offered, "\n"+topic.Name+"\t", b.Code())
		}
	}
	for args, says := range map[string]string{
		"craft": "The craft file\n", "drills": "The drill file and the course file\n", // shorter words
		"gestures": "List the two-stick gestures:", "radios take": "Read a radio file,", // commands
	} {
		_, out, errs := command(t, append([]string{"help"}, strings.Fields(args)...)...)
		assert.True(t, strings.HasPrefix(out, says), "%s: %s%s", args, out, errs)
	}
	_, out, _ := command(t, "gestures", "--help")
	assert.Contains(t, out, "See also “propsoff help gesture-file”.")
	code, _, errs := command(t, "help", "keys", "codes")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "there is no command and no topic")
	w, got, _ := testWorld(t)
	w.Screen = func() (int, int, bool) { return 40, 20, true }
	require.Equal(t, exit.CodeDone, execute(t.Context(), []string{"help", "exit"}, w))
	for line := range strings.Lines(got.String()) {
		assert.LessOrEqual(t, len([]rune(strings.TrimSpace(line))), 40, line)
	}
	for name := range seeTopic {
		w, _, _ := testWorld(t)
		_, ok := lookup.Find(lookup.Topics(), seeTopic[name])
		assert.True(t, ok, name)
		found, _, err := newRoot(w).Find([]string{name})
		require.NoError(t, err)
		assert.Equal(t, name, found.Name())
	}
}
