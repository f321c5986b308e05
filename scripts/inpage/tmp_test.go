package inpage_test
import ("testing";"time")
func TestFreeze(t *testing.T) {
	d := sit(t, keys, size{960, 640, 1, false})
	d.reads("Before you start")
	d.press("understood")
	d.press("start-row-2")
	d.row("The bench")
	d.reads("DISARMED")
	d.wait(3000)
	d.eval("globalThis.gap = 0; let last = performance.now(); (function f() { const n = performance.now(); gap = Math.max(gap, n - last); last = n; requestAnimationFrame(f) })()")
	d.wait(5000)
	var gap float64
	d.must(d.p.Eval("gap", &gap)); t.Log("before", gap)
	d.eval("gap = 0")
	d.must(d.p.Press("F8"))
	time.Sleep(15*time.Second)
	d.must(d.p.Eval("gap", &gap)); t.Log("search", gap)
	s := d.sheet()
	t.Log(s.text())
}
