package explore

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// inOneChain gives ids of which all but a few hash to the same place of a table of up to 1<<16 slots, so that they stand in one chain; many
// of them have the same low half, and so the same place among the lines used last.
func inOneChain(t *testing.T) (ids []uint64) {
	low := uint64(0x0badc0de)
	want := low * hashBy >> 48
	for high := uint64(0); high < 1<<(64-lineBits-32) && len(ids) < 300; high++ {
		if id := high<<32 | low; id*hashBy>>48 == want {
			ids = append(ids, id)
		}
	}
	require.Greater(t, len(ids), 50, "halves of ids that meet")
	twins := len(ids)
	for n := uint64(1); len(ids) < twins+300; n++ { // any others that hash there
		if id := low + n; id*hashBy>>48 == want {
			ids = append(ids, id)
		}
	}
	return ids
}

// Ids in one chain are told apart by all of their bits: each has marks of its own, found again by set and Marks, however often the
// table grows meanwhile.
func TestIDsInOneChain(t *testing.T) {
	s := newSet()
	m := &Marks{set: s, near: new([nearLines]near)}
	ids := inOneChain(t)
	seen := map[*line]uint64{}
	for n, id := range ids {
		require.Nil(t, s.find(id), "id %x", id)
		require.Nil(t, m.At(id<<lineBits), "id %x", id)
		l := s.line(id)
		if other, twice := seen[l]; twice {
			t.Fatalf("ids %x and %x have one line", id, other)
		}
		seen[l] = id
		s.marks(id << lineBits)[0] = uint64(n) + 1
		for filler := range uint64(7) {
			s.line(1<<40 | uint64(n)<<8 | filler)
		}
	}
	for range 2 { // once more in turn, so that the lines used last change with each
		for n, id := range ids {
			require.Equal(t, uint64(n)+1, s.find(id)[0], "id %x", id)
			require.Equal(t, uint64(n)+1, s.marks(id << lineBits)[0], "id %x", id)
			require.Equal(t, uint64(n)+1, m.At(id << lineBits)[0], "id %x", id)
		}
	}
}
