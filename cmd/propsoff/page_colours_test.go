package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
)

// Before the program has come, the page has the colours of the sheet that will be drawn by what the system says; from then on those that it is told.
func TestThePageBeginsInTheColoursOfTheSheet(t *testing.T) {
	text, err := os.ReadFile("../../assets/page/page.css")
	require.NoError(t, err)
	style, variable := string(text), regexp.MustCompile(`--([a-z]+): (#[0-9a-f]{6});`)
	for when, theme := range map[string]*ink.Theme{
		":root {": ink.Light(), "@media (prefers-color-scheme: dark) {": ink.Dark(), "@media (prefers-contrast: more) {": ink.BlackOnWhite(),
		"@media (prefers-contrast: more) and (prefers-color-scheme: dark) {": ink.WhiteOnBlack(),
	} {
		_, block, found := strings.Cut(style, "\n"+when)
		require.True(t, found, when)
		block, _, _ = strings.Cut(block, "}")
		got := map[string]string{}
		for _, m := range variable.FindAllStringSubmatch(block, -1) {
			got[m[1]] = strings.ToUpper(m[2])
		}
		assert.Equal(t, pageColours(theme), got, when)
	}
}
