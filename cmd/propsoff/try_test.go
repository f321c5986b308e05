package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// deskFile is what somebody else learned of the radio of deskInfo.
func deskFile(serial string) radio.File {
	f := radio.File{Device: radio.DeviceOf(deskInfo(serial)), StickMode: 2}
	for _, job := range []string{"throttle", "roll", "pitch", "yaw"} {
		s := radio.Own(input.Axis{Max: 2047})
		if job == "pitch" {
			s = s.Turned()
		}
		c := radio.Control{Job: job, Form: radio.Axis, Axis: stickAxes[job], Scale: &s, Reach: &radio.Reach{Low: 0, Rest: 1023, High: 2047}}
		if job == "throttle" {
			c.Reach.Rest, c.Stays = 0, true
		}
		f.Controls = append(f.Controls, c)
	}
	f.Controls = append(f.Controls, radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{3}})
	return f
}

// given has a world's store keep a file as one that was taken.
func given(t *testing.T, f radio.File) func(w *world.World) {
	return func(w *world.World) {
		_, _, err := w.Store.Take(f, false)
		require.NoError(t, err)
	}
}

// shows has the hand show what a try asks for, up to the arm switch.
func (l *learner) shows() {
	l.reads("Somebody else learned this radio’s file")
	l.wait(1_000_000)
	l.to(2, 2047)
	l.to(3, 2047)
	l.to(1, 0)
	l.to(0, 2047)
	l.reads("Put back what you moved")
	for axis, rest := range []int32{1023, 1023, 0, 1023} {
		l.to(axis, rest)
	}
	for _, m := range []struct {
		asked    string
		axis     int
		to, back int32
	}{{"Pitch: lean", 1, 0, 1023}, {"Yaw: turn", 3, 2047, 1023}, {"Roll: lean", 0, 2047, 1023}, {"Throttle: make", 2, 2047, 0}} {
		l.reads(m.asked)
		l.wait(1_000_000)
		l.to(m.axis, m.to)
		l.wait(600_000)
		l.to(m.axis, m.back)
	}
	l.reads("Arm switch: from off to its last position")
	l.wait(1_000_000)
}

func TestLearnTriesAFileThatWasGiven(t *testing.T) {
	t.Parallel()
	l := sit(t, given(t, deskFile("A")))
	l.port.plug(deskInfo("A"))
	l.reads("came from somebody else and has not been tried on this radio yet")
	l.shows()
	l.press(5, true)
	l.reads("Arm is asked for, in the file on button 4, but button 6 moved.")
	l.press(5, false)
	l.wait(1_500_000)
	l.press(3, true)
	l.reads("as its file says: arm")
	assert.Equal(t, exit.CodeDone, l.finish())
	f, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	require.Equal(t, radio.Exact, f.Match)
	assert.Equal(t, deskFile("A"), f.File, "tried, and nothing else is changed")
}

// A file of one's kind is tried as well, and then this very radio's own.
func TestLearnTriesAGivenFileOfOnesKind(t *testing.T) {
	t.Parallel()
	l := sit(t, given(t, deskFile("B")))
	l.port.plug(deskInfo("A"))
	l.shows()
	l.press(3, true)
	l.reads("as its file says: arm")
	assert.Equal(t, exit.CodeDone, l.finish())
	f, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	assert.Equal(t, deskFile("A"), f.File)
}

// It is left untried, or learned anew by a word or a flag.
func TestLearnNeedNotTryAFileThatWasGiven(t *testing.T) {
	t.Parallel()
	l := sit(t, given(t, deskFile("A")))
	l.port.plug(deskInfo("A"))
	l.reads("Somebody else learned this radio’s file")
	l.say("enough")
	l.reads("it is used, and tried the next time")
	assert.Equal(t, exit.CodeDone, l.finish())
	f, err := l.store.Find(deskInfo("A"))
	require.NoError(t, err)
	assert.True(t, f.File.Given)

	l = sit(t, given(t, deskFile("A")))
	l.port.plug(deskInfo("A"))
	l.reads("Somebody else learned this radio’s file")
	l.say("anew")
	l.to(5, 100)
	l.reads("Pitch: lean the craft forward, nose down.")
	l.say("quit")
	assert.Equal(t, exit.CodeTrouble, l.finish())

	l = sit(t, given(t, deskFile("A")), "--anew")
	l.port.plug(deskInfo("A"))
	l.reads("Pitch: lean the craft forward, nose down.")
	l.say("quit")
	assert.Equal(t, exit.CodeTrouble, l.finish())
	assert.NotContains(t, l.out.String(), "Somebody else")
	assert.Contains(t, l.err.String(), "nothing is kept")

	for language, says := range map[string]string{"en": "the radio file stays as it is, and untried", "de": "bleibt, wie sie ist, und nicht ausprobiert"} {
		l = sit(t, given(t, deskFile("A")), "--language", language)
		l.port.plug(deskInfo("A"))
		l.reads("propsoff learn --anew")
		l.say("quit")
		assert.Equal(t, exit.CodeTrouble, l.finish())
		assert.Contains(t, l.err.String(), says)
	}
}

// What `radios take` keeps says that it is still to be tried.
func TestTakenFilesAreToBeTried(t *testing.T) {
	w, out, _ := testWorld(t)
	path := filepath.Join(t.TempDir(), "club.yaml")
	f := deskFile("A")
	require.NoError(t, os.WriteFile(path, f.Marshal(), 0o600))
	require.Equal(t, exit.CodeDone, execute(t.Context(), []string{"radios", "take", path}, w))
	assert.Contains(t, out.String(), "Window and page try it first")
	all := w.Store.Files()
	require.Len(t, all, 1)
	assert.True(t, all[0].File.Given)
}
