package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff/assets"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/drillrun"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/ui/screen"
	"propsoff/sim/arming"
	"propsoff/sim/drill"
	"propsoff/sim/drill/drillfile"
	"propsoff/sim/happening"
)

func TestDrillList(t *testing.T) {
	code, out, errs := command(t, "drill", "list")
	require.Equal(t, exit.CodeDone, code, errs)
	at := 0
	for _, d := range []string{"find-throttle", "throttle-down-first", "arm-by-switch", "alarm-by-switch", "menu-errand", "first-flight-order"} {
		next := strings.Index(out, d)
		assert.Greater(t, next, at, "%s stands in its place", d)
		at = next
	}
	for _, d := range assets.Drills() {
		assert.Contains(t, out, " "+d+" ")
	}
}

func TestDrillCheck(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	_, shipped, _ := assets.Drill("arm-by-switch")
	own := write("own-drill.yaml", strings.Replace(string(shipped), "code: arm-by-switch", "code: own-drill", 1))
	bad := write("bad-drill.yaml", strings.Replace(string(shipped), "tries: 15", "tries: 4", 1))
	const head = "propsoff: course 1\ncode: mine\nname: My own\nabout: For me.\ndrills: "

	t.Run("a drill", func(t *testing.T) {
		code, out, errs := command(t, "drill", "check", own)
		require.Equal(t, exit.CodeDone, code, errs)
		assert.Equal(t, own+": right. \"Arm and disarm by switch\", 1 case.\n", out)
	})
	t.Run("a drill with a mistake, and the right one is still said", func(t *testing.T) {
		code, out, errs := command(t, "drill", "check", bad, own)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Equal(t, bad+":5:28: 5 right in a row cannot come in 4 tries: raise `tries`, or lower this\n", errs)
		assert.Contains(t, out, own+": right")
	})
	t.Run("a course of own and shipped drills", func(t *testing.T) {
		code, out, errs := command(t, "drill", "check", write("course.yaml", head+"[own-drill, find-yaw]\n"))
		require.Equal(t, exit.CodeDone, code, errs)
		assert.Contains(t, out, "\"My own\", a course of 2 drills")
	})
	t.Run("a course with all that is wrong", func(t *testing.T) {
		path := write("course.yaml", head+"[own-drill, bad-drill, nowhere]\n")
		code, _, errs := command(t, "drill", "check", path)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, bad+":5:28: 5 right in a row cannot come in 4 tries")
		assert.Contains(t, errs, path+":5:32: there is no drill `nowhere`: put it beside the course as nowhere.yaml")
	})
	t.Run("a drill that calls itself otherwise", func(t *testing.T) {
		write("other.yaml", string(shipped))
		path := write("course.yaml", head+"[other]\n")
		code, _, errs := command(t, "drill", "check", path)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Equal(t, path+":5:10: the drill in "+filepath.Join(dir, "other.yaml")+" calls itself `arm-by-switch`: write `code: other` there, or name the file arm-by-switch.yaml\n", errs)
	})
	t.Run("a course twice the same", func(t *testing.T) {
		path := write("course.yaml", head+"[find-yaw, find-yaw]\n")
		code, _, errs := command(t, "drill", "check", path)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Equal(t, path+":5:20: `find-yaw` stands in line 5 already: name each drill once\n", errs)
	})
	t.Run("no file", func(t *testing.T) {
		code, _, errs := command(t, "drill", "check", filepath.Join(dir, "nothing.yaml"))
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "there is no such drill or course file")
	})
}

// A drill file has the words of the record, though it does not read them where sentences stand.
func TestDrillFilesHaveTheWordsOfTheRecord(t *testing.T) {
	assert.Equal(t, codes.Refusals(), drillfile.Refusals())
	assert.Len(t, drillfile.Refusals(), len(arming.Shown()))
	for c, word := range drillfile.Causes()[1:] {
		assert.Equal(t, codes.Cause(happening.Cause(c+1)), word)
	}
	assert.Len(t, drillfile.Causes(), int(happening.CauseCount))
	words := drillfile.Happenings()
	assert.Greater(t, len(words), 8)
	for code, word := range words {
		assert.Equal(t, codes.Code(code), word)
	}
}

func TestDrillListAsJSON(t *testing.T) {
	code, out, errs := command(t, "drill", "list", "--json")
	require.Equal(t, exit.CodeDone, code, errs)
	dec := json.NewDecoder(strings.NewReader(out))
	var listed []string
	for dec.More() {
		var l drillLine
		require.NoError(t, dec.Decode(&l))
		listed = append(listed, l.Drill)
		assert.Equal(t, len(listed), l.Number)
		assert.NotEmpty(t, l.Name)
		assert.Positive(t, l.Cases)
	}
	assert.ElementsMatch(t, assets.Drills(), listed)
}

func TestDrillRunWantsNumbers(t *testing.T) {
	for arg, says := range map[string]string{
		"--tries=0": "--tries 0 runs nothing: write 1 or more, or leave it out", "--tries=-3": "--tries -3: write a whole number, 0 to 65535",
		"--seed=x": "--seed x: write a whole number, not below 0",
	} {
		code, _, errs := command(t, "drill", "run", arg)
		assert.Equal(t, exit.CodeBadInput, code, arg)
		assert.Equal(t, says+"\n", errs, arg)
	}
}

// entriesOf are the entries of a logbook without damage.
func entriesOf(t *testing.T, s logbook.Store, pupil string) (all []logbook.Entry) {
	t.Helper()
	c, err := s.Read(pupil, func(_ *logbook.Contents, e *logbook.Entry) error {
		all = append(all, *e)
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, c.Notices)
	return all
}

// A run says on which radio and in which stick mode it was flown, where that is news.
func TestTheLogbookHasWhatThePupilHeld(t *testing.T) {
	c, err := bareWorld().LoadCraft("", "")
	require.NoError(t, err)
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	p := &pupils{store: logbook.Store{Dir: t.TempDir()}, craft: craftEntry(c.File, "examples"), now: func() time.Time { return at }}
	require.NoError(t, p.Open("Ann"))
	_, shipped, err := drillfile.Shipped("beginner", drillfile.Known{})
	require.NoError(t, err)
	d := shipped[0]
	run := drillrun.Result{Run: drill.Run{Drill: d.Config.Code, Day: logbook.Day(at), Tries: []drill.Try{{Verdict: drill.Right, Reaction: -1}}}, Radio: true}
	changed, err := c.SetLossAction(true)
	require.NoError(t, err)
	first, second := screen.Held{Radio: "Curlew Field 2", StickMode: 2, Craft: c.File, Gestures: "examples"}, screen.Held{Radio: "keyboard", StickMode: 1, Craft: c.File, Gestures: "examples"}
	third := second // the layout sheet has changed the craft meanwhile
	third.Craft, third.Gestures = changed, "my.yaml"
	for _, held := range []screen.Held{first, first, second, third} {
		require.NoError(t, p.Keep(&run, d, held))
	}
	require.NoError(t, p.Keep(&drillrun.Result{Run: drill.Run{Drill: d.Config.Code, BrokenOff: true}}, d, first), "left at once: no run")
	left := drillrun.Result{Run: run.Run, Radio: true, Keyboard: true, Other: drillrun.Instructor}
	left.BrokenOff = true
	require.NoError(t, p.Keep(&left, d, third))
	require.NoError(t, p.Close())
	all := entriesOf(t, p.store, "Ann")
	var kinds []logbook.Kind
	var held []string
	var last logbook.Entry
	for _, e := range all {
		kinds = append(kinds, e.Kind)
		switch e.Kind {
		case logbook.KindChanged:
			h := e.Practice.Craft
			held = append(held, fmt.Sprint(e.Practice.Radio, ", mode ", h.StickMode, ", ", h.Gestures, ", ", h.Digest))
			assert.Equal(t, c.Name, h.Name)
		case logbook.KindDrill:
			last = e
		}
	}
	const began, changes, ran, ended = logbook.KindBegan, logbook.KindChanged, logbook.KindDrill, logbook.KindEnded
	assert.Equal(t, []logbook.Kind{began, changes, ran, ran, changes, ran, changes, ran, ran, ended}, kinds)
	was, now := craftEntry(c.File, "").Digest, craftEntry(changed, "").Digest
	require.NotEqual(t, was, now)
	assert.Equal(t, []string{"Curlew Field 2, mode 2, examples, " + was, "keyboard, mode 1, examples, " + was, "keyboard, mode 1, my.yaml, " + now}, held)
	assert.Equal(t, []string{"radio", "keyboard"}, last.Drill.Hands)
	assert.Equal(t, "instructor", last.Drill.CameIn)
	assert.True(t, last.Drill.BrokenOff)
	assert.Equal(t, []string{"radio"}, all[2].Drill.Hands)
	assert.Empty(t, all[2].Drill.CameIn)
}

// A practice that is left at once leaves no line; one in which something was noted does, and so does one that has lasted.
func TestAPracticeThatIsLeftAtOnceIsNone(t *testing.T) {
	c, err := bareWorld().LoadCraft("", "")
	require.NoError(t, err)
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	p := &pupils{store: logbook.Store{Dir: t.TempDir()}, craft: craftEntry(c.File, ""), now: func() time.Time { return at }}
	kinds := func() (out []logbook.Kind) {
		for _, e := range entriesOf(t, p.store, "Ann") {
			out = append(out, e.Kind)
		}
		return out
	}
	require.NoError(t, p.Open("Ann"))
	at = at.Add(59 * time.Second)
	require.NoError(t, p.Close())
	assert.Empty(t, kinds())
	require.NoError(t, p.Open("Ann"))
	p.Refused(1)
	require.NoError(t, p.Close())
	assert.Equal(t, []logbook.Kind{logbook.KindBegan, logbook.KindRefusals, logbook.KindEnded}, kinds())
	require.NoError(t, p.Open("Ann"))
	began := at
	at = at.Add(time.Minute)
	require.NoError(t, p.Open("Ben"), "another takes his place")
	assert.Equal(t, []logbook.Kind{logbook.KindBegan, logbook.KindRefusals, logbook.KindEnded, logbook.KindBegan, logbook.KindEnded}, kinds())
	all := entriesOf(t, p.store, "Ann")
	assert.Equal(t, began, all[3].At)
	assert.Equal(t, time.Minute, all[4].Lasted)
}

// What a pupil did before is there again, in order of time, but no drill that is not in the course.
func TestThePupilsRunsComeBack(t *testing.T) {
	s := logbook.Store{Dir: t.TempDir()}
	at := time.Date(2031, 4, 5, 8, 0, 0, 0, time.UTC)
	b, err := s.Open("Ann", at)
	require.NoError(t, err)
	for i, code := range []string{"find-yaw", "a-strangers", "find-throttle"} {
		require.NoError(t, b.Append(logbook.OfRun(at.Add(-time.Duration(i)*time.Hour), &drill.Run{Drill: code}, nil, "")))
	}
	p := &pupils{store: s, course: []string{"find-throttle", "find-yaw"}, now: func() time.Time { return at }}
	require.NoError(t, p.Open("aNN"))
	require.Len(t, p.Runs(), 2)
	assert.Equal(t, "find-throttle", p.Runs()[0].Drill)
	assert.Equal(t, "Ann", p.Pupil())
	assert.ErrorContains(t, p.Open("\u3164"), "at least one letter")
	assert.Equal(t, "Ann", p.Pupil(), "who practises goes on")
}
