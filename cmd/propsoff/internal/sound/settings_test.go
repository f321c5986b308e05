package sound

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"

	"pgregory.net/rapid"
)

func TestSettingsGoThereAndBack(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) (s Settings) {
			s.Off = rapid.Bool().Draw(t, name+" off")
			for _, c := range All() {
				s.Muted[c] = rapid.Bool().Draw(t, name+" "+c.Word())
			}
			return s
		}
		first, second := draw("first"), draw("second")
		back, err := Parse("sounds.yaml", first.Marshal())
		require.NoError(t, err)
		assert.Equal(t, first, back)

		// Written over one that is there, and over none.
		path := filepath.Join(dir, "propsoff", FileName)
		require.NoError(t, os.RemoveAll(filepath.Dir(path)))
		for _, s := range []Settings{first, second} {
			require.NoError(t, s.Save(path))
			back, err = Load(path)
			require.NoError(t, err)
			assert.Equal(t, s, back)
		}
	})
}

func TestSettingsThatAreNotThereAreTheDefaults(t *testing.T) {
	s, err := Load(filepath.Join(t.TempDir(), "none", FileName))
	require.NoError(t, err)
	assert.Equal(t, Settings{}, s)
	for _, c := range All() {
		assert.True(t, s.Plays(c))
	}
	assert.False(t, s.Plays(None))
	assert.False(t, s.Plays(CodeCount))
	s.Off = true
	assert.False(t, s.Plays(Armed))
}

func TestErrorsOfTheSettingsFile(t *testing.T) {
	for text, want := range map[string]string{
		"all: on\n":                                        "sounds.yaml:1:1: the sounds file has no field `propsoff`",
		"propsoff: radio 1\n":                              "sounds.yaml:1:11: this is “radio 1”, but a file of sounds begins with `propsoff: sounds 1`",
		"propsoff: sounds 2\n":                             "sounds.yaml:1:11: this is “sounds 2”",
		"propsoff: sounds 1\nall: loud\n":                  "sounds.yaml:2:6:",
		"propsoff: sounds 1\nal: off\n":                    "did you mean `all`",
		"propsoff: sounds 1\neach: {armd: off}\n":          "did you mean `armed`",
		"propsoff: sounds 1\neach: {armed: 3}\n":           "sounds.yaml:2:15:",
		"propsoff: sounds 1\neach: on\n":                   "sounds.yaml:2:7:",
		"propsoff: sounds 1\neach: {armed: on, armed: on}": "sounds.yaml:2:",
		"propsoff: sounds 1\nall: off\nall: on\n":          "sounds.yaml:3:",
		"":                        "sounds.yaml",
		"propsoff: [\n":           "sounds.yaml:",
		"\xff":                    "sounds.yaml:1:1",
		"propsoff: &a sounds 1\n": "sounds.yaml:1:11",
	} {
		s, err := Parse("sounds.yaml", []byte(text))
		if assert.ErrorContains(t, err, want, "%q", text) {
			assert.Equal(t, Settings{}, s, "%q: the defaults go on", text)
		}
	}
	_, err := Parse("sounds.yaml", []byte("propsoff: sound\nall: maybe\neach: {rate: on}\nsome: thing\n"))
	require.Error(t, err)
	assert.Equal(t, 4, strings.Count(err.Error(), "sounds.yaml:"), "all at once:\n%v", err)
}

// What a person wrote stays; only what changed is another word.
func TestSavingKeepsWhatAPersonWrote(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	text := "# mine\npropsoff: sounds 1\neach:\n  refused: off # too dull\n  armed: on\nall: on # for now\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	s, err := Load(path)
	require.NoError(t, err)
	assert.True(t, s.Muted[Refused])
	s.Off, s.Muted[Refused], s.Muted[Armed] = true, false, true
	require.NoError(t, s.Save(path))
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "# mine\npropsoff: sounds 1\neach:\n  refused: on # too dull\n  armed: off\nall: off # for now\n", string(now))
}

func TestAFileOfSomethingElseIsLeftAlone(t *testing.T) {
	path, room := filepath.Join(t.TempDir(), FileName), wordstest.Of("sound-file")
	for _, text := range []string{"a diary\n", "propsoff: sounds 1\nall: perhaps\n", strings.Repeat("# long\n", 20_000)} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		s := Settings{Off: true}
		err := s.Save(path)
		assert.ErrorContains(t, err, path)
		room.Error(t, err)
		now, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, string(now))
	}
	require.NoError(t, os.Remove(path))
	require.NoError(t, os.Mkdir(path, 0o700))
	s := Settings{}
	assert.ErrorContains(t, s.Save(path), "this is a folder, not an ordinary file; move it out of the way")
	_, err := Load(path)
	assert.ErrorContains(t, err, "not an ordinary file")
	require.NoError(t, os.Remove(path))
	s = Settings{Off: true}
	require.NoError(t, s.Save(path))
	kept, err := Load(path)
	require.NoError(t, err)
	assert.True(t, kept.Off)

	// What another file must begin with, written there, makes it one.
	_, err = Parse(FileName, []byte("propsoff: sounds 2\nall: off\n"))
	require.ErrorContains(t, err, "begins with `propsoff: sounds 1`: write that, or choose another file")
	kept, err = Parse(FileName, []byte("propsoff: sounds 1\nall: off\n"))
	require.NoError(t, err)
	assert.True(t, kept.Off)
}

func TestWhereItCannotBeWritten(t *testing.T) {
	if os.Geteuid() == 0 { // nothing is forbidden to root: a file stands where the folder should be
		file := filepath.Join(t.TempDir(), "file")
		require.NoError(t, os.WriteFile(file, nil, 0o600))
		s := Settings{}
		err := s.Save(filepath.Join(file, FileName))
		assert.ErrorContains(t, err, file+": the folder for settings cannot be made: mkdir ")
		wordstest.Of("sound-file").Error(t, err)
		return
	}
	dir := filepath.Join(t.TempDir(), "closed")
	require.NoError(t, os.Mkdir(dir, 0o500))
	s := Settings{}
	err := s.Save(filepath.Join(dir, FileName))
	assert.ErrorContains(t, err, "cannot be written")
	assert.NotContains(t, err.Error(), ".part")
}

// Whoever reads while others write sees a whole file, one of those that were written; nothing is left lying about.
func TestAReaderNeverSeesHalfAFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, FileName)
	on, off := Settings{}, Settings{Off: true}
	for _, c := range All() {
		off.Muted[c] = true
	}
	require.NoError(t, on.Save(path))
	var writers sync.WaitGroup
	for i := range 2 {
		writers.Go(func() {
			for n := range 30 {
				s := on
				if (n+i)%2 == 0 {
					s = off
				}
				// The other may have changed the file between reading and writing; each still writes a whole one.
				assert.NoError(t, s.Save(path))
			}
		})
	}
	done := make(chan struct{})
	go func() { writers.Wait(); close(done) }()
	reads := 0
	for more := true; more; reads++ {
		select {
		case <-done:
			more = false
		default:
		}
		s, err := Load(path)
		require.NoError(t, err)
		assert.True(t, s == on || s == off, "%+v", s)
	}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
	assert.Greater(t, reads, 10, fmt.Sprint(reads))
}

func FuzzParse(f *testing.F) {
	s := Settings{Off: true}
	f.Add(s.Marshal())
	f.Add([]byte("propsoff: sounds 1\neach: {armed: off}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Parse("sounds.yaml", data)
		if err != nil {
			assert.Equal(t, Settings{}, s)
			return
		}
		back, err := Parse("sounds.yaml", s.Marshal())
		require.NoError(t, err)
		assert.Equal(t, s, back)
	})
}
