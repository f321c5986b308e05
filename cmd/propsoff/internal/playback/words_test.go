package playback

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/take"
	"propsoff.example/sim"
)

// What is wrong with what is to be run, and what is to be known at its end, is said in every language.
func TestPlaySpeaks(t *testing.T) {
	room := wordstest.Of("play")
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	gone := filepath.Join(dir, "gone.yaml")
	for path, says := range map[string]string{
		put("cut.yaml", "propsoff t"): "cut.yaml: this is the beginning of a take that was cut off before its settings",
		"dmeo":                        `dmeo: there is no such script or take; check the path; did you mean the shipped “demo”?`,
		put("a.yaml", "propsoff: script 1\ncraft: gone.yaml\n"):          "a.yaml:2:8: its craft: " + gone + ": there is no such craft file",
		put("b.yaml", "propsoff: script 1\nradio-file: gone.yaml\n"):     "b.yaml:2:13: its radio file: " + gone + ": there is no such radio file",
		put("c.yaml", "propsoff: script 1\nx: 1\ngestures: gone.yaml\n"): "c.yaml:3:11: its gesture file: " + gone + ": there is no such gesture file",
	} {
		_, err := New(bare(), &world.Named{}, path)
		require.ErrorContains(t, err, says)
		assert.Equal(t, !strings.HasPrefix(says, "cut"), errors.Is(err, fs.ErrNotExist), "the cause is kept")
		code, _ := exit.Code(err)
		assert.Equal(t, exit.CodeBadInput, code)
		room.Error(t, err)
	}
	_, err := readPart(bare(), &world.Named{}, "a.take", &take.Settings{Model: sim.Model})
	room.Error(t, err)
	for _, flags := range []world.Named{{Craft: "teasel"}, {Gestures: "examples"}} {
		p, err := New(bare(), &flags, modelOne+"/switch.take")
		require.NoError(t, err)
		defer p.Close()
		_, err = Through(t.Context(), p, nil, nil, NewReport(p, false, func(func([]byte) []byte) {}).Observe)
		require.NoError(t, err)
		room.Text(t, p.Note())
	}
	room.Whole(t, "play.piped-too-long", "play.not-ended") // 64 MiB, and a take that a kill cut between two records

	e := words.Wrong("play.piped-too-long", words.Args{"most": words.Whole(StreamedMost >> 20)})
	assert.EqualError(t, e, "a take of more than 64 MiB is read from a file only; keep it in one")
	assert.EqualError(t, world.Unreadable("a", errors.New("b")), "a: cannot be read: b")
}
