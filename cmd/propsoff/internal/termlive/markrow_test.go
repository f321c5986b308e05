package termlive

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/sim/mark"
)

// The row has the mark in its middle and the craft on the side where it is off it; far off it stands at the edge.
func TestTheRowOfAMark(t *testing.T) {
	m := &mark.Config{Tenths: 300}
	for off, at := range map[int]int{0: 30, 261: 15, -261: 45, 5000: 0, -5000: 60} { // 261 mrad are half of 30°
		row := words.English().Say(markRow(off, m))
		assert.Len(t, row, 61)
		assert.Equal(t, at, strings.IndexByte(row, 'o'), "%d mrad", off)
		if at != 30 {
			assert.Equal(t, byte('|'), row[30])
		}
	}
}
