// Package world is everything outside the program that a command touches: the terminal, the files that a person names, radios, the clock.
package world

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"golang.org/x/term"

	"propsoff.example/assets/door"
	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/input"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
)

// Version of the program.
const Version = "0.1.0"

// World is a world that a command may be run in: the real one, or one that a test makes up.
type World struct {
	// Out and Err are standard output and standard error.
	Out, Err io.Writer
	// Book is the language that is spoken, nil for English.
	Book *words.Book
	// Getenv reads the environment, in which the system's language stands; nil for an empty one.
	Getenv func(name string) string
	// OpenPage opens an address in the system's browser; nil opens nothing.
	OpenPage func(address string) error
	// Door is the way of files in and out, for one run.
	Door *door.Keeper
	// Console is the terminal behind Out, for pictures and keys; what makes pictures and colours goes there, never through Out.
	Console *console.Console
	// Progress is where a line may be written over and over, nil where standard error is no terminal.
	Progress io.Writer
	// Interrupt does what Ctrl-C does while keys come one at a time; nil for nothing.
	Interrupt func()
	// Saw is given the lines of a learn command, for a hand that must have read them before more of its time passes; nil for nobody.
	Saw func(*terminal.Lines)
	// In is standard input, nil for none. Keys has it give single keys at once, where it is a terminal (ok); restore undoes
	// that.
	In   io.Reader
	Keys func() (restore func(), ok bool)
	// Asks: In is a terminal, so that somebody may answer a question.
	Asks bool
	// Screen gives the size of the terminal that Out is, in characters; ok is false where it is none.
	Screen func() (columns, rows int, ok bool)
	Radios Port
	// Now is the clock of the devices' stamps in µs.
	Now func() int64
	// Store is where radio files are kept; its folder is empty where none is known.
	Store radio.Store
	// peeked are texts that were read to see what they are.
	peeked map[string][]byte
}

// Port is how radios are found and opened.
type Port interface {
	// List is usb.List.
	List() ([]usb.Found, []usb.Notice, error)
	// Watch is usb.Watch.
	Watch() (Watcher, error)
	// Open is usb.Open of one that was listed; its stamps count from epoch, in µs on the world's clock.
	Open(path string, epoch int64) (input.Device, error)
}

// Watcher is what usb.Watcher does.
type Watcher interface {
	// Poll appends what has come and gone since the last call.
	Poll(dst []usb.Change) []usb.Change
	// Wake gives something when there may be a change.
	Wake() <-chan struct{}
	// Found are the radios that are there.
	Found() []usb.Found
	// Close ends it.
	Close() error
}

// WithDoors is the world of one run, whose text is shown and steers nothing, and which writes over nothing that it reads. Once ctx has ended
// nothing waits for standard input any more. close passes on what still waits, and gives the first error of writing.
func (w World) WithDoors(ctx context.Context) (doors *World, close func() error) {
	if w.Console == nil {
		w.Console = console.New(w.Out, w.Screen, w.Keys)
	}
	w.Door = &door.Keeper{In: w.In, Out: w.Out, Done: ctx.Done()} // what is published is bytes of any kind
	out, err := mouth.NewWriter(w.Out), mouth.NewWriter(w.Err)
	w.Out, w.Err = out, err
	return &w, func() error { return errors.Join(out.Close(), err.Close()) }
}

// Dumb tells whether the terminal says of itself that nothing can be drawn in place on it.
func (w *World) Dumb() bool { return w.Getenv != nil && w.Getenv("TERM") == "dumb" }

// Terminal tells whether anybody sees in a terminal what is said, or steers by it.
func (w *World) Terminal() bool {
	screen := false
	if w.Screen != nil {
		_, _, screen = w.Screen()
	}
	return w.Asks || screen || w.Progress != nil
}

// Language is Book, English where that is nil.
func (w *World) Language() *words.Book { return w.Book.OrEnglish() }

// Environment is a variable of the environment, empty for none.
func (w *World) Environment(name string) string {
	if w.Getenv == nil {
		return ""
	}
	return w.Getenv(name)
}

// Say is a Text in the language of the world.
func (w *World) Say(t words.Text) string { return w.Language().Say(t) }

// Error is what an error says in the language of the world, empty for nil. It is what is printed of one that ends a command.
func (w *World) Error(err error) string { return w.Language().Error(err) }

// Tell prints a sentence that belongs to no output.
func (w *World) Tell(t words.Text) { fmt.Fprintln(w.Err, mouth.Printable(w.Say(t))) }

// Real is the running system.
func Real() *World {
	w := &World{Out: os.Stdout, Err: os.Stderr, In: os.Stdin, Getenv: os.Getenv, Radios: usbPort{}, Now: usb.Now}
	w.Asks = term.IsTerminal(int(os.Stdin.Fd()))
	w.Keys = func() (func(), bool) {
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
	w.Screen = func() (int, int, bool) {
		columns, rows, err := term.GetSize(int(os.Stdout.Fd()))
		return columns, rows, err == nil && term.IsTerminal(int(os.Stdout.Fd()))
	}
	if term.IsTerminal(int(os.Stderr.Fd())) {
		w.Progress = os.Stderr
	}
	w.Console = console.New(w.Out, w.Screen, w.Keys)
	if dir, err := radio.Folder(); err == nil {
		w.Store.Dir = dir
	}
	return w
}

// usbPort is the running system.
type usbPort struct{}

func (usbPort) List() ([]usb.Found, []usb.Notice, error) { return usb.List() }

func (usbPort) Watch() (Watcher, error) { return usb.Watch(usb.Places{}) }

func (usbPort) Open(path string, epoch int64) (input.Device, error) {
	return usb.Open(path, usb.Options{Epoch: epoch})
}

// Together runs every part until one of them ends or ctx is done, then lets the others end, and gives the first error that
// is not the end of ctx. A part that panics gives the terminal back first.
func (w *World) Together(ctx context.Context, parts ...func(context.Context) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	results := make(chan error)
	for _, part := range parts {
		go func() { results <- w.Console.Guard(func() error { return part(ctx) }) }()
	}
	var first error
	for range parts {
		err := <-results
		cancel()
		if first == nil && !errors.Is(err, context.Canceled) && !errors.Is(err, context.DeadlineExceeded) {
			first = err
		}
	}
	return first
}
