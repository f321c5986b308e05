package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/world"
)

var (
	manualFor  = flag.String("manual", "", "the folder into which the pages of the manual are written, one folder a language")
	manualDate = flag.String("manual-date", "2026-11-30", "the date that stands on each page")
)

// Every command has its page of the manual in every language, with each of its flags, in sections that bear the language's own names.
func TestManual(t *testing.T) {
	to := *manualFor
	if to == "" {
		to = t.TempDir()
	}
	day, err := time.Parse(time.DateOnly, *manualDate)
	require.NoError(t, err)
	room, headings := wordstest.Of("manual"), manualHeadings()
	for _, heading := range headings {
		room.Text(t, heading)
	}
	room.Text(t, manualTitle())
	room.Whole(t)
	for _, book := range wordstest.Books() {
		w, _, _ := testWorld(t)
		w.Book = book
		root := newRoot(w)
		root.InitDefaultCompletionCmd()
		speakForLibrary(w, root)
		dir := filepath.Join(to, book.Code())
		require.NoError(t, os.MkdirAll(dir, 0o755))
		seen := 0
		everyOne(root, func(c *cobra.Command) {
			seen++
			page := manualPage(t, c, book, day)
			assert.NotContains(t, page, "⟦", c.CommandPath())
			c.LocalFlags().VisitAll(func(f *pflag.Flag) {
				if !f.Hidden {
					assert.Contains(t, strings.ReplaceAll(page, `\-`, "-"), "--"+f.Name, c.CommandPath())
				}
			})
			for name, heading := range headings {
				if said := book.Say(heading); said != name {
					assert.NotContains(t, page, "\n.SH "+name+"\n", c.CommandPath())
				}
			}
			name := strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1"
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(page), 0o644))
		})
		assert.Greater(t, seen, 20)
	}
}

// everyOne does something with a command and all below it that help shows.
func everyOne(c *cobra.Command, do func(*cobra.Command)) {
	do(c)
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() && !sub.IsAdditionalHelpTopicCommand() {
			everyOne(sub, do)
		}
	}
}

func manualPage(t *testing.T, c *cobra.Command, book *words.Book, day time.Time) string {
	c.DisableAutoGenTag = true
	var b bytes.Buffer
	require.NoError(t, doc.GenMan(c, &doc.GenManHeader{
		Title: strings.ToUpper(strings.ReplaceAll(c.CommandPath(), " ", "-")), Section: "1", Date: &day,
		Source: "propsoff " + world.Version, Manual: book.Say(manualTitle()),
	}, &b))
	lines := strings.Split(b.String(), "\n")
	for i, line := range lines {
		if name, ok := strings.CutPrefix(line, ".SH "); ok {
			if heading, ok := manualHeadings()[name]; ok {
				lines[i] = ".SH " + book.Say(heading)
			}
		}
	}
	return strings.Join(slices.Clip(lines), "\n")
}
