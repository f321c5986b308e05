package usb

import (
	"os"
	"path/filepath"
	"strings"
)

// USB classes of devices and interfaces. Source: the USB class codes, usb.org "Defined Class Codes"; the subclasses of class
// 02 from USB CDC 1.2, table 4 (from memory).
const (
	classComm    = 0x02
	classHuman   = 0x03
	classStorage = 0x08
	classHub     = 0x09
	classData    = 0x0a

	commSerial = 0x02 // subclass: a line with modem commands, which is how serial ports are given

	humanBoot = 0x01 // subclass and protocols: keyboards and mice
	bootKeys  = 0x01
	bootMouse = 0x02
)

// scanBus lists all USB devices but hubs, in the bus's order. Storage and SerialPort are told of those without a joystick only.
func scanBus(p Places, joysticks []Found) []Notice {
	bus := filepath.Join(p.sys(), "bus/usb/devices")
	entries, err := os.ReadDir(bus)
	if err != nil {
		return nil // a system without USB, or one that does not let us look: then there is nothing to say
	}
	var notices []Notice
	for _, e := range entries {
		if strings.Contains(e.Name(), ":") || strings.HasPrefix(e.Name(), "usb") {
			continue // an interface, or the root of a bus
		}
		real, err := filepath.EvalSymlinks(filepath.Join(bus, e.Name()))
		if err != nil {
			continue // gone while we looked
		}
		n := Notice{Port: e.Name(), Maker: word(real, "manufacturer"), Name: word(real, "product"), Serial: word(real, "serial"),
			Vendor: hex16(real, "idVendor"), Product: hex16(real, "idProduct")}
		// The number on the bus is a new one each time something is plugged in, also into the same socket.
		n.key = real + " " + word(real, "devnum")
		if hex16(real, "bDeviceClass") == classHub {
			continue
		}
		if !holds(real, joysticks) {
			n.Storage, n.SerialPort = offers(real)
		}
		notices = append(notices, n)
	}
	return notices
}

// holds tells whether one of the joysticks is part of the USB device at dir.
func holds(dir string, joysticks []Found) bool {
	for _, f := range joysticks {
		if strings.HasPrefix(f.sys, dir+"/") {
			return true
		}
	}
	return false
}

// offers looks through the interfaces of the USB device at dir. Keyboards and mice offer nothing that concerns us, whatever
// else is in them, nor do network devices, whose data pass through class 0A too.
func offers(dir string) (storage, serialPort bool) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return false, false // gone while we looked
	}
	data, network := false, false
	for _, e := range entries {
		if !strings.Contains(e.Name(), ":") {
			continue // no interface: the folder also holds the devices behind this one
		}
		i := filepath.Join(dir, e.Name())
		class, sub, proto := hex16(i, "bInterfaceClass"), hex16(i, "bInterfaceSubClass"), hex16(i, "bInterfaceProtocol")
		switch class {
		case classHuman:
			if sub == humanBoot && (proto == bootKeys || proto == bootMouse) {
				return false, false
			}
		case classStorage:
			storage = true
		case classComm:
			if sub == commSerial || sub == 0 {
				serialPort = true
			} else {
				network = true
			}
		case classData:
			data = true
		default:
			// Serial chips of a maker's own class: the kernel's driver has made a port of it.
			serialPort = serialPort || hasPort(i)
		}
	}
	return storage, serialPort || data && !network
}

// hasPort tells whether a serial port's node hangs on the interface at dir: ttyUSB0 in it, or tty/ttyACM0.
func hasPort(dir string) bool {
	for _, in := range []string{dir, filepath.Join(dir, "tty")} {
		entries, err := os.ReadDir(in)
		if err != nil {
			continue
		}
		for _, e := range entries {
			if strings.HasPrefix(e.Name(), "ttyUSB") || strings.HasPrefix(e.Name(), "ttyACM") {
				return true
			}
		}
	}
	return false
}
