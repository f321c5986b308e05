package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// mendLine is a line of JSON of prove --mend, as a reader of it sees it.
type mendLine struct {
	Code, Verdict  string
	Number, Mends  int
	Relearn, Tried int
	Texts, Exclude []string
	Partial        bool
	Changed        bool
	Fewest         bool
	Changes        json.RawMessage
	Levers         []struct {
		Lever     string
		Positions []string
	}
	Situations uint64
}

// mendIt runs prove --mend as a person does, and gives its mends, what they came to, and what was taken over.
func mendIt(t *testing.T, args ...string) (code int, mends []mendLine, end, taken mendLine) {
	t.Helper()
	code, out, errs := command(t, append([]string{"prove", "--mend", "--json"}, args...)...)
	require.Empty(t, errs)
	for _, text := range strings.Split(strings.TrimSpace(out), "\n") {
		var head struct{ Code string }
		require.NoError(t, json.Unmarshal([]byte(text), &head), text)
		var l mendLine
		switch head.Code {
		case "mend", "mends", "taken":
			require.NoError(t, json.Unmarshal([]byte(text), &l), text)
		}
		switch head.Code {
		case "mend":
			mends = append(mends, l)
		case "mends":
			end = l
		case "taken":
			taken = l
		}
	}
	require.Equal(t, "mends", end.Code)
	return code, mends, end, taken
}

// What mends a layout by the craft alone is taken over into its file, where every comment stays; the layout then holds.
func TestMendsAreTakenOver(t *testing.T) {
	for _, c := range []struct{ craft, radio, says, lever string }{
		{"held-switch", "", "In the craft: when the radio goes silent the receiver falls silent (until now it repeats the last values); set the receiver so.", ""},
		{"arm-beyond", "", "In the craft: the arm span is from 1756 µs (until now from 2050 µs).", "high (2012 µs): disarms → arms"},
		{"gap-between", "", "In the craft: the mode spans are angle below 1244 µs, rate from 1244 µs (until now angle below 1250 µs, rate from 1750 µs).",
			"middle (1500 µs): rate, outside every span, wakes air mode → rate, wakes air mode"},
		{"second-beyond", "", "In the craft: the span of the second switch is from 1756 µs (until now from 2050 µs).", "high (2012 µs): second switch off → second switch on"},
		{"switch", "no-mode", "In the craft: no switch chooses the mode: always angle.", ""},
	} {
		t.Run(strings.TrimSpace(c.craft+" "+c.radio), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "mine.yaml")
			text, err := os.ReadFile(layoutFile(c.craft, "craft"))
			require.NoError(t, err)
			text = append(text, "# what stands at the end\n"...)
			require.NoError(t, os.WriteFile(path, text, 0o600))
			args := []string{path}
			if c.radio != "" {
				args = append(args, layoutFile(c.radio, "radio"))
			}
			code, mends, end, _ := mendIt(t, args...)
			assert.Equal(t, exit.CodeFailed, code, "as it is, it is broken")
			assert.Equal(t, "mended", end.Verdict)
			require.NotEmpty(t, mends)
			assert.Equal(t, "all-hold", mends[0].Verdict)
			assert.Greater(t, mends[0].Situations, uint64(1000))
			if c.says != "" {
				assert.Equal(t, []string{c.says}, mends[0].Texts)
			}
			if c.lever != "" {
				require.Len(t, mends[0].Levers, 1)
				assert.Contains(t, mends[0].Levers[0].Positions, c.lever)
			}
			code, _, _, taken := mendIt(t, append(args, "--take", "1")...)
			assert.Equal(t, exit.CodeDone, code, "as it now is, it holds")
			assert.True(t, taken.Changed)
			now, err := os.ReadFile(path)
			require.NoError(t, err)
			for l := range strings.Lines(string(text)) {
				if _, comment, ok := strings.Cut(l, "#"); ok {
					assert.Contains(t, string(now), comment)
				}
			}
			code, out, _ := command(t, append([]string{"prove"}, args...)...)
			assert.Equal(t, exit.CodeDone, code, out)
		})
	}
}

// What is to be set in the radio is printed; no craft file says it, and until it is set the layout is what it was.
func TestWhatIsSetInTheRadioIsPrinted(t *testing.T) {
	path := filepath.Join(t.TempDir(), "mine.yaml")
	text, err := os.ReadFile(layoutFile("switch", "craft"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, text, 0o600))
	code, mends, _, taken := mendIt(t, path, layoutFile("roll-no-pulse", "radio"), "--take", "1")
	assert.Equal(t, exit.CodeFailed, code)
	assert.Equal(t, []string{"In the radio: roll on channel 2 goes from 988 to 2170 µs (until now 988 to 2190 µs)."}, mends[0].Texts)
	assert.False(t, taken.Changed)
	assert.Equal(t, "some-broken", taken.Verdict)
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(text), string(now))

	code, out, _ := command(t, "prove", path, layoutFile("roll-no-pulse", "radio"), "--mend", "--take", "1")
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, out, "has nothing that a craft file says")
	assert.Contains(t, out, "Set in the radio what is said above")
}

func TestNothingToMendIsSaid(t *testing.T) {
	code, out, _ := command(t, "prove", "teasel", "--mend")
	assert.Equal(t, exit.CodeDone, code)
	assert.Contains(t, out, "There is nothing to mend.")
}

// Where nothing mends it, the rules are named that exclude each other: the one arm switch springs back, a gesture stands in the corner in
// which sticks arm, and only a craft that is in rate when it gets power, and arms in no such mode, is not armed by that gesture.
func TestWhatExcludesEachOtherIsPrinted(t *testing.T) {
	args := []string{layoutFile("switch", "craft"), layoutFile("arm-springs", "radio"), "--gestures", layoutFile("arm-corner", "gestures")}
	code, mends, end, _ := mendIt(t, args...)
	assert.Equal(t, exit.CodeFailed, code)
	assert.Empty(t, mends)
	assert.Equal(t, "not-mended", end.Verdict)
	assert.Equal(t, []string{"power-up-levels", "arm-control-stays", "gesture-never-arms"}, end.Exclude)
	assert.True(t, end.Fewest)
}

func TestWhatMendingRefuses(t *testing.T) {
	file := layoutFile("low-mark", "craft")
	for want, args := range map[string][]string{
		"--mend is about one layout, and these are two":                               {"prove", file, layoutFile("switch", "craft"), "--mend"},
		"--take needs --mend":                                                         {"prove", file, "--take", "1"},
		"a shipped craft stays as it is: copy it into a file of yours, and name that": {"prove", "teasel", "--mend", "--take", "1"},
		"--write belongs to prove without --mend":                                     {"prove", file, "--mend", "--write", t.TempDir()},
		"mends are numbered from 1":                                                   {"prove", file, "--mend", "--take", "0"},
		"standard input cannot be changed: name a file":                               {"prove", "-", "--mend", "--take", "1"},
		"no mend has the number 9: there is 1":                                        {"prove", file, "--mend", "--take", "9"},
	} {
		code, _, errs := command(t, args...)
		assert.Equal(t, exit.CodeBadInput, code, want)
		assert.Contains(t, errs, want)
	}
}
