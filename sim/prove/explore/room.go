package explore

import "unsafe"

// room gives out memory piece by piece, none of which comes back before the walk is over. It takes it from the system in stretches that
// grow with what was given, so that pages of memory can be large ones: the processor then asks the system for a few hundred times fewer of
// them, and finds its way among them without looking it up. Whoever needs one piece alone gets one alone.
type room[T any] struct {
	left  []T
	given int
	// least is how many bytes a stretch after the first has at least.
	least int
}

const (
	// A stretch of so many bytes has a large page whole, wherever it begins. None has more than most.
	wholeStretch = 4 << 20
	mostStretch  = 16 << 20
)

func (r *room[T]) take() *T {
	if len(r.left) == 0 {
		size := int(unsafe.Sizeof(*new(T)))
		n := 1
		if r.given > 0 {
			n = min(max(r.given/2, r.least/size+1), max(mostStretch/size, 1))
		}
		r.left = make([]T, n)
		r.left = r.left[large(r.left):]
	}
	t := &r.left[0]
	r.left = r.left[1:]
	r.given++
	return t
}

// large asks the system for large pages where these lie, if that is worth while, and gives how many come before the first of them.
func large[T any](s []T) (before int) {
	size := unsafe.Sizeof(*new(T))
	n := uintptr(len(s)) * size
	if n < leastLarge {
		return 0
	}
	at := uintptr(unsafe.Pointer(unsafe.SliceData(s)))
	askLarge(at, n)
	if n < wholeStretch {
		return 0
	}
	return int((-at&(largePage-1) + size - 1) / size)
}

const (
	// leastLarge is how many bytes make it worth while.
	leastLarge = 256 << 10
	// largePage is the size of a large page on most machines. Elsewhere the advice is for a little too much or too little.
	largePage = 2 << 20
)
