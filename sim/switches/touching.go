package switches

import (
	"propsoff.example/sim/layout"
	"propsoff.example/sim/pulse"
)

// Touching makes spans that hold just the positions wanted, with edges midway between neighbouring positions and the outermost
// at the ends of the pulse range. Positions go from low to high; want says which of them are to be inside. Neighbours that
// are both wanted share a span. Edges lie on whole microseconds where there is room.
func Touching(positions []Position, want []bool) (out []layout.Span) {
	for i := 0; i < len(positions); i++ {
		if !want[i] {
			continue
		}
		from := i
		for i+1 < len(positions) && want[i+1] {
			i++
		}
		out = append(out, layout.Span{Low: lower(positions, from), High: lower(positions, i+1)})
	}
	return out
}

// Modes makes mode spans for a switch in the same way, given the mode for each position: neighbours with the same mode share a span.
func Modes(positions []Position, modes []layout.Mode) (out []layout.ModeSpan) {
	for i := 0; i < len(positions); i++ {
		from := i
		for i+1 < len(positions) && modes[i+1] == modes[from] {
			i++
		}
		out = append(out, layout.ModeSpan{Mode: modes[from], Span: layout.Span{Low: lower(positions, from), High: lower(positions, i+1)}})
	}
	return out
}

// lower is the edge below position i: midway to the one before it.
func lower(positions []Position, i int) pulse.Width {
	switch {
	case i <= 0:
		return pulse.Lowest
	case i >= len(positions):
		return pulse.Highest
	}
	a, b := positions[i-1].Width, positions[i].Width
	mid := a + (b-a+1)/2
	if whole := (mid + pulse.Eighths/2) / pulse.Eighths * pulse.Eighths; whole > a && whole <= b {
		return whole
	}
	return mid
}
