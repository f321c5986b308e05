package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"io"
	"net"
	"time"
)

// xscreen is a connection to an X server that knows how large the screen is, and what is on it. It shows that the server
// works, and takes a picture that no other program had a hand in. The numbers are those of the X Window System Protocol,
// version 11 (connection setup; GetImage, opcode 73).
type xscreen struct {
	conn          net.Conn
	root          uint32
	width, height int
	depth         byte
	vendor        string
	keycodes      [2]byte // the least and the most
}

var le = binary.LittleEndian

func dialX(socket string) (*xscreen, error) {
	conn, err := net.DialTimeout("unix", socket, 2*time.Second)
	if err != nil {
		return nil, err
	}
	x := &xscreen{conn: conn}
	if err := x.setup(); err != nil {
		conn.Close()
		return nil, fmt.Errorf("the X server at %s: %w", socket, err)
	}
	return x, nil
}

func (x *xscreen) Close() error { return x.conn.Close() }

func (x *xscreen) setup() error {
	x.conn.SetDeadline(time.Now().Add(10 * time.Second))
	// byte order l, version 11.0, no authorisation
	if _, err := x.conn.Write([]byte{'l', 0, 11, 0, 0, 0, 0, 0, 0, 0, 0, 0}); err != nil {
		return err
	}
	head := make([]byte, 8)
	if _, err := io.ReadFull(x.conn, head); err != nil {
		return err
	}
	body := make([]byte, 4*int(le.Uint16(head[6:])))
	if _, err := io.ReadFull(x.conn, body); err != nil {
		return err
	}
	if head[0] != 1 {
		return fmt.Errorf("connection refused (%d): %q", head[0], body)
	}
	if len(body) < 32 {
		return errors.New("short answer")
	}
	vendorLen, formats := int(le.Uint16(body[16:])), int(body[21])
	at := 32
	if len(body) < at+vendorLen {
		return errors.New("short answer")
	}
	x.vendor = string(body[at : at+vendorLen])
	x.keycodes = [2]byte{body[26], body[27]}
	at += (vendorLen+3)&^3 + 8*formats
	if len(body) < at+40 {
		return errors.New("answer without a screen")
	}
	screen := body[at:]
	x.root = le.Uint32(screen)
	x.width, x.height = int(le.Uint16(screen[20:])), int(le.Uint16(screen[22:]))
	x.depth = screen[38]
	return nil
}

// picture is what the whole screen shows now.
func (x *xscreen) picture() (*image.RGBA, error) {
	if x.depth != 24 {
		return nil, fmt.Errorf("a screen of depth %d; only 24 is known here", x.depth)
	}
	req := make([]byte, 20)
	req[0], req[1] = 73, 2 // GetImage, Z format
	le.PutUint32(req[4:], x.root)
	le.PutUint16(req[12:], uint16(x.width))
	le.PutUint16(req[14:], uint16(x.height))
	le.PutUint32(req[16:], 0xffffffff)
	_, data, err := x.ask(req)
	if err != nil {
		return nil, err
	}
	if len(data) < 4*x.width*x.height {
		return nil, fmt.Errorf("%d bytes for %d×%d", len(data), x.width, x.height)
	}
	img := image.NewRGBA(image.Rect(0, 0, x.width, x.height))
	for i := 0; i < len(img.Pix); i += 4 { // sent as blue, green, red, nothing
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = data[i+2], data[i+1], data[i], 255
	}
	return img, nil
}

// How long a picture waits (ours): until two of them, so long apart, are the same, and no longer than most, since a sheet on which something moves never stands still.
const (
	stillFor  = time.Second
	stillMost = 10 * time.Second
)

// still gives what the screen shows once it stands still, or after long enough.
func (x *xscreen) still() (img *image.RGBA, err error) {
	img, err = x.picture()
	for end := time.Now().Add(stillMost); err == nil && time.Now().Before(end); {
		before := img
		time.Sleep(stillFor)
		if img, err = x.picture(); err == nil && bytes.Equal(before.Pix, img.Pix) {
			break
		}
	}
	return img, err
}

// changed waits until the screen shows something else than it did, and gives whether it does.
func (x *xscreen) changed(was *image.RGBA, limit time.Duration) (is bool, err error) {
	for end := time.Now().Add(limit); err == nil && !is && time.Now().Before(end); {
		time.Sleep(stillFor / 2)
		var now *image.RGBA
		if now, err = x.picture(); err == nil {
			is = !bytes.Equal(was.Pix, now.Pix)
		}
	}
	return is, err
}

// tell sends a request, whose length it fills in.
func (x *xscreen) tell(req []byte) error {
	x.conn.SetDeadline(time.Now().Add(20 * time.Second))
	le.PutUint16(req[2:], uint16(len(req)/4))
	_, err := x.conn.Write(req)
	return err
}

// ask sends a request and gives the head of its answer and what follows. An error that the server has for an earlier request, which had no answer, comes out here.
func (x *xscreen) ask(req []byte) (head, data []byte, err error) {
	if err := x.tell(req); err != nil {
		return nil, nil, err
	}
	head = make([]byte, 32)
	for {
		if _, err := io.ReadFull(x.conn, head); err != nil {
			return nil, nil, err
		}
		if head[0] == 0 {
			return nil, nil, fmt.Errorf("the X server answers with error %d to request %d.%d", head[1], head[10], le.Uint16(head[8:]))
		}
		if head[0] == 1 {
			break
		}
	}
	data = make([]byte, 4*int(le.Uint32(head[4:])))
	_, err = io.ReadFull(x.conn, data)
	return head, data, err
}
