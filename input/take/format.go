// Package take is a recording that survives a kill: append, read, repair.
//
// A take is one file, only ever appended to. Its first line, readable by any person, says what it is and in which
// version; then come records:
//
//	kind     1 byte, 1..255
//	length   of the payload in bytes, as an unsigned varint
//	payload
//	check    CRC-32C (Castagnoli) of kind, length and payload, 4 bytes, lowest first
//
// A take has parts: one for each craft that stood on the bench. The first record of a part holds its settings, the others readings,
// happenings and digests in the order in which they came, and the last record of the take, when the recording was closed cleanly,
// is the end. A part needs nothing of those before it: its settings say all that stood when it began, and its digest begins anew. Ticks are
// milliseconds of the practice and never run backwards; every entry holds its distance in ticks from the entry before it, whatever
// the kinds of the two, and the first of a part that from the part's beginning. Numbers are varints as in encoding/binary; signed
// ones are zigzag-coded.
//
//	settings    fields: tag (varint), length (varint), bytes; unknown tags are skipped
//	readings    one or more of: 1 byte: low four bits the pulse.Kind, high four bits the distance in ticks, where 15
//	            means that the distance less 15 follows as a varint; then for Controls the set of changed channels (varint,
//	            bit 0 is channel 1) and for each of them, lowest first, new less old width in eighths of a µs (signed);
//	            for every other kind the value (signed). Before the first reading of a part all channels are 0.
//	happenings  one or more of: distance (varint), code (varint), A (signed), B (signed)
//	digests     one or more of: distance (varint), 8 bytes, lowest first
//	end         distance (varint)
//	added       fields of settings that became known while the part went on, as the radio's
//
// Records of unknown kind are skipped, so a later program may add kinds that an older one can do without; whatever it
// cannot do without asks for a new version in the first line. Version 1 (one part, and no number of the model) must load for ever:
// testdata keeps one.
//
// A kill tears at most the record being written, so what was flushed before is whole and the torn rest is found by its
// check: that is information, not a failure. Damage with whole records after it is an error that names its place.
//
// The codes of happenings are plain numbers here: which number means what is written into the settings (Codes), so a
// take stays readable when the numbers of a later program differ.
package take

import (
	"encoding/binary"
	"errors"
	"hash/crc32"

	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// Version is the version that is written and the newest that a Reader understands.
const Version = 2

// header is the first line without its version; headLimit is the longest first line that is looked at.
const (
	header    = "propsoff take "
	headLimit = 64
)

// Kinds of record.
const (
	recSettings   byte = 1
	recReadings   byte = 2
	recHappenings byte = 3
	recDigests    byte = 4
	recEnd        byte = 5
	recAdded      byte = 6
)

// LongestTicks is how long a take lasts at most, from its beginning to its end, in ticks: a day, as a script does (ours). A few bytes could
// say that it lasts for thousands of years, and whoever plays it would step through them all.
const LongestTicks = 24 * 60 * 60 * 1000

// Limits, all ours. A record that claims to be longer is refused before any memory is asked for.
const (
	maxSettings = 4 << 20   // bytes: two files of text, with room
	maxPayload  = 64 << 10  // bytes of every other record, unknown kinds included
	fullRecord  = 4 << 10   // bytes at which the Writer closes a record and begins the next
	fullBuffer  = 48 << 10  // bytes kept at which the Writer writes without being asked
	maxTick     = 1<<53 - 1 // ms; at most where a take begins, far beyond any practice, and tick·1000 stays within int64
)

const checkSize = 4

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// limit is the longest payload that a record of this kind may have.
func limit(kind byte) uint64 {
	if kind == recSettings || kind == recAdded {
		return maxSettings
	}
	return maxPayload
}

// appendRecord appends one whole record.
func appendRecord(dst []byte, kind byte, payload []byte) []byte {
	from := len(dst)
	dst = append(dst, kind)
	dst = binary.AppendUvarint(dst, uint64(len(payload)))
	dst = append(dst, payload...)
	return binary.LittleEndian.AppendUint32(dst, crc32.Checksum(dst[from:], castagnoli))
}

// found is what lies at the start of a run of bytes.
type found uint8

const (
	foundWhole found = iota // a whole record
	foundShort              // the bytes end before the record does
	foundBad                // no record, or one whose check is wrong
)

// record looks at the start of b. For foundWhole size is the record's length in bytes; for foundShort it is the length
// that b must have before it makes sense to look again.
func record(b []byte) (kind byte, payload []byte, size int, what found) {
	if len(b) == 0 {
		return 0, nil, 2, foundShort
	}
	if b[0] == 0 { // never a kind: a tail of zeros, as a power cut leaves it, is no record
		return 0, nil, 0, foundBad
	}
	n, w := binary.Uvarint(b[1:])
	switch {
	case w < 0, w > 4, w > 0 && n > limit(b[0]):
		return 0, nil, 0, foundBad
	case w == 0:
		if len(b) > 5 {
			return 0, nil, 0, foundBad
		}
		return 0, nil, len(b) + 1, foundShort
	}
	body := 1 + w + int(n)
	if size = body + checkSize; len(b) < size {
		return 0, nil, size, foundShort
	}
	if crc32.Checksum(b[:body], castagnoli) != binary.LittleEndian.Uint32(b[body:]) {
		return 0, nil, size, foundBad
	}
	return b[0], b[1+w : body], size, foundWhole
}

// Kind tells what an Entry holds.
type Kind uint8

const (
	// Reading: one reading, stamped with the tick that consumed it.
	Reading Kind = iota + 1
	// Happening: one line of the record.
	Happening
	// Digest: the running digest after the tick was stepped.
	Digest
	// Part: another part begins at this tick, which is its first; Reader.Settings are its own from here on.
	Part
)

// Entry is one thing that a take holds.
type Entry struct {
	// Kind tells which of the fields below are used.
	Kind Kind
	// Tick is ms since the practice began.
	Tick int64
	// Reading has At = Tick·1000 µs: the tick that consumed it, not the device's own time, so that a replay applies it in
	// the same step.
	Reading pulse.Reading
	// Code is the happening's number in the program that recorded it (Settings.Codes gives its name); A and B its numbers.
	Code uint8
	A, B int32
	// Digest is as the recorder gave it.
	Digest uint64
}

// errContent is the root of errors about a record whose check is right but whose content is not.
var errContent = errors.New("senseless")

func senseless(id words.ID, args ...words.Args) error {
	return words.Wrong("take.senseless", words.Args{"why": words.T(id, args...)}).Because(errContent)
}

// clock is a tick as seconds with three places: "4.200 s".
func clock(tick int64) words.Text {
	return words.T("unit.seconds", words.Args{"n": words.Fixed{N: tick, Places: 3, Least: 3}})
}
