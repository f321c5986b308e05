package main

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/playback"
	"propsoff.example/cmd/propsoff/internal/world"
)

// hopFile is the shipped script as a file of one's own, and a take of it.
func hopFile(t *testing.T, dir string) (script, take string) {
	t.Helper()
	_, text, ok := assets.Script("hop")
	require.True(t, ok)
	flown, _, ok := strings.Cut(string(text), "  - {at: 13s, link: off}")
	require.True(t, ok)
	text = []byte(flown + "end: 12.5s\n") // before it falls: what could have saved it takes long to find
	script, take = filepath.Join(dir, "hop.yaml"), filepath.Join(dir, "hop.take")
	require.NoError(t, os.WriteFile(script, text, 0o600))
	code, _, errs := command(t, "fly", script, "-o", filepath.Join(dir, "first.csv"), "--record", take)
	require.Equal(t, exit.CodeDone, code, errs)
	return script, take
}

// state is every file of a folder with what it holds.
func state(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(p)
		if d.Type()&os.ModeSymlink != 0 {
			to, _ := os.Readlink(p)
			b, err = []byte("to "+to), nil
		}
		out[p] = string(b)
		return err
	}))
	return out
}

// No command writes over a file that it was not told to write over, over one that it reads, through a link, or two things into one file;
// whatever is refused leaves the folder as it was.
func TestNothingIsWrittenOver(t *testing.T) {
	dir := t.TempDir()
	script, take := hopFile(t, dir)
	in := func(name string) string { return filepath.Join(dir, name) }
	craft := in("craft.yaml")
	_, text, _ := assets.Craft(assets.BuiltIn)
	require.NoError(t, os.WriteFile(craft, text, 0o600))
	for _, name := range []string{"old.csv", "old.png", "old.png.json", "old.pdf", "old.html", "old.yaml"} {
		require.NoError(t, os.WriteFile(in(name), []byte("mine"), 0o600))
	}
	require.NoError(t, os.Symlink(in("old.pdf"), in("link.pdf")))
	require.NoError(t, os.Symlink(in("nowhere.pdf"), in("dangling.pdf")))
	require.NoError(t, os.Mkdir(in("ways"), 0o700))
	require.NoError(t, os.Symlink(in("nowhere.yaml"), in("ways/loss-stops-motors.yaml")))
	log, _ := keptLogbooks(t)
	kept := (logbook.Store{Dir: log}).Files("Ann")[0]
	held := layoutFile("held-switch", "craft")
	before := state(t, dir)
	const there, reads, link, twice = "this file is there already; choose another name, or write --over", "this file is being read, and would be lost", "this is a link, and links are not followed", "two outputs would go to this one file"
	for _, c := range []struct{ args, says string }{
		{"fly hop -o " + in("old.csv"), there},
		{"fly hop --plot " + in("old.png"), there},
		{"fly " + take + " -o " + take, reads},
		{"fly " + take + " --over -o " + take, reads},
		{"fly " + take + " --over -o " + dir + "/./hop.take", reads},
		{"fly " + script + " --over -o " + script, reads},
		{"fly hop --craft " + craft + " --over -o " + craft, reads},
		{"fly hop -o " + in("x.png") + " --plot " + in("x.png"), twice},
		{"fly hop --over -o " + in("x.png") + " --plot " + in("x.png"), twice},
		{"fly hop -o " + in("x.take") + " --record " + in("x.take"), twice},
		{"fly hop -o - --plot -", twice},
		{"fly hop --over --plot " + in("link.pdf"), link},
		{"fly hop --over -o " + in("dangling.pdf"), link},
		{"run " + script + " --record " + script, "never overwritten"},
		{"run " + script + " --record " + in("dangling.pdf"), link},
		{"run " + script + " --record -", "it is written to a file"},
		{"card -o " + in("old.pdf"), there},
		{"card -o " + in("link.pdf"), link},
		{"card --over -o " + in("link.pdf"), link},
		{"card --over -o " + in("dangling.pdf"), link},
		{"logbook --folder " + log + " --csv " + in("old.csv"), there},
		{"logbook --folder " + log + " --over --csv " + in("dangling.pdf"), link},
		{"logbook report --folder " + log + " --pupil Ann -o " + in("old.html"), there},
		{"logbook --folder " + log + " --pupil Ann --over --csv " + kept, reads},
		{"learn -o " + craft, there},
		{"learn --craft " + craft + " --over -o " + craft, reads},
		{"learn --over -o " + in("link.pdf"), link},
		{"learn -o -", "a radio file is kept in an ordinary file"},
		{"--picture 1s=" + in("old.png"), there},
		{"--picture 1s=" + in("link.pdf"), "pictures are written as PNG"},
		{"prove " + held + " --write " + in("ways"), link},
	} {
		code, _, errs := command(t, strings.Fields(c.args)...)
		assert.Equal(t, exit.CodeBadInput, code, "%s\n%s", c.args, errs)
		assert.Contains(t, errs, c.says, c.args)
		now := state(t, dir)
		for path := range now { // what prove wrote before it came to the link is its own
			if strings.HasPrefix(path, in("ways/")) && before[path] == "" {
				delete(now, path)
			}
		}
		require.Equal(t, before, now, c.args)
	}
	for _, args := range []string{
		"fly hop --over -o " + in("old.csv") + " --plot " + in("old.png"), "card --over -o " + in("old.pdf"),
		"logbook report --folder " + log + " --pupil Ann --over -o " + in("old.html"),
	} {
		code, _, errs := command(t, strings.Fields(args)...)
		assert.Equal(t, exit.CodeDone, code, "%s\n%s", args, errs)
	}
	for _, name := range []string{"old.csv", "old.png", "old.pdf", "old.html"} {
		assert.NotEqual(t, "mine", state(t, dir)[in(name)], name)
	}
	assert.Equal(t, "mine", state(t, dir)[in("old.yaml")])
}

// What a stream makes sense for is read from standard input and written to standard output, as from and to a file.
func TestStreams(t *testing.T) {
	dir := t.TempDir()
	script, take := hopFile(t, dir)
	read := func(path string) string {
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		return string(b)
	}
	run := func(in string, args ...string) (int, string, string) {
		w, out, errs := testWorld(t)
		w.In = strings.NewReader(in)
		code := execute(context.Background(), args, w)
		return code, out.String(), errs.String()
	}
	for _, file := range []string{script, take} {
		_, want, _ := command(t, "run", "--json", file)
		code, got, errs := run(read(file), "run", "--json", "-")
		assert.Equal(t, exit.CodeDone, code, errs)
		assert.Equal(t, strings.ReplaceAll(want, file, "-"), got, "%s told alike from a file and from a pipe, a take compared with its replay", file)

		code, got, errs = run(read(file), "fly", "-")
		assert.Equal(t, exit.CodeDone, code, errs)
		assert.Equal(t, read(filepath.Join(dir, "first.csv")), got)
	}
	_, craft, _ := assets.Craft(assets.BuiltIn)
	code, out, errs := run(string(craft), "card", "--craft", "-", "-o", "-", "--date", "none")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.True(t, strings.HasPrefix(out, "%PDF-"), "the page alone")
	assert.NotContains(t, out, "Saved")
	code, out, errs = run("", "fly", script, "--plot", "-")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.True(t, strings.HasPrefix(out, "%PDF-"))
	log, _ := keptLogbooks(t)
	code, out, errs = run("", "logbook", "report", "--folder", log, "--pupil", "Ann", "-o", "-")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.True(t, strings.HasPrefix(out, "%PDF-"))
	assert.NotContains(t, out, "Saved")

	for _, c := range []struct{ args, says string }{
		{"run - --craft -", "standard input can be read only once, and is already the script or take"},
		{"learn --craft -", "standard input is not read here; give the path of a craft file"},
		{"watch --craft -", "standard input is not read here"},
		{"--play -", "standard input is not read here"},
		{"prove built-in --write -", "the scripts are several files; give the name of a folder"},
		{"run demo --record=", "--record: nothing is given; write FILE, or leave it out"},
		{"fly hop --table=", "--table: nothing is given"},
		{"prove - --write " + filepath.Join(dir, "ways"), "standard input has no name"},
	} {
		code, _, errs := run(string(craft), strings.Fields(c.args)...)
		assert.Equal(t, exit.CodeBadInput, code, c.args)
		assert.Contains(t, errs, c.says, c.args)
	}
	// A pipe's take is kept in memory, as far as that goes.
	code, _, errs = run(world.TakeMark+"1\n"+strings.Repeat("\x00", playback.StreamedMost), "run", "-")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "a take of more than 64 MiB is read from a file only; keep it in one")
	// A terminal shows no pages.
	w, _, told := testWorld(t)
	w.Screen = func() (int, int, bool) { return 80, 24, true }
	assert.Equal(t, exit.CodeBadInput, execute(context.Background(), []string{"card", "-o", "-"}, w))
	assert.Contains(t, told.String(), "a terminal cannot show a page")
}

// A pipe that the shell hands over by number is read, a script's and a take's alike (bash(1), process substitution).
func TestAPipeByNumber(t *testing.T) {
	if _, err := os.Stat("/dev/fd"); err != nil {
		t.Skip("no /dev/fd here")
	}
	dir := t.TempDir()
	for _, file := range func() []string { s, k := hopFile(t, dir); return []string{s, k} }() {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		r, w, err := os.Pipe()
		require.NoError(t, err)
		go func() {
			_, _ = w.Write(text)
			_ = w.Close()
		}()
		name := "/dev/fd/" + strconv.Itoa(int(r.Fd()))
		code, out, errs := command(t, "run", name)
		assert.Equal(t, exit.CodeDone, code, errs)
		_, want, _ := command(t, "run", file)
		assert.Equal(t, strings.ReplaceAll(want, file, name), out)
		require.NoError(t, r.Close())
	}
}

// A line of commands that is too long is told of, and what follows is obeyed.
func TestALineThatIsTooLong(t *testing.T) {
	t.Parallel()
	l := sit(t, nil)
	l.port.plug(deskInfo("A"))
	require.Eventually(t, func() bool { return strings.Contains(l.out.String(), "question 1 of ") }, time.Minute, time.Millisecond, "%s", l.out)
	l.say(strings.Repeat("x", 70_000))
	l.say("sideways")
	require.Eventually(t, func() bool { return strings.Contains(l.out.String(), `“sideways” means nothing here`) }, time.Minute, time.Millisecond, "%s", l.out)
	assert.Contains(t, l.out.String(), "a line of more than 65,536 bytes")
	l.say("q")
	assert.Equal(t, exit.CodeTrouble, l.finish())
}

// What a killed program left in the folders of its own goes when the next one starts.
func TestWhatAKillLeftIsTakenAwayAtTheStart(t *testing.T) {
	home := t.TempDir()
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "LocalAppData", "AppData"} {
		t.Setenv(name, home)
	}
	dirs := world.OwnFolders()
	require.Len(t, dirs, 4)
	for _, dir := range dirs {
		require.NoError(t, os.MkdirAll(dir, 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, ".propsoff-7.part"), []byte("half"), 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.part"), []byte("whole"), 0o600))
	}
	world.Tidy()
	for _, dir := range dirs {
		assert.FileExists(t, filepath.Join(dir, "mine.part"))
		if runtime.GOOS != "windows" { // there a part must have lain for an hour
			assert.NoFileExists(t, filepath.Join(dir, ".propsoff-7.part"))
		}
	}
}
