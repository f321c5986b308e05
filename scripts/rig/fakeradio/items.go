package fakeradio

import (
	"fmt"
	"math"
)

// Prefixes of short items without their size bits: tag in bits 7-4, type in bits 3-2 (0 Main, 1 Global, 2 Local).
// HID 1.11 section 6.2.2.
const (
	itemInput         = 0x80
	itemOutput        = 0x90
	itemCollection    = 0xa0
	itemFeature       = 0xb0
	itemEndCollection = 0xc0
	itemUsagePage     = 0x04
	itemLogMin        = 0x14
	itemLogMax        = 0x24
	itemReportSize    = 0x74
	itemReportID      = 0x84
	itemReportCount   = 0x94
	itemPush          = 0xa4
	itemPop           = 0xb4
	itemUsage         = 0x08
	itemUsageMin      = 0x18
	itemUsageMax      = 0x28

	prefixLong = 0xfe

	flagConstant = 0x01
	flagVariable = 0x02
	flagRelative = 0x04
	flagNull     = 0x40
)

// descriptor collects short items.
type descriptor struct{ bytes []byte }

func (d *descriptor) raw(prefix byte, data ...byte) {
	size := byte(len(data))
	if size == 4 {
		size = 3 // the size bits 3 mean four bytes
	}
	d.bytes = append(append(d.bytes, prefix|size), data...)
}

// unsigned writes an item in the fewest bytes that hold v without a sign.
func (d *descriptor) unsigned(prefix byte, v uint32) {
	switch {
	case v <= math.MaxUint8:
		d.raw(prefix, byte(v))
	case v <= math.MaxUint16:
		d.raw(prefix, byte(v), byte(v>>8))
	default:
		d.raw(prefix, byte(v), byte(v>>8), byte(v>>16), byte(v>>24))
	}
}

// signed writes an item in the fewest bytes that hold v with a sign: logical limits are signed, so 255 needs two.
func (d *descriptor) signed(prefix byte, v int32) {
	switch {
	case v >= math.MinInt8 && v <= math.MaxInt8:
		d.raw(prefix, byte(v))
	case v >= math.MinInt16 && v <= math.MaxInt16:
		d.raw(prefix, byte(v), byte(v>>8))
	default:
		d.raw(prefix, byte(v), byte(v>>8), byte(v>>16), byte(v>>24))
	}
}

// field writes the items that describe count fields and make them an input.
func (d *descriptor) field(lo, hi int32, bits, count int, flags uint32) {
	d.signed(itemLogMin, lo)
	d.signed(itemLogMax, hi)
	d.unsigned(itemReportSize, uint32(bits))
	d.unsigned(itemReportCount, uint32(count))
	d.unsigned(itemInput, flags)
}

// Field is one field of an input report as a descriptor describes it.
type Field struct {
	Page, Usage uint32 // both 0 for padding
	Bit, Bits   int    // where it starts in the report (after the report number, if there is one), and its width
	Min, Max    int32  // logical limits
	Flags       uint32 // of the Input item
	ReportID    uint32 // 0 when the descriptor has none
}

// Constant says that the field is padding.
func (f Field) Constant() bool { return f.Flags&flagConstant != 0 }

// Relative says that the field tells movement and not place.
func (f Field) Relative() bool { return f.Flags&flagRelative != 0 }

// globals are the items that stay until changed and that Push and Pop save and bring back.
type globals struct {
	page, size, count, report uint32
	min, max                  int32
}

// parser is the state while a descriptor is read.
type parser struct {
	globals
	stack   []globals
	usages  []usage
	usageLo usage
	hasLo   bool
	depth   int
	bit     map[uint32]int
	fields  []Field
}

type usage struct{ page, id uint32 }

// Parse lists the input fields of a descriptor in report order. It knows short items; a long item, an item that ends
// after the descriptor, and collections that do not close are errors with the offset of the item.
func Parse(desc []byte) ([]Field, error) {
	p := parser{bit: map[uint32]int{}}
	for at := 0; at < len(desc); {
		prefix := desc[at]
		if prefix == prefixLong {
			return nil, fmt.Errorf("descriptor byte %d: long items are not known here", at)
		}
		size := int(prefix & 3)
		if size == 3 {
			size = 4
		}
		if at+1+size > len(desc) {
			return nil, fmt.Errorf("descriptor byte %d: item %#02x wants %d more bytes, %d are left", at, prefix, size, len(desc)-at-1)
		}
		if err := p.item(prefix&^3, desc[at+1:at+1+size]); err != nil {
			return nil, fmt.Errorf("descriptor byte %d: %w", at, err)
		}
		at += 1 + size
	}
	if p.depth != 0 {
		return nil, fmt.Errorf("descriptor byte %d: %d collections are still open at the end", len(desc), p.depth)
	}
	return p.fields, nil
}

func (p *parser) item(tag byte, data []byte) error {
	var u uint32
	for i, b := range data {
		u |= uint32(b) << (8 * i)
	}
	s := int32(u)
	switch len(data) {
	case 1:
		s = int32(int8(u))
	case 2:
		s = int32(int16(u))
	}
	switch tag {
	case itemUsagePage:
		p.page = u
	case itemLogMin:
		p.min = s
	case itemLogMax:
		p.max = s
	case itemReportSize:
		p.size = u
	case itemReportCount:
		p.count = u
	case itemReportID:
		p.report = u
	case itemPush:
		p.stack = append(p.stack, p.globals)
	case itemPop:
		if len(p.stack) == 0 {
			return fmt.Errorf("pop without a push before it")
		}
		p.globals, p.stack = p.stack[len(p.stack)-1], p.stack[:len(p.stack)-1]
	case itemUsage:
		p.usages = append(p.usages, p.local(u, len(data)))
	case itemUsageMin:
		p.usageLo, p.hasLo = p.local(u, len(data)), true
	case itemUsageMax:
		hi := p.local(u, len(data))
		if !p.hasLo || hi.page != p.usageLo.page || hi.id < p.usageLo.id || hi.id-p.usageLo.id > 4096 {
			return fmt.Errorf("usage maximum %d does not fit its minimum", hi.id)
		}
		for id := p.usageLo.id; id <= hi.id; id++ {
			p.usages = append(p.usages, usage{hi.page, id})
		}
		p.hasLo = false
	case itemCollection:
		p.depth++
		p.endLocals()
	case itemEndCollection:
		if p.depth == 0 {
			return fmt.Errorf("end of a collection that was not begun")
		}
		p.depth--
		p.endLocals()
	case itemInput:
		if err := p.input(u); err != nil {
			return err
		}
		p.endLocals()
	case itemOutput, itemFeature:
		p.endLocals()
	}
	return nil
}

// local reads a usage: four bytes carry their own page in the upper half.
func (p *parser) local(u uint32, size int) usage {
	if size == 4 {
		return usage{u >> 16, u & 0xffff}
	}
	return usage{p.page, u}
}

func (p *parser) endLocals() { p.usages, p.hasLo = nil, false }

func (p *parser) input(flags uint32) error {
	if p.size == 0 || p.size > 32 || p.count > 4096 {
		return fmt.Errorf("%d fields of %d bits", p.count, p.size)
	}
	for i := range int(p.count) {
		f := Field{Bit: p.bit[p.report], Bits: int(p.size), Min: p.min, Max: p.max, Flags: flags, ReportID: p.report}
		if len(p.usages) > 0 {
			u := p.usages[min(i, len(p.usages)-1)] // the last usage serves the fields that are left
			f.Page, f.Usage = u.page, u.id
		}
		p.bit[p.report] += int(p.size)
		p.fields = append(p.fields, f)
	}
	return nil
}

// Value takes a field out of a report: lowest bit first; signed when its minimum is below 0.
func (f Field) Value(report []byte) int32 {
	var v uint32
	for i := range f.Bits {
		at := f.Bit + i
		if at/8 < len(report) && report[at/8]>>(at%8)&1 != 0 {
			v |= 1 << i
		}
	}
	if f.Min < 0 && f.Bits < 32 && v>>(f.Bits-1) != 0 {
		v |= ^uint32(0) << f.Bits
	}
	return int32(v)
}
