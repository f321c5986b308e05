// Package usb is the radio on the USB port: Linux events at full resolution, the portable library elsewhere, the browser's
// gamepad interface (one file each).
//
// List finds the radios that are plugged in, a Watcher tells of those that come and go, Open reads one. Whatever the way
// of reading, an opened radio is an input.Device: one goroutine of its own turns the system's reports into whole states
// that wait until they are polled, so that a slow screen loses none of them and delays none.
//
// The ways:
//   - event_linux.go: the kernel's event interface. Whole range, the kernel's own time stamps, whole packets.
//   - classic_linux.go: the kernel's classic joystick interface, where the event node may not be opened. The kernel puts a
//     dead zone round the centre of every axis there, so Info.Blunted is true.
//   - portable_windows.go: the library 0xcafed00d/joystick, polled; six axes and a hat.
//   - browser_js.go: the browser's gamepad interface, polled.
//   - none_other.go: every other system finds nothing and says why.
//
// This package reads the system's clock, to put all states on one clock: Now.
package usb

import (
	"os"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// The ways of reading, as code words: Info.Way and Found.Way.
const (
	WayEvent    = "event"
	WayClassic  = "classic"
	WayPortable = "portable"
	WayBrowser  = "browser"
)

// WithEngine stands behind a way where the window's engine tells of the axes beyond those that are read in that way.
const WithEngine = "+engine"

// ErrNone is wrapped by the error for a system on which no radio can be read.
var ErrNone error = words.Wrong("usb.none")

// Places tells where the system keeps its devices. The zero value is the running system; tests give a tree of their own.
// Only Linux looks at it.
type Places struct {
	Dev string // device nodes, "/dev" where empty
	Sys string // what the kernel says of its devices, "/sys" where empty

	// readable tells whether a node may be opened for reading; the system is asked where it is nil.
	readable func(path string) error
}

// Options say how a radio is opened.
type Options struct {
	// Epoch is the value of Now, in µs, that counts as 0 in the states' At. States from before it get At 0.
	Epoch int64
	// Places is where to look; the zero value is the running system.
	Places Places
}

// Found is one radio that is plugged in. A missing text is empty.
type Found struct {
	// Path is what Open takes: the event node where there is one, else the classic node, else "joystick 0".
	Path string
	// Event and Classic are the two nodes of the one device (Linux only, each empty where there is none).
	Event, Classic string
	// Name is what the device calls itself.
	Name string
	// Vendor and Product are the USB numbers, 0 where unknown.
	Vendor, Product uint16
	// Serial is the serial number, Port the physical place where it is plugged in; both tell twins apart.
	Serial, Port string
	// Axes and Buttons are how many it has, where that can be told without opening it; else 0.
	Axes, Buttons int
	// Way is how Open would read it now; empty where it cannot be read at all, and then Trouble says why.
	Way string
	// Trouble says why it cannot be read in the best way: it wraps fs.ErrPermission where the rights are missing. Nil
	// where all is well.
	Trouble error

	key string // tells two plug-ins of the same device apart
	sys string // the device's true place in the kernel's tree
}

// Notice is a USB device that offers storage or a serial port but no joystick: it may be a radio in another USB mode.
type Notice struct {
	// Maker and Name are as the device gives them, Port is its place on the bus ("1-1.2"), Serial its serial number.
	Maker, Name, Port, Serial string
	// Vendor and Product are the USB numbers.
	Vendor, Product uint16
	// Storage and SerialPort say what it offers; at least one is true.
	Storage, SerialPort bool

	key string
}

// List gives the radios that are plugged in now, always in the same order, and every USB device that might be a radio in
// another USB mode. A radio that may not be read is listed, with its Trouble.
func List() ([]Found, []Notice, error) { return Places{}.List() }

// List is the function List for these places.
func (p Places) List() ([]Found, []Notice, error) {
	found, err := scan(p)
	if err != nil {
		return nil, nil, err
	}
	var notices []Notice
	for _, n := range scanBus(p, found) {
		if n.concerns() {
			notices = append(notices, n)
		}
	}
	return found, notices, nil
}

// concerns tells whether the device offers something by which it might be a radio in another mode.
func (n *Notice) concerns() bool { return n.Storage || n.SerialPort }

// Open opens the radio at path (Found.Path; on Linux also any event or joystick node, and a link to one). Where the event
// node may not be opened, its classic twin is taken. The first state waits in the device when Open returns.
func Open(path string, opt Options) (input.Device, error) {
	d, err := open(path, opt)
	if err != nil {
		return nil, words.Within(path, err)
	}
	return d, nil
}

// closed is the error of Poll after Close.
func closed(name string) error { return words.Within(name, os.ErrClosed) }

// goneError is the error of Poll after the device has vanished.
type goneError struct {
	name string
	at   int64
}

// goneNow makes the error for a device that was found to have vanished just now.
func goneNow(name string, epoch int64) error { return goneError{name, max(Now()-epoch, 0)} }

// Problem says that the radio is gone.
func (g goneError) Problem() *words.Problem { return words.Within(g.name, input.ErrGone) }

func (g goneError) Error() string { return g.Problem().Error() }

// Unwrap gives input.ErrGone.
func (g goneError) Unwrap() error { return input.ErrGone }

// GoneAt is when it was noticed, in µs on the clock of the states' At.
func (g goneError) GoneAt() int64 { return g.at }
