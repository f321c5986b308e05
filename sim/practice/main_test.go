package practice_test

import (
	"flag"
	"os"
	"testing"
)

// A walk costs about a millisecond, so there are more of them than rapid's own default.
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
