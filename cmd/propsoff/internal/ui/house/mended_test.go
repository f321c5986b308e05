package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A radio that drives and is pulled out is not said to drive: neither on the bench nor on the first sheet. It drives again when it is back.
func TestARadioThatIsPulledOutIsNotSaidToDrive(t *testing.T) {
	p, h := atTheRadio(t)
	p.pass(h, 500)
	require.True(t, p.reads("Moorland Desk 7 drives."))
	h.pull(true)
	for _, d := range h.open {
		_ = d.Close()
	}
	p.pass(h, 300)
	assert.True(t, p.reads("Moorland Desk 7 is unplugged. It drives again when it is plugged in."), texts(p))
	assert.False(t, p.reads("Moorland Desk 7 drives."))
	assert.False(t, p.reads("reading goes on"), "the same is not said twice")
	p.tap("Esc")
	assert.False(t, p.reads("plugged in and drives"), texts(p))
	assert.False(t, p.reads("Moorland Desk 7 drives."))
	p.tap("Esc")
	h.pull(false)
	p.pass(h, 1000)
	assert.True(t, p.reads("Moorland Desk 7 drives."), texts(p))
}

// While a radio is learned, or it is asked which one it is, what the bench comes to meanwhile is neither heard nor written.
func TestTheBenchIsSilentWhileARadioIsLearned(t *testing.T) {
	p, h := atTheRadio(t)
	p.pass(h, 3000)
	p.tap("F2")
	for range 60 {
		p.pass(h, 100)
		require.Empty(t, p.s.View().Say(p.s.View().Sound.Caption))
	}
	require.True(t, p.reads("lean the craft forward"), texts(p))
}
