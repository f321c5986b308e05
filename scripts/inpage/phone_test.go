package inpage_test

import (
	"testing"
)

func TestPhone(t *testing.T) {
	for _, s := range []size{{390, 844, 3, true}, {844, 390, 3, true}} {
		t.Run("x", func(t *testing.T) {
			d := sit(t, fingers, s)
			d.reads("Before you start")
			d.picture("cautions")
			d.press("understood")
			d.reads("press a button on your radio")
			d.picture("start")
			d.press("start-row-2")
			d.row("The bench")
			d.reads("DISARMED")
			d.picture("bench")
			s := d.sheet()
			t.Log(s.Width, s.Height, s.Hits)
		})
	}
}
