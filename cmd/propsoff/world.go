package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"golang.org/x/term"

	"propsoff/assets/door"
	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/console"
	"propsoff/cmd/propsoff/internal/terminal"
	"propsoff/input"
	"propsoff/input/radio"
	"propsoff/input/usb"
)

// world is everything outside that commands touch, so that tests can give their own.
type world struct {
	out, err io.Writer
	// door is the way of files in and out, for one run.
	door *door.Keeper
	// console is the terminal behind out, for pictures and keys; what makes pictures and colours goes there, never through out.
	console *console.Console
	// progress is where a line may be written over and over, nil where standard error is no terminal.
	progress io.Writer
	// interrupt does what Ctrl-C does while keys come one at a time; nil for nothing.
	interrupt func()
	// saw is given the lines of a learn command, for a hand that must have read them before more of its time passes; nil for nobody.
	saw func(*terminal.Lines)
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

// withDoors is the world of one run, whose text is shown and steers nothing, and which writes over nothing that it reads. Once ctx has ended
// nothing waits for standard input any more. close passes on what still waits, and gives the first error of writing.
func (w world) withDoors(ctx context.Context) (doors *world, close func() error) {
	if w.console == nil {
		w.console = console.New(w.out, w.screen, w.keys)
	}
	w.door = &door.Keeper{In: w.in, Out: w.out, Done: ctx.Done()} // what is published is bytes of any kind
	out, err := mouth.NewWriter(w.out), mouth.NewWriter(w.err)
	w.out, w.err = out, err
	return &w, func() error { return errors.Join(out.Close(), err.Close()) }
}

// say prints a sentence that belongs to no output.
func (w *world) say(sentence string) { fmt.Fprintln(w.err, mouth.Printable(sentence)) }

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
	if term.IsTerminal(int(os.Stderr.Fd())) {
		w.progress = os.Stderr
	}
	w.console = console.New(w.out, w.screen, w.keys)
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
