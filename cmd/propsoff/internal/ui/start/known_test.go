package start

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// Whoever goes on after a radio was learned comes to the four doors, where the mark stands on what is next.
func TestAfterLearningTheFourDoorsStandThere(t *testing.T) {
	p := &part{s: new(screen.Screen), door: Plug, at: 2, moved: true}
	p.Turn()
	assert.Equal(t, Plug, p.door, "nothing was learned")
	p.s.Driving.Result = new(whodrives.Result)
	p.Turn()
	assert.Equal(t, Plug, p.door, "it is told of still")
	p.s.Driving.Result = nil
	p.Turn()
	assert.Equal(t, NoDoor, p.door)
	assert.False(t, p.moved)
}
