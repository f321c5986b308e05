package usb

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
	"unsafe"

	"golang.org/x/sys/unix"

	"propsoff.example/assets/words"
)

// ioctl numbers of the common layout: direction in bits 30 and 31, size in 14 bits (include/uapi/asm-generic/ioctl.h).
// MIPS, PowerPC and SPARC have another; there the calls fail with a clear error.
const (
	iocWrite = 1
	iocRead  = 2
)

func ioc(dir, typ, nr, size uintptr) uintptr { return dir<<30 | size<<16 | typ<<8 | nr }

// The event interface's questions. Source: include/uapi/linux/input.h.
func eviocgid() uintptr              { return ioc(iocRead, 'E', 0x02, unsafe.Sizeof(inputID{})) }
func eviocgname(size int) uintptr    { return ioc(iocRead, 'E', 0x06, uintptr(size)) }
func eviocgphys(size int) uintptr    { return ioc(iocRead, 'E', 0x07, uintptr(size)) }
func eviocguniq(size int) uintptr    { return ioc(iocRead, 'E', 0x08, uintptr(size)) }
func eviocgprop(size int) uintptr    { return ioc(iocRead, 'E', 0x09, uintptr(size)) }
func eviocgkey(size int) uintptr     { return ioc(iocRead, 'E', 0x18, uintptr(size)) }
func eviocgbit(ev, size int) uintptr { return ioc(iocRead, 'E', 0x20+uintptr(ev), uintptr(size)) }
func eviocgabs(code uint16) uintptr {
	return ioc(iocRead, 'E', 0x40+uintptr(code), unsafe.Sizeof(absInfo{}))
}
func eviocsclockid() uintptr { return ioc(iocWrite, 'E', 0xa0, 4) }

// The classic interface's questions. Source: include/uapi/linux/joystick.h.
func jsiocgaxes() uintptr         { return ioc(iocRead, 'j', 0x11, 1) }
func jsiocgbuttons() uintptr      { return ioc(iocRead, 'j', 0x12, 1) }
func jsiocgname(size int) uintptr { return ioc(iocRead, 'j', 0x13, uintptr(size)) }
func jsiocgaxmap() uintptr        { return ioc(iocRead, 'j', 0x32, absCount) }

type inputID struct{ bus, vendor, product, version uint16 }

type absInfo struct{ value, minimum, maximum, fuzz, flat, resolution int32 }

// node is an opened device node. The Go runtime waits for it with epoll and reads without blocking, so that Close ends a Read
// that waits and no thread of the system is held by a radio that lies still.
type node struct {
	*os.File
	raw syscall.RawConn
}

func openNode(path string) (*node, error) {
	f, err := os.OpenFile(path, os.O_RDONLY|unix.O_NONBLOCK|unix.O_CLOEXEC, 0)
	var at *fs.PathError
	if errors.As(err, &at) {
		return nil, words.Wrong("usb.not-opened", words.Args{"why": words.Error(at.Err)}).Because(at.Err) // Open says the path
	} else if err != nil {
		return nil, err
	}
	raw, err := f.SyscallConn()
	if err != nil {
		f.Close()
		return nil, err
	}
	return &node{f, raw}, nil
}

// ioctl puts the question req; p points to the room for the answer.
func (n *node) ioctl(req uintptr, p unsafe.Pointer) error {
	var errno unix.Errno
	err := n.raw.Control(func(fd uintptr) {
		for {
			if _, _, errno = unix.Syscall(unix.SYS_IOCTL, fd, req, uintptr(p)); errno != unix.EINTR {
				return
			}
		}
	})
	if err != nil {
		return os.ErrClosed // nothing else makes Control fail
	}
	if errno != 0 {
		return words.Wrong("usb.no-answer", words.Args{"question": words.Quote(fmt.Sprintf("%#x", req)), "why": words.Error(errno)}).Because(errno)
	}
	return nil
}

// textOf asks for a text; one that the device does not have is empty.
func (n *node) textOf(req func(size int) uintptr) string {
	var b [256]byte
	if err := n.ioctl(req(len(b)), unsafe.Pointer(&b)); err != nil {
		return ""
	}
	return text(b[:])
}

// readNow reads without waiting: 0 and no error where nothing waits.
func (n *node) readNow(p []byte) (got int, err error) {
	ctl := n.raw.Read(func(fd uintptr) bool {
		for {
			if got, err = unix.Read(int(fd), p); err != unix.EINTR {
				return true
			}
		}
	})
	if ctl != nil {
		return 0, os.ErrClosed // nothing else makes Read fail: no deadline is set by now
	}
	if err == unix.EAGAIN {
		return 0, nil
	}
	return max(got, 0), err
}
