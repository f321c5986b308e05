package serve_test

import (
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/serve"
)

// Of a folder ordinary files alone are read: a pipe that nobody writes to, a socket and what leads to a pipe are left out, and hold up nothing.
func TestOnlyOrdinaryFilesAreServed(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.WriteFile(at("index.html"), []byte("<title>bench</title>"), 0o600))
	require.NoError(t, os.Symlink(at("index.html"), at("other.html")))
	require.NoError(t, syscall.Mkfifo(at("pipe.html"), 0o600))
	require.NoError(t, os.Symlink(at("pipe.html"), at("to-pipe.html")))
	l, err := net.Listen("unix", at("socket.html"))
	require.NoError(t, err)
	defer l.Close()
	folder, err := serve.Disk(dir)
	require.NoError(t, err)
	h, err := serve.NewHandler(folder, "localhost")
	require.NoError(t, err)
	for name, status := range map[string]int{"/": 200, "/other.html": 200, "/pipe.html": 404, "/to-pipe.html": 404, "/socket.html": 404} {
		a := ask(t, h, func(r *http.Request) { r.URL.Path = name })
		assert.Equal(t, status, a.StatusCode, name)
	}
	require.NoError(t, os.Remove(at("index.html")))
	require.NoError(t, syscall.Mkfifo(at("index.html"), 0o600))
	_, err = serve.NewHandler(folder, "localhost")
	assert.ErrorIs(t, err, serve.ErrNoPage, "a pipe is no page")
}

// A folder of far more files than a page has is not read on.
func TestAFolderThatIsNoPageIsNotReadOn(t *testing.T) {
	dir := t.TempDir()
	for i := range 1100 {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "z"+strconv.Itoa(i)), nil, 0o600))
	}
	folder, err := serve.Disk(dir)
	require.NoError(t, err)
	_, err = serve.NewHandler(folder)
	assert.ErrorIs(t, err, serve.ErrNoPage, "first of all")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "index.html"), nil, 0o600))
	_, err = serve.NewHandler(folder)
	assert.ErrorIs(t, err, serve.ErrTooMuch)
}
