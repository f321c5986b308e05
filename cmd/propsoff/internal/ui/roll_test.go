package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
)

// Whatever its rows and its room: a list shows rows that follow one another and fit, the usual ones first; turned by hand it stays, comes to all of its rows
// and to its beginning again, and another mark out of sight calls it back.
func TestEveryRowOfAListIsComeTo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		high := rapid.SliceOfN(rapid.Float64Range(20, 90), 1, 30).Draw(t, "rows")
		n, room := len(high), ink.Rect{W: 300, H: rapid.Float64Range(90, 700).Draw(t, "room")}
		mark, v, p := rapid.IntRange(0, n-1).Draw(t, "mark"), new(ui.View), ink.NewPage(960, 600, 1, nil)
		b := ui.NewBoard(p, v)
		usual := 0
		for sum := 0.0; ; usual++ { // so that the marked one is seen
			if sum = 0; usual < mark {
				for _, h := range high[usual : mark+1] {
					sum += h
				}
			}
			if sum <= room.H {
				break
			}
		}
		draw := func() (first, end int) {
			p.Reset(960, 600, 1, nil)
			first, end = b.Rolled("rows", room, high, mark, usual)
			sum := 0.0
			for _, h := range high[first:end] {
				sum += h
			}
			require.LessOrEqual(t, sum, room.H+0.5)
			require.Less(t, first, end)
			return first, end
		}
		first, end := draw()
		if end-first == n {
			require.Empty(t, p.Lists(), "one that fits takes no drag")
			return
		}
		require.Equal(t, usual, first)
		v.Turn("rows", -n)
		first, end = draw()
		require.Zero(t, first)
		for seen := end; seen < n; seen = end {
			v.TurnOn("rows")
			first, end = draw()
			require.LessOrEqual(t, first, seen, "none is passed over")
			require.Greater(t, end, seen)
		}
		v.TurnOn("rows")
		first, end = draw()
		require.Zero(t, first, "round")
		at := mark
		mark = rapid.IntRange(0, n-1).Draw(t, "next mark")
		if was := end; mark == at || mark < was {
			first, _ = draw()
			require.Zero(t, first, "it stays")
		} else {
			usual = mark
			first, _ = draw()
			require.Equal(t, mark, first)
		}
	})
}
