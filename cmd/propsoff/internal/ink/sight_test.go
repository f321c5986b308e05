package ink

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// leastApart is how far apart any two colours that mean something must stay for every kind of colour sight, in CIEDE2000 (ours: some four times what is just
// seen side by side).
// fromFaint is the same of a colour that means something and of less important text.
const (
	leastApart = 8.9
	fromFaint  = 7
)

// meaning are the roles whose colour says something: state, trouble, pens, and what the keyboard acts on.
var meaning = []Role{Armed, Disarmed, Refusal, Link, Throttle, Yaw, Pitch, Roll, Focus}

// ciede2000 is the colour difference of CIE 142-2001 (ISO/CIE 11664-6), in the steps of Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula",
// Color Research and Application 30 (2005), with all weights 1.
func ciede2000(p, q [3]float64) float64 {
	rad := func(deg float64) float64 { return deg * math.Pi / 180 }
	share := func(c float64) float64 { c7 := math.Pow(c, 7); return math.Sqrt(c7 / (c7 + math.Pow(25, 7))) }
	g := 0.5 * (1 - share((math.Hypot(p[1], p[2])+math.Hypot(q[1], q[2]))/2))
	polar := func(v [3]float64) (c, h float64) {
		a := (1 + g) * v[1]
		if a == 0 && v[2] == 0 {
			return 0, 0
		}
		return math.Hypot(a, v[2]), math.Mod(math.Atan2(v[2], a)*180/math.Pi+360, 360)
	}
	c1, h1 := polar(p)
	c2, h2 := polar(q)
	dh, mh := h2-h1, (h1+h2)/2
	switch {
	case c1*c2 == 0:
		dh, mh = 0, h1+h2
	case math.Abs(h2-h1) <= 180:
	default:
		if dh > 180 {
			dh -= 360
		} else {
			dh += 360
		}
		if mh += 180; h1+h2 >= 360 {
			mh -= 360
		}
	}
	dl, dc, dH := q[0]-p[0], c2-c1, 2*math.Sqrt(c1*c2)*math.Sin(rad(dh)/2)
	ml, mc := (p[0]+q[0])/2-50, (c1+c2)/2
	t := 1 - 0.17*math.Cos(rad(mh-30)) + 0.24*math.Cos(rad(2*mh)) + 0.32*math.Cos(rad(3*mh+6)) - 0.20*math.Cos(rad(4*mh-63))
	sl, sc, sh := 1+0.015*ml*ml/math.Sqrt(20+ml*ml), 1+0.045*mc, 1+0.015*mc*t
	rt := -math.Sin(rad(60*math.Exp(-math.Pow((mh-275)/25, 2)))) * 2 * share(mc)
	l, c, h := dl/sl, dc/sc, dH/sh
	return math.Sqrt(l*l + c*c + h*h + rt*c*h)
}

// The formula gives the published differences of the published pairs: table 1 of the same paper, which is there to find wrong implementations.
func TestColourDifferenceIsThePublishedOne(t *testing.T) {
	text, err := os.ReadFile("testdata/ciede2000.txt")
	require.NoError(t, err)
	pairs := 0
	for l := range strings.Lines(string(text)) {
		if strings.HasPrefix(l, "#") {
			continue
		}
		var v [7]float64
		fields := strings.Fields(l)
		require.Len(t, fields, 7, l)
		for i, f := range fields {
			v[i], err = strconv.ParseFloat(f, 64)
			require.NoError(t, err)
		}
		pairs++
		p, q := [3]float64(v[0:3]), [3]float64(v[3:6])
		assert.InDelta(t, v[6], ciede2000(p, q), 5e-5, l)
		assert.InDelta(t, v[6], ciede2000(q, p), 5e-5, "the order does not matter: %s", l)
	}
	assert.Equal(t, 34, pairs)
}

// Any two colours that mean something can be told apart in each theme: in full colour sight, and without the red, the green and the blue receptor (sights).
func TestColoursThatMeanSomethingStayApartForEverySight(t *testing.T) {
	for _, th := range themes() {
		for name, m := range sights {
			least, pair := math.Inf(1), [2]Role{}
			for i, a := range meaning {
				for _, b := range meaning[i+1:] {
					if d := ciede2000(seen(th.Colour(a), m), seen(th.Colour(b), m)); d < least {
						least, pair = d, [2]Role{a, b}
					}
				}
			}
			t.Logf("%s, %s: least %.1f, %v and %v", th.Name, name, least, pair[0], pair[1])
			assert.GreaterOrEqual(t, least, leastApart, "%s, %s: %v and %v", th.Name, name, pair[0], pair[1])
			for _, a := range meaning { // and from text that means nothing besides what it says
				here := seen(th.Colour(a), m)
				assert.GreaterOrEqual(t, ciede2000(here, seen(th.Colour(Ink), m)), leastApart, "%s, %s: %v and ink", th.Name, name, a)
				assert.GreaterOrEqual(t, ciede2000(here, seen(th.Colour(Faint), m)), float64(fromFaint), "%s, %s: %v and faint", th.Name, name, a)
			}
		}
	}
}

// What the colours were before is what the check is there to find: three pairs that fell together.
func TestPairsThatFellTogetherAreFound(t *testing.T) {
	for _, one := range []struct {
		a, b  Colour
		sight string
	}{
		{Colour{0x76, 0xAE, 0xF6}, Colour{0xB9, 0xA6, 0xFF}, "no red"},  // disarmed and focus, dark
		{Colour{0xB0, 0x74, 0x9A}, Colour{0xB8, 0x77, 0x99}, "no red"},  // yaw and refusal, dark
		{Colour{0x01, 0x4E, 0x36}, Colour{0x00, 0x52, 0x4A}, "no blue"}, // throttle and link, light
	} {
		assert.Less(t, ciede2000(seen(one.a, sights[one.sight]), seen(one.b, sights[one.sight])), 3.0)
	}
}
