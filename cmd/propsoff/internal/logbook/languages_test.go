package logbook

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

// Every language says what is wrong with a logbook, with a name, and with a folder of logbooks.
func TestEveryLanguageSaysIt(t *testing.T) {
	room := wordstest.Of("logbook-file")
	errorOf := func(_ any, err error) { t.Helper(); room.Error(t, err) }
	for _, err := range []error{ErrForgotten, ErrLater, ErrTaken, errLong} {
		room.Error(t, err)
	}
	for _, name := range []string{"\xff", "a\x1b[31m", " ", strings.Repeat("x", 81)} {
		errorOf(Name(name))
	}
	for _, text := range []string{
		"", "\x00", "\xe4", "{", "[]", `{"a":1,"A":2}`, `{"kind":7}`, `{"propsoff":"take \u001b"}`, "{}", `{"kind":"ended"}`,
		`{"kind":"ended","at":"2031-04-05T08:20:11Z"}`, `{"kind":"ended","at":"2031-04-05T08:20:11Z","day":"2031-04-05","lasted_ms":-1}`,
		`{"kind":"refusals","at":"2031-04-05T08:20:11Z","day":"2031-04-05","counts":{"tilted":-1}}`,
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05"}`,
		`{"kind":"foreseen","at":"2031-04-05T08:20:11Z","day":"2031-04-05"}`,
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","seed":"-1"}`,
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{}]}`,
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{"verdict":"right","reaction_ms":-4}]}`,
		`{"kind":"drill","at":"2031-04-05T08:20:11Z","day":"2031-04-05","drill":"a","tries":[{"verdict":"right","hand":{"axis":"roll","delay_ms":-4}}]}`,
	} {
		_, _, err := parse([]byte(text))
		room.Error(t, err)
		assert.NotContains(t, err.Error(), "\x1b", "what a line says steers nothing")
	}
	for _, e := range []Entry{
		{}, {At: begun, Day: -1 << 30, Kind: KindEnded}, {At: begun, Kind: "flown"}, Began(begun, Practice{Radio: strings.Repeat("r", mostLine)}),
	} {
		errorOf(appendEntry(nil, &e))
	}
	for _, text := range []string{
		"", "\n", "x", "\n\n", "\n\n\n\n\n", "x\ny", "\ufeff{\"propsoff\":\"logbook 2\",\"pupil\":\"A\"}\n", "{\"propsoff\":\"logbook 1\",\"pupil\":\"B\"}\n", "{\"kind\":\"x\"}\n",
	} {
		c, err := readAll(strings.NewReader(text), "f", "A")
		require.NoError(t, err)
		require.NotEmpty(t, c.Notices, text)
		for _, n := range c.Notices {
			room.Error(t, n.Problem())
		}
	}
	errorOf(dataFolder("linux", func(string) string { return "" }))
	errorOf(Store{}.list())
	for _, why := range []error{syscall.ENOSPC, syscall.EACCES, syscall.EROFS, syscall.ENOTDIR, syscall.ENOENT, syscall.EIO} {
		room.Error(t, failed("x", words.T(unread), why))
	}
	room.Error(t, failed("x", words.T("logbook-file.not-moved"), syscall.EIO))
	one := Store{t.TempDir()}
	b, err := one.Open("Ann", begun)
	require.NoError(t, err)
	require.NoError(t, b.Append(some(0)))
	require.NoError(t, b.Close())
	errorOf(one.Merge("Ann", "ann"))
	sayFolder(t, room)
	room.Whole(t, "logbook-file.unsure", "logbook-file.entry-unsure", "logbook-file.half-deleted", "logbook-file.deletion-unsure") // a disk says so only as it dies
}

// sayFolder says what can be wrong with the files of a folder.
func sayFolder(t *testing.T, room *wordstest.Room) {
	errorOf := func(_ any, err error) { t.Helper(); room.Error(t, err) }
	s := Store{t.TempDir()}
	b, err := s.Open("Ann", begun)
	require.NoError(t, err)
	require.NoError(t, b.Append(some(0)))
	text, err := os.ReadFile(b.Path())
	require.NoError(t, err)
	put := func(name string, text []byte) string {
		path := filepath.Join(s.Dir, name)
		require.NoError(t, os.WriteFile(path, text, 0o600))
		return path
	}
	for _, name := range []string{"Folder", "Locked"} {
		require.NoError(t, os.Mkdir(filepath.Join(s.Dir, fileName(name)), 0o700))
	}
	put("pupil-Bad name.jsonl", []byte("{}"))
	put(fileName("Anna"), text)
	other, err := appendHeader(text, "Ben", begun.Add(time.Hour))
	require.NoError(t, err)
	put("both", other)
	require.NoError(t, os.Mkdir(filepath.Join(s.Dir, "copies"), 0o700))
	put(filepath.Join("copies", fileName("Ann")), []byte("{\"propsoff\":\"logbook 1\",\"pupil\":\"Ben\"}\n"))
	put("note.txt", []byte("Ann is good"))
	require.NoError(t, os.Symlink(b.Path(), filepath.Join(s.Dir, "link")))
	locked := put("locked", text)
	require.NoError(t, os.Chmod(locked, 0))
	require.NoError(t, os.Chmod(filepath.Join(s.Dir, fileName("Locked")), 0))

	_, notices, err := s.Pupils()
	require.NoError(t, err)
	found, err := s.Traces("Ann")
	require.NoError(t, err)
	for _, n := range append(notices, found.Unjudged...) {
		room.Error(t, n.Problem())
	}
	if os.Getuid() == 0 { // whom no rights hold off
		for _, id := range []words.ID{"logbook-file.doubt-folder", "logbook-file.doubt-unread"} {
			room.Text(t, words.T(id, words.Args{"why": words.Error(syscall.EACCES)}))
		}
	}
	errorOf(s.Traces("Nobody"))
	errorOf(s.Open("Folder", begun))
	errorOf(s.Read("Folder", nil))
	errorOf(Store{filepath.Join(b.Path(), "under")}.Open("A", begun))
	errorOf(Store{b.Path()}.list())

	room.Error(t, b.Append(Entry{}))
	var x Index
	_, err = s.Read("Ann", x.Take)
	require.NoError(t, err)
	require.NoError(t, os.Truncate(b.Path(), 0))
	room.Error(t, x.Each(func(*Contents, *Entry) error { return nil }))
	require.NoError(t, os.Rename(b.Path(), b.Path()+"x"))
	require.NoError(t, os.Mkdir(b.Path(), 0o700))
	big := Began(begun, Practice{Radio: strings.Repeat("r", 900_000)})
	for range 5 {
		room.Error(t, b.Append(big))
	}
	_, failed := found.Delete()
	require.NotEmpty(t, failed)
	require.NoError(t, os.Remove(b.Path()))
	require.NoError(t, os.WriteFile(b.Path(), nil, 0o600))
	_, again := found.Delete()
	for _, err := range append(failed, again...) {
		room.Error(t, err)
	}
}
