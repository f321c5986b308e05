package learn_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/input"
	"propsoff/input/learn"
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
	l.SetStickMode(2)
	l.Tick(2_000_000)
	l.Feed(state(2_000_000, 0, 1024, 1024, 1023))
	l.Tick(4_000_000)
	v := l.View()
	assert.Equal(t, learn.Throttle, v.Plan[v.Now].Question)
	assert.Equal(t, learn.Moving, v.Phase)
	assert.Equal(t, learn.Nothing, v.Notice.Code)
	for i := int64(0); i <= 20; i++ { // throttle up
		l.Feed(state(4_000_000+i*10_000, int32(i*102), 1024, 1024, 1023))
	}
	l.Tick(6_000_000)
	assert.Equal(t, learn.LowEnd, l.View().Step, "the throttle's upper end was seen")

	l.Resume()
	l.Feed(state(0))
	l.Tick(1_000_000)
	l.Feed(state(1_000_000, 2040, 1024, 1024, 1023))
	l.Tick(3_000_000)
	v = l.View()
	assert.Equal(t, learn.Throttle, v.Plan[v.Now].Question)
	assert.NotEqual(t, learn.Returning, v.Phase)
	assert.NotEqual(t, learn.Two, v.Notice.Code)
}
