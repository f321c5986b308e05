package yamldoc

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"propsoff.example/assets/words"
)

// Text gives a scalar as it is written, without quotes. "" in quotes is a text;
// nothing at all is an error.
func (n Node) Text() (string, bool) { return n.scalar(words.T("yaml.write-text")) }

// Word gives a scalar that is one of choices, letter by letter.
func (n Node) Word(choices ...string) (string, bool) {
	list := either(choices)
	s, ok := n.scalar(words.T("yaml.write-words", words.Args{"words": list}))
	if !ok {
		return "", false
	}
	if !slices.Contains(choices, s) {
		n.Wrong("yaml.word-unknown", words.Args{"value": shown(s), "near": meant(s, choices), "words": list})
		return "", false
	}
	return s, true
}

// StartsNumber tells whether a scalar looks like a number, with or without
// unit: its first character behind an optional sign is a digit, or a point and
// a digit. It notes nothing; it is for fields that take a number or a word.
func (n Node) StartsNumber() bool {
	if !n.IsScalar() {
		return false
	}
	s := n.y.Value
	for _, sign := range []string{"+", "-", "−", "–"} {
		s = strings.TrimPrefix(s, sign)
	}
	s = strings.TrimPrefix(s, ".")
	return s != "" && isDigit(s[0])
}

// outside notes that a value is not within its range; values are given as text.
func (n Node) outside(below bool, lo, hi string) {
	n.Wrong("yaml.outside", words.Args{"value": shown(n.y.Value), "below": words.Flag(below), "low": words.Quote(lo), "high": words.Quote(hi)})
}

// Int gives a whole number from lo to hi.
func (n Node) Int(lo, hi int) (int, bool) {
	s, ok := n.scalar(words.T("yaml.write-whole", words.Args{"low": words.Whole(lo), "high": words.Whole(hi)}))
	if !ok {
		return 0, false
	}
	d, bad := parseDecimal(s)
	if !bad.Empty() {
		n.note(bad)
		return 0, false
	}
	if strings.Contains(s, ".") {
		n.Wrong("yaml.not-whole", words.Args{"value": shown(s)})
		return 0, false
	}
	v, err := strconv.Atoi(d.text)
	if err != nil || v < lo || v > hi {
		n.outside(err == nil && v < lo || err != nil && s[0] == '-', strconv.Itoa(lo), strconv.Itoa(hi))
		return 0, false
	}
	return v, true
}

// Number gives a number from lo to hi, without unit.
func (n Node) Number(lo, hi float64) (float64, bool) {
	s, ok := n.scalar(writeNumber(floatText(lo), floatText(hi)))
	if !ok {
		return 0, false
	}
	d, bad := parseDecimal(s)
	if !bad.Empty() {
		n.note(bad)
		return 0, false
	}
	f := d.Float()
	if f < lo || f > hi {
		n.outside(f < lo, floatText(lo), floatText(hi))
		return 0, false
	}
	return f, true
}

// Amount gives a number and its unit, which is one of units; a space may stand
// between. "" in units allows a number without unit. Write the micro sign as u
// in units; the file may have u, µ or μ.
func (n Node) Amount(units ...string) (Decimal, string, bool) {
	var forms []string
	for _, u := range units {
		forms = append(forms, show(with("2", u)))
	}
	asked := words.T("yaml.write-amount", words.Args{"forms": either(forms)})
	if slices.Equal(units, []string{""}) {
		asked = words.T("yaml.write-any-number")
	}
	s, ok := n.scalar(asked)
	if !ok {
		return Decimal{}, "", false
	}
	num, unit := splitUnit(s)
	d, bad := parseDecimal(num)
	switch {
	case !bad.Empty() && num == s:
		n.note(words.Clauses(bad, asked))
	case !bad.Empty():
		n.note(bad)
	case slices.Contains(units, unit):
		return d, unit, true
	case unit == "":
		forms = forms[:0]
		for _, u := range units {
			forms = append(forms, show(with(num, u)))
		}
		n.Wrong("yaml.no-unit", words.Args{"value": shown(s), "forms": either(forms)})
	default:
		n.Wrong("yaml.unit-unknown", words.Args{"unit": shown(unit), "near": meant(unit, units), "todo": asked})
	}
	return Decimal{}, "", false
}

// writeNumber asks for a number between two that are written as the file has them.
func writeNumber(lo, hi string) words.Text {
	return words.T("yaml.write-number", words.Args{"low": words.Quote(lo), "high": words.Quote(hi)})
}

// with is a number with its unit as it is told.
func with(num, unit string) string {
	unit = told(unit)
	if unit == "" || unit == "s" || unit == "ms" {
		return num + unit
	}
	return num + " " + unit
}

// told is a unit with the sign for micro.
func told(unit string) string {
	if unit == "us" {
		return "µs"
	}
	return unit
}

// durationUnits goes from the shortest to the longest.
var durationUnits = []string{"us", "ms", "s", "min", "h"}

func durationUnit(u string) time.Duration {
	switch u {
	case "us":
		return time.Microsecond
	case "ms":
		return time.Millisecond
	case "s":
		return time.Second
	case "min":
		return time.Minute
	}
	return time.Hour
}

// Duration gives a time from lo to hi, written as a number and one of us, ms,
// s, min, h: "2.5s", "300 ms". It is exact: a part of a nanosecond is an error,
// and so is a number without unit.
func (n Node) Duration(lo, hi time.Duration) (time.Duration, bool) {
	if n.y != nil && !n.IsScalar() {
		asked := words.T("yaml.write-time", words.Args{"low": words.Quote(durationText(lo)), "high": words.Quote(durationText(hi))})
		n.Wrong("yaml.not-that", words.Args{"here": n.kind(), "todo": asked})
		return 0, false
	}
	if n.IsScalar() {
		if num, unit := splitUnit(n.y.Value); unit == "" {
			if _, bad := parseDecimal(num); bad.Empty() {
				n.Wrong("yaml.no-unit", words.Args{"value": shown(num), "forms": either([]string{show(num + "s"), show(num + "ms")})})
				return 0, false
			}
		}
	}
	d, unit, ok := n.Amount(durationUnits...)
	if !ok {
		return 0, false
	}
	factor := durationUnit(unit)
	if f := d.Float() * float64(factor); f >= 1<<63 || f <= -1<<63 {
		n.outside(f < 0, durationText(lo), durationText(hi))
		return 0, false
	}
	v, ok := d.Times(int64(factor))
	switch t := time.Duration(v); {
	case !ok:
		n.Wrong("yaml.too-fine", words.Args{"value": shown(n.y.Value)})
	case t < lo || t > hi:
		n.outside(t < lo, durationText(lo), durationText(hi))
	default:
		return t, true
	}
	return 0, false
}

// durationText writes d as [Node.Duration] reads it.
func durationText(d time.Duration) string {
	switch {
	case d%time.Millisecond != 0:
		return decimalText(int64(d), int64(time.Microsecond)) + told("us")
	case d%time.Second != 0 && d < time.Second && d > -time.Second:
		return decimalText(int64(d), int64(time.Millisecond)) + "ms"
	}
	return decimalText(int64(d), int64(time.Second)) + "s"
}

// Quantity gives a number times the factor of its unit, from lo to hi. units
// holds the allowed units and their factors, {"deg": 1, "rad": 57.29578};
// [Node.Amount] tells how a unit is written. lo and hi are in the unit with
// factor 1 (one should be there: messages name it).
func (n Node) Quantity(units map[string]float64, lo, hi float64) (float64, bool) {
	names := slices.Sorted(maps.Keys(units))
	d, unit, ok := n.Amount(names...)
	if !ok {
		return 0, false
	}
	v := d.Float() * units[unit]
	if !(v >= lo && v <= hi) {
		// The limits are told in the unit that was written.
		limit := func(v float64) string { return with(strconv.FormatFloat(v/units[unit], 'g', 6, 64), unit) }
		n.outside(v < lo, limit(lo), limit(hi))
		return 0, false
	}
	return v, true
}

// Fixed gives a decimal number as an integer in parts of 1/scale, from lo to hi
// in such parts, without any rounding: with scale 8 "1500.125" gives 12001. A
// number between two parts is an error. The unit may be written or left out; ""
// allows none.
func (n Node) Fixed(unit string, scale int, lo, hi int64) (int64, bool) {
	k := int64(scale)
	from, to := with(decimalText(lo, k), unit), with(decimalText(hi, k), unit)
	s, ok := n.scalar(writeNumber(from, to))
	if !ok {
		return 0, false
	}
	num, u := splitUnit(s)
	d, bad := parseDecimal(num)
	switch {
	case !bad.Empty():
		n.note(bad)
		return 0, false
	case u != "" && unit == "":
		n.Wrong("yaml.unit-none", words.Args{"value": shown(s), "number": shown(num)})
		return 0, false
	case u != "" && u != unit:
		n.Wrong("yaml.unit-other", words.Args{"unit": shown(u), "forms": either([]string{show(with(num, unit)), show(num)})})
		return 0, false
	}
	if f := d.Float() * float64(k); f < float64(lo)-1 || f > float64(hi)+1 {
		n.outside(f < float64(lo), from, to)
		return 0, false
	}
	v, ok := d.Times(k)
	switch {
	case !ok:
		f := d.floor(k)
		steps := []string{show(with(decimalText(f, k), unit)), show(with(decimalText(f+1, k), unit))}
		n.Wrong("yaml.between-steps", words.Args{"value": shown(s), "parts": words.Whole(k), "forms": either(steps)})
	case v < lo || v > hi:
		n.outside(v < lo, from, to)
	default:
		return v, true
	}
	return 0, false
}
