// Package inpage_test tries the page that scripts/web builds, in a headless Chromium, as a person would: with a radio, keys, a mouse, fingers.
package inpage_test

import (
	_ "embed"
	"encoding/json"
	"flag"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"propsoff.example/scripts/browser"
)

var (
	folder   = flag.String("page", "../../dist/page", "the `folder` that scripts/web has built")
	full     = flag.Bool("full", false, "every hand at every size, and not the one path alone")
	pictures = flag.String("pictures", "", "a `folder` for a picture of every sheet that is met")
)

// pilot makes a radio.
//
//go:embed pilot.js
var pilot string

// patience is how long something is waited for: a busy machine with software drawing takes its time (ours).
const patience = time.Minute

// look is how long is waited between two looks at the sheet: to say what is drawn costs the page more than to draw it (ours).
const look = 100 * time.Millisecond

// hand is what a person uses besides the radio.
type hand string

const (
	keys    hand = "keys"
	mouse   hand = "mouse"
	fingers hand = "fingers"
)

// size is that of a screen in CSS pixels; phone: it is one, with dense pixels.
type size struct {
	w, h  int
	dense float64
	phone bool
}

// drawn is one thing that the program says it draws: an item, or an area that can be pressed, in pixels of its page.
type drawn struct {
	Group, Name, Key, Text string
	Box                    [4]float64
}

// sheet is what the program says it draws.
type sheet struct {
	Width, Height float64
	Scale         float64
	Theme         string
	Items, Hits   []drawn
}

// desk is a person before the page.
type desk struct {
	t    *testing.T
	b    *browser.Browser
	p    *browser.Page
	url  string
	by   hand
	size size
	seen int // pictures
}

// sit opens the page.
func sit(t *testing.T, by hand, s size) *desk {
	t.Helper()
	if _, err := os.Stat(filepath.Join(*folder, "index.html")); err != nil {
		t.Skip("scripts/web has not built the page: " + err.Error())
	}
	d := &desk{t: t, b: browser.For(t), by: by, size: s}
	files := httptest.NewServer(http.FileServer(http.Dir(*folder)))
	t.Cleanup(files.Close)
	d.url = files.URL
	d.open("")
	return d
}

// open opens the page in a tab, with a script that runs before its own.
func (d *desk) open(before string) {
	d.t.Helper()
	var err error
	d.p, err = d.b.New()
	d.must(err)
	d.must(d.p.Viewport(d.size.w, d.size.h, d.size.dense, d.size.phone))
	d.must(d.p.Language("en-GB"))
	d.must(d.p.Before(pilot + before))
	d.must(d.p.Go(d.url))
	d.begun()
}

// begun waits until something is drawn.
func (d *desk) begun() {
	d.t.Helper()
	d.must(d.p.WaitFor("globalThis.propsoffPage?.sheet", patience))
	d.must(d.p.WaitFor("propsoffPage.sheet().then(s => JSON.parse(s).items.length > 0)", patience))
}

func (d *desk) must(err error) {
	d.t.Helper()
	require.NoError(d.t, err)
}

// sheet is what is drawn now.
func (d *desk) sheet() (s sheet) {
	d.t.Helper()
	var text string
	d.must(d.p.Eval("propsoffPage.sheet()", &text))
	d.must(json.Unmarshal([]byte(text), &s))
	return s
}

// text is all that can be read of a sheet, one item a line.
func (s *sheet) text() string {
	var out []string
	for _, i := range s.Items {
		if i.Text != "" {
			out = append(out, i.Text)
		}
	}
	return strings.Join(out, "\n")
}

// hit finds an area that can be pressed.
func (s *sheet) hit(name string) (h drawn, ok bool) {
	for _, h := range s.Hits {
		if h.Name == name {
			return h, true
		}
	}
	return h, false
}

// reads waits until one of some texts can be read, and tells which.
func (d *desk) reads(any ...string) string {
	d.t.Helper()
	for begun := time.Now(); ; time.Sleep(look) {
		s := d.sheet()
		text := s.text()
		for _, want := range any {
			if strings.Contains(text, want) {
				return want
			}
		}
		if time.Since(begun) > patience {
			d.fail("none of %q is read", any)
		}
	}
}

// press presses what has a name, by the hand of this person: its key, or its place.
func (d *desk) press(names ...string) {
	d.t.Helper()
	for _, name := range names {
		h := d.find(name)
		if d.by == keys && h.Key != "" {
			d.must(d.p.Press(place(h.Key)))
		} else {
			d.point(d.place(h.Box, 0.5, 0.5))
		}
		d.drawn()
	}
}

// drawn waits until what was done has come into a picture: what is pressed within one picture has no order.
func (d *desk) drawn() {
	d.t.Helper()
	d.eval("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done))))")
}

// point clicks or taps a place.
func (d *desk) point(at browser.Point) {
	d.t.Helper()
	if d.by == fingers {
		d.must(d.p.Tap(at))
	} else {
		d.must(d.p.Click(at))
	}
}

// find waits for an area that can be pressed.
func (d *desk) find(name string) drawn {
	d.t.Helper()
	for begun := time.Now(); ; time.Sleep(look) {
		s := d.sheet()
		if h, ok := s.hit(name); ok {
			return h
		}
		if time.Since(begun) > patience {
			d.fail("nothing called %q can be pressed", name)
		}
	}
}

// place is a place of a box of the page, in shares of it, as one of the tab.
func (d *desk) place(box [4]float64, across, down float64) browser.Point {
	d.t.Helper()
	var at struct{ Left, Top, Dense float64 }
	d.must(d.p.Eval("(() => { const c = document.querySelector('canvas'), b = c.getBoundingClientRect(); return {left: b.left, top: b.top, dense: c.width / b.width} })()", &at))
	return browser.Point{X: at.Left + (box[0]+across*box[2])/at.Dense, Y: at.Top + (box[1]+down*box[3])/at.Dense}
}

// place is where a key of ours is on a keyboard, as a browser calls it.
func place(key string) string {
	switch key {
	case "Up", "Down", "Left", "Right":
		return "Arrow" + key
	case "Esc":
		return "Escape"
	case "Shift":
		return "ShiftLeft"
	}
	if len(key) == 1 && key[0] >= '0' && key[0] <= '9' {
		return "Digit" + key
	} else if len(key) == 1 {
		return "Key" + key
	}
	return key
}

// picture keeps what the tab shows, where pictures are wanted.
func (d *desk) picture(name string) {
	d.t.Helper()
	if *pictures == "" {
		return
	}
	d.seen++
	file := strings.ReplaceAll(d.t.Name(), "/", "-") + "-" + strconv.Itoa(100 + d.seen)[1:] + "-" + name + ".png"
	d.must(d.p.PictureTo(filepath.Join(*pictures, file)))
}

// wait lets a time pass: something must not happen, or a hand rests.
func (d *desk) wait(ms int) { time.Sleep(time.Duration(ms) * time.Millisecond) }

// eval runs a script of the page and waits for what it promises.
func (d *desk) eval(script string) {
	d.t.Helper()
	d.must(d.p.Eval(script, nil))
}

// choose presses a thing that has no key of its own: by keys with others, in order.
func (d *desk) choose(name string, byKeys ...string) {
	d.t.Helper()
	if d.by == keys {
		d.press(byKeys...)
	} else {
		d.press(name)
	}
}

// row presses the row of a list that says something.
func (d *desk) row(says string) {
	d.t.Helper()
	d.reads(says)
	s := d.sheet()
	for _, i := range s.Items {
		if !strings.HasPrefix(i.Text, says) {
			continue
		}
		for _, h := range s.Hits {
			x, y := i.Box[0]+i.Box[2]/2, i.Box[1]+i.Box[3]/2
			if strings.Contains(h.Name, "-row-") && x > h.Box[0] && x < h.Box[0]+h.Box[2] && y > h.Box[1] && y < h.Box[1]+h.Box[3] {
				d.press(h.Name)
				return
			}
		}
	}
	d.fail("no row says %q", says)
}

// write types a text and ends it by Enter: on a phone into the page's own field, which comes by itself.
func (d *desk) write(text string) {
	d.t.Helper()
	if d.by == fingers {
		d.must(d.p.WaitFor("document.getElementById('field').offsetHeight > 0", patience))
		d.must(d.p.Tap(d.middle("#field")))
		d.must(d.p.Type(text))
		d.drawn()
	} else {
		for _, r := range strings.ToUpper(text) {
			d.must(d.p.Press(place(string(r))))
			d.drawn()
		}
	}
	d.must(d.p.Press("Enter"))
	d.drawn()
}

// middle is the middle of a thing of the page's own.
func (d *desk) middle(which string) (at browser.Point) {
	d.t.Helper()
	// A button beside it may come or go until then, and a press of where it was goes nowhere.
	rests := `(async () => {
		const middle = () => { const b = document.querySelector(WHICH)?.getBoundingClientRect(); return b?.width && { X: b.left + b.width / 2, Y: b.top + b.height / 2 } };
		const before = middle();
		await new Promise((done) => setTimeout(done, 100));
		const now = middle();
		return before && now && before.X === now.X && before.Y === now.Y ? now : null;
	})()`
	rests = strings.ReplaceAll(rests, "WHICH", strconv.Quote(which))
	for begun := time.Now(); ; {
		var now *browser.Point
		d.must(d.p.Eval(rests, &now))
		if now != nil {
			return *now
		}
		if time.Since(begun) > patience {
			d.fail("%s is not there, or does not rest", which)
		}
	}
}

// fail ends the test, and tells what is drawn and what the page has said.
func (d *desk) fail(format string, args ...any) {
	d.t.Helper()
	d.picture("failed")
	s := d.sheet()
	var names []string
	for _, h := range s.Hits {
		names = append(names, h.Name)
	}
	d.t.Fatalf(format+":\n%s\n%q\n%q", append(args, s.text(), names, d.p.Said())...)
}
