//go:build unix

package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input"
	"propsoff.example/input/radio"
)

// With --json there is nothing on standard output but JSON, one object a line, also where no radio is.
func TestRadiosAsJSONWithoutARadio(t *testing.T) {
	code, out, errs := command(t, "radios", "--json")
	assert.Equal(t, exit.CodeDone, code)
	assert.JSONEq(t, `{"t_ms":0,"code":"notice","text":"No radio is plugged in. Plug it in by USB, switch it on and choose joystick if it asks, then start this again."}`, out)
	assert.Empty(t, errs)

	code, out, errs = command(t, "radios")
	assert.Equal(t, exit.CodeDone, code)
	assert.Empty(t, out)
	assert.Contains(t, errs, "No radio is plugged in")
}

// A command that ends at once finds a radio by being started again, and says so: none of them waits for one.
func TestARadioIsThereOnceACommandIsStartedAgain(t *testing.T) {
	for language, says := range map[string]string{"en": "then start this again", "de": "dann starte neu"} {
		for _, args := range [][]string{{"radios"}, {"check"}, {"card", "--device", "moorland", "-o", filepath.Join(t.TempDir(), "card.svg")}} {
			args = append(args, "--language", language)
			w, _, errs := testWorld(t)
			b := newBus()
			w.Radios = b
			execute(context.Background(), args, w)
			assert.Contains(t, errs.String(), says, "%q", args)
			b.plug(found("Moorland Desk 7", "/dev/input/event7", "A12"))
			again, out, errs := testWorld(t)
			again.Radios = b
			execute(context.Background(), args, again)
			assert.NotContains(t, errs.String(), says, "%q", args)
			assert.Contains(t, out.String()+errs.String(), "Moorland Desk 7", "%q", args)
		}
	}
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

// A radio file goes from one pilot to another with where the controls sit: it is kept under the radio that it names, never over another.
func TestARadioFileIsTaken(t *testing.T) {
	given := filepath.Join(t.TempDir(), "from-a-friend.yaml")
	text := "propsoff: radio 1\ndevice: {name: Moorland Desk, vendor: \"1f4a\", product: \"0007\", serial: A12}\ncontrols:\n" +
		"  throttle: {axis: 1}\n  roll: {axis: 2}\n  pitch: {axis: 3}\n  yaw: {axis: 4}\n  arm: {button: 1, sits: {where: shoulders, across: 90, down: 700, goes: down}}\n"
	require.NoError(t, os.WriteFile(given, []byte(text), 0o600))
	folder := t.TempDir()
	take := func(args ...string) (int, string, string) {
		w, out, errs := testWorld(t)
		w.Store = radio.Store{Dir: folder}
		w.In = strings.NewReader(text)
		return execute(context.Background(), append([]string{"radios", "take"}, args...), w), out.String(), errs.String()
	}
	code, out, errs := take(given)
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "the file of Moorland Desk, serial number A12, with 1 control besides the sticks, 1 of them placed")
	code, out, errs = take("-") // the same from standard input
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "Nothing is changed: "+folder)
	code, out, errs = take(given)
	require.Equal(t, exit.CodeDone, code, errs)
	assert.Contains(t, out, "Nothing is changed: "+folder)
	assert.Contains(t, out, " is already the file of Moorland Desk, serial number A12, and says the same.")
	found, err := radio.Store{Dir: folder}.Find(input.Info{Name: "Moorland Desk", Vendor: 0x1f4a, Product: 7, Serial: "B9"})
	require.NoError(t, err)
	assert.Equal(t, radio.SameKind, found.Match, "another radio of its kind is asked about it")
	arm, _ := found.File.Control("arm")
	assert.Equal(t, radio.Spot{View: radio.Shoulders, X: 90, Y: 700, Way: radio.GoesDown}, arm.Spot)

	require.NoError(t, os.WriteFile(given, []byte(strings.Replace(text, "across: 90", "across: 900", 1)), 0o600))
	code, _, errs = take(given)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "says something else, and stays as it is; “propsoff radios take --over” puts the new one in its place")
	code, out, _ = take(given, "--over")
	assert.Equal(t, exit.CodeDone, code)
	assert.Contains(t, out, ", in place of the one that was there.")
	found, err = radio.Store{Dir: folder}.Find(input.Info{Name: "Moorland Desk", Vendor: 0x1f4a, Product: 7, Serial: "B9"})
	require.NoError(t, err)
	arm, _ = found.File.Control("arm")
	assert.Equal(t, int16(900), arm.Spot.X)

	nobody := filepath.Join(t.TempDir(), "nobody.yaml")
	require.NoError(t, os.WriteFile(nobody, []byte(text[:strings.Index(text, "device")]+text[strings.Index(text, "controls"):]), 0o600))
	code, _, errs = take(nobody)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.True(t, strings.HasPrefix(errs, nobody+": this file names no radio"), errs)
	code, _, errs = command(t, "radios", "tak", given)
	assert.Equal(t, exit.CodeBadInput, code)
	assert.Contains(t, errs, "did you mean “take”?")
	for _, bad := range [][]string{{}, {given, given}, {filepath.Join(folder, "none.yaml")}, {folder}} {
		code, _, errs = take(bad...)
		assert.NotEqual(t, exit.CodeDone, code, bad)
		assert.NotEmpty(t, errs)
	}
}
