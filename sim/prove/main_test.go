package prove

import (
	"flag"
	"os"
	"testing"
)

// TestMain tries fewer layouts at random than rapid would: each is searched twice over, once by a plain twin.
func TestMain(m *testing.M) {
	flag.Parse()
	given := map[string]bool{}
	flag.Visit(func(f *flag.Flag) { given[f.Name] = true })
	if !given["rapid.checks"] {
		if err := flag.Set("rapid.checks", "25"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
