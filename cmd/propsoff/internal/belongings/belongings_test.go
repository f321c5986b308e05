package belongings_test

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/input/radio"
)

func places(t *testing.T) belongings.Places {
	t.Helper()
	dir := t.TempDir()
	return belongings.Places{Radios: radio.Store{Dir: filepath.Join(dir, "radios")}, Logbook: logbook.Store{Dir: filepath.Join(dir, "logbook")},
		Config: dir, Crafts: filepath.Join(dir, "crafts"), Takes: filepath.Join(dir, "takes")}
}

const aRadio = `propsoff: radio 1
device: {name: "Moorland Desk 7", vendor: "1209", product: "0001", serial: "A12"}
stick-mode: 2
controls:
  throttle: {axis: 1, scale: {988: 0, 1500: 1024, 2012: 2047}, reach: {low: 988, rest: 988, high: 2012}, stays: yes}
  roll:     {axis: 2, scale: {988: 0, 1500: 1024, 2012: 2047}, reach: {low: 988, rest: 1500, high: 2012}}
  pitch:    {axis: 3, scale: {988: 0, 1500: 1024, 2012: 2047}, reach: {low: 988, rest: 1500, high: 2012}}
  yaw:      {axis: 4, scale: {988: 0, 1500: 1024, 2012: 2047}, reach: {low: 988, rest: 1500, high: 2012}}
`

func craft(t *testing.T) []byte {
	t.Helper()
	_, text, ok := assets.Craft(assets.BuiltIn)
	require.True(t, ok)
	return text
}

func gestures(t *testing.T) []byte {
	t.Helper()
	_, text, ok := assets.Gestures("examples")
	require.True(t, ok)
	return text
}

// aLogbook is what a pupil did on another machine.
func aLogbook(t *testing.T, practices int) []byte {
	t.Helper()
	s := logbook.Store{Dir: t.TempDir()}
	at := time.Date(2031, 4, 5, 18, 0, 0, 0, time.UTC)
	b, err := s.Open("Juniper", at)
	require.NoError(t, err)
	for i := range practices {
		require.NoError(t, b.Append(logbook.Ended(at.Add(time.Duration(i)*time.Minute), time.Minute)))
	}
	require.NoError(t, b.Close())
	text, err := os.ReadFile(b.Path())
	require.NoError(t, err)
	return text
}

const aTake = "propsoff take 1\nwhatever a take holds"

func said(t *testing.T, text words.Text, err error) string {
	t.Helper()
	require.NoError(t, err)
	return words.English().Say(text)
}

// Each file goes where it belongs by what stands in it, under any name, and a second time it is there already.
func TestEachFileWhereItBelongs(t *testing.T) {
	p := places(t)
	for _, f := range []struct {
		name, at string
		text     []byte
	}{
		{"of-the-club.txt", "radios/1209-0001-moorland-desk-7-a12.yaml", []byte(aRadio)},
		{`C:\Users\pilot\Heron.yaml`, "crafts/heron.yaml", craft(t)},
		{"my gestures", "gestures.yaml", gestures(t)},
		{"tuesday.take", "takes/tuesday.take", []byte(aTake)},
		{"x.jsonl", "logbook/*.jsonl", aLogbook(t, 2)},
	} {
		text, err := p.Keep(f.name, f.text)
		assert.NotEmpty(t, said(t, text, err), f.name)
		paths, _ := filepath.Glob(filepath.Join(p.Config, f.at))
		require.Len(t, paths, 1, f.at)
		got, err := os.ReadFile(paths[0])
		require.NoError(t, err)
		if f.at[:6] != "radios" { // which is written as this program writes it
			assert.Equal(t, f.text, got, f.at)
		}
		before := tree(t, p.Config)
		text, err = p.Keep(f.name, f.text)
		assert.NotEmpty(t, said(t, text, err), f.name)
		assert.Equal(t, before, tree(t, p.Config), "%s is there once", f.name)
	}
}

// tree is what stands in a folder, by its paths.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		all[filepath.ToSlash(rel)] = string(text)
		return err
	}))
	return all
}

// Nothing that is there is written over: another craft of the name comes beside it, other gestures are refused, of a logbook what is new is added.
func TestNothingIsWrittenOver(t *testing.T) {
	p := places(t)
	text, err := p.Keep("heron.yaml", craft(t))
	said(t, text, err)
	text, err = p.Keep("heron.yaml", append(craft(t), "# mine\n"...))
	assert.Contains(t, said(t, text, err), "heron-2.yaml")
	assert.Equal(t, string(craft(t)), tree(t, p.Config)["crafts/heron.yaml"])

	text, err = p.Keep("g.yaml", gestures(t))
	said(t, text, err)
	_, err = p.Keep("g.yaml", append(gestures(t), "# mine\n"...))
	assert.ErrorContains(t, err, "another one is there already as")
	assert.Equal(t, string(gestures(t)), tree(t, p.Config)["gestures.yaml"])

	text, err = p.Keep("r.yaml", []byte(aRadio))
	said(t, text, err)
	_, err = p.Keep("r.yaml", []byte(aRadio+"# x\n"))
	assert.NoError(t, err, "a remark makes no other radio file")
	_, err = p.Keep("r.yaml", []byte(strings.Replace(aRadio, "stick-mode: 2", "stick-mode: 1", 1)))
	assert.Error(t, err)

	text, err = p.Keep("a", aLogbook(t, 2))
	assert.Contains(t, said(t, text, err), "2 lines were new")
	text, err = p.Keep("a", aLogbook(t, 5))
	assert.Contains(t, said(t, text, err), "3 lines were new")
	text, err = p.Keep("a", aLogbook(t, 4))
	assert.Contains(t, said(t, text, err), "nothing in it was new")
	got, err := os.ReadFile(p.Logbook.Files("Juniper")[0])
	require.NoError(t, err)
	assert.Equal(t, string(aLogbook(t, 5)), string(got))
}

// All that is kept comes back from one archive, as an outside program reads it too (unzip of Info-ZIP, where it is there).
func TestOneArchiveOfAll(t *testing.T) {
	p := places(t)
	for name, text := range map[string][]byte{"r": []byte(aRadio), "heron.yaml": craft(t), "g": gestures(t), "t.take": []byte(aTake), "l": aLogbook(t, 3)} {
		said, err := p.Keep(name, text)
		require.NoError(t, err, "%v", said)
	}
	require.NoError(t, os.WriteFile(filepath.Join(p.Config, "remembered.yaml"), []byte("propsoff: remembered 1\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(p.Config, "stray.txt"), []byte("stray"), 0o600))
	var b bytes.Buffer
	require.NoError(t, p.Pack(&b))
	z, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	require.NoError(t, err)
	assert.Len(t, z.File, 6)
	if unzip, err := exec.LookPath("unzip"); err == nil {
		path := filepath.Join(t.TempDir(), "all.zip")
		require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
		out, err := exec.Command(unzip, "-t", path).CombinedOutput()
		assert.NoError(t, err, "%s", out)
	}

	other := places(t)
	text, err := other.Keep("all.zip", b.Bytes())
	assert.Contains(t, said(t, text, err), "6 files")
	want := tree(t, p.Config)
	delete(want, "stray.txt")
	assert.Equal(t, want, tree(t, other.Config))
	kinds := map[words.ID]int{}
	for _, f := range other.Files() {
		kinds[f.Kind]++
		assert.Equal(t, f.Kind == "radio.file" || f.Kind == "craft-file.craft", f.Short, f.Name)
		assert.FileExists(t, f.Path)
		assert.Positive(t, f.Size)
	}
	assert.Equal(t, map[words.ID]int{"radio.file": 1, "craft-file.craft": 1, "gesture-file.file": 1, "door.logbook": 1, "door.take": 1, "belongings.settings": 1}, kinds)

	require.NoError(t, os.WriteFile(filepath.Join(other.Config, "remembered.yaml"), []byte("propsoff: remembered 1\ntheme: dark\n"), 0o600))
	text, err = other.Keep("all.zip", b.Bytes())
	told := said(t, text, err)
	assert.Contains(t, told, "5 files")
	assert.Contains(t, told, "settings were left out")
	assert.Contains(t, tree(t, other.Config)["remembered.yaml"], "dark", "settings of one's own stay")
}

func archive(t *testing.T, files ...[2]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		w, err := z.Create(f[0])
		require.NoError(t, err)
		_, err = io.WriteString(w, f[1])
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

// Where nothing is kept the archive is empty, and is taken in as that.
func TestAnArchiveOfNothing(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, places(t).Pack(&b))
	text, err := places(t).Keep("all.zip", b.Bytes())
	assert.Contains(t, said(t, text, err), "No file of the archive was kept.")
}

// What means harm comes nowhere but where such a file belongs, and one bad file hinders no other.
func TestHostileArchives(t *testing.T) {
	p := places(t)
	text, err := p.Keep("evil.zip", archive(t, [2]string{"../../outside.yaml", string(craft(t))}, [2]string{"/etc/passwd", "root"}, [2]string{"deep/", ""},
		[2]string{"deep/again.zip", string(archive(t, [2]string{"r.yaml", aRadio}))}, [2]string{`..\r.yaml`, aRadio}))
	assert.Contains(t, words.English().Say(text), "2 files")
	assert.ErrorContains(t, err, "/etc/passwd: nothing of this kind is kept here")
	assert.ErrorContains(t, err, "deep/again.zip")
	assert.Equal(t, []string{"crafts/outside.yaml", "radios/1209-0001-moorland-desk-7-a12.yaml"}, slices.Sorted(func(yield func(string) bool) {
		for name := range tree(t, p.Config) {
			if !yield(name) {
				return
			}
		}
	}))

	bomb := archive(t, [2]string{"b.take", aTake + strings.Repeat("\x00", 130<<20)})
	require.Less(t, len(bomb), 1<<20)
	_, err = p.Keep("bomb.zip", bomb)
	assert.ErrorContains(t, err, "this archive holds more than is taken in at once")
	_, err = p.Keep("torn.zip", bomb[:1000])
	assert.ErrorContains(t, err, "cannot be read")
}

func TestWhatIsNothing(t *testing.T) {
	p := places(t)
	for _, text := range []string{"", "x", "propsoff: craft 99\n", "{\"a\":1}", "steps: []", strings.Repeat("# long\n", 1<<18), "\x00\x01", "propsoff: drill 1\n"} {
		_, err := p.Keep("x.yaml", []byte(text))
		assert.Error(t, err, "%.20q", text)
	}
	assert.Empty(t, tree(t, p.Config))
}

// A link gives the file back letter by letter, in letters that an address may have (RFC 3986, 3.5), short enough for a code (ISO/IEC 18004: 2,953 bytes, from memory).
func TestALinkGivesTheFile(t *testing.T) {
	for name, text := range map[string][]byte{"r.yaml": []byte(aRadio), "heron.yaml": craft(t), "long name.yaml": append(craft(t), aRadio...)} {
		fragment, err := belongings.Fragment("/home/pilot/"+name, text)
		require.NoError(t, err)
		assert.Regexp(t, `^file1=[A-Za-z0-9_-]+$`, fragment)
		assert.Less(t, len(fragment), 1000, name)
		got, back, ok, err := belongings.OfFragment("#" + fragment)
		require.NoError(t, err)
		assert.True(t, ok)
		assert.Equal(t, name, got)
		assert.Equal(t, string(text), string(back))
	}
	link, err := belongings.Link("http://localhost:7767/#old", "r.yaml", []byte(aRadio))
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(link, "http://localhost:7767/#file1="))
	_, text, ok, err := belongings.OfLink(link)
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, aRadio, string(text))
	_, err = belongings.Link("http://localhost:7767/", "t.take", []byte(aTake))
	assert.ErrorContains(t, err, "only radio files and craft files")
	for _, none := range []string{"", "#", "#other=1", "radio.yaml"} {
		_, _, ok, err := belongings.OfFragment(none)
		assert.False(t, ok)
		assert.NoError(t, err)
	}
	_, err = belongings.Fragment("big", []byte(strings.Repeat("x", 1)+wordsOf(40000)))
	assert.ErrorIs(t, err, belongings.ErrTooLongForALink)
}

// wordsOf is a text that packs badly.
func wordsOf(n int) string {
	var b strings.Builder
	for x := uint32(1); b.Len() < n; {
		x = x*1664525 + 1013904223
		b.WriteByte('!' + byte(x>>24)%90)
	}
	return b.String()
}

// The links of today are read for ever: this one was made when links began.
func TestALinkOfTheFirstDay(t *testing.T) {
	text, err := os.ReadFile("testdata/first-link.txt")
	require.NoError(t, err)
	name, got, ok, err := belongings.OfLink(strings.TrimSpace(string(text)))
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, "moorland.yaml", name)
	assert.Equal(t, aRadio, string(got))
}

// Damaged links are told as such, and never end the program or take memory without bound.
func TestDamagedLinks(t *testing.T) {
	good, err := belongings.Fragment("r.yaml", []byte(aRadio))
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		b := []byte(good)
		at := rapid.IntRange(6, len(b)-1).Draw(t, "at")
		b[at] ^= byte(rapid.IntRange(1, 127).Draw(t, "by"))
		b = b[:rapid.IntRange(at, len(b)).Draw(t, "long")]
		if _, text, ok, err := belongings.OfFragment(string(b)); ok && err == nil {
			assert.LessOrEqual(t, len(text), 1<<20)
		}
	})
	for _, bad := range []string{"file1=", "file1=!", "file1=" + strings.Repeat("A", 20<<10), "file1=" + base64.RawURLEncoding.EncodeToString([]byte("nothing packed"))} {
		_, _, ok, err := belongings.OfFragment(bad)
		assert.True(t, ok)
		assert.ErrorContains(t, err, "the link is damaged", "%.20s", bad)
	}
}

// All that is said, in every language.
func TestSaidInEveryLanguage(t *testing.T) {
	for _, id := range []words.ID{"kept", "there", "craft", "logbook", "unpacked", "settings", "nothing", "script", "other-there", "nowhere", "torn", "too-much", "long-take", "here-alone", "no-code", "radio-there", "of-nobody", "long-link", "damaged-link", "not-short"} {
		text := words.T("belongings."+id, words.Args{"path": words.Quote("/p"), "name": words.Quote("Juniper"), "n": words.Count(2), "some": words.Flag(true), "left": words.Flag(true), "page": words.Flag(true), "why": words.Quote("x")})
		for _, book := range wordstest.Other() {
			assert.NotEqual(t, words.English().Say(text), book.Say(text), id)
		}
	}
}

// RFC 6761, 6.3: localhost is always the machine itself. RFC 6890: so are 127.0.0.0/8 and ::1.
func TestAnAddressThatMeansTheMachineItself(t *testing.T) {
	for address, only := range map[string]bool{
		"http://localhost:7767/#file1=x": true, "http://LOCALHOST/": true, "http://127.0.0.1:7767/": true, "http://127.8.8.8/": true, "http://[::1]:7767/": true,
		"http://192.0.2.7:7767/": false, "https://bench.example/localhost": false, "http://localhost.example/": false, "http://[2001:db8::1]/": false, "": false, "http://%zz/": false,
	} {
		assert.Equal(t, only, belongings.OnlyHere(address), address)
	}
}

// In a page no sentence names a command, a flag or a folder that is not there.
func TestWhatAPageSays(t *testing.T) {
	p := places(t)
	p.InPage = true
	keep := func(name, text string) (string, error) {
		t.Helper()
		said, err := p.Keep(name, []byte(text))
		return words.English().Say(said), err
	}
	said, err := keep("heron.yaml", string(craft(t)))
	require.NoError(t, err)
	assert.Contains(t, said, "kept as heron.yaml.")
	assert.Contains(t, said, "under “Files”, puts it on the bench")
	_, err = keep("r.yaml", aRadio)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(p.Config, "gestures.yaml"), []byte("other"), 0o600))
	nobody := regexp.MustCompile(`(?m)^device:.*\n(?: .*\n)*`).ReplaceAllString(aRadio, "")
	require.NotEqual(t, aRadio, nobody)
	for name, c := range map[string]struct{ text, says string }{
		"other radio": {strings.Replace(aRadio, "stick-mode: 2", "stick-mode: 3", 1), "the file of this very radio is there already"},
		"no radio":    {nobody, "names no radio"},
		"gestures":    {string(gestures(t)), "another one is there already as"},
		"script":      {"propsoff: script 1\n", "it is not kept"},
	} {
		_, err := keep("given.yaml", c.text)
		require.ErrorContains(t, err, c.says, name)
		assert.NotRegexp(t, "--|propsoff [a-z]|move", err.Error(), name)
	}
}

// What is to be written behind --craft is one word to a shell.
func TestACraftIsNamedForAShell(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	k, err := belongings.Known()
	require.NoError(t, err)
	assert.Equal(t, "heron.yaml", belongings.CraftNamed(filepath.Join(k.Crafts, "heron.yaml")))
	assert.Equal(t, `"my heron.yaml"`, belongings.CraftNamed(filepath.Join(k.Crafts, "my heron.yaml")))
	assert.Equal(t, filepath.Join("elsewhere", "heron.yaml"), belongings.CraftNamed(filepath.Join("elsewhere", "heron.yaml")))
}

// A file that is kept is renamed and deleted; nothing is written over, and what the program needs stays.
func TestWhatIsKeptIsRenamedAndDeleted(t *testing.T) {
	p := places(t)
	for name, text := range map[string]string{"heron.yaml": string(craft(t)), "r.yaml": aRadio, "flight.take": aTake, "two.yaml": string(craft(t)) + "# two\n"} {
		_, err := p.Keep(name, []byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, os.WriteFile(filepath.Join(p.Config, "remembered.yaml"), nil, 0o600))
	is := func(name string) belongings.Kept {
		t.Helper()
		f, ok := p.Find(name)
		require.True(t, ok, name)
		return f
	}
	heron, take := is("crafts/heron.yaml"), is("takes/flight.take")
	assert.True(t, heron.Flies && heron.Renames && heron.Goes && !take.Flies && take.Renames && take.Goes)
	for name, says := range map[string]string{"two": "two.yaml is there already", "": "no name", " ": "no name", "../up": "no name", `a\b`: "no name", "a/b": "no name", ".hidden": "no name", "a:b": "no name",
		"bell\x07": "no name", strings.Repeat("x", 81): "no name", "con": "such as con", "Nul.old": "such as con", "COM1": "such as con", "lpt¹": "such as con"} {
		_, err := p.Rename(heron, name)
		assert.ErrorContains(t, err, says, name)
		assert.Equal(t, string(craft(t)), tree(t, p.Config)["crafts/heron.yaml"])
	}
	same, err := p.Rename(heron, "heron")
	require.NoError(t, err)
	assert.Equal(t, heron, same)
	now, err := p.Rename(heron, "Zoés Reiher.yaml")
	require.NoError(t, err)
	assert.Equal(t, is("crafts/Zoés Reiher.yaml"), now)
	assert.Equal(t, string(craft(t)), tree(t, p.Config)["crafts/Zoés Reiher.yaml"])
	_, err = p.Rename(take, "evening")
	require.NoError(t, err)
	assert.Equal(t, aTake, tree(t, p.Config)["takes/evening.take"])

	settings := is("remembered.yaml")
	assert.ErrorContains(t, p.Delete(settings), "stays as it is")
	var radio string
	for _, f := range p.Files() {
		if f.Kind == "radio.file" {
			radio = f.Name
		}
	}
	_, err = p.Rename(is(radio), "mine")
	assert.ErrorContains(t, err, "stays as it is")
	require.NoError(t, p.Delete(now))
	require.NoError(t, p.Delete(is(radio)))
	_, there := p.Find(now.Name)
	assert.False(t, there)
	assert.ErrorContains(t, p.Delete(now), "there is no such craft file", "it has gone already")
	assert.Len(t, p.Files(), 3, "the rest stays")
}
