package initrd

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The archive is read back by GNU cpio where it is installed: a program that we did not write.
func TestWriter_CpioReadsItBack(t *testing.T) {
	var b bytes.Buffer
	w := NewWriter(&b)
	odd := []byte("seven b")
	w.File("init", 0o755, odd)
	w.File("/lib/x/a.ko", 0o644, bytes.Repeat([]byte{1, 2, 3}, 1001))
	w.Dir("dev")
	require.NoError(t, w.Close())
	assert.Zero(t, b.Len()%4)
	assert.True(t, strings.HasPrefix(b.String(), "070701"))

	if _, err := exec.LookPath("cpio"); err != nil {
		t.Skip("cpio is not installed")
	}
	dir := t.TempDir()
	c := exec.Command("cpio", "-idm", "--quiet")
	c.Dir, c.Stdin = dir, &b
	out, err := c.CombinedOutput()
	require.NoError(t, err, string(out))
	got, err := os.ReadFile(filepath.Join(dir, "init"))
	require.NoError(t, err)
	assert.Equal(t, odd, got)
	info, err := os.Stat(filepath.Join(dir, "init"))
	require.NoError(t, err)
	assert.EqualValues(t, 0o755, info.Mode().Perm())
	big, err := os.ReadFile(filepath.Join(dir, "lib/x/a.ko"))
	require.NoError(t, err)
	assert.Len(t, big, 3003)
	assert.DirExists(t, filepath.Join(dir, "dev"))
}

func TestIndex_SaysWhatIsMissing(t *testing.T) {
	_, err := ReadIndex(t.TempDir())
	assert.ErrorContains(t, err, "none found")
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "not-a-module.ko"), []byte("no"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "modules.builtin"), []byte("kernel/net/unix/unix.ko\n"), 0o644))
	x, err := ReadIndex(dir)
	require.NoError(t, err)
	_, err = x.Closure("absent")
	assert.ErrorContains(t, err, "absent is not there")
	_, err = x.Closure("not_a_module")
	assert.ErrorContains(t, err, "not-a-module.ko")
	mods, err := x.Closure("unix")
	require.NoError(t, err)
	assert.Empty(t, mods, "built in")
}
