package logbook

import (
	"bytes"
	"errors"
	"io/fs"
	"os"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// headed is the first line of a text, and its version, where it begins as a logbook does.
func headed(text []byte) (h *header, version int, ok bool) {
	h, _, err := parse(firstLine(bytes.TrimPrefix(text, byteOrderMark)))
	if err != nil || h == nil {
		return nil, 0, false
	}
	version, ok = h.version()
	return h, version, ok
}

// IsLogbook tells whether a text begins as a logbook does.
func IsLogbook(text []byte) bool {
	_, _, ok := headed(text)
	return ok
}

// Bring takes in the text of a logbook that comes from elsewhere, such as another machine: it becomes the logbook of its pupil, or what that pupil's has
// not yet is appended to it, letter by letter as it stands. It gives the pupil and how many lines were new.
func (s Store) Bring(text []byte) (pupil string, lines int, err error) {
	h, version, ok := headed(text)
	switch {
	case !ok:
		return "", 0, words.Wrong("belongings.nothing")
	case version > Version:
		return h.Pupil, 0, ErrLater
	}
	name, files, err := s.find(h.Pupil)
	if err != nil {
		return h.Pupil, 0, err
	}
	if len(files) > 0 {
		lines, err = appendLines(files[0], text)
		return name, lines, err
	}
	path, _, err := s.path(h.Pupil)
	if err != nil {
		return name, 0, err
	}
	if err := os.MkdirAll(s.Dir, 0o700); err != nil {
		return name, 0, failed(s.Dir, words.T("logbook-file.not-moved"), err)
	}
	if err := door.PublishBytes(path, door.Out{Private: true}, text); errors.Is(err, fs.ErrExist) { // another program was quicker
		lines, err = appendLines(path, text)
		return name, lines, err
	} else if err != nil {
		return name, 0, err
	}
	return name, max(bytes.Count(text, []byte{'\n'})-1, 0), nil
}
