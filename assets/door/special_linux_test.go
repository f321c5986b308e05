package door

import (
	"errors"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe that nobody writes to, a device and a socket are refused at once, for reading and for writing: the opening of such a pipe would
// wait for ever (fifo(7)), and the test with it.
func TestPipesDevicesAndSockets(t *testing.T) {
	dir := t.TempDir()
	fifo, socket := filepath.Join(dir, "fifo"), filepath.Join(dir, "socket")
	require.NoError(t, syscall.Mkfifo(fifo, 0o600))
	l, err := net.Listen("unix", socket)
	require.NoError(t, err)
	defer l.Close()
	for path, why := range map[string]Why{fifo: Pipe, socket: Socket, "/dev/zero": Device, "/dev/full": Device} {
		for name, open := range map[string]func() error{
			"open":   func() error { _, err := Open(path, "door.take"); return err },
			"stream": func() error { _, err := OpenStream(path, "door.take"); return err },
			"over":   func() error { return PublishBytes(path, Out{Over: true}, []byte("new")) },
			"new":    func() error { return PublishBytes(path, Out{}, []byte("new")) },
			"try":    func() error { return Try(path, Out{Over: true}) },
			"edit":   func() error { return Edit(path, nil, []byte("new")) },
			"create": func() error { _, err := Create(path); return err },
			"append": func() error { _, err := Append(path, true); return err },
		} {
			var e *Error
			require.ErrorAs(t, open(), &e, "%s %s", name, path)
			assert.Equal(t, why, e.Why, "%s %s", name, path)
			assert.True(t, e.Asked())
			assert.Contains(t, e.Error(), path)
		}
	}
	require.NoError(t, PublishBytes(os.DevNull, Out{}, []byte("new")), "what is thrown away was asked for")
}

// What a shell hands over by number is read and written as it comes.
func TestWhatTheProgramWasStartedWith(t *testing.T) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close()
	path := "/dev/fd/" + strconv.Itoa(int(w.Fd()))
	require.NoError(t, Try(path, Out{}))
	require.NoError(t, PublishBytes(path, Out{}, []byte("through")))
	require.NoError(t, w.Close())
	_, err = Open("/dev/fd/"+strconv.Itoa(int(r.Fd())), "take")
	require.ErrorContains(t, err, "this is a pipe")
	f, err := OpenStream("/dev/fd/"+strconv.Itoa(int(r.Fd())), "take")
	require.NoError(t, err)
	got, err := io.ReadAll(f)
	require.NoError(t, err)
	require.Equal(t, "through", string(got))
	require.NoError(t, f.Close())
}

// A disk with no room left tears no old file (setrlimit(2): a write beyond RLIMIT_FSIZE fails with EFBIG). The limit holds for all of a
// process, so this is one of its own.
func TestAFullDisk(t *testing.T) {
	if path := os.Getenv("PROPSOFF_TEST_FULL"); path != "" {
		require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 64, Max: 64}))
		err := PublishBytes(path, Out{Over: true}, make([]byte, 1<<16))
		var e *Error
		if !errors.As(err, &e) || e.Why != Full || e.Asked() || !errors.Is(err, syscall.EFBIG) {
			os.Exit(3)
		}
		os.Exit(0)
	}
	path := filepath.Join(t.TempDir(), "x.csv")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	c := exec.Command(os.Args[0], "-test.run", "^TestAFullDisk$")
	c.Env = append(os.Environ(), "PROPSOFF_TEST_FULL="+path)
	out, err := c.CombinedOutput()
	require.NoError(t, err, "%s", out)
	assert.Equal(t, "old", text(t, path))
	assert.Len(t, names(t, filepath.Dir(path)), 1)
}

// What is handed over by number is written where it stands, as through the number itself: behind what an ordinary file holds already, and
// never into one that was opened for reading (open(2), O_APPEND).
func TestAHandedFileIsNotWrittenOver(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kept.csv")
	require.NoError(t, os.WriteFile(path, []byte("kept\n"), 0o600))
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, PublishBytes("/dev/fd/"+strconv.Itoa(int(f.Fd())), Out{}, []byte("new\n")))
	require.Equal(t, "kept\nnew\n", text(t, path))
	r, err := os.Open(path)
	require.NoError(t, err)
	defer r.Close()
	require.Error(t, PublishBytes("/dev/fd/"+strconv.Itoa(int(r.Fd())), Out{Over: true}, []byte("lost")))
	require.Equal(t, "kept\nnew\n", text(t, path))

	// Standard input that a shell has from a file is that file.
	k := &Keeper{In: r}
	_, err = k.Open(Dash, "door.take")
	require.NoError(t, err)
	var e *Error
	require.ErrorAs(t, k.Try(path, Out{Over: true}), &e)
	require.Equal(t, OwnInput, e.Why)
}

// Several who sweep while others save take nobody's passing file away (flock(2)).
func TestSweepersAndSavers(t *testing.T) {
	dir := t.TempDir()
	stop := make(chan struct{})
	var sweepers, savers sync.WaitGroup
	for range 3 {
		sweepers.Go(func() {
			for {
				select {
				case <-stop:
					return
				default:
					Sweep(dir)
				}
			}
		})
	}
	for n := range 2 {
		savers.Go(func() {
			for i := range 200 {
				if err := PublishBytes(filepath.Join(dir, strconv.Itoa(n)), Out{Over: true}, []byte{byte(i)}); err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	savers.Wait()
	close(stop)
	sweepers.Wait()
	require.Len(t, names(t, dir), 2)
}
