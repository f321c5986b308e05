package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/input/radio"
)

// The examples in the README are run as they stand, so that a reader can copy them.
func TestReadmeExamples(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	scripts, radios := 0, 0
	for _, block := range regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllSubmatch(readme, -1) {
		text := block[1]
		switch {
		case bytes.HasPrefix(text, []byte("propsoff: script 1")):
			scripts++
			file := filepath.Join(t.TempDir(), "readme.yaml")
			require.NoError(t, os.WriteFile(file, text, 0o600))
			var out, bad bytes.Buffer
			w := realWorld()
			w.out, w.err = &out, &bad
			assert.Equal(t, exitDone, execute(context.Background(), []string{"run", file}, w), "%s%s", out.String(), bad.String())
		case bytes.HasPrefix(text, []byte("propsoff: radio 1")):
			radios++
			_, err := radio.Parse("README.md", text, radio.Known{})
			assert.NoError(t, err)
		}
	}
	assert.Equal(t, 1, scripts)
	assert.Equal(t, 1, radios)
	for _, code := range append(phrase.Refusals(), phrase.Happenings()...) {
		assert.True(t, strings.Contains(string(readme), "`"+code+"`"), "the README has no row for the code %s", code)
	}
	for _, caution := range phrase.Cautions() {
		words := regexp.MustCompile(`\s+|\*\*`).ReplaceAllString(string(readme), " ")
		assert.Contains(t, strings.ReplaceAll(words, "  ", " "), caution, "the README must carry every caution as the sheet does")
	}
}
