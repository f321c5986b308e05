package inpage_test

import (
	"os"
	"strings"
	"testing"

	"propsoff.example/scripts/browser"
)

func TestMeasureLong(t *testing.T) {
	d := sit(t, keys, size{960, 640, 1, false})
	base := d.url
	d.b = browser.For(t, "--trace-startup=toplevel,blink.user_timing", "--trace-startup-file=/tmp/inpage-trace.json", "--trace-startup-format=json", "--trace-startup-duration=0")
	for _, name := range strings.Split(os.Getenv("SHEETS"), ",") {
		d.url = base + "/?open=" + name
		d.open(";performance.mark('load-" + name + "')")
		if first := d.sheet(); strings.Contains(first.text(), "Before you start") {
			d.press("understood")
		}
		d.eval("performance.mark('at-" + name + "')")
		d.wait(7000)
		d.eval("performance.mark('out-" + name + "')")
		d.must(d.p.Close())
	}
	d.b.Close()
}
