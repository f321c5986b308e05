package screen_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/drive"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/cmd/propsoff/internal/screen"
	"propsoff/sim/craftfile"
)

// sitAtCard sits before a craft and turns to its card; the home folder is a new one.
func sitAtCard(t *testing.T) (p *person, home string) {
	home = t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	t.Setenv("XDG_CONFIG_HOME", "")
	f, err := craftfile.Parse("craft.yaml", []byte(heldCraft))
	require.NoError(t, err)
	p = sitDownAt(t, assets.BuiltIn, func(d *drive.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names = true, f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = phrase.Refusals(), phrase.Happenings()
		s.Now = func() time.Time { return time.Date(2031, 4, 5, 12, 0, 0, 0, time.UTC) }
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("S")
	p.tap("F9")
	return p, home
}

func TestTheCardIsShownSavedAndTurned(t *testing.T) {
	p, home := sitAtCard(t)
	for _, want := range []string{"the card as it will be printed on A4", "Repeats", "April", "2031", "It will be saved into", "Ideal"} {
		assert.True(t, p.reads(want), want)
	}
	p.tap("Enter")
	first := filepath.Join(home, "switch-card-repeats.pdf")
	assert.FileExists(t, first)
	assert.True(t, p.reads("Saved:"))
	p.tap("O")
	assert.True(t, p.reads("the card as it will be printed on Letter"))
	require.NoError(t, os.Mkdir(filepath.Join(home, "Documents"), 0o700))
	p.tap("Enter")
	second := filepath.Join(home, "Documents", "switch-card-repeats.pdf")
	assert.FileExists(t, second)
	p.tap("Enter")
	assert.FileExists(t, filepath.Join(home, "Documents", "switch-card-repeats-2.pdf"), "nothing is written over")
	a, err := os.ReadFile(first)
	require.NoError(t, err)
	b, err := os.ReadFile(second)
	require.NoError(t, err)
	assert.Contains(t, string(a), "/MediaBox [0 0 595.2 841.92]")
	assert.Contains(t, string(b), "/MediaBox [0 0 612 792]")
	assert.Contains(t, string(a), "20310405120000Z")

	for _, want := range []string{"further down", "further down", "further down", "whole page", "closer"} {
		p.tap("Z")
		assert.True(t, p.reads(want), want)
	}
	p.tap("F9")
	assert.False(t, p.reads("the card as it will be printed"))
	assert.True(t, p.reads("DISARMED"))
}

func TestACardThatCannotBeSavedSaysWhy(t *testing.T) {
	p, home := sitAtCard(t)
	require.NoError(t, os.RemoveAll(home))
	p.tap("Enter")
	assert.True(t, p.reads("The card could not be saved"))
	assert.True(t, p.reads("there is no such folder"))
}

// What the window's own search has found stands on the card, and goes with the layout that it was found for.
func TestWhatWasProvedStandsOnTheCard(t *testing.T) {
	p, _ := sitAtCard(t)
	assert.True(t, p.reads("proved:"))
	p.tap("F8")
	p.searched()
	p.tap("F9")
	assert.False(t, p.reads("nobody"))
	assert.True(t, p.reads("situations"))
}
