package remembered_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/remembered"
)

// full has everything that can be remembered.
func full() remembered.Settings {
	return remembered.Settings{Person: "Zoé: \"Weiß\"\t# no", StickMode: 3, Sheet: "dark", Language: "de", Radio: "Moorland Desk 7, 1f4a:0007, serial A", TextSize: 140,
		Confirmed: []remembered.Confirmed{{"Moorland", "", 20000}, {"on", "Mara", 20000}}}
}

func TestWhatIsRememberedComesBack(t *testing.T) {
	for _, s := range []remembered.Settings{{}, full(), {Person: "on"}, {Person: "~"}, {Person: " 7 "}, {Radio: "\u00e9\u0301"}} {
		got, err := remembered.Parse("remembered.yaml", s.Marshal())
		require.NoError(t, err, "%s", s.Marshal())
		assert.Equal(t, s, got)
	}
	path := filepath.Join(t.TempDir(), "deep", "remembered.yaml")
	f := remembered.Open(path)
	f.Change(func(s *remembered.Settings) { s.Person = "Mara" })
	f.Confirm(remembered.Confirmed{Radio: "A", Person: "Mara", Day: 7})
	f.Confirm(remembered.Confirmed{Radio: "B", Person: "Mara", Day: 8})
	assert.True(t, f.Trouble.Empty())
	again := remembered.Open(path)
	assert.Equal(t, f.Settings, again.Settings)
	assert.Equal(t, "Mara", again.Person)
	assert.True(t, again.IsConfirmed(remembered.Confirmed{Radio: "B", Person: "Mara", Day: 8}))
	for _, not := range []remembered.Confirmed{{"A", "Mara", 7}, {"B", "Ines", 8}, {"B", "Mara", 9}, {"C", "Mara", 8}} {
		assert.False(t, again.IsConfirmed(not), "%v", not)
	}
	nowhere := remembered.Open("")
	nowhere.Change(func(s *remembered.Settings) { s.Sheet = "dark" })
	assert.Equal(t, "dark", nowhere.Sheet)
}

// Each theme that can be chosen is remembered.
func TestEveryThemeIsRemembered(t *testing.T) {
	for _, theme := range ink.Themes() {
		s := remembered.Settings{Sheet: theme.Name}
		got, err := remembered.Parse("remembered.yaml", s.Marshal())
		require.NoError(t, err)
		assert.Equal(t, s, got)
	}
}

// A damaged file is told of and put aside as it was; nothing of it is lost, and what is remembered from then on is kept.
func TestADamagedFileIsPutAside(t *testing.T) {
	for _, bad := range []string{"", "propsoff: sounds 1\n", "propsoff: remembered 1\nperson: [a]\n", "propsoff: remembered 1\nstick-mode: 9\n", "\x00\xff",
		"propsoff: remembered 1\nunknown: 1\n", "propsoff: remembered 1\nperson: " + strings.Repeat("x", 2000) + "\n", "propsoff: remembered 1\nconfirmed: [{day: -1, radio: a}]\n", "a: &a [*a, *a]\n"} {
		path := filepath.Join(t.TempDir(), "remembered.yaml")
		require.NoError(t, os.WriteFile(path, []byte(bad), 0o600))
		f := remembered.Open(path)
		assert.False(t, f.Trouble.Empty(), "%.30q", bad)
		assert.Equal(t, remembered.Settings{}, f.Settings)
		f.Change(func(s *remembered.Settings) { s.StickMode = 4 })
		aside, err := os.ReadFile(filepath.Join(filepath.Dir(path), "remembered-damaged.yaml"))
		require.NoError(t, err)
		assert.Equal(t, bad, string(aside))
		assert.Equal(t, 4, remembered.Open(path).StickMode)
	}
	// What is no file, or too long, stays where it is.
	dir := filepath.Join(t.TempDir(), "remembered.yaml")
	require.NoError(t, os.Mkdir(dir, 0o700))
	f := remembered.Open(dir)
	f.Change(func(s *remembered.Settings) { s.StickMode = 4 })
	assert.False(t, f.Trouble.Empty())
	assert.Equal(t, 4, f.StickMode)
	long := filepath.Join(t.TempDir(), "remembered.yaml")
	require.NoError(t, os.WriteFile(long, make([]byte, 1<<17), 0o600))
	f = remembered.Open(long)
	f.Change(func(s *remembered.Settings) { s.StickMode = 4 })
	st, err := os.Stat(long)
	require.NoError(t, err)
	assert.Equal(t, int64(1<<17), st.Size(), "nothing is written over what could not be put aside")
}

func FuzzParse(f *testing.F) {
	s := full()
	f.Add(s.Marshal())
	f.Add([]byte("propsoff: remembered 1\nconfirmed:\n  - {day: 1, radio: on, person: ~}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := remembered.Parse("remembered.yaml", data)
		if err != nil {
			assert.Equal(t, remembered.Settings{}, s)
			return
		}
		again, err := remembered.Parse("remembered.yaml", s.Marshal())
		require.NoError(t, err)
		assert.Equal(t, s, again)
	})
}
