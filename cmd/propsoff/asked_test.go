package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/cmd/propsoff/internal/termlive"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/sim"
	"propsoff.example/sim/pulse"
)

// What a command says to write, give, choose or make instead, written, given, chosen or made, works: each row is a command line that is
// refused, what is said of it, and the same line once that is done.
func TestWhatACommandAsksForWorks(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	put := func(name, text string) func(*testing.T) {
		return func(t *testing.T) { require.NoError(t, os.WriteFile(in(name), []byte(text), 0o600)) }
	}
	mkdir := func(name string) func(*testing.T) {
		return func(t *testing.T) { require.NoError(t, os.Mkdir(in(name), 0o700)) }
	}
	moved := func(name string) func(*testing.T) {
		return func(t *testing.T) { require.NoError(t, os.Rename(in(name), in(name+".old"))) }
	}
	folder, _ := keptLogbooks(t)
	held, good := layoutFile("held-switch", "craft"), "testdata/runs/switch.yaml"
	put("there.csv", "mine")(t)
	mkdir("d.pdf")(t)
	mkdir("ways")(t)
	put("ways/loss-stops-motors.yaml", "my own\n")(t)
	for _, c := range []struct {
		wrong, says string
		do          func(*testing.T)
		right       string
		status      int    // of the second
		then        string // what the second says instead, where it cannot succeed here
	}{
		// Files and places.
		{"run " + in("gone.yaml"), "there is no such script or take; check the path", nil, "run " + good, 0, ""},
		{"watch --for 30ms --craft " + in("gone.yaml"), "there is no such craft file; check the path", nil, "watch --for 30ms --craft teasel", 0, ""},
		{"run " + dir, "this is a folder; give the path of a script or take", nil, "run " + good, 0, ""},
		{"run demo --craft " + good, "this is a script, and a craft file belongs here: give another file or name", nil, "run demo --craft " + layoutFile("switch", "craft"), 0, ""},
		{"fly hop -o " + dir, "this is a folder; give the name of a file in it", nil, "fly hop -o " + in("a.csv"), 0, ""},
		{"fly hop -o " + in("b/a.csv"), "there is no such folder to write into; make it first, or choose another", mkdir("b"), "fly hop -o " + in("b/a.csv"), 0, ""},
		{"learn -o " + dir, "this is a folder; give the name of a file in it", nil, "learn -o " + in("r.yaml"), exit.CodeTrouble, "There is no radio to learn"},
		{"learn -o " + in("c/r.yaml"), "there is no such folder to write into; make it first, or choose another", mkdir("c"), "learn -o " + in("c/r.yaml"), exit.CodeTrouble, "There is no radio to learn"},
		{"learn -o /dev/null", "a radio file is kept in an ordinary file; give the name of one", nil, "learn -o " + in("r.yaml"), exit.CodeTrouble, "There is no radio to learn"},
		{"prove " + held + " --write " + good + "/x", "this folder cannot be made; choose another", nil, "prove " + held + " --write " + in("new"), exit.CodeFailed, ""},
		{"prove " + held + " --write " + in("ways"), "which is never overwritten; move it, or choose another folder", moved("ways/loss-stops-motors.yaml"), "prove " + held + " --write " + in("ways"), exit.CodeFailed, ""},
		{"run " + good + " --record -", "give the name of one", nil, "run " + good + " --record " + in("named.take"), 0, ""},
		{"run - --craft -", "give the path of a script or take", nil, "run " + good + " --craft built-in", 0, ""},
		{"learn --craft -", "give the path of a craft file", nil, "learn --craft built-in", exit.CodeTrouble, "There is no radio to learn"},
		{"run /dev/null", "this is a device, not an ordinary file; give the path of a script or take", nil, "run " + good, 0, ""},
		{"fly hop -o " + in("x.png") + " --plot " + in("x.png"), "choose another name for one of them", nil, "fly hop -o " + in("x.csv") + " --plot " + in("x.png"), 0, ""},
		{"fly " + good + " --over -o " + good, "would be lost; choose another name", nil, "fly " + good + " --over -o " + in("x2.csv"), 0, ""},
		{"fly hop -o /proc/a.csv", "no file can be made in this folder; choose another place", nil, "fly hop -o " + in("a2.csv"), 0, ""},

		// What stands on the command line.
		{"fly", "give the path of one pilot script", nil, "fly hop", 0, ""},
		{"fly hop --every 1500us", "write whole milliseconds, such as 10ms", nil, "fly hop --every 10ms", 0, ""},
		{"fly hop --every 10", "write a time with its unit, such as 10ms", nil, "fly hop --every 10ms", 0, ""},
		{"fly hop --plot " + in("a.gif"), "end the name with one of .pdf", nil, "fly hop --plot " + in("a.pdf"), 0, ""},
		{"fly hop --size 10 --plot " + in("a.png"), "write width and height in pixels, such as 1280x800", nil, "fly hop --size 1280x800 --plot " + in("a.png"), 0, ""},
		{"watch --for 2", "write a time with its unit, such as 10s", nil, "watch --for 1ms", 0, ""},
		{"watch --raw --record " + in("x.take"), "leave out one of --raw and --record", nil, "watch --for 1ms --record " + in("x.take"), 0, ""},
		{"run " + good + " --json=maybe", "write --json alone, or leave it out", nil, "run " + good + " --json", 0, ""},
		{"run", `give the path of a pilot script or a take; “propsoff run demo” runs the demo pilot`, nil, "run demo", 0, ""},
		{"run " + good + " --demo", "give a file or --demo, not both", nil, "run --demo", 0, ""},
		{"run demo demo", "give one file at a time", nil, "run demo", 0, ""},
		{"run --zzzzz", `see “propsoff run --help”`, nil, "run --help", 0, ""},
		{"run --jsn demo", `See “propsoff run --help”`, nil, "run --help", 0, ""},
		{"fly hop --table", `see “propsoff fly --help”`, nil, "fly --help", 0, ""},
		{"version now", `see “propsoff version --help”`, nil, "version --help", 0, ""},
		{"repair", `see “propsoff repair --help”`, nil, "repair --help", 0, ""},
		{"prove", `see “propsoff prove --help”`, nil, "prove --help", 0, ""},
		{"prove a b c d e", "give one craft and at most one radio file", nil, "prove " + held, exit.CodeFailed, ""},
		{"prove teasel " + layoutFile("full", "radio") + " teasel", "CRAFT RADIO CRAFT RADIO", nil, "prove teasel " + layoutFile("full", "radio") + " teasel " + layoutFile("full", "radio"), 0, ""},
		{"prove", "give a craft file or a shipped craft, and a radio file where there is one", nil, "prove " + held + " " + layoutFile("full", "radio"), exit.CodeFailed, ""},
		{"gestures --stick-mode 5", "write 1, 2, 3 or 4", nil, "gestures --stick-mode 4", 0, ""},
		{"gestures --stick-mode x", "write 1, 2, 3 or 4", nil, "gestures --stick-mode 1", 0, ""},
		{"learn --stick-mode 5", "write 1, 2, 3 or 4", nil, "learn --stick-mode 3", exit.CodeTrouble, "There is no radio to learn"},
		{"link-loss --height 0", "write 1 to 100 metres", nil, "link-loss --height 100", 0, ""},
		{"link-loss --height high", "write a number", nil, "link-loss --height 1.5", 0, ""},
		{"link-loss --off 10ms", "write 1s to 2m0s", nil, "link-loss --off 1s", 0, ""},
		{"link-loss --stored low", "write one of file, disarming, armed-low, armed-throttle", nil, "link-loss --stored armed-low", 0, ""},
		{"link-loss --stored file", "write one of disarming, armed-low, armed-throttle", nil, "link-loss --stored disarming", 0, ""},
		{"drill check", "give at least one drill or course file", put("d.yaml", ""), "drill check " + in("d.yaml"), exit.CodeBadInput, in("d.yaml")},
		{"drill run --tries 0", "write 1 or more, or leave it out", nil, "drill run no-such --tries 1", exit.CodeBadInput, "no-such"},
		{"drill run --tries x", "write a whole number, 0 to 65535", nil, "drill run no-such --tries 65535", exit.CodeBadInput, "no-such"},
		{"drill run --seed -1", "write a whole number, not below 0", nil, "drill run no-such --seed 0", exit.CodeBadInput, "no-such"},

		// Cards.
		{"card -o " + in("there.csv") + ".doc", "end it in .pdf, .svg or .png", nil, "card -o " + in("k.svg"), 0, ""},
		{"card -o " + in("k.svg"), "choose another name, or write --over", nil, "card -o " + in("k2.svg"), 0, ""},
		{"card -o " + in("k.svg"), "or write --over to put the new one in its place", nil, "card --over -o " + in("k.svg"), 0, ""},
		{"card -o " + in("d/k.pdf"), "make it first, or choose another", mkdir("d"), "card -o " + in("d/k.pdf"), 0, ""},
		{"card -o " + in("d.pdf"), "this is a folder; give the name of a file in it", nil, "card -o " + in("k3.pdf"), 0, ""},
		{"card -o " + in(strings.Repeat("n", 300)+".pdf"), "choose another place", nil, "card -o " + in("k4.pdf"), 0, ""},
		{"card --paper a3 -o " + in("k5.pdf"), "choose a4 or letter", nil, "card --paper letter -o " + in("k5.pdf"), 0, ""},
		{"card --date 5.4.2031 -o " + in("k6.pdf"), "write a date as 2031-04-05, or none", nil, "card --date 2031-04-05 -o " + in("k6.pdf"), 0, ""},
		{"card --date 5.4.2031 -o " + in("k7.pdf"), "or none", nil, "card --date none -o " + in("k7.pdf"), 0, ""},
		{"card --radio a --device b -o " + in("k8.pdf"), "give one of the two", nil, "card --radio " + layoutFile("full", "radio") + " -o " + in("k8.pdf"), 0, ""},

		// Logbooks.
		{"logbook --since yesterday --folder " + folder, "write a day as 2031-04-05", nil, "logbook --since 2031-04-05 --folder " + folder, 0, ""},
		{"logbook --csv " + in("there.csv") + " --folder " + folder, "choose another name, or write --over", nil, "logbook --csv " + in("e.csv") + " --folder " + folder, 0, ""},
		{"logbook --csv " + in("there.csv") + " --folder " + folder, "write --over to put the new one in its place", nil, "logbook --over --csv " + in("there.csv") + " --folder " + folder, 0, ""},
		{"logbook report --date none -o " + in("r.pdf") + " --folder " + folder, "say whose by --pupil NAME", nil, "logbook report --pupil Ann -o " + in("r.pdf") + " --folder " + folder, 0, ""},
		{"logbook report --pupil Ann -o " + in("r.doc") + " --folder " + folder, "end it in .html, .pdf, .svg or .png", nil, "logbook report --pupil Ann -o " + in("r.html") + " --folder " + folder, 0, ""},
		{"logbook forget --folder " + folder, "say whose by --pupil NAME", nil, "logbook forget --yes --pupil Ann --folder " + folder, 0, ""},
	} {
		t.Run(c.wrong, func(t *testing.T) {
			code, _, errs := command(t, strings.Fields(c.wrong)...)
			assert.NotEqual(t, exit.CodeDone, code)
			require.Contains(t, errs, c.says)
			if c.do != nil {
				c.do(t)
			}
			code, _, errs = command(t, strings.Fields(c.right)...)
			assert.Equal(t, c.status, code, "%s\n%s", c.right, errs)
			assert.Contains(t, errs, c.then)
			assert.NotContains(t, errs, c.says)
		})
	}

	// What is asked while a command runs.
	for _, answer := range []string{"no", "yes"} { // in this order: there is nothing left to ask about after yes
		w, _, errs := testWorld(t)
		w.In, w.Asks = strings.NewReader(answer+"\n"), true
		code := execute(context.Background(), []string{"logbook", "forget", "--pupil", "=cmd()", "--folder", folder}, w)
		assert.Contains(t, errs.String(), "Type yes to delete it: ")
		assert.Equal(t, answer == "yes", code == exit.CodeDone)
	}
	w, _, errs := testWorld(t)
	require.Equal(t, exit.CodeBadInput, execute(context.Background(), []string{"logbook", "forget", "--pupil", "Zoë Łódź", "--folder", folder}, w))
	require.Contains(t, errs.String(), "write --yes to delete without being asked")
	w, _, _ = testWorld(t)
	assert.Equal(t, exit.CodeDone, execute(context.Background(), []string{"logbook", "forget", "--yes", "--pupil", "Zoë Łódź", "--folder", folder}, w))

}

// While a drill runs, which word is known is said, and each of them is.
func TestWordsThatADrillAsksForAreKnown(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	w, out, _ := testWorld(t)
	r, typed := io.Pipe()
	w.In = r
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	done := make(chan int, 1)
	go func() { done <- execute(ctx, []string{"drill", "run", "find-throttle"}, w) }()
	for _, word := range append([]string{"lift off"}, termlive.TypedWords()...) {
		_, err := io.WriteString(typed, strings.Replace(word, "N", "1", 1)+"\n")
		require.NoError(t, err)
	}
	require.Eventually(t, func() bool {
		return strings.Contains(out.String(), `“lift off” is not known; type one of: answer N, link off`)
	}, 2*time.Minute, 10*time.Millisecond)
	stop()
	<-done
	assert.Equal(t, 1, strings.Count(out.String(), "is not known"), out.String())
}

// The same of the window's flags, which are looked at before it opens.
func TestWhatTheWindowsFlagsAskForWorks(t *testing.T) {
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.WriteFile(in("desk.yaml"), []byte("propsoff: script 1\nstart: {bench: desk}\nend: 1s\n"), 0o600))
	for _, c := range []struct {
		says         string
		wrong, right windowFlags
		do           func() error
	}{
		{"write light, dark, black-on-white or white-on-black", windowFlags{theme: "grey"}, windowFlags{theme: "white-on-black"}, nil},
		{"write one of check, layout", windowFlags{theme: "light", open: "chek"}, windowFlags{theme: "light", open: "check"}, nil},
		{"write width and height in pixels, such as 1280x800", windowFlags{theme: "light", size: "1280"}, windowFlags{theme: "light", size: "1280x800"}, nil},
		{"write a time and a file, such as 2s=window.png", windowFlags{theme: "light", shots: []string{"2s"}}, windowFlags{theme: "light", shots: []string{"2s=" + in("window.png")}}, nil},
		{"end the name with .png", windowFlags{theme: "light", shots: []string{"2s=" + in("a.jpg")}}, windowFlags{theme: "light", shots: []string{"2s=" + in("a.png")}}, nil},
		{"this is a folder; give the name of a file in it", windowFlags{theme: "light", shots: []string{"2s=" + dir}}, windowFlags{theme: "light", shots: []string{"2s=" + in("a.png")}}, nil},
		{"make it first, or choose another", windowFlags{theme: "light", shots: []string{"2s=" + in("d/a.png")}}, windowFlags{theme: "light", shots: []string{"2s=" + in("d/a.png")}},
			func() error { return os.Mkdir(in("d"), 0o700) }},
		{"desk.yaml never takes the craft there, as far as it can be read: leave out --play, or play what carries it outside (such as hop)",
			windowFlags{theme: "light", open: "three", play: in("desk.yaml")}, windowFlags{theme: "light", open: "three", play: "hop"}, nil},
		{"demo.take never takes the craft there", windowFlags{theme: "light", open: "three", play: "testdata/takes/model-1/demo.take"},
			windowFlags{theme: "light", open: "three", play: "testdata/takes/model-1/hop.take"}, nil},
	} {
		w, _, _ := testWorld(t)
		_, err := c.wrong.options(w, &world.Named{})
		require.ErrorContains(t, err, c.says)
		if c.do != nil {
			require.NoError(t, c.do())
		}
		_, err = c.right.options(w, &world.Named{})
		assert.NoError(t, err, c.says)
	}
}

// Three crafts fly outside at once, also where what is played does not say where it flies; what says it is let alone.
func TestWhereThreeCraftsStandAtFirst(t *testing.T) {
	craft := sim.Default()
	outside := lossrun.Carried(&craft)
	on := []pulse.Reading{{Kind: pulse.Link, Value: 1}, {Kind: pulse.Power, Value: 1}}
	for name, c := range map[string]struct {
		flags  windowFlags
		begins []pulse.Reading
	}{
		"three":                   {windowFlags{open: "three"}, append(on, outside...)},
		"three, demo":             {windowFlags{open: "three", play: "demo"}, outside},
		"three, outside and demo": {windowFlags{open: "three", play: "demo", outside: true}, outside},
		"three, hop":              {windowFlags{open: "three", play: "hop"}, nil},
		"outside, demo":           {windowFlags{play: "demo", outside: true}, outside},
		"demo":                    {windowFlags{play: "demo"}, nil},
		"nothing":                 {windowFlags{}, on},
	} {
		w, _, _ := testWorld(t)
		c.flags.theme = "light"
		o, err := c.flags.options(w, &world.Named{})
		require.NoError(t, err, name)
		cfg := o.craft.Config()
		assert.Equal(t, c.begins, o.begins(&cfg), name)
	}
}
