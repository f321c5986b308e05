package belongings

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// The folders of an archive.
const (
	radiosIn  = "radios/"
	craftsIn  = "crafts/"
	logbookIn = "logbook/"
	takesIn   = "takes/"
)

// Bounds of an archive that is taken in (ours): what a person keeps is far below, and one that unpacks to far more than it is ends there.
const (
	mostFiles    = 4096
	mostUnpacked = 512 << 20
)

// isArchive knows an archive by the mark of a file within, and one of nothing by that of its end (APPNOTE of the ZIP format, 4.3.7 and 4.3.16).
func isArchive(data []byte) bool {
	return bytes.HasPrefix(data, []byte("PK\x03\x04")) || bytes.HasPrefix(data, []byte("PK\x05\x06"))
}

// Pack writes all that is kept as one archive.
func (p Places) Pack(w io.Writer) error { return Archive(w, p.Files()) }

// Archive writes files that are kept as one archive.
func Archive(w io.Writer, files []Kept) error {
	z := zip.NewWriter(w)
	for _, f := range files {
		data, err := door.Read(f.Path, f.Kind, max(mostTake, int(f.Size)))
		if err != nil {
			return err
		}
		to, err := z.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: f.At})
		if err == nil {
			_, err = to.Write(data)
		}
		if err != nil {
			return err
		}
	}
	return z.Close()
}

// countedAs say how many files of a kind there are.
var countedAs = map[words.ID]words.ID{"radio.file": "belongings.radios", "craft-file.craft": "belongings.crafts", "gesture-file.file": "belongings.gestures",
	"door.logbook": "belongings.logbooks", "door.take": "belongings.takes", "belongings.settings": "belongings.set-files"}

// Packed says what went into the archive at path, kind by kind.
func Packed(path string, files []Kept) words.Text {
	var parts []words.Text
	for i := 0; i < len(files); {
		kind, from := files[i].Kind, i
		for i < len(files) && files[i].Kind == kind { // as Files gives them
			i++
		}
		parts = append(parts, words.T(countedAs[kind], words.Args{"n": words.Count(i - from)}))
	}
	return words.T("belongings.packed", words.Args{"n": words.Count(len(files)), "path": words.Quote(path), "parts": words.And(parts...)})
}

// unpack keeps each file of an archive. One that cannot be kept is told and hinders no other; what is too much ends it, and what was kept until then is told as well.
func (p Places) unpack(data []byte) (words.Text, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return words.Text{}, words.Wrong("belongings.torn", words.Args{"why": words.Error(err)}).Because(err)
	}
	if len(z.File) > mostFiles {
		return words.Text{}, words.Wrong("belongings.too-much")
	}
	var bad words.Problems
	kept, others, left := 0, false, int64(mostUnpacked)
	said := func() words.Text {
		return words.T("belongings.unpacked", words.Args{"n": words.Count(kept), "some": words.Flag(kept > 0), "left": words.Flag(others)})
	}
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		text, err := unpacked(f, left)
		if errors.Is(err, errTooMuch) {
			return said(), append(bad, words.Within(f.Name, err))
		}
		left -= int64(len(text))
		stays := false
		if err == nil {
			stays, err = p.restore(f.Name, text)
		}
		switch {
		case err != nil:
			bad = append(bad, words.Within(f.Name, err))
		case stays:
			others = true
		default:
			kept++
		}
	}
	if len(bad) > 0 {
		return said(), bad
	}
	return said(), nil
}

var errTooMuch error = words.Wrong("belongings.too-much")

func unpacked(f *zip.File, left int64) ([]byte, error) {
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	data, err := door.ReadAll(r, int(min(left, mostTake)))
	if errors.Is(err, door.ErrTooLong) {
		return nil, errTooMuch
	}
	return data, err
}

// restore keeps one file of an archive. Settings are taken over where there are none yet: they are of habit, and not to be changed by a file. Of others, stays
// is true.
func (p Places) restore(name string, data []byte) (stays bool, err error) {
	if slices.Contains(settings, name) {
		if len(data) > yamldoc.Most {
			return false, errTooMuch
		}
		_, err := p.only(name, data)
		if e := (*words.Problem)(nil); errors.As(err, &e) && e.Text.ID() == "belongings.other-there" {
			return true, nil
		}
		return false, err
	}
	if isArchive(data) { // one in another would have no end
		return false, words.Wrong("belongings.nothing")
	}
	_, err = p.keep(baseOf(name), data)
	return false, err
}
