package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ui/foresee"
)

// asked waits for a question: it is made in a goroutine of its own, by the real clock.
func (p *person) asked() *foresee.View {
	p.t.Helper()
	p.until("no question comes", func() bool { return foresee.Of(p.s.View()).Phase == foresee.Asking })
	return foresee.Of(p.s.View())
}

// A round from the sheet of drills to its score: each answer has the bench show both ends, and the questions of a round are all different.
func TestForeseeIsAskedShownAndScored(t *testing.T) {
	p, book := atDrills(t)
	p.tap("Minus")
	right := 0
	for n := range 10 {
		v := p.asked()
		require.Equal(t, n+1, v.Number)
		require.False(t, p.reads("Not so.") || p.reads("Both foreseen."), "nothing is told before the answer")
		p.tap([]string{"1", "2", "3", "4"}[n%4])
		require.Equal(t, foresee.Ending, foresee.Of(p.s.View()).Phase)
		if n == 0 { // by itself, in the time that it takes
			for range 1200 {
				if p.wait(16); foresee.Of(p.s.View()).Phase == foresee.Shown {
					break
				}
			}
		} else {
			p.tap("Enter")
		}
		require.Equal(t, foresee.Shown, foresee.Of(p.s.View()).Phase)
		v = foresee.Of(p.s.View())
		assert.Equal(t, v.Right, p.reads("Both foreseen."))
		assert.Equal(t, !v.Right, p.reads("Not so"))
		if v.Right {
			right++
		}
		p.tap("Enter")
	}
	assert.Equal(t, foresee.Over, foresee.Of(p.s.View()).Phase)
	assert.True(t, p.reads("of 10 foreseen."))
	assert.Empty(t, book.asked, "nobody practises under a name")

	p.tap("Enter")
	assert.Equal(t, 1, p.asked().Number, "another round")
	p.tap("1")
	p.tap("Backspace")
	assert.True(t, p.reads("of 1 foreseen."))
	p.tap("Esc")
	assert.True(t, p.reads("Drills: "), "back where it was opened")
}

// Under a name each answer is kept, by a key or by a finger; and another craft begins the round anew.
func TestForeseeIsKept(t *testing.T) {
	p, book := atDrills(t)
	require.NoError(t, book.Open("Wren"))
	p.tap("Minus")
	p.asked()
	p.click("foresee-answer-2")
	require.Equal(t, foresee.Ending, foresee.Of(p.s.View()).Phase)
	require.Len(t, book.asked, 1)
	p.tap("Enter")
	p.tap("Enter")
	p.asked()
	p.tap("4")
	assert.Len(t, book.asked, 2)
	require.NoError(t, book.Open("Finch"))
	p.wait(16)
	assert.Equal(t, 1, p.asked().Number, "somebody else begins anew")
}
