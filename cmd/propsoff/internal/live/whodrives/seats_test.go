package whodrives

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input/radio"
)

// Where a control sits is kept in the radio's own file at once, and nothing else of it changes.
func TestWhereAControlSitsIsKept(t *testing.T) {
	d := newDesk(t, nil)
	path := d.save(filed(moorland("A1"), 0))
	before, err := radio.Load(path, radio.Known{})
	require.NoError(t, err)
	before.Controls = append(before.Controls, radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{0}})
	require.NoError(t, radio.WriteFile(path, before, true))
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	require.Equal(t, Radio, d.View().Who)
	was := d.View().File.Controls

	at := radio.Spot{View: radio.Shoulders, X: 100, Y: 700, Way: radio.GoesDown}
	d.Sit("arm", at)
	d.Sit("throttle", at)
	d.Sit("no such", at)
	after, err := radio.Load(path, radio.Known{})
	require.NoError(t, err)
	want := before
	want.Controls = append([]radio.Control{}, before.Controls...)
	want.Controls[len(want.Controls)-1].Spot, want.Controls[len(want.Controls)-1].Side = at, radio.Left
	assert.Equal(t, want, after)
	assert.Equal(t, want.Controls, d.View().File.Controls)
	assert.Zero(t, was[len(was)-1].Spot, "who looked at what stood there sees it as it was")
	d.pass(50)
	assert.Equal(t, Radio, d.View().Who, "it drives on")
	assert.False(t, d.View().Unkept)
}

// A file that a person gave is theirs: what is placed holds, and the file is not written.
func TestAFileThatWasGivenIsNotWritten(t *testing.T) {
	path := t.TempDir() + "/mine.yaml"
	given := filed(moorland("A1"), 0)
	given.Controls = append(given.Controls, radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{0}})
	require.NoError(t, radio.WriteFile(path, given, false))
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	d := newDesk(t, func(o *Options) { o.File = &given })
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	require.True(t, d.View().Given)
	at := radio.Spot{View: radio.Back, X: 500, Y: 700, Way: radio.GoesIn}
	d.Sit("arm", at)
	arm, _ := d.View().File.Control("arm")
	assert.Equal(t, at, arm.Spot)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
	found, err := d.store.Find(moorland("A1").Info())
	require.NoError(t, err)
	assert.Equal(t, radio.NoMatch, found.Match, "nor is another one made")
}

// Where the file cannot be written it is said, and what was placed holds until the program ends.
func TestAPlaceThatCannotBeKeptHolds(t *testing.T) {
	d := newDesk(t, nil)
	path := d.save(filed(moorland("A1"), 0))
	file, err := radio.Load(path, radio.Known{})
	require.NoError(t, err)
	file.Controls = append(file.Controls, radio.Control{Job: "arm", Form: radio.Button, Buttons: []int{0}})
	require.NoError(t, radio.WriteFile(path, file, true))
	d.bus.plug("A1", moorland("A1"))
	d.pass(50)
	require.NoError(t, os.RemoveAll(d.store.Dir))
	require.NoError(t, os.WriteFile(d.store.Dir, nil, 0o600))
	at := radio.Spot{View: radio.Face, X: 500, Y: 100, Way: radio.GoesUp}
	d.Sit("arm", at)
	arm, _ := d.View().File.Control("arm")
	assert.Equal(t, at, arm.Spot)
	assert.True(t, d.View().Unkept)
	assert.True(t, d.has(NotKept))
	require.NoError(t, os.Remove(d.store.Dir))
	d.KeepAgain()
	assert.False(t, d.View().Unkept)
}
