package lookup

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/input/script"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/lesson"
	"propsoff.example/sim/pulse"
)

// codeWords are the code words of scripts, takes, logbooks and JSON Lines.
func codeWords() []Part {
	refusals := Part{Heading: words.T("look-up.refusals"), Says: words.Each("look-up", "refusals-about"), Columns: words.Each("look-up", "cures", "code", "when")}
	for _, r := range arming.Shown() {
		refusals.Rows = append(refusals.Rows, []Cell{said(tell.Group(r.Group())), code(r.Code()), said(words.Of("refused-when", r.Code()))})
	}
	columns := words.Each("look-up", "code", "fields", "when")
	happenings := Part{Heading: words.T("look-up.happenings"), Says: words.Each("look-up", "happenings-about"), Columns: columns}
	cfg := sim.Default()
	for c := happening.Code(1); c < happening.CodeCount; c++ {
		var lines []byte
		for _, h := range Such(c) {
			lines = terminal.Form{JSON: true}.Happening(lines, sim.Model, h, &cfg)
		}
		happenings.Rows = append(happenings.Rows, lineRow(codes.Code(c), lines, words.Of("happened-when", codes.Code(c))))
	}
	lines := Part{Heading: words.T("look-up.lines"), Says: words.Each("look-up", "lines-about"), Columns: columns}
	for _, l := range otherLines() {
		lines.Rows = append(lines.Rows, lineRow(l.code, l.lines, words.Of("line-when", l.code)))
	}
	return []Part{refusals, happenings, lines}
}

// Such are happenings of a code with all the numbers for which its line has other fields or words.
func Such(c happening.Code) (all []happening.Happening) {
	from, to, second := int32(0), int32(1), []int32{0}
	switch c {
	case happening.Armed, happening.Menu:
		to = 2
	case happening.Disarmed:
		from, to = 1, int32(happening.CauseCount)-1
	case happening.Mode:
		to, second = 2, []int32{1}
	case happening.Refused: // the refusals have a table of their own
		from, to, second = 1<<arming.BeingSetUp, 1<<arming.BeingSetUp, []int32{0, 1, 2, 4}
	case happening.Sinking, happening.SinkEnded:
		second = []int32{int32(happening.Free), int32(happening.OnStand), int32(happening.OnGround), int32(happening.Broken)}
	case happening.TravelShort: // of the throttle and of yaw alone: theirs are the corners
		from = to + 1
		for layout, ends := sim.Default().Layout, []int32{int32(pulse.Low), int32(pulse.High)}; len(ends) > 0; ends = ends[1:] {
			all = append(all, happening.Happening{Code: c, A: int32(layout.Throttle), B: ends[0]}, happening.Happening{Code: c, A: int32(layout.Yaw), B: ends[0]})
		}
	case happening.Moved:
		to = pulse.HeightHeld
		all = append(all, happening.Happening{Code: c, A: pulse.HoverAt(3000)})
	case happening.Fitted:
		all = append(all, happening.Happening{Code: c, A: pulse.PropellersValue([4]int8{1, -1, 0, 1}, true)})
	case happening.Broke:
		from, to = 1, 15
	case happening.GestureNear:
		second = nil
		for near := int32(1); near < int32(happening.NearCount); near++ {
			second = append(second, near)
		}
	}
	for a := from; a <= to; a++ {
		for _, b := range second {
			all = append(all, happening.Happening{Code: c, A: a, B: b})
		}
	}
	return all
}

// line is another line of JSON, as it is written.
type line struct {
	code  string
	lines []byte
}

// otherLines are those that are no happenings.
func otherLines() []line {
	f, text := terminal.Form{JSON: true}, words.AsIs("…")
	snap := sim.Snapshot{}
	return []line{
		{"expectation-failed", f.Failure(nil, 0, script.Failed{Expect: script.Expect{Kind: script.Armed}, Seen: text})},
		{"difference", f.Difference(nil, 0, text, false)},
		{"model-changed", f.Difference(nil, 0, text, true)},
		{"notice", f.Notice(nil, 0, text)},
		{"could-be-saved", f.Lesson(nil, &lesson.Found{Last: lesson.Way{Any: true}})},
		{"finished", f.Finish(f.Finish(nil, &terminal.Finish{Note: text}), &terminal.Finish{Replay: true, Model: 1})},
		{"stopped", f.Stopped(nil, 0)},
		{"values", terminal.AppendValues(nil, &snap)},
	}
}

// mostWords is how many words a field may have that are listed (ours): longer lists have a page of their own, or tell nobody anything.
const mostWords = 8

// lineRow is the row of a code: its fields besides t_ms and code as its lines have them, when it comes, and which words stand there.
func lineRow(of string, lines []byte, when words.Text) []Cell {
	var names []string
	can := map[string][]string{}
	for l := range bytes.Lines(lines) {
		all := map[string]any{}
		d := json.NewDecoder(bytes.NewReader(l))
		if err := d.Decode(&all); err != nil {
			panic(of + ": " + err.Error()) // the program's own lines
		}
		for _, name := range inOrder(l) {
			if name == "t_ms" || name == "code" {
				continue
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
			for _, w := range wordsIn(all[name]) {
				if !slices.Contains(can[name], w) {
					can[name] = append(can[name], w)
				}
			}
		}
	}
	text := []words.Text{when}
	for _, name := range names {
		if n := len(can[name]); n > 1 && n <= mostWords {
			text = append(text, words.T("look-up.words-of", words.Args{"field": words.Quote(name), "words": words.Listed(words.AsAre(can[name]...)...)}))
		}
	}
	return []Cell{code(of), code(names...), said(words.Row(text...))}
}

// inOrder are the names of an object's fields as they stand.
func inOrder(object []byte) (names []string) {
	d := json.NewDecoder(bytes.NewReader(object))
	for depth := 0; ; {
		token, err := d.Token()
		if err != nil {
			return names
		}
		switch v := token.(type) {
		case json.Delim:
			if depth++; v == '}' || v == ']' {
				depth -= 2
			}
		case string:
			if depth == 1 {
				names = append(names, v)
				var value json.RawMessage
				_ = d.Decode(&value)
			}
		}
	}
}

// wordsIn are the code words of a value.
func wordsIn(v any) (out []string) {
	switch v := v.(type) {
	case string:
		if v != "" && !strings.ContainsAny(v, " ….0123456789") {
			return []string{v}
		}
	case []any:
		for _, one := range v {
			out = append(out, wordsIn(one)...)
		}
	}
	return out
}
