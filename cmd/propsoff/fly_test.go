package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
)

// flies runs "propsoff fly" and gives exit status, standard output and standard error.
func flies(args ...string) (int, string, string) {
	var out, bad bytes.Buffer
	w := world.Real()
	w.Out, w.Err = &out, &bad
	code := execute(context.Background(), append([]string{"fly"}, args...), w)
	return code, out.String(), bad.String()
}

func TestFlyWritesTheFlight(t *testing.T) {
	code, out, told := flies("hop")
	require.Equal(t, exit.CodeDone, code, told)
	assert.Contains(t, told, "touched-down")
	rows, err := csv.NewReader(bytes.NewReader([]byte(out))).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+1801, "a row every 10 ms of 18 s, and the names")
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	at := func(tenths int, name string) float64 {
		v, err := strconv.ParseFloat(rows[1+tenths*10][column[name]], 64)
		require.NoError(t, err, name)
		return v
	}
	assert.Equal(t, "armed", rows[0][1])
	assert.Equal(t, 0.0, at(20, "armed"))
	assert.Equal(t, 1.0, at(60, "armed"))
	assert.InDelta(t, 0.0244, at(20, "height_m"), 0.001, "it stands on its feet")
	assert.InDelta(t, 40*200.0/512, at(65, "bank_deg"), 1, "angle: 200 of 512 µs of a 40° limit")
	assert.InDelta(t, 0, at(78, "bank_deg"), 0.5, "let go: level")
	assert.Greater(t, at(94, "bank_deg"), 5.0, "rate: it keeps what it has")
	assert.InDelta(t, 260*(0.85*250.0/512+0.15*250*250*250/(512.0*512*512)), at(119, "yaw_rate_dps"), 2, "the stick curve")
	assert.Equal(t, 0.0, at(150, "front_left_pct"), "cut")
	assert.InDelta(t, 0.0244, at(175, "height_m"), 0.01, "down again")

	again, out2, _ := flies("hop")
	assert.Equal(t, exit.CodeDone, again)
	assert.Equal(t, out, out2, "the same flight, the same bytes")
}

func TestFlyDrawsTheFlight(t *testing.T) {
	dir := t.TempDir()
	plot, table := filepath.Join(dir, "hop.png"), filepath.Join(dir, "hop.csv")
	code, out, told := flies("hop", "--plot", plot, "--table", table, "--every", "20ms", "--size", "960x900")
	require.Equal(t, exit.CodeDone, code, told)
	assert.Contains(t, out, "took-off")
	f, err := os.Open(plot)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	assert.Equal(t, 960, img.Bounds().Dx())
	text, err := os.ReadFile(table)
	require.NoError(t, err)
	assert.Equal(t, 1+901, bytes.Count(text, []byte("\n")))
	code, _, _ = flies("hop", "--plot", filepath.Join(dir, "hop.svg"))
	assert.Equal(t, exit.CodeDone, code)
}

func TestFlyRefusesWhatItCannotDo(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{nil, "give the path of one pilot script"},
		{[]string{"hop", "--every", "1500us"}, "whole milliseconds"},
		{[]string{"hop", "--every", "0"}, "whole milliseconds"},
		{[]string{"hop", "--every", "10"}, "--every 10: write a time with its unit, such as 10ms"},
		{[]string{"hop", "--plot", "hop.gif"}, "end the name with one of"},
		{[]string{"hop", "--size", "10x10"}, "is the least"},
		{[]string{"nothing.yaml"}, "there is no such script"},
		{[]string{"hop", "--table", "/nowhere/at/all.csv"}, "/nowhere/at/all.csv: there is no such folder to write into"},
		{[]string{"hop", "--table", os.TempDir()}, "this is a folder"},
	} {
		code, _, told := flies(c.args...)
		assert.Equal(t, exit.CodeBadInput, code, c.args)
		assert.Contains(t, told, c.says, c.args)
	}
}

// An expectation that fails gives status 1, and the flight is written all the same.
func TestFlyHoldsExpectations(t *testing.T) {
	file := filepath.Join(t.TempDir(), "wrong.yaml")
	require.NoError(t, os.WriteFile(file, []byte("steps:\n  - {at: 2s, expect: armed}\n"), 0o600))
	code, out, told := flies(file)
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, told, "expected armed")
	assert.Contains(t, out, "t_s,armed")
}

// A place that the machine does not let be written is found before anything is flown, and nothing is left behind.
func TestPlacesAreLookedAtFirst(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("needs a folder in which nobody may make files")
	}
	dir := t.TempDir()
	for _, args := range [][]string{
		{"fly", "hop", "--table", "/proc/hop.csv", "--plot", filepath.Join(dir, "hop.png")},
		{"fly", "hop", "--plot", "/proc/hop.png", "--record", filepath.Join(dir, "hop.take")},
		{"fly", "hop", "--record", "/proc/hop.take"},
		{"watch", "--record", "/proc/hop.take"},
		{"--picture", "2s=/proc/hop.png"},
	} {
		code, out, errs := command(t, args...)
		assert.Equal(t, exit.CodeTrouble, code, args)
		assert.Regexp(t, `/proc/hop\.[a-z]+: cannot be written: no file can be made in this folder; choose another place\n$`, errs, args)
		assert.Empty(t, out, args)
		assert.NotContains(t, errs, "transmitter", args)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestWordsThatTheLibrarysCommandsDoNotKnow(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"completion", "foo"}, `“propsoff completion” does not know “foo”; it knows bash, fish, powershell, zsh`},
		{[]string{"completion", "bsh"}, `did you mean “bash”?`},
		{[]string{"help", "foo"}, `there is no command and no topic “foo”; commands: `},
		{[]string{"help", "cautoins"}, `did you mean “cautions”?`},
		{[]string{"help", "wach"}, `did you mean “watch”?`},
		{[]string{"help", "fly", "hop"}, `“propsoff fly” has no commands under it`},
		{[]string{"--picture", "2s=" + filepath.Join(t.TempDir(), "x.jpg")}, "x.jpg: pictures are written as PNG"},
	} {
		code, out, errs := command(t, c.args...)
		assert.Equal(t, exit.CodeBadInput, code, c.args)
		assert.Empty(t, out, c.args)
		assert.Contains(t, errs, c.says, c.args)
	}
	for _, args := range [][]string{{"help"}, {"help", "fly"}, {"help", "completion", "zsh"}, {"completion"}, {"completion", "zsh"}} {
		code, out, errs := command(t, args...)
		assert.Equal(t, exit.CodeDone, code, "%s: %s", args, errs)
		assert.Contains(t, out, "propsoff", args)
	}
}
