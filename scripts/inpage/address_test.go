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
	d.point(d.middle("#unused-read"))
	d.must(d.p.WaitFor(`document.getElementById("unused").offsetHeight === 0 && document.activeElement.matches("canvas")`, patience))
	d.eval(`location.reload()`)
	d.begun()
	d.reads("Ann")
	assert.Equal(t, "", d.says(`document.getElementById("unused-said").innerText`))
}
