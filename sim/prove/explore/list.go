package explore

// chunk is by how many entries a list grows: nothing is copied, and memory is never twice what is used.
const chunk = 1 << 13

// entries are situations, each with the one that it was reached from.
type entries struct {
	keys [chunk]uint64
	from [chunk]uint32
}

// list holds every situation found, in the order in which they were settled.
type list struct {
	parts []*entries
	n     uint32
	room  *room[entries]
}

func (l *list) add(key uint64, from uint32) {
	i := l.n % chunk
	if i == 0 {
		l.parts = append(l.parts, l.room.take())
	}
	p := l.parts[l.n/chunk]
	p.keys[i], p.from[i] = key, from
	l.n++
}

func (l *list) key(i uint32) uint64    { return l.parts[i/chunk].keys[i%chunk] }
func (l *list) parent(i uint32) uint32 { return l.parts[i/chunk].from[i%chunk] }
func (l *list) bytes() int64           { return int64(len(l.parts)) * chunk * 12 }

// queue holds what the next level begins with, in order of time. The room of what was taken out is used again.
type queue struct {
	parts []part
	first int    // chunk that is read
	read  uint32 // taken out of it
	n     uint64
	spare []*entries
	room  *room[entries]
	// times has the runs of equal time in order.
	times []run
}

type part struct {
	w *entries
	n uint32
}

type run struct {
	time int32
	n    uint64
}

func (q *queue) add(key uint64, from uint32, time int32) {
	if len(q.parts) == 0 || q.parts[len(q.parts)-1].n == chunk {
		w := (*entries)(nil)
		if n := len(q.spare); n > 0 {
			w, q.spare = q.spare[n-1], q.spare[:n-1]
		} else {
			w = q.room.take()
		}
		q.parts = append(q.parts, part{w: w})
	}
	p := &q.parts[len(q.parts)-1]
	p.w.keys[p.n], p.w.from[p.n] = key, from
	p.n++
	q.n++
	if n := len(q.times); n == 0 || q.times[n-1].time != time {
		q.times = append(q.times, run{time: time})
	}
	q.times[len(q.times)-1].n++
}

// take gives the next of the queue, which must not be empty.
func (q *queue) take() (key uint64, from uint32) {
	p := &q.parts[q.first]
	key, from = p.w.keys[q.read], p.w.from[q.read]
	q.read++
	q.n--
	if q.read == p.n {
		q.spare = append(q.spare, p.w)
		p.w = nil
		q.first++
		q.read = 0
	}
	return key, from
}

// clear makes an emptied queue ready to be filled again.
func (q *queue) clear() {
	q.parts, q.first, q.read, q.times = q.parts[:0], 0, 0, q.times[:0]
}

func (q *queue) bytes() int64 { return int64(len(q.parts)-q.first+len(q.spare)) * chunk * 12 }
