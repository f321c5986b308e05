package fakeradio

import (
	"encoding/binary"
	"fmt"
)

// Event types and sizes of include/uapi/linux/uhid.h; struct uhid_event is packed: a 32-bit type, then a union whose
// largest member is the creation request.
const (
	uhidDestroy = 1
	uhidStart   = 2
	uhidStop    = 3
	uhidOpen    = 4
	uhidClose   = 5
	uhidCreate2 = 11
	uhidInput2  = 12

	descriptorMax = 4096 // HID_MAX_DESCRIPTOR_SIZE
	reportMax     = 4096 // UHID_DATA_MAX
	busUSB        = 0x03 // BUS_USB of include/uapi/linux/input.h

	nameSize, physSize, uniqSize = 128, 64, 64
	// type, name, phys, uniq, rd_size, bus, vendor, product, version, country, rd_data
	createSize = 4 + nameSize + physSize + uniqSize + 2 + 2 + 4 + 4 + 4 + 4 + descriptorMax
)

// createEvent gives the bytes of UHID_CREATE2 for a radio. The header says that both sides speak the machine's own
// byte order; every machine that the rig boots is little-endian.
func createEvent(r Radio) ([]byte, error) {
	desc, err := r.Layout.Descriptor()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", r.Name, err)
	}
	if len(r.Name) >= nameSize || len(r.Port) >= physSize || len(r.Serial) >= uniqSize {
		return nil, fmt.Errorf("%s: name, port or serial too long for the kernel", r.Name)
	}
	if len(desc) > descriptorMax {
		return nil, fmt.Errorf("%s: descriptor of %d bytes, %d are possible", r.Name, len(desc), descriptorMax)
	}
	b := make([]byte, createSize)
	le := binary.LittleEndian
	le.PutUint32(b, uhidCreate2)
	at := 4
	for _, s := range []struct {
		text string
		size int
	}{{r.Name, nameSize}, {r.Port, physSize}, {r.Serial, uniqSize}} {
		copy(b[at:], s.text)
		at += s.size
	}
	le.PutUint16(b[at:], uint16(len(desc)))
	le.PutUint16(b[at+2:], busUSB)
	le.PutUint32(b[at+4:], r.Vendor)
	le.PutUint32(b[at+8:], r.Product)
	le.PutUint32(b[at+12:], 0x0100) // version
	le.PutUint32(b[at+16:], 0)      // country
	copy(b[at+20:], desc)
	return b, nil
}

// inputEvent gives the bytes of UHID_INPUT2 for one report; the kernel fills a short event up with zeros.
func inputEvent(dst, report []byte) []byte {
	dst = binary.LittleEndian.AppendUint32(dst[:0], uhidInput2)
	dst = binary.LittleEndian.AppendUint16(dst, uint16(len(report)))
	return append(dst, report...)
}
