package console

import (
	"io"
	"io/fs"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"
)

// A line that is too long is an error of its own, and what follows is still read.
func TestLines(t *testing.T) {
	fits, long := strings.Repeat("a", lineMost), strings.Repeat("b", 3*lineMost)
	for _, in := range []io.Reader{strings.NewReader("x\r\n\n" + fits + "\n" + long + "\nz"), iotest.OneByteReader(strings.NewReader("x\r\n\n" + fits + "\n" + long + "\nz"))} {
		next := Lines(in)
		for _, want := range []string{"x", "", fits} {
			got, err := next()
			require.NoError(t, err)
			require.Equal(t, want, got)
		}
		_, err := next()
		require.ErrorIs(t, err, ErrLongLine)
		got, err := next()
		require.NoError(t, err)
		require.Equal(t, "z", got)
		_, err = next()
		require.Equal(t, io.EOF, err)
	}
	next := Lines(strings.NewReader(long))
	_, err := next()
	require.ErrorIs(t, err, ErrLongLine)
	_, err = next()
	require.Equal(t, io.EOF, err)
	next = Lines(iotest.ErrReader(fs.ErrClosed))
	_, err = next()
	require.ErrorIs(t, err, fs.ErrClosed)
	// Nor is what never ends waited for.
	_, err = Lines(zeros{})()
	require.Equal(t, io.EOF, err)
}

// zeros never ends, as /dev/zero does not (zero(4)).
type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }
