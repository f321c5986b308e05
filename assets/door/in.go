package door

import (
	"cmp"
	"errors"
	"io"
	"os"
	"time"

	"propsoff.example/assets/words"
)

// Open opens an ordinary file for reading, also by a link. What else stands there (a folder, a pipe, a device, a socket) is refused at
// once, and nothing of it is read: opening a pipe may wait for ever, and opening a device may do something. what is what the file is to be,
// such as "craft-file.craft", a message. The error is an *Error.
func Open(path string, what words.ID) (*os.File, error) { return open(path, what, false) }

// OpenStream is Open that takes what the program was started with too, whatever it is (/dev/fd/3, as shells name a pipe to another program).
func OpenStream(path string, what words.ID) (*os.File, error) { return open(path, what, true) }

func open(path string, what words.ID, streams bool) (*os.File, error) {
	st, err := os.Stat(path)
	if err != nil {
		return nil, of(path, what, err)
	}
	k, ordinary := kindOf(st.Mode())
	if fd, ok := handed(path); ok && streams && !ordinary && k != Folder {
		f, err := openHanded(fd, path)
		return f, of(path, what, err)
	}
	if !ordinary {
		return nil, &Error{Path: path, What: what, Why: k}
	}
	f, err := os.OpenFile(path, os.O_RDONLY|atOnce, 0)
	if err != nil {
		return nil, of(path, what, err)
	}
	if st, err = f.Stat(); err == nil { // another thing may have come between
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

// Read reads an ordinary file whole. The error is an *Error; one of more than most bytes gives ErrTooLong.
func Read(path string, what words.ID, most int) ([]byte, error) {
	f, err := Open(path, what)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	b, err := ReadAll(f, most)
	switch {
	case errors.Is(err, ErrTooLong):
		args := words.Args{"most": words.Whole(most), "what": words.T(cmp.Or(what, "door.file"))}
		return nil, words.Wrong("door.too-long", args).In(path).Because(err)
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

// until reads r until done: nothing wakes the read of a pipe or a terminal, so a goroutine does the reading, which may outlive the reader.
func until(done <-chan struct{}, r io.ReadCloser) io.ReadCloser {
	return &stoppable{r: r, done: done, gone: make(chan struct{}), read: make(chan chunk)}
}

// lastWait is how long a read may still take once its program is to end: enough for what is there already, so that a search that is stopped at once has
// its craft (ours).
const lastWait = time.Second

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
			select {
			case s.have = <-s.read:
			case <-time.After(lastWait):
				s.have.err = ErrStopped
			}
		}
	}
	n := copy(p, s.have.b)
	s.have.b = s.have.b[n:]
	if len(s.have.b) == 0 {
		return n, s.have.err
	}
	return n, nil
}
