//go:build unix

package main

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/world"
)

// With --json there is nothing on standard output but JSON, one object a line, also where no radio is.
func TestRadiosAsJSONWithoutARadio(t *testing.T) {
	code, out, errs := command(t, "radios", "--json")
	assert.Equal(t, exit.CodeDone, code)
	assert.JSONEq(t, `{"t_ms":0,"code":"notice","text":"No radio is plugged in. Plug it in by USB, switch it on and choose joystick if it asks; it is found automatically."}`, out)
	assert.Empty(t, errs)

	code, out, errs = command(t, "radios")
	assert.Equal(t, exit.CodeDone, code)
	assert.Empty(t, out)
	assert.Contains(t, errs, "No radio is plugged in")
}

// Where no radio is, nobody is told that one transmits.
func TestWatchWithoutARadioHasNoneThatTransmits(t *testing.T) {
	r := startWatch(t, newBus(), func(w *world.World) { w.Radios = noRadios{} })
	r.until(t, "No radio is plugged in")
	r.until(t, "Pack connected")
	assert.Equal(t, exit.CodeDone, r.stop(t))
	assert.NotContains(t, r.out.String(), "it transmits")
	code, out, _ := command(t, "watch", "--for", "300ms") // and ends by itself
	assert.Equal(t, exit.CodeDone, code)
	assert.Contains(t, out, "No radio is plugged in")
}
