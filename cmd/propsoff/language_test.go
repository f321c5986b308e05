package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
)

// everyCommand walks two trees of the same commands.
func everyCommand(a, b *cobra.Command, each func(a, b *cobra.Command)) {
	each(a, b)
	for i, under := range a.Commands() {
		everyCommand(under, b.Commands()[i], each)
	}
}

// Every command and flag is described in every language, and what is to be written in its place is called the same.
func TestHelpInEveryLanguage(t *testing.T) {
	for _, book := range wordstest.Other() {
		t.Run(book.Code(), func(t *testing.T) { helpIn(t, book) })
	}
}

func helpIn(t *testing.T, book *words.Book) {
	w, _, _ := testWorld(t)
	in := *w
	in.Book = book
	commands, flags := 0, 0
	everyCommand(newRoot(w), newRoot(&in), func(en, other *cobra.Command) {
		commands++
		assert.Equal(t, en.Use, other.Use)
		assert.NotEqual(t, en.Short, other.Short, en.CommandPath())
		assert.Equal(t, en.Long == "", other.Long == "", en.CommandPath())
		if en.Long != "" {
			assert.NotEqual(t, en.Long, other.Long, en.CommandPath())
		}
		en.Flags().VisitAll(func(f *pflag.Flag) {
			flags++
			theirs := other.Flags().Lookup(f.Name)
			require.NotNil(t, theirs, f.Name)
			name, usage := pflag.UnquoteUsage(f)
			called, said := pflag.UnquoteUsage(theirs)
			assert.Equal(t, name, called, "%s --%s", en.CommandPath(), f.Name)
			assert.NotEqual(t, usage, said, "%s --%s", en.CommandPath(), f.Name)
			assert.Equal(t, strings.ToUpper(name[:min(1, len(name))]), name[:min(1, len(name))], "%s --%s: a placeholder is no word of the library", en.CommandPath(), f.Name)
		})
		if en.Hidden || en.CommandPath() == "propsoff help" {
			return
		}
		args := append(strings.Fields(en.CommandPath())[1:], "--help", "--language", book.Code())
		code, out, errs := command(t, args...)
		assert.Zero(t, code, errs)
		assert.NotContains(t, out, "⟦", en.CommandPath())
		for _, english := range []string{"Usage:", "Flags:", "Commands:", "[flags]", "[command]", "help for", "version for", "(default ", "says more about", "Exit status"} {
			assert.NotContains(t, out, english, en.CommandPath())
		}
		assert.Contains(t, out, ":\n  "+en.CommandPath(), "how it is called stands under its heading")
		assert.True(t, book.Code() != "de" || strings.Contains(out, "\nAufruf:\n  "+en.CommandPath()), out)
	})
	assert.Greater(t, commands, 20)
	assert.Greater(t, flags, 60)
}

// What is refused and what went wrong is said in the language that the line asks for, wherever in it that stands, or that of the system.
func TestCommandsSpeakTheLanguage(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.yaml")
	require.NoError(t, os.WriteFile(bad, []byte("steps:\n  - {at: 1s, trottle: 1200}\n"), 0o666))
	or := words.Or(words.AsAre(languages()...)...) // those that there are
	for _, c := range []struct {
		lang string
		args []string
		code int
		says string
	}{
		{"", []string{"--language", "de", "run", "--jsn"}, 2, "es gibt keine Option --jsn: Meintest du --json? Siehe „propsoff run --help“\n"},
		{"", []string{"run", "--jsn", "--language=de"}, 2, "es gibt keine Option --jsn: Meintest du --json? Siehe „propsoff run --help“\n"},
		{"", []string{"watch", "-z", "--language", "de-AT"}, 2, "es gibt keine kurze Option „z“ in -z; siehe „propsoff watch --help“\n"},
		{"", []string{"--language", "de", "card", "-o"}, 2, "der Option „o“ in -o fehlt ihr Wert; siehe „propsoff card --help“\n"},
		{"", []string{"--language", "de", "watch", "--for", "2"}, 2, "--for 2: schreibe eine Zeit mit Einheit, zum Beispiel 10s\n"},
		{"", []string{"--language", "de", "drill", "run", "--tries", "x"}, 2, "--tries x: schreibe eine ganze Zahl von 0 bis 65535\n"},
		{"", []string{"--language", "de", "wach"}, 2, "es gibt keinen Befehl „wach“: Meintest du „watch“? Befehle: "},
		{"", []string{"--language", "de", "run", "nope.yaml"}, 2, "nope.yaml: Skript oder Aufnahme nicht gefunden; prüfe den Pfad\n"},
		{"", []string{"--language", "de", "run", bad}, 2, bad + ":2:14: unbekanntes Feld"},
		{"", []string{"--language", "de", "--size", "1x1"}, 2, "--size 1x1: 960x600 ist das Mindeste\n"},
		{"", []string{"--language", "de", "radios"}, 0, words.In("de").Say(words.T("notice.no-radio-now")) + "\n"},
		{"de_DE.UTF-8", []string{"run"}, 2, "gib den Pfad eines Pilotenskripts oder einer Aufnahme an"},
		{"de_DE.UTF-8", []string{"run", "--language", "en"}, 2, "give the path of a pilot script or a take"},
		{"de_DE.UTF-8", []string{"de"}, 2, "es gibt keinen Befehl „de“"},
		{"", []string{"de"}, 2, "there is no command “de”"},
		{"C", []string{"run"}, 2, "give the path of a pilot script or a take"},

		{"", []string{"run", "--language", "zz"}, 2, "--language: there is no “zz” among the languages; write " + words.English().Say(or) + "\n"},
		{"de_DE.UTF-8", []string{"run", "--language", "zz"}, 2, "--language: „zz“ ist keine der Sprachen; schreibe " + words.In("de").Say(or) + "\n"},
		{"", []string{"run", "--language", ""}, 2, "--language: there is no “” among the languages; write " + words.English().Say(or) + "\n"},
		{"", []string{"run", "--language"}, 2, "--language needs a value; see “propsoff run --help”\n"},
		{"", []string{"run", "--", "--language", "de"}, 2, "give one file at a time\n"},
	} {
		w, _, errs := testWorld(t)
		w.Getenv = func(name string) string { return map[string]string{"LANG": c.lang}[name] }
		code := execute(context.Background(), c.args, w)
		assert.Equal(t, c.code, code, "%v", c.args)
		assert.True(t, strings.HasPrefix(errs.String(), c.says), "%v says %q", c.args, errs)
	}
	_, out, _ := command(t, "__complete", "--language", "")
	assert.True(t, strings.HasPrefix(out, strings.Join(languages(), "\n")+"\n:"), out)
	assert.Subset(t, languages(), []string{"en", "de"})
	_, out, _ = command(t, "--version", "--language", "de")
	assert.Equal(t, "propsoff Version 0.1.0\n", out)
}

// What commands print is in the language too, on paper as well.
func TestCommandsPrintInTheLanguage(t *testing.T) {
	dir := t.TempDir()
	card := filepath.Join(dir, "card.svg")
	code, out, errs := command(t, "card", "--language", "de", "--craft", "teasel", "-o", card)
	assert.Zero(t, code, errs)
	assert.Equal(t, words.In("de").Say(words.T("card.saved", words.Args{"path": words.Quote(card)}))+"\n", out)
	drawn, err := os.ReadFile(card)
	require.NoError(t, err)
	assert.Contains(t, string(drawn), "<title>Schalterkarte")

	code, out, errs = command(t, "prove", "--language", "de", "teasel", "--gestures", "examples")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "Keine Regel ist gebrochen.")
	assert.NotContains(t, strings.ReplaceAll(out, "--every-rule", ""), "rule")

	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"gestures"}, "Knüppelmodus 2"},
		{[]string{"drill", "list"}, "Finde das Gas"},
		{[]string{"link-loss"}, "schwebte in 10"},
		{[]string{"version"}, "propsoff 0.1.0"},
		{[]string{"run", "demo"}, "Bis zum Ende gelaufen"},
		{[]string{"drill", "check", "../../assets/drills/find-throttle.yaml"}, "Finde das Gas"},
	} {
		code, out, errs := command(t, append(c.args, "--language", "de")...)
		assert.Zero(t, code, errs)
		assert.Contains(t, out+errs, c.says, "%v", c.args)
		assert.NotContains(t, out+errs, "⟦", "%v", c.args)
	}
}

// What other programs read is the same in every language.
func TestJSONIsTheSameInEveryLanguage(t *testing.T) {
	for _, args := range [][]string{
		{"gestures"}, {"drill", "list"}, {"link-loss"}, {"radios"}, {"run", "demo"}, {"run", "testdata/runs/failing.yaml"}, {"prove", "teasel", "--gestures", "examples"},
		{"prove", "testdata/layouts/gap-above.craft.yaml", "testdata/layouts/full.radio.yaml"},
	} {
		code, out, _ := command(t, append(args, "--json")...)
		assert.NotEmpty(t, out, "%v", args)
		for _, book := range wordstest.Other() {
			other, theirs, _ := command(t, append(args, "--json", "--language", book.Code())...)
			assert.Equal(t, code, other, "%v in %s", args, book.Code())
			assert.Equal(t, out, theirs, "%v in %s", args, book.Code())
		}
	}
}
