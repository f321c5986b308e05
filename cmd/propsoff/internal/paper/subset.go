package paper

import (
	"encoding/binary"
	"math/bits"
	"slices"

	"propsoff.example/assets/words"
)

// errFont is a font whose tables do not hold together: the built-in one is not as it was made.
var errFont = words.Wrong("paper.face")

// The tables that a font in a PDF file needs (ISO 32000-1, 9.9, table 126), in the order of their tags.
var keptTables = [...]string{"cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep"}

// Bits of a composite glyph's flags (OpenType specification 1.9, "glyf").
const (
	wordArguments = 0x0001
	oneScale      = 0x0008
	moreFollow    = 0x0020
	twoScales     = 0x0040
	fourScales    = 0x0080
)

// subset cuts a TrueType font, given by its tables, down to some glyphs and what they are made of; the tables are those of the new font then.
// Glyphs keep their numbers; the others have no outline any more.
func subset(t map[string][]byte, glyphs []uint16) ([]byte, error) {
	glyf := t["glyf"]
	if len(t["maxp"]) < 6 || len(t["head"]) < 54 {
		return nil, errFont
	}
	n := int(binary.BigEndian.Uint16(t["maxp"][4:]))
	place, err := places(t["loca"], n, len(glyf), binary.BigEndian.Uint16(t["head"][50:]) == 0)
	if err != nil {
		return nil, err
	}
	keep := map[uint16]bool{}
	for queue := append([]uint16{0}, glyphs...); len(queue) > 0; queue = queue[1:] {
		g := queue[0]
		if int(g) >= n {
			return nil, errFont
		}
		if keep[g] {
			continue
		}
		keep[g] = true
		parts, err := madeOf(glyf[place[g]:place[g+1]])
		if err != nil {
			return nil, err
		}
		queue = append(queue, parts...)
	}
	var cut, loca []byte
	for g := range n {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(cut)))
		if keep[uint16(g)] {
			cut = append(cut, glyf[place[g]:place[g+1]]...)
			for len(cut)%4 != 0 {
				cut = append(cut, 0)
			}
		}
	}
	loca = binary.BigEndian.AppendUint32(loca, uint32(len(cut)))
	head := slices.Clone(t["head"])
	binary.BigEndian.PutUint32(head[8:], 0)  // the check sum of the whole, filled in below
	binary.BigEndian.PutUint16(head[50:], 1) // places of four bytes
	t["glyf"], t["loca"], t["head"] = cut, loca, head
	return assemble(t), nil
}

// tables finds the tables of a font by their tags.
func tables(ttf []byte) (map[string][]byte, error) {
	if len(ttf) < 12 {
		return nil, errFont
	}
	n := int(binary.BigEndian.Uint16(ttf[4:]))
	if len(ttf) < 12+16*n {
		return nil, errFont
	}
	t := map[string][]byte{}
	for i := range n {
		r := ttf[12+16*i:]
		at, length := uint64(binary.BigEndian.Uint32(r[8:])), uint64(binary.BigEndian.Uint32(r[12:]))
		if at+length > uint64(len(ttf)) {
			return nil, errFont
		}
		t[string(r[:4])] = ttf[at : at+length]
	}
	return t, nil
}

// places reads where each of n glyphs begins, and where the last one ends.
func places(loca []byte, n, most int, short bool) ([]int, error) {
	size := 4
	if short {
		size = 2
	}
	if len(loca) < size*(n+1) {
		return nil, errFont
	}
	out := make([]int, n+1)
	for i := range out {
		if short {
			out[i] = 2 * int(binary.BigEndian.Uint16(loca[2*i:]))
		} else {
			out[i] = int(binary.BigEndian.Uint32(loca[4*i:]))
		}
		if out[i] > most || i > 0 && out[i] < out[i-1] {
			return nil, errFont
		}
	}
	return out, nil
}

// madeOf gives the glyphs that a composite glyph is put together from; a simple one has none.
func madeOf(g []byte) (parts []uint16, err error) {
	if len(g) < 10 || int16(binary.BigEndian.Uint16(g)) >= 0 {
		return nil, nil
	}
	for g = g[10:]; ; {
		if len(g) < 4 {
			return nil, errFont
		}
		flags := binary.BigEndian.Uint16(g)
		parts = append(parts, binary.BigEndian.Uint16(g[2:]))
		size := 4 + 2
		if flags&wordArguments != 0 {
			size += 2
		}
		switch {
		case flags&oneScale != 0:
			size += 2
		case flags&twoScales != 0:
			size += 4
		case flags&fourScales != 0:
			size += 8
		}
		if flags&moreFollow == 0 {
			return parts, nil
		}
		if len(g) < size {
			return nil, errFont
		}
		g = g[size:]
	}
}

// assemble writes a font of the kept tables.
func assemble(t map[string][]byte) []byte {
	var tags []string
	for _, tag := range keptTables {
		if len(t[tag]) > 0 {
			tags = append(tags, tag)
		}
	}
	n := len(tags)
	log := bits.Len(uint(n)) - 1
	power := 1 << log
	out := binary.BigEndian.AppendUint32(nil, 0x00010000)
	for _, v := range [4]int{n, power * 16, log, (n - power) * 16} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	at, headAt := 12+16*n, 0
	for _, tag := range tags {
		if tag == "head" {
			headAt = at
		}
		out = append(out, tag...)
		for _, v := range [3]uint32{sum(t[tag]), uint32(at), uint32(len(t[tag]))} {
			out = binary.BigEndian.AppendUint32(out, v)
		}
		at += (len(t[tag]) + 3) / 4 * 4
	}
	for _, tag := range tags {
		out = append(out, t[tag]...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	binary.BigEndian.PutUint32(out[headAt+8:], 0xB1B0AFBA-sum(out)) // OpenType specification, "head"
	return out
}

// sum is the check sum of a table: its words added up, the last one filled with zeros.
func sum(b []byte) (s uint32) {
	for len(b) >= 4 {
		s, b = s+binary.BigEndian.Uint32(b), b[4:]
	}
	var last [4]byte
	copy(last[:], b)
	return s + binary.BigEndian.Uint32(last[:])
}
