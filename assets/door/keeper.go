package door

import (
	"errors"
	"io"
	"os"
	"sync"

	"propsoff.example/assets/words"
)

// Dash stands for standard input or standard output in the place of a file.
const Dash = "-"

// Keeper knows what one run of the program reads and writes: it writes over nothing that it reads, no two things to one place, and reads
// standard input once. Its methods may be called by several goroutines at once. The zero Keeper has no standard input or output.
type Keeper struct {
	// In and Out are standard input and output, nil for none.
	In  io.Reader
	Out io.Writer
	// Done ends what still waits for a stream, with the error ErrStopped; nil for never.
	Done <-chan struct{}

	mu    sync.Mutex
	input words.ID // what standard input gives, empty while it was not read
	read  []os.FileInfo
	outs  []string
}

// Note remembers that a file is read.
func (k *Keeper) Note(path string) {
	if st, err := os.Stat(path); err == nil {
		k.mu.Lock()
		defer k.mu.Unlock()
		k.read = append(k.read, st)
	}
}

// Open opens what a person named for reading: an ordinary file, standard input for "-", or what the program was started with. what is what it
// is to be. Standard input is not closed by the one who reads it.
func (k *Keeper) Open(path string, what words.ID) (io.ReadCloser, error) {
	if path == Dash {
		k.mu.Lock()
		defer k.mu.Unlock()
		switch {
		case k.input != "":
			return nil, &Error{Path: path, What: k.input, Why: Twice}
		case k.In == nil:
			return nil, &Error{Path: path, What: what, Why: NoInput}
		}
		k.input = what
		if f, ok := k.In.(*os.File); ok { // of a shell's <
			if st, err := f.Stat(); err == nil && st.Mode().IsRegular() {
				k.read = append(k.read, st)
			}
		}
		return until(k.Done, io.NopCloser(k.In)), nil
	}
	f, err := OpenStream(path, what)
	if err != nil {
		return nil, err
	}
	k.Note(path)
	return until(k.Done, f), nil // also of a file: that of a network may give nothing for long
}

// Try is for each place that is to be written, before the work begins: it makes sure that Publish could write there now and that nothing
// else of this run is read from there or written to it.
func (k *Keeper) Try(path string, o Out) error {
	if err := k.Free(path); err != nil {
		return err
	}
	if path != Dash {
		if err := Try(path, o); err != nil {
			return offered(err)
		}
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, out := range k.outs {
		if IsStdout(out) && IsStdout(path) || out != Dash && path != Dash && samePlace(out, path) {
			return &Error{Path: path, Writing: true, Why: Twice}
		}
	}
	k.outs = append(k.outs, path)
	return nil
}

// Free refuses a place that this run reads.
func (k *Keeper) Free(path string) error {
	st, err := os.Stat(path)
	if err != nil || path == Dash || !st.Mode().IsRegular() {
		return nil
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, in := range k.read {
		if os.SameFile(in, st) {
			return &Error{Path: path, Writing: true, Why: OwnInput}
		}
	}
	return nil
}

// Publish is the function Publish for a place that was tried, or else is tried first; "-" is standard output.
func (k *Keeper) Publish(path string, o Out, write func(io.Writer) error) error {
	if path == Dash {
		out := k.Out
		if out == nil {
			out = io.Discard
		}
		return ofWriting("", write(out))
	}
	if err := k.Free(path); err != nil {
		return err
	}
	return offered(Publish(path, o, write))
}

// offered marks an error as one that goes away where writing over is asked for.
func offered(err error) error {
	if e := (*Error)(nil); errors.As(err, &e) && e.Why == There {
		told := *e
		told.Offer = true
		return &told
	}
	return err
}
