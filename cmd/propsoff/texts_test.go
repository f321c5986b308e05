package main

import (
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
)

// Commands that were made without texts have the same texts as others, in the language of the line, once somebody asks for them.
func TestTextsAreWrittenLater(t *testing.T) {
	for _, book := range wordstest.Other() {
		w, out, _ := testWorld(t)
		w.Book = book
		with, later := newRoot(w), rootFor(w, []string{"drill"})
		require.Same(t, book, w.Book)
		require.NotEqual(t, with.Short, later.Short)
		later.SetArgs([]string{"drill"}) // without a command after it, it shows its help
		require.NoError(t, later.Execute())
		assert.NotContains(t, out.String(), "⟦")
		texts, flags := 0, 0
		everyCommand(with, later, func(a, b *cobra.Command) {
			texts++
			assert.Equal(t, a.CommandPath(), b.CommandPath())
			assert.Equal(t, [2]string{a.Short, a.Long}, [2]string{b.Short, b.Long}, a.CommandPath())
			a.Flags().VisitAll(func(f *pflag.Flag) {
				flags++
				theirs := b.Flags().Lookup(f.Name)
				require.NotNil(t, theirs, "%s --%s", a.CommandPath(), f.Name)
				assert.Equal(t, f.Usage, theirs.Usage, "%s --%s", a.CommandPath(), f.Name)
			})
		})
		assert.Greater(t, texts, 20)
		assert.Greater(t, flags, 50)
	}
}

// What an error says of a flag does not depend on whether its text was written yet.
func TestAFlagIsCalledByItsText(t *testing.T) {
	code, _, errs := command(t, "run", "demo", "--craft=")
	assert.NotZero(t, code)
	assert.NotContains(t, errs, "⟦")
	assert.Contains(t, errs, "write FILE, or")
}
