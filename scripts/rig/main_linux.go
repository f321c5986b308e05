// Command rig is the virtual radio rig: a small guest in which real HID radios exist and the real program reads them.
//
// The same static program has two lives. On the host `rig pack` writes the guest's first file system. In the guest it is
// process 1: it loads the kernel's modules, plugs radios in and out, runs propsoff against their device nodes, prints a
// line for every scenario and switches the guest off. scripts/rig.sh ties the two together.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"propsoff.example/scripts/rig/initrd"
)

// Modules of the guest, in the order in which they are loaded; what they depend on is put before them.
var (
	inputModules  = []string{"hid", "hid-generic", "uhid", "evdev", "joydev"}
	windowModules = []string{
		"virtio_ring", "virtio", "virtio_pci_legacy_dev", "virtio_pci_modern_dev", "virtio_pci",
		"netfs", "fscache", "9pnet", "9pnet_virtio", "9p",
	}
)

func main() {
	if os.Getpid() == 1 {
		guest()
		return
	}
	if len(os.Args) < 2 || os.Args[1] != "pack" {
		fmt.Fprintln(os.Stderr, "rig: run scripts/rig.sh; by itself only `rig pack -modules DIR -out FILE [-propsoff FILE] [-window]`")
		os.Exit(2)
	}
	if err := pack(os.Args[2:]); err != nil {
		fmt.Fprintln(os.Stderr, "rig:", err)
		os.Exit(1)
	}
}

// pack writes the guest's first file system: this program as /init, propsoff, and the modules in loading order.
func pack(args []string) (err error) {
	f := flag.NewFlagSet("pack", flag.ExitOnError)
	dir := f.String("modules", "", "the kernel's module folder")
	out := f.String("out", "", "the archive to write")
	propsoff := f.String("propsoff", "", "the static program under test, if there is one")
	window := f.Bool("window", false, "with what mounting the host's root needs")
	if err := f.Parse(args); err != nil {
		return err
	}
	index, err := initrd.ReadIndex(*dir)
	if err != nil {
		return err
	}
	names := inputModules
	if *window {
		names = append(append([]string{}, inputModules...), windowModules...)
	}
	modules, err := index.Closure(names...)
	if err != nil {
		return err
	}
	file, err := os.Create(*out)
	if err != nil {
		return err
	}
	defer func() {
		if e := file.Close(); err == nil {
			err = e
		}
	}()
	w := initrd.NewWriter(file)
	for _, d := range []string{"proc", "sys", "dev", "tmp", "host", "bin", "etc"} {
		w.Dir(d)
	}
	self, err := os.ReadFile("/proc/self/exe")
	if err != nil {
		return err
	}
	w.File("init", 0o755, self)
	if *propsoff != "" {
		data, err := os.ReadFile(*propsoff)
		if err != nil {
			return err
		}
		w.File(propsoffPath, 0o755, data)
	}
	w.File("etc/passwd", 0o644, []byte("root:x:0:0::/root:/bin/false\nnobody:x:65534:65534::/tmp:/bin/false\n"))
	for i, m := range modules {
		w.File(filepath.Join("modules", fmt.Sprintf("%02d-%s.ko", i, m.Name)), 0o644, m.Data)
	}
	return w.Close()
}
