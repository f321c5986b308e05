//go:build !window

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// limited runs the program where no file may grow beyond 44 blocks of 512 bytes (sh(1), ulimit -f), as on a disk that is full.
func limited(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	home := t.TempDir()
	cmd := exec.Command("/bin/sh", append([]string{"-c", `ulimit -f 44; exec "$0" "$@"`, os.Args[0]}, args...)...)
	cmd.Env = append(os.Environ(), actAs+"="+asProgram, "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)
	var o, e bytes.Buffer
	cmd.Stdout, cmd.Stderr = &o, &e
	_ = cmd.Run()
	return cmd.ProcessState.ExitCode(), o.String(), e.String()
}

// A disk that fills while a run is recorded does not cost the run its verdict: it is told as ever, the status is that of trouble, and what was
// recorded is whole. An old table is not torn by one that does not fit.
func TestAFullDiskCostsNoVerdictAndNoOldFile(t *testing.T) {
	dir := t.TempDir()
	take, table := filepath.Join(dir, "a.take"), filepath.Join(dir, "a.csv")
	_, want, _ := command(t, "run", demoName)
	code, out, errs := limited(t, "run", demoName, "--record", take)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Equal(t, want, out)
	assert.Contains(t, errs, take)
	assert.Contains(t, errs, "is whole up to there")
	code, _, errs = command(t, "run", take)
	assert.Equal(t, exit.CodeDone, code, errs)

	require.NoError(t, os.WriteFile(table, []byte("mine"), 0o600))
	code, _, errs = limited(t, "fly", "hop", "--over", "-o", table)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, errs, "the disk is full")
	assert.Equal(t, "mine", state(t, dir)[table])
	assert.Len(t, state(t, dir), 2, "nothing is left lying about")
}
