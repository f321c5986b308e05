//go:build unix

package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/door"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
)

func madeFile(t *testing.T, path string) []byte {
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return b
}

// svgWords are what an SVG says of its texts.
func svgWords(t *testing.T, b []byte) string {
	dec := xml.NewDecoder(bytes.NewReader(b))
	var words []string
	desc := false
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return strings.ReplaceAll(strings.Join(words, " "), "\u00a0", " ")
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			desc = e.Name.Local == "desc"
		case xml.EndElement:
			desc = false
		case xml.CharData:
			if desc {
				words = append(words, string(e))
			}
		}
	}
}

func TestCardIsWrittenByItsEnding(t *testing.T) {
	dir := t.TempDir()
	for _, size := range []string{"bank", "page"} {
		for _, paper := range []string{"a4", "Letter"} {
			for _, ext := range []string{".pdf", ".svg", ".png"} {
				path := filepath.Join(dir, size+paper+ext)
				code, out, errs := command(t, "card", "--size", size, "-o", path, "--paper", paper, "--date", "2031-04-05")
				require.Equal(t, exit.CodeDone, code, errs)
				assert.Equal(t, "Saved: "+path+"\n", out)
			}
		}
	}
	made := func(name string) string { return string(madeFile(t, filepath.Join(dir, name))) }
	assert.True(t, strings.HasPrefix(made("banka4.pdf"), "%PDF-1.5"))
	assert.Contains(t, made("banka4.pdf"), "/MediaBox [0 0 595.32 841.92]")
	assert.Contains(t, made("pagea4.pdf"), "/MediaBox [0 0 595.2 841.92]")
	assert.Contains(t, made("bankLetter.pdf"), "/MediaBox [0 0 612 792]")
	assert.Contains(t, made("banka4.pdf"), "20310405")
	both := []string{"Teasel", "5 April 2031", "ARM", "DISARM", "Tested on the craft, propellers off:", "clears no aircraft for flight"}
	for name, more := range map[string][]string{"banka4.svg": {"no radio learned", "Layout not proved: not searched for this card.", "Radio silent?", "fold", "50 mm long"}, "pagea4.svg": {"Ideal radio", "ARMED", "Not proved", "when the link is lost"}} {
		words := svgWords(t, []byte(made(name)))
		for _, want := range append(more, both...) {
			assert.Contains(t, words, want, name)
		}
	}
	for name, dots := range map[string][2]int{"pageLetter.png": {2550, 3300}, "bankLetter.png": {5100, 6600}} {
		m, err := png.DecodeConfig(bytes.NewReader(madeFile(t, filepath.Join(dir, name))))
		require.NoError(t, err)
		assert.Equal(t, dots, [2]int{m.Width, m.Height})
	}
}

func TestCardOfARadioFile(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "radio.yaml")
	require.NoError(t, os.WriteFile(file, []byte(radioText), 0o600))
	path := filepath.Join(dir, "card.svg")
	code, _, errs := command(t, "card", "--radio", file, "-o", path, "--date", "none")
	require.Equal(t, exit.CodeDone, code, errs)
	words := svgWords(t, madeFile(t, path))
	assert.NotContains(t, words, "no radio learned")
	assert.NotContains(t, words, "20"+"31")
	assert.Contains(t, words, "Moorland Desk 7, stick mode 2")
}

// The card of a pupil has the craft and the radio of the last practice, as the logbook names them, and the name; what is given by hand goes before.
func TestTheCardOfAPupil(t *testing.T) {
	data, dir := t.TempDir(), t.TempDir()
	t.Setenv("XDG_DATA_HOME", data)
	path := filepath.Join(dir, "card.svg")
	w, _, errs := testWorld(t)
	card := func(args ...string) (string, int) {
		w.Door = new(door.Keeper)
		code := execute(context.Background(), append([]string{"card", "-o", path, "--over", "--date", "none"}, args...), w)
		if code != exit.CodeDone {
			return "", code
		}
		return svgWords(t, madeFile(t, path)), code
	}
	_, code := card("--pupil", "Ada")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs.String(), "Ada")
	given := filepath.Join(dir, "friend.yaml")
	require.NoError(t, os.WriteFile(given, []byte(radioText), 0o600))
	says, code := card("--pupil", "Ada", "--craft", "teasel-by-sticks", "--radio", given)
	require.Equal(t, exit.CodeDone, code, errs.String())
	for _, want := range []string{"for Ada", "Teasel by sticks", "Moorland Desk 7"} {
		assert.Contains(t, says, want, "nothing is wanted of a logbook")
	}
	for _, one := range [][]string{{"--craft", "teasel"}, {"--radio", given}} {
		_, code = card(append([]string{"--pupil", "Ada"}, one...)...)
		assert.Equal(t, exit.CodeBadInput, code, "%q: the other is looked for in a logbook that is not there", one)
	}

	at := time.Date(2031, 4, 5, 10, 0, 0, 0, time.UTC)
	book, err := logbook.Store{Dir: filepath.Join(data, "propsoff", "logbook")}.Open("Ada Größe", at)
	require.NoError(t, err)
	note := func(radio, craft string, mode int) {
		require.NoError(t, book.Append(logbook.Began(at, logbook.Practice{Radio: radio, Craft: logbook.Craft{Name: craft, StickMode: mode}})))
	}
	note("keyboard", "Teasel by sticks", 3)
	says, code = card("--pupil", "Ada Größe")
	require.Equal(t, exit.CodeDone, code, errs.String())
	for _, want := range []string{"for Ada Größe", "Teasel by sticks", "no radio learned, stick mode 3", "throttle low, yaw right"} {
		assert.Contains(t, says, want)
	}
	assert.Contains(t, errs.String(), "knows no radio")

	note("Moorland Desk 7", "Teasel", 2)
	says, code = card("--pupil", "Ada Größe")
	require.Equal(t, exit.CodeDone, code, errs.String())
	assert.Contains(t, says, "no radio learned, stick mode 2")
	assert.Contains(t, errs.String(), "No radio file here is of the radio of Ada Größe (Moorland Desk 7)")

	require.NoError(t, os.MkdirAll(w.Store.Dir, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(w.Store.Dir, "desk.yaml"), []byte(radioText), 0o600))
	says, code = card("--pupil", "Ada Größe")
	require.Equal(t, exit.CodeDone, code, errs.String())
	assert.Contains(t, says, "Moorland Desk 7, stick mode 2")
	says, code = card("--pupil", "Ada Größe", "--craft", "teasel-by-sticks")
	require.Equal(t, exit.CodeDone, code, errs.String())
	assert.Contains(t, says, "Teasel by sticks")

	require.NoError(t, os.WriteFile(filepath.Join(w.Store.Dir, "desk-2.yaml"), []byte(radioText), 0o600))
	_, code = card("--pupil", "Ada Größe")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs.String(), "give one by --radio FILE")
	_, code = card("--pupil", "Ada Größe", "--radio", filepath.Join(w.Store.Dir, "desk.yaml"))
	assert.Equal(t, exit.CodeDone, code, errs.String())

	note("Moorland Desk 7", "Hedgerow 5", 2)
	_, code = card("--pupil", "Ada Größe", "--radio", filepath.Join(w.Store.Dir, "desk.yaml"))
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs.String(), "no craft file here has that name: give it by --craft FILE")
	crafts := filepath.Join(filepath.Dir(w.Store.Dir), "crafts")
	require.NoError(t, os.MkdirAll(crafts, 0o700))
	_, text, _ := assets.Craft(assets.BuiltIn)
	require.NoError(t, os.WriteFile(filepath.Join(crafts, "mine.yaml"), bytes.Replace(text, []byte("name: Teasel"), []byte("name: Hedgerow 5"), 1), 0o600))
	says, code = card("--pupil", "Ada Größe", "--radio", filepath.Join(w.Store.Dir, "desk.yaml"))
	require.Equal(t, exit.CodeDone, code, errs.String())
	assert.Contains(t, says, "Hedgerow 5")
}

func TestCardOfTheRadioThatIsPluggedIn(t *testing.T) {
	dir := t.TempDir()
	w, _, errs := testWorld(t)
	b := newBus()
	b.plug(found("Moorland Desk 7", "/dev/input/event7", "A12"))
	w.Radios = b
	path := filepath.Join(dir, "card.svg")
	args := []string{"card", "--device", "moorland", "-o", path, "--date", "none"}
	require.Equal(t, exit.CodeBadInput, execute(context.Background(), args, w))
	assert.Contains(t, errs.String(), "Moorland Desk 7 has not been learned yet")

	require.NoError(t, os.MkdirAll(w.Store.Dir, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(w.Store.Dir, "desk.yaml"), []byte(radioText), 0o600))
	require.Equal(t, exit.CodeDone, execute(context.Background(), args, w), errs.String())
	assert.Contains(t, svgWords(t, madeFile(t, path)), "Moorland Desk 7, stick mode 2")

	code, _, why := command(t, "card", "--device", "moorland", "-o", path, "--over")
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, why, "No radio is plugged in")
	code, _, why = command(t, "card", "--device", "1", "-o", path, "--over")
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, why, "No radio is plugged in")
}

func TestCardSaysWhatWasProved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "card.svg")
	code, out, errs := command(t, "card", "--size", "page", "--prove", "-o", path, "--date", "none")
	require.Equal(t, exit.CodeDone, code, errs)
	verdict, _, _ := strings.Cut(out, "\n")
	require.Contains(t, verdict, "situations")
	words := svgWords(t, madeFile(t, path))
	assert.Contains(t, words, verdict)
	assert.NotContains(t, words, "Not proved")

	// A search that is stopped says that it is partial, by its status too; the card is written all the same.
	w, o, e := testWorld(t)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	require.Equal(t, exit.CodeUnfinished, execute(ctx, []string{"card", "--size", "page", "--prove", "--over", "-o", path, "--date", "none"}, w), e.String())
	assert.Contains(t, o.String(), "partial")
	assert.Contains(t, svgWords(t, madeFile(t, path)), "partial")
	assert.Contains(t, svgWords(t, madeFile(t, path)), "rules are undecided")

	// So is one with a broken rule.
	code, out, errs = command(t, "card", "--size", "page", "--prove", "--over", "-o", path, "--craft", layoutFile("held-switch", "craft"))
	require.Equal(t, exit.CodeFailed, code, errs)
	assert.Contains(t, out, "3 rules are broken.")
	assert.Contains(t, svgWords(t, madeFile(t, path)), "rules are broken")

	// The bank-card has it in a line.
	code, _, errs = command(t, "card", "--prove", "--over", "-o", path, "--date", "2031-04-05")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, svgWords(t, madeFile(t, path)), "Layout proved 5 April 2031:")
}

func TestCardIsNotWrittenOverWhatIsThere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "card.pdf")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o600))
	code, _, errs := command(t, "card", "-o", path)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "--over")
	assert.Equal(t, "mine", string(madeFile(t, path)))
	code, _, errs = command(t, "card", "-o", path, "--over")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.NotEqual(t, "mine", string(madeFile(t, path)))
}

func TestWhatACardCannotBe(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cards")
	require.NoError(t, os.Mkdir(dir, 0o700))
	require.NoError(t, os.Mkdir(dir+".pdf", 0o700))
	require.NoError(t, os.WriteFile(dir+".txt", nil, 0o600))
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"-o", filepath.Join(dir, "card.doc")}, exit.CodeBadInput, "end it in .pdf, .svg or .png"},
		{[]string{"-o", filepath.Join(dir, "card")}, exit.CodeBadInput, "end it in"},
		{[]string{"--paper", "a3"}, exit.CodeBadInput, "choose a4 or letter"},
		{[]string{"--size", "poster"}, exit.CodeBadInput, "there is no such card; choose bank or page"},
		{[]string{"--date", "5.4.2031"}, exit.CodeBadInput, "write a date as 2031-04-05, or none"},
		{[]string{"--craft", filepath.Join(dir, "gone.yaml")}, exit.CodeBadInput, "there is no such craft file"},
		{[]string{"--radio", filepath.Join(dir, "gone.yaml")}, exit.CodeBadInput, "there is no such radio file"},
		{[]string{"--radio", "a", "--device", "b"}, exit.CodeBadInput, "give one of the two"},
		{[]string{"more"}, exit.CodeBadInput, "takes no arguments"},
		{[]string{"-o", filepath.Join(dir, "no", "card.pdf")}, exit.CodeBadInput, "there is no such folder"},
		{[]string{"-o", dir + ".pdf"}, exit.CodeBadInput, "this is a folder; give the name of a file in it"},
		{[]string{"-o", filepath.Join(dir+".txt", "card.pdf")}, exit.CodeBadInput, "there is no such folder"},
		{[]string{"-o", filepath.Join(dir, strings.Repeat("n", 300)+".pdf")}, exit.CodeBadInput, "cannot be written: file name too long; choose another place"},
	} {
		args := c.args
		if !strings.Contains(strings.Join(args, " "), "-o ") {
			args = append(args, "-o", filepath.Join(dir, "x.pdf"))
		}
		code, _, errs := command(t, append([]string{"card"}, args...)...)
		assert.Equal(t, c.code, code, "%v: %s", c.args, errs)
		assert.Contains(t, errs, c.says, "%v", c.args)
		assert.NotContains(t, errs, ".part", "%v", c.args)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// The day is today where none is written, and the same day and files give the same bytes.
func TestCardOfToday(t *testing.T) {
	dir := t.TempDir()
	w, _, errs := testWorld(t)
	day := time.Date(2032, 2, 29, 8, 0, 0, 0, time.UTC)
	var made [2][]byte
	for i := range made {
		path := filepath.Join(dir, "card.pdf")
		w.Door = new(door.Keeper)
		require.NoError(t, writeCard(context.Background(), w, &cardFlags{out: path, paper: "a4", size: "bank", over: true}, day), errs.String())
		made[i] = madeFile(t, path)
	}
	assert.Equal(t, made[0], made[1])
	assert.Contains(t, string(made[0]), "20320229080000Z")
}
