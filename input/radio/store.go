package radio

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/input"
)

// Match tells how sure it is that a radio file belongs to a device.
type Match uint8

const (
	// NoMatch: no file for such a radio.
	NoMatch Match = iota
	// SameKind: a file for a radio of the same make that may be another one; Found.Why tells.
	SameKind
	// Exact: the file of this very radio, by serial number, or by port where there is none.
	Exact
)

// Why is why a file of the same kind is no exact match.
type Why uint8

const (
	// OtherSerial: the file is for a radio with another serial number.
	OtherSerial Why = iota + 1
	// OtherPort: neither has a serial number, and it was learned on another port.
	OtherPort
	// LessKnown: one of the two was read in a way that does not tell serial number, port or USB numbers.
	LessKnown
)

// Found is what Store.Find found.
type Found struct {
	Match Match
	Why   Why
	File  File
	Path  string
	// Spoilt are the radio files in the folder that could not be read, each error with its place.
	Spoilt []error
}

// Store keeps radio files in one folder. The zero Store has no folder and fails.
type Store struct{ Dir string }

// The longest file that is read as a radio file, in bytes.
const longestFile = 1 << 20

// Compare tells how well a device described in a file fits the one that is plugged in.
func (d Device) Compare(now Device) (Match, Why) {
	numbers := d.Vendor == now.Vendor && d.Product == now.Product
	unknown := d.Vendor == 0 && d.Product == 0 || now.Vendor == 0 && now.Product == 0
	switch {
	case d.Name != now.Name || !numbers && !unknown:
		return NoMatch, 0
	case d.Serial != "" && now.Serial != "":
		if d.Serial != now.Serial {
			return SameKind, OtherSerial
		}
	case d.Serial != now.Serial:
		return SameKind, LessKnown
	case d.Port != "" && now.Port != "":
		if d.Port != now.Port {
			return SameKind, OtherPort
		}
	case d.Port != now.Port:
		return SameKind, LessKnown
	}
	if !numbers {
		return SameKind, LessKnown
	}
	return Exact, 0
}

// Candidate is a radio file that belongs to a device, or may belong to it.
type Candidate struct {
	// Match is Exact or SameKind; Why tells of the latter.
	Match Match
	Why   Why
	File  File
	Path  string
}

// FindAll looks for every radio file that may be read for info's device: the exact one first, then those of the same kind
// (a moved plug before a less known one before another serial number; of equals the first by file name). spoilt are the
// files that cannot be read, or are for this kind of device and do not fit it, each error with its place. err is about the
// folder as a whole; a folder that is not there holds no files.
func (s Store) FindAll(info input.Info) (found []Candidate, spoilt []error, err error) {
	files, spoilt, err := s.all(&info)
	if err != nil {
		return nil, nil, err
	}
	now := DeviceOf(info)
	for _, f := range files {
		if m, w := f.file.Device.Compare(now); m != NoMatch {
			found = append(found, Candidate{m, w, f.file, f.path})
		}
	}
	slices.SortStableFunc(found, func(a, b Candidate) int { return cmp.Compare(b.rank(), a.rank()) })
	return found, spoilt, nil
}

// Names are those of all radios that have a file in the folder, as far as these can be read, in the order of the files.
func (s Store) Names() (names []string) {
	files, _, _ := s.all(nil)
	for _, f := range files {
		names = append(names, f.file.Device.Name)
	}
	return names
}

// Files are all radio files in the folder that can be read, in the order of their names.
func (s Store) Files() (all []Candidate) {
	files, _, _ := s.all(nil)
	for _, f := range files {
		all = append(all, Candidate{File: f.file, Path: f.path})
	}
	return all
}

// rank is higher the more likely the file is this radio's.
func (c *Candidate) rank() int {
	switch {
	case c.Match == Exact:
		return 4
	case c.Why == OtherPort:
		return 3
	case c.Why == LessKnown:
		return 2
	}
	return 1
}

// Find gives the first of FindAll.
func (s Store) Find(info input.Info) (Found, error) {
	all, spoilt, err := s.FindAll(info)
	if err != nil || len(all) == 0 {
		return Found{Spoilt: spoilt}, err
	}
	return Found{Match: all[0].Match, Why: all[0].Why, File: all[0].File, Path: all[0].Path, Spoilt: spoilt}, nil
}

type stored struct {
	path string
	file File
}

// all reads every radio file in the folder, by name. A file that may be read for info's device is checked against its axes
// and buttons, where those are told.
func (s Store) all(info *input.Info) (files []stored, spoilt []error, err error) {
	if s.Dir == "" {
		return nil, nil, words.Wrong("radio.no-folder")
	}
	entries, err := os.ReadDir(s.Dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, words.Wrong("radio.folder", words.Args{"why": words.Error(err)}).Because(err)
	}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".yaml") || strings.HasPrefix(e.Name(), ".") || e.IsDir() {
			continue
		}
		path := filepath.Join(s.Dir, e.Name())
		f, err := Load(path, Known{})
		if err == nil && info != nil && (len(info.Axes) > 0 || info.Buttons > 0) {
			if m, _ := f.Device.Compare(DeviceOf(*info)); m != NoMatch {
				f, err = Load(path, Known{Info: info})
			}
		}
		if err != nil {
			spoilt = append(spoilt, err)
			continue
		}
		files = append(files, stored{path, f})
	}
	return files, spoilt, nil
}

// Load reads the radio file at path. Its errors are those of door.Read and Parse.
func Load(path string, known Known) (File, error) {
	f, err := door.Open(path, "radio.file")
	if err != nil {
		return File{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, longestFile+1))
	if err != nil {
		return File{}, words.Wrong("yaml.cannot-be-read", words.Args{"why": words.Error(err)}).In(path).Because(err)
	}
	return Parse(path, data, known)
}

// Save writes file into the folder, which is made if need be (0700), and gives the path. The file that is already there
// for this very radio is replaced as a whole: a reader sees the old one or the new one, never a mixture, whenever the
// program is killed. A file of another radio is never overwritten, nor one that cannot be read. An error says where it
// could not be written and why.
func (s Store) Save(file File) (string, error) {
	path, _, err := s.keep(file, true)
	return path, err
}

// likeGiven is f as it would be written had it been given too: whether a file was tried is no difference between it and the one that comes.
func (f File) likeGiven(given bool) []byte {
	f.Given = f.Given || given
	return f.Marshal()
}

// ErrOfNobody: a file that names no radio is the file of none.
var ErrOfNobody error = words.Wrong("radio.of-nobody")

// Kept is what became of a radio file that is to be kept.
type Kept uint8

const (
	// KeptNew: the radio had no file.
	KeptNew Kept = iota
	// KeptSame: its file says the same already, and stays as it is.
	KeptSame
	// KeptOver: it took the place of another.
	KeptOver
)

// Take keeps a radio file that came from somewhere else, as Save does; but a file that is there already for this very radio stays, with an
// error where it says something else, unless over is true. One that names no radio is not taken: no radio would ever find it. What is kept
// so is marked as given: it is still to be tried.
func (s Store) Take(file File, over bool) (string, Kept, error) {
	if file.Device == (Device{}) {
		return "", KeptNew, ErrOfNobody
	}
	file.Given = true
	return s.keep(file, over)
}

func (s Store) keep(file File, over bool) (string, Kept, error) {
	data, err := file.checked()
	if err != nil {
		return "", KeptNew, err
	}
	if err := os.MkdirAll(s.Dir, 0o700); err != nil {
		return "", KeptNew, words.Wrong("radio.folder-not-made", words.Args{"why": words.Error(door.Bare(err))}).In(s.Dir).Because(err)
	}
	unlock, err := door.LockFolder(s.Dir) // so that another program that saves does not come between looking and writing
	if err != nil {
		return "", KeptNew, err
	}
	defer unlock()
	files, _, err := s.all(nil)
	if err != nil {
		return "", KeptNew, err
	}
	for _, f := range files {
		if m, _ := f.file.Device.Compare(file.Device); m == Exact && f.file.Device.Serial == file.Device.Serial {
			path := f.path
			switch {
			case bytes.Equal(f.file.likeGiven(file.Given), data):
				return path, KeptSame, nil
			case !over:
				return "", KeptNew, words.Wrong("radio.there-already", words.Args{"path": words.Quote(path)})
			}
			if real, err := filepath.EvalSymlinks(path); err == nil {
				path = real // it was read by a link
			}
			return f.path, KeptOver, WriteFile(path, file, true)
		}
	}
	name := fileName(file.Device)
	path, err := door.PublishFree(s.Dir, name, ".yaml", 1000, door.Out{Private: true}, door.Bytes(data))
	return path, KeptNew, err
}

// WriteFile writes a radio file to a path of a person's own choice, as a whole: a reader sees the file that was there
// before or the new one. Without over a file that is there stays, with an error. An error says where it could not be written and why.
func WriteFile(path string, file File, over bool) error {
	data, err := file.checked()
	if err != nil {
		return err
	}
	return door.PublishBytes(path, door.Out{Over: over, Private: true}, data)
}

// checked is the file as it is written, once it was read again: nothing is written that cannot be read.
func (f *File) checked() ([]byte, error) {
	data := f.Marshal()
	if _, err := Parse("", data, Known{}); err != nil {
		return nil, words.Wrong("radio.not-written", words.Args{"why": words.Error(err)}).Because(err)
	}
	return data, nil
}

// fileName is vendor-product-name-serial, or the port in the serial's place, in letters that every file system takes.
func fileName(d Device) string {
	parts := []string{fmt.Sprintf("%04x-%04x", d.Vendor, d.Product), slug(d.Name), slug(d.Serial)}
	if d.Serial == "" && d.Port != "" {
		parts[2] = "port-" + slug(d.Port)
	}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), "-")
}

// slug makes small letters, digits and single dashes of s, 40 at most.
func slug(s string) string {
	var b strings.Builder
	dash := false
	for _, r := range strings.ToLower(s) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if dash && b.Len() > 0 {
				b.WriteByte('-')
			}
			dash = false
			b.WriteRune(r)
		} else {
			dash = true
		}
		if b.Len() >= 40 {
			break
		}
	}
	return b.String()
}
