package paper

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSavedFilesAreWhatTheirEndingSays(t *testing.T) {
	dir := t.TempDir()
	d := printOf(A4(), 60)
	for name, begins := range map[string]string{"a.pdf": "%PDF-", "b.SVG": "<?xml", "c.png": "\x89PNG"} {
		path := filepath.Join(dir, name)
		require.NoError(t, d.Save(path, false))
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(b, []byte(begins)), name)
	}
	assert.ErrorIs(t, d.Save(filepath.Join(dir, "d.txt"), false), ErrEnding)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 3, "nothing half written stays behind")
}

func TestAFileThatIsThereStaysUnlessAskedFor(t *testing.T) {
	path := filepath.Join(t.TempDir(), "card.pdf")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))
	d := printOf(A4(), 60)
	require.ErrorIs(t, d.Save(path, false), ErrThere)
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(b))
	require.NoError(t, d.Save(path, true))
	b, err = os.ReadFile(path)
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(b, []byte("%PDF-")))
	within := filepath.Join(filepath.Dir(path), "no")
	assert.ErrorContains(t, d.Save(filepath.Join(within, "card.pdf"), false), "there is no such folder to write into; make it first, or choose another")
	require.NoError(t, os.Mkdir(within, 0o700))
	assert.NoError(t, d.Save(filepath.Join(within, "card.pdf"), false))
	require.NoError(t, os.Mkdir(path+".pdf", 0o700))
	assert.ErrorContains(t, d.Save(path+".pdf", true), "this is a folder; give the name of a file in it")
	assert.NoError(t, d.Save(filepath.Join(path+".pdf", "card.pdf"), true))
}

func TestTheNextFreeNameIsTaken(t *testing.T) {
	dir := t.TempDir()
	d := printOf(A4(), 60)
	for _, want := range []string{"card.pdf", "card-2.pdf", "card-3.pdf"} {
		path, err := d.SaveFree(dir, "card", ".pdf")
		require.NoError(t, err)
		assert.Equal(t, filepath.Join(dir, want), path)
	}
	_, err := d.SaveFree(filepath.Join(dir, "gone"), "card", ".pdf")
	assert.Error(t, err)
}

// The file user-dirs.dirs as xdg-user-dirs writes it (its manual, user-dirs.dirs(5)).
func TestWhereAPersonLooksForPapers(t *testing.T) {
	home := t.TempDir()
	assert.Equal(t, home, documents(home, ""))
	require.NoError(t, os.Mkdir(filepath.Join(home, "Documents"), 0o700))
	assert.Equal(t, filepath.Join(home, "Documents"), documents(home, ""))
	config := filepath.Join(home, ".config")
	require.NoError(t, os.Mkdir(config, 0o700))
	dirs := filepath.Join(config, "user-dirs.dirs")
	require.NoError(t, os.WriteFile(dirs, []byte("# written by hand\nXDG_DESKTOP_DIR=\"$HOME/Desktop\"\nXDG_DOCUMENTS_DIR=\"$HOME/Dokumente\"\n"), 0o600))
	assert.Equal(t, filepath.Join(home, "Documents"), documents(home, ""), "the folder named there is gone")
	require.NoError(t, os.Mkdir(filepath.Join(home, "Dokumente"), 0o700))
	assert.Equal(t, filepath.Join(home, "Dokumente"), documents(home, "not/absolute"))
	other := t.TempDir()
	require.NoError(t, os.WriteFile(dirs, []byte("XDG_DOCUMENTS_DIR=\""+other+"\"\n"), 0o600))
	assert.Equal(t, other, documents(home, ""))
}
