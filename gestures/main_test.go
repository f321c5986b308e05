package gestures_test

import (
	"flag"
	"os"
	"testing"
)

// minutes is how long random hands fly, to count misreadings.
var minutes = flag.Int("minutes", 400, "minutes of random flying, over all stick modes, in which gestures are counted that nobody meant")

// TestMain asks for many more streams than rapid does by itself: one takes less than a millisecond.
func TestMain(m *testing.M) {
	flag.Parse()
	given := map[string]bool{}
	flag.Visit(func(f *flag.Flag) { given[f.Name] = true })
	if !given["rapid.checks"] {
		if err := flag.Set("rapid.checks", "3000"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
