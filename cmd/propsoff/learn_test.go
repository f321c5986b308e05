package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// checkLearned holds a radio file against the radio.
func checkLearned(t *testing.T, f *radio.File) {
	t.Helper()
	assert.Equal(t, 3, f.StickMode)
	assert.Equal(t, radio.DeviceOf(deskInfo("A")), f.Device)
	for job, axis := range stickAxes {
		c, ok := f.Control(job)
		require.True(t, ok, job)
		assert.Equal(t, radio.Axis, c.Form, job)
		assert.Equal(t, axis, c.Axis, job)
		require.NotNil(t, c.Scale, job)
		assert.Equal(t, job == "pitch", c.Scale.High < c.Scale.Low, job)
		assert.Equal(t, job == "throttle", c.Stays, job)
		require.NotNil(t, c.Reach, job)
		assert.Equal(t, []int32{0, 2047}, []int32{c.Reach.Low, c.Reach.High}, job)
	}
	arm, _ := f.Control("arm")
	assert.Equal(t, []int{3}, arm.Buttons)
	mode, _ := f.Control("mode")
	assert.Equal(t, 5, mode.Axis)
	assert.Len(t, mode.Positions, 3)
	lamp, ok := f.Control("channel 7")
	require.True(t, ok)
	assert.Equal(t, 6, lamp.Axis)
	assert.Len(t, lamp.Positions, 2)
	assert.Equal(t, radio.Right, lamp.Side)
	assert.Equal(t, "lamp", lamp.Called)
}

func TestLearnAWholeRadioByScript(t *testing.T) {
	t.Parallel()
	l := sit(t, nil, "--json")
	l.until("notice")
	assert.Contains(t, l.out.String(), "No radio is plugged in")
	l.port.plug(deskInfo("A"))
	kept := l.until("kept")
	assert.Equal(t, exit.CodeDone, l.finish())
	f, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	require.Equal(t, radio.Exact, f.Match)
	assert.Equal(t, f.Path, kept["path"])
	checkLearned(t, &f.File)
	assert.Contains(t, l.err.String(), "Your radio may be transmitting", "the caution goes where no script looks")

	// It can be learned anew, which is said, and the very file is replaced.
	again := sit(t, func(w *world.World) { w.Store = l.store }, "--json", "--stick-mode", "2")
	again.port.plug(deskInfo("A"))
	again.until("question", "question", "pitch")
	assert.Contains(t, again.out.String(), "is replaced once everything is answered")
	again.until("question", "question", "top-right")
	assert.NotContains(t, again.out.String(), `"question":"stick-mode"`)
	again.say("quit")
	assert.Equal(t, exit.CodeTrouble, again.finish())
	assert.Contains(t, again.err.String(), "nothing is kept")
	same, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	assert.Equal(t, f, same)
}

func TestLearnGoesOnAfterThePlugWasOut(t *testing.T) {
	t.Parallel()
	l := sit(t, nil, "--json", "--craft", "teasel")
	l.port.plug(deskInfo("A"))
	l.until("question", "question", "yaw")
	l.port.pull("/dev/input/A")
	gone := l.until("unplugged")
	assert.Equal(t, "Moorland Desk 7", gone["name"])
	l.port.plug(deskInfo("B")) // its twin is another radio
	l.wait(3_000_000)
	assert.Equal(t, 1, l.port.opened)
	l.port.pull("/dev/input/B")
	l.port.change(1, func(raw *input.Raw, _ int32) { raw.Axes[3] = 1023 })
	l.port.plug(deskInfo("A"))
	l.until("radio")
	asked := l.until("question")
	assert.Equal(t, "yaw", asked["question"], "where it was")
	l.until("kept")
	assert.Equal(t, exit.CodeDone, l.finish())
	f, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	checkLearned(t, &f.File)
}

// blocked is a store in whose folder's place a file lies.
func blocked(t *testing.T) (store radio.Store, mend func()) {
	dir := filepath.Join(t.TempDir(), "radios")
	require.NoError(t, os.WriteFile(dir, nil, 0o600))
	return radio.Store{Dir: dir}, func() { require.NoError(t, os.Remove(dir)) }
}

func TestLearnedAndNotWritten(t *testing.T) {
	t.Parallel()
	t.Run("mended", func(t *testing.T) {
		t.Parallel()
		store, mend := blocked(t)
		l := sit(t, func(w *world.World) { w.Store = store }, "--json")
		l.port.plug(deskInfo("A"))
		why := l.until("not-kept")
		assert.Contains(t, why["text"], store.Dir)
		l.say("back")
		l.until("notice")
		l.say("save")
		l.until("not-kept")
		mend()
		l.say("save")
		l.until("kept")
		assert.Equal(t, exit.CodeDone, l.finish())
		f, err := store.Find(deskInfo("A"))
		require.NoError(t, err)
		checkLearned(t, &f.File)
	})
	t.Run("elsewhere", func(t *testing.T) {
		t.Parallel()
		store, _ := blocked(t)
		l := sit(t, func(w *world.World) { w.Store = store }, "--json")
		l.port.plug(deskInfo("A"))
		l.until("not-kept")
		path := filepath.Join(t.TempDir(), "my radio.yaml")
		l.say("save " + path)
		assert.Equal(t, path, l.until("kept")["path"])
		assert.Equal(t, exit.CodeDone, l.finish())
		f, err := radio.Load(path, radio.Known{})
		require.NoError(t, err)
		checkLearned(t, &f)
	})
	t.Run("left", func(t *testing.T) {
		t.Parallel()
		store, _ := blocked(t)
		l := sit(t, func(w *world.World) { w.Store = store }, "--json")
		l.port.plug(deskInfo("A"))
		l.until("not-kept")
		l.say("quit")
		text := l.until("file")["text"].(string)
		f, err := radio.Parse("printed", []byte(text), radio.Known{})
		require.NoError(t, err)
		checkLearned(t, &f)
		assert.Equal(t, exit.CodeTrouble, l.finish())
		assert.Contains(t, l.err.String(), "stands on standard output")
	})
	t.Run("nobody to ask", func(t *testing.T) {
		t.Parallel()
		store, _ := blocked(t)
		l := sit(t, func(w *world.World) { w.Store = store }, "--json")
		l.port.plug(deskInfo("A"))
		l.until("question", "question", "top-right")
		require.NoError(t, l.in.Close())
		l.until("file")
		assert.Equal(t, exit.CodeTrouble, l.finish())
	})
}

func TestLearnIntoAFile(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "desk.yaml")
	l := sit(t, nil, "--json", "-o", path)
	l.port.plug(deskInfo("A"))
	assert.Equal(t, path, l.until("kept")["path"])
	assert.Equal(t, exit.CodeDone, l.finish())
	f, err := radio.Load(path, radio.Known{})
	require.NoError(t, err)
	checkLearned(t, &f)
	found, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	assert.Equal(t, radio.NoMatch, found.Match, "the folder is left alone")
}

// Where nobody can say that that is all, further controls are waited for until nothing has moved for some time.
func TestLearnWithoutAnybodyToSayThatIsAll(t *testing.T) {
	t.Parallel()
	l := sit(t, nil, "--json", "--stick-mode", "3")
	l.port.plug(deskInfo("A"))
	l.until("radio")
	require.NoError(t, l.in.Close())
	l.until("question", "question", "more")
	l.acted = "more through" // this hand shows nothing more
	l.until("question", "question", "top-right")
}

// Nor can anybody say which hand carries what: the marked one is taken, and that is said.
func TestLearnWithoutAnybodyToSayWhichHand(t *testing.T) {
	t.Parallel()
	l := sit(t, nil, "--json")
	l.port.plug(deskInfo("A"))
	l.until("question", "question", "more")
	l.acted = "more through"
	require.NoError(t, l.in.Close())
	l.reads(`"question":"top-right"`)
	assert.Contains(t, l.out.String(), "Nobody can say which hand carries what, so stick mode 2 is taken.")
}

func TestLearnInWords(t *testing.T) {
	t.Parallel()
	l := sit(t, nil, "--craft", "built-in")
	l.port.plug(deskInfo("A"))
	until := l.reads
	until("question 1 of ")
	until("Pitch: lean the craft forward, nose down.")
	until("  Ready when you are.")
	l.to(1, 2047)
	l.to(0, 2047)
	until("noticed: ")
	l.say("sideways")
	until(`“sideways” means nothing here`)
	l.say("left")
	until("No switch has been found yet")
	l.say("save")
	until("once everything is answered")
	assert.NotContains(t, l.out.String(), "left stick")
	l.say("q")
	assert.Equal(t, exit.CodeTrouble, l.finish())
}

// The hands are told in words where there are no pictures.
func TestLearnTheHandsInWords(t *testing.T) {
	t.Parallel()
	l := sit(t, nil)
	l.port.plug(deskInfo("A"))
	until := l.reads
	moved := func(axis int, values ...int32) {
		for _, v := range values {
			l.to(axis, v)
			l.wait(1_200_000)
		}
	}
	until("Ready when you are.")
	for i, axis := range []int{1, 3, 0} {
		moved(axis, 2047, 0, 1023)
		until("found: " + []string{"pitch", "yaw", "roll"}[i])
		l.wait(1_000_000)
	}
	moved(2, 2047, 0)
	until("found: throttle")
	for _, asked := range []string{"Arm switch", "Flight mode switch"} {
		until(asked)
		l.say("skip")
	}
	until("Anything else?")
	l.say("enough")
	until("Which of these four are your hands: 1, 2, 3 or 4?")
	until("  3  left hand pitch up and down, roll across; right hand throttle up and down, yaw across\n")
	l.say("3")
	until("Everything at once")
	l.say("q")
	assert.Equal(t, exit.CodeTrouble, l.finish())
	assert.NotContains(t, l.out.String(), "picture")
}

func TestLearnOnAScreenByKeys(t *testing.T) {
	t.Parallel()
	restored := new(atomic.Bool)
	l := sit(t, func(w *world.World) {
		w.Screen = func() (int, int, bool) { return 100, 45, true }
		w.Keys = func() (func(), bool) { return func() { restored.Store(true) }, true }
	})
	until := l.reads
	key := func(k string) {
		_, err := l.in.Write([]byte(k))
		require.NoError(t, err)
	}
	until("No radio is plugged in")
	l.port.plug(deskInfo("A"))
	until("Pitch: lean the craft forward, nose down.")
	key("\x1b[A") // an arrow means nothing
	key("3")      // nor does a number now
	until("    back |--------------------o-------------///////| forward")
	assert.NotContains(t, l.out.String(), "> axis")
	drawn := false
	for try := 0; try < 200 && !drawn; try++ { // until the hand has rested long enough, and a picture of it was drawn
		l.to(1, 2047)
		l.wait(100_000)
		for look := 0; look < 40 && !drawn; look++ {
			time.Sleep(5 * time.Millisecond) // of the terminal: the learner's time stands still
			drawn = strings.Contains(l.out.String(), "> axis  2")
		}
		l.to(1, 1023)
		l.wait(1_000_000)
	}
	assert.True(t, drawn, "%s", l.out)
	key("Q")
	assert.Equal(t, exit.CodeTrouble, l.finish())
	assert.True(t, restored.Load())
	assert.Contains(t, l.out.String(), "\x1b[?25h", "the cursor is back")
	assert.NotContains(t, l.out.String(), "means nothing")
}

func TestLearnRefusesBadFlags(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--stick-mode", "5"}, "--stick-mode 5: write 1, 2, 3 or 4"},
		{[]string{"--stick-mode", "x"}, "--stick-mode x: write 1, 2, 3 or 4"},
		{[]string{"--stik-mode", "2"}, "did you mean --stick-mode?"},
		{[]string{"-o", dir}, "folder"},
		{[]string{"-o", filepath.Join(dir, "none", "x.yaml")}, "no such folder"},
		{[]string{"--craft", "nowhere.yaml"}, "nowhere.yaml"},
		{[]string{"now"}, `“now”`},
	} {
		code, _, errs := command(t, append([]string{"learn"}, c.args...)...)
		assert.Equal(t, exit.CodeBadInput, code, c.args)
		assert.Contains(t, errs, c.want)
	}
}

// Where no radio is there and nobody can say when one is, nothing is waited for.
func TestLearnEndsWithItsInputWhereNoRadioIs(t *testing.T) {
	t.Parallel()
	for name, in := range map[string]io.Reader{"no input": nil, "empty": strings.NewReader(""), "an answer too early": strings.NewReader("2\n")} {
		w, out, errs := testWorld(t)
		w.In = in
		ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
		assert.Equal(t, exit.CodeTrouble, execute(ctx, []string{"learn"}, w), name)
		assert.NoError(t, ctx.Err(), name)
		stop()
		assert.Contains(t, out.String(), "No radio is plugged in", name)
		assert.Contains(t, errs.String(), "There is no radio to learn", name)
	}
}

// Where no radio is there yet, each word is answered all the same, and to quit ends it as a signal would, which its help says.
func TestLearnAnswersBeforeARadioIsThere(t *testing.T) {
	t.Parallel()
	for language, says := range map[string][]string{
		"en": {"No radio is there to be learned yet", "stopped before the end: nothing is kept", "quit or a signal ended it before its end"},
		"de": {"Noch ist kein Sender zum Anlernen da", "vor dem Ende abgebrochen: nichts wird gespeichert", "quit oder ein Signal beendete es vorher"},
	} {
		w, out, errs := testWorld(t)
		w.In = strings.NewReader("enough\nsave\nquit\n")
		assert.Equal(t, exit.CodeTrouble, execute(context.Background(), []string{"learn", "--language", language}, w), language)
		assert.Equal(t, 2, strings.Count(out.String(), says[0]), "%s\n%s", out, errs)
		assert.Contains(t, errs.String(), says[1])
		_, help, _ := command(t, "learn", "--help", "--language", language)
		assert.Contains(t, strings.Join(strings.Fields(help), " "), says[2])
	}
}

// What is learned must not be lost at the end for want of a place: that is looked at before anything is asked.
func TestLearnLooksAtItsPlaceFirst(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("needs a folder in which nobody may make files")
	}
	code, out, errs := command(t, "learn", "-o", "/proc/desk.yaml")
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, errs, "/proc/desk.yaml: cannot be written: ")
	assert.NotContains(t, errs, "no such file or directory")
	assert.Empty(t, out)

	dir := t.TempDir()
	kept := filepath.Join(dir, "desk.yaml")
	require.NoError(t, os.WriteFile(kept, []byte("mine"), 0o600))
	code, _, errs = command(t, "learn", "-o", kept)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, kept+": this file is there already; choose another name, or write --over")
	_, _, errs = command(t, "learn", "--over", "-o", kept)
	assert.Contains(t, errs, "There is no radio to learn")
	text, err := os.ReadFile(kept)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(text))
	there, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, there, 1, "the trial is gone")
}
