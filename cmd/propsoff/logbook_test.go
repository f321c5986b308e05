package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/sim/drill"
)

// kept is a folder with the logbooks of three pupils, and the time of its first entry.
func keptLogbooks(t *testing.T) (folder string, at time.Time) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), "logbook")
	at = time.Date(2031, 4, 5, 12, 0, 0, 0, time.Local)
	cfg := &drill.Config{Cases: []drill.Case{{WaitLow: 1000, WaitHigh: 4000, Within: 1000}}}
	right := drill.Try{Verdict: drill.Right, Reaction: 620, Uncertain: 17}
	wrong := drill.Try{Verdict: drill.Wrong, Why: drill.NeverSeen, Reaction: -1}
	for _, pupil := range []string{"Ann", "Zoë Łódź", "=cmd()"} {
		b, err := (logbook.Store{Dir: folder}).Open(pupil, at)
		require.NoError(t, err)
		require.NoError(t, b.Append(
			logbook.Began(at, logbook.Practice{Program: "0.5", Craft: logbook.Craft{Name: "Teasel", Arming: "switch", StickMode: 2}}),
			logbook.OfRun(at.Add(time.Minute), &drill.Run{Drill: "alarm-by-switch", Learned: true, Tries: []drill.Try{right, wrong, right}}, cfg, "Disarm at the alarm"),
			logbook.Entry{At: at.Add(2 * time.Minute), Day: logbook.Day(at), Kind: logbook.KindRefusals, Counts: map[string]int64{"tilted": 1, "throttle-up": 3}},
			logbook.OfRun(at.AddDate(0, 0, 1), &drill.Run{Drill: "find-yaw", Tries: []drill.Try{wrong}}, cfg, "Find yaw"),
			logbook.Ended(at.AddDate(0, 0, 1).Add(time.Hour), time.Hour)))
		require.NoError(t, b.Close())
	}
	return folder, at
}

func TestLogbookListsPupils(t *testing.T) {
	folder, _ := keptLogbooks(t)
	code, out, errs := command(t, "logbook", "--folder", folder)
	assert.Zero(t, code, errs)
	assert.Equal(t, "=cmd()    1 practice, 2 runs of 2 drills, last on 6 April 2031\nAnn       1 practice, 2 runs of 2 drills, last on 6 April 2031\nZoë Łódź  1 practice, 2 runs of 2 drills, last on 6 April 2031\n", out)
	code, out, _ = command(t, "logbook", "--folder", folder, "--json")
	assert.Zero(t, code)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, 3)
	var l map[string]any
	require.NoError(t, json.Unmarshal([]byte(lines[2]), &l))
	delete(l, "begun")
	assert.Equal(t, map[string]any{"pupil": "Zoë Łódź", "practices": 1.0, "runs": 2.0, "drills": 2.0, "last": "2031-04-06",
		"file": filepath.Join(folder, "pupil-+zo%c3%ab_%c5%81%c3%b3d%c5%ba.jsonl")}, l)
	code, out, errs = command(t, "logbook", "--folder", folder+"x")
	assert.Zero(t, code)
	assert.Empty(t, out)
	assert.Contains(t, errs, "No logbook is kept in "+folder+"x yet")
	assert.Contains(t, errs, "propsoff drill run --pupil NAME")
	// A name that is no logbook's is told, with how one is made.
	other := filepath.Join(folder, "Ann.jsonl")
	require.NoError(t, os.WriteFile(other, []byte("{}\n"), 0o600))
	_, _, errs = command(t, "logbook", "--folder", folder)
	assert.Contains(t, errs, other+": no logbook's file is named so, and it was left out; that of Ann Ruß would be pupil-+ann_+ru%c3%9f.jsonl: ")
	for language, says := range map[string]string{"en": "that of Ann Ruß would be ", "de": "die von Ann Ruß hieße "} {
		made := logbook.Store{Dir: t.TempDir()}
		b, err := made.Open("Ann Ruß", time.Now())
		require.NoError(t, err)
		require.NoError(t, b.Append(logbook.Ended(time.Now(), time.Hour)))
		require.NoError(t, b.Close())
		_, _, errs = command(t, "logbook", "--folder", folder, "--language", language)
		assert.Contains(t, errs, says+filepath.Base(made.Files("Ann Ruß")[0])+": ")
	}
	require.NoError(t, os.Remove(other))
	// The folder of the system (XDG Base Directory 0.8).
	t.Setenv("XDG_DATA_HOME", filepath.Dir(folder))
	require.NoError(t, os.MkdirAll(filepath.Join(filepath.Dir(folder), "propsoff"), 0o700))
	require.NoError(t, os.Rename(folder, filepath.Join(filepath.Dir(folder), "propsoff", "logbook")))
	code, out, errs = command(t, "logbook")
	assert.Zero(t, code, errs)
	assert.Contains(t, out, "Ann       1 practice")
}

// Of one of whom nothing is noted that is said; "like that" only where something was asked for.
func TestNothingIsNotedYet(t *testing.T) {
	folder := t.TempDir()
	b, err := (logbook.Store{Dir: folder}).Open("ANNA", time.Now())
	require.NoError(t, err)
	require.NoError(t, b.Append(logbook.Began(time.Now(), logbook.Practice{Program: "0.5"})))
	require.NoError(t, b.Close())
	files := (logbook.Store{Dir: folder}).Files("ANNA")
	require.Len(t, files, 1)
	text, err := os.ReadFile(files[0])
	require.NoError(t, err)
	head, _, _ := strings.Cut(string(text), "\n")
	for _, c := range []struct {
		lines, says string
		args        []string
	}{
		{head + "\n", "Nothing is noted of ANNA yet.\n", []string{"--pupil", "ANNA"}},
		{head + "\n", "Nothing is noted yet.\n", []string{"--all"}},
		{head + "\n", "Von ANNA ist noch nichts notiert.\n", []string{"--pupil", "ANNA", "--language", "de"}},
		{head + "\n", "No entry is like that.\n", []string{"--pupil", "ANNA", "--drill", "find-yaw"}},
		{head + "\n[}\n", "\nNothing that can be read is noted of ANNA.\n", []string{"--pupil", "ANNA"}},
		{head + "\n[}\n", "\nVon ANNA ist nichts Lesbares notiert.\n", []string{"--pupil", "ANNA", "--language", "de"}},
	} {
		require.NoError(t, os.WriteFile(files[0], []byte(c.lines), 0o600))
		code, out, errs := command(t, append([]string{"logbook", "--folder", folder}, c.args...)...)
		assert.Equal(t, exit.CodeDone, code)
		assert.Empty(t, out)
		assert.True(t, strings.HasSuffix(errs, c.says), errs)
	}
}

func TestLogbookListsEntries(t *testing.T) {
	folder, _ := keptLogbooks(t)
	code, out, errs := command(t, "logbook", "--folder", folder, "--pupil", " Ann ")
	assert.Zero(t, code, errs)
	assert.Empty(t, errs)
	assert.Equal(t, `2031-04-05 12:00:00  practice began: Teasel, armed by switch, stick mode 2
2031-04-05 12:01:00  Disarm at the alarm (alarm-by-switch): learned. 2 of 3 right; median 0.62 s (±0.017 s).
2031-04-05 12:02:00  arming refused: the throttle was up (3), the craft was tilted (1)
2031-04-06 12:00:00  Find yaw (find-yaw): not learned yet. 0 of 1 right.
2031-04-06 13:00:00  practice ended after 1 h 0 min
`, out)
	count := func(want int, args ...string) string {
		t.Helper()
		code, out, errs := command(t, append([]string{"logbook", "--folder", folder}, args...)...)
		assert.Zero(t, code, errs)
		assert.Equal(t, want, strings.Count(out, "\n"), "%v\n%s", args, out)
		return out
	}
	assert.Contains(t, count(15, "--all"), "12:01:00  Zoë Łódź  Disarm")
	count(2, "--pupil", "Ann", "--since", "2031-04-06")
	count(3, "--pupil", "Ann", "--until", "2031-04-05")
	count(6, "--verdict", "wrong")
	count(3, "--verdict", "right")
	count(3, "--drill", "find-yaw")
	count(1, "--drill", "find-yaw", "--pupil", "Ann", "--verdict", "wrong", "--since", "2031-04-06", "--until", "2031-04-06")
	count(0, "--drill", "find-yew")
	for _, line := range strings.Split(strings.TrimSpace(count(5, "--pupil", "Zoë Łódź", "--json")), "\n") {
		var m map[string]any
		require.NoError(t, json.Unmarshal([]byte(line), &m))
		assert.Equal(t, "Zoë Łódź", m["pupil"])
		assert.Contains(t, m, "kind")
	}
}

// What a later version wrote is printed as it stands; damaged lines are told of and everything else is there.
func TestLogbookPrintsLaterKindsAndTellsOfDamage(t *testing.T) {
	folder, _ := keptLogbooks(t)
	path := filepath.Join(folder, "pupil-+ann.jsonl")
	f, err := os.OpenFile(path, os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString("{ \"kind\":\"of a later version\",\"x\":[1,\"\u009b2J\"]}\n{}\n{\"kind\":\"dri\n{\"kind\":\"torn")
	require.NoError(t, err)
	require.NoError(t, f.Close())
	code, out, errs := command(t, "logbook", "--folder", folder, "--pupil", "Ann", "--json")
	assert.Zero(t, code)
	assert.Contains(t, out, "{\"pupil\":\"Ann\",\"kind\":\"of a later version\",\"x\":[1,\"\\u009b2J\"]}\n")
	assert.Equal(t, 6, strings.Count(out, "\n"))
	assert.Equal(t, path+":8: 3 lines were left out, everything else is read: line 8: it does not say what kind it is; line 9: it is not whole, or it was changed by hand and is no longer JSON; "+
		"line 10: it is torn, as a kill or a full disk may leave it\n", errs)
}

func TestLogbookCSV(t *testing.T) {
	folder, _ := keptLogbooks(t)
	file := filepath.Join(t.TempDir(), "a.csv")
	code, out, errs := command(t, "logbook", "--folder", folder, "--csv", file)
	assert.Zero(t, code, errs)
	assert.Equal(t, "Saved: "+file+"\n", out)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+3*8)
	assert.Equal(t, "'=cmd()", rows[1][0])
	st, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), st.Mode().Perm())
	code, _, errs = command(t, "logbook", "--folder", folder, "--csv", file)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "this file is there already")
	code, _, _ = command(t, "logbook", "--folder", folder, "--pupil", "Ann", "--csv", file, "--over")
	assert.Zero(t, code)
	code, out, _ = command(t, "logbook", "--folder", folder, "--pupil", "Ann", "--verdict", "wrong", "--csv", "-")
	assert.Zero(t, code)
	rows, err = csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 3)
	assert.NotContains(t, out, "Saved")
	w, _, told := testWorld(t)
	w.Out = fullDisk{}
	assert.Equal(t, exit.CodeTrouble, execute(context.Background(), []string{"logbook", "--folder", folder, "--csv", "-"}, w))
	assert.Contains(t, told.String(), "the disk is full")
}

// fullDisk takes nothing.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// A logbook that cannot be read hides no other one; one of a name that was allowed once is listed as ever.
func TestOneLogbookHidesNoOther(t *testing.T) {
	folder, _ := keptLogbooks(t)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "pupil-%e3%85%a4.jsonl"), []byte("{\"propsoff\":\"logbook 1\",\"pupil\":\"\\u3164\",\"begun\":\"2031-04-05T08:20:11Z\"}\n"), 0o600))
	code, out, errs := command(t, "logbook", "--folder", folder)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "\u3164")
	assert.Contains(t, out, "Ann")
	if runtime.GOOS == "windows" || os.Geteuid() == 0 {
		t.Skip("who may do everything is refused nothing")
	}
	require.NoError(t, os.Chmod((logbook.Store{Dir: folder}).Files("Ann")[0], 0))
	code, out, errs = command(t, "logbook", "--folder", folder)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Contains(t, errs, "the logbook cannot be read")
	assert.Contains(t, out, "=cmd()")
}

// What could not be told is trouble, whichever command it was.
func TestAnOutputThatTakesNothing(t *testing.T) {
	_, take := hopFile(t, t.TempDir())
	folder, _ := keptLogbooks(t)
	for _, args := range [][]string{
		{"logbook", "report", "--folder", folder, "--pupil", "Ann", "-o", filepath.Join(t.TempDir(), "a.pdf")}, {"logbook", "--folder", folder}, {"repair", take}, {"drill", "list"}, {"version"},
		{"run", "hop"}, {"link-loss"}, {"gestures"}, {"card", "-o", filepath.Join(t.TempDir(), "a.pdf")}, {"help"},
	} {
		w, _, errs := testWorld(t)
		w.Out = fullDisk{}
		assert.Equal(t, exit.CodeTrouble, execute(context.Background(), args, w), args)
		assert.Contains(t, errs.String(), "no space left on device", args)
	}
}

func TestLogbookReport(t *testing.T) {
	folder, _ := keptLogbooks(t)
	dir := t.TempDir()
	for ending, begins := range map[string]string{".pdf": "%PDF-", ".svg": "<?xml", ".png": "\x89PNG", ".html": "<!DOCTYPE html>"} {
		file := filepath.Join(dir, "r"+ending)
		code, out, errs := command(t, "logbook", "report", "--folder", folder, "--pupil", "Ann", "-o", file, "--date", "2031-04-07", "--paper", "letter")
		assert.Zero(t, code, errs)
		assert.Equal(t, "Saved: "+file+"\n", out)
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(text, []byte(begins)), ending)
		switch ending {
		case ".html":
			assert.Contains(t, string(text), "7 April 2031")
			assert.Contains(t, string(text), "Stop at the alarm, by switch", "the course's name")
		case ".png":
			c, err := png.DecodeConfig(bytes.NewReader(text))
			require.NoError(t, err)
			assert.Equal(t, [2]int{2550, 3300}, [2]int{c.Width, c.Height})
		}
		code, _, errs = command(t, "logbook", "report", "--folder", folder, "--pupil", "Ann", "-o", file)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "is there already")
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 4, "nothing else is left behind")
	code, _, errs := command(t, "logbook", "report", "--folder", folder, "-o", filepath.Join(dir, "x.pdf"))
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "say whose by --pupil NAME; there are logbooks of =cmd(), Ann and Zoë Łódź")
}

// The question names the word of its language; that word counts, and the English one.
func TestLogbookForgetAsksInTheReadersLanguage(t *testing.T) {
	for in, gone := range map[string]bool{"ja\n": true, "yes\n": true, "nein\n": false} {
		folder, _ := keptLogbooks(t)
		w, _, errs := testWorld(t)
		w.In, w.Asks = strings.NewReader(in), true
		code := execute(context.Background(), []string{"logbook", "forget", "--language", "de", "--folder", folder, "--pupil", "Ann"}, w)
		assert.Contains(t, errs.String(), "Tippe ja, um es zu löschen: ")
		_, err := os.Stat(filepath.Join(folder, "pupil-+ann.jsonl"))
		assert.Equal(t, gone, code == 0 && os.IsNotExist(err), in)
	}
}

func TestLogbookForget(t *testing.T) {
	folder, _ := keptLogbooks(t)
	path := filepath.Join(folder, "pupil-+ann.jsonl")
	st, err := os.Stat(path)
	require.NoError(t, err)
	try := func(in io.Reader, args ...string) (int, string, string) {
		w, out, errs := testWorld(t)
		w.In, w.Asks = in, true
		code := execute(context.Background(), append([]string{"logbook", "forget", "--folder", folder}, args...), w)
		return code, out.String(), errs.String()
	}
	asks := "This deletes the logbook of Ann for ever: 5 entries in " + path + ".\nType yes to delete it: "
	for _, in := range []string{"no\n", "\n", "y\n", "yes please\n", "ja\n"} {
		code, out, errs := try(strings.NewReader(in), "--pupil", "Ann")
		assert.Equal(t, exit.CodeFailed, code)
		assert.Empty(t, out)
		assert.Equal(t, asks+"Nothing was deleted.\n", errs)
	}
	for _, in := range []io.Reader{nil, strings.NewReader("")} {
		code, _, errs := try(in, "--pupil", "Ann")
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "nobody answered, so nothing was deleted; write --yes")
	}
	// Ctrl-C while it asks.
	w, _, _ := testWorld(t)
	r, hold := io.Pipe()
	defer hold.Close()
	w.In, w.Asks = r, true
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	assert.Equal(t, exit.CodeTrouble, execute(ctx, []string{"logbook", "forget", "--folder", folder, "--pupil", "Ann"}, w))
	code, _, errs := try(nil, "--yes")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "say whose")
	require.FileExists(t, path)

	code, out, errs := try(strings.NewReader("yes\n"), "--pupil", "Ann")
	assert.Zero(t, code)
	assert.Equal(t, fmt.Sprintf("Deleted: %s (%d bytes)\n", path, st.Size()), out)
	assert.Equal(t, asks+words.English().Say(words.T("logbook.elsewhere"))+"\n", errs)
	assert.NoFileExists(t, path)
	code, out, _ = try(nil, "--pupil", "=cmd()", "--yes")
	assert.Zero(t, code)
	assert.Equal(t, 1, strings.Count(out, "Deleted: "))
	_, out, _ = command(t, "logbook", "--folder", folder)
	assert.Equal(t, "Zoë Łódź  1 practice, 2 runs of 2 drills, last on 6 April 2031\n", out)
	code, _, errs = try(nil, "--pupil", "Zoe Lodz", "--yes")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, `there is no logbook of “Zoe Lodz”`)
}

// The same bad name has the same exit status and the same sentence in each command that takes one.
func TestABadNameIsRefusedAlikeByEachCommand(t *testing.T) {
	w, _, _ := testWorld(t)
	var commands [][]string
	var look func(cmd *cobra.Command)
	look = func(cmd *cobra.Command) {
		if cmd.Flag("pupil") != nil {
			commands = append(commands, strings.Fields(cmd.CommandPath())[1:])
		}
		for _, c := range cmd.Commands() {
			look(c)
		}
	}
	look(newRoot(w))
	require.Len(t, commands, 7, "the window, card, drill run and foresee, and logbook with report and forget: %v", commands)
	for name, says := range map[string]string{
		"": "a name needs at least one letter, figure or sign", " \t": "a name needs at least one letter, figure or sign",
		"\u3164": "a name needs at least one letter, figure or sign", "\u2800": "a name needs at least one letter, figure or sign", "\u200d\ufe0f": "a name needs at least one letter, figure or sign",
		"A\x1b[2J": `the name "A\x1b[2J" holds a character that is not seen (U+001B); leave it out`, "A\u202eB": `the name "A\u202eB" holds a character that is not seen (U+202E); leave it out`,
		"\xff": "the name is not UTF-8 text; type it anew", strings.Repeat("ü", 41): "the name is 82 bytes long as UTF-8, and 80 are the most; choose a shorter one",
	} {
		for _, c := range commands {
			code, out, errs := command(t, append(append([]string{}, c...), "--pupil", name)...)
			assert.Equal(t, exit.CodeBadInput, code, "%v %q", c, name)
			assert.Empty(t, out, "%v %q", c, name)
			assert.Equal(t, "--pupil: "+says+"\n", errs, "%v %q", c, name)
		}
	}
}

// Where nobody can answer nothing is deleted, though a yes stands in the input; what is left is said where not everything could be.
func TestLogbookForgetAsksAPerson(t *testing.T) {
	folder, _ := keptLogbooks(t)
	path := filepath.Join(folder, "pupil-+ann.jsonl")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	copied := filepath.Join(folder, "old", "ann.bak")
	require.NoError(t, os.Mkdir(filepath.Dir(copied), 0o700))
	require.NoError(t, os.WriteFile(copied, append(text, "not JSON\n"...), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "note.txt"), []byte("Ann is good"), 0o600))
	try := func(asks bool, args ...string) (int, string, string) {
		w, out, errs := testWorld(t)
		w.In, w.Asks = strings.NewReader("yes\n"), asks
		code := execute(context.Background(), append([]string{"logbook", "forget", "--folder", folder, "--pupil", "aNN"}, args...), w)
		return code, out.String(), errs.String()
	}
	found := filepath.Join(folder, "note.txt") + ": left alone, as it is not clear whose it is: no line says that it is a logbook or names a pupil\n" +
		"This deletes what is kept of Ann for ever, 2 files:\n  " + path + ": 5 entries\n  " + copied + ": 5 entries and 1 damaged line, a copy\n"
	code, out, errs := try(false)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Empty(t, out)
	assert.Equal(t, found+"nobody answered, so nothing was deleted; write --yes to delete without being asked\n", errs)
	assert.FileExists(t, path)
	code, out, errs = try(true)
	assert.Equal(t, exit.CodeDone, code)
	assert.Equal(t, found+"Type yes to delete it: "+words.English().Say(words.T("logbook.elsewhere"))+"\n", errs)
	assert.Equal(t, 2, strings.Count(out, "Deleted: "))
	assert.NoFileExists(t, path)
	assert.NoFileExists(t, copied)
	code, _, errs = try(false, "--yes")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "note.txt: left alone")
	assert.Contains(t, errs, `there is no logbook of “aNN”`)
}

// Where nobody has a logbook no table is written that would look like one of a pupil who did nothing.
func TestNoLogbookIsNoTable(t *testing.T) {
	dir := t.TempDir()
	for _, file := range []string{filepath.Join(dir, "a.csv"), "-"} {
		code, out, errs := command(t, "logbook", "--folder", filepath.Join(dir, "none"), "--csv", file)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Empty(t, out)
		assert.Contains(t, errs, "No logbook is kept in ")
	}
	assert.NoFileExists(t, filepath.Join(dir, "a.csv"))
}

func TestLogbookBadInput(t *testing.T) {
	folder, _ := keptLogbooks(t)
	file := filepath.Join(t.TempDir(), "f")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"--pupil", "Anne"}, exit.CodeBadInput, `there is no logbook of “Anne” in ` + folder + `: did you mean “Ann”?`},
		{[]string{"--pupil", "../Ann"}, exit.CodeBadInput, `there is no logbook of “../Ann”`},
		{[]string{"--pupil", "A\x1b[2J"}, exit.CodeBadInput, "--pupil: the name \"A\\x1b[2J\" holds a character that is not seen (U+001B)"},
		{[]string{"--verdict", "rigth"}, exit.CodeBadInput, "there is no such verdict; did you mean right? They are right, wrong, too-late, false-start, anticipated and void"},
		{[]string{"--since", "yesterday"}, exit.CodeBadInput, "--since yesterday: write a day as 2031-04-05"},
		{[]string{"--until", "2031-02-30"}, exit.CodeBadInput, "--until 2031-02-30: write a day"},
		{[]string{"--csv", folder}, exit.CodeBadInput, "this is a folder"},
		{[]string{"--csv", filepath.Join(file, "a.csv")}, exit.CodeBadInput, "there is no such folder to write into"},
		{[]string{"repport"}, exit.CodeBadInput, `did you mean “report”?`},
		{[]string{"report", "--pupil", "Ann", "-o", "a.doc"}, exit.CodeBadInput, "end it in .html, .pdf, .svg or .png"},
		{[]string{"report", "--pupil", "Ann", "--paper", "a3"}, exit.CodeBadInput, "there is no such paper; choose a4 or letter"},
		{[]string{"report", "--pupil", "Ann", "--date", "now"}, exit.CodeBadInput, "--date now"},
		{[]string{"report", "Ann"}, exit.CodeBadInput, "takes no arguments"},
		{[]string{"rename", "--pupil", "Ann", "Bea"}, exit.CodeBadInput, "there is no flag --pupil"},
		{[]string{"forget", "Ann"}, exit.CodeBadInput, "did you mean --pupil \"Ann\"?"},
		{[]string{"--pupil", "Ann", "--folder", file}, exit.CodeTrouble, "a file stands where the folder should be"},
	} {
		code, out, errs := command(t, append([]string{"logbook", "--folder", folder}, c.args...)...)
		assert.Equal(t, c.code, code, "%v", c.args)
		assert.Empty(t, out, "%v", c.args)
		assert.Contains(t, errs, c.want, "%v", c.args)
		assert.NotContains(t, errs, "\x1b", "%v", c.args)
	}
}

// The logbook in testdata was written by the last program of model 1 and is never rewritten: refusals that are no more keep their words,
// and which hand drove was not noted then.
func TestALogbookOfModelOneIsToldForEver(t *testing.T) {
	code, out, errs := command(t, "logbook", "--folder", "testdata/logbooks", "--pupil", "Model 1")
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Empty(t, errs)
	assert.Contains(t, out, "a menu was open (11), the craft was plugged in by its set-up cable (10)")
	assert.Contains(t, out, "Why not: the craft (refused-by-craft): learned.")
	assert.Contains(t, out, "Find yaw (find-yaw): broken off.")
	code, out, errs = command(t, "logbook", "--folder", "testdata/logbooks", "--csv", "-")
	require.Equal(t, exit.CodeDone, code, errs)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	assert.Contains(t, rows[0], "hands")
	found := 0
	for _, row := range rows {
		for _, cell := range row {
			if cell == "on-cable" || cell == "menu-open" {
				found++
			}
		}
	}
	assert.Equal(t, 2, found)
}

// A run says by which hands it was flown, and what ended it.
func TestTheLogbookSaysWhichHandDrove(t *testing.T) {
	folder := t.TempDir()
	at := time.Date(2031, 4, 5, 12, 0, 0, 0, time.Local)
	b, err := (logbook.Store{Dir: folder}).Open("Ann", at)
	require.NoError(t, err)
	run := drill.Run{Drill: "find-yaw", BrokenOff: true, Tries: []drill.Try{{Verdict: drill.Right, Reaction: -1}}}
	for _, e := range []struct {
		hands  []string
		cameIn string
	}{{[]string{"radio"}, ""}, {[]string{"radio", "keyboard"}, "instructor"}, {[]string{"keyboard"}, "demo-pilot"}, {nil, "script"}, {nil, "fault"}, {nil, "the-moon"}} {
		one := logbook.OfRun(at, &run, nil, "Find yaw")
		one.Drill.Hands, one.Drill.CameIn = e.hands, e.cameIn
		require.NoError(t, b.Append(one))
	}
	require.NoError(t, b.Close())
	_, out, _ := command(t, "logbook", "--folder", folder, "--pupil", "Ann")
	for _, says := range []string{
		"(find-yaw), by radio: broken off. ", "(find-yaw), by radio and keyboard: broken off because the instructor's radio came in. ",
		"by keyboard: broken off because the demo pilot took the sticks. ", "(find-yaw): broken off because something was played. ",
		"because a fault was planted or lifted. ", "because the-moon came in. ",
	} {
		assert.Contains(t, out, says)
	}
	_, out, _ = command(t, "logbook", "--folder", folder, "--pupil", "Ann", "--json")
	assert.Contains(t, out, `"hands":["radio","keyboard"],"came_in":"instructor"`)
}

// Renamed and merged: asked where two become one, and refused in words where it cannot be.
func TestLogbooksAreRenamedAndMerged(t *testing.T) {
	folder := t.TempDir()
	s := logbook.Store{Dir: folder}
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	for _, name := range []string{"Mara", "Mara Lindqvist"} {
		b, err := s.Open(name, at)
		require.NoError(t, err)
		require.NoError(t, b.Append(logbook.Began(at, logbook.Practice{Program: name})))
		require.NoError(t, b.Close())
	}
	run := func(answers string, args ...string) (int, string) {
		w, out, errs := testWorld(t)
		w.In, w.Asks = strings.NewReader(answers), answers != ""
		code := execute(context.Background(), append(append([]string{"logbook"}, args...), "--folder", folder), w)
		return code, out.String() + errs.String()
	}
	for _, bad := range [][]string{{"rename", "Mara"}, {"merge", "a", "b", "c"}, {"merge", "Mara", "nobody"}, {"rename", "nobody", "x"}, {"rename", "Mara", "mara lindqvist"}, {"rename", "Mara", ""}, {"merge", "Mara", "Mara Lindqvist"}} {
		code, says := run("", bad...)
		assert.NotEqual(t, exit.CodeDone, code, "%q", bad)
		assert.NotEmpty(t, says)
	}
	for _, answers := range []string{"yes\n", ""} { // one and the same pupil is refused before anybody is asked
		code, says := run(answers, "merge", "Mara", "MARA")
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Equal(t, "MARA is one and the same pupil\n", says)
	}
	code, says := run("no\n", "merge", "Mara", "Mara Lindqvist")
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, says, "1 entry of Mara goes to Mara Lindqvist. After that")
	assert.Len(t, s.Files("Mara"), 1)
	code, says = run("", "rename", "Mara", "Zoé Weiß")
	require.Equal(t, exit.CodeDone, code, says)
	code, says = run("", "merge", "--yes", "zoé weiß", "mara lindqvist")
	require.Equal(t, exit.CodeDone, code, says)
	all, _, err := s.Pupils()
	require.NoError(t, err)
	assert.Equal(t, []string{"Mara Lindqvist"}, all)
}
