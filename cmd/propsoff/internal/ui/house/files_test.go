package house_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/files"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/cmd/propsoff/internal/ui/uitest"
	"propsoff.example/input/radio"
	"propsoff.example/input/script"
	"propsoff.example/sim/arming"
)

// atTheFiles sits down at the sheet of files, where a craft that arms by sticks, a take and a logbook are kept.
func atTheFiles(t *testing.T, more func(*whodrives.Options, *screen.Options)) (*person, belongings.Places) {
	t.Helper()
	dir := t.TempDir()
	k := belongings.Places{Radios: radio.Store{Dir: filepath.Join(dir, "radios")}, Logbook: logbook.Store{Dir: filepath.Join(dir, "logbook")},
		Config: dir, Crafts: filepath.Join(dir, "crafts"), Takes: filepath.Join(dir, "takes")}
	_, text, _ := assets.Craft("teasel-by-sticks")
	for path, text := range map[string]string{"crafts/reed.yaml": strings.Replace(string(text), "name: ", "name: Reed # ", 1), "takes/evening.take": "propsoff take 1\n", "logbook/mara.jsonl": "{}\n",
		"remembered.yaml": ""} {
		path = filepath.Join(dir, filepath.FromSlash(path))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	}
	p := atStart(t, func(d *whodrives.Options, o *screen.Options) {
		o.Kept = &k
		if more != nil {
			more(d, o)
		}
	})
	p.presses("start-row-3", "start-row-6")
	require.Equal(t, ui.OnFiles, p.s.Place())
	return p, k
}

// fingers touches what is called so, and lets it go.
func (p *person) fingers(name string) {
	p.t.Helper()
	box := p.hit(name).Box
	p.point(ink.Pointer{ID: 1, Finger: true}, box, 0.5, 0.5)
	p.point(ink.Pointer{ID: 1, Finger: true, Phase: ink.Up}, box, 0.5, 0.5)
}

// presses presses one thing after the other by pointer.
func (p *person) presses(names ...string) {
	p.t.Helper()
	for _, name := range names {
		p.press(name)
	}
}

// fileRow is the hit area of a file's row.
func fileRow(t *testing.T, p *person, name string) string {
	t.Helper()
	p.wait(20)
	for i, r := range files.Of(p.s.View()).Rows {
		if uitest.Say(r.Says) == name {
			return "file-row-" + strconv.Itoa(i+1)
		}
	}
	require.Fail(t, "no row", name)
	return ""
}

// A craft that is kept comes on the bench at once, by keys, by pointer and by finger, and one that ships comes back so.
func TestAKeptCraftIsFlown(t *testing.T) {
	for how, fly := range map[string]func(t *testing.T, p *person, name string){
		"keys": func(t *testing.T, p *person, name string) {
			row, _ := strconv.Atoi(strings.TrimPrefix(fileRow(t, p, name), "file-row-"))
			for range 40 {
				p.tap("Up")
			}
			for range row - 1 {
				p.tap("PageDown")
			}
			p.tap("Enter")
		},
		"pointer": func(t *testing.T, p *person, name string) { p.presses(fileRow(t, p, name), "file-fly") },
		"finger": func(t *testing.T, p *person, name string) {
			p.fingers(fileRow(t, p, name))
			p.fingers("file-fly")
		},
	} {
		t.Run(how, func(t *testing.T) {
			p, _ := atTheFiles(t, nil)
			require.Equal(t, arming.BySwitch, p.s.Config.Arming.By)
			onBench := func(name string) bool {
				row, _ := strconv.Atoi(strings.TrimPrefix(fileRow(t, p, name), "file-row-"))
				return strings.Contains(uitest.Say(files.Of(p.s.View()).Rows[row-1].Stands), "on the bench now")
			}
			assert.True(t, onBench("teasel") && !onBench("reed.yaml"), "the built-in craft ships as teasel")
			fly(t, p, "reed.yaml")
			p.wait(50)
			assert.True(t, p.reads("Reed is on the bench now."), "%q", texts(p))
			assert.Equal(t, arming.BySticks, p.s.Config.Arming.By)
			assert.Equal(t, arming.BySticks, p.loop.Craft().Arming.By, "the bench has it")
			assert.True(t, onBench("reed.yaml") && !onBench("teasel"))
			p.tap("F6")
			assert.False(t, p.s.Place() == ui.OnLayout, "it is no sheet from which others open")
			fly(t, p, "teasel")
			p.wait(50)
			assert.Equal(t, arming.BySwitch, p.loop.Craft().Arming.By)
			p.tap("Esc")
			assert.Equal(t, ui.OnStart, p.s.Place())
		})
	}
}

// Changes to the craft that are not saved are not lost by flying another.
func TestAnotherCraftDropsNoChanges(t *testing.T) {
	p, _ := atTheFiles(t, nil)
	p.tap("Esc")
	p.press("start-row-2")
	require.Equal(t, ui.OnLayout, p.s.Place())
	p.taps("Up Semicolon")
	require.NotNil(t, p.s.Unsaved())
	p.s.WithFile(files.Fly, "crafts/reed.yaml")
	p.wait(20)
	assert.Equal(t, ui.OnAsk, p.s.Place(), "the sheet is not left with them unasked")
	p.tap("Esc")
	assert.Equal(t, ui.OnLayout, p.s.Place())
	assert.Equal(t, arming.BySwitch, p.loop.Craft().Arming.By)
	require.NotNil(t, p.s.Unsaved())

	for _, over := range []string{"F1", "Backquote"} { // nor from what stands over it
		p.tap(over)
		p.s.WithFile(files.Fly, "crafts/reed.yaml")
		p.wait(20)
		assert.Equal(t, ui.OnAsk, p.s.Place(), over)
		p.tap("Esc")
		require.NotNil(t, p.s.Unsaved(), over)
	}
	p.s.WithFile(files.Fly, "crafts/reed.yaml")
	p.wait(20)
	p.press("ask-answer-3") // leave without saving
	assert.Equal(t, ui.OnFiles, p.s.Place())
	assert.Nil(t, p.s.Unsaved())
	assert.True(t, p.reads("Reed is on the bench now."))
}

// A file is deleted once that was said again, and what is lost is said before; the safe answer keeps it.
func TestAKeptFileIsDeletedOnceItIsSaidAgain(t *testing.T) {
	p, k := atTheFiles(t, nil)
	there := func(name string) bool { _, ok := k.Find(name); return ok }
	p.presses(fileRow(t, p, "reed.yaml"))
	p.tap("Delete")
	assert.True(t, p.reads("Delete reed.yaml?"))
	assert.True(t, p.reads("This craft will be gone."))
	p.taps("Enter")
	assert.True(t, there("crafts/reed.yaml"), "the answer that is marked keeps it")
	p.taps("Delete Esc")
	assert.True(t, there("crafts/reed.yaml"))
	p.taps("Delete 2 Enter")
	assert.False(t, there("crafts/reed.yaml"))
	assert.True(t, p.reads("reed.yaml is deleted."))

	p.presses(fileRow(t, p, "evening.take"), "file-delete", "ask-answer-2")
	assert.False(t, there("takes/evening.take"))
	p.fingers(fileRow(t, p, "mara.jsonl"))
	p.fingers("file-delete")
	assert.True(t, p.reads("All that was practised under this name will be gone"))
	p.fingers("ask-answer-2")
	assert.Len(t, k.Files(), 1, "the program's own settings are not offered here")
	p.wait(20)
	for _, h := range p.page.Hits() {
		assert.NotContains(t, []string{"file-delete", "file-rename"}, h.Name, "a craft that ships stays")
	}
}

// A file gets another name, and the craft on the bench is saved under it from then on; a name that is taken is refused.
func TestAKeptFileIsRenamed(t *testing.T) {
	p, k := atTheFiles(t, nil)
	p.presses(fileRow(t, p, "reed.yaml"), "file-fly", "file-rename")
	require.Equal(t, ui.OnWrite, p.s.Place())
	for range len("reed") {
		p.tap("Backspace")
	}
	p.types("Rohr")
	p.tap("Enter")
	assert.True(t, p.reads("reed.yaml is called Rohr.yaml now."), "%q", texts(p))
	_, ok := k.Find("crafts/Rohr.yaml")
	assert.True(t, ok)
	assert.Equal(t, filepath.Join(k.Crafts, "Rohr.yaml"), p.s.Options.CraftPath)

	require.NoError(t, os.WriteFile(filepath.Join(k.Crafts, "other.yaml"), nil, 0o600))
	p.tap("Quote")
	for range len("Rohr") {
		p.tap("Backspace")
	}
	p.types("other")
	p.tap("Enter")
	assert.Equal(t, ui.OnWrite, p.s.Place())
	assert.True(t, p.reads("other.yaml is there already"))
}

// What is in use now stays: the logbook of whoever practises, and the take that is recorded.
func TestWhatIsInUseStays(t *testing.T) {
	book := &notebook{names: []string{"Mara"}, pupil: "Mara"}
	p, k := atTheFiles(t, func(_ *whodrives.Options, o *screen.Options) { o.Drills.Pupils = book })
	book.where = filepath.Join(k.Logbook.Dir, "mara.jsonl")
	p.presses(fileRow(t, p, "mara.jsonl"))
	p.tap("Delete")
	assert.Equal(t, ui.OnFiles, p.s.Place())
	assert.True(t, p.reads("This is the logbook of Mara, who practises now"))
	p.s.View().Recording = filepath.Join(k.Takes, "evening.take")
	p.s.WithFile(files.Delete, "takes/evening.take")
	assert.Equal(t, ui.OnFiles, p.s.Place())
	p.wait(20)
	assert.True(t, p.reads("This take is being recorded"))
}

// What is played keeps the craft that it was written for, until it has ended.
func TestWhatIsPlayedKeepsItsCraft(t *testing.T) {
	p, _ := atTheFiles(t, func(d *whodrives.Options, _ *screen.Options) {
		lesson, err := script.Parse("lesson", []byte("name: a lesson\nsteps: []\nend: 6s\n"), d.Names)
		require.NoError(t, err)
		d.Script = lesson.Source()
	})
	p.presses(fileRow(t, p, "reed.yaml"), "file-fly")
	assert.True(t, p.reads("let it end first"), "%q", texts(p))
	assert.Equal(t, arming.BySwitch, p.loop.Craft().Arming.By)
	p.wait(7000)
	p.press("file-fly")
	assert.True(t, p.reads("Reed is on the bench now."), "%q", texts(p))
	assert.Equal(t, arming.BySticks, p.loop.Craft().Arming.By)
}

// Nobody reads that nothing is kept where it was not looked.
func TestFilesThatAreNotLookedFor(t *testing.T) {
	p, _ := atTheFiles(t, func(_ *whodrives.Options, o *screen.Options) { o.Kept = nil })
	assert.True(t, p.reads("These crafts came with the program."), "%q", texts(p))
	assert.False(t, p.reads("Nothing of yours is kept yet"))
}

// Whoever asks beside the sheets, as the page's panel does, comes to the sheet, and to the question.
func TestAFileIsAskedForFromThePage(t *testing.T) {
	p, _ := atTheFiles(t, inPage)
	early := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, o *screen.Options) { inPage(d, o); o.Kept = p.s.Options.Kept })
	early.s.WithFile(files.Delete, "crafts/reed.yaml")
	early.wait(50)
	require.Equal(t, ui.OnCautions, early.s.Place(), "the cautions come first")
	early.tap("Enter")
	early.wait(50)
	assert.True(t, early.reads("Delete reed.yaml?"))
	p.tap("Esc")
	p.s.WithFile(files.Fly, "crafts/reed.yaml")
	p.wait(20)
	assert.Equal(t, ui.OnFiles, p.s.Place())
	assert.True(t, p.reads("Reed is on the bench now."))
	p.s.WithFile(files.Delete, "crafts/reed.yaml")
	p.wait(20)
	assert.True(t, p.reads("Delete reed.yaml?"))
	assert.True(t, p.reads("On the bench it stays until another one comes there"))
	p.taps("Esc Esc")
	p.press("start-row-2")
	require.Equal(t, ui.OnLayout, p.s.Place())
	assert.True(t, p.reads("Craft file: reed.yaml"), "a browser has no folders: %q", texts(p))
	p.s.WithFile(files.Fly, "crafts/gone.yaml")
	p.wait(20)
	assert.False(t, p.reads("gone"), "what has gone meanwhile is not done anything with")
}
