package usb

import (
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func skipUnless64(t *testing.T) {
	t.Helper()
	if strconv.IntSize != 64 {
		t.Skip("the made-up tree has words of 64 bits")
	}
}

func TestListGivesEachRadioOnce(t *testing.T) {
	skipUnless64(t)
	tr := newTree(t)
	tr.device("1-2", 12, "Second", radioAbs, radioKeys, "event10", "js1")
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5", "js0")
	tr.device("1-3", 8, "Some keyboard", "0", "fffffffffffffffe", "event2")
	tr.device("1-4", 9, "Only classic", radioAbs, radioKeys, "js3")
	tr.device("1-5", 11, "Throttle alone", "40", "0", "event6", "js2")
	require.NoError(t, os.MkdirAll(filepath.Join(tr.root, "sys/class/input/mice"), 0o755))
	found, notices, err := tr.places().List()
	require.NoError(t, err)
	require.Empty(t, notices)
	var names []string
	for _, f := range found {
		names = append(names, f.Name)
		require.NoError(t, f.Trouble)
	}
	require.Equal(t, []string{"First", "Throttle alone", "Second", "Only classic"}, names, "by number, not by text")
	f := found[0]
	assert.Equal(t, tr.node("event5"), f.Path)
	assert.Equal(t, tr.node("js0"), f.Classic)
	assert.Equal(t, WayEvent, f.Way)
	assert.Equal(t, uint16(0x1f4a), f.Vendor)
	assert.Equal(t, uint16(0x0007), f.Product)
	assert.Equal(t, "SN7", f.Serial)
	assert.Equal(t, "usb-0-1-1/input0", f.Port)
	assert.Equal(t, 8, f.Axes)
	assert.Equal(t, 24, f.Buttons)
	assert.Equal(t, WayClassic, found[3].Way)
	assert.Equal(t, tr.node("js3"), found[3].Path)
}

func TestListSaysHowARadioCanBeRead(t *testing.T) {
	skipUnless64(t)
	tr := newTree(t)
	tr.device("1-1", 7, "First", radioAbs, radioKeys, "event5", "js0")
	tr.deny("event5", true)
	found, _, err := tr.places().List()
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, WayClassic, found[0].Way)
	require.ErrorIs(t, found[0].Trouble, fs.ErrPermission)
	assert.ErrorContains(t, found[0].Trouble, "event5")
	tr.deny("js0", true)
	found, _, err = tr.places().List()
	require.NoError(t, err)
	assert.Empty(t, found[0].Way)
	require.ErrorIs(t, found[0].Trouble, fs.ErrPermission)
	require.NoError(t, os.Remove(tr.node("event5")))
	tr.mu.Lock()
	tr.denied = map[string]bool{}
	tr.mu.Unlock()
	found, _, err = tr.places().List()
	require.NoError(t, err)
	assert.Equal(t, WayClassic, found[0].Way)
	require.ErrorIs(t, found[0].Trouble, fs.ErrNotExist)
}

func TestListWithoutAnything(t *testing.T) {
	dir := t.TempDir()
	found, notices, err := Places{Dev: dir, Sys: dir}.List()
	require.NoError(t, err)
	assert.Empty(t, found)
	assert.Empty(t, notices)
	// Without the kernel's list the nodes themselves are asked; these are none.
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "input"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "input/event0"), nil, 0o600))
	found, _, err = Places{Dev: dir, Sys: dir}.List()
	require.NoError(t, err)
	assert.Empty(t, found)
}

func TestTheRunningSystemCanBeListed(t *testing.T) {
	_, _, err := List()
	require.NoError(t, err)
}

func TestNotices(t *testing.T) {
	skipUnless64(t)
	tr := newTree(t)
	const other = "ff"
	tr.usb("1-1", 5, "00", [3]string{"08", "06", "50"})
	tr.usb("1-2", 6, "00", [3]string{"02", "02", "01"}, [3]string{"0a", "00", "00"})
	tr.usb("1-3", 7, "00", [3]string{"03", "00", "00"}, [3]string{"08", "06", "50"})
	tr.device("1-3", 20, "Radio with a card", radioAbs, radioKeys, "event5")
	tr.usb("1-4", 8, "09", [3]string{"09", "00", "00"})
	tr.usb("1-4.1", 9, "00", [3]string{other, "00", "00"})
	tr.write(filepath.Join(hub, "1-4.1/1-4.1:1.0/ttyUSB0"), "uevent", "")
	tr.usb("1-4.2", 10, "00", [3]string{other, "00", "00"})
	tr.write(filepath.Join(hub, "1-4.2/1-4.2:1.0/tty/ttyACM0"), "uevent", "")
	tr.usb("1-4.3", 11, "00", [3]string{other, "00", "00"})
	tr.usb("1-5", 12, "00", [3]string{"03", "01", "01"}, [3]string{"02", "02", "01"}, [3]string{"0a", "00", "00"})
	tr.usb("1-6", 13, "00", [3]string{"02", "06", "00"}, [3]string{"0a", "00", "00"})
	tr.usb("1-7", 14, "00", [3]string{"03", "00", "00"})
	tr.usb("1-8", 15, "00", [3]string{"0a", "00", "00"}, [3]string{"08", "06", "50"})
	tr.link(tr.write(hub, "bDeviceClass", "09", "devnum", "1"), "bus/usb/devices/usb1")

	_, notices, err := tr.places().List()
	require.NoError(t, err)
	got := map[string][2]bool{}
	for _, n := range notices {
		got[n.Port] = [2]bool{n.Storage, n.SerialPort}
	}
	assert.Equal(t, map[string][2]bool{
		"1-1": {true, false}, "1-2": {false, true}, "1-4.1": {false, true}, "1-4.2": {false, true}, "1-8": {true, true},
	}, got)
	n := notices[0]
	n.key = ""
	assert.Equal(t, Notice{Maker: "Moorland", Name: "Desk 1-1", Port: "1-1", Serial: "S1-1", Vendor: 0x1f4a, Product: 0x00a7, Storage: true}, n)
}
