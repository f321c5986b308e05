package tell

import (
	"propsoff/assets/words"
	"propsoff/sim"
	"propsoff/sim/happening"
)

// brokeValues is what a craft that broke at so many mm/s is told with.
func brokeValues(b happening.Breakage, speed int32) words.Args {
	has := func(x happening.Breakage) words.Arg { return words.Flag(b&x != 0) }
	return words.Args{
		"blade": has(happening.ByBlade), "top": has(happening.OnTop), "fast": has(happening.TooFast), "off": has(happening.MotorsOff),
		"speed": unit("speed", rounded(float64(speed)/1000, 2)), "least": unit("speed", words.Whole(int(sim.TooFast))),
	}
}
