package main

import (
	"context"
	"encoding/json"
	"runtime"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/licences"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/world"
)

func TestVersionForPrograms(t *testing.T) {
	code, out, errs := command(t, "version", "--json")
	require.Zero(t, code, errs)
	var said map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &said))
	assert.Equal(t, world.Version, said["version"])
	assert.Equal(t, []any{runtime.GOOS, runtime.GOARCH, runtime.Version()}, []any{said["os"], said["arch"], said["go"]})
	for _, field := range []string{"commit", "date", "changed", "tags", "cgo"} {
		assert.Contains(t, said, field)
	}
	assert.Len(t, said, 9)
}

// What the linker was told is of what ships, and wins over what Go has seen of a folder.
func TestCommitOfABuild(t *testing.T) {
	info := &debug.BuildInfo{Settings: []debug.BuildSetting{
		{Key: "vcs.revision", Value: "aaaa"}, {Key: "vcs.time", Value: "2026-11-30T00:00:00Z"}, {Key: "vcs.modified", Value: "true"},
		{Key: "-tags", Value: "window,page"}, {Key: "CGO_ENABLED", Value: "1"},
	}}
	b := thisBuild(info, true)
	assert.Equal(t, build{world.Version, "aaaa", "2026-11-30T00:00:00Z", true, runtime.Version(), runtime.GOOS, runtime.GOARCH, []string{"window", "page"}, true}, b)
	defer func(c, d string) { commit, date = c, d }(commit, date)
	commit, date = "bbbb", "2026-12-01"
	b = thisBuild(info, true)
	assert.Equal(t, []any{"bbbb", "2026-12-01", false}, []any{b.Commit, b.Date, b.Changed})
	assert.Equal(t, "bbbb", thisBuild(nil, false).Commit)
}

// The licences come whole, in the words of their authors; what is ours is said in the language that is spoken.
func TestLicencesArePrinted(t *testing.T) {
	for _, book := range wordstest.Books() {
		w, out, errs := testWorld(t)
		assert.Zero(t, execute(context.Background(), []string{"licences", "--language", book.Code()}, w), errs.String())
		assert.Contains(t, out.String(), licences.Own())
		assert.Contains(t, out.String(), licences.OfOthers())
		assert.True(t, len(out.String()) > 20000)
	}
}
