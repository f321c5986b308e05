package house_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim/craftfile"
)

// atTheLayout sits down with a craft file of one's own and opens the switch layout. It gives the file's path and text.
func atTheLayout(t *testing.T) (p *person, path, text string) {
	_, shipped, _ := assets.Craft(assets.BuiltIn)
	path = filepath.Join(t.TempDir(), "mine.yaml")
	text = strings.Replace(string(shipped), "low-throttle:", "# what I found out in spring\n  low-throttle:", 1)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return openLayout(t, path, text), path, text
}

func openLayout(t *testing.T, path, text string) *person {
	craft, err := craftfile.Parse(path, []byte(text))
	require.NoError(t, err)
	p := sitDownAt(t, assets.BuiltIn, func(_ *whodrives.Options, s *screen.Options) {
		s.Craft, s.CraftPath, s.Names = craft, path, craft.Names()
	})
	p.tap("Enter")
	p.tap("S") // the keyboard drives
	p.tap("F6")
	return p
}

func onDisk(t *testing.T, path string) string {
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func (p *person) taps(keys string) {
	for _, k := range strings.Fields(keys) {
		p.tap(k)
	}
}

// A person lets the middle position arm too, by keys, and saves; the file has just that change, and the bench flies it.
func TestAPersonEditsTheArmSpanByKeysAndSaves(t *testing.T) {
	p, path, text := atTheLayout(t)
	assert.True(t, p.reads("with an ideal radio"), "no radio file is in use, and it is said")
	assert.True(t, p.reads("disarms"))
	p.taps("Up Semicolon")
	assert.Equal(t, text, onDisk(t, path), "nothing is written before it is saved")
	assert.True(t, p.reads("1 change not saved yet"))
	assert.True(t, p.reads("256 µs from 1244"))
	p.tap("Enter")
	want := strings.Replace(text, "  on: {from: 1600, to: 2180}   # the arm", "  on: {from: 1244, to: 2180}   # the arm", 1)
	require.NotEqual(t, text, want)
	assert.Equal(t, want, onDisk(t, path), "every comment and the order are kept")
	assert.True(t, p.reads("Saved in "+path))
	assert.True(t, p.reads("The bench flies it now."))
	p.tap("Esc")
	assert.True(t, p.reads("from 1244"), "the bench shows the new span")
	p.tap("F6")
	assert.False(t, p.reads("not saved yet"))
}

func TestNumbersAreTypedAndBadOnesRefused(t *testing.T) {
	p, path, text := atTheLayout(t)
	p.taps("Insert")
	assert.True(t, p.reads("Both ends of the span of arming, now 1600 to 2180."))
	p.taps("1 7 0 0 Period 5 Space 2 1 8 Enter")
	assert.True(t, p.reads("Type two numbers from 860 to 2180"), "218 is no pulse")
	p.taps("0 Enter Enter")
	assert.Equal(t, strings.Replace(text, "on: {from: 1600,", "on: {from: 1700.5,", 1), onDisk(t, path))

	// The mode's spans: one that would overlap is refused in the words of the craft file's reader.
	p.taps("Right Insert")
	assert.True(t, p.reads("Both ends of the span of angle, now 860 to 1250."))
	p.taps("9 0 0 Space 1 3 0 0 Enter")
	assert.True(t, p.reads("overlaps the one of"))
	p.taps("Backspace Backspace Backspace Backspace 1 2 0 0 Enter Enter")
	assert.Contains(t, onDisk(t, path), "angle: {from: 900, to: 1200}")
	p.taps("Insert Insert 1 3 0 0 Space 1 7 0 0 Esc")
	assert.True(t, p.reads("is typed and not taken yet"))
	p.taps("PageDown Enter")
	assert.True(t, p.reads("back"), "Esc leaves the typing, not the sheet")
	assert.False(t, p.reads("not saved yet"))
}

func TestEveryKindOfChange(t *testing.T) {
	p, path, _ := atTheLayout(t)
	p.taps("Right Up Backslash") // the middle of the mode switch: rate
	p.taps("Comma Period Period Slash Enter")
	now := onDisk(t, path)
	_, err := craftfile.Parse(path, []byte(now))
	require.NoError(t, err)
	for _, want := range []string{"by: sticks  ", "when-silent: sends-stored", "when-lost: sink", "angle: {from: 860, to: 1244}\n", "rate: {from: 1244, to: 2180}", "# what I found out in spring", "stored: {throttle: 988, roll: 1500, pitch: 1500, yaw: 1500}"} {
		assert.Contains(t, now, want)
	}
	assert.NotContains(t, now, "\n  horizon: ")

	// A new job by its name, then off and on again, and a second switch.
	p.taps("0 F I N D E R Space 2 Enter")
	assert.True(t, p.reads("finder 2"))
	p.taps("Right Down Down 1 Up Up Quote Enter")
	f, err := craftfile.Parse(path, []byte(onDisk(t, path)))
	require.NoError(t, err)
	require.Len(t, f.More(), 1)
	assert.Equal(t, "finder 2", f.More()[0].Name)
	p.taps("Backspace")
	assert.True(t, p.reads("Undone."))
	assert.True(t, p.reads("1 change not saved yet"), "undone beyond what was saved is a change too")
}

func TestLeavingUnsavedChangesAsks(t *testing.T) {
	p, path, text := atTheLayout(t)
	p.taps("Up Semicolon Esc")
	assert.True(t, p.reads("Leave with changes that are not saved?"))
	p.taps("Esc")
	assert.True(t, p.reads("256 µs from 1244"), "stayed")
	p.taps("F8")
	assert.True(t, p.reads("Leave with changes that are not saved?"), "going to another sheet is leaving too")
	p.taps("Esc Esc PageDown PageDown Enter")
	assert.False(t, p.reads("switches, their positions"), "left")
	assert.Equal(t, text, onDisk(t, path))
	p.taps("F6")
	assert.False(t, p.reads("256 µs from 1244"), "the change was dropped")
	p.taps("Semicolon Esc PageDown Enter")
	assert.False(t, p.reads("switches, their positions"))
	assert.Contains(t, onDisk(t, path), "on: {from: 1244,")
}

func TestAShippedCraftIsSavedAsAFileOfOnesOwn(t *testing.T) {
	config := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", config)
	_, text, _ := assets.Craft(assets.BuiltIn)
	p := openLayout(t, assets.BuiltIn, string(text))
	assert.True(t, p.reads("as shipped"))
	const again = "Start with --craft teasel.yaml to use it again."
	p.taps("Up Semicolon Enter")
	path := filepath.Join(config, "propsoff", "crafts", "teasel.yaml")
	assert.True(t, p.reads("Saved in "+path+". "+again), "%q", texts(p))
	assert.Contains(t, onDisk(t, path), "on: {from: 1244,")
	p.taps("Semicolon Enter")
	assert.Contains(t, onDisk(t, path), "on: {from: 1756,", "from then on it is that file")
	assert.True(t, p.reads(again), "the next start still reads the built-in one")
	next := openLayout(t, path, onDisk(t, path)) // --craft and this path
	assert.True(t, next.reads("256 µs from 1756"), "%q", texts(next))
	next.taps("Semicolon Enter")
	assert.True(t, next.reads("Saved in "+path))
	assert.False(t, next.reads(again), "this start was told the path")
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

// To sticks and back is as if nothing had been; with another change in between, the arming is what it was all the same.
func TestArmingBySticksAndBackRestoresWhatWas(t *testing.T) {
	p, path, text := atTheLayout(t)
	mine := strings.Replace(text, "on: {from: 1600,", "on: {from: 1244,", 1)
	p.taps("Up Semicolon Comma")
	assert.True(t, p.reads("2 changes not saved yet"))
	p.taps("Comma Enter")
	assert.Equal(t, mine, onDisk(t, path))

	p.taps("Comma Enter")
	assert.Contains(t, onDisk(t, path), "\n  # on: {from: 1244, to: 2180}   # the arm channel's span")
	p.taps("Slash Comma Enter") // sinks, then by switch again
	assert.Equal(t, strings.Replace(mine, "when-lost: cut ", "when-lost: sink ", 1), onDisk(t, path))
	p.taps("0 F O E Enter Comma Slash Comma Enter") // and with a job on a channel of its own
	now := onDisk(t, path)
	for _, want := range []string{"arm: 5,", "  on: {from: 1244, to: 2180}   # the arm channel's span", "when-lost: cut "} {
		assert.Contains(t, now, want)
	}
}

// Who saves on the way out sees on the bench where the file is, for a while.
func TestWhatWasSavedOnTheWayOutIsSaidOnTheBench(t *testing.T) {
	config := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", config)
	_, text, _ := assets.Craft(assets.BuiltIn)
	p := openLayout(t, assets.BuiltIn, string(text))
	p.taps("Up Semicolon Esc PageDown Enter")
	require.False(t, p.reads("switches, their positions"), "left")
	path := filepath.Join(config, "propsoff", "crafts", "teasel.yaml")
	said := func() bool {
		all := strings.Join(texts(p), " ")
		return strings.Contains(all, "Saved in "+path[:20]) && strings.Contains(all, "--craft")
	}
	assert.True(t, said(), "%q", texts(p))
	p.wait(20_000)
	assert.False(t, said(), "%q", texts(p))
}

func TestAFileThatSomeoneElseChangedIsNotWrittenOver(t *testing.T) {
	p, path, text := atTheLayout(t)
	require.NoError(t, os.WriteFile(path, []byte("propsoff: craft 1 # theirs\n"), 0o644))
	p.taps("Up Semicolon Enter")
	assert.True(t, p.reads("was changed by someone else"))
	assert.Equal(t, "propsoff: craft 1 # theirs\n", onDisk(t, path))
	assert.True(t, p.reads("1 change not saved yet"))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644)) // put back as it was
	p.taps("Enter")
	assert.True(t, p.reads("Saved in "+path))
	assert.Contains(t, onDisk(t, path), "on: {from: 1244,")
}

func TestPositionsAreChosenAndToldByClick(t *testing.T) {
	p, path, _ := atTheLayout(t)
	click := func(name string) {
		t.Helper()
		for _, h := range p.page.Hits() {
			if h.Name == name {
				p.s.Click(ink.Hit{Name: h.Name, Key: h.Key, Box: h.Box})
				p.wait(50)
				return
			}
		}
		t.Fatalf("%s is not on the sheet", name)
	}
	click("lever-2-2")
	assert.True(t, p.reads("mode at 1500 µs"))
	click("layout-mode-angle")
	click("layout-loss")
	click("layout-save")
	assert.Contains(t, onDisk(t, path), "angle: {from: 860, to: 1756}")
	assert.Contains(t, onDisk(t, path), "when-lost: sink")
	click("lever-1-3")
	click("layout-arm")
	assert.True(t, p.reads("the only position that arms; let another one arm instead"))
	click("lever-1-2")
	click("layout-arm")
	click("lever-1-3")
	click("layout-arm")
	assert.False(t, p.reads("the only position that arms"))
	click("layout-save")
	assert.Contains(t, onDisk(t, path), "on: {from: 1244, to: 1756}")
}
