package usb

import (
	"cmp"
	"errors"
	"io"
	"os"
	"syscall"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// decoder turns bytes of a device node into states.
type decoder interface {
	// feed takes whole events off the front of b and returns how many bytes it used.
	feed(b []byte) int
	// lost tells that events were lost and the device must be asked afresh, which resync does.
	lost() bool
	resync() error
	// unsettled is how long to wait for events that may belong to a state that is held back, 0 where none is; settle hands it
	// on.
	unsettled() time.Duration
	settle()
}

// source is where the bytes come from: a device node or a pipe. Read blocks until there is something, and Close ends a
// Read that blocks.
type source interface {
	io.Reader
	io.Closer
}

// ready is a source that can also be read without blocking: readNow gives 0 and no error where nothing waits.
type ready interface {
	readNow(p []byte) (int, error)
}

// patient is a source whose Read can be given up at a time, with os.ErrDeadlineExceeded.
type patient interface {
	SetReadDeadline(time.Time) error
}

// drainMost limits how many buffers are read away before the device is asked afresh, should reports come faster than they
// can be read (ours).
const drainMost = 64

// device is an opened radio whose bytes are read by a goroutine of its own.
type device struct {
	info input.Info
	*queue
	src   source
	dec   decoder
	epoch int64
	done  chan struct{}
}

var _ input.Device = (*device)(nil)

// start begins to read. buf may hold bytes that were read already, have of them.
func start(info input.Info, q *queue, src source, dec decoder, epoch int64, buf []byte, have int) *device {
	d := &device{info: info, queue: q, src: src, dec: dec, epoch: epoch, done: make(chan struct{})}
	go d.run(buf, have)
	return d
}

func (d *device) Info() input.Info                          { return d.info }
func (d *device) Wake() <-chan struct{}                     { return d.wake }
func (d *device) Poll(dst []input.Raw) ([]input.Raw, error) { return d.poll(dst) }

// Close ends the reading goroutine and waits for it. Closing twice is allowed.
func (d *device) Close() error {
	err := d.src.Close()
	<-d.done
	if errors.Is(err, os.ErrClosed) {
		return nil
	}
	return err
}

// run reads until the source ends. Nothing is allocated here or below but room in the queue, unless events were lost.
func (d *device) run(buf []byte, have int) {
	defer close(d.done)
	for {
		n, err := d.src.Read(buf[have:])
		have = d.take(buf, have+n)
		for err == nil && (d.dec.lost() || d.dec.unsettled() > 0) {
			if have, err = d.catchUp(buf, have); err == nil {
				have, err = d.await(buf, have)
			}
		}
		if err != nil {
			if d.dec.unsettled() > 0 {
				d.dec.settle()
			}
			d.end(d.last(err))
			return
		}
	}
}

// catchUp asks the device afresh after a loss.
func (d *device) catchUp(buf []byte, have int) (int, error) {
	for tries := 0; d.dec.lost(); tries++ {
		// What still waits is older than the answer will be, so it is read away first. Reports that come between this and
		// the answer are a repetition: the kernel itself takes waiting buttons off the queue when it is asked for them,
		// and an axis ends where its last report says.
		if s, ok := d.src.(ready); ok && tries < drainMost {
			n, err := s.readNow(buf[have:])
			have = d.take(buf, have+n)
			if err != nil {
				return have, err
			} else if n > 0 {
				continue
			}
		}
		if err := d.dec.resync(); err != nil {
			return have, err
		}
	}
	return have, nil
}

// await waits a moment for what completes a state that is held back.
func (d *device) await(buf []byte, have int) (int, error) {
	wait := d.dec.unsettled()
	if wait == 0 {
		return have, nil
	}
	s, ok := d.src.(patient)
	if !ok || s.SetReadDeadline(time.Now().Add(wait)) != nil {
		d.dec.settle()
		return have, nil
	}
	var err error
	for err == nil && d.dec.unsettled() > 0 {
		var n int
		n, err = d.src.Read(buf[have:])
		have = d.take(buf, have+n)
	}
	if errors.Is(err, os.ErrDeadlineExceeded) {
		err = nil
		if d.dec.unsettled() > 0 {
			d.dec.settle()
		}
	}
	if e := s.SetReadDeadline(time.Time{}); err == nil {
		err = e
	}
	return have, err
}

// take decodes the first n bytes of buf and moves what is left to the front.
func (d *device) take(buf []byte, n int) int {
	used := d.dec.feed(buf[:n])
	return copy(buf, buf[used:n])
}

// last is the error that ends a device, made of what the system said.
func (d *device) last(err error) error {
	name := cmp.Or(d.info.Name, d.info.Path)
	switch {
	case errors.Is(err, os.ErrClosed):
		return closed(name)
	case errors.Is(err, syscall.ENODEV), errors.Is(err, io.EOF), errors.Is(err, io.ErrClosedPipe):
		return goneNow(name, d.epoch)
	}
	return words.Wrong("usb.no-more", words.Args{"why": words.Error(err)}).In(name).Because(err)
}
