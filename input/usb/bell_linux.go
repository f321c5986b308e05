package usb

import (
	"os"

	"golang.org/x/sys/unix"
)

// bell rings when something changes in the folder of the device nodes, by the kernel's inotify. Where it cannot be had, the
// watcher's regular look round does alone.
type bell struct {
	file  *os.File
	ring  chan struct{}
	ended chan struct{}
}

func newBell(p Places) *bell {
	b := &bell{ring: make(chan struct{}, 1), ended: make(chan struct{})}
	fd, err := unix.InotifyInit1(unix.IN_NONBLOCK | unix.IN_CLOEXEC)
	if err != nil {
		close(b.ended)
		return b
	}
	b.file = os.NewFile(uintptr(fd), "inotify")
	b.hang(p)
	go b.run()
	return b
}

// hang hangs the bell into the folder, which may come into being with the first device and go with the last. Where it hangs
// there already, nothing happens.
func (b *bell) hang(p Places) {
	if b.file == nil {
		return
	}
	raw, err := b.file.SyscallConn()
	if err != nil {
		return
	}
	// IN_ATTRIB: the rights of a node have changed.
	const what = unix.IN_CREATE | unix.IN_DELETE | unix.IN_ATTRIB | unix.IN_MOVED_TO | unix.IN_MOVED_FROM | unix.IN_ONLYDIR
	// Without the folder this fails, and is tried again at the next look round.
	_ = raw.Control(func(fd uintptr) { _, _ = unix.InotifyAddWatch(int(fd), p.input(), what) })
}

func (b *bell) rings() <-chan struct{} { return b.ring }

func (b *bell) run() {
	defer close(b.ended)
	var buf [4096]byte // room for several events; what they say does not matter, only that there are some
	for {
		if _, err := b.file.Read(buf[:]); err != nil {
			return
		}
		select {
		case b.ring <- struct{}{}:
		default:
		}
	}
}

func (b *bell) close() {
	if b.file != nil {
		b.file.Close()
	}
	<-b.ended
}
