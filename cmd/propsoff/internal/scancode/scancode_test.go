package scancode_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rsc.io/qr"

	"propsoff.example/cmd/propsoff/internal/scancode"
)

// Put together again, the halves of the lines are the modules that the library made, with a quiet zone of four all round (ISO/IEC 18004, from memory).
func TestTheCodeInTheTerminal(t *testing.T) {
	const address = "http://192.0.2.7:7767/"
	want, err := qr.Encode(address, qr.M)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(scancode.Terminal(address), "\n"), "\n")
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
	assert.Empty(t, scancode.Terminal(strings.Repeat("x", 4000)), "too long for a code")
}

// The path covers just the dark modules.
func TestThePathOfACode(t *testing.T) {
	for _, text := range []string{"http://192.0.2.7:7767/", strings.Repeat("A8b_", 620)} { // the second stands no damage to speak of
		d, side := scancode.Path(text)
		require.NotZero(t, side)
		dark := map[[2]int]bool{}
		for part := range strings.SplitSeq(strings.TrimSuffix(d, "z"), "z") {
			var x, y, w, back int
			_, err := fmt.Sscanf(part, "M%d %dh%dv1h-%d", &x, &y, &w, &back)
			require.NoError(t, err, part)
			require.Equal(t, w, back)
			for i := range w {
				dark[[2]int{x + i, y}] = true
			}
		}
		level := map[bool]qr.Level{true: qr.M, false: qr.L}[len(text) < 100]
		want, err := qr.Encode(text, level)
		require.NoError(t, err)
		require.Equal(t, want.Size+8, side)
		for y := range side {
			for x := range side {
				require.Equal(t, want.Black(x-4, y-4), dark[[2]int{x, y}], "%d, %d", x, y)
			}
		}
	}
	d, side := scancode.Path(strings.Repeat("x", 4000))
	assert.Empty(t, d)
	assert.Zero(t, side)
}
