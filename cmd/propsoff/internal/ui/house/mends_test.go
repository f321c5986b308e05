package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// mended waits for the end of the search for mends: it runs in a goroutine of its own, by the real clock.
func (p *person) mended() {
	p.t.Helper()
	p.until("the search for mends does not end", func() bool {
		return p.reads("found. With it no rule is broken") || p.reads("found, first those") || p.reads("None of the") || p.reads("Stopped before a mend")
	})
}

// What mends a broken layout is found by a key, shown with what changes, and taken to the sheet of the switch layout, where it is a change
// that can be undone and is asked about before it is lost.
func TestAMendIsFoundAndTakenOver(t *testing.T) {
	p := sitAtProve(t, heldCraft)
	p.searched()
	assert.True(t, p.reads("BROKEN"))
	p.tap("Period")
	p.mended()
	assert.True(t, p.reads("Mend 1: 1 change; no control gets another job; only a lost link goes differently."))
	assert.True(t, p.reads("when the radio goes silent the receiver falls silent"))
	assert.False(t, p.reads("BROKEN"))

	p.tap("Backspace")
	assert.True(t, p.reads("BROKEN"), "back at the rules")
	p.tap("Period")
	p.mended()
	p.tap("Enter")
	assert.True(t, p.reads("1 change not saved yet."), "it stands on the sheet of the switch layout")
	p.tap("F8")
	assert.True(t, p.reads("Leave with changes that are not saved?"), "what would be lost is asked first")
	assert.False(t, p.reads("BROKEN"))
	p.tap("Esc")
	p.tap("Backspace")
	assert.False(t, p.reads("not saved yet"), "it can be undone")
	p.tap("F8")
	assert.True(t, p.reads("BROKEN"), "nothing was changed")
}
