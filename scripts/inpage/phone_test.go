package inpage_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/browser"
)

// On a phone two fingers lead both sticks at once, a name is typed into the page's own field, and a sheet can be made larger than the screen and moved about.
func TestFingersOnAPhone(t *testing.T) {
	d := sit(t, fingers, size{390, 844, 2, true})
	d.begin()
	d.press("start-row-2")
	d.row("The bench")
	d.reads("DISARMED")
	d.press("next-driver")
	d.reads("You drive by finger")
	left, right := d.find("stick-1-0").Box, d.find("stick-2-3").Box
	at := func(share float64) []browser.Point {
		return []browser.Point{d.place(left, 0.5, 1-share), d.place(right, share, 0.5)}
	}
	d.must(d.p.Touch("touchStart", at(0.5)...))
	d.must(d.p.Touch("touchMove", at(0.98)...))
	d.reads("throttle\n2012 µs", "throttle\n2011 µs", "throttle\n20")
	d.reads("roll\n20")
	d.picture("sticks")
	d.must(d.p.Touch("touchEnd"))
	d.reads("roll\n1500 µs")

	d.point(d.middle("#larger"))
	d.must(d.p.WaitFor("document.querySelector('canvas').getBoundingClientRect().width > 700", 10*time.Second))
	d.drawn()
	d.picture("larger")
	title := d.place([4]float64{}, 0, 0)
	d.must(d.p.Touch("touchStart", browser.Point{X: 380, Y: 300}))
	for x := 370.0; x > 20; x -= 50 {
		d.must(d.p.Touch("touchMove", browser.Point{X: x, Y: 300}))
		d.drawn()
	}
	d.must(d.p.Touch("touchEnd"))
	require.Less(t, d.place([4]float64{}, 0, 0).X, title.X-100, "the sheet went with the finger")
	d.picture("moved")
	d.point(d.middle("#larger"))
	d.must(d.p.WaitFor("document.querySelector('canvas').getBoundingClientRect().width < 400", 10*time.Second))
	d.drawn()
	d.press("leave")
	d.reads("What do you want to do?")
}

// A browser that shows no radio says why, and the keyboard works.
func TestABrowserThatShowsNoRadio(t *testing.T) {
	for says, page := range map[string]string{
		"this browser has no gamepad interface":               "",
		"this browser shows radios only on a secure address,": "Object.defineProperty(globalThis, 'isSecureContext', { value: false });",
	} {
		d := sit(t, keys, size{960, 640, 1, false})
		d.must(d.p.Close())
		d.open("Object.defineProperty(navigator, 'getGamepads', { value: undefined });" + page)
		d.press("understood", "start-row-1")
		d.reads(says)
		d.toDoors()
		d.press("start-row-2")
		d.row("The bench")
		d.must(d.p.Press("KeyX", "KeyS"))
		d.reads("The keyboard drives")
	}
}
