// Package initrd packs the guest's first file system: a cpio archive in the "newc" form that Linux unpacks at boot, and
// the kernel modules that the guest needs, in the order in which they can be loaded.
package initrd

import (
	"bufio"
	"fmt"
	"io"
	"path"
	"strings"
)

// Writer writes a cpio archive in the "newc" form of the kernel's Documentation/driver-api/early-userspace/
// buffer-format.rst: a header of 6 + 13·8 characters, name and data each padded to four bytes.
type Writer struct {
	out  *bufio.Writer
	n    int64
	ino  int
	dirs map[string]bool
	err  error
}

// NewWriter writes to out; Close ends the archive.
func NewWriter(out io.Writer) *Writer {
	return &Writer{out: bufio.NewWriterSize(out, 1<<16), dirs: map[string]bool{"": true}}
}

const (
	modeDir  = 0o040000
	modeFile = 0o100000
)

// Dir adds a folder, and those that it stands in, with rights 0755.
func (w *Writer) Dir(name string) {
	name = strings.Trim(path.Clean("/"+name), "/")
	if w.dirs[name] {
		return
	}
	w.Dir(path.Dir("/" + name))
	w.dirs[name] = true
	w.entry(name, modeDir|0o755, nil)
}

// File adds a file, and the folders that it stands in.
func (w *Writer) File(name string, perm uint32, data []byte) {
	name = strings.Trim(path.Clean("/"+name), "/")
	w.Dir(path.Dir("/" + name))
	w.entry(name, modeFile|perm, data)
}

// Close writes the archive's last entry and gives the first error of all calls.
func (w *Writer) Close() error {
	w.entry("TRAILER!!!", 0, nil)
	if err := w.out.Flush(); w.err == nil {
		w.err = err
	}
	return w.err
}

func (w *Writer) entry(name string, mode uint32, data []byte) {
	if int64(len(data)) > 0xffffffff {
		w.err = fmt.Errorf("%s: %d bytes do not fit in the archive's form", name, len(data))
	}
	w.ino++
	links := 1
	if mode&modeDir != 0 {
		links = 2
	}
	// magic, inode, mode, user, group, links, time, size, device and its own device (major, minor), name, checksum
	w.put([]byte(fmt.Sprintf("070701%08x%08x%08x%08x%08x%08x%08x%08x%08x%08x%08x%08x%08x",
		w.ino, mode, 0, 0, links, 0, len(data), 0, 0, 0, 0, len(name)+1, 0)))
	w.put([]byte(name + "\x00"))
	w.pad()
	w.put(data)
	w.pad()
}

func (w *Writer) put(b []byte) {
	if w.err != nil {
		return
	}
	n, err := w.out.Write(b)
	w.n += int64(n)
	w.err = err
}

func (w *Writer) pad() { w.put(make([]byte, (4-w.n%4)%4)) }
