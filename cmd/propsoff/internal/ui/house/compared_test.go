package house_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// quickCraft can be compared in a moment.
const quickCraft = `propsoff: craft 1
name: Quick
link: {silence-limit: 60 ms, clean-time: 60 ms}
channels: {throttle: 1, roll: 2, pitch: 3, yaw: 4, arm: 5, mode: 6}
arming: {by: switch, on: {from: 1600, to: 2180}, still-time: 60 ms}
`

// sitAtCompare sits before a craft beside which others lie, and turns to comparing.
func sitAtCompare(t *testing.T, text string, others ...string) *person {
	t.Setenv("HOME", t.TempDir())
	parse := func(text string) *craftfile.File {
		f, err := craftfile.Parse("quick.yaml", []byte(text))
		require.NoError(t, err)
		return f
	}
	f := parse(text)
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.CraftPath, s.Names = true, f, f.Name, "quick.yaml", f.Names()
		s.Now = func() time.Time { return time.Date(2031, 4, 5, 12, 0, 0, 0, time.UTC) }
		s.OtherCrafts = func(string) (all []screen.CraftFile) {
			for i, text := range others {
				all = append(all, screen.CraftFile{Name: string(rune('a'+i)) + ".yaml", File: parse(text)})
			}
			return all
		}
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("S")
	p.tap("BracketRight")
	require.Equal(t, ui.OnCompare, p.s.Place())
	return p
}

// compared waits for the end of a comparison: it runs in a goroutine of its own, by the real clock.
func (p *person) compared() {
	p.t.Helper()
	p.until("the comparison does not end", func() bool { return !p.reads("stop comparing") })
}

func renamed(text, name string) string {
	return strings.Replace(text, "name: Quick", "name: "+name, 1)
}

// What the layout can be compared with is listed; the way to a difference is gone into and looked through by keys and by pointer.
func TestALayoutIsComparedInTheWindow(t *testing.T) {
	p := sitAtCompare(t, quickCraft, renamed(quickCraft, "Renamed"), strings.Replace(renamed(quickCraft, "Springs"), "from: 1600", "from: 1400", 1))
	assert.True(t, p.reads("Choose what this layout is to be compared with."))
	assert.True(t, p.reads("craft Renamed (a.yaml)"))
	p.tap("Enter")
	p.compared()
	assert.True(t, p.reads("They behave alike"), "%q", texts(p))
	assert.False(t, p.reads("NOT ALIKE"))
	p.tap("PageDown")
	p.tap("Enter")
	p.compared()
	require.True(t, p.reads("They do not behave alike."), "%q", texts(p))
	assert.True(t, p.reads("NOT ALIKE"))
	p.tap("Enter")
	assert.True(t, p.reads("A: Craft Springs (b.yaml)"))
	assert.True(t, p.reads("B: Craft and radio as they are now"))
	p.press("compare-step-2")
	p.tap("Down")
	p.tap("Esc")
	assert.Equal(t, ui.OnCompare, p.s.Place(), "back at the list first")
	assert.True(t, p.reads("what came of it"))
	p.press("compare-with-1")
	assert.True(t, p.reads("They behave alike"), "it is known still")
	p.tap("F8")
	assert.Equal(t, ui.OnProve, p.s.Place())
	p.tap("BracketRight")
	assert.True(t, p.reads("NOT ALIKE"), "and after another sheet")
	p.tap("Esc")
	p.tap("Esc")
	assert.NotEqual(t, ui.OnCompare, p.s.Place())
}

// A comparison goes on beside the window, and is stopped by a key; then nothing is called alike, and no card says so.
func TestAComparisonIsStoppedInTheWindow(t *testing.T) {
	p := sitAtCompare(t, slowCraft, strings.Replace(slowCraft, "name: Slow", "name: Other", 1))
	p.tap("Enter")
	assert.True(t, p.reads("Searching: "), "%q", texts(p))
	p.tap("Slash")
	p.compared()
	assert.True(t, p.reads("No difference was found so far"))
	assert.True(t, p.reads("undecided"))
	p.tap("F9")
	assert.NotContains(t, p.printed(), "Behaves ")
}

// What was proved alike stands on the card with its day, and falls away as soon as the craft or its gestures are others.
func TestLikenessStandsOnTheCard(t *testing.T) {
	p := sitAtCompare(t, quickCraft, renamed(quickCraft, "Renamed"))
	p.tap("F9")
	assert.NotContains(t, p.printed(), "Behaves ")
	p.tap("BracketRight")
	p.tap("Enter")
	p.compared()
	p.tap("F9")
	said := "Behaves like the craft of a.yaml: proved 5 April 2031; how it flies was not compared."
	assert.Contains(t, p.printed(), said)
	p.tap("Right")
	assert.Contains(t, p.printed(), said)
	p.s.Options.Gestures.Text = []byte("others")
	p.wait(16)
	assert.NotContains(t, p.printed(), "Behaves ")
	p.s.Options.Gestures.Text = nil
	p.wait(16)
	assert.Contains(t, p.printed(), said)
	f, err := craftfile.Parse("quick.yaml", []byte(strings.Replace(quickCraft, "still-time: 60 ms", "still-time: 80 ms", 1)))
	require.NoError(t, err)
	p.s.Options.Craft = f
	p.wait(16)
	assert.NotContains(t, p.printed(), "Behaves ")
	p.tap("BracketRight")
	assert.True(t, p.reads("craft file quick.yaml before its last change"), "%q", texts(p))
	p.tap("Enter")
	p.compared()
	assert.True(t, p.reads("They do not behave alike."))
}

// A change that is not saved yet is compared with what is saved, without leaving it, and the card of the craft as it then is says so once it is saved.
func TestAChangedCraftIsComparedBeforeItIsSaved(t *testing.T) {
	p := sitAtCompare(t, quickCraft)
	assert.True(t, p.reads("There is nothing to compare with yet"))
	f, err := craftfile.Parse("quick.yaml", []byte(renamed(quickCraft, "Quicker")))
	require.NoError(t, err)
	require.True(t, p.s.Edit(f).Empty())
	p.tap("F6")
	require.True(t, p.reads("1 change not saved yet"), "%q", texts(p))
	p.tap("F8")
	require.True(t, p.reads("Compare with what is saved"))
	p.press("ask-answer-4")
	require.Equal(t, ui.OnCompare, p.s.Place())
	assert.True(t, p.reads("the craft as you have changed it, not saved yet"))
	p.tap("Enter")
	p.compared()
	assert.True(t, p.reads("They behave alike"))
	p.tap("F9")
	assert.NotContains(t, p.printed(), "Behaves ", "the card is of what is saved")
	p.tap("F6")
	assert.True(t, p.reads("1 change not saved yet"), "nothing was lost")
	p.s.Options.Craft = f // as saving does
	p.tap("BracketRight")
	p.wait(16)
	like := p.s.Proof.Like()
	require.NotNil(t, like)
	assert.Equal(t, "quick.yaml", like.Craft)
	assert.True(t, like.CraftWas)
}

// The radio as it was before it was learned anew, and other radios that are known, are there to compare with.
func TestRadiosAreThereToCompareWith(t *testing.T) {
	file := func(text string) *radio.File {
		f, err := radio.Parse("desk.yaml", []byte(text), radio.Known{})
		require.NoError(t, err)
		return &f
	}
	store := radio.Store{Dir: t.TempDir()}
	_, err := store.Save(*file(strings.Replace(deskRadio, "Desk", "Shelf", 1)))
	require.NoError(t, err)
	craft, err := craftfile.Parse("quick.yaml", []byte(quickCraft))
	require.NoError(t, err)
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names, s.Radio = true, craft, craft.Name, craft.Names(), file(deskRadio)
		d.Store = store
		d.Loop.UseCraft(craft.Config(), "")
	})
	p.tap("S")
	p.s.Options.Radio = file(strings.Replace(deskRadio, "high: 1024}, stays", "high: 1000}, stays", 1))
	p.wait(16)
	p.tap("BracketRight")
	assert.True(t, p.reads("before it was learned anew"), "%q", texts(p))
	assert.True(t, p.reads("radio "), "%q", texts(p))
	p.tap("Enter")
	p.compared()
	assert.False(t, p.reads("Choose what"), "%q", texts(p))
}
