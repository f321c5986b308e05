package usb

import (
	"fmt"
	"strconv"
	"sync"
	"time"
	"unsafe"

	"github.com/0xcafed00d/joystick"
	"golang.org/x/sys/windows"
	"golang.org/x/sys/windows/registry"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// Limits of the portable way (ours, but for the first and the range).
const (
	// portableMost is how many joysticks the system counts. Source: joyGetNumDevs, 16.
	portableMost = 16
	// portableMin and portableMax are the library's range of an axis; its button word has portableBits bits.
	portableMin, portableMax = -32767, 32768
	portableButtons          = 32
	// pollEvery is how often the state is asked for: the library cannot wait for a change.
	pollEvery = 2 * time.Millisecond
	// goneAfter is how many asks in a row must fail before the radio counts as pulled out.
	goneAfter = 5
)

// scan lists the joysticks that answer. The library sees six axes and a hat of each; the rest is hidden.
func scan(Places) ([]Found, error) {
	var found []Found
	for id := range portableMost {
		js, state, err := tryJoystick(id)
		if err != nil {
			continue // a free place
		}
		f := Found{Path: pathOf(id), Way: WayPortable, Axes: min(len(state.AxisData), input.MaxAxes), Buttons: portableCount(js)}
		f.Name, f.Vendor, f.Product = identify(id, js.Name())
		f.key = fmt.Sprintf("%d %s %04x:%04x", id, f.Name, f.Vendor, f.Product)
		js.Close()
		found = append(found, f)
	}
	return found, nil
}

func pathOf(id int) string { return "joystick " + strconv.Itoa(id) }

// tryJoystick opens and reads a joystick. The library panics where a driver says nonsense (more axes than it knows of, an axis
// without a range), and that becomes an error.
func tryJoystick(id int) (js joystick.Joystick, s joystick.State, err error) {
	defer recovered(&err)
	if js, err = joystick.Open(id); err != nil {
		return nil, s, err
	}
	s, err = js.Read()
	return js, s, err
}

func readJoystick(js joystick.Joystick) (s joystick.State, err error) {
	defer recovered(&err)
	return js.Read()
}

func recovered(err *error) {
	if r := recover(); r != nil {
		*err = words.Wrong("usb.bad-answer", words.Args{"why": words.Quote(fmt.Sprint(r))})
	}
}

func portableCount(js joystick.Joystick) int { return min(js.ButtonCount(), portableButtons) }

// portable is a radio that is asked for its state again and again by a goroutine of its own: the library's Read fills the very
// slice it hands out, so only that goroutine ever calls it, and copies.
type portable struct {
	info input.Info
	*queue
	js   joystick.Joystick
	quit chan struct{}
	done chan struct{}
	once sync.Once
}

func open(path string, opt Options) (input.Device, error) {
	id := -1
	for i := range portableMost {
		if path == pathOf(i) {
			id = i
		}
	}
	if id < 0 {
		return nil, words.Wrong("usb.not-joystick", words.Args{"first": words.Quote(pathOf(0)), "last": words.Quote(pathOf(portableMost - 1))})
	}
	js, s, err := tryJoystick(id)
	if err != nil {
		return nil, err
	}
	// Not Blunted: the library does not ask the system for its dead zone (JOY_USEDEADZONE), so the centre is whole.
	info := input.Info{Path: path, Way: WayPortable, Buttons: portableCount(js)}
	info.Name, info.Vendor, info.Product = identify(id, js.Name())
	// The library gives the hat's two halves after the axes, if there is a hat; which they are it does not say.
	for i := range min(len(s.AxisData), input.MaxAxes) {
		info.Axes = append(info.Axes, input.Axis{Code: i, Min: portableMin, Max: portableMax})
	}
	if len(info.Axes) == 0 {
		js.Close()
		return nil, words.Wrong("usb.no-axes")
	}
	p := &portable{info: info, queue: newQueue(), js: js, quit: make(chan struct{}), done: make(chan struct{})}
	first := p.state(s)
	first.At = max(Now()-opt.Epoch, 0)
	p.push(&first)
	go p.run(first, opt.Epoch)
	return p, nil
}

func (p *portable) Info() input.Info                          { return p.info }
func (p *portable) Wake() <-chan struct{}                     { return p.wake }
func (p *portable) Poll(dst []input.Raw) ([]input.Raw, error) { return p.poll(dst) }

// Close ends the asking goroutine and waits for it. Closing twice is allowed.
func (p *portable) Close() error {
	p.once.Do(func() { close(p.quit) })
	<-p.done
	return nil
}

func (p *portable) run(last input.Raw, epoch int64) {
	defer close(p.done)
	defer p.js.Close()
	tick := time.NewTicker(pollEvery)
	defer tick.Stop()
	fails := 0
	for {
		select {
		case <-p.quit:
			p.end(closed(p.info.Name))
			return
		case <-tick.C:
		}
		s, err := readJoystick(p.js)
		if err != nil {
			if fails++; fails >= goneAfter {
				p.end(goneNow(p.info.Name, epoch))
				return
			}
			continue
		}
		fails = 0
		now := p.state(s)
		if now.Axes == last.Axes && now.Buttons == last.Buttons {
			continue
		}
		now.At = max(Now()-epoch, last.At)
		p.push(&now)
		last = now
	}
}

// state copies what the library gave, kept within the range.
func (p *portable) state(s joystick.State) input.Raw {
	var r input.Raw
	for i, a := range p.info.Axes {
		if i < len(s.AxisData) {
			r.Axes[i] = clamp(int32(s.AxisData[i]), a)
		}
	}
	r.Buttons[0] = uint64(s.Buttons)
	return r
}

// joyCaps is the beginning of the system's JOYCAPSW, whose whole size the call wants. Source: joystickapi.h.
type joyCaps struct {
	maker, product uint16
	_              [724]byte
}

var joyGetDevCaps = windows.NewLazySystemDLL("winmm.dll").NewProc("joyGetDevCapsW")

// identify finds the USB numbers of joystick id, which the library keeps to itself, and the name under which the system's
// registry knows such a device; else the name that the library gave, which is often the driver's and the same for all.
func identify(id int, driver string) (name string, vendor, product uint16) {
	name = text([]byte(driver))
	var c joyCaps
	if joyGetDevCaps.Find() != nil {
		return name, 0, 0
	}
	if r, _, _ := joyGetDevCaps.Call(uintptr(id), uintptr(unsafe.Pointer(&c)), unsafe.Sizeof(c)); r != 0 {
		return name, 0, 0
	}
	path := fmt.Sprintf(`System\CurrentControlSet\Control\MediaProperties\PrivateProperties\Joystick\OEM\VID_%04X&PID_%04X`,
		c.maker, c.product)
	for _, root := range []registry.Key{registry.CURRENT_USER, registry.LOCAL_MACHINE} {
		k, err := registry.OpenKey(root, path, registry.QUERY_VALUE)
		if err != nil {
			continue
		}
		s, _, err := k.GetStringValue("OEMName")
		k.Close()
		if err == nil && s != "" {
			return text([]byte(s)), c.maker, c.product
		}
	}
	return name, c.maker, c.product
}
