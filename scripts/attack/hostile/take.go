//go:build linux

package hostile

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"math/rand/v2"
)

// Takes are ways to spoil a take so that its check sums are right, which a random change never does. The layout of a record is that of
// the doc of input/take.
var Takes = []Spoil{
	{"a record changed", records(func(r *rand.Rand, all []record) []record {
		i := r.IntN(len(all))
		all[i].payload = flip(r, all[i].payload)
		return all
	})},
	{"a record cut", records(func(r *rand.Rand, all []record) []record {
		i := r.IntN(len(all))
		all[i].payload = all[i].payload[:r.IntN(len(all[i].payload)+1)]
		return all
	})},
	{"records shuffled", records(func(r *rand.Rand, all []record) []record {
		r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		return all
	})},
	{"a record doubled", records(func(r *rand.Rand, all []record) []record { return append(all, pick(r, all), pick(r, all)) })},
	{"a record of another kind", records(func(r *rand.Rand, all []record) []record {
		all[r.IntN(len(all))].kind = byte(1 + r.IntN(9))
		return all
	})},
	{"an end far away", records(func(r *rand.Rand, all []record) []record {
		return append(all[:len(all)-1:len(all)-1], record{5, binary.AppendUvarint(nil, far(r))})
	})},
	{"a digest far away", records(func(r *rand.Rand, all []record) []record {
		return append(all[:1+r.IntN(len(all))], record{4, append(binary.AppendUvarint(nil, far(r)), noise(r, 8)...)})
	})},
	{"a reading far away", records(func(r *rand.Rand, all []record) []record {
		reading := binary.AppendUvarint([]byte{byte(1+r.IntN(14)) | 15<<4}, far(r))
		return append(all[:1+r.IntN(len(all))], record{2, binary.AppendVarint(reading, r.Int64N(1<<31))})
	})},
	{"a happening far away", records(func(r *rand.Rand, all []record) []record {
		return append(all[:1+r.IntN(len(all))], record{3, append(binary.AppendUvarint(nil, far(r)), byte(r.IntN(128)), 0, 0)})
	})},
	{"settings spoilt", records(func(r *rand.Rand, all []record) []record {
		all[0].payload = pick(r, Texts[:20]).Make(r, all[0].payload)
		return all
	})},
	{"a long record", records(func(r *rand.Rand, all []record) []record {
		return append(all, record{byte(1 + r.IntN(9)), make([]byte, r.IntN(5<<20))})
	})},
	{"many parts", records(func(r *rand.Rand, all []record) []record {
		out := all
		for range r.IntN(200) {
			out = append(out, all[0])
		}
		return out
	})},
}

// far is how far away, in ticks: up to 2^53 and beyond.
func far(r *rand.Rand) uint64 {
	return pick(r, []uint64{1<<53 - 1, 1 << 53, 1<<53 - 100_000, 1<<63 - 1, 1<<64 - 1, 1 << 40, 1 << 33, 1 << 31})
}

type record struct {
	kind    byte
	payload []byte
}

// records splits a take, changes its records and seals each again.
func records(change func(*rand.Rand, []record) []record) func(*rand.Rand, []byte) []byte {
	return func(r *rand.Rand, b []byte) []byte {
		line := bytes.IndexByte(b, '\n') + 1
		all := split(b[line:])
		if line == 0 || len(all) == 0 {
			return flip(r, b)
		}
		out := bytes.Clone(b[:line])
		for _, c := range change(r, all) {
			from := len(out)
			out = append(out, c.kind)
			out = append(binary.AppendUvarint(out, uint64(len(c.payload))), c.payload...)
			out = binary.LittleEndian.AppendUint32(out, crc32.Checksum(out[from:], crc32.MakeTable(crc32.Castagnoli)))
		}
		return out
	}
}

// Records is how many whole records a take begins with.
func Records(b []byte) int { return len(split(b[bytes.IndexByte(b, '\n')+1:])) }

// split gives the records, up to the first that is not whole.
func split(b []byte) (all []record) {
	for len(b) > 1 {
		n, w := binary.Uvarint(b[1:])
		if w <= 0 || uint64(len(b)) < uint64(1+w)+n+4 {
			break
		}
		all = append(all, record{b[0], bytes.Clone(b[1+w : 1+w+int(n)])})
		b = b[1+w+int(n)+4:]
	}
	return all
}
