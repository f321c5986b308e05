package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"sync"
	"time"

	"propsoff.example/scripts/rig/fakeradio"
)

// firstLine is how long the program may take until its first line: it starts slowly on an emulated machine.
const firstLine = 8 * time.Second

// tempFile writes a file that everyone may read.
func tempFile(name, text string) (string, error) {
	dir, err := os.MkdirTemp("/tmp", "file")
	if err != nil {
		return "", err
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		return "", err
	}
	return dir + "/" + name, os.WriteFile(dir+"/"+name, []byte(text), 0o644)
}

// watch starts `propsoff watch --json` with a radio file and a craft (the word built-in, or a craft file's text).
func watch(how started, radio, craft string, more ...string) (*stream[line], error) {
	file, err := tempFile("radio.yaml", radio)
	if err != nil {
		return nil, err
	}
	if craft != craftBuiltIn {
		if craft, err = tempFile("craft.yaml", craft); err != nil {
			return nil, err
		}
	}
	c, err := start(how, "/"+propsoffPath, append([]string{"watch", "--json", "--radio", file, "--craft", craft}, more...)...)
	if err != nil {
		return nil, err
	}
	return &stream[line]{child: c}, nil
}

// watchRaw starts `propsoff watch --json --raw`.
func watchRaw(how started, more ...string) (*stream[rawLine], error) {
	c, err := start(how, "/"+propsoffPath, append([]string{"watch", "--json", "--raw"}, more...)...)
	if err != nil {
		return nil, err
	}
	return &stream[rawLine]{child: c}, nil
}

// radios runs `propsoff radios --json` and gives its lines.
func radios(how started) ([]radioLine, error) {
	c, err := start(how, "/"+propsoffPath, "radios", "--json")
	if err != nil {
		return nil, err
	}
	defer c.stop()
	if err := c.wait(10 * time.Second); err != nil {
		return nil, err
	}
	var out []radioLine
	for _, l := range c.lines() {
		var r radioLine
		if err := json.Unmarshal(l, &r); err != nil {
			return nil, fmt.Errorf("line %q: %w", l, err)
		}
		out = append(out, r)
	}
	return out, nil
}

// hands hold a radio: like a real one it goes on sending what its controls stand at, moved or not.
type hands struct {
	p    *plugged
	mu   sync.Mutex
	r    fakeradio.Report
	stop chan struct{}
	done chan struct{}
}

// hold begins to send; at is the first position of the controls.
func hold(p *plugged, at fakeradio.Report) (*hands, error) {
	h := &hands{p: p, r: at, stop: make(chan struct{}), done: make(chan struct{})}
	if err := p.Send(at); err != nil {
		return nil, err
	}
	go func() {
		defer close(h.done)
		tick := time.NewTicker(10 * time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-h.stop:
				return
			case <-tick.C:
				h.mu.Lock()
				err := p.Send(h.r)
				h.mu.Unlock()
				if err != nil {
					return
				}
			}
		}
	}()
	return h, nil
}

// move changes the controls and sends them at once.
func (h *hands) move(change func(*fakeradio.Report)) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	change(&h.r)
	return h.p.Send(h.r)
}

// stick moves one axis to a pulse width.
func (h *hands) stick(axis int, us float64) error {
	lo, hi := h.p.Radio.Layout.AxisRange(axis)
	return h.move(func(r *fakeradio.Report) { r.Axes[axis] = rawFor(us, lo, hi) })
}

// press holds or releases a button.
func (h *hands) press(button int, on bool) error {
	return h.move(func(r *fakeradio.Report) { r.Pressed[button] = on })
}

// leave ends the sending and pulls the radio out.
func (h *hands) leave() error {
	close(h.stop)
	<-h.done
	return h.p.out()
}

// standing is the main radio's position before arming: sticks in the middle, throttle, mode and arm low, no button pressed.
func standing(r fakeradio.Radio) fakeradio.Report {
	at := r.Layout.Rest()
	at.Axes[axisThrottle], at.Axes[axisMode], at.Axes[axisArm] = 0, 0, 0
	return at
}

// closing joins the errors of several ends to err.
func closing(err *error, ends ...func() error) {
	for _, e := range ends {
		*err = errors.Join(*err, e())
	}
}
