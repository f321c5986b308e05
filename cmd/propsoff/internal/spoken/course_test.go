package spoken_test

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/spoken"
)

var onlyDrill = flag.String("drill", "", "this drill alone, with all that was said")

// mostRuns is how often a pupil may run a drill again: whoever does not know a list of eight must try.
const mostRuns = 12

// The whole shipped course is passed by a pupil who reads nothing but the lines and does what they say: all but the drills that take eyes, which are
// named.
func TestACourseIsPassedByEar(t *testing.T) {
	for _, one := range []struct {
		language string
		book     *phrases
	}{{"en", english()}, {"de", german()}} {
		t.Run(one.language, func(t *testing.T) {
			passed, eyes := 0, 0
			var q *pupil
			for i, d := range course(t) {
				code := d.Config.Code
				if spoken.Eyes(d) {
					eyes++
					continue
				}
				l := newLab(t, words.In(one.language))
				was := q
				if q = newPupil(l, one.book); was != nil {
					q.recipes, q.known, q.crossed = was.recipes, was.known, was.crossed
				}
				learned, runs := false, 0
				for ; !learned && runs < mostRuns; runs++ {
					learned = l.run(d, uint64(100*i+runs), q.turn)
				}
				if *onlyDrill == code {
					for _, x := range l.lines {
						t.Log(x.tick, x.text)
					}
				}
				if assert.True(t, learned, "%s is not learned in %d runs", code, runs) {
					passed++
				}
				if runs > 3 {
					t.Logf("%s took %d runs", code, runs)
				}
			}
			t.Logf("%d drills passed, %d take eyes", passed, eyes)
			assert.Equal(t, 41, passed)
			assert.Equal(t, 18, eyes)
		})
	}
}

// One drill, without a course before it.
func TestADrillByEar(t *testing.T) {
	for _, d := range course(t) {
		if d.Config.Code == "find-throttle" {
			l := newLab(t, words.English())
			assert.True(t, l.run(d, 1, newPupil(l, english()).turn))
		}
	}
}
