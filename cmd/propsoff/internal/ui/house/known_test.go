package house_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/live/whodrives"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/input/radio"
	"propsoff.example/sim/craftfile"
)

// deskRadio ends its throttle at 1012 µs, so that it never arms the craft; of its pitch nothing was found.
const deskRadio = `propsoff: radio 1
device: {name: "Moorland Desk 7"}
controls:
  throttle: {axis: 1, scale: {988: 0, 1500: 512, 2012: 1024}, reach: {low: 24, rest: 24, high: 1024}, stays: yes}
  roll: {axis: 2, scale: {988: 0, 1500: 512, 2012: 1024}, reach: {low: 0, rest: 512, high: 1024}}
  pitch: {axis: 3}
  yaw: {axis: 4, scale: {988: 0, 1500: 512, 2012: 1024}, reach: {low: 0, rest: 512, high: 1024}}
  arm: {axis: 5, scale: {988: 0, 1500: 512, 2012: 1024}, reach: {low: 0, rest: 0, high: 1024}, positions: [{at: 0, spread: 1}, {at: 1024, spread: 1}]}
  mode: {axis: 6, scale: {988: 0, 1500: 512, 2012: 1024}, reach: {low: 0, rest: 0, high: 1024}, positions: [{at: 0}, {at: 512}, {at: 1024}]}
`

// The file of --radio counts on the sheets of layout, prove and card while no radio is plugged in, and each says whose it is.
func TestTheGivenRadioFileCountsWithoutItsRadio(t *testing.T) {
	file, err := radio.Parse("desk.yaml", []byte(deskRadio), radio.Known{})
	require.NoError(t, err)
	f, err := craftfile.Parse("craft.yaml", []byte(heldCraft))
	require.NoError(t, err)
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	p := sitDownAt(t, assets.BuiltIn, func(d *whodrives.Options, s *screen.Options) {
		s.Bare, s.Craft, s.CraftName, s.Names = true, f, f.Name, f.Names()
		s.Names.Refusals, s.Names.Happenings = codes.Refusals(), codes.Happenings()
		d.File, s.Radio = &file, &file
		d.Loop.UseCraft(f.Config(), "")
	})
	p.tap("S") // the keyboard drives
	p.tap("F6")
	assert.True(t, p.reads("craft Repeats with Moorland Desk 7 (the file of --radio), as far as its file says: full travel is assumed for pitch."))
	assert.True(t, p.reads("The throttle goes no lower than 1012 µs"))
	p.tap("F8")
	p.searched()
	assert.True(t, p.reads("Craft Repeats, radio Moorland Desk 7 (the file of --radio), as far as its file says"))

	assert.True(t, p.reads("The throttle goes no lower than 1012 µs, and must come below 1000."))
	p.tap("F9")
	assert.True(t, p.reads("The radio is that of the file given by --radio."))
	assert.Contains(t, p.printed(), "Moorland Desk 7")
	assert.NotContains(t, p.printed(), "Ideal radio")
}
