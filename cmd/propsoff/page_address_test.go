package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/world"
)

// What a page's address asks for wrongly is left out and named, in words that no command line is needed for; all else of it holds.
func TestAPageBeginsWithoutWhatItsAddressAsksForWrongly(t *testing.T) {
	w, _, _ := testWorld(t)
	torn := filepath.Join(t.TempDir(), "torn.yaml")
	require.NoError(t, os.WriteFile(torn, []byte("name: [\n"), 0o600))
	room := wordstest.Of("address")
	for name, values := range map[string][2]string{ // one that can be had, and one that cannot
		"open": {"drills", "nonsense"}, "sheet": {"dark", "pink"}, "language": {"en", "xx"}, "pupil": {"Ann", " "}, "craft": {"", "heron"},
	} {
		good := "--" + name + "=" + values[0]
		if values[0] != "" {
			a := readAddress(w, []string{good})
			assert.Empty(t, a.why, good)
			assert.True(t, a.flags.asked(name))
		}
		a := readAddress(w, []string{"--" + name + "=" + values[1], "--outside="})
		assert.Equal(t, []string{name}, a.unused)
		assert.False(t, a.flags.asked(name))
		assert.True(t, a.flags.outside, "the rest holds")
		room.Text(t, a.why[0])
		said := w.Say(a.why[0])
		assert.Contains(t, said, name+"="+values[1])
		assert.NotContains(t, said, "--")
		o, err := a.flags.options(w, &a.named)
		require.NoError(t, err, said)
		assert.Empty(t, o.open)
	}
	for _, arg := range []string{"--craft=" + torn, "--nonsense=1"} {
		a := readAddress(w, []string{arg})
		require.Len(t, a.why, 1, arg)
		room.Text(t, a.why[0])
	}
	bad := filepath.Join(t.TempDir(), "bad.take")
	require.NoError(t, os.WriteFile(bad, []byte("propsoff take 1\nnonsense\n"), 0o600))
	for _, path := range []string{bad, filepath.Join(t.TempDir(), "gone.take")} { // what cannot be played
		a := readAddress(w, []string{"--play=" + path, "--open=drills"})
		o, err := a.options(w)
		require.NoError(t, err, path)
		require.Equal(t, []string{"play"}, a.unused)
		assert.True(t, o.plan == nil && o.open == "drills" && o.craft != nil, "the bench as ever")
		room.Text(t, a.why[0])
		assert.Contains(t, w.Say(a.why[0]), "play="+filepath.Base(path))
	}
	own := filepath.Join(t.TempDir(), "propsoff")
	t.Setenv("XDG_CONFIG_HOME", filepath.Dir(own))
	t.Setenv("HOME", filepath.Dir(own))
	require.NotEmpty(t, world.OwnGestures())
	require.NoError(t, os.MkdirAll(filepath.Dir(world.OwnGestures()), 0o700))
	require.NoError(t, os.WriteFile(world.OwnGestures(), []byte("propsoff: gestures 1\ngestures: [\n"), 0o600))
	spoilt := readAddress(w, nil)
	o, err := spoilt.options(w)
	require.NoError(t, err, "gestures that cannot be read")
	require.Len(t, spoilt.why, 1)
	assert.True(t, o.craft.Gestures.Shipped)
	room.Text(t, spoilt.why[0])
	said := w.Say(spoilt.why[0])
	assert.Contains(t, said, "(gestures.yaml:")
	assert.NotContains(t, said, own, "no folder of a page")
	room.Whole(t)
	require.NoError(t, os.Remove(world.OwnGestures()))
	a := readAddress(w, []string{"--open=drills", "--pupil=Ann", "--craft=heron"})
	assert.Equal(t, "drills", a.flags.open)
	assert.Equal(t, "Ann", a.flags.pupil)
	assert.Empty(t, a.named.Craft)
}
