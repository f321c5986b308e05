package usb

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"syscall/js"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// The browser gives each axis as a number from -1 to 1, computed as 2·(raw−min)/(max−min)−1, and not the raw range
// (W3C Gamepad, "axes"). browserEnd is our whole number for 1: so large that every step of a 12-bit axis stays apart.
const browserEnd = 32767

// browserEvery is how often the browser is asked: it renews its answer about once a picture (ours).
const browserEvery = 4 * time.Millisecond

// gamepads gives the browser's list, which has holes. A page sees a radio only after one of its buttons was pressed or, in some
// browsers, an axis moved.
func gamepads() (list js.Value, err error) {
	nav := js.Global().Get("navigator")
	if nav.IsUndefined() || nav.Get("getGamepads").Type() != js.TypeFunction {
		if secure := js.Global().Get("isSecureContext"); secure.Type() == js.TypeBoolean && !secure.Bool() {
			return list, words.Wrong("usb.none-insecure").Because(ErrNone)
		}
		return list, words.Wrong("usb.none-browser").Because(ErrNone)
	}
	defer func() {
		// A page that may not use the interface gets an exception (W3C Gamepad, "permissions policy").
		if r := recover(); r != nil {
			err = words.Wrong("usb.none-page", words.Args{"why": words.Quote(fmt.Sprint(r))}).Because(ErrNone)
		}
	}()
	return nav.Call("getGamepads"), nil
}

func pathOf(index int) string { return "joystick " + strconv.Itoa(index) }

func scan(Places) ([]Found, error) {
	list, err := gamepads()
	if err != nil {
		return nil, err
	}
	var found []Found
	for i := range list.Length() {
		g := list.Index(i)
		if !g.Truthy() || !g.Get("connected").Truthy() {
			continue
		}
		f := Found{Path: pathOf(g.Get("index").Int()), Way: WayBrowser}
		f.Axes = min(g.Get("axes").Length(), input.MaxAxes)
		f.Buttons = min(g.Get("buttons").Length(), input.MaxButtons)
		f.Name, f.Vendor, f.Product = splitID(g.Get("id").String())
		f.key = f.Path + " " + g.Get("id").String()
		found = append(found, f)
	}
	return found, nil
}

// The two ways in which browsers put the USB numbers into a gamepad's id (from memory; the standard leaves the text open).
var (
	numbersAfter  = regexp.MustCompile(`^(.*?)\s*\((?:.*)Vendor: ([0-9a-fA-F]{4}) Product: ([0-9a-fA-F]{4})\)$`)
	numbersBefore = regexp.MustCompile(`^([0-9a-fA-F]{1,4})-([0-9a-fA-F]{1,4})-(.*)$`)
)

// splitID takes name and USB numbers out of a gamepad's id. Whether the browser calls the layout "standard" is not looked at: it
// says nothing about a radio.
func splitID(id string) (name string, vendor, product uint16) {
	v, p := "", ""
	if m := numbersAfter.FindStringSubmatch(id); m != nil {
		name, v, p = m[1], m[2], m[3]
	} else if m := numbersBefore.FindStringSubmatch(id); m != nil {
		v, p, name = m[1], m[2], m[3]
	} else {
		return strings.TrimSpace(id), 0, 0
	}
	vn, _ := strconv.ParseUint(v, 16, 16) // the patterns let nothing else through
	pn, _ := strconv.ParseUint(p, 16, 16)
	return strings.TrimSpace(name), uint16(vn), uint16(pn)
}

// browser is a radio that is asked for its state again and again.
type browser struct {
	info input.Info
	*queue
	index int
	id    string
	epoch int64
	quit  chan struct{}
	done  chan struct{}
	once  sync.Once
}

func open(path string, opt Options) (input.Device, error) {
	found, err := scan(opt.Places)
	if err != nil {
		return nil, err
	}
	for _, f := range found {
		if f.Path != path {
			continue
		}
		if f.Axes == 0 {
			return nil, words.Wrong("usb.no-axes")
		}
		index, err := strconv.Atoi(strings.TrimPrefix(path, "joystick "))
		if err != nil {
			return nil, err
		}
		info := input.Info{Path: path, Name: f.Name, Vendor: f.Vendor, Product: f.Product, Buttons: f.Buttons, Way: WayBrowser}
		for i := range f.Axes {
			info.Axes = append(info.Axes, input.Axis{Code: i, Min: -browserEnd, Max: browserEnd})
		}
		b := &browser{info: info, queue: newQueue(), index: index, epoch: opt.Epoch, quit: make(chan struct{}), done: make(chan struct{})}
		first, ok := b.read()
		if !ok {
			return nil, goneNow(f.Name, opt.Epoch)
		}
		first.At = max(Now()-opt.Epoch, 0)
		b.push(&first)
		go b.run(first)
		return b, nil
	}
	return nil, words.Wrong("usb.not-seen")
}

func (b *browser) Info() input.Info                          { return b.info }
func (b *browser) Wake() <-chan struct{}                     { return b.wake }
func (b *browser) Poll(dst []input.Raw) ([]input.Raw, error) { return b.poll(dst) }

// Close ends the asking goroutine and waits for it. Closing twice is allowed.
func (b *browser) Close() error {
	b.once.Do(func() { close(b.quit) })
	<-b.done
	return nil
}

func (b *browser) run(last input.Raw) {
	defer close(b.done)
	tick := time.NewTicker(browserEvery)
	defer tick.Stop()
	for {
		select {
		case <-b.quit:
			b.end(closed(b.info.Name))
			return
		case <-tick.C:
		}
		now, ok := b.read()
		if !ok {
			b.end(goneNow(b.info.Name, b.epoch))
			return
		}
		if now.Axes == last.Axes && now.Buttons == last.Buttons {
			continue
		}
		now.At = max(now.At, last.At)
		b.push(&now)
		last = now
	}
}

// read takes the state as it is now; ok is false if the radio is no longer there, or another one in its place.
func (b *browser) read() (s input.Raw, ok bool) {
	list, err := gamepads()
	if err != nil || b.index >= list.Length() {
		return s, false
	}
	g := list.Index(b.index)
	if !g.Truthy() || !g.Get("connected").Truthy() || b.id != "" && g.Get("id").String() != b.id {
		return s, false
	}
	b.id = g.Get("id").String()
	s.At = max(b.stamp(g.Get("timestamp")), 0)
	axes, buttons := g.Get("axes"), g.Get("buttons")
	for i := range min(len(b.info.Axes), axes.Length()) {
		s.Axes[i] = fromUnit(axes.Index(i).Float())
	}
	for i := range min(b.info.Buttons, buttons.Length()) {
		setBit(&s, i, buttons.Index(i).Get("pressed").Truthy())
	}
	return s, true
}

// stamp puts the browser's own stamp, milliseconds on the clock of performance.now, on ours. A stamp that is missing, in the
// future or older than a quarter of a second is not believed: some browsers give none, or one of another clock.
func (b *browser) stamp(t js.Value) int64 {
	now := Now() - b.epoch
	perf := js.Global().Get("performance")
	if t.Type() != js.TypeNumber || !perf.Truthy() {
		return now
	}
	age := int64((perf.Call("now").Float() - t.Float()) * 1000)
	if age < 0 || age > 250_000 {
		return now
	}
	return now - age
}

// fromUnit makes a whole number of a value from -1 to 1; what is no number or beyond the ends is kept within.
func fromUnit(v float64) int32 {
	if !(v > -1) {
		return -browserEnd
	}
	if v > 1 {
		v = 1
	}
	if v < 0 {
		return -int32(-v*browserEnd + 0.5)
	}
	return int32(v*browserEnd + 0.5)
}
