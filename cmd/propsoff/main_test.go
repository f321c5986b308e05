package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/door"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

var update = flag.Bool("update", false, "write the goldens anew")

// output is a buffer that several goroutines may use.
type output struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (o *output) Write(p []byte) (int, error) { o.mu.Lock(); defer o.mu.Unlock(); return o.b.Write(p) }
func (o *output) String() string              { o.mu.Lock(); defer o.mu.Unlock(); return o.b.String() }

// noRadios is a system on which no radio is plugged in.
type noRadios struct{}

func (noRadios) List() ([]usb.Found, []usb.Notice, error) { return nil, nil, nil }
func (noRadios) Watch() (world.Watcher, error)            { return noNews{}, nil }
func (noRadios) Open(string, int64) (input.Device, error) { return nil, os.ErrNotExist }

type noNews struct{}

func (noNews) Poll(dst []usb.Change) []usb.Change { return dst }
func (noNews) Wake() <-chan struct{}              { return nil }
func (noNews) Found() []usb.Found                 { return nil }
func (noNews) Close() error                       { return nil }

// testWorld is a world without radios, terminal and user.
func testWorld(t *testing.T) (w *world.World, out, err *output) {
	t.Helper()
	out, err = &output{}, &output{}
	start := time.Now()
	return &world.World{
		Out: out, Err: err, Door: new(door.Keeper), Radios: noRadios{}, Store: radio.Store{Dir: filepath.Join(t.TempDir(), "radios")},
		Screen: func() (int, int, bool) { return 0, 0, false },
		Now:    func() int64 { return time.Since(start).Microseconds() + 1 },
	}, out, err
}

// english has programs that tests start speak English, whatever the machine's language is. Worlds that tests make up have no environment.
func english() { _ = os.Setenv("LC_ALL", "C") }

// command runs a command line in a world without radios.
func command(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	w, o, e := testWorld(t)
	code = execute(context.Background(), args, w)
	return code, o.String(), e.String()
}

func TestGoldenRuns(t *testing.T) {
	scripts, err := filepath.Glob("testdata/runs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	for _, path := range append(scripts, demoName) {
		name := strings.TrimSuffix(filepath.Base(path), ".yaml")
		t.Run(name, func(t *testing.T) {
			want := exit.CodeDone
			if name == "failing" {
				want = exit.CodeFailed
			}
			for ext, args := range map[string][]string{".text": {"run", path}, ".jsonl": {"run", path, "--json"}} {
				code, out, errs := command(t, args...)
				assert.Equal(t, want, code)
				assert.Empty(t, errs)
				golden(t, filepath.Join("testdata", "runs", name+ext), out)
			}
		})
	}
}

func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "%s: go test -update writes it anew; look at what changed", path)
}

func TestExitStatusAndErrors(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		p := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(p, []byte(text), 0o666))
		return p
	}
	good := "testdata/runs/switch.yaml"
	bad := file("bad.yaml", "steps:\n  - {at: 1s, trottle: 1200}\n  - {at: 0.5s, arm: sideways}\n")
	empty := file("empty.yaml", "")
	binary := file("binary", "\x7fELF\x02\x01\x01\x00\x00\xff\xfe")
	craft := file("craft.yaml", "propsoff: craft 1\nname: x\nchannels: {throttle: 1, roll: 1, pitch: 3, yaw: 4, arm: 5}\n")
	badRadio := file("radio.yaml", "propsoff: radio 1\ncontrols:\n  throttle: {axiss: 3}\n")
	noTake := file("cut.take", "propsoff take 1\n\x01")
	newer := file("newer.take", "propsoff take 99\n")
	badCraftIn := file("lost.yaml", "craft: nowhere.yaml\nsteps:\n  - {at: 1s, arm: on}\n")
	badRadioIn := file("unheard.yaml", "name: x\nradio-file: nowhere.yaml\nsteps:\n  - {at: 1s, arm: on}\n")
	spoiltCraftIn := file("spoilt.yaml", "craft: craft.yaml\nsteps:\n  - {at: 1s, arm: on}\n")
	stub := file("stub", "props")
	noBytes := file("empty.take", "")
	nowhere := filepath.Join(dir, "nowhere", "x")
	for _, c := range []struct {
		name string
		args []string
		code int
		want []string
	}{
		{"unknown command", []string{"wach"}, 2, []string{`did you mean “watch”?`}},
		{"a file in the command's place", []string{good}, 2, []string{"propsoff run " + good}},
		{"unknown flag", []string{"run", good, "--jsn"}, 2, []string{"did you mean --json?"}},
		{"unknown flag without a near one", []string{"radios", "--zzzzz"}, 2, []string{"no flag --zzzzz"}},
		{"flag without value", []string{"watch", "--for"}, 2, []string{"--for"}},
		{"bad time", []string{"watch", "--for", "soon"}, 2, []string{"soon"}},
		{"negative time", []string{"watch", "--for", "-1s"}, 2, []string{"--for"}},
		{"raw and record", []string{"watch", "--raw", "--record", "x"}, 2, []string{"--record"}},
		{"no command of drill", []string{"drill", "rum"}, 2, []string{`did you mean “run”?`}},
		{"words after version", []string{"version", "now"}, 2, []string{`“now”`}},
		{"run without a file", []string{"run"}, 2, []string{"propsoff run demo"}},
		{"run with two files", []string{"run", good, good}, 2, []string{"one file"}},
		{"run with a file and the demo", []string{"run", good, "--demo"}, 2, []string{"not both"}},
		{"no such file", []string{"run", "nowhere.yaml"}, 2, []string{"nowhere.yaml: there is no such"}},
		{"nearly the demo", []string{"run", "demmo"}, 2, []string{`“demo”`}},
		{"a folder", []string{"run", dir}, 2, []string{"folder"}},
		{"bad script", []string{"run", bad}, 2, []string{bad + ":2:", "throttle", bad + ":3:"}},
		{"empty script", []string{"run", empty}, 2, []string{empty + ":1:1: "}},
		{"binary", []string{"run", binary}, 2, []string{binary + ":1:"}},
		{"bad craft", []string{"run", good, "--craft", craft}, 2, []string{craft + ":3:", "twice"}},
		{"no such craft", []string{"watch", "--craft", "nope.yaml"}, 2, []string{"nope.yaml: there is no such craft file"}},
		{"no such craft in a script", []string{"run", badCraftIn}, 2, []string{badCraftIn + ":1:8: its craft: " + filepath.Join(dir, "nowhere.yaml") + ": there is no such craft"}},
		{"no such radio file in a script", []string{"run", badRadioIn}, 2, []string{badRadioIn + ":2:13: its radio file: " + filepath.Join(dir, "nowhere.yaml") + ": there is no such radio"}},
		{"spoilt craft in a script", []string{"run", spoiltCraftIn}, 2, []string{craft + ":3:"}},
		{"radios reads no radio file", []string{"radios", "--radio", "nope"}, 2, []string{"no flag --radio"}},
		{"radios with a craft", []string{"radios", "--craft", "teasel"}, 2, []string{"no flag --craft"}},
		{"repair records nothing", []string{"repair", "x", "--record", "y"}, 2, []string{"no flag --record"}},
		{"version with a craft", []string{"version", "--craft", "teasel"}, 2, []string{"no flag --craft"}},
		{"flags before the command", []string{"--craft", "nope.yaml", "run", good}, 2, []string{"nope.yaml: there is no such craft file"}},
		{"time without unit", []string{"watch", "--for", "2"}, 2, []string{"--for 2: write a time with its unit, such as 10s"}},
		{"no time at all", []string{"watch", "--for", "0s"}, 2, []string{"--for needs a time"}},
		{"json of something", []string{"run", good, "--json=maybe"}, 2, []string{"--json=maybe: write --json alone"}},
		{"a few bytes of a take", []string{"run", stub}, 2, []string{stub + ": this is the beginning of a take that was cut off before its settings"}},
		{"a take of no bytes", []string{"run", noBytes}, 2, []string{noBytes + ":1:1: not a take: the file is empty"}},
		{"recording into no folder", []string{"run", good, "--record", nowhere}, 2, []string{nowhere + ": there is no such folder"}},
		{"recording below a file", []string{"run", good, "--record", stub + "/x"}, 2, []string{stub + "/x: there is no such folder"}},
		{"repairing nothing", []string{"repair", nowhere}, 2, []string{nowhere + ": there is no such take"}},
		{"repairing a folder", []string{"repair", dir}, 2, []string{dir + ": this is a folder"}},
		{"picture into no folder", []string{"--picture", "2s=" + nowhere}, 2, []string{nowhere + ": there is no such folder"}},
		{"picture in the place of a folder", []string{"--picture", "2s=" + dir}, 2, []string{dir + ": this is a folder"}},
		{"small window", []string{"--size", "400x300"}, 2, []string{"--size 400x300: 960x600 is the least"}},
		{"narrow window", []string{"--size", "959x600"}, 2, []string{"960x600 is the least"}},
		{"huge window", []string{"--size", "99999x600"}, 2, []string{"is the most"}},
		{"size with more behind it", []string{"--size", "1280x800px"}, 2, []string{"such as 1280x800"}},
		{"size of one number", []string{"--size", "1280"}, 2, []string{"such as 1280x800"}},
		{"bad radio", []string{"watch", "--radio", badRadio}, 2, []string{badRadio + ":3:", "axis"}},
		{"no such radio file", []string{"watch", "--radio", "nope.yaml"}, 2, []string{"nope.yaml: there is no such radio file"}},
		{"cut take", []string{"run", noTake}, 2, []string{noTake + ":1:1: "}},
		{"newer take", []string{"run", newer}, 2, []string{newer + ":1:"}},
		{"recording over a file", []string{"run", good, "--record", good}, 2, []string{"never overwritten"}},
		{"good", []string{"run", good}, 0, nil},
		{"demo by flag", []string{"run", "--demo"}, 0, nil},
		{"shipped craft", []string{"run", good, "--craft", "teasel"}, 0, nil},
		{"version", []string{"version"}, 0, nil},
		{"help", []string{"--help"}, 0, nil},
		{"no radios", []string{"radios"}, 0, []string{"No radio is plugged in"}},
		{"no radios as JSON", []string{"radios", "--json"}, 0, nil},
		{"watching nothing", []string{"watch", "--for", "30ms"}, 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := command(t, c.args...)
			assert.Equal(t, c.code, code, "%s%s", out, errs)
			for _, w := range c.want {
				assert.Contains(t, errs, w)
			}
			if c.code != exit.CodeDone {
				assert.NotEmpty(t, errs)
				for _, raw := range []string{": open ", "stat ", "no such file or directory", "invalid argument", "time: "} {
					assert.NotContains(t, errs, raw, "the system's wording")
				}
				assert.False(t, strings.HasPrefix(errs, "take: "), "a package's name")
			}
		})
	}
	st, err := os.Stat(good)
	require.NoError(t, err)
	assert.Less(t, st.Size(), int64(2000), "the script that was to be recorded over is as it was")
}

// A file of 100 MB is refused without being read whole.
func TestHugeFileIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "huge.yaml")
	f, err := os.Create(path)
	require.NoError(t, err)
	_, err = f.WriteString("steps:\n  - {at: 1s, arm: on}\n#")
	require.NoError(t, err)
	require.NoError(t, f.Truncate(100<<20))
	require.NoError(t, f.Close())
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for _, args := range [][]string{{"run", path}, {"run", demoName, "--craft", path}, {"watch", "--radio", path}} {
		code, _, errs := command(t, args...)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, path+":")
	}
	runtime.ReadMemStats(&after)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(50<<20), "three times 100 MB")
}

func TestBuildWithoutWindowSaysSo(t *testing.T) {
	w, out, errs := testWorld(t)
	if code := execute(context.Background(), nil, w); code == exit.CodeTrouble {
		assert.Contains(t, errs.String(), "propsoff watch")
		assert.Contains(t, errs.String(), "propsoff run")
		assert.Empty(t, out.String())
	}
}

func TestHelpNamesEverything(t *testing.T) {
	_, out, _ := command(t, "--help")
	for _, want := range []string{"radios", "watch", "run", "version", "completion", "--radio", "--craft", "--record", "built-in", "transmitting"} {
		assert.Contains(t, out, want)
	}
	code, out, _ := command(t, "completion", "bash")
	assert.Equal(t, exit.CodeDone, code)
	assert.Contains(t, out, "propsoff")
	_, out, _ = command(t, "__complete", "run", "")
	assert.Contains(t, out, "demo")
	_, out, _ = command(t, "__complete", "run", "demo", "--craft", "")
	assert.Contains(t, out, "teasel-by-sticks")
}

// A shell that completes a line is given what the program knows at each place.
func TestAShellIsGivenWhatIsKnown(t *testing.T) {
	folder, _ := keptLogbooks(t)
	for _, c := range []struct {
		line      []string
		has, lack string
	}{
		{[]string{"drill", "run", ""}, "find-throttle\n", "beginner"},
		{[]string{"drill", "run", "find-throttle", ""}, "find-yaw\n", "find-throttle"},
		{[]string{"card", "--size", ""}, "bank\npage\n", "a4"},
		{[]string{"gestures", "--stick-mode", ""}, "1\n2\n3\n4\n", "5"},
		{[]string{"learn", "--stick-mode", ""}, "1\n2\n3\n4\n", "5"},
		{[]string{"logbook", "rename", "--folder", folder, ""}, "Ann\nZoë Łódź\n", "pupil-"},
		{[]string{"logbook", "rename", "--folder", folder, "Ann", ""}, "", "Ann"},
		{[]string{"logbook", "merge", "--folder", folder, ""}, "Ann\nZoë Łódź\n", "pupil-"},
		{[]string{"logbook", "merge", "--folder", folder, "Ann", ""}, "Zoë Łódź\n", "Ann"},
		{[]string{"logbook", "merge", "--folder", folder, "Ann", "Zoë Łódź", ""}, "", "Ann"},
	} {
		code, out, errs := command(t, append([]string{"__complete"}, c.line...)...)
		assert.Equal(t, exit.CodeDone, code, errs)
		assert.Contains(t, out, c.has, "%q", c.line)
		assert.NotContains(t, out, c.lack, "%q", c.line)
		assert.Contains(t, out, ":4\n", "%q: no file's name is offered", c.line)
	}
}

// bareWorld has nothing but a way in for files.
func bareWorld() *world.World { return &world.World{Door: new(door.Keeper)} }
