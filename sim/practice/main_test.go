package practice_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain asks for more walks than rapid does by itself: one costs about a millisecond.
func TestMain(m *testing.M) {
	flag.Parse()
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == "rapid.checks" })
	if !given {
		if err := flag.Set("rapid.checks", "500"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
