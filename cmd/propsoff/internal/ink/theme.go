package ink

import "slices"

// Role says what a colour means on a sheet. Screens name roles, never colours: the themes below are the only
// place in the program with hex values. The zero Role paints nothing.
type Role uint8

// The roles. Grounds carry text; text roles reach 4.5 : 1 on every ground; state roles reach 7 : 1 on Paper; pens
// and marks reach 3 : 1; Grid and Panel are decoration and carry no meaning by themselves.
const (
	None     Role = iota
	Paper         // the sheet itself
	Panel         // a slightly darker area of the sheet: the ground of a key, a lever, a margin
	Ink           // text and drawing
	Faint         // less important text, units, labels
	Rule          // thin lines that carry meaning: frames, axes, marks
	Grid          // guide lines that may be missed; the only lines that text may lie over
	Armed         // the craft is armed
	Disarmed      // the craft is disarmed
	Refusal       // why arming is refused
	Link          // trouble with the link
	Throttle      // the four pens of the chart paper
	Yaw
	Pitch
	Roll
	Focus // what the keyboard acts on
	roleCount
)

var roleNames = [roleCount]string{"none", "paper", "panel", "ink", "faint", "rule", "grid", "armed", "disarmed", "refusal", "link",
	"throttle", "yaw", "pitch", "roll", "focus"}

// String gives the role's name in small letters.
func (r Role) String() string {
	if r < roleCount {
		return roleNames[r]
	}
	return "unknown"
}

// Decor tells whether a role is decoration: it needs no contrast, and may not carry meaning by itself.
func (r Role) Decor() bool { return r == None || r == Paper || r == Panel || r == Grid }

// Theme is one set of colours for all roles. Read only: themes are shared.
type Theme struct {
	Name string // "light", "dark", "black-on-white", "white-on-black" or "print"
	// Dark: its ground is. Strong: it is for eyes that need more contrast: whatever means anything stands out by StrongContrast, and hardly a line is a hairline.
	Dark, Strong bool
	colours      [roleCount]Colour
}

// StrongContrast is by how much all that means anything stands out on a strong theme: what WCAG 2.2, 1.4.6 (level AAA), asks of text.
const StrongContrast = 7

// Themes are those that a person can choose on the screen, in the order in which they follow on each other.
func Themes() []*Theme { return []*Theme{&light, &dark, &blackOnWhite, &whiteOnBlack} }

// ThemeNamed is one of Themes by its name, nil for none.
func ThemeNamed(name string) *Theme {
	if i := slices.IndexFunc(Themes(), func(t *Theme) bool { return t.Name == name }); i >= 0 {
		return Themes()[i]
	}
	return nil
}

// ThemeOf is the one of Themes with a dark ground or a light one, and with strong contrast or the usual.
func ThemeOf(isDark, strong bool) *Theme {
	i := slices.IndexFunc(Themes(), func(t *Theme) bool { return t.Dark == isDark && t.Strong == strong })
	return Themes()[i]
}

// Colour gives the colour of a role; None and unknown roles give that of Paper.
func (t *Theme) Colour(r Role) Colour {
	if r == None || r >= roleCount {
		r = Paper
	}
	return t.colours[r]
}

// Light is ink on drafting paper. The accents start from the hues of a published palette for every kind of colour sight (jfly.uni-koeln.de/color) (vermillion, blue,
// reddish purple, bluish green) and are darkened until they reach their contrast on paper; armed and disarmed are
// vermillion and blue, the pair that stays furthest apart for every kind of colour sight. Any two colours that mean something stay a CIEDE2000
// difference of nearly 9 apart for each of them (sight_test.go).
func Light() *Theme { return &light }

// Dark is the same sheet for a darkened room. Its warm accents stay on the red side of orange: amber and yellow on
// dark grey are not used.
func Dark() *Theme { return &dark }

// BlackOnWhite is the sheet for eyes that need more contrast than Light has: all that means anything reaches StrongContrast, less important text is as black as
// any, and no line is a hairline but guides and the frames of tight boxes. WhiteOnBlack is the same on a dark ground.
func BlackOnWhite() *Theme { return &blackOnWhite }

// WhiteOnBlack is BlackOnWhite turned round, for eyes that a white ground dazzles.
func WhiteOnBlack() *Theme { return &whiteOnBlack }

// Print is what goes on white paper: no ground that a printer would fill with dots, and black ink.
func Print() *Theme { return &printed }

var printed = func() Theme {
	t := light
	t.Name = "print"
	t.colours[Paper], t.colours[Panel] = Colour{0xFF, 0xFF, 0xFF}, Colour{0xF2, 0xF2, 0xF0}
	t.colours[Ink], t.colours[Faint] = Colour{0, 0, 0}, Colour{0x3C, 0x41, 0x48}
	t.colours[Rule], t.colours[Grid] = Colour{0x70, 0x76, 0x7C}, Colour{0xD6, 0xD6, 0xD2}
	return t
}()

var light = Theme{Name: "light", colours: [roleCount]Colour{
	Paper:    {0xF8, 0xF5, 0xEC},
	Panel:    {0xF1, 0xED, 0xE1},
	Ink:      {0x1B, 0x24, 0x30},
	Faint:    {0x55, 0x60, 0x6B},
	Rule:     {0x7A, 0x83, 0x8A},
	Grid:     {0xDE, 0xDA, 0xCD},
	Armed:    {0x8C, 0x27, 0x0E},
	Disarmed: {0x00, 0x37, 0x9B},
	Refusal:  {0xA0, 0x51, 0x80},
	Link:     {0x05, 0x5E, 0x52},
	Throttle: {0x05, 0x44, 0x2D},
	Yaw:      {0x6B, 0x3E, 0x6C},
	Pitch:    {0x09, 0x67, 0xE1},
	Roll:     {0xB4, 0x56, 0x0F},
	Focus:    {0x2E, 0x33, 0xE3},
}}

var dark = Theme{Name: "dark", Dark: true, colours: [roleCount]Colour{
	Paper:    {0x12, 0x16, 0x1B},
	Panel:    {0x1A, 0x1F, 0x26},
	Ink:      {0xE6, 0xE9, 0xEC},
	Faint:    {0xA3, 0xAD, 0xB7},
	Rule:     {0x77, 0x82, 0x8C},
	Grid:     {0x2C, 0x34, 0x3C},
	Armed:    {0xFF, 0x8A, 0x78},
	Disarmed: {0x69, 0xAA, 0xFF},
	Refusal:  {0xB3, 0x88, 0x9C},
	Link:     {0x8D, 0xCD, 0xBB},
	Throttle: {0x5B, 0xE8, 0xB0},
	Yaw:      {0xAD, 0x69, 0x97},
	Pitch:    {0x4C, 0x8A, 0xE2},
	Roll:     {0xF2, 0x57, 0x3C},
	Focus:    {0xBD, 0xB6, 0xE4},
}}

var blackOnWhite = Theme{Name: "black-on-white", Strong: true, colours: [roleCount]Colour{
	Paper:    {0xFF, 0xFF, 0xFF},
	Panel:    {0xFF, 0xFF, 0xFF},
	Ink:      {0x00, 0x00, 0x00},
	Faint:    {0x00, 0x00, 0x00},
	Rule:     {0x50, 0x50, 0x50},
	Grid:     {0xD6, 0xD6, 0xD6},
	Armed:    {0x64, 0x1B, 0x00},
	Disarmed: {0x0F, 0x21, 0x79},
	Refusal:  {0x86, 0x3E, 0x5C},
	Link:     {0x33, 0x47, 0x31},
	Throttle: {0x00, 0x2E, 0x21},
	Yaw:      {0x69, 0x48, 0x7B},
	Pitch:    {0x1F, 0x4F, 0xBF},
	Roll:     {0x9C, 0x37, 0x07},
	Focus:    {0x0D, 0x12, 0xC4},
}}

var whiteOnBlack = Theme{Name: "white-on-black", Dark: true, Strong: true, colours: [roleCount]Colour{
	Paper:    {0x00, 0x00, 0x00},
	Panel:    {0x00, 0x00, 0x00},
	Ink:      {0xFF, 0xFF, 0xFF},
	Faint:    {0xFF, 0xFF, 0xFF},
	Rule:     {0xA4, 0xA4, 0xA4},
	Grid:     {0x3C, 0x3C, 0x3C},
	Armed:    {0xFD, 0x97, 0x74},
	Disarmed: {0x73, 0xC3, 0xFC},
	Refusal:  {0xFC, 0xD5, 0xF5},
	Link:     {0xAE, 0xCD, 0xB5},
	Throttle: {0xA1, 0xFF, 0xBB},
	Yaw:      {0xCA, 0xA7, 0xBF},
	Pitch:    {0x41, 0x9A, 0xF2},
	Roll:     {0xFB, 0x66, 0x32},
	Focus:    {0xA2, 0x94, 0xC3},
}}
