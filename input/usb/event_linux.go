package usb

import (
	"encoding/binary"
	"unsafe"

	"golang.org/x/sys/unix"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// openEvent opens an event node: the device's whole range, its own time stamps, whole packets.
func openEvent(path string, opt Options) (input.Device, error) {
	n, err := openNode(path)
	if err != nil {
		return nil, err
	}
	d, err := startEvent(n, path, opt)
	if err != nil {
		n.Close()
		return nil, err
	}
	return d, nil
}

func startEvent(n *node, path string, opt Options) (*device, error) {
	c, err := n.caps()
	if err != nil {
		return nil, words.Wrong("usb.not-event", words.Args{"why": words.Error(err)}).Because(err)
	}
	info := input.Info{Path: path, Way: WayEvent}
	info.Name = n.textOf(eviocgname)
	info.Port = n.textOf(eviocgphys)
	info.Serial = n.textOf(eviocguniq)
	var id inputID
	if err := n.ioctl(eviocgid(), unsafe.Pointer(&id)); err != nil {
		return nil, err
	}
	info.Vendor, info.Product = id.vendor, id.product
	for _, code := range c.axes() {
		var a absInfo
		if err := n.ioctl(eviocgabs(code), unsafe.Pointer(&a)); err != nil {
			return nil, err
		}
		info.Axes = append(info.Axes, input.Axis{Code: int(code), Min: a.minimum, Max: a.maximum, Hat: isHat(int(code))})
	}
	if len(info.Axes) == 0 {
		return nil, words.Wrong("usb.no-axes")
	}
	keys := c.buttons()
	info.Buttons = len(keys)

	// The clock comes before the first state is asked for: changing it throws waiting events away and queues SYN_DROPPED.
	// Source: drivers/input/evdev.c, evdev_set_clk_type.
	clock := int32(unix.CLOCK_MONOTONIC)
	if err := n.ioctl(eviocsclockid(), unsafe.Pointer(&clock)); err != nil {
		return nil, err
	}
	q := newQueue()
	a := &asker{node: n, axes: c.axes(), keys: keys}
	dec := newEventDecoder(q, &info, keys, a.ask, opt.Epoch)
	if err := dec.first(Now() - opt.Epoch); err != nil {
		return nil, err
	}
	return start(info, q, n, dec, opt.Epoch, make([]byte, eventBuffer), 0), nil
}

// caps asks an event node what it can send.
func (n *node) caps() (caps, error) {
	var c caps
	for _, ask := range []struct {
		into *set
		req  uintptr
	}{
		{&c.keys, eviocgbit(evKey, keyCount/8)},
		{&c.abs, eviocgbit(evAbs, absCount/8)},
		{&c.rel, eviocgbit(evRel, 2)},
		{&c.props, eviocgprop(4)},
	} {
		var b [keyCount / 8]byte
		if err := n.ioctl(ask.req, unsafe.Pointer(&b)); err != nil {
			return c, err
		}
		*ask.into = setFromBytes(&b)
	}
	return c, nil
}

// asker asks the kernel for the whole state of a device.
type asker struct {
	node *node
	axes []uint16
	keys []uint16
	abs  absInfo
	bits [keyCount / 8]byte
}

// ask fills in axes and buttons. Buttons first: the kernel takes waiting button events off the queue with this question, while
// an axis event that still waits only says again what the answer said.
func (a *asker) ask(s *input.Raw) error {
	if err := a.node.ioctl(eviocgkey(len(a.bits)), unsafe.Pointer(&a.bits)); err != nil {
		return err
	}
	pressed := setFromBytes(&a.bits)
	for i, k := range a.keys {
		setBit(s, i, pressed.has(int(k)))
	}
	for i, code := range a.axes {
		if err := a.node.ioctl(eviocgabs(code), unsafe.Pointer(&a.abs)); err != nil {
			return err
		}
		s.Axes[i] = a.abs.value
	}
	return nil
}

// setFromBytes reads a bitmap of the kernel, which is an array of longs in the machine's order.
func setFromBytes(b *[keyCount / 8]byte) set {
	var s set
	bigEndian := binary.NativeEndian.Uint16([]byte{0, 1}) == 1
	for n := range keyCount {
		at := n / 8
		if bigEndian {
			at ^= nativeLong - 1
		}
		s[n/64] |= uint64(b[at]>>(n%8)&1) << (n % 64)
	}
	return s
}
