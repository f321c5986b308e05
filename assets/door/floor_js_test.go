package door

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What TestFloor… of floor_test.go has pages do: FLOOR says which.

const floorFile = "/home/whole"

func floorContent(n int) []byte { return bytes.Repeat([]byte(fmt.Sprintf("%08d", n)), 5000) }

// TestPageWrites publishes one content after the other, and says which are written, until the page is killed.
func TestPageWrites(t *testing.T) {
	if os.Getenv("FLOOR") != "writes" {
		t.Skip("for TestKilledPages alone")
	}
	from, err := strconv.Atoi(os.Getenv("FROM"))
	require.NoError(t, err)
	for n := from; ; n++ {
		require.NoError(t, PublishBytes(floorFile, Out{Over: true}, floorContent(n)))
		fmt.Println("written", n)
	}
}

// TestPageReads says which content is there.
func TestPageReads(t *testing.T) {
	if os.Getenv("FLOOR") != "reads" {
		t.Skip("for TestKilledPages alone")
	}
	text, err := Read(floorFile, "", 1<<20)
	if errors.Is(err, os.ErrNotExist) {
		fmt.Println("there", -1)
		return
	}
	require.NoError(t, err)
	n, err := strconv.Atoi(string(text[:8]))
	require.NoError(t, err)
	require.Equal(t, string(floorContent(n)), string(text), "a mixture")
	fmt.Println("there", n)
	Sweep("/home")
	left, err := os.ReadDir("/home")
	require.NoError(t, err)
	for _, e := range left {
		assert.False(t, IsPart(e.Name()), e.Name())
	}
}

// TestPageFull writes until the browser gives no more room: that is told as a full disk, and what was there stays.
func TestPageFull(t *testing.T) {
	if os.Getenv("FLOOR") != "full" {
		t.Skip("for TestAFullBrowser alone")
	}
	require.NoError(t, PublishBytes(floorFile, Out{Over: true}, floorContent(7)))
	var err error
	for n := 0; n < 200 && err == nil; n++ {
		err = PublishBytes(fmt.Sprintf("/home/large%d", n), Out{}, bytes.Repeat([]byte{byte(n)}, 1<<20))
	}
	var e *Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, Full, e.Why, err)
	assert.ErrorIs(t, err, syscall.ENOSPC)
	text, err := Read(floorFile, "", 1<<20)
	require.NoError(t, err)
	assert.Equal(t, string(floorContent(7)), string(text))
	large, err := filepath.Glob("/home/large*")
	require.NoError(t, err)
	require.NotEmpty(t, large)
	for _, path := range large {
		require.NoError(t, os.Remove(path))
	}
	fmt.Println("full")
}
