// Package hand: a hand's delay, its crossover and its noise, from a record of what it was shown and what it did.
//
// The model is the crossover model of McRuer & Jex ("A review of quasi-linear pilot models", IEEE Transactions on Human Factors in Electronics
// HFE-8, 1967; McRuer, Graham, Krendel & Reisener, AFFDL-TR-65-15, 1965): near crossover, what a hand makes of what it sees is, with the craft that it
// leads, Y(jω) = ωc·e^(−jωτ)/(jω), whatever the craft. It holds for a hand that is shown only how far off it is, so that is what is shown.
//
// Y is measured at the lines of the mark, as the quotient of what was asked for and how far off the craft was; ωc and τ follow from its size and its
// phase by weighted least squares. The weights come from what stands between the lines, where the mark has nothing: the hand's own noise, which that
// model calls remnant. The craft's own lag is not in it: what counts is what the stick asked for.
package hand

import (
	"math"
	"math/cmplx"

	"propsoff.example/sim/mark"
)

// Result is what a record came to.
type Result struct {
	// Measured: Delay and Crossover count. It is false where too little of what the hand did went with the mark.
	Measured bool
	// Delay is in s, Crossover in rad/s; Within are half the widths of their 95 % intervals.
	Delay, DelayWithin         float64
	Crossover, CrossoverWithin float64
	// Noise is which part of the movement of the stick does not stand at the lines, 0…1.
	Noise float64
	// Lines are those of the mark, the slowest first.
	Lines [mark.Lines]Line
}

// Line is one line of the mark.
type Line struct {
	// Omega is in rad/s; Open is Y there, and Spread the standard deviation of its size (as a part of it) and of its phase (rad).
	Omega  float64
	Open   complex128
	Spread float64
	// Sure: the hand followed this line beyond chance. Used: crossover and delay were found from it.
	Sure, Used bool
}

// The choices of the measurement (ours).
const (
	// chance is how seldom a hand that does not follow at all may seem to follow one line.
	chance = 0.01
	// near is how far from crossover a line may lie, as a factor, and leastLines how many there must be: further off people are not as the model is.
	near, leastLines = 2.6, 4
	// mostDelay is the longest delay that is looked for, in s, and widest the widest half interval of it that still says something.
	mostDelay, widest = 1.0, 0.1
)

// Of measures a record.
func Of(rec *mark.Record) (r Result) {
	n := rec.N
	if n == 0 || n != rec.Seconds*mark.SamplesASecond {
		return r
	}
	off, asked, stick := rec.Error[:n], rec.Asked[:n], rec.Stick[:n]
	periods := mark.Periods(rec.Seconds)
	isLine := map[int]bool{}
	for _, k := range periods {
		isLine[k] = true
	}
	followed := 0.0
	for i, k := range periods {
		e, a, u := bin(off, k), bin(asked, k), bin(stick, k)
		var noise, own float64
		m := 0
		for j := max(k-aside(k), 1); j <= k+aside(k); j++ {
			if !isLine[j] {
				noise, own, m = noise+power(bin(asked, j)), own+power(bin(stick, j)), m+1
			}
		}
		noise, own = noise/float64(m), own/float64(m)
		followed += max(power(u)-own, 0) / 2
		r.Lines[i] = lineOf(2*math.Pi*float64(k)/float64(rec.Seconds), e, a, noise, m)
	}
	if all := variance(stick); all > 0 {
		r.Noise = min(max(1-followed/all, 0), 1)
	}
	r.fit()
	return r
}

// aside is how many bins to each side of a line tell of the noise there: fewer at the slowest ones, where noise is not level.
func aside(k int) int { return min(max(k/3, 2), 6) }

// lineOf is a line with the error e and what was asked a, both complex amplitudes, and the noise beside it in what was asked, the mean of m bins.
// With E = (R − G·N)/(1+L), A = (Y·R + N)/(1+L) for a noise N at the hand's output, A/E is Y·(1 + N·(1+L)/(Y·R)) to first order, so its relative
// variance is noise·|R|²/(|E|²·|A|²), of which size and phase have half each.
func lineOf(omega float64, e, a complex128, noise float64, m int) Line {
	l := Line{Omega: omega}
	if power(a) == 0 || power(e) == 0 {
		return l
	}
	l.Open = a / e
	ref := e + a
	l.Spread = math.Sqrt(max(noise, 1e-12*power(a)) * power(ref) / (2 * power(e) * power(a)))
	// Where nothing follows the line, power(a)/noise is distributed as F with 2 and 2m degrees, and goes beyond x with probability (1 + x/m)^(−m).
	l.Sure = math.Pow(1+power(a)/max(noise, 1e-12*power(a))/float64(m), -float64(m)) < chance
	return l
}

// bin is the complex amplitude of a record at k periods.
func bin(x []float64, k int) complex128 {
	turn := cmplx.Rect(1, -2*math.Pi*float64(k)/float64(len(x)))
	sum, at := complex(0, 0), complex(1, 0)
	for i, v := range x {
		if i%256 == 0 { // so that no error grows
			at = cmplx.Rect(1, -2*math.Pi*float64(k*i%len(x))/float64(len(x)))
		}
		sum += complex(v, 0) * at
		at *= turn
	}
	return sum * complex(2/float64(len(x)), 0)
}

func power(z complex128) float64 { return real(z)*real(z) + imag(z)*imag(z) }

func variance(x []float64) (v float64) {
	mean := 0.0
	for _, a := range x {
		mean += a / float64(len(x))
	}
	for _, a := range x {
		v += (a - mean) * (a - mean) / float64(len(x))
	}
	return v
}

// fit finds crossover and delay from the lines near crossover, which are looked for anew until they stay the same.
func (r *Result) fit() {
	for i := range r.Lines {
		r.Lines[i].Used = r.Lines[i].Sure
	}
	for range 12 {
		if !r.solve() {
			return
		}
		changed := false
		for i := range r.Lines {
			l := &r.Lines[i]
			use := l.Sure && l.Omega > r.Crossover/near && l.Omega < r.Crossover*near
			changed = changed || use != l.Used
			l.Used = use
		}
		if !changed {
			break
		}
	}
	r.Measured = r.solve() && r.DelayWithin <= widest
}

// solve fits the model to the lines that are used: ln ωc is the weighted mean of ln|ω·Y|, τ the weighted slope of the phase through its −90°. Where the
// lines stray more than their noise says, the intervals grow by as much (R. T. Birge 1932, from memory). It reports whether there is an answer.
func (r *Result) solve() bool {
	var sum, logs, squares float64
	used := 0
	for _, l := range r.used() {
		w := 1 / (l.Spread * l.Spread)
		sum, logs, squares = sum+w, logs+w*math.Log(cmplx.Abs(l.Open)*l.Omega), squares+w*l.Omega*l.Omega
		used++
	}
	if used < leastLines {
		return false
	}
	size, tau := logs/sum, r.delay(squares)
	stray := 0.0
	for _, l := range r.used() {
		w := 1 / (l.Spread * l.Spread)
		d, p := math.Log(cmplx.Abs(l.Open)*l.Omega)-size, l.behind(tau)
		stray += w * (d*d + p*p)
	}
	free := 2*used - 2
	k := quantile(free) * math.Sqrt(max(stray/float64(free), 1))
	r.Crossover, r.Delay = math.Exp(size), tau
	r.CrossoverWithin, r.DelayWithin = r.Crossover*k/math.Sqrt(sum), k/math.Sqrt(squares)
	return tau > 0 && tau < mostDelay
}

func (r *Result) used() (all []Line) {
	for _, l := range r.Lines {
		if l.Used {
			all = append(all, l)
		}
	}
	return all
}

// behind is by how much the phase at a line lies behind that of the model with a delay, from −π to π.
func (l *Line) behind(tau float64) float64 {
	return math.Remainder(-cmplx.Phase(l.Open)-math.Pi/2-l.Omega*tau, 2*math.Pi)
}

// delay is the delay that fits the phases best: the best of a row of them, in each of which a phase may be whole turns off, and from there on the
// weighted least squares of what is left.
func (r *Result) delay(squares float64) (tau float64) {
	all, best := r.used(), math.Inf(1)
	for t := -0.2; t < mostDelay; t += 0.005 {
		miss := 0.0
		for i := range all {
			b := all[i].behind(t)
			miss += b * b / (all[i].Spread * all[i].Spread)
		}
		if miss < best {
			best, tau = miss, t
		}
	}
	for range 5 {
		more := 0.0
		for i := range all {
			more += all[i].Omega * all[i].behind(tau) / (all[i].Spread * all[i].Spread)
		}
		tau += more / squares
	}
	return tau
}

// Whole is a result in whole numbers, as it is kept.
func (r *Result) Whole(rec *mark.Record) mark.Hand {
	h := mark.Hand{Axis: rec.Axis, Mode: rec.Mode, Measured: r.Measured, Noise: whole(r.Noise)}
	if r.Measured {
		h.DelayMS, h.DelayWithin = whole(r.Delay), max(whole(r.DelayWithin), 1)
		h.Crossover, h.CrossoverWithin = whole(r.Crossover), max(whole(r.CrossoverWithin), 1)
	}
	return h
}

func whole(x float64) int32 { return int32(math.Round(min(max(x*1000, 0), 1e9))) }

// student are the distances in standard deviations within which 95 of 100 estimates lie, by degrees of freedom from 6 in steps of 2 (Student's t,
// from memory; the test asks gonum).
var student = [...]float64{2.447, 2.306, 2.228, 2.179, 2.145, 2.120, 2.101}

func quantile(free int) float64 { return student[min(max(free/2-3, 0), len(student)-1)] }
