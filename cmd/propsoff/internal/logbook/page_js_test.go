package logbook

import (
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPageAppends is one of the pages of TestTwoPagesAppendToOneLogbook: it appends so many entries from FROM on, and with ALL it reads them all.
func TestPageAppends(t *testing.T) {
	if os.Getenv("FROM") == "" {
		t.Skip("for TestTwoPagesAppendToOneLogbook alone")
	}
	number := func(name string) int {
		n, err := strconv.Atoi(os.Getenv(name))
		require.NoError(t, err)
		return n
	}
	dir, err := Folder()
	require.NoError(t, err)
	s := Store{dir}
	b, err := s.Open("Ann", begun)
	require.NoError(t, err)
	for i := range number("MANY") {
		require.NoError(t, b.Append(some(number("FROM")+i)))
	}
	require.NoError(t, b.Close())
	if os.Getenv("ALL") == "" {
		return
	}
	c, err := s.all("Ann")
	require.NoError(t, err)
	assert.Empty(t, c.Notices)
	assert.ElementsMatch(t, wants(0, number("ALL")), bare(c.Entries))
}
