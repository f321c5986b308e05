package propsoff_test

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// anchorOf is how a heading is linked to (as GitHub's and GitLab's renderers make it; common practice, no source): small letters, no signs, - for spaces.
func anchorOf(heading string) string {
	heading = regexp.MustCompile("[`*_]").ReplaceAllString(strings.ToLower(strings.TrimSpace(heading)), "")
	return strings.Map(func(r rune) rune {
		switch {
		case r == ' ' || r == '-':
			return '-'
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return r
		}
		return -1
	}, heading)
}

// Every link and picture of the documents leads somewhere in this tree, to a heading that is there; and every picture of docs is shown.
func TestLinksLead(t *testing.T) {
	pages := []string{"README.md", "DEVELOPERS.md"}
	for _, pattern := range []string{"docs/*.md", "docs/look-up/*.md"} {
		found, err := filepath.Glob(pattern)
		require.NoError(t, err)
		pages = append(pages, found...)
	}
	fence := regexp.MustCompile("(?s)```.*?```")
	shown, links := map[string]bool{}, 0
	headings := func(file string) map[string]bool {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		all := map[string]bool{}
		for _, h := range regexp.MustCompile(`(?m)^#+ (.*)$`).FindAllStringSubmatch(fence.ReplaceAllString(string(text), ""), -1) {
			all[anchorOf(h[1])] = true
		}
		return all
	}
	for _, page := range pages {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		for _, link := range regexp.MustCompile(`\]\(([^()\s]+)\)`).FindAllStringSubmatch(fence.ReplaceAllString(string(text), ""), -1) {
			file, anchor, _ := strings.Cut(link[1], "#")
			if strings.Contains(file, "://") {
				continue
			}
			links++
			to := page
			if file != "" {
				to = path.Join(path.Dir(filepath.ToSlash(page)), file)
			}
			st, err := os.Stat(to)
			if !assert.NoError(t, err, "%s: %s", page, link[1]) {
				continue
			}
			shown[to] = true
			assert.True(t, anchor == "" || !st.IsDir() && headings(to)[anchor], "%s: there is no heading %s in %s", page, anchor, to)
		}
	}
	assert.Greater(t, links, 40)
	pictures, err := filepath.Glob("docs/*.png")
	require.NoError(t, err)
	for _, p := range pictures {
		assert.True(t, shown[p], "no document shows %s", p)
	}
}
