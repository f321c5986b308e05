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
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
)

// sitAtCard sits before a craft and turns to its card; the home folder is a new one.
func sitAtCard(t *testing.T) (p *person, home string) {
	home = t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	t.Setenv("XDG_CONFIG_HOME", "")
	f, err := craftfile.Parse("craft.yaml", []byte(heldCraft))
	require.NoError(t, err)
	p = sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names = true, f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = codes.Refusals(), codes.Happenings()
		s.Now = func() time.Time { return time.Date(2031, 4, 5, 12, 0, 0, 0, time.UTC) }
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("S")
	p.tap("F9")
	return p, home
}

func TestTheCardIsShownSavedAndTurned(t *testing.T) {
	p, home := sitAtCard(t)
	for _, want := range []string{"the bank-card as it will be printed on A4", "Repeats", "April", "2031", "It will be saved into", "DISARM"} {
		assert.True(t, p.reads(want), want)
	}
	p.searched()
	p.tap("Enter")
	first := filepath.Join(home, "bank-card-repeats.pdf")
	assert.FileExists(t, first)
	assert.True(t, p.reads("Saved:"))
	assert.False(t, p.reads("It will be saved into"), "it has been saved")
	p.tap("Down")
	assert.True(t, p.reads("the bank-card as it will be printed on Letter"))
	assert.False(t, p.reads("Saved:"), "this one has not")
	require.NoError(t, os.Mkdir(filepath.Join(home, "Documents"), 0o700))
	p.wait(16)
	assert.True(t, p.reads("Documents"), "the folder is the one that will be taken now")
	p.tap("Enter")
	second := filepath.Join(home, "Documents", "bank-card-repeats.pdf")
	assert.FileExists(t, second)
	p.tap("Enter")
	assert.FileExists(t, filepath.Join(home, "Documents", "bank-card-repeats-2.pdf"), "nothing is written over")
	a, err := os.ReadFile(first)
	require.NoError(t, err)
	b, err := os.ReadFile(second)
	require.NoError(t, err)
	assert.Contains(t, string(a), "/MediaBox [0 0 595.32 841.92]")
	assert.Contains(t, string(b), "/MediaBox [0 0 612 792]")
	assert.Contains(t, string(a), "20310405120000Z")
	p.taps("Right Enter")
	assert.True(t, p.reads("the page as it will be printed on Letter"))
	assert.FileExists(t, filepath.Join(home, "Documents", "switch-card-repeats.pdf"))
	p.tap("F9")
	assert.False(t, p.reads("the page as it will be printed"))
	assert.True(t, p.reads("DISARMED"))
}

// A closer look goes through the parts, each whole, and back to the whole sheet; by keys and by pointer.
func TestTheCardIsLookedAtCloser(t *testing.T) {
	p, _ := sitAtCard(t)
	p.searched()
	for _, want := range []string{"part 1 of 2", "part 2 of 2"} {
		p.tap("PageDown")
		assert.True(t, p.reads(want), want)
	}
	p.tap("PageDown")
	assert.True(t, p.reads("part 2 of 2"), "that was the last")
	p.tap("Enter")
	assert.True(t, p.reads("Saved: "), "one who looks closely is told too")
	p.taps("PageUp")
	assert.True(t, p.reads("part 1 of 2"))
	p.taps("PageUp")
	assert.False(t, p.reads("part 1 of 2"))
	p.press("card-size")
	assert.True(t, p.reads("the page as it will be printed"))
	for _, want := range []string{"part 1 of 4", "part 2 of 4", "part 3 of 4", "part 4 of 4"} {
		p.press("card-closer")
		assert.True(t, p.reads(want), want)
	}
	p.press("card-back")
	assert.True(t, p.reads("part 3 of 4"))
	p.press("card-size")
	assert.True(t, p.reads("the bank-card as it will be printed"))
	assert.False(t, p.reads("part "), "the other card is shown as a whole")
}

func TestACardThatCannotBeSavedSaysWhy(t *testing.T) {
	p, home := sitAtCard(t)
	require.NoError(t, os.RemoveAll(home))
	p.tap("Enter")
	assert.True(t, p.reads("The card could not be saved"))
	assert.True(t, p.reads("there is no such folder"))
	assert.False(t, p.reads("It will be saved into"))
}

// printed is what the card says, as it will stand on the paper.
func (p *person) printed() string {
	var words []string
	for _, it := range ink.Describe(p.page).Items {
		if it.Group == "printed" && it.Text != "" {
			words = append(words, it.Text)
		}
	}
	return strings.ReplaceAll(strings.Join(words, " "), "\u00a0", " ")
}

// A card of a layout that nobody has searched has it searched by itself, and says what was found once that is there; it goes with the layout that
// it was found for.
func TestWhatWasProvedStandsOnTheCard(t *testing.T) {
	p, _ := sitAtCard(t)
	p.searched()
	assert.Contains(t, p.printed(), "LAYOUT: 3 RULES BROKEN.")
	assert.NotContains(t, p.printed(), "not proved")
	p.tap("Right")
	assert.Contains(t, p.printed(), "situations. 3 rules are broken.")
	assert.NotContains(t, p.printed(), "Not proved")
	p.tap("F8")
	assert.True(t, p.reads("3 rules are broken."), "the sheet of the search has it too")
	assert.False(t, p.reads("Searching"))
}

// A search that is under way is no search that nobody began: the sheet says how far it is, and it goes on when the sheet is left.
func TestTheCardOfALayoutThatIsBeingSearched(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	p := sitAtProve(t, slowCraft)
	p.tap("F9")
	require.True(t, p.reads("is being searched"))
	require.NotEmpty(t, ink.Describe(p.page).Named("filling-way"))
	require.Contains(t, p.printed(), "Layout not proved: its search was still going on.")
	p.tap("Right")
	require.Contains(t, p.printed(), "Not proved yet: the situations of this layout were still being searched when this card was made.")
	p.tap("PageDown")
	assert.True(t, p.reads("is being searched"), "one who looks closely is told too")
	assert.True(t, p.reads("save unproved"))
	p.tap("Enter")
	require.True(t, p.reads("Saved:"))
	p.tap("F8")
	require.True(t, p.reads("Searching:"), "it goes on")
	p.tap("Slash")
	p.searched()
	p.tap("F9")
	assert.Contains(t, p.printed(), "partial")
	assert.Contains(t, p.printed(), "undecided")
	assert.False(t, p.reads("Saved:"))
	assert.False(t, p.reads("is being searched"), "one that was stopped is not begun again by itself")
}

// Gestures are part of what was searched: with others, what was found is old news, and no card has it.
func TestOtherGesturesMakeAProofStale(t *testing.T) {
	f, err := craftfile.Parse("craft.yaml", []byte(heldCraft))
	require.NoError(t, err)
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names = true, f, f.Name, f.Names()
		s.Gestures = screen.GestureOptions{Name: "mine.yaml", Text: []byte("one")}
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("S")
	p.tap("F8")
	p.searched()
	require.False(t, p.reads("have changed since this search"))
	p.s.Options.Gestures.Text = []byte("two") // as a gesture does that was recorded
	p.wait(16)
	assert.True(t, p.reads("have changed since this search"))
	p.tap("F9") // which has it searched anew
	p.tap("F8")
	assert.False(t, p.reads("have changed since this search"))
}

// What the card counts of things that are called out, the sheet that it names shows.
func TestTheCardNamesTheSheetThatCallsOut(t *testing.T) {
	p := sitAtProve(t, strings.Replace(heldCraft, "from: 1600", "from: 2000", 1))
	p.tap("F9")
	require.Contains(t, p.printed(), "1 thing called out (arm: near an edge).")
	p.tap("Right")
	require.Contains(t, p.printed(), "One thing about this layout is called out (arm: near an edge): see the layout sheet or “propsoff prove” before you rely on this card.")
	p.tap("F6")
	assert.True(t, p.reads("Only 12 µs from the edge at 2000"), "%q", texts(p))
}
