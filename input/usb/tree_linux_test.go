package usb

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// tree is a made-up /sys and /dev, with links as the kernel makes them.
type tree struct {
	t    *testing.T
	root string

	mu     sync.Mutex
	denied map[string]bool
}

func newTree(t *testing.T) *tree {
	tr := &tree{t: t, root: t.TempDir(), denied: map[string]bool{}}
	for _, d := range []string{"sys/class/input", "sys/bus/usb/devices", "dev/input"} {
		require.NoError(t, os.MkdirAll(filepath.Join(tr.root, d), 0o755))
	}
	return tr
}

func (tr *tree) places() Places {
	return Places{Dev: filepath.Join(tr.root, "dev"), Sys: filepath.Join(tr.root, "sys"), readable: func(path string) error {
		tr.mu.Lock()
		defer tr.mu.Unlock()
		if tr.denied[filepath.Base(path)] {
			return unix.EACCES
		}
		_, err := os.Stat(path)
		return err
	}}
}

func (tr *tree) deny(node string, denied bool) {
	tr.mu.Lock()
	tr.denied[node] = denied
	tr.mu.Unlock()
	if !denied {
		require.NoError(tr.t, os.Chmod(tr.node(node), 0o640), "as udev does, which is what rings the bell")
	}
}

func (tr *tree) node(name string) string { return filepath.Join(tr.root, "dev/input", name) }

// write makes files in a folder of sys, name and text by turns, and gives the folder's path.
func (tr *tree) write(dir string, files ...string) string {
	dir = filepath.Join(tr.root, "sys", dir)
	for i := 0; i < len(files); i += 2 {
		path := filepath.Join(dir, files[i])
		require.NoError(tr.t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(tr.t, os.WriteFile(path, []byte(files[i+1]+"\n"), 0o600))
	}
	return dir
}

func (tr *tree) link(target, name string) {
	name = filepath.Join(tr.root, "sys", name)
	require.NoError(tr.t, os.RemoveAll(name))
	require.NoError(tr.t, os.Symlink(target, name))
}

const hub = "devices/pci0000:00/usb1"

// usb plugs a USB device in, with interfaces given as class, subclass, protocol.
func (tr *tree) usb(port string, devnum int, class string, interfaces ...[3]string) {
	dir := filepath.Join(hub, port)
	tr.link(tr.write(dir, "manufacturer", "Moorland", "product", "Desk "+port, "serial", "S"+port, "idVendor", "1f4a", "idProduct", "00a7",
		"devnum", strconv.Itoa(devnum), "bDeviceClass", class, "ep_00/type", "Control"), "bus/usb/devices/"+port)
	for i, x := range interfaces {
		name := fmt.Sprintf("%s:1.%d", port, i)
		tr.link(tr.write(filepath.Join(dir, name), "bInterfaceClass", x[0], "bInterfaceSubClass", x[1], "bInterfaceProtocol", x[2]),
			"bus/usb/devices/"+name)
	}
}

func (tr *tree) pullUSB(port string) {
	require.NoError(tr.t, os.RemoveAll(filepath.Join(tr.root, "sys", hub, port)))
	require.NoError(tr.t, os.RemoveAll(filepath.Join(tr.root, "sys/bus/usb/devices", port)))
}

const (
	radioAbs  = "3003f" // X Y Z Rx Ry Rz and a hat
	radioKeys = "ff 0 0 0 0 0 0 ffff00000000 0 0 0 0"
)

// device makes an input device number n below the USB port, with the nodes that are named.
func (tr *tree) device(port string, n int, name, abs, keys string, nodes ...string) {
	own := filepath.Join(hub, port, port+":1.0", fmt.Sprintf("0003:1F4A:0007.%04d", n), "input", fmt.Sprintf("input%d", n))
	dir := tr.write(own, "name", name, "uniq", "SN"+strconv.Itoa(n), "phys", "usb-0-"+port+"/input0", "id/vendor", "1f4a", "id/product", "0007",
		"capabilities/abs", abs, "capabilities/key", keys, "capabilities/rel", "0", "properties", "0")
	for _, node := range nodes {
		require.NoError(tr.t, os.MkdirAll(filepath.Join(dir, node), 0o755))
		require.NoError(tr.t, os.RemoveAll(filepath.Join(dir, node, "device")))
		require.NoError(tr.t, os.Symlink("..", filepath.Join(dir, node, "device")))
		tr.link(filepath.Join(dir, node), "class/input/"+node)
		require.NoError(tr.t, os.WriteFile(tr.node(node), nil, 0o600))
	}
}

func (tr *tree) pull(nodes ...string) {
	for _, node := range nodes {
		link := filepath.Join(tr.root, "sys/class/input", node)
		real, err := filepath.EvalSymlinks(link)
		require.NoError(tr.t, err)
		require.NoError(tr.t, os.RemoveAll(real))
		require.NoError(tr.t, os.Remove(link))
		require.NoError(tr.t, os.Remove(tr.node(node)))
	}
}
