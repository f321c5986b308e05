package explore

import "unsafe"

// room gives out memory piece by piece, none of which comes back before the walk is over. It takes it from the system in stretches that
// grow with what was given, so that pages of memory can be large ones: the processor then asks the system for a few hundred times fewer of
// them, and finds its way among them without looking it up.
type room[T any] struct {
	left  []T
	given int
}

// mostStretch is how many bytes a stretch has at most.
const mostStretch = 16 << 20

func (r *room[T]) take() *T {
	if len(r.left) == 0 {
		var t T
		n := min(1+r.given/2, max(1, mostStretch/int(unsafe.Sizeof(t))))
		r.left = make([]T, n)
		large(r.left)
	}
	t := &r.left[0]
	r.left = r.left[1:]
	r.given++
	return t
}

// large asks the system for large pages where a stretch lies.
func large[T any](s []T) {
	var t T
	if n := uintptr(len(s)) * unsafe.Sizeof(t); n >= leastLarge {
		askLarge(uintptr(unsafe.Pointer(unsafe.SliceData(s))), n)
	}
}

// leastLarge is how many bytes make it worth while.
const leastLarge = 256 << 10
