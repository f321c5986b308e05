package door

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// Open opens an ordinary file for reading, also by a link. What else stands there (a folder, a pipe, a device, a socket) is refused at
// once, and nothing of it is read: opening a pipe may wait for ever, and opening a device may do something. what is what the file is to be,
// such as "craft file". The error is an *Error.
func Open(path, what string) (*os.File, error) { return open(path, what, false) }

// OpenStream is Open that takes what the program was started with too, whatever it is (/dev/fd/3, as shells name a pipe to another program).
func OpenStream(path, what string) (*os.File, error) { return open(path, what, true) }

func open(path, what string, streams bool) (*os.File, error) {
	st, err := os.Stat(path)
	if err != nil {
		return nil, of(path, what, err)
	}
	given := streams && !st.IsDir() && handed(filepath.Clean(path))
	if k, ok := kindOf(st.Mode()); !ok && !given {
		return nil, &Error{Path: path, What: what, Why: k}
	}
	flag := os.O_RDONLY | atOnce
	if given {
		flag = os.O_RDONLY // a pipe that nobody writes to yet is waited for
	}
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return nil, of(path, what, err)
	}
	if st, err = f.Stat(); err == nil && !given { // another thing may have come between
		if k, ok := kindOf(st.Mode()); !ok {
			err = &Error{Path: path, What: what, Why: k}
		}
	}
	if err != nil {
		_ = f.Close()
		return nil, of(path, what, err)
	}
	return f, nil
}

// Read reads an ordinary file whole. One of more than most bytes gives ErrTooLong.
func Read(path, what string, most int) ([]byte, error) {
	f, err := Open(path, what)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	b, err := ReadAll(f, most)
	switch {
	case errors.Is(err, ErrTooLong):
		return nil, fmt.Errorf("%s: %w (%d bytes); give the path of a %s", path, err, most, what)
	case err != nil:
		return nil, of(path, what, err)
	}
	return b, nil
}

// ReadAll reads to the end. More than most bytes give the first of them and ErrTooLong.
func ReadAll(r io.Reader, most int) ([]byte, error) {
	b, err := io.ReadAll(io.LimitReader(r, int64(most)+1))
	if err == nil && len(b) > most {
		return b[:most], ErrTooLong
	}
	return b, err
}

// LineMost is the longest line that Lines gives, in bytes.
const LineMost = 64 << 10

// Lines gives the lines of r, one a call, without their ends. A line of more than LineMost bytes is passed over as a whole and gives
// ErrTooLong; the next call goes on behind it. io.EOF at the end.
func Lines(r io.Reader) func() (string, error) {
	in := bufio.NewReaderSize(r, LineMost+2) // with the end of the line, of two bytes at most
	return func() (string, error) {
		line, err := in.ReadSlice('\n')
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			for errors.Is(err, bufio.ErrBufferFull) {
				_, err = in.ReadSlice('\n')
			}
			if err != nil && err != io.EOF {
				return "", err
			}
			return "", fmt.Errorf("a line of more than %d bytes: %w", LineMost, ErrTooLong)
		case err != nil && (err != io.EOF || len(line) == 0):
			return "", err
		}
		if n := len(line); n > 0 && line[n-1] == '\n' {
			line = line[:n-1]
		}
		if n := len(line); n > 0 && line[n-1] == '\r' {
			line = line[:n-1]
		}
		return string(line), nil
	}
}

// until is a stream that is read until done at the longest: nothing wakes the read of a pipe or a terminal, so another goroutine does it, which
// may outlive the reader.
func until(done <-chan struct{}, r io.ReadCloser) io.ReadCloser {
	return &stoppable{r: r, done: done, gone: make(chan struct{}), read: make(chan chunk)}
}

type stoppable struct {
	r       io.ReadCloser
	done    <-chan struct{}
	gone    chan struct{} // closed by Close
	started bool
	read    chan chunk
	have    chunk
}

// chunk is what one read gave.
type chunk struct {
	b   []byte
	err error
}

func (s *stoppable) Close() error {
	close(s.gone)
	return s.r.Close()
}

func (s *stoppable) Read(p []byte) (int, error) {
	if !s.started {
		s.started = true
		go func() {
			for {
				b := make([]byte, 32<<10)
				n, err := s.r.Read(b)
				select {
				case s.read <- chunk{b[:n], err}:
				case <-s.done:
					return
				case <-s.gone:
					return
				}
				if err != nil {
					return
				}
			}
		}()
	}
	for len(s.have.b) == 0 && s.have.err == nil {
		select {
		case s.have = <-s.read:
		case <-s.done:
			s.have.err = ErrStopped
		}
	}
	n := copy(p, s.have.b)
	s.have.b = s.have.b[n:]
	if len(s.have.b) == 0 {
		return n, s.have.err
	}
	return n, nil
}
