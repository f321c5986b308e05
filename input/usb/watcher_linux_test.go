package usb

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// await polls until n changes are there, and tells how long that took.
func await(t *testing.T, w *Watcher, n int) ([]Change, time.Duration) {
	t.Helper()
	begin := time.Now()
	var got []Change
	for len(got) < n {
		if got = w.Poll(got); len(got) >= n {
			break
		}
		select {
		case <-w.Wake():
		case <-time.After(20 * time.Second):
			t.Fatalf("only %d of %d changes came: %v", len(got), n, got)
		}
	}
	return got, time.Since(begin)
}

func TestWatcherTellsOfRadiosThatComeAndGo(t *testing.T) {
	skipUnless64(t)
	tr := newTree(t)
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5", "js0")
	before := runtime.NumGoroutine()
	w, err := Watch(tr.places())
	require.NoError(t, err)
	defer w.Close()
	got := w.Poll(nil)
	require.Len(t, got, 1, "what is there at the beginning, at once")
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, "First", got[0].Radio.Name)

	tr.device("1-2", 9, "Second", radioAbs, radioKeys, "event6", "js1")
	got, took := await(t, w, 1)
	require.Len(t, got, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, "Second", got[0].Radio.Name)
	assert.Less(t, took, rescan, "the bell rang")
	require.Len(t, w.Found(), 2)
	require.Eventually(t, func() bool { return w.Found()[1].Classic != "" }, 20*time.Second, 10*time.Millisecond, "though it came later")

	tr.pull("event5", "js0")
	got, _ = await(t, w, 1)
	require.Len(t, got, 1)
	assert.Equal(t, Departed, got[0].Kind)
	assert.Equal(t, "First", got[0].Radio.Name)
	require.Len(t, w.Found(), 1)
	require.NoError(t, w.Err())
	require.NoError(t, w.Close())
	require.NoError(t, w.Close(), "twice")
	requireGoroutines(t, before)
}

func TestWatcherWaitsForRightsThatAreSetAfterwards(t *testing.T) {
	t.Parallel()
	skipUnless64(t)
	tr := newTree(t)
	w, err := Watch(tr.places())
	require.NoError(t, err)
	defer w.Close()
	tr.deny("event5", true)
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5", "js0")
	time.Sleep(200 * time.Millisecond)
	require.Empty(t, w.Poll(nil), "the classic way is open, but the better one may follow")
	tr.deny("event5", false)
	got, _ := await(t, w, 1)
	require.Len(t, got, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, WayEvent, got[0].Radio.Way)

	// Rights that never come: told of after a while, and altered when they do come.
	tr.deny("event6", true)
	tr.device("1-2", 8, "Second", radioAbs, radioKeys, "event6", "js1")
	got, took := await(t, w, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, WayClassic, got[0].Radio.Way)
	assert.GreaterOrEqual(t, took, time.Second)
	tr.deny("event6", false)
	got, _ = await(t, w, 1)
	assert.Equal(t, Altered, got[0].Kind)
	assert.Equal(t, WayEvent, got[0].Radio.Way)
	assert.NoError(t, got[0].Radio.Trouble)
}

func TestWatcherOfAFolderThatIsNotThereYet(t *testing.T) {
	t.Parallel()
	skipUnless64(t)
	tr := newTree(t)
	require.NoError(t, os.RemoveAll(filepath.Join(tr.root, "dev/input")))
	w, err := Watch(tr.places())
	require.NoError(t, err)
	defer w.Close()
	require.NoError(t, os.MkdirAll(filepath.Join(tr.root, "dev/input"), 0o755))
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5")
	got, _ := await(t, w, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	tr.device("1-2", 8, "Second", radioAbs, radioKeys, "event6")
	got, took := await(t, w, 1)
	assert.Equal(t, "Second", got[0].Radio.Name)
	assert.Less(t, took, rescan/2, "the bell hangs by now")
}

func TestWatcherTellsOfARadioInAnotherMode(t *testing.T) {
	t.Parallel()
	skipUnless64(t)
	tr := newTree(t)
	storage := [3]string{"08", "06", "50"}
	tr.usb("1-1", 5, "00", storage)
	w, err := Watch(tr.places())
	require.NoError(t, err)
	defer w.Close()
	tr.usb("1-2", 6, "00", storage)
	got, took := await(t, w, 1)
	require.Len(t, got, 1)
	assert.Equal(t, OtherArrived, got[0].Kind)
	assert.Equal(t, "1-2", got[0].Notice.Port)
	assert.True(t, got[0].Notice.Storage)
	assert.GreaterOrEqual(t, took, time.Second, "it had time to show a joystick")
	tr.pullUSB("1-2")
	tr.pullUSB("1-1")
	got, _ = await(t, w, 1)
	time.Sleep(50 * time.Millisecond)
	got = w.Poll(got)
	require.Len(t, got, 1, "the one from the beginning goes as silently as it was there")
	assert.Equal(t, OtherDeparted, got[0].Kind)
	assert.Equal(t, "1-2", got[0].Notice.Port)
}
