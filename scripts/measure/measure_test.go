package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func read(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", file))
	require.NoError(t, err)
	return string(text)
}

// Every row of the table is one of rows.yaml, in its order, and the other way round; its sentence is the row's, whatever the figures; and the README says what its
// rows say.
func TestTheTableIsOfTheseRows(t *testing.T) {
	rows, err := load()
	require.NoError(t, err)
	text := read(t, table)
	head := "| what | figure | how | from |\n|---|---|---|---|\n"
	_, body, ok := strings.Cut(text, head)
	require.True(t, ok)
	body, _, _ = strings.Cut(body, "\n\n")
	lines := strings.Split(body, "\n")
	require.Len(t, lines, len(rows))
	for i, r := range rows {
		require.True(t, r.is(lines[i]), "row %d is %s: %s", i+1, r.Row, lines[i])
		rest := strings.TrimPrefix(lines[i], "| "+r.What+" | ")
		figure, from, ok := strings.Cut(rest, " | "+r.How+" | ")
		require.True(t, ok, "%s: %s", r.Row, lines[i])
		assert.Regexp(t, "^"+like(r.Says).String()+"$", figure, r.Row)
		assert.Regexp(t, `^(by hand|measured \d{4}-\d\d-\d\d) \|$`, from, r.Row)
		if r.Run == "" {
			assert.Equal(t, "by hand |", from, "%s: nothing measures it", r.Row)
		}
		if r.Readme == "" {
			continue
		}
		_, err := replace(read(t, readme), r.Readme, "")
		require.NoError(t, err, r.Row)
	}
}

// What the commands printed once is read as a person read it; of another command nothing is read.
func TestFiguresAreReadFromWhatWasPrinted(t *testing.T) {
	rows, err := load()
	require.NoError(t, err)
	for _, r := range rows {
		if len(r.Read) == 0 {
			continue
		}
		if !assert.NotEmpty(t, r.Sample, "%s: what its command prints is not shown", r.Row) {
			continue
		}
		says, _, err := r.tell(r.Sample)
		require.NoError(t, err, r.Row)
		assert.Equal(t, r.Gives, says, r.Row)
		_, _, err = r.tell("ok  \tmodule/sim\t0.1s\n")
		assert.Error(t, err, r.Row)
	}
}

func TestNumbersInSentences(t *testing.T) {
	for want, v := range map[string]float64{"40": 40.2, "25,000": 25312, "1,100": 1099, "0.041": 0.0412, "1.0": 0.999, "0": 0, "7,100,000": 7084736} {
		assert.Equal(t, want, rounded(v, 2))
	}
	f := figure{Find: `after (\S+)`, Digits: 2}
	for printed, want := range map[string]string{"after 2.303s": "2.3", "after 30ms": "0.030", "after 1m30s": "90", "after 12": "12"} {
		got, err := f.read(printed)
		require.NoError(t, err)
		assert.Equal(t, want, got, printed)
	}
	for take, want := range map[string]string{"": "2", "first": "3", "least": "1", "most": "10", "median": "3"} {
		f := figure{Find: `(\d+) m`, Take: take}
		got, err := f.read("3 m, 10 m, 1 m, 2 m")
		require.NoError(t, err)
		assert.Equal(t, want, got, take)
	}
}

// A row is written in its place, and nothing else is touched; what stands nowhere, or twice, is an error.
func TestARowIsWritten(t *testing.T) {
	r := &row{What: "a step", How: "`x`", Says: "{ns} ns"}
	text := "| what |\n| a step | 3 ns | `x` | by hand |\n| a step more | 4 ns | `x` | by hand |\n"
	got, err := r.into(text, "5 ns", "measured 2031-04-05")
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(text, "3 ns | `x` | by hand", "5 ns | `x` | measured 2031-04-05", 1), got)
	_, err = (&row{What: "b"}).into(text, "", "")
	assert.Error(t, err)
	got, err = replace("it takes 1,234 ns (so).", "takes {ns} ns (so)", "takes 2 ns (so)")
	require.NoError(t, err)
	assert.Equal(t, "it takes 2 ns (so).", got)
	for _, text := range []string{"", "takes 1 ns, takes 2 ns"} {
		_, err = replace(text, "takes {ns} ns", "")
		assert.Error(t, err)
	}
}

func TestRowsAreChosen(t *testing.T) {
	rows, err := load()
	require.NoError(t, err)
	some, err := choose(rows, nil)
	require.NoError(t, err)
	assert.Contains(t, all(some), "step")
	assert.NotContains(t, all(some), "mad-hands")
	some, err = choose(rows, []string{"mad-hands"})
	require.NoError(t, err)
	assert.Equal(t, []string{"mad-hands"}, all(some))
	for name, says := range map[string]string{"nothing": "there is no row", "delay": "comes from elsewhere"} {
		_, err = choose(rows, []string{name})
		assert.ErrorContains(t, err, says)
	}
}

func TestTimesWantAQuietMachine(t *testing.T) {
	for load, want := range map[string]bool{"0.20 5.00 5.00 1/200 4": false, "2.90 0.10 0.10 1/200 4": false, "3.10 0.10 0.10 5/200 4": true} {
		assert.Equal(t, want, busy(load, 2), load)
	}
}
