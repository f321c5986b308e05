package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
)

// placed is where a craft is, of which its state says that it sinks on a lost link.
func placed(p happening.Place) words.Args {
	return words.Args{
		"broken": words.Flag(p == happening.Broken), "stand": words.Flag(p == happening.OnStand), "ground": words.Flag(p == happening.OnGround),
		"sank": words.Flag(p == happening.Free), "sinks": words.Flag(p == happening.Free),
	}
}

// brokeValues is what a craft that broke at so many mm/s is told with.
func brokeValues(b happening.Breakage, speed int32) words.Args {
	has := func(x happening.Breakage) bool { return b&x != 0 }
	return words.Args{
		"blade": words.Flag(has(happening.ByBlade)), "top": words.Flag(has(happening.OnTop)), "fast": words.Flag(speed > breaks),
		"off":   words.Flag(has(happening.MotorsOff)),
		"speed": unit("speed", rounded(float64(speed)/1000, 2)), "least": unit("speed", words.Whole(int(sim.TooFast))),
	}
}
