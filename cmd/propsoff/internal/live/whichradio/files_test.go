package whichradio

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

func plugged(path, name, serial, port string) usb.Found {
	return usb.Found{Path: path, Event: path, Name: name, Vendor: 0x1f4a, Product: 7, Serial: serial, Port: port, Way: usb.WayEvent}
}

func opened(f usb.Found) input.Info {
	info := InfoOf(f)
	for i := range 4 {
		info.Axes = append(info.Axes, input.Axis{Code: i, Max: 2047})
	}
	return info
}

// learned is a radio file for f; mode tells files apart.
func learned(f usb.Found, mode int) radio.File {
	file := radio.File{Device: DeviceOf(f), StickMode: mode}
	for i, job := range radio.Needed() {
		file.Controls = append(file.Controls, radio.Control{Job: job, Form: radio.Axis, Axis: i})
	}
	return file
}

func save(t *testing.T, s radio.Store, f usb.Found, mode int) string {
	path, err := s.Save(learned(f, mode))
	require.NoError(t, err)
	return path
}

var (
	moorA  = plugged("/e1", "Moorland", "A", "1-1")
	moorB  = plugged("/e2", "Moorland", "B", "1-2")
	heath  = plugged("/e3", "Heath", "", "1-3")
	heath4 = plugged("/e4", "Heath", "", "1-4")
	locked = usb.Found{Path: "/e5", Name: "Locked", Vendor: 1, Product: 1}
)

func TestWhichRadioIsRead(t *testing.T) {
	both := radio.Store{Dir: t.TempDir()}
	save(t, both, moorB, 1)
	kind := radio.Store{Dir: t.TempDir()}
	save(t, kind, plugged("", "Moorland", "Z", ""), 1)
	file := learned(moorB, 1)
	for _, c := range []struct {
		name   string
		p      Policy
		found  []usb.Found
		want   usb.Found
		failed string
	}{
		{"the first, where nothing is known", Policy{}, []usb.Found{heath, moorB}, heath, ""},
		{"the one that is known", Policy{Store: both}, []usb.Found{heath, moorA, moorB}, moorB, ""},
		{"one of a known kind before a stranger", Policy{Store: kind}, []usb.Found{heath, moorA, moorB}, moorA, ""},
		{"the one that was asked for", Policy{Store: both, Wanted: "heath"}, []usb.Found{heath, moorB}, heath, ""},
		{"by number", Policy{Store: both, Wanted: "1"}, []usb.Found{heath, moorB}, heath, ""},
		{"by path", Policy{Store: both, Wanted: "/e3"}, []usb.Found{moorB, heath}, heath, ""},
		{"none of that name", Policy{Wanted: "fen"}, []usb.Found{heath, moorB}, usb.Found{}, "no radio is called"},
		{"two of that name", Policy{Wanted: "moor"}, []usb.Found{moorA, moorB}, usb.Found{}, "2 radios are called"},
		{"the one of --radio", Policy{Store: kind, File: &file}, []usb.Found{heath, moorA, moorB}, moorB, ""},
		{"one that may be read before one that may not", Policy{}, []usb.Found{locked, heath}, heath, ""},
		{"one that may not be read, where it is alone", Policy{}, []usb.Found{locked}, locked, ""},
		{"none", Policy{}, nil, usb.Found{}, "no radio is plugged in"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.p.Choose(c.found)
			if c.failed != "" {
				require.ErrorContains(t, err, c.failed)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
}

func TestWhichFileApplies(t *testing.T) {
	s := radio.Store{Dir: t.TempDir()}
	a := save(t, s, moorA, 1)
	z := save(t, s, plugged("", "Moorland", "Z", ""), 2)
	four := save(t, s, heath4, 3)
	p := Policy{Store: s}

	got := p.FileFor(opened(moorA))
	assert.Equal(t, Exact, got.How)
	assert.Equal(t, a, got.Path)
	assert.Equal(t, 1, got.File.StickMode)

	got = p.FileFor(opened(moorB))
	assert.Equal(t, Alike, got.How)
	require.Len(t, got.Alike, 2)
	assert.Equal(t, []string{a, z}, []string{got.Alike[0].Path, got.Alike[1].Path})
	assert.Equal(t, radio.OtherSerial, got.Alike[0].Why)

	got = p.FileFor(opened(heath))
	require.Equal(t, Alike, got.How, "no serial number, another port")
	assert.Equal(t, radio.OtherPort, got.Alike[0].Why)
	assert.Equal(t, Exact, p.FileFor(opened(heath4)).How)
	assert.Equal(t, Unknown, p.FileFor(opened(plugged("/e8", "Fen", "", ""))).How)
	assert.Equal(t, Unknown, (&Policy{}).FileFor(opened(moorA)).How, "no folder, no file")

	// The answer holds from now on, and nobody else's file is touched.
	before, err := os.ReadFile(four)
	require.NoError(t, err)
	file := Own(got.Alike[0], opened(heath))
	path, err := s.Save(file)
	require.NoError(t, err)
	assert.NotEqual(t, four, path)
	assert.Equal(t, "1-3", file.Device.Port)
	after, err := os.ReadFile(four)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
	got = p.FileFor(opened(heath))
	assert.Equal(t, Exact, got.How)
	assert.Equal(t, path, got.Path)
	assert.Equal(t, 3, got.File.StickMode)
	assert.Equal(t, Exact, p.FileFor(opened(heath4)).How)

	// One that could not be written holds all the same, for that radio alone.
	unkept := learned(moorB, 4)
	p.Unkept = append(p.Unkept, unkept)
	got = p.FileFor(opened(moorB))
	assert.Equal(t, Exact, got.How)
	assert.Equal(t, 4, got.File.StickMode)
	assert.True(t, p.IsUnkept(unkept.Device))
	assert.Equal(t, 1, p.FileFor(opened(moorA)).File.StickMode)
	best, err := p.Choose([]usb.Found{plugged("/e8", "Fen", "", ""), moorB})
	require.NoError(t, err)
	assert.Equal(t, moorB, best)
	p.Forget(unkept.Device)
	assert.Equal(t, Alike, p.FileFor(opened(moorB)).How)

	// What was given always applies, and another make is said.
	given := learned(moorA, 4)
	p.File = &given
	got = p.FileFor(opened(heath))
	assert.Equal(t, Given, got.How)
	assert.True(t, got.Other)
	assert.Equal(t, 4, got.File.StickMode)
	assert.False(t, p.FileFor(opened(moorB)).Other, "its twin is of the same make")
	given.Device = radio.Device{}
	assert.False(t, p.FileFor(opened(heath)).Other, "a file that names no radio is nobody else's")
}

func TestFilesThatCannotBeReadAreTold(t *testing.T) {
	s := radio.Store{Dir: t.TempDir()}
	bad := filepath.Join(s.Dir, "bad.yaml")
	require.NoError(t, os.WriteFile(bad, []byte("propsoff: radio 1\ncontrols: 3\n"), 0o600))
	wide := learned(moorA, 1)
	wide.Controls[0].Axis = 20 // of its twin: it does not fit this one
	_, err := s.Save(wide)
	require.NoError(t, err)
	p := Policy{Store: s}
	got := p.FileFor(opened(moorB))
	assert.Equal(t, Unknown, got.How)
	require.Len(t, got.Spoilt, 2)
	assert.ErrorContains(t, got.Spoilt[1], bad+":2:")
	assert.ErrorContains(t, got.Spoilt[0], "axis")

	p.Store.Dir = bad
	got = p.FileFor(opened(moorB))
	assert.Equal(t, Unknown, got.How)
	assert.Error(t, got.Trouble)
	f, err := p.Choose([]usb.Found{heath, moorB})
	require.NoError(t, err)
	assert.Equal(t, heath, f)
}
