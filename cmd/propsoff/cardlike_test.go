//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// The card says that its layout behaves as an old one where that is proved; where it is not, there is no card, and the difference is told.
func TestTheCardOfALayoutThatBehavesAsAnOldOne(t *testing.T) {
	craft := func(name string) string { return layoutFile(name, "craft") }
	radio := func(name string) string { return layoutFile(name, "radio") }
	text, err := os.ReadFile(craft("switch"))
	require.NoError(t, err)
	dir := t.TempDir()
	renamed := filepath.Join(dir, "renamed.yaml")
	require.NoError(t, os.WriteFile(renamed, []byte(strings.Replace(string(text), "name: Switch", "name: Renamed", 1)), 0o600))
	path := filepath.Join(dir, "card.svg")
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"--craft", renamed, "--like", craft("switch")}, exit.CodeDone, "Behaves like the craft of switch.craft.yaml: proved 5 April 2031; how it flies was not compared."},
		{[]string{"--craft", renamed, "--radio", radio("full"), "--like", craft("switch"), "--size", "page"}, exit.CodeDone, "Behaves like the craft of switch.craft.yaml: proved 5 April 2031"},
		{[]string{"--craft", craft("switch"), "--radio", radio("full"), "--like-radio", radio("six")}, exit.CodeDone, "Behaves as before with the radio of six.radio.yaml: proved 5 April 2031"},
		{[]string{"--craft", renamed, "--radio", radio("full"), "--like", craft("switch"), "--like-radio", radio("six"), "--date", "none"}, exit.CodeDone, "Behaves like the craft of switch.craft.yaml with the radio of six.radio.yaml: proved; how it flies was not"},
		{[]string{"--craft", craft("switch"), "--radio", radio("full"), "--like", craft("held-switch")}, exit.CodeFailed, "A: ARMED, motors still"},
		{[]string{"--craft", craft("switch"), "--radio", radio("full"), "--like-radio", radio("throttle-springs")}, exit.CodeFailed, "the throttle was up"},
		{[]string{"--craft", craft("switch"), "--radio", radio("full"), "--like-radio", radio("arm-noisy")}, exit.CodeUnfinished, "noise may"},
		{[]string{"--craft", craft("switch"), "--like", filepath.Join(dir, "gone.yaml")}, exit.CodeBadInput, "gone.yaml"},
	} {
		name := strings.Join(c.args, " ")
		code, out, errs := command(t, append([]string{"card", "-o", path, "--over", "--date", "2031-04-05"}, c.args...)...)
		require.Equal(t, c.status, code, "%s: %s%s", name, out, errs)
		said := strings.Join(strings.Fields(out+errs), " ")
		assert.Contains(t, said, c.says, name)
		if c.status == exit.CodeDone {
			assert.Contains(t, svgWords(t, madeFile(t, path)), c.says, name)
			require.NoError(t, os.Remove(path))
			continue
		}
		assert.NoFileExists(t, path, name)
		if c.status != exit.CodeBadInput {
			assert.Contains(t, said, "The card was not written: the layouts are not proved alike.", name)
		}
	}
}
