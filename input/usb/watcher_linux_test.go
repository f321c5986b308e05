package usb

import (
	"os"
	"path/filepath"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// never is how long a watcher waits that is to look at nothing until its bell rings.
func never() time.Duration { return time.Hour }

// await polls until n changes are there.
func await(t *testing.T, w *Watcher, n int) []Change {
	t.Helper()
	var got []Change
	for len(got) < n {
		if got = w.Poll(got); len(got) >= n {
			break
		}
		select {
		case <-w.Wake():
		case <-time.After(2 * time.Minute):
			t.Fatalf("only %d of %d changes came: %v", len(got), n, got)
		}
	}
	return got
}

func TestWatcherTellsOfRadiosThatComeAndGo(t *testing.T) {
	skipUnless64(t)
	tr := newTree(t)
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5", "js0")
	before := runtime.NumGoroutine()
	w, err := watch(tr.places(), never)
	require.NoError(t, err)
	defer w.Close()
	got := w.Poll(nil)
	require.Len(t, got, 1, "what is there at the beginning, at once")
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, "First", got[0].Radio.Name)

	tr.device("1-2", 9, "Second", radioAbs, radioKeys, "event6", "js1")
	got = await(t, w, 1) // the bell rang: nothing else tells of it
	require.Len(t, got, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, "Second", got[0].Radio.Name)
	require.Len(t, w.Found(), 2)
	require.Eventually(t, func() bool { return w.Found()[1].Classic != "" }, 2*time.Minute, 10*time.Millisecond, "though it came later")

	tr.pull("event5", "js0")
	got = await(t, w, 1)
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
	begun := time.Now()
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5", "js0")
	time.Sleep(200 * time.Millisecond)
	early := w.Poll(nil)
	if time.Since(begun) >= graceTime*time.Microsecond {
		t.Skip("this machine is so busy that the better way was waited for long enough")
	}
	require.Empty(t, early, "the classic way is open, but the better one may follow")
	tr.deny("event5", false)
	got := await(t, w, 1)
	require.Len(t, got, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, WayEvent, got[0].Radio.Way)

	// Rights that never come: told of after a while, and altered when they do come.
	tr.deny("event6", true)
	begun = time.Now()
	tr.device("1-2", 8, "Second", radioAbs, radioKeys, "event6", "js1")
	got = await(t, w, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	assert.Equal(t, WayClassic, got[0].Radio.Way)
	assert.GreaterOrEqual(t, time.Since(begun), time.Second)
	tr.deny("event6", false)
	got = await(t, w, 1)
	assert.Equal(t, Altered, got[0].Kind)
	assert.Equal(t, WayEvent, got[0].Radio.Way)
	assert.NoError(t, got[0].Radio.Trouble)
}

func TestWatcherOfAFolderThatIsNotThereYet(t *testing.T) {
	t.Parallel()
	skipUnless64(t)
	tr := newTree(t)
	require.NoError(t, os.RemoveAll(filepath.Join(tr.root, "dev/input")))
	// Until the folder is there everything is looked at again and again, afterwards never.
	var hangs, asked atomic.Bool
	w, err := watch(tr.places(), func() time.Duration {
		if !hangs.Load() {
			return 10 * time.Millisecond
		}
		asked.Store(true)
		return never()
	})
	require.NoError(t, err)
	defer w.Close()
	require.NoError(t, os.MkdirAll(filepath.Join(tr.root, "dev/input"), 0o755))
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5")
	got := await(t, w, 1)
	assert.Equal(t, Arrived, got[0].Kind)
	hangs.Store(true)
	require.Eventually(t, asked.Load, 2*time.Minute, time.Millisecond)
	tr.device("1-2", 8, "Second", radioAbs, radioKeys, "event6")
	got = await(t, w, 1) // the bell hangs by now: nothing else tells of it
	assert.Equal(t, "Second", got[0].Radio.Name)
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
	begun := time.Now()
	tr.usb("1-2", 6, "00", storage)
	got := await(t, w, 1)
	require.Len(t, got, 1)
	assert.Equal(t, OtherArrived, got[0].Kind)
	assert.Equal(t, "1-2", got[0].Notice.Port)
	assert.True(t, got[0].Notice.Storage)
	assert.GreaterOrEqual(t, time.Since(begun), time.Second, "it had time to show a joystick")
	tr.pullUSB("1-2")
	tr.pullUSB("1-1")
	got = await(t, w, 1)
	time.Sleep(50 * time.Millisecond)
	got = w.Poll(got)
	require.Len(t, got, 1, "the one from the beginning goes as silently as it was there")
	assert.Equal(t, OtherDeparted, got[0].Kind)
	assert.Equal(t, "1-2", got[0].Notice.Port)
}
