package take

import (
	"encoding/binary"
	"math"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/sim/pulse"
)

// Settings is what a replay of a part needs besides the readings. Every text may be empty.
type Settings struct {
	// Program is the version of the program that recorded.
	Program string
	// Model is the number of the model that it recorded with; a take made before there were numbers has 1.
	Model int
	// CraftName and CraftText are the craft file's name and its whole text, RadioName and RadioText those of the radio
	// file. A take carries the texts because a file that is changed later would make another practice of it.
	CraftName, CraftText string
	RadioName, RadioText string
	// CraftFilled and GesturesFilled are craft and gestures with every default filled in, as they stood on the bench: in a drill that
	// is not what the person's own file says. RadioFilled is the radio file so.
	CraftFilled, GesturesFilled, RadioFilled string
	// GesturesName and GesturesText are those of the gesture file.
	GesturesName, GesturesText string
	// Note says in words how the practice began (a script's name, the air bench, a drill).
	Note string
	// Codes are the names of the happening codes by their number, as the recorder had them.
	Codes []string
	// From is the tick at which the part begins, and Stands what held outside the craft then, as readings stamped with the time in µs
	// from which each counts.
	From   int64
	Stands []pulse.Reading
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
	tagModel
	tagCraftFilled
	tagGesturesFilled
	tagFrom
	tagStands
	tagRadioFilled
)

// append appends the payload of the settings record.
func (s *Settings) append(dst []byte) ([]byte, error) {
	for _, c := range s.Codes {
		if strings.Contains(c, "\n") {
			return nil, words.Wrong("take.code-name", words.Args{"name": words.Typed(c)})
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
	field(tagCraftFilled, s.CraftFilled)
	field(tagGesturesFilled, s.GesturesFilled)
	field(tagRadioFilled, s.RadioFilled)
	number := func(tag uint64, v int64) {
		if v != 0 {
			field(tag, string(binary.AppendUvarint(nil, uint64(v))))
		}
	}
	number(tagModel, int64(s.Model))
	number(tagFrom, s.From)
	field(tagStands, string(s.stands()))
	if len(dst)-from > maxSettings {
		return nil, words.Wrong("take.settings-large", words.Args{"size": words.Whole(len(dst) - from), "most": words.Whole(maxSettings)})
	}
	return dst, nil
}

// parseSettings reads the payload of the settings record.
func parseSettings(b []byte) (Settings, error) { return parseInto(Settings{Model: 1}, b) }

// parseInto reads fields over those of s.
func parseInto(s Settings, b []byte) (Settings, error) {
	var stands string
	for len(b) > 0 {
		tag, n := binary.Uvarint(b)
		if n <= 0 {
			return s, senseless("take.field-cut")
		}
		b = b[n:]
		size, n := binary.Uvarint(b)
		if n <= 0 || size > uint64(len(b)-n) {
			return s, senseless("take.field-cut")
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
		case tagCraftFilled:
			s.CraftFilled = text
		case tagGesturesFilled:
			s.GesturesFilled = text
		case tagRadioFilled:
			s.RadioFilled = text
		case tagModel, tagFrom:
			v, n := binary.Uvarint([]byte(text))
			if n != len(text) || v > maxTick || tag == tagModel && (v == 0 || v > math.MaxInt32) {
				return s, senseless("take.settings-number")
			}
			if tag == tagModel {
				s.Model = int(v)
			} else {
				s.From = int64(v)
			}
		case tagStands:
			stands = text
		case tagCodes:
			s.Codes = nil
			if text != "" {
				s.Codes = strings.Split(text, "\n")
			}
		}
	}
	return s, s.readStands([]byte(stands))
}

// stands writes Stands: of each reading its kind, how many ticks before the part it began to count, and its value; of controls
// every channel.
func (s *Settings) stands() []byte {
	var b []byte
	for i := range s.Stands {
		r := &s.Stands[i]
		b = append(b, byte(r.Kind))
		b = binary.AppendUvarint(b, uint64(max(s.From-r.At/1000, 0)))
		if r.Kind != pulse.Controls {
			b = binary.AppendVarint(b, int64(r.Value))
			continue
		}
		for _, w := range r.Frame {
			b = binary.AppendVarint(b, int64(w))
		}
	}
	return b
}

func (s *Settings) readStands(b []byte) error {
	r := Reader{rec: b}
	for len(r.rec) > 0 {
		one := pulse.Reading{Kind: pulse.Kind(r.rec[0])}
		r.rec = r.rec[1:]
		ago, ok := r.uvarint()
		if !ok || one.Kind < pulse.Controls || one.Kind >= pulse.KindCount || ago > uint64(s.From) {
			return senseless("take.settings-stands")
		}
		one.At = (s.From - int64(ago)) * 1000
		if one.Kind != pulse.Controls {
			one.Value, ok = r.varint32()
		}
		for c := 0; ok && one.Kind == pulse.Controls && c < len(one.Frame); c++ {
			var v int32
			if v, ok = r.varint32(); v < math.MinInt16 || v > math.MaxInt16 {
				ok = false
			}
			one.Frame[c] = pulse.Width(v)
		}
		if !ok {
			return senseless("take.settings-stands")
		}
		s.Stands = append(s.Stands, one)
	}
	return nil
}

// code names a happening code by the take's own table, or by its number where the table does not reach.
func (s *Settings) code(c uint8) words.Text {
	if int(c) < len(s.Codes) && s.Codes[c] != "" {
		return words.AsIs(s.Codes[c])
	}
	return words.T("take.code", words.Args{"n": words.Whole(c)})
}
