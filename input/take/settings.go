package take

import (
	"encoding/binary"
	"fmt"
	"strings"
)

// Settings is what a replay needs besides the readings. Every text may be empty.
type Settings struct {
	// Program is the version of the program that recorded.
	Program string
	// CraftName and CraftText are the craft file's name and its whole text; so for the radio file. A take carries the texts
	// because a file that changed later would make another practice of it.
	CraftName, CraftText string
	RadioName, RadioText string
	// GesturesName and GesturesText are so for the gesture file.
	GesturesName, GesturesText string
	// Note says in words how the practice began (a script's name, the air bench, a drill).
	Note string
	// Codes are the names of the happening codes by their number, as the recorder had them.
	Codes []string
}

// Tags of the settings' fields.
const (
	tagProgram = iota + 1
	tagCraftName
	tagCraftText
	tagRadioName
	tagRadioText
	tagNote
	tagCodes
	tagGesturesName
	tagGesturesText
)

// append appends the payload of the settings record.
func (s *Settings) append(dst []byte) ([]byte, error) {
	for _, c := range s.Codes {
		if strings.Contains(c, "\n") {
			return nil, fmt.Errorf("code name %q has a line break in it", c)
		}
	}
	from := len(dst)
	field := func(tag uint64, text string) {
		if text == "" {
			return
		}
		dst = binary.AppendUvarint(dst, tag)
		dst = binary.AppendUvarint(dst, uint64(len(text)))
		dst = append(dst, text...)
	}
	field(tagProgram, s.Program)
	field(tagCraftName, s.CraftName)
	field(tagCraftText, s.CraftText)
	field(tagRadioName, s.RadioName)
	field(tagRadioText, s.RadioText)
	field(tagNote, s.Note)
	field(tagCodes, strings.Join(s.Codes, "\n"))
	field(tagGesturesName, s.GesturesName)
	field(tagGesturesText, s.GesturesText)
	if len(dst)-from > maxSettings {
		return nil, fmt.Errorf("the craft, radio and gesture files together are %d bytes; a take holds at most %d", len(dst)-from, maxSettings)
	}
	return dst, nil
}

// parseSettings reads the payload of the settings record.
func parseSettings(b []byte) (Settings, error) {
	var s Settings
	for len(b) > 0 {
		tag, n := binary.Uvarint(b)
		if n <= 0 {
			return s, contentError("a settings field is cut")
		}
		b = b[n:]
		size, n := binary.Uvarint(b)
		if n <= 0 || size > uint64(len(b)-n) {
			return s, contentError("a settings field is cut")
		}
		text := string(b[n : n+int(size)])
		b = b[n+int(size):]
		switch tag {
		case tagProgram:
			s.Program = text
		case tagCraftName:
			s.CraftName = text
		case tagCraftText:
			s.CraftText = text
		case tagRadioName:
			s.RadioName = text
		case tagRadioText:
			s.RadioText = text
		case tagNote:
			s.Note = text
		case tagGesturesName:
			s.GesturesName = text
		case tagGesturesText:
			s.GesturesText = text
		case tagCodes:
			s.Codes = nil
			if text != "" {
				s.Codes = strings.Split(text, "\n")
			}
		}
	}
	return s, nil
}

// code names a happening code by the take's own table, or by its number where the table does not reach.
func (s *Settings) code(c uint8) string {
	if int(c) < len(s.Codes) && s.Codes[c] != "" {
		return s.Codes[c]
	}
	return fmt.Sprintf("code %d", c)
}
