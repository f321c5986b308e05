package learn_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/input"
	"propsoff.example/input/learn"
)

// A radio that has sent nothing yet reads 0 on every axis; its first report makes every stick leap to where it stands. That is
// no hand: the question goes on from there, at the beginning and after the plug was out.
func TestARadioThatWakesLate(t *testing.T) {
	info := input.Info{Name: "late", Axes: []input.Axis{{Max: 2047}, {Max: 2047}, {Max: 2047}, {Max: 2047}}}
	l := learn.New(info, learn.Options{})
	state := func(at int64, v ...int32) input.Raw {
		r := input.Raw{At: at}
		copy(r.Axes[:], v)
		return r
	}
	l.Feed(state(0))
	l.Tick(2_000_000)
	l.Feed(state(2_000_000, 1024, 1024, 0, 1023))
	l.Tick(4_000_000)
	v := l.View()
	assert.Equal(t, learn.Pitch, v.Plan[v.Now].Question)
	assert.Equal(t, learn.Moving, v.Phase)
	assert.Equal(t, learn.Nothing, v.Notice.Code)
	for i := int64(0); i <= 20; i++ { // forward
		l.Feed(state(4_000_000+i*10_000, 1024, 1024+int32(i*51), 0, 1023))
	}
	l.Tick(6_000_000)
	assert.Equal(t, learn.LowEnd, l.View().Step, "its first end was seen")

	l.Resume()
	l.Feed(state(0))
	l.Tick(1_000_000)
	l.Feed(state(1_000_000, 1024, 2040, 0, 1023))
	l.Tick(3_000_000)
	v = l.View()
	assert.Equal(t, learn.Pitch, v.Plan[v.Now].Question)
	assert.NotEqual(t, learn.Returning, v.Phase)
	assert.NotEqual(t, learn.Two, v.Notice.Code)
}
