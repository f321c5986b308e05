package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// profileOf writes a file into a folder and goes there; the profile's lines are about it.
func profileOf(t *testing.T, source, lines string) profile {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("a.go", []byte(source), 0o600))
	require.NoError(t, os.Mkdir("scripts", 0o700))
	require.NoError(t, os.WriteFile("scripts/raced", []byte("# packages\n.\n"), 0o600))
	path := filepath.Join(t.TempDir(), "profile")
	require.NoError(t, os.WriteFile(path, []byte("mode: atomic\n"+lines), 0o600))
	p, err := read(path)
	require.NoError(t, err)
	return p
}

func TestStepsThatAreNotWalked(t *testing.T) {
	source := "package a\n\nfunc Step() {\n\tx()\n}\n\nfunc Has() {\n\tx()\n}\n"
	const step, has = "propsoff.example/a.go:3.13,5.2 200 %\n", "propsoff.example/a.go:7.12,9.2 50 0\n"
	for lines, bad := range map[string]int{
		strings.Replace(step, "%", "1", 1) + has:                                    0, // Has is no step
		strings.Replace(step, "%", "0", 1) + has:                                    1,
		strings.Replace(step, "%", "0", 1) + strings.Replace(step, "%", "2", 1):     0, // said twice, walked once
		strings.Replace(step, "%", "9", 1) + "propsoff.example/a.go:4.1,4.5 10 0\n": 0, // 200 of 210
		strings.Replace(step, "%", "9", 1) + "propsoff.example/a.go:4.1,4.5 11 0\n": 1, // 200 of 211: less than 95 %
		"propsoff.example/a.go:3.13,5.2 20 1\n":                                     1, // hardly anything
	} {
		_, found := steps(profileOf(t, source, lines))
		assert.Len(t, found, bad, lines)
	}
}

func TestPlacesThatAreNotWalked(t *testing.T) {
	source := "package a\n\nfunc f() {\n\tgo g()\n\tselect {\n\tcase <-c:\n\t\tm.Lock()\n\tcase c <- 1:\n\t\t<-d\n\t}\n}\n"
	const begin, first, second = "propsoff.example/a.go:3.10,5.9 2 1\n", "propsoff.example/a.go:6.11,7.11 1 1\n", "propsoff.example/a.go:8.14,9.6 1 %\n"
	sum, found := locks(profileOf(t, source, begin+first+strings.Replace(second, "%", "1", 1)))
	assert.Equal(t, "4 places at which goroutines meet", sum)
	assert.Len(t, found, 1, "it holds too few packages")
	_, found = locks(profileOf(t, source, begin+first+strings.Replace(second, "%", "0", 1)))
	require.Len(t, found, 2)
	assert.Contains(t, found[0], "a.go:9: no test with the race detector comes here")
}

// Where a package is not counted, goroutines may not meet there.
func TestPlacesThatAreNotCounted(t *testing.T) {
	p := profileOf(t, "package a\n", "propsoff.example/a.go:1.1,1.9 1 1\n")
	require.NoError(t, os.Mkdir("b", 0o700))
	require.NoError(t, os.WriteFile("scripts/raced", []byte("# packages\n.\nb !^TestX\n"), 0o600))
	for source, bad := range map[string]int{
		"package b\n\nfunc f() {}\n":                                           0,
		"package b\n\nfunc f() {\n\tgo g()\n}\n":                               1,
		"//go:build !linux && linux\n\npackage b\n\nfunc f() {\n\tgo g()\n}\n": 0, // no machine has it, and no lane can walk it
	} {
		require.NoError(t, os.WriteFile("b/b.go", []byte(source), 0o600))
		found, err := uncounted(p)
		require.NoError(t, err)
		assert.Len(t, found, bad, source)
	}
}

// What is excused is there.
func TestExcusedFunctions(t *testing.T) {
	for name := range unpicked {
		file, function, _ := strings.Cut(name, " ")
		source, err := os.ReadFile(filepath.Join("..", "..", file))
		require.NoError(t, err, name)
		assert.Regexp(t, `(?m)^func (\([^)]*\) )?`+function+`\(`, string(source), name)
	}
}

func TestNoProfile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "profile")
	for _, text := range []string{"mode: set\n", "propsoff.example/a.go: 1 2\n", "nothing\n"} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		_, err := read(path)
		assert.Error(t, err, text)
	}
}
