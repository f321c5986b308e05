package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

// The folder has every text of the English catalogues and of what ships, under the same names, each in English behind a mark.
func TestANewLanguageOwesEveryText(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "qaa") // a code that no language has
	n, err := write("../../assets/words", folder, "qaa")
	require.NoError(t, err)

	seen := 0
	for _, m := range words.Messages(words.English().Tag()) {
		room, name, _ := strings.Cut(m.ID, ".")
		var all map[string]any
		text, err := os.ReadFile(filepath.Join(folder, room+".yaml"))
		require.NoError(t, err)
		require.NoError(t, yaml.Unmarshal(text, &all))
		var found any = all
		for _, part := range strings.Split(name, ".") {
			found = found.(map[string]any)[part]
		}
		forms, several := found.(map[string]any)
		if !several {
			forms = map[string]any{"other": found}
		}
		seen += len(forms)
		for form, english := range map[string]string{"one": m.One, "other": m.Other} {
			if english != "" {
				assert.Equal(t, wordstest.Owed+english, forms[form], m.ID)
			}
		}
	}
	for file, texts := range words.ShippedIn(wordstest.Other()[0].Tag()) {
		var all map[string]string
		text, err := os.ReadFile(filepath.Join(folder, "shipped", file+".yaml"))
		require.NoError(t, err)
		require.NoError(t, yaml.Unmarshal(text, &all))
		assert.Len(t, all, len(texts), file)
		for english := range texts {
			seen++
			assert.Equal(t, wordstest.Owed+english, all[english], file)
		}
	}
	assert.Equal(t, n, seen)
	assert.Greater(t, n, 1500)
	assert.FileExists(t, filepath.Join(folder, "testdata/english.txt"))

	_, err = write("../../assets/words", folder, "qaa")
	assert.ErrorIs(t, err, fs.ErrExist, "what is there is not written over")
	for _, bad := range []string{"zz", "de-AT", "German", "../de"} {
		_, err = write("../../assets/words", filepath.Join(t.TempDir(), "x"), bad)
		assert.Error(t, err, bad)
	}
}
