package inpage_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// slowStart keeps the page's one thread busy while the first picture is being made, for longer than a program may stand still unnoticed.
const slowStart = `;{
  const compile = WebGL2RenderingContext.prototype.compileShader;
  let slow = true;
  WebGL2RenderingContext.prototype.compileShader = function (...args) {
    if (slow) for (const end = performance.now() + 3000; performance.now() < end;);
    slow = false;
    return compile.apply(this, args);
  };
}`

// A machine that takes its time over the first picture has not slept: the practice begins with the picture.
func TestASlowStartIsNoSleep(t *testing.T) {
	d := sit(t, keys, size{1280, 800, 1, false})
	d.must(d.p.Close())
	d.open(slowStart)
	d.press("understood", "start-row-2")
	d.row("The bench")
	d.reads("Pack connected: the craft has power.", "ARMED")
	assert.NotContains(t, d.now(), "did not run")
}

// While the examiner searches for questions the page goes on: the sheet tells again and again that they are being made. A search that held it up would
// let it tell so once before and once after.
func TestTheExaminerLetsThePageGoOn(t *testing.T) {
	d := sit(t, keys, size{960, 640, 1, false})
	d.must(d.p.Close())
	d.url += "/?open=drills"
	d.open("")
	d.press("understood")
	h := d.find("foresee")
	d.must(d.p.Press(place(h.Key)))
	told, begun := 0, time.Now()
	for text := ""; !strings.Contains(text, "Question 1 of "); text = d.now() {
		if time.Since(begun) > patience {
			d.fail("no question is made")
		}
		if strings.Contains(text, "being made") {
			told++
		}
	}
	assert.GreaterOrEqual(t, told, 3)
}
