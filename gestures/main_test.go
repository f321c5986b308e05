package gestures_test

import (
	"flag"
	"os"
	"testing"
)

// minutes is how long random hands fly for the count of misreadings.
var minutes = flag.Int("minutes", 400, "minutes of random flying, over all stick modes, in which gestures are counted that nobody meant")

// A stream takes less than a millisecond, so there can be many more of them than rapid takes by itself.
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
