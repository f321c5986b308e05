package vec

import "math"

// Sine is sin x for any finite x in rad, within 1e-15 of the exact value for |x| up to 100: reduced to an eighth of a turn, then
// Taylor's series. It is for numbers made from a Config and for attitudes, where every machine must agree to the bit; math.Sin need not.
func Sine(x float64) float64 { s, _ := Circle(x); return s }

// Cosine is cos x, made like Sine and as exact.
func Cosine(x float64) float64 { _, c := Circle(x); return c }

// Half of π in two parts, so that n·π/2 is taken off without loss (Cody and Waite's reduction).
const (
	halfPiHigh = 1.57079632673412561417e+00 // 33 bits
	halfPiLow  = 6.07710050650619224932e-11
)

// Circle is the sine and the cosine of x rad in the time of one of them.
func Circle(x float64) (sin, cos float64) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return math.NaN(), math.NaN()
	}
	n := math.Floor(float64(x*(2/math.Pi)) + 0.5)
	r := x - float64(n*halfPiHigh)
	r -= float64(n * halfPiLow)
	r2 := float64(r * r)
	s, c := 0.0, 0.0
	for k := 10; k >= 1; k-- { // by Horner, smallest first
		s = 1 - float64(float64(r2*s)/float64(2*k*(2*k+1)))
	}
	for k := 10; k >= 1; k-- {
		c = 1 - float64(float64(r2*c)/float64((2*k-1)*(2*k)))
	}
	s = float64(r * s)
	switch int64(n) & 3 {
	case 0:
		return s, c
	case 1:
		return c, -s
	case 2:
		return -s, -c
	}
	return -c, s
}

// Arc is the angle of the point (c, s) from the first axis, −π to π rad, within 1e-15: what atan2(s, c) gives. (0, 0) gives 0.
func Arc(s, c float64) float64 {
	as, ac := math.Abs(s), math.Abs(c)
	if as == 0 && ac == 0 {
		return 0 // atan2 tells four zeros apart; nobody here needs that
	}
	var a float64
	if as <= ac {
		a = arctan(as / ac)
	} else {
		a = math.Pi/2 - arctan(ac/as)
	}
	if c < 0 {
		a = math.Pi - a
	}
	if math.Signbit(s) {
		return -a
	}
	return a
}

// arctan is arctan x for 0 <= x <= 1: halved twice by arctan x = 2·arctan(x/(1+√(1+x²))), then the alternating series.
func arctan(x float64) float64 {
	for range 2 {
		x /= 1 + math.Sqrt(1+float64(x*x))
	}
	x2 := float64(x * x)
	t := 0.0
	for k := 14; k >= 0; k-- {
		t = 1/float64(2*k+1) - float64(x2*t)
	}
	return float64(4 * float64(x*t))
}
