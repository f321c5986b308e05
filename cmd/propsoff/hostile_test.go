//go:build unix

package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim/drill"
)

const (
	// hostile is a name that colours a terminal, clears it, turns the words around it over, and ends lines for some.
	hostile = "x\x1b[31m\u202e\u2067\u009b2J\u2028\x7f\u061c\u200f\"<b>'y"
	// forged would begin a line of its own, and is no UTF-8 text.
	forged = hostile + "\nforged: all is well\xff"
	// seen is a part of what a person sees of it.
	seen = "x[U+001B][31m[U+202E][U+2067][U+009B]2J[U+2028][U+007F][U+061C][U+200F]"
)

// steersNothing looks for what gets past the door. Ends of lines and tabs are layout, a carriage return only before a line's end.
func steersNothing(t *testing.T, what, text string) {
	t.Helper()
	text = strings.ReplaceAll(text, "\r\n", "\n")
	for i, r := range text {
		_, n := utf8.DecodeRuneInString(text[i:])
		if mouth.Steers(r) && r != '\n' && r != '\t' || r == utf8.RuneError && n == 1 {
			t.Errorf("%s: U+%04X in %q", what, r, text[max(i-40, 0):min(i+40, len(text))])
			return
		}
	}
	assert.NotContains(t, text, "\nforged", what)
}

// hostileDesk is a folder in which every text that can be written is hostile, and a world with a radio of that name.
type hostileDesk struct {
	dir                                                         string
	craft, script, gestures, drill, course, radio, take, folder string
}

func newHostileDesk(t *testing.T) *hostileDesk {
	t.Helper()
	d := &hostileDesk{dir: filepath.Join(t.TempDir(), forged)}
	require.NoError(t, os.Mkdir(d.dir, 0o700))
	quoted := strconv.QuoteToASCII(hostile) // which is YAML too
	file := func(name, text string) string {
		path := filepath.Join(d.dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	named := func(name, text string) string { // one of ours under another name
		b, err := os.ReadFile(filepath.Join("..", "..", "assets", name))
		require.NoError(t, err)
		return file(filepath.Base(name), strings.Replace(string(b), text, text[:strings.Index(text, " ")+1]+quoted, 1))
	}
	d.craft = named("crafts/teasel.yaml", "name: Teasel")
	d.drill = named("drills/find-throttle.yaml", "name: Find the throttle")
	d.course = file("course.yaml", "propsoff: course 1\nname: "+quoted+"\nabout: "+quoted+"\ndrills: [find-throttle]\n")
	d.gestures = file("gestures.yaml", "propsoff: gestures 1\ngestures:\n  a:\n    name: "+quoted+"\n    stand: {throttle: low, yaw: left}\n")
	d.script = file(hostile+".yaml", "name: "+quoted+"\ncraft: teasel.yaml\n"+
		"start: {throttle: low, roll: middle, pitch: middle, yaw: middle, arm: off, mode: angle}\nsteps:\n  - {at: 2.1s, arm: on}\n  - {at: 2.2s, expect: disarmed}\nend: 2.5s\n")
	d.radio = file("radio.yaml", strings.Replace(radioText, `"Moorland Desk 7"`, quoted, 1))
	d.take = filepath.Join(d.dir, "a.take")
	d.folder = filepath.Join(d.dir, "logbooks")
	book, err := (logbook.Store{Dir: d.folder}).Open("Ann", time.Unix(2e9, 0))
	require.NoError(t, err)
	at, craft := time.Unix(2e9, 0), logbook.Craft{Name: hostile, Arming: "switch", Gestures: hostile}
	course, err := reportCourse(bareWorld())
	require.NoError(t, err)
	run := &drill.Run{Drill: course[0].Code, Tries: []drill.Try{{Verdict: drill.Right, Reaction: 500}}}
	require.NoError(t, book.Append(logbook.Began(at, logbook.Practice{Program: hostile, Radio: hostile, Craft: craft}), logbook.Changed(at, hostile+"2", craft),
		logbook.OfRun(at, run, &drill.Config{}, hostile), logbook.Ended(at, time.Hour)))
	require.NoError(t, book.Close())
	t.Chdir(t.TempDir()) // some write where they stand
	return d
}

// sit gives a world in which the radio and what is typed are hostile too.
func (d *hostileDesk) sit(t *testing.T) (w *world.World, b *bus, out, errs *output) {
	w, out, errs = testWorld(t)
	b = newBus()
	b.plug(found(hostile, "/dev/input/event5", hostile))
	w.Radios, w.Now = b, usb.Now
	w.Store = radio.Store{Dir: filepath.Join(d.dir, "radios")}
	w.In = strings.NewReader("call " + hostile + "\nsave " + hostile + "\n" + hostile + "\nanswer " + hostile + "\n")
	return w, b, out, errs
}

// moment is how long a command goes on that has no end, where nothing is waited for: it bounds what is seen, and no test's answer.
const moment = 150 * time.Millisecond

// run runs a command to its end, or for a moment where it would go on, and looks at all that comes out.
func (d *hostileDesk) run(t *testing.T, args ...string) (out, errs string) {
	t.Helper()
	until := time.Now().Add(moment)
	return d.runUntil(t, func(string) bool { return time.Now().After(until) }, args...)
}

// runUntil is run that ends what would go on once enough was said.
func (d *hostileDesk) runUntil(t *testing.T, enough func(said string) bool, args ...string) (out, errs string) {
	t.Helper()
	w, _, o, e := d.sit(t)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	done := make(chan struct{})
	go func() {
		defer close(done)
		execute(ctx, args, w)
	}()
	if slices.Contains([]string{"watch", "learn", "check"}, args[0]) || slices.Contains(args, "drill") { // the others end by themselves
		require.Eventually(t, func() bool {
			select {
			case <-done: // it does as well
				return true
			default:
				return enough(o.String() + e.String())
			}
		}, time.Minute, time.Millisecond, "%q", args)
		stop()
	}
	<-done
	what := fmt.Sprintf("%q", args)
	steersNothing(t, what+" on standard output", o.String())
	steersNothing(t, what+" on standard error", e.String())
	if slices.Contains(args, "--json") {
		for line := range strings.Lines(o.String()) {
			assert.True(t, json.Valid([]byte(line)), "%s: %s", what, line)
		}
	}
	return o.String(), e.String()
}

// Whatever stands in whichever argument or flag of whichever command, nothing of it steers what shows the output.
func TestHostileArguments(t *testing.T) {
	t.Setenv("DISPLAY", "")
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	d := newHostileDesk(t)
	d.run(t, "run", d.script, "--record", d.take)
	takes := map[string][]string{"run": {d.script}, "fly": {d.script}, "repair": {d.take}, "check": {d.drill}, "prove": {d.craft}}
	w, _, _, _ := d.sit(t)
	w, _ = w.WithDoors(context.Background())
	commands, flags := 0, 0
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		commands++
		path := strings.Fields(c.CommandPath())[1:]
		with := func(more ...string) {
			args := append(slices.Clone(path), more...)
			if len(path) == 0 || c.Name() != "check" || path[0] == "drill" {
				args = append(args, takes[c.Name()]...)
			}
			d.run(t, args...)
		}
		if len(path) > 0 { // alone it opens the window
			for _, word := range []string{hostile, forged, filepath.Join(d.dir, forged), "--" + hostile, "-" + hostile} {
				d.run(t, append(slices.Clone(path), word)...)
				d.run(t, append(slices.Clone(path), word, word)...)
			}
		} else {
			d.run(t, hostile)
			d.run(t, "help", hostile)
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			opens := slices.Contains([]string{"record", "device", "pupil", "outside", "help", "version"}, f.Name)
			if len(path) == 0 && opens {
				return
			}
			flags++
			values := []string{hostile, forged, filepath.Join(d.dir, "none", forged)}
			switch f.Name {
			case "craft":
				values = append(values, d.craft, d.script)
			case "gestures":
				values = append(values, d.gestures, d.craft)
			case "radio":
				values = append(values, d.radio, d.craft)
			case "folder":
				values = append(values, d.folder)
			}
			for _, v := range values {
				with("--" + f.Name + "=" + v)
			}
			if f.Name == "json" {
				with("--json")
			}
		})
		for _, below := range c.Commands() {
			walk(below)
		}
	}
	walk(newRoot(w))
	assert.Greater(t, commands, 20, "the walk met hardly anything")
	assert.Greater(t, flags, 60)
}

// What a person sees of hostile texts in files, by command; and the files that are written say it in the same way.
func TestHostileTextsAreSeen(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	d := newHostileDesk(t)
	in := func(name string) string { return filepath.Join(d.dir, name) }
	for _, args := range [][]string{
		{"run", d.script, "--record", d.take}, {"run", d.take}, {"fly", d.script, "--plot", in("plot.svg"), "--table", in("table.csv")}, {"link-loss", "--craft", d.craft},
		{"prove", d.craft, d.radio}, {"card", "--craft", d.craft, "--radio", d.radio, "-o", in("card.svg"), "--prove"}, {"gestures", "--gestures", d.gestures},
		{"drill", "check", d.drill, d.course, d.gestures}, {"logbook", "--folder", d.folder, "--all"}, {"logbook", "--folder", d.folder, "--csv", "-"},
		{"logbook", "report", "--folder", d.folder, "--pupil", "Ann", "-o", in("report.html")}, {"logbook", "report", "--folder", d.folder, "--pupil", "Ann", "-o", in("report.svg")},
		{"repair", d.take}, {"radios"}, {"watch"}, {"watch", "--radio", d.radio}, {"learn"}, {"check"}, {"drill", "run", "--radio", d.radio}, {"run", in(forged)}, {"drill", "run", hostile},
	} {
		named := func(said string) bool {
			return strings.Contains(said, seen) || strings.Contains(said, "“"+string(words.Typed(hostile))+"”")
		}
		out, errs := d.runUntil(t, named, args...)
		if !named(out + errs) {
			t.Errorf("%q: the name is not to be seen in %q", args, out+errs)
		}
		if args[0] == "logbook" || args[0] == "repair" || args[0] == "card" {
			continue
		}
		const kept = `x\u001b[31m\u202e\u2067\u009b2J\u2028\u007f\u061c\u200f\"<b>'y`
		args = append(slices.Clone(args), "--json")
		if args[0] == "watch" || args[0] == "link-loss" || args[0] == "radios" {
			out, _ = d.runUntil(t, func(said string) bool { return strings.Contains(said, kept) }, args...)
			assert.Contains(t, out, kept, "JSON keeps what was there")
			continue
		}
		d.run(t, args...)
	}
	for _, name := range []string{"plot.svg", "table.csv", "card.svg", "report.html", "report.svg"} {
		text, err := os.ReadFile(in(name))
		require.NoError(t, err, name)
		steersNothing(t, name, string(text))
		if name != "table.csv" && !strings.HasPrefix(name, "report") {
			assert.Contains(t, string(text), "[U+202E]", name)
		}
	}
	f, err := radio.Load(d.radio, radio.Known{})
	require.NoError(t, err)
	path, err := radio.Store{Dir: in("radios")}.Save(f)
	require.NoError(t, err)
	assert.Equal(t, "1f4a-0007-x-31m-2j-b-y-a.yaml", filepath.Base(path), "a file is named by letters, digits and hyphens only")
}

// The live screens of the same.
func TestHostileNamesOnScreens(t *testing.T) {
	d := newHostileDesk(t)
	for _, args := range [][]string{{"watch"}, {"watch", "--radio", d.radio}, {"learn"}, {"run", d.script, "--live"}} {
		w, _, out, errs := d.sit(t)
		w.Screen = func() (int, int, bool) { return 200, 40, true }
		w.In = nil
		ctx, stop := context.WithCancel(context.Background())
		done := make(chan int, 1)
		go func() { done <- execute(ctx, args, w) }()
		assert.Eventually(t, func() bool { return strings.Contains(out.String(), seen) }, time.Minute, time.Millisecond, "%q\n%q", args, out)
		stop()
		<-done
		text := out.String()
		for _, ours := range []string{"\x1b[?25l", "\x1b[?25h", "\x1b[2J", "\x1b[H", "\x1b[K", "\x1b[J"} {
			text = strings.ReplaceAll(text, ours, "")
		}
		steersNothing(t, fmt.Sprintf("%q", args), text)
		steersNothing(t, fmt.Sprintf("%q", args), errs.String())
	}
}
