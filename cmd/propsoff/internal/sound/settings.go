package sound

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// FileName is the name of the settings file in the program's configuration folder.
const FileName = "sounds.yaml"

// Settings say which tones are off. The zero value has all of them on.
type Settings struct {
	// Off: nothing is played.
	Off bool
	// Muted are those that are never played.
	Muted [CodeCount]bool
}

// Plays tells whether a tone is to be heard.
func (s *Settings) Plays(c Code) bool {
	return c > None && c < CodeCount && !s.Off && !s.Muted[c]
}

// The longest settings file that is read, in bytes.
const longestFile = 1 << 16

// The fields of the file.
const (
	fieldWhat = "propsoff"
	fieldAll  = "all"
	fieldEach = "each"
	what      = "sounds 1"
)

// Parse reads a settings file:
//
//	propsoff: sounds 1
//	all: on
//	each: {armed: on, mode-rate: off}
//
// Whatever is left out is on. All that is wrong comes in one error (words.Problems), and the settings are then the defaults.
func Parse(name string, data []byte) (Settings, error) {
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		return Settings{}, err
	}
	var s Settings
	m := doc.Root().Map("sound-file.file")
	if n := m.Need(fieldWhat); n.Exists() {
		if text, ok := n.Text(); ok && text != what {
			n.Wrong("sound-file.other-file", words.Args{"text": words.Typed(short(text)), "wanted": words.Quote(fieldWhat + ": " + what)})
		}
	}
	if word, ok := m.Opt(fieldAll).Word("on", "off"); ok {
		s.Off = word == "off"
	}
	if n, ok := m.Field(fieldEach); ok {
		each := n.Map("sound-file.group")
		for _, c := range All() {
			if word, ok := each.Opt(c.Word()).Word("on", "off"); ok {
				s.Muted[c] = word == "off"
			}
		}
		each.Done()
	}
	m.Done()
	if err := doc.Err(); err != nil {
		return Settings{}, err
	}
	return s, nil
}

// short is a text as it can stand in an error.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// Marshal writes a settings file with every tone in it.
func (s *Settings) Marshal() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s\n# The tones of propsoff: on or off. What is off is still written on the sheet.\n%s: %s\n%s:\n", fieldWhat, what, fieldAll, onOff(!s.Off), fieldEach)
	for _, c := range All() {
		fmt.Fprintf(&b, "  %s: %s\n", c.Word(), onOff(!s.Muted[c]))
	}
	return b.Bytes()
}

func onOff(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

// Load reads the settings file at path. One that is not there gives the defaults; with an error the settings are the defaults too.
func Load(path string) (Settings, error) {
	data, err := read(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Settings{}, nil
	}
	if err != nil {
		return Settings{}, err
	}
	return Parse(path, data)
}

func read(path string) ([]byte, error) {
	data, err := door.Read(path, "", longestFile)
	if errors.Is(err, door.ErrTooLong) {
		return nil, words.Wrong("sound-file.too-long", words.Args{"most": words.Whole(longestFile)}).In(path).Because(err)
	}
	return data, err
}

// Save keeps the settings at path, whose folder is made if need be (0700). What a person wrote into the file stays: order and
// comments, only the words that changed are others. A file that cannot be read as one of sounds is left alone, with an error. It
// is replaced as a whole: a reader sees the old one or the new one, whenever the program is killed.
func (s *Settings) Save(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return words.Wrong("sound-file.no-folder", words.Args{"why": words.Error(err)}).In(filepath.Dir(path)).Because(err)
	}
	for {
		was, err := read(path)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		now := s.Marshal()
		if err == nil {
			if now, err = s.edited(path, was); err != nil {
				return err
			}
			if bytes.Equal(was, now) {
				return nil
			}
		}
		if err := door.Edit(path, was, now); !errors.Is(err, door.ErrChanged) {
			return err
		}
	}
}

// edited is the text of a file as it is to be.
func (s *Settings) edited(path string, data []byte) ([]byte, error) {
	was, err := Parse(path, data)
	if err != nil {
		return nil, err
	}
	set := func(value bool, field ...string) {
		if err == nil {
			data, err = yamldoc.Set(path, data, field, yamldoc.InlineWord(onOff(value)))
		}
	}
	if was.Off != s.Off {
		set(!s.Off, fieldAll)
	}
	for _, c := range All() {
		if was.Muted[c] != s.Muted[c] {
			set(!s.Muted[c], fieldEach, c.Word())
		}
	}
	if err != nil {
		return nil, err
	}
	if now, err := Parse(path, data); err != nil || now != *s {
		return nil, words.Wrong("sound-file.not-changeable").In(path)
	}
	return data, nil
}
