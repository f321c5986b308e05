package inpage_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// counts counts the browser's pictures in which something was drawn.
const counts = `;globalThis.drawnPictures = 0; {
  let drew = false;
  const draw = WebGL2RenderingContext.prototype.drawElements;
  WebGL2RenderingContext.prototype.drawElements = function (...args) { drew = true; return draw.apply(this, args); };
  const each = () => { if (drew) drawnPictures++; drew = false; requestAnimationFrame(each); };
  requestAnimationFrame(each);
}`

// What docs/measured.md says of the page: how long until the first picture, from this machine itself, and how many pictures a second the bench has while
// the demo pilot flies. Only that they are told is tested: the rest is the machine's.
func TestFigures(t *testing.T) {
	d := served(t, size{1280, 800, 1, false})
	d.open(counts)
	d.must(d.p.WaitFor("performance.getEntriesByName('propsoff-shown').length", patience))
	var first float64
	d.must(d.p.Eval("performance.getEntriesByName('propsoff-shown')[0].startTime", &first))
	d.press("understood")
	d.press("start-row-2")
	d.row("The bench")
	d.reads("ARMED")
	var before, after int
	d.must(d.p.Eval("drawnPictures", &before))
	begun := time.Now()
	d.wait(5000)
	d.must(d.p.Eval("drawnPictures", &after))
	t.Logf("first picture after %.1f s; %.0f pictures a second on the bench, software drawing", first/1000, float64(after-before)/time.Since(begun).Seconds())
	assert.Positive(t, first)
	assert.Greater(t, after, before)
}
