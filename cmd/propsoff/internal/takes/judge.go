package takes

import (
	"errors"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/take"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/practice"
)

// Judge holds the replay of a take against it, and tells what happened when it was recorded. It reads the take by itself.
type Judge struct {
	// Model is that of the take.
	Model int

	cmp  *take.Comparer
	told *take.Reader // of an older take: what happened then
	next take.Entry
	have bool
	list []happening.Happening
}

// NewJudge opens a take by itself, once or twice.
func NewJudge(open func() (*take.Reader, error)) (*Judge, error) {
	r, err := open()
	if err != nil {
		return nil, err
	}
	j := &Judge{Model: r.Settings().Model, cmp: take.NewComparer(r, codes.Codes())}
	if j.Older() {
		j.cmp.OnlyHappenings, j.cmp.Alike = true, func(was, now *take.Entry) bool {
			s := r.Settings()
			return alike(&s, was, now)
		}
		if j.told, err = open(); err != nil {
			return nil, errors.Join(err, r.Close())
		}
	}
	return j, nil
}

// Older reports whether the take is of an older model, so that its replay may differ.
func (j *Judge) Older() bool { return j.Model < sim.Model }

// Tick looks at the tick that p has just run. It gives what happened in it as it is to be told: as it was recorded.
func (j *Judge) Tick(p *practice.Practice) []happening.Happening {
	tick := p.Tick() - 1
	for _, h := range p.Happenings() {
		j.cmp.Happening(h.Tick, uint8(h.Code), h.A, h.B)
	}
	j.cmp.Digest(tick, p.Digest())
	if j.told == nil {
		return p.Happenings()
	}
	return j.Until(tick)
}

// Until gives what an older take tells of up to a tick and was not given yet. The slice is valid until the next time.
func (j *Judge) Until(tick int64) []happening.Happening {
	j.list = j.list[:0]
	for j.told != nil {
		if !j.have {
			var err error
			if j.next, err = j.told.Next(); err != nil {
				break // the comparer meets the same and tells of it
			}
			j.have = true
		}
		if j.next.Tick > tick {
			break
		}
		if j.have = false; j.next.Kind == take.Happening {
			s := j.told.Settings()
			j.list = append(j.list, recorded(&s, &j.next))
		}
	}
	return j.list
}

// Difference is the first one so far between take and replay in words: of an older take that the model has changed. ok is false where
// there is none.
func (j *Judge) Difference(cfg *sim.Config) (tick int64, text words.Text, ok bool) {
	d := j.cmp.Difference()
	switch {
	case d == nil:
		return 0, words.Text{}, false
	case !j.Older():
		return d.Tick, d.Text(), true
	}
	sentence := func(model int, e *take.Entry, s *take.Settings) words.Text {
		if e == nil {
			return words.Text{}
		}
		return tell.HappeningOf(model, recorded(s, e), cfg)
	}
	s := j.told.Settings()
	today := take.Settings{Model: sim.Model, Codes: codes.Codes()}
	return d.Tick, tell.ModelChanged(d.Tick, sentence(j.Model, d.Was, &s), sentence(sim.Model, d.Now, &today)), true
}

// Finish is called when the replay has ended after a tick, its last. The error is that of reading the take.
func (j *Judge) Finish(tick int64) error {
	_, err := j.cmp.Finish(tick)
	return err
}

// Compared is how many lines of the record came out the same.
func (j *Judge) Compared() int { return j.cmp.Compared() }

// Close closes the take.
func (j *Judge) Close() error {
	err := j.cmp.Close()
	if j.told != nil {
		err = errors.Join(err, j.told.Close())
	}
	return err
}
