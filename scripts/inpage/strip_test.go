package inpage_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/scripts/browser"
)

// A file that is dropped anywhere on the page is kept, also while the panel is open, which then lists it; one that is nothing of ours is refused by name,
// where whoever has the panel open sees and hears it. The page itself stays.
func TestAFileIsDropped(t *testing.T) {
	_, craft, _ := assets.Craft(assets.BuiltIn)
	dir := t.TempDir()
	path := func(name string, content []byte) string {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, content, 0o600))
		return file
	}
	d := sit(t, mouse, size{1280, 800, 1, false})
	middle := browser.Point{X: 640, Y: 400}
	d.must(d.p.Drop(middle, path("heron.yaml", craft)))
	d.must(d.p.WaitFor(`document.getElementById("told").offsetHeight > 0 && document.getElementById("told").textContent.includes("The craft is kept as")`, patience))
	d.picture("dropped")
	d.press("understood")

	d.point(d.middle("#files"))
	d.must(d.p.WaitFor(`document.querySelector("#list").textContent.includes("heron.yaml")`, patience))
	d.must(d.p.Drop(middle, path("robin.yaml", append([]byte("# another\n"), craft...)), path("holiday.txt", []byte("no file of ours"))))
	d.must(d.p.WaitFor(`document.querySelector("#list").textContent.includes("robin.yaml")`, patience))
	d.must(d.p.WaitFor(`document.getElementById("answered").textContent.includes("holiday.txt: nothing of this kind is kept here")`, patience))
	assert.Equal(t, "status", d.says(`document.getElementById("answered").role || document.getElementById("answered").getAttribute("role")`))
	d.picture("refused")
	d.point(d.middle("#close"))
	d.must(d.p.WaitFor(`!document.getElementById("box").open && document.activeElement.matches("canvas")`, patience))
	d.reads("What do you want to do?")
}

// The full-screen button takes the whole page there and back, and the sheet with it.
func TestFullScreen(t *testing.T) {
	d := sit(t, mouse, size{1280, 800, 1, false})
	d.press("understood")
	d.point(d.middle("#full"))
	d.must(d.p.WaitFor(`document.fullscreenElement === document.documentElement`, patience))
	d.must(d.p.WaitFor(`document.activeElement.matches("canvas")`, patience))
	d.fills()
	d.press("start-row-2") // it goes on there
	d.row("The bench")
	d.reads("ARMED")
	d.picture("full")
	d.point(d.middle("#full"))
	d.must(d.p.WaitFor(`!document.fullscreenElement`, patience))
	d.fills()
	d.reads("ARMED")

	d.by = keys // the program's own key shows the sheet alone
	d.must(d.p.Press("F11"))
	d.must(d.p.WaitFor(`document.fullscreenElement?.matches("canvas") && document.getElementById("strip").offsetHeight === 0`, patience))
	d.fills()
	d.picture("sheet-alone")
	d.must(d.p.Press("F11"))
	d.must(d.p.WaitFor(`!document.fullscreenElement && document.getElementById("strip").offsetHeight > 0`, patience))
	d.fills()
}

// fills waits until the sheet is as large as what the strip leaves, and drawn in every pixel.
func (d *desk) fills() {
	d.t.Helper()
	d.must(d.p.WaitFor(`(() => {
		const c = document.querySelector("canvas"), b = c.getBoundingClientRect(), strip = document.getElementById("strip").offsetHeight;
		return Math.abs(b.top - strip) < 2 && Math.abs(b.width - innerWidth) < 2 && Math.abs(b.bottom - innerHeight) < 2 && Math.abs(c.width - b.width * devicePixelRatio) < 2;
	})()`, patience))
	d.drawn()
	s := d.sheet()
	var wide float64
	d.must(d.p.Eval(`document.querySelector("canvas").width`, &wide))
	assert.InDelta(d.t, wide, s.Width, 2)
}

// On a denser screen, or after zooming, the same sheet is drawn as dense as that is: the practice goes on, and the mouse hits what it points at.
func TestThePictureStaysSharp(t *testing.T) {
	d := sit(t, mouse, size{1280, 800, 1, false})
	d.press("understood", "start-row-2")
	d.row("The bench")
	d.reads("ARMED")
	for _, dense := range []float64{2, 1.25, 1} {
		d.must(d.p.Viewport(1280, 800, dense, false))
		d.must(d.p.WaitFor(fmt.Sprintf("devicePixelRatio === %v", dense), patience))
		d.fills()
		d.reads("ARMED")
		d.picture("dense")
		d.press("help")
		d.find("help-search")
		d.press("help")
		d.reads("ARMED")
	}
}

// The link that gives a file away is copied, and the panel says so; where the browser does not let it be copied, it says that.
func TestTheLinkIsCopied(t *testing.T) {
	_, craft, _ := assets.Craft(assets.BuiltIn)
	heron := filepath.Join(t.TempDir(), "heron.yaml")
	require.NoError(t, os.WriteFile(heron, craft, 0o600))
	const refused = `Object.defineProperty(navigator, "clipboard", { value: undefined });`
	for _, c := range []struct{ before, says string }{
		{`;Object.defineProperty(navigator, "clipboard", { value: { writeText: async (text) => { globalThis.copied = text; } } });`, "The link is copied."},
		{`;` + refused + `document.execCommand = (what) => { globalThis.copied = getSelection().toString() || document.activeElement.value; return what === "copy"; };`, "The link is copied."},
		{`;` + refused + `document.execCommand = () => false;`, "This browser does not let the page copy."},
	} {
		d := sit(t, mouse, size{1280, 800, 1, false})
		d.must(d.p.Close())
		d.open(c.before)
		d.must(d.p.Drop(browser.Point{X: 640, Y: 400}, heron))
		d.must(d.p.WaitFor(`document.getElementById("told").textContent.includes("The craft is kept as")`, patience))
		d.point(d.middle("#files"))
		d.must(d.p.WaitFor(`document.querySelector("#list .give")?.offsetHeight > 0`, patience))
		d.point(d.middle("#list .give"))
		d.must(d.p.WaitFor(`document.getElementById("link").value`, patience))
		assert.Empty(t, d.says(`document.getElementById("copying").innerText`))
		for range 2 { // a second time is told as well
			d.eval(`document.getElementById("copy").scrollIntoView()`)
			d.point(d.middle("#copy"))
			d.must(d.p.WaitFor(`!document.getElementById("copying").innerText`, 10*time.Second))
			d.must(d.p.WaitFor(`document.getElementById("copying").innerText`, 10*time.Second))
		}
		assert.Contains(t, d.says(`document.getElementById("copying").innerText`), c.says)
		var same, chosen bool
		d.must(d.p.Eval(`globalThis.copied === undefined || globalThis.copied === document.getElementById("link").value`, &same))
		assert.True(t, same)
		d.must(d.p.Eval(`(() => { const l = document.getElementById("link"); return document.activeElement === l && l.selectionEnd - l.selectionStart === l.value.length })()`, &chosen))
		assert.True(t, chosen, "it can be copied by hand")
		d.picture("copied")
	}
}
