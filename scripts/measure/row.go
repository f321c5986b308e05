package main

import (
	"bytes"
	"cmp"
	_ "embed" // the rows
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"gopkg.in/yaml.v3"
)

// row is one row of the table.
type row struct {
	// Row is what it is called by, What stands in its first column, How in its third.
	Row, What, How string
	// Says is its sentence, with names in braces where figures stand.
	Says string
	// Run is the command; without one a person reads the figures, as Long says. A command with Long is only run by its name.
	Run, Long string
	// Quiet: its figures are times, which say nothing while the machine does much else.
	Quiet bool
	// Read is how each figure is read.
	Read map[string]figure
	// Readme is a sentence of the README with the same figures.
	Readme string
	// Sample is what the command printed once, Gives the sentence of it: the test reads it.
	Sample, Gives string
}

// figure is how one is read from what a command prints.
type figure struct {
	// Find finds it, with one group for it; of several finds Take (first, last, least, most, median) is taken, the last by itself.
	Find, Take string
	// Times is what it is multiplied by, Digits how many count, all that were printed by itself.
	Times  float64
	Digits int
}

//go:embed rows.yaml
var rowsText []byte

// load reads the rows and refuses what cannot be meant.
func load() (rows []*row, err error) {
	d := yaml.NewDecoder(bytes.NewReader(rowsText))
	d.KnownFields(true)
	if err := d.Decode(&rows); err != nil {
		return nil, err
	}
	for i, r := range rows {
		if r.How == "" {
			r.How = "`" + r.Run + "`"
		}
		var asked []string
		for _, name := range braces.FindAllString(r.Says+r.Readme, -1) {
			asked = append(asked, strings.Trim(name, "{}"))
		}
		for _, name := range asked {
			if _, ok := r.Read[name]; !ok {
				return nil, fmt.Errorf("%s: nothing reads {%s}", r.Row, name)
			}
		}
		for name, f := range r.Read {
			if re, err := regexp.Compile(f.Find); err != nil || re.NumSubexp() != 1 || !slices.Contains(asked, name) {
				return nil, fmt.Errorf("%s: %s: one group, and a place in the sentence: %v", r.Row, name, err)
			}
		}
		if find(rows[:i], r.Row) != nil || r.Run == "" && (r.Long == "" || len(r.Read) > 0) {
			return nil, fmt.Errorf("%s: it is there twice, or has no command", r.Row)
		}
	}
	return rows, nil
}

func find(rows []*row, name string) *row {
	for _, r := range rows {
		if r.Row == name {
			return r
		}
	}
	return nil
}

func all(rows []*row) (names []string) {
	for _, r := range rows {
		names = append(names, r.Row)
	}
	return names
}

// braces are places for figures.
var braces = regexp.MustCompile(`\{[a-z0-9]+\}`)

// tell is the sentence of a row after its command has printed something, and the README's.
func (r *row) tell(printed string) (says, readme string, err error) {
	var wrong error
	put := func(s string) string {
		return braces.ReplaceAllStringFunc(s, func(name string) string {
			f := r.Read[strings.Trim(name, "{}")]
			text, err := f.read(printed)
			if err != nil {
				wrong = errors.Join(wrong, fmt.Errorf("%s: %w", name, err))
			}
			return text
		})
	}
	says, readme = put(r.Says), put(r.Readme)
	return says, readme, wrong
}

// read is a figure as it stands in a sentence.
func (f *figure) read(printed string) (string, error) {
	var found []string
	for _, m := range regexp.MustCompile(f.Find).FindAllStringSubmatch(printed, -1) {
		found = append(found, m[1])
	}
	if len(found) == 0 {
		return "", fmt.Errorf("nothing printed is like %s", f.Find)
	}
	byValue := slices.SortedFunc(slices.Values(found), func(a, b string) int { return cmp.Compare(number(a), number(b)) })
	text := map[string]string{"": found[len(found)-1], "last": found[len(found)-1], "first": found[0], "least": byValue[0], "most": byValue[len(byValue)-1], "median": byValue[len(byValue)/2]}[f.Take]
	if f.Times == 0 && f.Digits == 0 {
		return text, nil
	}
	if f.Times == 0 {
		f.Times = 1
	}
	return rounded(number(text)*f.Times, f.Digits), nil
}

// number is one as programs print it; a time is in seconds.
func number(s string) float64 {
	if d, err := time.ParseDuration(s); err == nil {
		return d.Seconds()
	}
	v, _ := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	return v
}

// rounded has so many digits that count, and commas between thousands.
func rounded(v float64, digits int) string {
	if digits > 0 && v != 0 {
		v = number(strconv.FormatFloat(v, 'e', digits-1, 64))
		if places := digits - 1 - int(math.Floor(math.Log10(math.Abs(v)))); places > 0 {
			return strconv.FormatFloat(v, 'f', places, 64)
		}
	}
	s := strconv.FormatFloat(math.Round(v), 'f', 0, 64)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// line is a row as the table has it.
func (r *row) line(figure, from string) string {
	return "| " + r.What + " | " + figure + " | " + r.How + " | " + from + " |"
}

// into puts a sentence and where it comes from into the table.
func (r *row) into(text, figure, from string) (string, error) {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		if r.is(l) {
			lines[i] = r.line(figure, from)
			return strings.Join(lines, "\n"), nil
		}
	}
	return "", fmt.Errorf("it has no row “%s”", r.What)
}

// is tells whether a line of the table is this row.
func (r *row) is(line string) bool { return strings.HasPrefix(line, "| "+r.What+" | ") }

// like finds a sentence with any figures in its places.
func like(sentence string) *regexp.Regexp {
	parts := braces.Split(sentence, -1)
	for i := range parts {
		parts[i] = regexp.QuoteMeta(parts[i])
	}
	return regexp.MustCompile(strings.Join(parts, `([0-9][0-9.,]*|-[0-9.]+|overshoot [0-9.]+ %|no overshoot)`))
}

// replace puts a sentence with new figures where the old one stands, once.
func replace(text, sentence, by string) (string, error) {
	at := like(sentence).FindAllStringIndex(text, -1)
	if len(at) != 1 {
		return "", fmt.Errorf("“%s” stands there %d times, wanted once", sentence, len(at))
	}
	return text[:at[0][0]] + by + text[at[0][1]:], nil
}
