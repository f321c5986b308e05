package hand

// Quantile is for the test against gonum.
func Quantile(free int) float64 { return quantile(free) }
