package terminal

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/pulse"
)

// Form is how lines are written: as JSON Lines, which are the same in every language, or as text in one. The zero value is English text.
type Form struct {
	JSON bool
	// Plain leaves time and code before a sentence out.
	Plain bool
	// Book is the language of text, nil for English.
	Book *words.Book
}

// Sentence appends a sentence as a line by itself.
func (f Form) Sentence(dst []byte, t words.Text) []byte {
	return append(append(dst, say(f.Book, t)...), '\n')
}

// line appends one line: time, code and fields as JSON, or time, code and sentence in columns.
func (f Form) line(dst []byte, tick int64, code string, sentence words.Text, fields ...any) []byte {
	if f.JSON {
		return AppendFields(dst, append([]any{"t_ms", tick, "code", code}, fields...)...)
	}
	return append(append(append(dst, f.stamp(tick, code)...), say(f.Book, sentence)...), '\n')
}

// stamp is what stands before a sentence: when, and its code; nothing in plain text.
func (f Form) stamp(tick int64, code string) string {
	if f.Plain {
		return ""
	}
	return fmt.Sprintf("%12s  %-14s ", say(f.Book, tell.Clock(tick)), code)
}

// Fields are names and values in turn, as a JSON object has them. A Text is said in English; what is nil is left out.
type Fields []any

// AppendFields appends fields as a line of JSON.
func AppendFields(dst []byte, fields ...any) []byte {
	return append(appendValue(dst, Fields(fields)), '\n')
}

// appendValue appends one value; of the kinds that come a thousand times a second it does so without asking what they are made of.
func appendValue(dst []byte, v any) []byte {
	switch v := v.(type) {
	case Fields:
		before := byte('{')
		for i := 0; i+1 < len(v); i += 2 {
			if v[i+1] == nil {
				continue
			}
			dst = append(append(append(dst, before, '"'), v[i].(string)...), `":`...)
			dst, before = appendValue(dst, v[i+1]), ','
		}
		return append(dst, '}')
	case []string:
		return appendList(dst, v)
	case []words.Text:
		return appendList(dst, v)
	case []Fields:
		return appendList(dst, v)
	case []pulse.Width:
		return appendList(dst, v)
	case words.Text:
		return appendValue(dst, english(v))
	case int:
		return strconv.AppendInt(dst, int64(v), 10)
	case int32:
		return strconv.AppendInt(dst, int64(v), 10)
	case int64:
		return strconv.AppendInt(dst, v, 10)
	case bool:
		return strconv.AppendBool(dst, v)
	case pulse.Width: // in µs, null where it is no valid pulse
		if !v.Valid() {
			return append(dst, "null"...)
		}
		return strconv.AppendFloat(dst, float64(v)/pulse.Eighths, 'f', -1, 64)
	case json.Number:
		return append(dst, v...)
	case string:
		if !strings.ContainsFunc(v, func(r rune) bool { return r < ' ' || r > '~' || r == '"' || r == '\\' }) {
			return append(append(append(dst, '"'), v...), '"')
		}
	}
	return mouth.AppendJSON(dst, v)
}

// appendList appends values in brackets.
func appendList[T any](dst []byte, all []T) []byte {
	dst = append(dst, '[')
	for i, v := range all {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendValue(dst, v)
	}
	return append(dst, ']')
}

// orNil is a value that a line leaves out where it is the zero one.
func orNil[T comparable](v T) any {
	var zero T
	if v == zero {
		return nil
	}
	return v
}

// orNone is a list that a line leaves out where it is empty.
func orNone(all []string) any {
	if len(all) == 0 {
		return nil
	}
	return all
}

// thousandths is n/1000 as JSON has numbers, with as many decimals as it needs.
func thousandths(n int64) json.Number {
	return json.Number(strconv.FormatFloat(float64(n)/1000, 'f', -1, 64))
}

// exact is a width in µs as JSON has it.
func exact(w pulse.Width) json.Number { return thousandths(int64(w) * 125) }
