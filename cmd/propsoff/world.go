package main

import (
	"io"
	"os"

	"golang.org/x/term"

	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/usb"
)

// world is everything outside that commands touch, so that tests can give their own.
type world struct {
	out, err io.Writer
	// in is standard input, nil for none. keys has it give single keys at once, where it is a terminal (ok); restore undoes
	// that.
	in   io.Reader
	keys func() (restore func(), ok bool)
	// asks: in is a terminal, so that somebody may answer a question.
	asks bool
	// screen gives the size of the terminal that out is, ok false where it is none.
	screen func() (columns, rows int, ok bool)
	radios port
	// now is the clock of the devices' stamps in µs.
	now func() int64
	// store is where radio files are kept; its folder is empty where none is known.
	store radio.Store
}

// port is how radios are found and opened.
type port interface {
	List() ([]usb.Found, []usb.Notice, error)
	Watch() (portWatcher, error)
	Open(path string, epoch int64) (input.Device, error)
}

// portWatcher is what usb.Watcher does.
type portWatcher interface {
	Poll(dst []usb.Change) []usb.Change
	Wake() <-chan struct{}
	Found() []usb.Found
	Close() error
}

func realWorld() *world {
	w := &world{out: os.Stdout, err: os.Stderr, in: os.Stdin, radios: usbPort{}, now: usb.Now}
	w.asks = term.IsTerminal(int(os.Stdin.Fd()))
	w.keys = func() (func(), bool) {
		in := int(os.Stdin.Fd())
		if !term.IsTerminal(in) {
			return nil, false
		}
		was, err := term.MakeRaw(in)
		if err != nil {
			return nil, false
		}
		return func() { _ = term.Restore(in, was) }, true
	}
	w.screen = func() (int, int, bool) {
		columns, rows, err := term.GetSize(int(os.Stdout.Fd()))
		return columns, rows, err == nil && term.IsTerminal(int(os.Stdout.Fd()))
	}
	if dir, err := radio.Folder(); err == nil {
		w.store.Dir = dir
	}
	return w
}

// usbPort is the running system.
type usbPort struct{}

func (usbPort) List() ([]usb.Found, []usb.Notice, error) { return usb.List() }

func (usbPort) Watch() (portWatcher, error) { return usb.Watch(usb.Places{}) }

func (usbPort) Open(path string, epoch int64) (input.Device, error) {
	return usb.Open(path, usb.Options{Epoch: epoch})
}
