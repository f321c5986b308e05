package door

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Only an ordinary file that begins as it must is taken away.
func TestOnlyWhatIsKnownAgainIsTakenAway(t *testing.T) {
	dir := t.TempDir()
	at := func(name, text string) string {
		p := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(p, []byte(text), 0o666))
		return p
	}
	mine, other, short := at("mine", "# ours: x\n"), at("other", "my own # ours: x\n"), at("short", "# our")
	behind := at("behind", "# ours: y\n")
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(behind, link))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder"), 0o777))
	for path, want := range map[string]bool{mine: true, other: false, short: false, link: false, filepath.Join(dir, "none"): false, filepath.Join(dir, "folder"): false} {
		gone, err := TakeAway(path, "door.script", "# ours: ", 100)
		require.NoError(t, err, path)
		assert.Equal(t, want, gone, path)
	}
	long := at("long", "# ours: and far too long for it to be read at all")
	gone, err := TakeAway(long, "door.script", "# ours: ", 20)
	require.NoError(t, err)
	assert.False(t, gone)
	for _, path := range []string{other, short, behind, link, long, filepath.Join(dir, "folder")} {
		_, err := os.Lstat(path)
		assert.NoError(t, err, path)
	}
	_, err = os.Lstat(mine)
	assert.ErrorIs(t, err, os.ErrNotExist)
}
