package house_test

import (
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/house"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/start"
)

// atStart sits before the four doors.
func atStart(t *testing.T, more func(*whodrives.Options, *screen.Options)) *person {
	return sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) {
		o.Bare, o.Start = true, true
		if more != nil {
			more(d, o)
		}
	})
}

// clicks clicks one thing after the other.
func (p *person) clicks(names ...string) {
	p.t.Helper()
	for _, name := range names {
		p.click(name)
		p.wait(50)
	}
}

// Every sheet is come to from the four doors by pointer alone, and left to them again.
func TestTheStartLeadsEverywhere(t *testing.T) {
	found := map[ui.Place]bool{}
	for name, sit := range map[string]func(*testing.T) *person{
		"on the desk": func(t *testing.T) *person { return atStart(t, nil) },
		"outside": func(t *testing.T) *person {
			return atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Outside = true })
		},
	} {
		t.Run(name, func(t *testing.T) {
			for door := range start.Doors {
				p := sit(t)
				if name == "outside" { // is carried there by its own sheet
					p.clicks("start-row-2", "start-row-4", "go-out", "leave")
				}
				p.clicks("start-row-" + strconv.Itoa(door+1))
				require.Equal(t, door, start.Of(p.s.View()).Door)
				for row := range start.Of(p.s.View()).Rows {
					p.clicks("start-row-" + strconv.Itoa(row+1))
					place := p.s.Place()
					found[place] = true
					if place == ui.OnStart { // class view
						p.clicks("start-row-" + strconv.Itoa(row+1))
						continue
					}
					p.clicks("leave")
					assert.Equal(t, ui.OnStart, p.s.Place(), "back from %s", place)
					assert.False(t, p.quit)
					if start.Of(p.s.View()).Door == start.NoDoor { // from the bench one comes to all four
						p.clicks("start-row-" + strconv.Itoa(door+1))
					}
				}
			}
		})
	}
	for _, about := range house.Sheets().Sheets() {
		if about.Key != "" && about.Place != ui.OnStart {
			assert.True(t, found[about.Place], "nothing leads to %s", about.Place)
		}
	}
}

// What a person does next is offered by what is known, and the key takes it.
func TestTheStartOffersWhatIsNext(t *testing.T) {
	p := atStart(t, nil)
	assert.Equal(t, start.Plug, start.Of(p.s.View()).Next, "no radio was ever learned")
	assert.True(t, p.reads("What do you want to do?"))
	p.tap("Enter")
	assert.True(t, p.reads("No radio is plugged in. Plug it in by USB"))
	p.tap("Esc")
	assert.True(t, p.reads("What do you want to do?"))
	p.tap("2")
	assert.True(t, p.reads("Drills"))
	p.tap("Enter")
	assert.Equal(t, ui.OnDrills, p.s.Place())
	p.tap("Home")
	assert.Equal(t, ui.OnStart, p.s.Place())

	p, _ = atTheRadio(t)
	p.tap("Home")
	assert.Equal(t, start.Check, start.Of(p.s.View()).Next, "this layout was never searched")
	assert.True(t, p.reads("Moorland Desk 7 is plugged in and drives."))
}

// Nobody leaves the program unasked, and the key that asked stays.
func TestLeavingTheProgramIsAsked(t *testing.T) {
	p := atStart(t, nil)
	for range 3 {
		p.tap("Esc")
		require.Equal(t, ui.OnAsk, p.s.Place())
		assert.True(t, p.reads("Leave propsoff?"))
		p.tap("Esc")
		require.Equal(t, ui.OnStart, p.s.Place())
	}
	p.taps("Esc Enter")
	assert.Equal(t, ui.OnStart, p.s.Place(), "the answer that is marked stays")
	p.taps("Esc 2")
	assert.Equal(t, 1, p.s.Asked().At, "a number marks its answer")
	assert.False(t, p.quit, "and leaves it to Enter to take it: hands at the mode switch's keys must not answer")
	p.taps("3 9")
	assert.Equal(t, 1, p.s.Asked().At, "there are two")
	p.tap("F1")
	assert.True(t, p.reads("mark the answer of that number"))
	p.taps("F1 1 Enter")
	assert.Equal(t, ui.OnStart, p.s.Place())
	p.taps("Esc Space X 2 B PageUp Down Up")
	assert.Equal(t, ui.OnAsk, p.s.Place(), "nothing else answers")
	assert.False(t, p.quit)
	p.taps("F5 F11 F1")
	assert.Equal(t, ui.OnHelp, p.s.Place())
	p.taps("F1 PageDown Enter")
	assert.True(t, p.quit)
	p = atStart(t, nil)
	p.tap("Esc")
	p.clicks("ask-answer-2")
	assert.True(t, p.quit)
}

// Somebody who has armed and leaves the bench is asked; the craft stays armed meanwhile, and the arm switch works.
func TestAnArmedCraftIsNotLeftUnasked(t *testing.T) {
	armed := func() *person {
		p := ready(sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, o *screen.Options) { o.Bare = true }))
		p.tap("Space")
		require.True(t, p.snap().Armed)
		return p
	}
	for _, key := range []string{"Esc", "Home"} {
		p := armed()
		p.tap(key)
		assert.True(t, p.reads("Leave the bench?"), key)
		assert.True(t, p.reads("The craft is armed."))
		p.wait(2000)
		require.True(t, p.snap().Armed, "it goes on")
		p.tap("W")
		p.tap("Up")
		p.tap("Esc")
		assert.Equal(t, ui.OnBench, p.s.Place())
		assert.True(t, p.snap().Armed)
		p.tap(key)
		p.tap("Space")
		assert.False(t, p.snap().Armed, "it disarms from here, too")
		assert.Equal(t, ui.OnAsk, p.s.Place())
		assert.False(t, p.reads("The craft is armed."), "what is no longer so is not said")
		p.tap("Space")
		assert.False(t, p.snap().Armed, "and arms nothing")
		p.taps("Down Enter")
		assert.Equal(t, ui.OnStart, p.s.Place())
		p.clicks("start-row-2", "start-row-3")
		assert.Equal(t, ui.OnBench, p.s.Place())
		p.tap(key)
		assert.Equal(t, ui.OnStart, p.s.Place(), "disarmed it is left at once")
	}
	p := armed()
	p.tap("Esc")
	p.clicks("ask-answer-2")
	assert.Equal(t, ui.OnStart, p.s.Place())
	assert.True(t, p.snap().Armed)
	p.s.Closing()
	p.wait(50)
	assert.False(t, p.quit)
	assert.True(t, p.reads("Leave propsoff?"))
	p.s.Closing()
	p.wait(50)
	assert.True(t, p.quit, "whoever insists is let go")
}

// What would be lost is asked about, and the safe answer keeps it.
func TestNothingIsLostUnasked(t *testing.T) {
	p, _ := atDrills(t)
	p.goTo("Find the throttle")
	p.tap("Enter")
	p.wait(300)
	require.True(t, p.s.Drilling())
	p.tap("Esc")
	assert.True(t, p.reads("Leave the drill?"))
	p.tap("Esc")
	assert.True(t, p.s.Drilling())
	p.s.Closing()
	p.wait(50)
	assert.True(t, p.reads("it counts neither way"))
	p.clicks("ask-answer-1", "leave", "ask-answer-2")
	assert.False(t, p.s.Drilling())
	assert.Equal(t, ui.OnDrills, p.s.Place(), "first out of the drill")
	p.tap("Esc")
	assert.Equal(t, ui.OnBench, p.s.Place(), "then off the sheet")

	p = atGestures(t, assets.BuiltIn, "", nil)
	p.tap("X")
	p.tap("Period")
	p.held(600, "W")
	p.tap("Esc")
	assert.True(t, p.reads("Throw the recorded gesture away?"))
	p.taps("Esc F8")
	assert.True(t, p.reads("Throw the recorded gesture away?"), "going to another sheet is leaving, too")
	p.taps("Esc Esc PageDown Enter")
	assert.Equal(t, ui.OnGestures, p.s.Place())
	p.tap("Esc")
	assert.Equal(t, ui.OnBench, p.s.Place())

	p = atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Record.Folder = filepath.Join(t.TempDir(), "takes") })
	p.s.Closing()
	p.wait(50)
	assert.True(t, p.quit, "nothing would be lost")
	p = atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Record.Folder = filepath.Join(t.TempDir(), "takes") })
	p.clicks("start-row-2", "start-row-3", "take")
	p.eventually("recording to")
	p.s.Closing()
	p.wait(50)
	assert.True(t, p.reads("This practice is being recorded to"))
	assert.False(t, p.quit)
}

// The size of text that was chosen holds at the next start, on every sheet.
func TestTheSizeOfTextIsRemembered(t *testing.T) {
	kept := new(remembered.File)
	sit := func() *person {
		return atStart(t, func(_ *whodrives.Options, o *screen.Options) { o.Remembered = kept })
	}
	p := sit()
	usual := p.page.Scale
	p.clicks("text-size")
	assert.Greater(t, p.page.Scale, usual)
	assert.Equal(t, 125, kept.TextSize)
	larger := p.page.Scale
	p = sit()
	assert.InDelta(t, larger, p.page.Scale, 1e-9)
	p.tap("F6")
	assert.InDelta(t, larger, p.page.Scale, 1e-9)
	p.taps("Esc Equal") // after the largest that the window has room for comes the smallest
	assert.Equal(t, 85, kept.TextSize)
	assert.Less(t, p.page.Scale, usual)
}

// Whoever is asked on the way to the four doors and stays has not left: back leads to where he came from, as before.
func TestWhoStaysGoesBackWhereHeCameFrom(t *testing.T) {
	p := atStart(t, nil)
	p.clicks("start-row-3", "start-row-2")
	require.Equal(t, ui.OnLayout, p.s.Place())
	p.taps("Comma Home")
	require.Equal(t, ui.OnAsk, p.s.Place(), "a change is not saved")
	p.taps("Enter Backspace")
	require.Equal(t, ui.OnLayout, p.s.Place())
	p.tap("Esc")
	assert.Equal(t, ui.OnStart, p.s.Place())
	assert.Equal(t, start.Check, start.Of(p.s.View()).Door, "behind the door gone through")
	p.clicks("start-row-2")
	p.tap("Home")
	assert.Equal(t, start.NoDoor, start.Of(p.s.View()).Door, "the key leads to all four")
	p.clicks("start-row-2", "start-row-4")
	require.Equal(t, ui.OnFirst, p.s.Place())
	p.tap("B")
	assert.Equal(t, ui.OnBench, p.s.Place(), "where what is asked for is seen")
}
