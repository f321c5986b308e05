package serve_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rsc.io/qr"

	"propsoff.example/cmd/propsoff/internal/serve"
)

// Put together again, the halves of the lines are the modules that the library made, with a quiet zone of four all round (ISO/IEC 18004, from memory).
func TestTheCodeInTheTerminal(t *testing.T) {
	const address = "http://192.0.2.7:7767/"
	want, err := qr.Encode(address, qr.M)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(serve.Code(address), "\n"), "\n")
	side := want.Size + 8
	require.Len(t, lines, (side+1)/2)
	for n, line := range lines {
		require.Equal(t, side, utf8.RuneCountInString(line))
		for x, r := range []rune(line) {
			for half, lit := range []bool{strings.ContainsRune("▀█", r), strings.ContainsRune("▄█", r)} {
				y := 2*n + half
				if y == side {
					assert.False(t, lit, "below the code")
					continue
				}
				assert.Equal(t, !want.Black(x-4, y-4), lit, "%d, %d", x, y)
			}
		}
	}
	assert.Empty(t, serve.Code(strings.Repeat("x", 4000)), "too long for a code")
}
