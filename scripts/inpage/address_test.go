package inpage_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A page whose address asks for what there is not begins all the same, says which part of it was wrong, keeps the rest, and begins the next time with nothing
// to say.
func TestAWrongAddressBeginsAllTheSame(t *testing.T) {
	d := sit(t, mouse, size{1280, 800, 1, false})
	d.must(d.p.Close())
	d.url += "/?open=nonsense&craft=heron&pupil=Ann&sheet=dark#there"
	d.open("")
	d.must(d.p.WaitFor(`document.getElementById("unused").offsetHeight > 0 && document.documentElement.classList.contains("runs")`, patience))
	said := d.says(`document.getElementById("unused-said").innerText`)
	assert.Contains(t, said, "The address of this page asks for open=nonsense: it can be ")
	assert.Contains(t, said, "asks for craft=heron: no craft of this name is kept here. The page has begun without it.")
	assert.NotContains(t, said, "--")
	assert.Equal(t, "?pupil=Ann&sheet=dark#there", d.says(`location.search + location.hash`))
	assert.Equal(t, "dark", d.sheet().Theme)
	d.reads("Ann")
	d.picture("wrong-address")
	const below = `Math.abs(document.querySelector("canvas").getBoundingClientRect().top - document.getElementById("unused").getBoundingClientRect().bottom) < 2`
	d.must(d.p.WaitFor(below, patience)) // it lies over nothing
	d.must(d.p.Viewport(390, 844, 2, true))
	d.must(d.p.WaitFor(below, patience))
	d.picture("wrong-address-phone")
	d.must(d.p.Viewport(1280, 800, 1, false))
	d.must(d.p.WaitFor("innerWidth === 1280 && "+below, patience))
	d.point(d.middle("#unused-read"))
	d.must(d.p.WaitFor(`document.getElementById("unused").offsetHeight === 0 && document.activeElement.matches("canvas")`, patience))
	d.fills()
	d.eval(`location.reload()`)
	d.begun()
	d.reads("Ann")
	assert.Equal(t, "", d.says(`document.getElementById("unused-said").innerText`))
}
