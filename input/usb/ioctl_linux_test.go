package usb

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestQuestionNumbers(t *testing.T) {
	// Computed by a C compiler from include/uapi/linux/input.h and joystick.h.
	for want, got := range map[uintptr]uintptr{
		0x80184540: eviocgabs(0), 0x80184547: eviocgabs(7), 0x80084502: eviocgid(), 0x81004506: eviocgname(256),
		0x80604518: eviocgkey(96), 0x80044520: eviocgbit(0, 4), 0x400445a0: eviocsclockid(),
		0x80016a11: jsiocgaxes(), 0x80016a12: jsiocgbuttons(), 0x80806a13: jsiocgname(128), 0x80406a32: jsiocgaxmap(),
	} {
		assert.Equal(t, want, got, "%#x", want)
	}
	assert.Equal(t, uintptr(24), unsafe.Sizeof(absInfo{}))
	assert.Equal(t, uintptr(8), unsafe.Sizeof(inputID{}))
}

func TestBitmapOfTheKernel(t *testing.T) {
	var b [keyCount / 8]byte
	word := uint64(1)<<0x20 | 1<<0x2f // in the word from 0x100: 0x120 and 0x12f
	if nativeLong == 8 {
		binary.NativeEndian.PutUint64(b[0x100/8:], word)
	} else {
		binary.NativeEndian.PutUint32(b[0x120/8:], uint32(word>>32))
	}
	assert.Equal(t, codes(0x120, 0x12f), setFromBytes(&b))
}

func TestOpeningWhatIsNoRadio(t *testing.T) {
	dir := t.TempDir()
	for name, want := range map[string]string{"event0": "not an event node", "js0": "not a joystick node"} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte("text"), 0o600))
		_, err := Open(path, Options{Places: Places{Sys: dir}})
		require.ErrorContains(t, err, path)
		require.ErrorContains(t, err, want)
	}
	_, err := Open(filepath.Join(dir, "event9"), Options{})
	require.ErrorContains(t, err, "is not there")
	_, err = Open("", Options{})
	require.ErrorContains(t, err, "is not there")
	_, err = Open("/dev/null", Options{})
	require.ErrorContains(t, err, "not an event node")
}

func TestReadNowDoesNotWait(t *testing.T) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close()
	raw, err := r.SyscallConn()
	require.NoError(t, err)
	n := &node{r, raw}
	b := make([]byte, 10)
	got, err := n.readNow(b)
	require.NoError(t, err)
	require.Zero(t, got)
	_, err = w.WriteString("abc")
	require.NoError(t, err)
	got, err = n.readNow(b)
	require.NoError(t, err)
	require.Equal(t, "abc", string(b[:got]))
	require.NoError(t, r.Close())
	_, err = n.readNow(b)
	require.ErrorIs(t, err, os.ErrClosed)
	w.Close()
}

func TestNowRunsOn(t *testing.T) {
	last := Now()
	for range 1000 {
		now := Now()
		require.GreaterOrEqual(t, now, last)
		last = now
	}
}
