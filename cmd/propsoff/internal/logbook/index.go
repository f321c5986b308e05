package logbook

import (
	"bytes"
	"cmp"
	"errors"
	"io"
	"math"
	"os"
	"slices"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Index puts the entries of logbooks in the order of time without holding them: it notes where each stands, and reads it once more
// when its turn has come. Two programs may have written, and clocks are put back.
type Index struct {
	// Filter chooses entries. Later takes those of a later version's kinds too, each behind the entry that it stands behind; only where
	// the filter leaves nothing out.
	Filter Filter
	Later  bool

	places []place
	files  []indexed
}

type indexed struct {
	c    *Contents
	path string
}

// place is where an entry stands, with those of later kinds behind it.
type place struct {
	ms         int64
	from, size int64
	file       int
}

// Take notes an entry; it is for Read.
func (x *Index) Take(c *Contents, e *Entry) error {
	path := c.Files[e.file]
	if n := len(x.files); n == 0 || x.files[n-1] != (indexed{c, path}) {
		x.files = append(x.files, indexed{c, path})
	}
	p := place{e.At.UnixMilli(), e.from, e.size, len(x.files) - 1}
	switch n := len(x.places); {
	case !e.Later():
		if !x.Filter.Keeps(e) {
			return nil
		}
	case !x.Later || !x.Filter.All():
		return nil
	case n > 0 && x.places[n-1].file == p.file:
		x.places[n-1].size = p.from + p.size - x.places[n-1].from
		return nil
	default:
		p.ms = math.MinInt64 // before all
	}
	x.places = append(x.places, p)
	return nil
}

// Len is how many places there are: 0 where nothing was taken.
func (x *Index) Len() int { return len(x.places) }

// Each gives the entries, oldest first; at the same moment in the order of the pupils' names, and of one pupil in that of the file.
func (x *Index) Each(take Taker) (err error) {
	order := func(a, b place) int {
		return cmp.Or(cmp.Compare(a.ms, b.ms), strings.Compare(x.files[a.file].c.Pupil, x.files[b.file].c.Pupil))
	}
	if !slices.IsSortedFunc(x.places, order) {
		slices.SortStableFunc(x.places, order)
	}
	var f *os.File
	defer func() {
		if f != nil {
			err = errors.Join(err, f.Close())
		}
	}()
	l, part := linesOf(bytes.NewReader(nil)), io.NewSectionReader(nil, 0, 0)
	for i, p := range x.places {
		of := x.files[p.file]
		if i == 0 || p.file != x.places[i-1].file {
			if f != nil {
				_ = f.Close()
			}
			if f, err = door.Open(of.path, "door.logbook"); err != nil {
				return failed(of.path, words.T(unread), err)
			}
		}
		*part = *io.NewSectionReader(f, p.from, p.size)
		l.restart(part)
		if err := x.part(l, of, take); err != nil {
			return err
		}
	}
	return nil
}

// part gives the entries of one place.
func (x *Index) part(l *lines, of indexed, take Taker) error {
	for n := 0; ; n++ {
		more, err := l.next()
		switch {
		case err != nil:
			return failed(of.path, words.T(unread), err)
		case !more && n == 0:
			return words.Wrong("logbook-file.deleted-meanwhile").In(of.path)
		case !more:
			return nil
		case l.long:
			continue
		}
		_, e, err := parse(bytes.TrimPrefix(l.text, byteOrderMark))
		if err != nil || e.Kind == "" {
			continue
		}
		e.Raw = l.text
		if err := take(of.c, &e); err != nil {
			return err
		}
	}
}
