package patternfile

import (
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/gestures"
)

// Entry is a gesture to be written into a file.
type Entry struct {
	// Pattern has its name and its code word; its Opens and With are not written.
	Pattern gestures.Pattern
	// SlotTicks is the length in ms of the slots that its times are given in.
	SlotTicks uint16
	// Opens is the code word of the menu that it opens, empty for none.
	Opens string
}

// fieldOrder is the usual order of the fields of a file.
var fieldOrder = []string{"propsoff", "edges", "gestures", "menus"}

// Append adds a gesture to the text of a gesture file, after the others, or makes a new file where data is empty. All else stays as
// it is, comments too. What it gives has been read again: its errors are those of Parse, and one where the file already has a gesture
// with that code word.
func Append(name string, data []byte, e Entry) ([]byte, error) {
	if len(data) == 0 {
		data = []byte("# Two-stick gestures of your own.\npropsoff: " + Kind + "\n")
	} else if f, err := Parse(name, data, e.SlotTicks); err != nil {
		return nil, err
	} else if slices.ContainsFunc(f.Gestures.Patterns, func(p gestures.Pattern) bool { return p.Code == e.Pattern.Code }) {
		return nil, words.Wrong("gesture-file.exists", words.Args{"code": words.Quote(e.Pattern.Code)}).In(name)
	}
	out, err := yamldoc.Set(name, data, []string{"gestures", e.Pattern.Code}, e.inline(), fieldOrder)
	if err != nil {
		return nil, err
	}
	if _, err := Parse(name, out, e.SlotTicks); err != nil {
		return nil, err
	}
	return out, nil
}

// inline writes the gesture, and those that may be made together with it.
func (e *Entry) inline(with ...yamldoc.Inline) yamldoc.Inline {
	p := &e.Pattern
	fields := []yamldoc.InlineField{{Name: "name", Value: yamldoc.InlineText(p.Name)}}
	if p.Count == 1 {
		fields = append(fields, e.part(0)...)
	} else {
		list := make([]yamldoc.Inline, p.Count)
		for i := range list {
			list[i] = yamldoc.InlineGroup(e.part(i)...)
		}
		fields = append(fields, yamldoc.InlineField{Name: "parts", Value: yamldoc.InlineList(list...)})
	}
	if e.Opens != "" {
		fields = append(fields, yamldoc.InlineField{Name: "opens", Value: yamldoc.InlineWord(e.Opens)})
	}
	if len(with) > 0 {
		fields = append(fields, yamldoc.InlineField{Name: "with", Value: yamldoc.InlineList(with...)})
	}
	return yamldoc.InlineGroup(fields...)
}

func (e *Entry) part(i int) []yamldoc.InlineField {
	part := &e.Pattern.Parts[i]
	var stand []yamldoc.InlineField
	for _, w := range standWords(e.Pattern.Physical, part.Zones) {
		stand = append(stand, yamldoc.InlineField{Name: w[0], Value: yamldoc.InlineWord(w[1])})
	}
	dwell, within := millis(part.Dwell, e.SlotTicks, mostDwell.Milliseconds()), millis(part.Within, e.SlotTicks, mostWithin.Milliseconds())
	fields := []yamldoc.InlineField{{Name: "stand", Value: yamldoc.InlineGroup(stand...)}, {Name: "for", Value: dwell}}
	if i > 0 {
		fields = append(fields, yamldoc.InlineField{Name: "within", Value: within})
	}
	return fields
}

// FreeCode makes a code word from a name, one that no gesture of the file has yet. f may be nil.
func FreeCode(f *File, name string) string {
	code := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return '-'
	}, strings.ToLower(name))
	code = strings.Join(strings.FieldsFunc(code, func(r rune) bool { return r == '-' }), "-")
	if code = strings.Trim(code[:min(len(code), longestCode-4)], "-"); code == "" || code[0] < 'a' {
		code = strings.TrimSuffix("gesture-"+code, "-")
	}
	code = strings.TrimRight(code[:min(len(code), longestCode-4)], "-")
	taken := func(c string) bool {
		return f != nil && slices.ContainsFunc(f.Gestures.Patterns, func(p gestures.Pattern) bool { return p.Code == c })
	}
	free := code
	for n := 2; taken(free); n++ {
		free = code + "-" + strconv.Itoa(n)
	}
	return free
}
