// Package chance gives numbers that look like chance and follow from a seed and a counter alone: the same on every machine.
//
// There is nothing to remember but the counter, so whoever draws keeps it in a State of its own, or takes the tick.
package chance

import "math/bits"

// At is the number at place n of the sequence that a seed begins, 64 bits of it: SplitMix64 (Steele, Lea & Flood 2014, "Fast splittable
// pseudorandom number generators"; constants from memory, held by published values in a test).
func At(seed, n uint64) uint64 {
	z := seed + (n+1)*0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Below makes of a number of At one from 0 to n−1, n at least 1, all as likely to within n in 2⁶⁴.
func Below(drawn, n uint64) uint64 {
	high, _ := bits.Mul64(drawn, n)
	return high
}

// Normal makes of a number of At a deviate of mean 0 and variance 1: its 64 bits as fair coins, counted (binomial: variance 64/4). It
// comes in steps of a quarter and ends at 8; its kurtosis is 1/32 under a normal deviate's. That is for noise that a filter sums up by the
// hundred, and takes neither a logarithm nor a sine.
func Normal(drawn uint64) float64 { return float64(bits.OnesCount64(drawn)-32) / 4 }
