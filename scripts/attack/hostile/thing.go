//go:build linux

package hostile

import (
	"bytes"
	"io"
	"math/rand/v2"
	"net"
	"os"
	"strings"
	"syscall"
)

// Thing is what may stand at a path in the place of a file.
type Thing struct {
	Name string
	// Make puts it there; where it is nil, At is the path of one that the system has.
	Make func(path string) error
	At   string
	// Refused: whoever is given it as an input must say no at once.
	Refused bool
	// Nobody: it means something only to those who may not do everything.
	Nobody bool
}

// Things are what an input may turn out to be.
var Things = []Thing{
	{Name: "FIFO", Make: func(p string) error { return syscall.Mkfifo(p, 0o644) }, Refused: true},
	{Name: "link to a FIFO", Make: func(p string) error {
		if err := syscall.Mkfifo(p+".fifo", 0o644); err != nil {
			return err
		}
		return os.Symlink(p+".fifo", p)
	}, Refused: true},
	{Name: "socket", Make: socket, Refused: true},
	{Name: "folder", Make: func(p string) error { return os.Mkdir(p, 0o755) }, Refused: true},
	{Name: "link to nothing", Make: func(p string) error { return os.Symlink("nothing-there", p) }, Refused: true},
	{Name: "link to itself", Make: func(p string) error { return os.Symlink(p, p) }, Refused: true},
	{Name: "link to /dev/zero", Make: func(p string) error { return os.Symlink("/dev/zero", p) }, Refused: true},
	{Name: "file without rights", Make: func(p string) error { return os.WriteFile(p, []byte("propsoff: x\n"), 0) }, Refused: true, Nobody: true},
	{Name: "nothing", Make: func(string) error { return nil }, Refused: true},
	{Name: "/dev/zero", At: "/dev/zero", Refused: true},
	{Name: "/dev/full", At: "/dev/full", Refused: true},
	{Name: "/dev/null", At: "/dev/null", Refused: true},
	{Name: "/dev/urandom", At: "/dev/urandom", Refused: true},
	{Name: "/dev/tty", At: "/dev/tty", Refused: true},
	{Name: "/dev/ptmx", At: "/dev/ptmx", Refused: true},
	{Name: "/proc/self/mem", At: "/proc/self/mem", Refused: true},
	{Name: "/proc/self/maps", At: "/proc/self/maps"},
	{Name: "/proc/self/environ", At: "/proc/self/environ"},
	{Name: "/proc/cpuinfo", At: "/proc/cpuinfo"},
	{Name: "/proc/self", At: "/proc/self", Refused: true},
	{Name: "a file as a folder", At: "dear.txt/x", Refused: true},
	{Name: "a long name", At: strings.Repeat("n", 300), Refused: true},
	{Name: "a long path", At: strings.Repeat("n/", 3000) + "x", Refused: true},
	{Name: "no name", At: "", Refused: false},
	{Name: "a dash", At: "-"},
}

// FullDevice puts a device that is always full at a path. It is one of our own where that may be made, for a broken program may take it away.
func FullDevice(path string) error {
	const full = 1<<8 | 7 // of the kernel's list of devices: character device 1:7 is /dev/full
	if err := syscall.Mknod(path, syscall.S_IFCHR|0o666, full); err != nil {
		return os.Symlink("/dev/full", path)
	}
	return nil
}

func socket(path string) error {
	l, err := net.ListenUnix("unix", &net.UnixAddr{Name: path, Net: "unix"})
	if err != nil {
		return err
	}
	l.SetUnlinkOnClose(false)
	return l.Close()
}

// Names are beginnings of file names that steer a terminal, or lead a careless program astray. Each ends in what a reader can find again.
var Names = []string{"a\x1b[31m-hostile", "b\u202e-hostile", "c\u2066-hostile", "d\n-hostile", "e\a\x7f-hostile", "f\u009b31m-hostile", "g\xff\x9b-hostile", "h\r-hostile", "-hostile", "--hostile",
	" hostile", "~hostile", "$(hostile)", "%s%n-hostile", "é-hostile", "e\u0301-hostile", "*-hostile", "i\u2028-hostile", "j\t-hostile", strings.Repeat("k", 180) + "-hostile"}

// Values are those of flags and arguments that nobody should write. None leads out of the folder of the attack: a program that is broken
// may write there.
var Values = append([]string{"", " ", "-", "--", "-1", "0", "hostile", "\x1b[31mhostile\x1b[0m", "\u202ehostile", "\u2066hostile", "\xff\x9bhostile", "hostile\nhostile", "hostile\rx", "\u009bhostile",
	"\a\b\x7fhostile", strings.Repeat("hostile", 10_000), "%s%d%n", "../../hostile", "/dev/null/x", ".", "..", "1x1", "0x0", "99999999999x1", "16384x16384", "-1x-1", "NaNxNaN", "1280x800x2", "1e3x1e3",
	"1ns", "-1s", "0s", "999999999h", "9223372036854775807ns", "1.5h", "10", "2031-13-45", "0000-00-00", "99999-01-01", "none", "2s=x.png", "=x.png", "2s=", "letter", "a4", "dark", "drills", "desk",
	"armed-throttle", "demo", "built-in", "hop", "teasel", "examples", "true", "false", "\u200b", "a\u0300", strings.Repeat("é", 41)}, numbers...)

// Big is one kind of large file.
type Big struct {
	Name string
	// OfGood: it is made of the good file, else it is the same for all.
	OfGood bool
	Write  func(w io.Writer, r *rand.Rand, good []byte, size int) error
}

// Bigs are large files, made of a good one or of nothing but one thing.
var Bigs = []Big{
	{Name: "newlines", Write: repeated("\n")},
	{Name: "one line", Write: repeated("a")},
	{Name: "one line of names", Write: repeated(`"name" `)},
	{Name: "braces", Write: repeated(`{"a":`)},
	{Name: "brackets", Write: repeated("[")},
	{Name: "empty objects", Write: repeated("{}\n")},
	{Name: "spaces", Write: repeated(" ")},
	{Name: "zeros", Write: repeated("\x00")},
	{Name: "ones", Write: repeated("\x01")},
	{Name: "keys", Write: repeated("key: value\n")},
	{Name: "good, then newlines", OfGood: true, Write: func(w io.Writer, r *rand.Rand, good []byte, size int) error {
		if _, err := w.Write(good); err != nil {
			return err
		}
		return repeated("\n")(w, r, nil, size)
	}},
	{Name: "good lines, over and over", OfGood: true, Write: func(w io.Writer, _ *rand.Rand, good []byte, size int) error {
		head, rest, _ := bytes.Cut(good, []byte("\n"))
		if _, err := w.Write(append(head, '\n')); err != nil || len(rest) == 0 {
			return err
		}
		return fill(w, rest, size)
	}},
	{Name: "records, over and over", OfGood: true, Write: func(w io.Writer, r *rand.Rand, good []byte, size int) error {
		line := bytes.IndexByte(good, '\n') + 1
		if _, err := w.Write(good[:line]); err != nil {
			return err
		}
		rest := good[line:]
		if all := split(rest); len(all) > 2 { // without the end, after which nothing may come
			rest = rest[:len(rest)-len(all[len(all)-1].payload)-6]
		}
		if len(rest) == 0 {
			rest = []byte("x\n")
		}
		return fill(w, rest, size)
	}},
	{Name: "noise", Write: func(w io.Writer, r *rand.Rand, _ []byte, size int) error { return fill(w, noise(r, 1<<16), size) }},
}

func repeated(what string) func(io.Writer, *rand.Rand, []byte, int) error {
	return func(w io.Writer, _ *rand.Rand, _ []byte, size int) error { return fill(w, []byte(what), size) }
}

func fill(w io.Writer, what []byte, size int) error {
	block := bytes.Repeat(what, 1+(1<<16)/len(what))
	for size > 0 {
		n, err := w.Write(block[:min(size, len(block))])
		if err != nil {
			return err
		}
		size -= n
	}
	return nil
}
