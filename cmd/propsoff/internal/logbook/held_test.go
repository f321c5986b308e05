package logbook

import (
	"bytes"
	"errors"
	"io"
)

// held is a logbook that was read, with its entries.
type held struct {
	*Contents
	Entries, Later []Entry
}

func (h *held) take(_ *Contents, e *Entry) error {
	own := *e
	own.Raw, own.file, own.from, own.size = bytes.Clone(e.Raw), 0, 0, 0
	if e.Later() {
		h.Later = append(h.Later, own)
	} else {
		h.Entries = append(h.Entries, own)
	}
	return nil
}

// all reads a logbook and holds it.
func (s Store) all(pupil string) (*held, error) {
	h := new(held)
	var err error
	h.Contents, err = s.Read(pupil, h.take)
	return h, err
}

// readAll does so with what is no file.
func readAll(r io.Reader, path, pupil string) (*held, error) {
	h := &held{Contents: &Contents{Pupil: pupil, Files: []string{path}}}
	p := pass{c: h.Contents, take: h.take, path: path}
	return h, p.read(r)
}

// forget deletes what is kept of a pupil.
func (s Store) forget(pupil string) ([]Deleted, error) {
	t, err := s.Traces(pupil)
	if err != nil {
		return nil, err
	}
	done, failed := t.Delete()
	return done, errors.Join(failed...)
}
