package radio

import (
	"fmt"
	"strconv"
	"strings"

	"propsoff.example/assets/yamldoc"
)

// header stands at the top of every radio file that is written.
const header = `# A radio file: which axis or button of this radio is what.
# Axes, buttons and channels count from 1.
# scale: the raw values that mean 988, 1500 and 2012 µs. Left out, the device's own lowest, middle and highest value
#   mean that; backwards turns them round.
# reach: the raw values that the control was really seen to reach. It changes no reading.
# positions: where a switch on an axis rests, low to high by its scale, each with its spread (standard deviation).
# noise: the standard deviation of the raw value while nobody moves it.
# stays: yes has no spring, no springs back to its middle; left out, the rest in its reach tells. momentary: a switch springs back.
# side: left, right or top. called: your own name for it.
# sits: where it is: on the face, the shoulders or the back (seen through from the front), so many thousandths across from the left and
#   down from the top; goes: which way from its low end to its high one (on the shoulders up is away from you). It tells the side too.
# moves-with: the job of another control that is the same piece of the radio; turned: yes where this one goes down as that one goes up.
# given: yes where the file came from elsewhere and its controls have not been tried here yet; it is taken away once they have.
# buttons: one for each position, low to high; none is the position that stands while no button of the row is pressed.
`

// Marshal writes f as a radio file; Parse reads the same File back. Bytes in its texts that are not UTF-8 become U+FFFD.
func (f *File) Marshal() []byte {
	var b strings.Builder
	b.WriteString(header)
	fmt.Fprintf(&b, "propsoff: radio %d\n", Version)
	b.WriteString("device: {" + strings.Join(f.Device.fields(), ", ") + "}\n")
	fmt.Fprintf(&b, "stick-mode: %d\n", f.StickMode)
	if f.Given {
		b.WriteString("given: yes\n")
	}
	b.WriteString("controls:\n")
	widest := 0
	for _, c := range f.Controls {
		widest = max(widest, len(jobName(c.Job)))
	}
	for _, c := range f.Controls {
		fmt.Fprintf(&b, "  %-*s {%s}\n", widest+1, jobName(c.Job)+":", strings.Join(c.fields(), ", "))
	}
	return []byte(b.String())
}

// jobName is a job as it is written: `channel 7` needs no quotation marks.
func jobName(job string) string {
	if _, _, ok := channelJob(job); ok {
		return job
	}
	return yamldoc.Quote(job)
}

func (d Device) fields() []string {
	var out []string
	text := func(name, value string) {
		if value != "" {
			out = append(out, name+": "+yamldoc.Quote(value))
		}
	}
	number := func(name string, value uint16) {
		if value != 0 {
			out = append(out, fmt.Sprintf(`%s: "%04x"`, name, value))
		}
	}
	text("name", d.Name)
	number("vendor", d.Vendor)
	number("product", d.Product)
	text("serial", d.Serial)
	text("port", d.Port)
	return out
}

func (c Control) fields() []string {
	var out []string
	switch {
	case c.With != "":
		out = append(out, "moves-with: "+jobName(c.With))
		if c.Turned {
			out = append(out, "turned: yes")
		}
		return out
	case c.Form == Axis:
		out = append(out, fmt.Sprintf("axis: %d", c.Axis+1))
	case c.Form == Button && len(c.Buttons) == 1:
		out = append(out, fmt.Sprintf("button: %d", c.Buttons[0]+1))
	case c.Form == Row:
		var row []string
		for _, b := range c.Buttons {
			if b == None {
				row = append(row, "none")
			} else {
				row = append(row, strconv.Itoa(b+1))
			}
		}
		out = append(out, "buttons: ["+strings.Join(row, ", ")+"]")
	}
	switch {
	case c.Scale != nil:
		out = append(out, fmt.Sprintf("scale: {988: %s, 1500: %s, 2012: %s}", c.Scale.Low, c.Scale.Middle, c.Scale.High))
	case c.Backwards:
		out = append(out, "scale: backwards")
	}
	if r := c.Reach; r != nil {
		out = append(out, fmt.Sprintf("reach: {low: %d, rest: %d, high: %d}", r.Low, r.Rest, r.High))
	}
	return append(out, c.findings()...)
}

// String writes h as a person would: 2047.5, −3 with an ordinary minus.
func (h Half) String() string {
	s := strconv.FormatInt(int64(h/2), 10)
	if h%2 == 0 {
		return s
	}
	if h < 0 && h/2 == 0 {
		s = "-0"
	}
	return s + ".5"
}
