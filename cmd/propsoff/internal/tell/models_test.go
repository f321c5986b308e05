package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
)

func TestAnOlderTakeSummedUp(t *testing.T) {
	for _, c := range []struct {
		compared int
		same     bool
		ends     string
	}{
		{0, true, "nothing happens either."},
		{1, true, "the one happening comes out the same."},
		{2, true, "all 2 happenings come out the same."},
		{0, false, "the first happening comes out another way: the model has changed."},
		{1, false, "1 happening comes out the same, then one does not: the model has changed."},
		{15, false, "15 happenings come out the same, then one does not: the model has changed."},
	} {
		s := spoken(PlayedThrough(12_000, 1, c.compared, c.same))
		assert.Equal(t, "Told as recorded with model 1, 12.000 s; played through today's model, "+c.ends, s)
	}
}

// What differs in numbers that no sentence shows is not told as the same sentence twice.
func TestTheModelHasChangedIsNeverTheSameTwice(t *testing.T) {
	armed := words.AsIs("Armed.")
	assert.Equal(t, `The model has changed: at 3.000 s the take tells “Armed.”, today's model nothing.`, spoken(ModelChanged(3000, armed, words.Text{})))
	assert.Equal(t, `The model has changed: at 3.000 s the take tells nothing, today's model “Armed.”.`, spoken(ModelChanged(3000, words.Text{}, armed)))
	assert.Equal(t, 1, strings.Count(spoken(ModelChanged(3000, armed, armed)), "Armed."))
}
