package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
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
		root := speakingRoot(t, book)
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
	set, restore := asShown(c, book)
	defer restore()
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
	return set.Replace(strings.Join(slices.Clip(lines), "\n"))
}

// asShown has the flags of a command written as its help shows them: the library's writer puts the value that a flag has by itself behind its name, and
// quotes round it; so each is given a mark there in the place of that, which is replaced on the page. restore makes the flags what they were.
func asShown(c *cobra.Command, book *words.Book) (set *strings.Replacer, restore func()) {
	marks := []string{"=@", ""}
	was := map[*pflag.Flag]pflag.Flag{}
	mark := func(f *pflag.Flag) {
		if _, done := was[f]; done {
			return
		}
		was[f] = *f
		name, usage := pflag.UnquoteUsage(f)
		if own := f.DefValue; hasOwn(f) {
			if f.Value.Type() == "string" {
				own = strconv.Quote(own)
			}
			usage += " " + book.Say(words.T("usage.default", words.Args{"value": words.Quote(own)}))
		}
		f.Usage, f.Value, f.NoOptDefVal, f.DefValue = usage, shownValue{f.Value}, "", "@"
		if name != "" {
			f.DefValue = "@" + name + "@"
			marks = append([]string{"=@" + name + "@", ` \fI` + name + `\fP`}, marks...)
		}
	}
	c.NonInheritedFlags().VisitAll(mark)
	c.InheritedFlags().VisitAll(mark)
	return strings.NewReplacer(marks...), func() {
		for f, is := range was {
			*f = is
		}
	}
}

// shownValue is a value of which the writer does not know that it is a string.
type shownValue struct{ pflag.Value }

func (shownValue) Type() string { return "" }

// speakingRoot is the root command with the library's own commands, in a language.
func speakingRoot(t *testing.T, book *words.Book) *cobra.Command {
	w, _, _ := testWorld(t)
	w.Book = book
	root := newRoot(w)
	root.InitDefaultCompletionCmd()
	speakForLibrary(w, root)
	return root
}

// A page of the manual shows flags as help does: what a flag takes behind its name, nothing behind one that takes nothing, no value in the place of either.
func TestManualShowsFlagsAsHelpDoes(t *testing.T) {
	day, err := time.Parse(time.DateOnly, *manualDate)
	require.NoError(t, err)
	for _, book := range wordstest.Books() {
		root := speakingRoot(t, book)
		everyOne(root, func(c *cobra.Command) {
			var takes []string
			lists := func(f *pflag.Flag) {
				if name, _ := pflag.UnquoteUsage(f); !f.Hidden {
					takes = append(takes, strings.TrimSpace("--"+f.Name+" "+name))
				}
			}
			c.NonInheritedFlags().VisitAll(lists)
			c.InheritedFlags().VisitAll(lists)
			page := strings.NewReplacer(`\-`, "-", `\fB`, "", `\fI`, "", `\fP`, "").Replace(manualPage(t, c, book, day))
			for _, flag := range takes {
				assert.Regexp(t, "(?m)^(-., )?"+regexp.QuoteMeta(flag)+"$", page, c.CommandPath())
			}
			assert.NotRegexp(t, `(?m)^(-., )?--[a-z-]+\[?=`, page, c.CommandPath())
			assert.NotContains(t, page, "=@", c.CommandPath())
			for _, example := range examples()[strings.TrimPrefix(strings.TrimPrefix(c.CommandPath(), "propsoff"), " ")] {
				assert.Equal(t, 1, strings.Count(page, "\n  "+example+"\n"), "%s: %s", c.CommandPath(), example)
			}
		})
	}
}
