package usb

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/input"
)

func TestParseSet(t *testing.T) {
	// The same codes in the two forms in which drivers/input/input.c prints them: 0x120..0x12f and 0x2c0..0x2c7.
	for word, text := range map[int]string{
		64: "ff 0 0 0 0 0 0 ffff00000000 0 0 0 0",
		32: "ff 0 0 0 0 0 0 0 0 0 0 0 0 ffff 0 0 0 0 0 0 0 0 0",
	} {
		s, err := parseSet(text, word)
		require.NoError(t, err)
		for n := range keyCount {
			assert.Equal(t, n >= 0x120 && n < 0x130 || n >= 0x2c0 && n < 0x2c8, s.has(n), "code %#x, words of %d", n, word)
		}
	}
	for _, bad := range []string{"x", "-1", "1 0 0 0 0 0 0 0 0 0 0 0 0", "10000000000000000"} {
		_, err := parseSet(bad, 64)
		assert.Error(t, err, bad)
	}
	_, err := parseSet("100000000", 32)
	assert.Error(t, err)
	s, err := parseSet("", 64)
	require.NoError(t, err)
	assert.Equal(t, set{}, s)
}

func codes(ns ...int) (s set) {
	for _, n := range ns {
		s[n/64] |= 1 << (n % 64)
	}
	return s
}

func between(lo, hi int) (ns []int) {
	for n := lo; n <= hi; n++ {
		ns = append(ns, n)
	}
	return ns
}

func TestWhatIsAJoystick(t *testing.T) {
	for name, x := range map[string]struct {
		c       caps
		sibling bool
		want    bool
	}{
		"radio with joystick buttons":        {caps{abs: codes(between(0, 7)...), keys: codes(between(0x120, 0x12f)...)}, false, true},
		"radio with 24 buttons":              {caps{abs: codes(0, 1), keys: codes(append(between(0x120, 0x12f), between(0x2c0, 0x2c7)...)...)}, false, true},
		"gamepad":                            {caps{abs: codes(0, 1, 3, 4), keys: codes(between(0x130, 0x13a)...)}, false, true},
		"only the buttons beyond sixteen":    {caps{abs: codes(2), keys: codes(0x2c0)}, false, true},
		"radio without buttons":              {caps{abs: codes(0, 1, 2, 5)}, false, true},
		"throttle alone, as the kernel says": {caps{abs: codes(6)}, true, true},
		"throttle alone":                     {caps{abs: codes(6)}, false, false},
		"joystick with a mouse in it":        {caps{abs: codes(0, 1), rel: codes(0, 1), keys: codes(0x110, 0x120)}, false, true},
		"buttons without axes":               {caps{keys: codes(0x120)}, true, false},
		"mouse":                              {caps{rel: codes(0, 1), keys: codes(0x110, 0x111)}, false, false},
		"mouse that points absolutely":       {caps{abs: codes(0, 1), rel: codes(0, 8), keys: codes(0x110, 0x111)}, true, false},
		"touchpad":                           {caps{abs: codes(0, 1, 0x18, 0x2f), keys: codes(0x110, 0x145, 0x14a), props: codes(0)}, false, false},
		"touch screen":                       {caps{abs: codes(0, 1), keys: codes(0x14a), props: codes(1)}, false, false},
		"tablet":                             {caps{abs: codes(0, 1, 0x18), keys: codes(0x140, 0x14a)}, true, false},
		"accelerometer":                      {caps{abs: codes(0, 1, 2, 3, 4, 5), props: codes(6)}, true, false},
		"accelerometer that does not say so": {caps{abs: codes(0, 1, 2)}, false, false},
		"keyboard":                           {caps{keys: codes(between(1, 0xff)...)}, false, false},
		"keyboard with a volume axis":        {caps{abs: codes(0x20), keys: codes(between(1, 0xff)...)}, false, false},
		"keyboard with many nonsense axes":   {caps{abs: codes(between(0, 7)...), keys: codes(between(1, 0xff)...)}, false, false},
		"nothing":                            {caps{}, true, false},
	} {
		assert.Equal(t, x.want, x.c.joystick(x.sibling), name)
	}
}

func TestOrderIsTheClassicInterfacesOrder(t *testing.T) {
	// drivers/input/joydev.c, joydev_connect: axes by ascending code; buttons from 0x120 up, then 0x100 to 0x11f.
	c := caps{
		abs:  codes(7, 0, 0x10, 0x11, 5),
		keys: codes(30, 0x100, 0x11f, 0x120, 0x12f, 0x2c0, 0x2c7, 0x2ff),
	}
	assert.Equal(t, []uint16{0, 5, 7, 0x10, 0x11}, c.axes())
	assert.Equal(t, []uint16{0x120, 0x12f, 0x2c0, 0x2c7, 0x2ff, 0x100, 0x11f}, c.buttons())

	// drivers/hid/hid-input.c: joystick buttons 1 to 16 are 0x120.., from 17 on 0x2c0..: button 24 has code 0x2c7.
	c.keys = codes(append(between(0x120, 0x12f), between(0x2c0, 0x2c7)...)...)
	require.Len(t, c.buttons(), 24)
	assert.Equal(t, uint16(0x2c7), c.buttons()[23])

	all := caps{abs: codes(between(0, absCount-1)...), keys: codes(between(0, keyCount-1)...)}
	assert.Len(t, all.axes(), input.MaxAxes)
	assert.Len(t, all.buttons(), input.MaxButtons)
	assert.True(t, isHat(0x10) && isHat(0x17) && !isHat(0x0f) && !isHat(0x18))
}

func TestTextIsCutAtItsPadding(t *testing.T) {
	assert.Equal(t, "Curlew Field 2", text([]byte("Curlew Field 2 \x00\x00rest")))
	assert.Equal(t, "", text(make([]byte, 255)))
	assert.Equal(t, "a?b", text([]byte("a\xffb\n")))
}
