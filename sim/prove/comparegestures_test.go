package prove

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/gestures/patternfile"
)

// One gesture file read for two frame periods is one and the same, and another dwell in it is another.
func TestGesturesOfTwoFramePeriods(t *testing.T) {
	name, text, _ := assets.Gestures("examples")
	reads := func(slot int, change func(*patternfile.File)) *made {
		m := quickSticks()
		f, err := patternfile.Parse(name, text, uint16(slot))
		require.NoError(t, err)
		if change != nil {
			change(f)
		}
		m.Config.SlotTicks, m.Config.Gestures, m.Config.Menus = uint16(slot), &f.Gestures, &f.Menus
		return m
	}
	first := reads(20, nil)
	for _, slot := range []int{4, 7, 10, 19, 20, 50} {
		assert.True(t, sameGestures(&first.Config, &reads(slot, nil).Config), "%d ms", slot)
		assert.False(t, sameGestures(&first.Config, &reads(slot, func(f *patternfile.File) { f.Gestures.Patterns[1].Parts[0].Dwell *= 2 }).Config), "%d ms", slot)
		assert.False(t, sameGestures(&first.Config, &reads(slot, func(f *patternfile.File) { f.Gestures.Patterns = f.Gestures.Patterns[:2] }).Config), "%d ms", slot)
	}
}
