package explore

// Marks lets a Space see what a walk already knows, so that it can leave out steps that lead to nothing new, many at a glance. One worker
// has one; it changes nothing.
type Marks struct {
	set  *set
	near *[nearLines]near
	// left is how many steps were left out.
	left uint64
}

// LineBits is how many low bits of keys may differ in what is looked at at a glance.
const LineBits = lineBits

// At gives the marks of 64 situations from a key on that is a multiple of 64, and of further ones after them up to the next multiple of
// 1<<LineBits: first whether a situation is settled, then whether a step that costs a move is known to lead there, and so on in turn. A
// step to a settled situation leads to nothing new, and neither does one more that costs a move. It gives nil where nothing is known.
func (m *Marks) At(key uint64) []uint64 { return m.In(m.Line(key), key) }

// Line gives the number of the line of marks that At gives a part of, 0 where nothing is known. Once there is a line it keeps its number.
func (m *Marks) Line(key uint64) uint32 {
	id := key >> lineBits
	n := &m.near[(id^id>>8)%nearLines]
	if n.line == 0 || n.id != id {
		line := m.set.known(id)
		if line == 0 {
			return 0
		}
		n.id, n.line = id, line
	}
	return n.line
}

// In gives what At does for a key whose line is known.
func (m *Marks) In(line uint32, key uint64) []uint64 {
	if line == 0 {
		return nil
	}
	return m.set.numbered(line - 1)[key>>6&(1<<(lineBits-6)-1)*2:]
}

// LeftOut tells the walk how many steps that lead to nothing new were left out.
func (m *Marks) LeftOut(n int) { m.left += uint64(n) }

// take gives how many were left out since it was called last.
func (m *Marks) take() uint64 {
	n := m.left
	m.left = 0
	return n
}
