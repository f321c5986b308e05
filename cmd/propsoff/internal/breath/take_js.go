package breath

import "time"

// Breath belongs to one goroutine that computes. The zero value is ready.
type Breath struct{ last time.Time }

// holds is how long a computation may hold the page up (ours): half a picture.
const holds = 8 * time.Millisecond

// Take lets the browser do what waits, where it has not for a while. It is to be called often: after every millisecond or so.
func (b *Breath) Take() {
	if time.Since(b.last) < holds {
		return
	}
	time.Sleep(time.Millisecond) // no shorter way leads through the browser's own turn
	b.last = time.Now()
}
