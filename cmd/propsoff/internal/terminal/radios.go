package terminal

import (
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input"
)

// Radio is one device with its state, as lists and JSON Lines show it. Numbers count from 1.
type Radio struct {
	Number  int         `json:"number"`
	Name    string      `json:"name"`
	Path    string      `json:"path"`
	Vendor  string      `json:"vendor,omitempty"`
	Product string      `json:"product,omitempty"`
	Serial  string      `json:"serial,omitempty"`
	Port    string      `json:"port,omitempty"`
	Way     string      `json:"way,omitempty"`
	Blunted bool        `json:"blunted"`
	Axes    []RadioAxis `json:"axes"`
	Buttons int         `json:"buttons"`
	Pressed []int       `json:"pressed"`
	// Trouble says why it cannot be read, or not in the best way, and nothing where all is well; in JSON it is a sentence.
	Trouble words.Text `json:"-"`
}

// RadioAxis is one axis in the device's own numbers. Value is null where it was not read.
type RadioAxis struct {
	Number int    `json:"number"`
	Min    int32  `json:"min"`
	Max    int32  `json:"max"`
	Hat    bool   `json:"hat,omitempty"`
	Value  *int32 `json:"value"`
}

// NewRadio makes a Radio of what a device says of itself and its latest state, nil where none was read.
func NewRadio(number int, info *input.Info, raw *input.Raw) Radio {
	r := Radio{
		Number: number, Name: info.Name, Path: info.Path, Serial: info.Serial, Port: info.Port, Way: info.Way,
		Blunted: info.Blunted, Buttons: info.Buttons, Axes: []RadioAxis{}, Pressed: []int{},
	}
	if info.Vendor != 0 || info.Product != 0 {
		r.Vendor, r.Product = fmt.Sprintf("%04x", info.Vendor), fmt.Sprintf("%04x", info.Product)
	}
	for i, a := range info.Axes {
		if i == input.MaxAxes {
			break
		}
		ra := RadioAxis{Number: i + 1, Min: a.Min, Max: a.Max, Hat: a.Hat}
		if raw != nil {
			v := raw.Axes[i]
			ra.Value = &v
		}
		r.Axes = append(r.Axes, ra)
	}
	if raw != nil {
		r.Pressed = append(r.Pressed, pressed(raw)...)
	}
	return r
}

// pressed are the pressed buttons, counted from 1.
func pressed(raw *input.Raw) []int {
	var out []int
	for n := range input.MaxButtons {
		if raw.Button(n) {
			out = append(out, n+1)
		}
	}
	return out
}

// Radio appends a radio as a line of JSON, or as some lines of text.
func (f Form) Radio(dst []byte, r *Radio) []byte {
	b := f.Book
	if f.JSON {
		one := *r
		one.Way = codes.Way(r.Way)
		return append(mouth.AppendJSON(dst, struct {
			*Radio
			Trouble string `json:"trouble,omitempty"`
		}{&one, english(r.Trouble)}), '\n')
	}
	dst = fmt.Appendf(dst, "%d  %s\n", r.Number, mouth.Printable(r.Name))
	where := []words.Text{words.AsIs(r.Path), tell.Way(r.Way)}
	if r.Vendor != "" {
		where = append(where, words.AsIs("USB "+r.Vendor+":"+r.Product))
	}
	if r.Serial != "" {
		where = append(where, words.T("terminal.serial", words.Args{"serial": words.Quote(r.Serial)}))
	}
	if r.Port != "" {
		where = append(where, words.T("terminal.port", words.Args{"port": words.Quote(r.Port)}))
	}
	dst = fmt.Appendf(dst, "   %s\n", say(b, words.Listed(where...)))
	if !r.Trouble.Empty() {
		dst = fmt.Appendf(dst, "   %s\n", say(b, r.Trouble))
	}
	dst = r.appendAxes(dst, b)
	return fmt.Appendf(dst, "   %s\n", say(b, buttons(r.Buttons, r.Pressed)))
}

// appendAxes appends the table of its axes.
func (r *Radio) appendAxes(dst []byte, b *words.Book) []byte {
	if len(r.Axes) == 0 {
		return dst
	}
	var heads [4]string
	for i, id := range [4]words.ID{"terminal.axis", "terminal.lowest", "terminal.highest", "terminal.now"} {
		heads[i] = say(b, words.T(id))
	}
	row := func(cells [4]string, more string) {
		dst = append(dst, "   "...)
		for i, least := range [4]int{4, 12, 9, 7} {
			dst = append(dst, right(cells[i], max(least, places(heads[i])+min(i, 1)))...)
		}
		dst = append(append(dst, more...), '\n')
	}
	row(heads, "")
	for _, a := range r.Axes {
		now, hat := "-", ""
		if a.Value != nil {
			now = strconv.Itoa(int(*a.Value))
		}
		if a.Hat {
			hat = "  (" + say(b, words.T("learn-title.hat")) + ")"
		}
		row([4]string{strconv.Itoa(a.Number), strconv.Itoa(int(a.Min)), strconv.Itoa(int(a.Max)), now}, hat)
	}
	return dst
}

// buttons says how many buttons a radio has, and which are pressed, counted from 1.
func buttons(n int, pressed []int) words.Text {
	return words.T("terminal.buttons", words.Args{"n": words.Count(n), "pressed": numbers(pressed)})
}

// numbers are the numbers of buttons, or that there is none.
func numbers(all []int) words.Text {
	if len(all) == 0 {
		return words.T("terminal.none")
	}
	return words.AsIs(strings.Trim(fmt.Sprint(all), "[]"))
}

// Raw appends a whole raw state of a device of so many axes as a line. Its numbers are told as they are, in JSON:
//
//	{"t_us":1234567,"axes":[0,2047,…],"pressed":[1,24],"resync":false}
func (f Form) Raw(dst []byte, raw *input.Raw, axes int) []byte {
	values := raw.Axes[:min(axes, input.MaxAxes)]
	if !f.JSON {
		all := words.Quote(strings.Trim(fmt.Sprint(values), "[]"))
		text := words.T("terminal.raw", words.Args{"axes": all, "pressed": numbers(pressed(raw)), "lost": words.Flag(raw.Resync)})
		return fmt.Appendf(dst, "%14s  %s\n", say(f.Book, tell.Stamp(raw.At)), say(f.Book, text))
	}
	dst = strconv.AppendInt(append(dst, `{"t_us":`...), raw.At, 10)
	dst = appendNumbers(append(dst, `,"axes":`...), values)
	dst = appendNumbers(append(dst, `,"pressed":`...), pressed(raw))
	dst = strconv.AppendBool(append(dst, `,"resync":`...), raw.Resync)
	return append(dst, "}\n"...)
}

// appendNumbers appends numbers in brackets: a radio may say such lists a thousand times a second.
func appendNumbers[T int | int32](dst []byte, all []T) []byte {
	dst = append(dst, '[')
	for i, n := range all {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = strconv.AppendInt(dst, int64(n), 10)
	}
	return append(dst, ']')
}
