package fakeradio

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"syscall"
	"time"
)

// Plugged is a radio that the kernel has. It is made with Plug and goes with Unplug.
type Plugged struct {
	Radio Radio
	file  *os.File
	buf   []byte
	ready chan struct{}
}

// Plug makes the radio at /dev/uhid and waits, up to limit, until the kernel takes its reports.
func Plug(r Radio, limit time.Duration) (*Plugged, error) {
	ev, err := createEvent(r)
	if err != nil {
		return nil, err
	}
	f, err := os.OpenFile("/dev/uhid", os.O_RDWR|syscall.O_NONBLOCK|syscall.O_CLOEXEC, 0)
	if err != nil {
		return nil, fmt.Errorf("plug %s: %w", r.Name, err)
	}
	if _, err := f.Write(ev); err != nil {
		f.Close()
		return nil, fmt.Errorf("plug %s: creation refused: %w", r.Name, err)
	}
	p := &Plugged{Radio: r, file: f, ready: make(chan struct{})}
	go p.listen()
	select {
	case <-p.ready:
	case <-time.After(limit):
		p.Unplug()
		return nil, fmt.Errorf("plug %s: the kernel did not start the device within %v", r.Name, limit)
	}
	return p, nil
}

// listen reads what the kernel says so that its queue never fills; it ends when the file is closed.
func (p *Plugged) listen() {
	buf := make([]byte, createSize)
	started := false
	for {
		n, err := p.file.Read(buf)
		if err != nil {
			return
		}
		if n < 4 {
			continue
		}
		if binary.LittleEndian.Uint32(buf) == uhidStart && !started {
			started = true
			close(p.ready)
		}
	}
}

// Send hands one report to the kernel. When it returns the kernel has handed the events to every open node.
func (p *Plugged) Send(r Report) error {
	p.buf = inputEvent(p.buf, p.Radio.Layout.Pack(r))
	if _, err := p.file.Write(p.buf); err != nil {
		return fmt.Errorf("report to %s: %w", p.Radio.Name, err)
	}
	return nil
}

// Unplug takes the radio away, as pulling the cable does.
func (p *Plugged) Unplug() error {
	_, err := p.file.Write([]byte{uhidDestroy, 0, 0, 0})
	return errors.Join(err, p.file.Close())
}
