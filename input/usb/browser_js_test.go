package usb

import (
	"os"
	"syscall/js"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

// page puts a navigator into the running script engine whose gamepads are the given ones; nil is a free place.
func page(t *testing.T, pads ...map[string]any) {
	t.Helper()
	list := make([]any, len(pads))
	for i, p := range pads {
		if p != nil {
			list[i] = p
		}
	}
	give := js.FuncOf(func(js.Value, []js.Value) any { return js.ValueOf(list) })
	nav := js.Global().Get("Object").New()
	nav.Set("getGamepads", give)
	js.Global().Get("Object").Call("defineProperty", js.Global(), "navigator", map[string]any{"value": nav, "configurable": true})
	t.Cleanup(give.Release)
}

func pad(index int, id string, axes []any, pressed ...bool) map[string]any {
	buttons := make([]any, len(pressed))
	for i, p := range pressed {
		buttons[i] = map[string]any{"pressed": p, "value": 0}
	}
	return map[string]any{"index": index, "id": id, "connected": true, "axes": axes, "buttons": buttons, "mapping": "",
		"timestamp": js.Global().Get("performance").Call("now").Float()}
}

func TestBrowser(t *testing.T) {
	const id = "Curlew Field 2 (Vendor: 1f4a Product: 0007)"
	page(t, nil, pad(1, id, []any{-1, 1, 0.5, -2}, true, false))
	found, notices, err := List()
	require.NoError(t, err)
	require.Empty(t, notices)
	require.Len(t, found, 1)
	f := found[0]
	f.key = ""
	assert.Equal(t, Found{Path: "joystick 1", Name: "Curlew Field 2", Vendor: 0x1f4a, Product: 7, Axes: 4, Buttons: 2, Way: WayBrowser}, f)

	epoch := Now()
	d, err := Open(f.Path, Options{Epoch: epoch})
	require.NoError(t, err)
	defer d.Close()
	states, err := d.Poll(nil)
	require.NoError(t, err)
	require.Len(t, states, 1)
	assert.Equal(t, []int32{-browserEnd, browserEnd, 16384, -browserEnd}, states[0].Axes[:4])
	assert.True(t, states[0].Button(0))
	assert.False(t, d.Info().Blunted)

	page(t, nil, pad(1, id, []any{0, 0, 0, 0}, false, true))
	states = waitFor(t, d, 1)
	assert.Equal(t, make([]int32, 4), states[0].Axes[:4])
	assert.False(t, states[0].Button(0))
	assert.True(t, states[0].Button(1))
	assert.InDelta(t, Now()-epoch, states[0].At, 250_000)

	page(t, nil, nil)
	deadline := time.Now().Add(5 * time.Second)
	for err == nil && time.Now().Before(deadline) {
		time.Sleep(time.Millisecond)
		_, err = d.Poll(nil)
	}
	require.ErrorIs(t, err, input.ErrGone)

	page(t, pad(0, id, []any{0}))
	d, err = Open("joystick 0", Options{})
	require.NoError(t, err)
	require.NoError(t, d.Close())
	require.NoError(t, d.Close())
	_, err = d.Poll(nil)
	require.ErrorIs(t, err, os.ErrClosed)
	_, err = Open("joystick 3", Options{})
	require.ErrorContains(t, err, "joystick 3: is not there")
}

func waitFor(t *testing.T, d input.Device, n int) (states []input.Raw) {
	t.Helper()
	for range 5000 {
		var err error
		states, err = d.Poll(states)
		require.NoError(t, err)
		if len(states) >= n {
			return states
		}
		time.Sleep(time.Millisecond)
	}
	t.Fatal("no state came")
	return nil
}

func TestBrowserThatCannot(t *testing.T) {
	js.Global().Get("Object").Call("defineProperty", js.Global(), "navigator", map[string]any{"value": map[string]any{}, "configurable": true})
	_, _, err := List()
	require.ErrorIs(t, err, ErrNone)
	_, err = Watch(Places{})
	require.ErrorIs(t, err, ErrNone)
	throws := js.Global().Get("Function").New("throw new Error('not allowed here')")
	js.Global().Get("navigator").Set("getGamepads", throws)
	_, _, err = List()
	require.ErrorIs(t, err, ErrNone)
	require.ErrorContains(t, err, "not allowed here")
}

func TestSplitID(t *testing.T) {
	for id, want := range map[string]Found{
		"Curlew (STANDARD GAMEPAD Vendor: 1f4a Product: 00a7)": {Name: "Curlew", Vendor: 0x1f4a, Product: 0xa7},
		"1f4a-a7-Curlew-2": {Name: "Curlew-2", Vendor: 0x1f4a, Product: 0xa7},
		" Curlew 2 ":       {Name: "Curlew 2"},
		"":                 {},
	} {
		var f Found
		f.Name, f.Vendor, f.Product = splitID(id)
		assert.Equal(t, want, f, id)
	}
}

func TestFromUnitKeepsTwelveBitsApart(t *testing.T) {
	// W3C Gamepad: norm(raw) = 2·(raw−min)/(max−min)−1.
	last := int32(-browserEnd - 1)
	for raw := range 4096 {
		v := fromUnit(2*float64(raw)/4095 - 1)
		require.Greater(t, v, last)
		last = v
	}
	require.Equal(t, int32(browserEnd), last)
	assert.Equal(t, fromUnit(0.25), -fromUnit(-0.25))
}
