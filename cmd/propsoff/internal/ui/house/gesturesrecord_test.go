package house_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	gesturessheet "propsoff.example/cmd/propsoff/internal/ui/gestures"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/gestures"
	"propsoff.example/gestures/patternfile"
)

// A hand records a gesture of its own with the keyboard's sticks; it is kept, counts at once, and is there at the next start.
func TestAGestureIsRecordedFromTheHand(t *testing.T) {
	var own string
	p := atGestures(t, assets.BuiltIn, "", func(o *screen.Options) { own = o.Gestures.Own })
	p.tap("X")
	p.wait(2500)
	p.tap("Period")
	require.True(t, p.reads("Take the sticks."))
	p.wait(400)
	p.s.Key("Up", true) // pitch forward, and roll right with it
	p.s.Key("Right", true)
	p.wait(1300)
	require.True(t, p.reads("Hold it as long as your craft asks"))
	p.s.Key("Up", false)
	p.s.Key("Right", false)
	p.wait(500)
	require.True(t, p.reads("At rest again"))
	p.wait(2500)
	require.True(t, p.reads("This is what was seen."))
	rec := &gesturessheet.Of(p.s.View()).Recording
	require.Equal(t, gestures.Recorded, rec.Verdict.Recording)
	require.EqualValues(t, 1, rec.Pattern.Count)
	assert.Equal(t, [...]gestures.Zone{gestures.Low, gestures.High, gestures.High, gestures.Middle}, rec.Pattern.Parts[0].Zones)
	assert.False(t, rec.Pattern.Physical)
	p.tap("Comma")
	assert.True(t, gesturessheet.Of(p.s.View()).Recording.Pattern.Physical)
	assert.Equal(t, [...]gestures.Zone{gestures.Middle, gestures.Low, gestures.High, gestures.High}, gesturessheet.Of(p.s.View()).Recording.Pattern.Parts[0].Zones)
	p.tap("Comma")

	p.tap("Enter")
	p.tap("Enter")
	require.True(t, p.reads("It needs a name."))
	p.types("up n")
	require.True(t, p.reads("up n"))
	p.tap("Enter")
	require.True(t, p.reads("is kept in"))
	view := p.s.View()
	n := len(view.Config.Gestures.Patterns) - 1
	assert.Equal(t, n, gesturessheet.Of(view).Selected)
	assert.Equal(t, "up n", view.Config.Gestures.Patterns[n].Name)
	assert.Equal(t, own, gesturessheet.Of(view).File)
	assert.False(t, p.reads("Yours will differ"), "these are the pilot's own now")

	text, err := os.ReadFile(own)
	require.NoError(t, err)
	f, err := patternfile.Parse(own, text, 20)
	require.NoError(t, err)
	assert.Len(t, f.Gestures.Patterns, n+1, "those that were there before are there at the next start too")
	assert.Equal(t, "up-n", f.Gestures.Patterns[n].Code)

	// The craft has it at once: the same hand makes it.
	p.wait(3000)
	p.s.Key("Up", true)
	p.s.Key("Right", true)
	p.wait(2000)
	p.s.Key("Up", false)
	p.s.Key("Right", false)
	p.wait(300)
	v := p.s.View()
	assert.Equal(t, 1, gesturessheet.Of(v).Scores[n].Made, "%+v %+v %+v", gesturessheet.Of(v).Set, v.Snap.In, v.Snap.Link)

	// A second one goes into the same file.
	p.wait(1500)
	p.tap("Period")
	p.wait(300)
	p.s.Key("Left", true)
	p.wait(1300)
	p.s.Key("Left", false)
	p.wait(2800)
	p.tap("Enter")
	p.tap("Z")
	p.tap("Enter")
	text, err = os.ReadFile(own)
	require.NoError(t, err)
	f, err = patternfile.Parse(own, text, 20)
	require.NoError(t, err)
	assert.Len(t, f.Gestures.Patterns, n+2)
	assert.Equal(t, "z", f.Gestures.Patterns[n+1].Code)
}

// What cannot be recorded is said, and changes nothing.
func TestAGestureIsNotRecordedWhile(t *testing.T) {
	p := atGestures(t, assets.BuiltIn, "", func(o *screen.Options) { o.Gestures.Own = "" })
	p.tap("X")
	p.tap("Period")
	assert.True(t, p.reads("There is no folder"))
	assert.False(t, p.reads("record your own from your craft's manual (“.”)"))
	p = sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) { o.Bare = true })
	p.taps("X O")
	require.True(t, p.reads("the gesture file has none."))
	assert.False(t, p.reads("Press “.”"), "it would do nothing")
	p.tap("Period")
	assert.True(t, p.reads("There is no folder"))

	p = atGestures(t, assets.BuiltIn, "  - {at: 1s, throttle: 988}\nend: 9s\n", nil)
	p.wait(1200)
	p.tap("Period")
	assert.Equal(t, gesturessheet.NoRecording, gesturessheet.Of(p.s.View()).Recording.Phase)

	// Nothing held, and thrown away by Esc without leaving the sheet.
	p = atGestures(t, assets.BuiltIn, "", nil)
	p.tap("X")
	p.tap("Period")
	p.wait(500)
	p.tap("Period")
	assert.True(t, p.reads("Nothing was held"))
	p.tap("Esc")
	assert.Equal(t, gesturessheet.NoRecording, gesturessheet.Of(p.s.View()).Recording.Phase)
	assert.True(t, p.reads("Yours will differ: record your own from your craft's manual (“.”)."))
}

// A craft without gestures says how to come by one, and who does so has one.
func TestTheFirstGestureOfAll(t *testing.T) {
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) {
		o.Bare, o.Names, o.Gestures.Own = true, d.Names, filepath.Join(t.TempDir(), "propsoff", "gestures.yaml")
	})
	p.taps("X O")
	p.wait(2500)
	require.True(t, p.reads("the gesture file has none. Press “.” to record one from your own hand."))
	p.tap("Period")
	require.True(t, p.reads("From where they rest now, make the gesture, hold it, and let go."))
	p.wait(300)
	p.s.Key("Left", true)
	p.wait(1300)
	require.True(t, p.reads("Or press “.” when it is whole."))
	p.s.Key("Left", false)
	p.wait(300)
	p.tap("Period")
	require.True(t, p.reads("Press Enter to name and keep it."), "%q", texts(p))
	p.tap("Enter")
	require.True(t, p.reads("What is the gesture called?"))
	p.taps("Z Esc PageDown Enter") // once it was asked
	require.True(t, p.reads("Press Enter to name and keep it."))
	p.taps("Enter Z Enter")
	require.True(t, p.reads("is kept in"))
	assert.Len(t, p.s.View().Config.Gestures.Patterns, 1)

	// It is made again and again by who does what is said of it then.
	made := func(n int) {
		t.Helper()
		p.s.Key("Left", true)
		p.wait(600)
		assert.True(t, p.reads("Hold it: "))
		p.wait(1200)
		assert.Equal(t, n, gesturessheet.Of(p.s.View()).Scores[0].Made)
	}
	let := func() {
		p.s.Key("Left", false)
		p.wait(400)
	}
	p.tap("X")
	p.wait(3000)
	require.True(t, p.reads("Right stick: to the left."), "%q", texts(p))
	made(1)
	require.True(t, p.reads("Made. Let go first: the sticks must leave it before it can be made again."))
	let()
	made(2)
	let()
	p.taps("X Space")
	require.True(t, p.reads("Gestures do not count now: the craft is armed. Disarm first."), "%q", texts(p))
	p.s.Key("Left", true)
	p.wait(300)
	p.tap("Space")
	p.wait(200)
	require.True(t, p.reads("Let go first: the sticks stand in it already, and must come into it anew."), "%q", texts(p))
	p.wait(1500)
	assert.Equal(t, 2, gesturessheet.Of(p.s.View()).Scores[0].Made)
	let()
	made(3)
}
