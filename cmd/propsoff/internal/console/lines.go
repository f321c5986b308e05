package console

import (
	"bufio"
	"errors"
	"io"

	"propsoff.example/assets/words"
)

// lineMost is the longest line that Lines gives, endless what counts as no line at all, in bytes (ours): no person types either.
const (
	lineMost = 64 << 10
	endless  = 64 << 20
)

// ErrLongLine is a line that was passed over.
var ErrLongLine error = words.Wrong("typed.long-line", words.Args{"most": words.Grouped(lineMost)})

// Lines gives the lines of r, one a call, without their ends. A line of more than 64 KiB is passed over as a whole and gives ErrLongLine; the
// next call goes on behind it. io.EOF at the end, which is also where no line ever ends.
func Lines(r io.Reader) func() (string, error) {
	in := bufio.NewReaderSize(r, lineMost+2) // with the end of the line, of two bytes at most
	return func() (string, error) {
		line, err := in.ReadSlice('\n')
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			for n := len(line); errors.Is(err, bufio.ErrBufferFull); n += len(line) {
				if n > endless {
					return "", io.EOF
				}
				line, err = in.ReadSlice('\n')
			}
			if err != nil && err != io.EOF {
				return "", err
			}
			return "", ErrLongLine
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
