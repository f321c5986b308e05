//go:build !window

package main

import (
	"os"
	"os/exec"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is wrong with a line that a shell completes is printed by the command library itself, past our mouth: so the program is run as it is.
func TestAShellThatCompletesAHostileLine(t *testing.T) {
	for _, line := range [][]string{{"--" + forged, ""}, {forged, ""}, {"run", "--craft", forged, "--" + hostile + "=" + forged, ""}} {
		for _, asks := range []string{cobra.ShellCompRequestCmd, cobra.ShellCompNoDescRequestCmd} {
			cmd := exec.Command(os.Args[0], append([]string{asks}, line...)...)
			cmd.Env = append(os.Environ(), actAs+"="+asProgram, "HOME="+t.TempDir())
			said, err := cmd.CombinedOutput()
			require.NoError(t, err)
			steersNothing(t, asks, string(said))
			assert.NotEmpty(t, said)
		}
	}
}
