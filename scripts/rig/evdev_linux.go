package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unsafe"

	"golang.org/x/sys/unix"

	"propsoff.example/scripts/rig/fakeradio"
	"propsoff.example/scripts/rig/kernelrule"
)

// Numbers of include/uapi/linux/input.h, input-event-codes.h and joystick.h.
const (
	evKey, evAbs    = 1, 3
	absHat0X        = 0x10
	btnJoystick     = 0x120 // joystick buttons 1 to 16
	btnTriggerHappy = 0x2c0 // joystick buttons from 17
	absCount        = 0x40
	keyBytes        = 96 // 768 key codes

	jsButton, jsAxis, jsInit = 0x01, 0x02, 0x80
	jsGetAxes, jsGetButtons  = 0x80016a11, 0x80016a12
	jsGetName                = 0x80806a13 // 128 bytes
)

// ioc makes the number of a reading ioctl of the input interface: direction, size, 'E', number.
func ioc(nr, size uintptr) uintptr { return 2<<30 | size<<16 | 'E'<<8 | nr }

func ioctl(f *os.File, req uintptr, p unsafe.Pointer) error {
	conn, err := f.SyscallConn()
	if err != nil {
		return err
	}
	var no unix.Errno
	err = conn.Control(func(fd uintptr) { _, _, no = unix.Syscall(unix.SYS_IOCTL, fd, req, uintptr(p)) })
	if err == nil && no != 0 {
		err = no
	}
	return err
}

// nodes are the device nodes of one plugged radio.
type nodes struct{ event, js string }

// findNodes waits until the kernel has made both nodes of the radio with this name and serial.
func findNodes(r fakeradio.Radio, limit time.Duration) (n nodes, err error) {
	err = waitUntil(limit, "the device nodes of "+r.Name, func() bool {
		n = nodes{event: nodeOf("event*", r), js: nodeOf("js*", r)}
		return n.event != "" && n.js != ""
	})
	return n, err
}

func nodeOf(pattern string, r fakeradio.Radio) string {
	dirs, _ := filepath.Glob("/sys/class/input/" + pattern)
	for _, d := range dirs {
		name, _ := os.ReadFile(d + "/device/name")
		uniq, _ := os.ReadFile(d + "/device/uniq")
		node := "/dev/input/" + filepath.Base(d)
		if strings.TrimSpace(string(name)) == r.Name && strings.TrimSpace(string(uniq)) == r.Serial {
			if _, err := os.Stat(node); err == nil {
				return node
			}
		}
	}
	return ""
}

// kernelView is the rig's own eye on an event node: it asks the kernel and knows nothing of propsoff.
type kernelView struct {
	f     *os.File
	codes []int // of the axes, rising
	keys  []int // of the buttons, in the order of button numbers
}

func openView(node string) (*kernelView, error) {
	f, err := os.OpenFile(node, os.O_RDONLY|unix.O_NONBLOCK|unix.O_CLOEXEC, 0)
	if err != nil {
		return nil, err
	}
	v := &kernelView{f: f}
	var abs [absCount / 8]byte
	var key [keyBytes]byte
	err = errors.Join(
		ioctl(f, ioc(0x20+evAbs, uintptr(len(abs))), unsafe.Pointer(&abs)),
		ioctl(f, ioc(0x20+evKey, uintptr(len(key))), unsafe.Pointer(&key)),
	)
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("%s: %w", node, err)
	}
	for c := range absCount {
		if abs[c/8]>>(c%8)&1 != 0 {
			v.codes = append(v.codes, c)
		}
	}
	for c := range keyBytes * 8 {
		if key[c/8]>>(c%8)&1 != 0 {
			v.keys = append(v.keys, c)
		}
	}
	return v, nil
}

func (v *kernelView) Close() error { return v.f.Close() }

// name is EVIOCGNAME's answer.
func (v *kernelView) name() string {
	var b [256]byte
	if ioctl(v.f, ioc(0x06, uintptr(len(b))), unsafe.Pointer(&b)) != nil {
		return ""
	}
	return string(bytes.TrimRight(b[:], "\x00"))
}

// id is EVIOCGID's answer: bus, vendor, product, version.
func (v *kernelView) id() (id [4]uint16, err error) {
	err = ioctl(v.f, ioc(0x02, 8), unsafe.Pointer(&id))
	return id, err
}

// absInfo is struct input_absinfo.
type absInfo struct{ Value, Min, Max, Fuzz, Flat, Resolution int32 }

func (a absInfo) axis() kernelrule.Axis {
	return kernelrule.Axis{Min: a.Min, Max: a.Max, Fuzz: a.Fuzz, Flat: a.Flat}
}

// abs is EVIOCGABS's answer for axis i (from 0, in order of codes).
func (v *kernelView) abs(i int) (a absInfo, err error) {
	err = ioctl(v.f, ioc(0x40+uintptr(v.codes[i]), unsafe.Sizeof(a)), unsafe.Pointer(&a))
	return a, err
}

// values asks for the value of every axis.
func (v *kernelView) values() ([]int32, error) {
	out := make([]int32, len(v.codes))
	for i := range out {
		a, err := v.abs(i)
		if err != nil {
			return nil, err
		}
		out[i] = a.Value
	}
	return out, nil
}

// pressed asks (EVIOCGKEY) which buttons are pressed; numbers from 1.
func (v *kernelView) pressed() ([]int, error) {
	var key [keyBytes]byte
	if err := ioctl(v.f, ioc(0x18, uintptr(len(key))), unsafe.Pointer(&key)); err != nil {
		return nil, err
	}
	out := []int{}
	for i, c := range v.keys {
		if key[c/8]>>(c%8)&1 != 0 {
			out = append(out, i+1)
		}
	}
	return out, nil
}

// drain reads and forgets the events that wait, so that this view never makes the kernel drop anything.
func (v *kernelView) drain() {
	var b [24 * 64]byte
	for {
		if n, err := unix.Read(int(v.f.Fd()), b[:]); n <= 0 || err != nil {
			return
		}
	}
}

// classic is the rig's own reader of a classic joystick node.
type classic struct {
	fd            int
	axes, buttons int
	axis          []int16
	button        []bool
	inits         []byte // types of the events after opening, in order
}

func openClassic(node string) (*classic, error) {
	fd, err := unix.Open(node, unix.O_RDONLY|unix.O_NONBLOCK|unix.O_CLOEXEC, 0)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", node, err)
	}
	var na, nb byte
	for _, q := range []struct {
		req uintptr
		to  *byte
	}{{jsGetAxes, &na}, {jsGetButtons, &nb}} {
		if _, _, no := unix.Syscall(unix.SYS_IOCTL, uintptr(fd), q.req, uintptr(unsafe.Pointer(q.to))); no != 0 {
			unix.Close(fd)
			return nil, fmt.Errorf("%s: %w", node, no)
		}
	}
	c := &classic{fd: fd, axes: int(na), buttons: int(nb), axis: make([]int16, na), button: make([]bool, nb)}
	return c, nil
}

func (c *classic) Close() error { return unix.Close(c.fd) }

// read takes in all events that wait.
func (c *classic) read() error {
	var b [8 * 32]byte
	for {
		n, err := unix.Read(c.fd, b[:])
		if errors.Is(err, unix.EAGAIN) {
			return nil
		}
		if err != nil {
			return err
		}
		for ev := b[:n]; len(ev) >= 8; ev = ev[8:] {
			value, kind, number := int16(binary.LittleEndian.Uint16(ev[4:])), ev[6], int(ev[7])
			if kind&jsInit != 0 {
				c.inits = append(c.inits, kind)
			}
			switch {
			case kind&^jsInit == jsAxis && number < c.axes:
				c.axis[number] = value
			case kind&^jsInit == jsButton && number < c.buttons:
				c.button[number] = value != 0
			}
		}
	}
}
