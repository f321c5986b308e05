package main

import (
	"archive/zip"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/exit"
)

// atHome gives the program folders of its own.
func atHome(t *testing.T) (home string) {
	t.Helper()
	home = t.TempDir()
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "AppData", "LocalAppData"} {
		t.Setenv(name, home)
	}
	return home
}

// What one machine packs another takes in, and a link carries a craft from one to the other.
func TestFromOneMachineToAnother(t *testing.T) {
	if runtime.GOOS == "darwin" {
		t.Skip("its folders cannot be put elsewhere")
	}
	atHome(t)
	dir := t.TempDir()
	_, craft, _ := assets.Craft(assets.BuiltIn)
	mine, all := filepath.Join(dir, "heron.yaml"), filepath.Join(dir, "all.zip")
	require.NoError(t, os.WriteFile(mine, append(craft, "# mine\n"...), 0o600))
	code, out, errs := command(t, "keep", mine)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "heron.yaml")
	code, out, errs = command(t, "pack", all)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Equal(t, "1 file was packed into "+all+": 1 craft.\n", out)
	code, _, errs = command(t, "pack", all)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "--over")
	code, out, errs = command(t, "give", mine)
	assert.Equal(t, exit.CodeDone, code, errs)
	link, _, _ := strings.Cut(out, "\n")
	assert.Contains(t, link, "http://localhost:7767/#")
	assert.NotContains(t, out, "█", "a phone that reads it would ask itself")
	assert.Contains(t, errs, "--page ADDRESS")
	code, out, errs = command(t, "give", mine, "--page", "http://192.0.2.7:7767/")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "█")
	assert.Empty(t, errs)

	for _, given := range []string{all, link} {
		home := atHome(t)
		code, _, errs = command(t, "keep", given)
		assert.Equal(t, exit.CodeDone, code, errs)
		got, err := os.ReadFile(filepath.Join(home, "propsoff", "crafts", "heron.yaml"))
		require.NoError(t, err)
		assert.Equal(t, string(craft)+"# mine\n", string(got))
	}
}

// What is packed is said by its kinds, in every language; of nothing no archive is made.
func TestWhatWasPackedIsSaid(t *testing.T) {
	if runtime.GOOS == "darwin" {
		t.Skip("its folders cannot be put elsewhere")
	}
	home := atHome(t)
	all := filepath.Join(t.TempDir(), "all.zip")
	code, out, errs := command(t, "pack", all)
	assert.Equal(t, exit.CodeTrouble, code)
	assert.Empty(t, out)
	assert.Contains(t, errs, "nothing is kept on this machine yet, so there is nothing to pack, and no archive was written")
	assert.NoFileExists(t, all)
	for _, name := range []string{"radios/a.yaml", "radios/b.yaml", "gestures.yaml", "logbook/kim.jsonl", "remembered.yaml", "sounds.yaml"} {
		name = filepath.Join(home, "propsoff", name)
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o700))
		require.NoError(t, os.WriteFile(name, []byte("x"), 0o600))
	}
	code, out, errs = command(t, "pack", all)
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Equal(t, "6 files were packed into "+all+": 2 radio files, your gestures, 1 logbook and 2 files of settings.\n", out)
	z, err := zip.OpenReader(all)
	require.NoError(t, err)
	defer z.Close()
	assert.Len(t, z.File, 6)
	for _, book := range wordstest.Other() {
		_, theirs, _ := command(t, "pack", all, "--over", "--language", book.Code())
		assert.Empty(t, wordstest.English(t, book, strings.ReplaceAll(theirs, all, "")), theirs)
	}
}

// One bad file hinders no other, and each command says what it wants, in every language.
func TestKeepAndGiveRefuse(t *testing.T) {
	atHome(t)
	dir := t.TempDir()
	_, craft, _ := assets.Craft(assets.BuiltIn)
	bad, good := filepath.Join(dir, "bad.yaml"), filepath.Join(dir, "good.yaml")
	require.NoError(t, os.WriteFile(bad, []byte("propsoff: drill 1\n"), 0o600))
	require.NoError(t, os.WriteFile(good, craft, 0o600))
	code, out, errs := command(t, "keep", bad, filepath.Join(dir, "missing"), good)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, out, "good.yaml")
	assert.Contains(t, errs, "bad.yaml: nothing of this kind is kept here")
	assert.Contains(t, errs, "missing")
	for _, book := range wordstest.Other() {
		for _, args := range [][]string{{"keep"}, {"pack"}, {"give"}, {"give", bad}, {"keep", "http://localhost:7767/#file1=x"}} {
			code, _, english := command(t, args...)
			assert.Equal(t, exit.CodeBadInput, code)
			_, _, theirs := command(t, append(args, "--language", book.Code())...)
			assert.NotEqual(t, english, theirs, args)
		}
	}
}

// A link may be too long for a code, and that is said; a machine that lets nothing be kept is told apart from a bad file.
func TestGiveWithoutACodeAndKeepWithoutAPlace(t *testing.T) {
	home := atHome(t)
	_, craft, _ := assets.Craft(assets.BuiltIn)
	var b strings.Builder
	for i := range 400 {
		fmt.Fprintf(&b, "# %x\n", sha256.Sum256([]byte{byte(i), byte(i >> 8)}))
	}
	long := filepath.Join(t.TempDir(), "heron.yaml")
	require.NoError(t, os.WriteFile(long, append(craft, b.String()[:7000]...), 0o600))
	code, out, errs := command(t, "give", long, "--page", "http://192.0.2.7:7767/")
	assert.Equal(t, exit.CodeDone, code, errs)
	assert.Equal(t, 1, strings.Count(out, "\n"), "the link alone")
	assert.Contains(t, errs, "too long for a code")

	if runtime.GOOS == "darwin" {
		t.Skip("its folders cannot be put elsewhere")
	}
	require.NoError(t, os.WriteFile(filepath.Join(home, "propsoff"), nil, 0o600)) // where its folder would be
	code, _, errs = command(t, "keep", long)
	assert.Equal(t, exit.CodeTrouble, code, errs)
}
