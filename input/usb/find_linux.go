package usb

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/sys/unix"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

func (p Places) dev() string { return cmp.Or(p.Dev, "/dev") }
func (p Places) sys() string { return cmp.Or(p.Sys, "/sys") }

// input is the folder of the device nodes.
func (p Places) input() string { return filepath.Join(p.dev(), "input") }

// mayRead tells why a node cannot be opened for reading; nil if it can.
func (p Places) mayRead(path string) error {
	if p.readable != nil {
		return p.readable(path)
	}
	return unix.Access(path, unix.R_OK)
}

// open opens the node that path leads to.
func open(path string, opt Options) (input.Device, error) {
	real, err := filepath.EvalSymlinks(path)
	if err != nil || path == "" {
		return nil, words.Wrong("usb.not-there")
	}
	if _, ok := numbered(filepath.Base(real), "js"); ok {
		return openClassic(real, opt)
	}
	d, err := openEvent(real, opt)
	if err == nil || !errors.Is(err, fs.ErrPermission) {
		return d, err
	}
	js := sibling(filepath.Join(opt.Places.sys(), "class/input", filepath.Base(real), "device"), "js")
	if js == "" {
		return nil, err
	}
	d, second := openClassic(filepath.Join(opt.Places.input(), js), opt)
	if second != nil {
		return nil, errors.Join(err, second)
	}
	return d, nil
}

// scan lists the joysticks by what the kernel says of its devices; without that, by asking the nodes themselves.
func scan(p Places) ([]Found, error) {
	class := filepath.Join(p.sys(), "class/input")
	entries, err := os.ReadDir(class)
	if errors.Is(err, fs.ErrNotExist) {
		return scanNodes(p)
	}
	if err != nil {
		return nil, words.Wrong("usb.no-list", words.Args{"why": words.Error(err)}).Because(err)
	}
	var found []Found
	for _, prefix := range []string{"event", "js"} {
		for _, n := range numbers(entries, prefix) {
			f, ok := look(p, class, prefix+strconv.Itoa(n))
			if ok {
				found = append(found, f)
			}
		}
	}
	return found, nil
}

// look tells of one entry of the kernel's list whether it is a joystick, and which. Classic nodes that have an event node
// are none of their own.
func look(p Places, class, name string) (Found, bool) {
	own := filepath.Join(class, name, "device")
	real, err := filepath.EvalSymlinks(filepath.Join(class, name))
	if err != nil {
		return Found{}, false // gone while we looked
	}
	f := Found{sys: filepath.Dir(real)}
	f.key = f.sys // both nodes hang on the one input device, whose number is a new one each time it is plugged in
	c := readCaps(own)
	if strings.HasPrefix(name, "js") {
		if sibling(own, "event") != "" {
			return Found{}, false
		}
		f.Classic = filepath.Join(p.input(), name)
	} else {
		f.Event = filepath.Join(p.input(), name)
		js := sibling(own, "js")
		if !c.joystick(js != "") {
			return Found{}, false
		}
		if js != "" {
			f.Classic = filepath.Join(p.input(), js)
		}
	}
	id := readIdentity(own)
	f.Name, f.Vendor, f.Product, f.Serial, f.Port = id.name, id.vendor, id.product, id.serial, id.port
	f.Axes, f.Buttons = len(c.axes()), len(c.buttons())
	f.way(p)
	return f, true
}

// way finds out how the device can be read, and if not in the best way, why.
func (f *Found) way(p Places) {
	f.Path = cmp.Or(f.Event, f.Classic)
	for _, w := range []struct{ path, way string }{{f.Event, WayEvent}, {f.Classic, WayClassic}} {
		if w.path == "" {
			continue
		}
		err := p.mayRead(w.path)
		if err == nil {
			f.Way = w.way
			return
		}
		if f.Trouble == nil {
			f.Trouble = words.Wrong("usb.node-not-opened", words.Args{"path": words.Quote(w.path), "why": words.Error(err)}).Because(err)
		}
	}
}

// scanNodes lists the event nodes that can be opened and are joysticks: for a system that hides the kernel's list.
func scanNodes(p Places) ([]Found, error) {
	entries, err := os.ReadDir(p.input())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil // no input device at all
	}
	if err != nil {
		return nil, words.Wrong("usb.no-input-folder", words.Args{"why": words.Error(err)}).Because(err)
	}
	var found []Found
	for _, number := range numbers(entries, "event") {
		path := filepath.Join(p.input(), "event"+strconv.Itoa(number))
		n, err := openNode(path)
		if err != nil {
			continue // without the kernel's list nobody can say what it is
		}
		f := Found{Path: path, Event: path, Way: WayEvent, key: path}
		if at, err := n.Stat(); err == nil {
			f.key = fmt.Sprint(path, at.ModTime().UnixNano())
		}
		c, err := n.caps()
		if err == nil && c.joystick(false) {
			f.Name, f.Port, f.Serial = n.textOf(eviocgname), n.textOf(eviocgphys), n.textOf(eviocguniq)
			f.Axes, f.Buttons = len(c.axes()), len(c.buttons())
			found = append(found, f)
		}
		n.Close()
	}
	return found, nil
}

// numbers gives the numbers n, ascending, of all entries that are called prefix followed by n.
func numbers(entries []os.DirEntry, prefix string) []int {
	var ns []int
	for _, e := range entries {
		if n, ok := numbered(e.Name(), prefix); ok {
			ns = append(ns, n)
		}
	}
	slices.Sort(ns)
	return ns
}

func numbered(name, prefix string) (int, bool) {
	rest, ok := strings.CutPrefix(name, prefix)
	n, err := strconv.Atoi(rest)
	return n, ok && err == nil && n >= 0
}

// sibling finds the name of the device's other node: the folder in own that is called prefix and a number.
func sibling(own, prefix string) string {
	entries, err := os.ReadDir(own)
	if err != nil {
		return ""
	}
	if ns := numbers(entries, prefix); len(ns) > 0 {
		return prefix + strconv.Itoa(ns[0])
	}
	return ""
}

// identity is what the kernel's list says of a device; what cannot be read is empty.
type identity struct {
	name, serial, port string
	vendor, product    uint16
}

func readIdentity(own string) identity {
	return identity{
		name: word(own, "name"), serial: word(own, "uniq"), port: word(own, "phys"),
		vendor: hex16(own, "id/vendor"), product: hex16(own, "id/product"),
	}
}

// readCaps reads what a device can send; what cannot be read is empty.
func readCaps(own string) caps {
	read := func(name string) set {
		s, err := parseSet(word(own, name), strconv.IntSize)
		if err != nil {
			return set{}
		}
		return s
	}
	return caps{
		keys: read("capabilities/key"), abs: read("capabilities/abs"), rel: read("capabilities/rel"),
		props: read("properties"),
	}
}

// word reads one attribute, without the space around it; "" where there is none.
func word(dir, name string) string {
	b, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		return ""
	}
	return text(b)
}

// hex16 reads an attribute of up to four digits in base 16; 0 where there is none.
func hex16(dir, name string) uint16 {
	v, err := strconv.ParseUint(word(dir, name), 16, 16)
	if err != nil {
		return 0
	}
	return uint16(v)
}
