package inpage_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// known puts a radio file where the program keeps those that it has learned.
func (d *desk) known(product int, name string) {
	d.t.Helper()
	text := fmt.Sprintf(`propsoff: radio 1
device: {name: %q, vendor: "1f4a", product: "%04x"}
stick-mode: 2
controls:
  roll:     {axis: 1, scale: {988: -32767, 1500: 0, 2012: 32767}, reach: {low: 988, rest: 1500, high: 2012}}
  pitch:    {axis: 2, scale: {988: -32767, 1500: 0, 2012: 32767}, reach: {low: 988, rest: 1500, high: 2012}}
  throttle: {axis: 3, scale: {988: -32767, 1500: 0, 2012: 32767}, reach: {low: 988, rest: 988, high: 2012}, stays: yes}
  yaw:      {axis: 4, scale: {988: -32767, 1500: 0, 2012: 32767}, reach: {low: 988, rest: 1500, high: 2012}}
  arm:      {axis: 5, scale: {988: -32767, 1500: 0, 2012: 32767}, reach: {low: 988, rest: 988, high: 2012}, positions: [{at: 988, spread: 0.6}, {at: 2012, spread: 0.6}]}
  mode:     {axis: 6, scale: {988: -32767, 1500: 0, 2012: 32767}, reach: {low: 988, rest: 988, high: 2012}, positions: [{at: 988, spread: 0.6}, {at: 1500, spread: 0.6}, {at: 2012, spread: 0.6}]}
`, name, product)
	file := fmt.Sprintf("/home/.config/propsoff/radios/1f4a-%04x-made.yaml", product)
	d.eval(fmt.Sprintf(`(async () => {
		const call = (name, ...with_) => new Promise((done, no) => fs[name](...with_, (e, it) => e ? no(e) : done(it)));
		let at = "";
		for (const part of %[1]q.split("/").slice(1, -1)) await call("mkdir", at += "/" + part, 0o755).catch(() => {});
		const to = await call("open", %[1]q, fs.constants.O_WRONLY | fs.constants.O_CREAT | fs.constants.O_TRUNC, 0o600), bytes = new TextEncoder().encode(%[2]q);
		await call("write", to, bytes, 0, bytes.length, null);
		await call("close", to);
	})()`, file, text))
}

// Of two radios that are plugged in one drives, the one that came first, and the other moves nothing until it is chosen and its packs were asked about.
// The one that drives is pulled out: the other does not take over by itself, and drives once it is chosen again.
func TestTwoRadios(t *testing.T) {
	d := sit(t, keys, size{1280, 800, 1, false})
	d.known(7, "Curlew Desk 2")
	d.known(8, "Plover Tray 3")
	d.press("understood")
	d.plug(0, madeRadio)
	d.reads("Curlew Desk 2 may be transmitting. Have you disconnected the pack of every craft bound to it?")
	d.choose("ask-answer-2", "ask-below", "ask-take")
	d.reads("Curlew Desk 2 is plugged in and drives")
	d.plug(1, "Plover Tray 3 (Vendor: 1f4a Product: 0008)")
	d.press("start-row-2")
	d.row("The bench")
	d.reads("Nothing refuses arming")
	d.find("choose-radio") // it is there where there are two
	roll := func(radio int, to float64) { d.eval(fmt.Sprintf("pilot.to(%d, {0: %g}, 100)", radio, to)) }
	roll(1, 1)
	roll(0, 0.5)
	d.reads("roll\n1756 µs")
	roll(0, 0)
	d.reads("roll\n1500 µs")
	roll(1, 0)

	d.press("choose-radio")
	d.reads("2 radios plugged in: press a number\n1\nCurlew Desk 2 (being read)\n2\nPlover Tray 3")
	d.picture("choosing")
	d.press("choose-2")
	d.reads("Plover Tray 3 may be transmitting. Have you disconnected the pack of every craft bound to it?")
	d.choose("ask-answer-2", "ask-below", "ask-take")
	d.reads("Plover Tray 3 drives.")
	roll(0, 1)
	roll(1, -0.5)
	d.reads("roll\n1244 µs")
	roll(0, 0)
	roll(1, 0)
	d.reads("roll\n1500 µs")

	d.eval("pilot.pull(1)")
	d.reads("Plover Tray 3 is unplugged")
	d.picture("pulled")
	roll(0, 1)
	d.wait(500)
	require.Contains(t, d.now(), "Plover Tray 3 is unplugged")
	require.Contains(t, d.now(), "roll\n1500 µs")
	roll(0, 0)
	d.press("choose-radio", "choose-1")
	d.reads("Curlew Desk 2 drives.")
	roll(0, 0.5)
	d.reads("roll\n1756 µs")
}

// now is all that can be read now.
func (d *desk) now() string {
	s := d.sheet()
	return s.text()
}
