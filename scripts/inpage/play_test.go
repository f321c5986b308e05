package inpage_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A take that is kept is played on the bench from the panel, to its end, and back in practice all is as it was. One that cannot be played is told of, and
// the page begins without it.
func TestATakeIsPlayed(t *testing.T) {
	d := sit(t, keys, size{1280, 800, 1, false})
	d.records(2500)
	home := d.says("location.href")

	d.panel()
	row := `[...document.querySelectorAll("#list li")].find(r => r.textContent.includes(".take"))`
	d.must(d.p.WaitFor(row+`?.querySelector(".play").offsetHeight > 0`, patience))
	var others bool
	d.must(d.p.Eval(`[...document.querySelectorAll("#list li")].every(r => r.textContent.includes(".take") || r.querySelector(".play").hidden)`, &others))
	assert.True(t, others, "a take alone is played")
	d.picture("panel")
	d.eval(row + `.querySelector(".play").click()`)
	d.must(d.p.WaitFor(`location.search.includes("play=")`, patience))
	d.begun()
	d.reads("Playing: ", "Played to its end: ")
	d.picture("playing")
	d.reads("Played to its end: ")
	d.picture("played")

	d.point(d.middle("#unplay"))
	d.must(d.p.WaitFor(`!location.search.includes("play=")`, patience))
	d.begun()
	d.reads("What do you want to do?")
	require.Equal(t, home, d.says("location.href"))
	var gone bool
	d.must(d.p.Eval(`document.getElementById("unplay").hidden`, &gone))
	assert.True(t, gone)

	d.must(d.p.Go(home + "?play=/home/nothing.take"))
	d.must(d.p.WaitFor(`document.getElementById("unused").offsetHeight > 0 && document.documentElement.classList.contains("runs")`, patience))
	assert.Contains(t, d.says(`document.getElementById("unused-said").innerText`), "asks for play=nothing.take: no take of this name is kept here. The page has begun without it.")
	d.must(d.p.WaitFor(`!location.search && document.getElementById("unplay").hidden`, patience))
	d.picture("not-there")
	d.point(d.middle("#unused-read"))
	d.reads("What do you want to do?")
}

// records goes from the start to the bench, where the demo pilot flies, and records so many milliseconds of it.
func (d *desk) records(ms int) {
	d.t.Helper()
	d.press("understood", "start-row-2")
	d.row("The bench")
	d.reads("ARMED")
	d.must(d.p.Press("F12"))
	d.reads(".take")
	d.wait(ms)
	d.must(d.p.Press("F12"))
	d.wait(1500)
}

// panel opens the panel of what is kept.
func (d *desk) panel() {
	d.t.Helper()
	d.point(d.middle("#files"))
	d.must(d.p.WaitFor(`document.getElementById("box").open`, patience))
}
