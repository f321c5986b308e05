package yamldoc

import (
	"math/big"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
)

// Decimal is a number as it was written, exact: an optional sign, digits, and
// perhaps a point with digits behind it. The zero Decimal is 0.
type Decimal struct{ text string }

// mostDigits bounds the length of a number in characters, sign and point included.
const mostDigits = 40

// String gives the number as it was written.
func (d Decimal) String() string {
	if d.text == "" {
		return "0"
	}
	return d.text
}

// Float gives the nearest float64.
func (d Decimal) Float() float64 {
	f, _ := strconv.ParseFloat(d.String(), 64) // cannot fail: the form is checked, 40 digits are finite
	return f
}

func (d Decimal) rat() *big.Rat {
	r, _ := new(big.Rat).SetString(d.String())
	return r
}

// Times gives the number times scale, if that is an integer within int64.
func (d Decimal) Times(scale int64) (int64, bool) {
	r := d.rat()
	r.Mul(r, new(big.Rat).SetInt64(scale))
	if !r.IsInt() || !r.Num().IsInt64() {
		return 0, false
	}
	return r.Num().Int64(), true
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// parseDecimal reads s, or gives what is wrong with it and what to do.
func parseDecimal(s string) (Decimal, words.Text) {
	bad := func(id words.ID) (Decimal, words.Text) { return Decimal{}, words.T(id, words.Args{"value": shown(s)}) }
	body := strings.TrimLeft(s, "+-")
	low := strings.ToLower(body)
	switch {
	case s == "":
		return Decimal{}, words.T("yaml.number-empty")
	case strings.HasPrefix(s, "−") || strings.HasPrefix(s, "–"):
		return bad("yaml.number-dash")
	case len(s)-len(body) > 1:
		return bad("yaml.number-signs")
	case low == ".inf" || low == "inf" || low == "infinity" || low == ".nan" || low == "nan":
		return bad("yaml.number-endless")
	case body == "" || !isDigit(body[0]) && body[0] != '.':
		return bad("yaml.number-none")
	case len(low) > 1 && low[0] == '0' && strings.IndexByte("xob", low[1]) >= 0:
		return bad("yaml.number-not-decimal")
	case isExponent(low):
		return bad("yaml.number-exponent")
	}
	points := 0
	for i := 0; i < len(body); i++ {
		switch c := body[i]; {
		case isDigit(c):
		case c == '.':
			if points++; points > 1 {
				return bad("yaml.number-points")
			}
		case c == '_' || c == '\'':
			return bad("yaml.number-mark")
		case c == ',':
			return bad("yaml.number-comma")
		default:
			return bad("yaml.number-none")
		}
	}
	whole, part, point := strings.Cut(body, ".")
	switch {
	case len(s) > mostDigits:
		return bad("yaml.number-long")
	case whole == "" || point && part == "":
		return bad("yaml.number-bare-point")
	case len(whole) > 1 && whole[0] == '0':
		return bad("yaml.number-zero-first")
	}
	return Decimal{s}, words.Text{}
}

// isExponent tells whether s is digits, e, and perhaps a sign and digits.
func isExponent(s string) bool {
	i := strings.IndexByte(s, 'e')
	if i <= 0 || strings.Trim(s[:i], "0123456789._") != "" {
		return false
	}
	e := strings.TrimLeft(s[i+1:], "+-")
	return e != "" && strings.Trim(e, "0123456789") == ""
}

// splitUnit parts "40 deg" into "40" and "deg": the unit begins at the first
// letter, % or ° behind the digits. A text with an exponent or in hexadecimal
// stays whole.
func splitUnit(s string) (number, unit string) {
	low := strings.ToLower(strings.TrimLeft(s, "+-"))
	if isExponent(low) || strings.HasPrefix(low, "0x") {
		return s, ""
	}
	i := len(s) - len(strings.TrimLeft(s, "+-−–0123456789._,'"))
	if i == 0 {
		return s, ""
	}
	return s[:i], plainUnit(strings.TrimLeft(s[i:], " "))
}

// plainUnit makes the two signs for micro into the u that is typed.
func plainUnit(u string) string { return strings.NewReplacer("µ", "u", "μ", "u").Replace(u) }

// decimalText gives v/scale exactly where it ends within 9 places, else rounded
// to them.
func decimalText(v, scale int64) string {
	s := big.NewRat(v, scale).FloatString(9)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

func floatText(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// floor gives the largest whole number of 1/scale that is not above d, for a
// product that is known to fit.
func (d Decimal) floor(scale int64) int64 {
	r := d.rat()
	r.Mul(r, new(big.Rat).SetInt64(scale))
	return new(big.Int).Div(r.Num(), r.Denom()).Int64() // Euclidean: the denominator is positive
}
