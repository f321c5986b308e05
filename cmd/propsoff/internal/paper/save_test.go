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
	for ending, begins := range map[string]string{".pdf": "%PDF-", ".SVG": "<?xml", ".png": "\x89PNG"} {
		path, err := d.SaveFree(dir, "a", ending)
		require.NoError(t, err)
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(b, []byte(begins)), ending)
	}
	_, err := d.SaveFree(dir, "a", ".txt")
	assert.ErrorIs(t, err, ErrEnding)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 3, "nothing half written stays behind")
}

func TestTheNextFreeNameIsTaken(t *testing.T) {
	dir := t.TempDir()
	d := printOf(A4(), 60)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "card-2.pdf"), []byte("mine"), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "card-3.pdf"), 0o700))
	for _, want := range []string{"card.pdf", "card-4.pdf", "card-5.pdf"} {
		path, err := d.SaveFree(dir, "card", ".pdf")
		require.NoError(t, err)
		assert.Equal(t, filepath.Join(dir, want), path)
	}
	b, err := os.ReadFile(filepath.Join(dir, "card-2.pdf"))
	require.NoError(t, err)
	assert.Equal(t, "mine", string(b))
	_, err = d.SaveFree(filepath.Join(dir, "gone"), "card", ".pdf")
	assert.ErrorContains(t, err, "there is no such folder to write into; make it first, or choose another")
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

// What reads a file aloud, or breaks its words, is told its language (ISO 32000-1, 14.9.2; Scalable Vector Graphics 1.1, 10.15).
func TestAFileSaysItsLanguage(t *testing.T) {
	d := printOf(A4(), 60)
	d.Language = "de"
	for f, want := range map[Format]string{PDF: "/Lang <feff00640065>", SVG: ` xml:lang="de" `} {
		var b bytes.Buffer
		require.NoError(t, d.Write(&b, f))
		assert.Contains(t, b.String(), want)
	}
}
