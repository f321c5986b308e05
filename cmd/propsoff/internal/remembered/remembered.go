// Package remembered holds what the program remembers from one start to the next: in one file who practises, stick mode, sheet, language, radio, text
// size, and which radios were confirmed; in another what searches of layouts came to.
package remembered

import (
	"bytes"
	"fmt"
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
)

// sheets are the names of the themes that there are to choose from (a test holds them to those).
var sheets = []string{"light", "dark", "black-on-white", "white-on-black"}

// FileName is the name of the file in the program's configuration folder.
const FileName = "remembered.yaml"

// Settings are what is remembered. The zero value remembers nothing.
type Settings struct {
	// Person is who practises, empty for nobody.
	Person string
	// StickMode is 1 to 4, 0 where it was never chosen.
	StickMode int
	// Sheet is the name of a theme, Language a code of words.Languages; empty where it was never chosen.
	Sheet, Language string
	// Radio is the one that was chosen last, as Radios are written there.
	Radio string
	// TextSize is in percent of the usual, 0 where it was never chosen.
	TextSize int
	// Confirmed are the radios of which somebody has said on a day that no craft bound to them has its pack connected.
	Confirmed []Confirmed
}

// Confirmed is one such radio.
type Confirmed struct {
	Radio, Person string
	Day           int
}

// The bounds of what the file may say (ours): text in bytes, text size in percent, days since 1970, how many radios a day.
const (
	longestFile         = 1 << 16
	longestText         = 1 << 10
	leastSize, mostSize = 50, 300
	mostDay, mostRadios = 1 << 20, 64
	what                = "remembered 1"
	fieldWhat           = "propsoff"
	fieldPerson         = "person"
	fieldMode           = "stick-mode"
	fieldSheet          = "sheet"
	fieldLanguage       = "language"
	fieldRadio          = "radio"
	fieldSize           = "text-size"
	fieldConfirmed      = "confirmed"
	fieldDay            = "day"
)

// Parse reads the file. All that is wrong comes in one error (words.Problems), and then nothing is remembered.
func Parse(name string, data []byte) (Settings, error) {
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		return Settings{}, err
	}
	var s Settings
	m := doc.Root().Map("remembered.file")
	isFile(m, what)
	s.Person, s.Radio = text(m.Opt(fieldPerson)), text(m.Opt(fieldRadio))
	s.StickMode, _ = m.Opt(fieldMode).Int(1, 4)
	s.TextSize, _ = m.Opt(fieldSize).Int(leastSize, mostSize)
	s.Sheet, _ = m.Opt(fieldSheet).Word(sheets...)
	s.Language = text(m.Opt(fieldLanguage))
	if n, ok := m.Field(fieldConfirmed); ok {
		all, _ := n.ListOf(0, mostRadios)
		for _, one := range all {
			e := one.Map("remembered.confirmed")
			c := Confirmed{Radio: text(e.Need(fieldRadio)), Person: text(e.Opt(fieldPerson))}
			c.Day, _ = e.Need(fieldDay).Int(0, mostDay)
			e.Done()
			s.Confirmed = append(s.Confirmed, c)
		}
	}
	m.Done()
	if err := doc.Err(); err != nil {
		return Settings{}, err
	}
	return s, nil
}

// isFile holds the file to the name that it begins with.
func isFile(m *yamldoc.Map, what string) {
	if n := m.Need(fieldWhat); n.Exists() {
		if text, ok := n.Text(); ok && text != what {
			n.Wrong("remembered.other-file", words.Args{"text": words.Typed(text), "wanted": words.Quote(fieldWhat + ": " + what)})
		}
	}
}

// text is what a field says, within its bound; empty for a field that is not there.
func text(n yamldoc.Node) string {
	if !n.Exists() {
		return ""
	}
	t, ok := n.Text()
	if ok && len(t) > longestText {
		n.Wrong("remembered.too-long", words.Args{"most": words.Whole(longestText)})
		return ""
	}
	return t
}

// Marshal writes the file.
func (s *Settings) Marshal() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s\n# What propsoff remembers from one start to the next. Whatever is left out is as usual.\n", fieldWhat, what)
	write := func(field, text string) {
		if text != "" {
			fmt.Fprintf(&b, "%s: %s\n", field, yamldoc.Quote(text))
		}
	}
	write(fieldPerson, s.Person)
	write(fieldRadio, s.Radio)
	write(fieldLanguage, s.Language)
	if s.Sheet != "" {
		fmt.Fprintf(&b, "%s: %s\n", fieldSheet, s.Sheet)
	}
	if s.StickMode > 0 {
		fmt.Fprintf(&b, "%s: %d\n", fieldMode, s.StickMode)
	}
	if s.TextSize > 0 {
		fmt.Fprintf(&b, "%s: %d\n", fieldSize, s.TextSize)
	}
	if len(s.Confirmed) > 0 {
		fmt.Fprintf(&b, "%s:\n", fieldConfirmed)
	}
	for _, c := range s.Confirmed {
		fmt.Fprintf(&b, "  - {%s: %d, %s: %s, %s: %s}\n", fieldDay, c.Day, fieldRadio, yamldoc.Quote(c.Radio), fieldPerson, yamldoc.Quote(c.Person))
	}
	return b.Bytes()
}

// File is the file with what it remembers. The zero value remembers until the program ends. It belongs to one goroutine.
type File struct {
	Settings
	kept
}

// Open reads what is remembered at a path; empty remembers until the program ends. A file that cannot be used is put aside beside it, and
// Trouble says so.
func Open(path string) *File {
	f := &File{kept: kept{path: path}}
	f.read(longestFile, "remembered-damaged", "remembered.damaged", func(data []byte) (err error) {
		f.Settings, err = Parse(path, data)
		return err
	})
	return f
}

// Change changes what is remembered and keeps it. Where that cannot be kept, Trouble says so, and it holds until the program ends.
func (f *File) Change(change func(*Settings)) {
	was := string(f.Marshal())
	change(&f.Settings)
	if now := f.Marshal(); was != string(now) {
		f.write(now)
	}
}

// Confirm notes that a radio was confirmed on a day by whoever practises; what was of other days is forgotten.
func (f *File) Confirm(c Confirmed) {
	f.Change(func(s *Settings) {
		s.Confirmed = slices.DeleteFunc(s.Confirmed, func(o Confirmed) bool { return o.Day != c.Day || o == c })
		if len(s.Confirmed) == mostRadios {
			s.Confirmed = s.Confirmed[1:]
		}
		s.Confirmed = append(s.Confirmed, c)
	})
}

// IsConfirmed tells whether a radio was confirmed on a day by whoever practises.
func (f *File) IsConfirmed(c Confirmed) bool { return slices.Contains(f.Confirmed, c) }

// ConfirmedByAnother tells whether the same radio was confirmed on the same day by somebody else than whoever practises.
func (f *File) ConfirmedByAnother(c Confirmed) bool {
	return slices.ContainsFunc(f.Confirmed, func(o Confirmed) bool { return o.Radio == c.Radio && o.Day == c.Day && o.Person != c.Person })
}
