package usb

import (
	"errors"
	"os"
	"path/filepath"
	"time"
	"unsafe"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// The classic interface is read here and not by the library 0xcafed00d/joystick, which is the portable way elsewhere. On Linux
// its version 1.0.1 cannot be used safely, whatever is put round it (joystick_linux.go there):
//   - its Read hands out the axis slice that its goroutine goes on writing to: a data race that no copying afterwards heals;
//   - an event for an axis that it did not count panics in its own goroutine, where nobody can recover;
//   - it keeps one state, not a queue: what happens between two polls is lost, and with it the kernel's time stamps;
//   - it cannot tell the INIT burst after dropped events from moving hands, and it forgets buttons above 32;
//   - its goroutine stays in a blocking read after Close, until the radio next moves.

// burstWait is how long the kernel may take to give the first whole state, which it has at hand (ours).
const burstWait = 500 * time.Millisecond

// openClassic opens a classic joystick node. Each axis runs from -32767 to 32767 after the kernel's correction, whose dead
// zone hides the centre.
func openClassic(path string, opt Options) (input.Device, error) {
	n, err := openNode(path)
	if err != nil {
		return nil, err
	}
	d, err := startClassic(n, path, opt)
	if err != nil {
		n.Close()
		return nil, err
	}
	return d, nil
}

func startClassic(n *node, path string, opt Options) (*device, error) {
	var axes, buttons uint8
	if err := n.ioctl(jsiocgaxes(), unsafe.Pointer(&axes)); err != nil {
		return nil, words.Wrong("usb.not-classic", words.Args{"why": words.Error(err)}).Because(err)
	}
	if err := n.ioctl(jsiocgbuttons(), unsafe.Pointer(&buttons)); err != nil {
		return nil, err
	}
	var codes [absCount]uint8
	if err := n.ioctl(jsiocgaxmap(), unsafe.Pointer(&codes)); err != nil {
		return nil, err
	}
	info := input.Info{
		Path: path, Name: n.textOf(jsiocgname), Way: WayClassic, Blunted: true,
		Buttons: min(int(buttons), input.MaxButtons),
	}
	for i := range min(int(axes), input.MaxAxes) {
		info.Axes = append(info.Axes, input.Axis{Code: int(codes[i]), Min: -jsEnd, Max: jsEnd, Hat: isHat(int(codes[i]))})
	}
	if len(info.Axes) == 0 {
		return nil, words.Wrong("usb.no-axes")
	}
	own := filepath.Join(opt.Places.sys(), "class/input", filepath.Base(path), "device")
	id := readIdentity(own)
	info.Vendor, info.Product, info.Serial, info.Port = id.vendor, id.product, id.serial, id.port
	if id.name != "" {
		info.Name = id.name // the whole of it: the node's own answer is cut at its buffer's end
	}

	q := newQueue()
	dec := &classicDecoder{
		out: q, axes: int(axes), buttons: int(buttons),
		clock: func() int64 { return max(Now()-opt.Epoch, 0) },
	}
	buf := make([]byte, classicBuffer)
	have, err := firstBurst(n, dec, buf)
	if err != nil {
		return nil, err
	}
	return start(info, q, n, dec, opt.Epoch, buf, have), nil
}

// classicBuffer is the room for one read, in bytes: the kernel keeps 64 events. Never 12 with whatever waits in it: a read of
// just 12 bytes selects an interface of long ago (drivers/input/joydev.c, joydev_read).
const classicBuffer = 64 * jsEventSize

// firstBurst reads until the whole state is known.
func firstBurst(n *node, dec *classicDecoder, buf []byte) (have int, err error) {
	if err := n.SetReadDeadline(time.Now().Add(burstWait)); err != nil {
		return 0, err
	}
	for !dec.started {
		got, err := n.Read(buf[have:])
		have += got
		have = copy(buf, buf[dec.feed(buf[:have]):have])
		if errors.Is(err, os.ErrDeadlineExceeded) {
			return 0, words.Wrong("usb.no-state")
		} else if err != nil {
			return 0, err
		}
	}
	return have, n.SetReadDeadline(time.Time{})
}
