package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/sim/drill/drillfile"
	"propsoff.example/sim/happening"
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
		assert.Equal(t, own+": right. “Arm and disarm by switch”, 1 case.\n", out)
	})
	t.Run("a drill with a mistake, and the right one is still said", func(t *testing.T) {
		code, out, errs := command(t, "drill", "check", bad, own)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Equal(t, bad+":6:28: 5 right in a row cannot come in 4 tries: raise `tries`, or lower this\n", errs)
		assert.Contains(t, out, own+": right")
	})
	t.Run("a course with mistakes of its own, and its drills all the same", func(t *testing.T) {
		course := write("faulty.yaml", "propsoff: course 1\nname: My own\ndrills: [own-drill, no-such, bad-drill, ../own-drill, own-drill]\n")
		code, out, errs := command(t, "drill", "check", course)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Empty(t, out)
		for _, once := range []string{"no field `code`", "no field `about`", "`no-such`", bad + ":6:28", "`../own-drill`", "stands in line 3 already"} {
			assert.Equal(t, 1, strings.Count(errs, once), "%s in\n%s", once, errs)
		}
	})
	t.Run("its help says that it checks, and what is practised", func(t *testing.T) {
		for language, says := range map[string]string{"en": "What “drill run” and the window practise is the shipped course", "de": "Geübt wird mit „drill run“ und im Fenster der mitgelieferte Kurs"} {
			_, out, _ := command(t, "drill", "check", "--help", "--language", language)
			assert.Contains(t, strings.Join(strings.Fields(out), " "), says)
		}
		_, out, _ := command(t, "drill", "list")
		assert.NotContains(t, out, "own-drill")
		code, _, errs := command(t, "drill", "run", own)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "own-drill")
	})
	t.Run("a course of own and shipped drills", func(t *testing.T) {
		code, out, errs := command(t, "drill", "check", write("course.yaml", head+"[own-drill, find-yaw]\n"))
		require.Equal(t, exit.CodeDone, code, errs)
		assert.Contains(t, out, "“My own”, a course of 2 drills")
	})
	t.Run("a course with all that is wrong", func(t *testing.T) {
		path := write("course.yaml", head+"[own-drill, bad-drill, nowhere]\n")
		code, _, errs := command(t, "drill", "check", path)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, bad+":6:28: 5 right in a row cannot come in 4 tries")
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
		var l struct {
			Number, Cases int
			Drill, Name   string
			Flown         bool
		}
		require.NoError(t, dec.Decode(&l))
		listed = append(listed, l.Drill)
		assert.Equal(t, len(listed), l.Number)
		assert.NotEmpty(t, l.Name)
		assert.Positive(t, l.Cases)
		if want, asked := map[string]bool{"hold-height": true, "land-softly": true, "find-throttle": false, "follow-yaw": false}[l.Drill]; asked {
			assert.Equal(t, want, l.Flown, l.Drill)
		}
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

// A terminal shows no craft: a flown drill is refused at once, radio or not, with where it can be done; the list marks it.
func TestAFlownDrillIsRefusedInTheTerminal(t *testing.T) {
	code, _, errs := command(t, "drill", "run", "find-throttle", "hold-height")
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "“hold-height” is flown, and a terminal shows no craft: do it in the window")
	_, out, _ := command(t, "drill", "list")
	assert.Regexp(t, `hold-height +Hold a height \(flown: in the window only\)\n`, out)
	assert.Regexp(t, `find-throttle +[^(]+\n`, out)
	_, out, _ = command(t, "drill", "run", "--help")
	assert.Contains(t, out, "in the window only")
}
