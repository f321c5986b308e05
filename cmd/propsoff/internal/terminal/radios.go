package terminal

import (
	"fmt"
	"strconv"
	"strings"

	"propsoff/assets/mouth"
	"propsoff/input"
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
	// Trouble says why it cannot be read, or not in the best way; empty where all is well.
	Trouble string `json:"trouble,omitempty"`
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

// AppendJSON appends the radio as a line of JSON.
func (r *Radio) AppendJSON(dst []byte) []byte {
	return appendObject(dst, r)
}

// AppendText appends the radio as some lines of text.
func (r *Radio) AppendText(dst []byte) []byte {
	dst = fmt.Appendf(dst, "%d  %s\n", r.Number, mouth.Printable(r.Name))
	var where []string
	add := func(what, v string) {
		if v != "" {
			where = append(where, what+v)
		}
	}
	add("", r.Path)
	add("", r.Way)
	if r.Vendor != "" {
		add("USB ", r.Vendor+":"+r.Product)
	}
	add("serial number ", r.Serial)
	add("port ", r.Port)
	dst = fmt.Appendf(dst, "   %s\n", mouth.Printable(strings.Join(where, ", ")))
	if r.Trouble != "" {
		dst = fmt.Appendf(dst, "   %s\n", mouth.Printable(r.Trouble))
	}
	if len(r.Axes) > 0 {
		dst = append(dst, "   axis      lowest  highest    now\n"...)
	}
	for _, a := range r.Axes {
		now := "-"
		if a.Value != nil {
			now = strconv.Itoa(int(*a.Value))
		}
		hat := ""
		if a.Hat {
			hat = "  (hat)"
		}
		dst = fmt.Appendf(dst, "   %4d  %10d %8d %6s%s\n", a.Number, a.Min, a.Max, now, hat)
	}
	down := "none"
	if len(r.Pressed) > 0 {
		down = strings.Trim(fmt.Sprint(r.Pressed), "[]")
	}
	return fmt.Appendf(dst, "   %d buttons, pressed: %s\n", r.Buttons, down)
}

// AppendRaw appends a whole raw state as a line of JSON. axes and buttons are the device's; its numbers are told as they are:
//
//	{"t_us":1234567,"axes":[0,2047,…],"pressed":[1,24],"resync":false}
func AppendRaw(dst []byte, at int64, raw *input.Raw, axes int) []byte {
	dst = append(dst, `{"t_us":`...)
	dst = strconv.AppendInt(dst, at, 10)
	dst = append(dst, `,"axes":[`...)
	for i := range min(axes, input.MaxAxes) {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = strconv.AppendInt(dst, int64(raw.Axes[i]), 10)
	}
	dst = append(dst, `],"pressed":[`...)
	first := true
	for n := range input.MaxButtons {
		if !raw.Button(n) {
			continue
		}
		if !first {
			dst = append(dst, ',')
		}
		dst, first = strconv.AppendInt(dst, int64(n)+1, 10), false
	}
	dst = append(dst, ']')
	dst = appendBool(dst, "resync", raw.Resync)
	return append(dst, "}\n"...)
}

// AppendRawText appends a raw state as one line of text.
func AppendRawText(dst []byte, at int64, raw *input.Raw, axes int) []byte {
	dst = fmt.Appendf(dst, "%12.6f s  axes", float64(at)/1e6)
	for i := range min(axes, input.MaxAxes) {
		dst = fmt.Appendf(dst, " %d", raw.Axes[i])
	}
	dst = append(dst, "  pressed"...)
	down := pressed(raw)
	if len(down) == 0 {
		dst = append(dst, " none"...)
	}
	for _, n := range down {
		dst = fmt.Appendf(dst, " %d", n)
	}
	if raw.Resync {
		dst = append(dst, "  (readings were lost before this one)"...)
	}
	return append(dst, '\n')
}
