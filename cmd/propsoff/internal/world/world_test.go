package world

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/takes"
	"propsoff.example/input/radio"
)

// layouts is the folder of the layouts that tests search, as it is found from anywhere.
var layouts, _ = filepath.Abs("../../testdata/layouts")

// A world says everything in its own language, English where it has none, and an error that has a status no otherwise.
func TestAWorldSpeaksItsLanguage(t *testing.T) {
	err := exit.BadInput(errors.Join(words.Wrong("list.and", words.Args{"a": words.Quote("a"), "b": words.Quote("b")}), exit.ErrStopped))
	for _, c := range []struct {
		book      *words.Book
		said, why string
	}{
		{nil, "1 and 2", "a and b\nstopped before the end"},
		{words.In("de"), "1 und 2", "a und b\nvor dem Ende abgebrochen"},
	} {
		var out strings.Builder
		w := &World{Book: c.book, Err: &out}
		two := words.And(words.AsIs("1"), words.AsIs("2"))
		assert.Equal(t, c.said, w.Say(two))
		w.Tell(two)
		assert.Equal(t, c.said+"\n", out.String())
		assert.Equal(t, c.why, w.Error(err))
		assert.Empty(t, w.Error(nil))
	}
}

// What is wrong with a file that a command names is said in every language, and what a file is that is no craft file.
func TestNamedFiles(t *testing.T) {
	room := wordstest.Of("named-file")
	w := &World{Door: new(door.Keeper)}
	for text, what := range map[string]string{
		"propsoff take 1\n": "take", "propsoff: script 1\n": "script", "propsoff: radio 1\n": "radio file", "propsoff: gestures 1\n": "gesture file",
		"propsoff: drill 1\n": "drill file", "propsoff: course 1\n": "course file", "steps: []\n": "script", "controls: []\n": "radio file",
	} {
		path := filepath.Join(t.TempDir(), "a.yaml")
		assert.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		_, err := w.LoadCraft(path, "")
		room.Error(t, err)
		at := ""
		if strings.HasPrefix(text, "propsoff: ") {
			at = ":1:11"
		}
		assert.EqualError(t, err, path+at+": this is a "+what+", and a craft file belongs here: give another file or name")
		assert.IsType(t, new(exit.Error), err)
	}
	w.Console = console.New(io.Discard, func() (int, int, bool) { return 80, 24, true }, nil)
	_, _, err := w.Format(door.Dash)
	room.Error(t, err)
	assert.EqualError(t, err, "-: a terminal cannot show a page; name a file, or pipe it to another program")
	_, err = w.LoadCraft("teezel", t.TempDir())
	room.Error(t, err)
	_, err = w.BeginTake(door.Dash, takes.Papers{}, nil)
	room.Error(t, err)
	room.Whole(t)
}

// Whoever mistypes the name of what ships, or writes that of its file, is told which was probably meant.
func TestNamesThatWereMeant(t *testing.T) {
	t.Chdir(t.TempDir())
	w := &World{Door: new(door.Keeper)}
	for name, meant := range map[string]string{"teezel": "teasel", "crafts/teasel.yaml": "teasel", "biult-in": "built-in", "examples": "", "my-own.yaml": ""} {
		_, err := w.LoadCraft(name, "")
		if meant == "" {
			assert.EqualError(t, err, name+": there is no such craft file; check the path")
			continue
		}
		assert.EqualError(t, err, name+": there is no such craft file; check the path; did you mean the shipped “"+meant+"”?")
		assert.ErrorIs(t, err, fs.ErrNotExist)
	}
	_, err := w.LoadGestures("exampels", "", false, 20)
	assert.ErrorContains(t, err, "did you mean the shipped “examples”?")
	require.NoError(t, os.WriteFile("teezel", []byte("propsoff: craft 2\n"), 0o600))
	_, err = w.LoadCraft("teezel", "")
	assert.NotContains(t, err.Error(), "did you mean the shipped", "the file is there, so it was meant")
}

// A file that is kept goes by its name, with its ending or without; what ships and what is here of that name comes first, and a script never means one.
func TestKeptFilesGoByTheirNames(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(t.TempDir())
	for _, name := range []string{"HOME", "XDG_DATA_HOME", "LocalAppData"} {
		t.Setenv(name, dir)
	}
	w := &World{Door: new(door.Keeper), Store: radio.Store{Dir: filepath.Join(dir, "radios")}}
	_, text, _ := assets.Craft(assets.BuiltIn)
	put := func(path, name string) {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
		require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(text), "name: ", "name: "+name+" # ", 1)), 0o600))
	}
	reed, teasel := filepath.Join(dir, "crafts", "reed.yaml"), filepath.Join(dir, "crafts", "teasel.yaml")
	put(reed, "Reed")
	put(teasel, "Mine")
	put(filepath.Join(dir, "secret.yaml"), "Secret")
	flown := func(name, dir string) string {
		c, err := w.LoadCraft(name, dir)
		if err != nil {
			return "none"
		}
		return c.Name + " " + c.Path
	}
	assert.Equal(t, "Reed "+reed, flown("reed", ""))
	assert.Equal(t, "Reed "+reed, flown("reed.yaml", ""))
	assert.Equal(t, "Teasel teasel", flown("teasel", ""), "what ships comes first")
	assert.Equal(t, "Mine "+teasel, flown("teasel.yaml", ""))
	assert.Equal(t, "none", flown("reed", t.TempDir()), "a script plays alike everywhere")
	assert.Equal(t, "none", flown("../secret", ""))
	assert.Equal(t, "none", flown("..", ""))
	assert.Equal(t, "none", flown("-", ""), "standard input is not there")
	assert.Equal(t, "craft", w.KindOf("reed", "radio.file"), "a second craft of a comparison, too")
	put("reed.yaml", "Here")
	assert.Equal(t, "Here reed.yaml", flown("reed.yaml", ""), "what is here comes before what is kept")

	club, err := os.ReadFile(filepath.Join(layouts, "full.radio.yaml"))
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(w.Store.Dir, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(w.Store.Dir, "club.yaml"), club, 0o600))
	c, err := w.LoadCraft("reed", "")
	require.NoError(t, err)
	f, err := w.LoadRadio("club", "", c)
	require.NoError(t, err)
	assert.NotNil(t, f)
	_, err = w.LoadRadio("club", t.TempDir(), c)
	assert.Error(t, err)

	takes := TakesFolder()
	require.NotEmpty(t, takes)
	require.NoError(t, os.MkdirAll(takes, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(takes, "evening.take"), nil, 0o600))
	assert.Equal(t, filepath.Join(takes, "evening.take"), KeptTake("evening"))
	assert.Equal(t, "morning", KeptTake("morning"))
}
