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

// A file is deleted, or has another name; what else has that name, and what is no ordinary file, stays.
func TestFilesAreDeletedAndMoved(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	holds := func(name string) string { text, _ := os.ReadFile(at(name)); return string(text) }
	for _, name := range []string{"one", "two"} {
		require.NoError(t, os.WriteFile(at(name), []byte(name), 0o666))
	}
	require.NoError(t, os.Symlink(at("one"), at("link")))
	require.NoError(t, os.Mkdir(at("folder"), 0o777))

	var shut *Error
	require.ErrorAs(t, Move(at("one"), at("two"), "door.file"), &shut)
	assert.Equal(t, There, shut.Why)
	assert.Equal(t, "one two", holds("one")+" "+holds("two"))
	require.NoError(t, Move(at("one"), at("three"), "door.file"))
	assert.Equal(t, " two one", holds("one")+" "+holds("two")+" "+holds("three"))

	for name, why := range map[string]Why{"none": Missing, "link": Link, "folder": Folder} {
		require.ErrorAs(t, Delete(at(name), "door.file"), &shut, name)
		assert.Equal(t, why, shut.Why, name)
		require.ErrorAs(t, Move(at(name), at("new"), "door.file"), &shut, name)
		assert.Equal(t, why, shut.Why, name)
	}
	require.NoError(t, Delete(at("three"), "door.file"))
	_, err := os.Lstat(at("three"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}
