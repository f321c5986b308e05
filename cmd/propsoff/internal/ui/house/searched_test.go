package house_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/remembered"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
)

// startWith starts the program on a day with a craft, and with what searches came to as it is kept at a path.
func startWith(t *testing.T, path, craft string, day int, more ...func(*screen.Options)) *person {
	f, err := craftfile.Parse("craft.yaml", []byte(craft))
	require.NoError(t, err)
	return sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Start, s.Craft, s.CraftName, s.Names = true, true, f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = codes.Refusals(), codes.Happenings()
		s.Proofs = remembered.OpenProofs(path)
		s.Now = func() time.Time { return time.Date(2031, 4, day, 9, 0, 0, 0, time.UTC) }
		for _, m := range more {
			m(s)
		}
		d.Loop.UseCraft(f.Config(), "")
	})
}

// opens opens a sheet from the first one.
func (p *person) opens(place ui.Place) {
	p.s.TurnTo(place.Open())
	p.wait(20)
}

// What a search came to is known at the next start, on the start sheet, on the proof and on the card, until anything is changed that it depends on.
func TestWhatWasSearchedIsKnownAtTheNextStart(t *testing.T) {
	path := filepath.Join(t.TempDir(), remembered.ProofsName)
	p := startWith(t, path, heldCraft, 5)
	assert.True(t, p.reads("These switches have not been searched for surprises here yet"))
	p.opens(ui.OnProve)
	p.searched()
	p.tap("Esc")
	p.wait(50)
	assert.True(t, p.reads("Searched on 5 April 2031: 3 rules are broken."))

	p = startWith(t, path, heldCraft, 9)
	assert.True(t, p.reads("Searched on 5 April 2031: 3 rules are broken."), "the day of the search, not of the start")
	p.opens(ui.OnCard)
	p.wait(50)
	assert.False(t, p.reads("is being searched"), "the card takes what is known")
	assert.Contains(t, strings.ToLower(p.printed()), "3 rules broken")
	p.tap("Esc")
	p.opens(ui.OnProve) // of what is broken the way is to be shown, and only a search has that
	p.wait(20)
	assert.True(t, p.reads("BROKEN"), "what is known stands there from the first moment")
	p.searched()
	assert.True(t, p.reads("the shortest way there"))
	p.tap("Esc")
	p.wait(50)
	assert.True(t, p.reads("Searched on 9 April 2031: 3 rules are broken."))

	for name, other := range map[string]func() *person{
		"a switch": func() *person {
			return startWith(t, path, strings.Replace(heldCraft, "from: 1600", "from: 1601", 1), 9)
		},
		"a limit": func() *person { return startWith(t, path, strings.Replace(heldCraft, "200 ms", "240 ms", 1), 9) },
		"the gestures": func() *person {
			return startWith(t, path, heldCraft, 9, func(o *screen.Options) { o.Gestures.Text = []byte("propsoff: gestures 1\n") })
		},
		"the stick mode of the radio": func() *person {
			p := startWith(t, path, heldCraft, 9)
			p.opens(ui.OnBench)
			p.tap("S")
			p.tap("F3")
			p.opens(ui.OnStart)
			require.Equal(t, 3, p.s.Driving.StickMode)
			return p
		},
		"the program": func() *person {
			return startWith(t, path, heldCraft, 9, func(o *screen.Options) { o.Record.Program = "another" })
		},
	} {
		assert.True(t, other().reads("These switches have not been searched for surprises here yet"), name)
	}
	assert.True(t, startWith(t, path, heldCraft, 9).reads("Searched on 9 April 2031: 3 rules are broken."), "it is known still")
}

// Where nothing is broken there is no way to be shown: the proof shows what is known, and searches only when it is asked to.
func TestWhatHoldsIsNotSearchedAgain(t *testing.T) {
	sound := strings.Replace(heldCraft, "repeats-last", "falls-silent", 1)
	path := filepath.Join(t.TempDir(), remembered.ProofsName)
	p := startWith(t, path, sound, 5)
	p.opens(ui.OnProve)
	p.searched()
	p = startWith(t, path, sound, 6)
	assert.True(t, p.reads("Searched on 5 April 2031: no rule is broken."))
	p.opens(ui.OnProve)
	p.wait(50)
	assert.True(t, p.reads("Searched before, on 5 April 2031. Every situation was searched"))
	assert.True(t, p.reads("So an earlier search found it on 5 April 2031"))
	p.tap("Slash")
	p.wait(20)
	p.searched()
	assert.False(t, p.reads("Searched before"))
	assert.True(t, p.reads("Held against"))
}

// A damaged file is told of and kept aside; the layout counts as not searched, and can be searched.
func TestADamagedFileOfSearchesIsTold(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, remembered.ProofsName)
	require.NoError(t, os.WriteFile(path, []byte("propsoff: searched 1\nlayouts: [{digest: x}]\n"), 0o600))
	p := startWith(t, path, heldCraft, 5)
	assert.True(t, p.reads("What earlier searches of switches came to cannot be used"))
	assert.True(t, p.reads("These switches have not been searched for surprises here yet"))
	aside, err := os.ReadFile(filepath.Join(dir, "searched-damaged.yaml"))
	require.NoError(t, err)
	assert.Equal(t, "propsoff: searched 1\nlayouts: [{digest: x}]\n", string(aside))
	p.opens(ui.OnProve)
	p.searched()
	assert.True(t, startWith(t, path, heldCraft, 5).reads("Searched on 5 April 2031: 3 rules are broken."))
}
