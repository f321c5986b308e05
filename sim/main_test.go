package sim_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain asks for more walks than rapid does by itself: the bench is so quick that thousands of long ones cost a second.
func TestMain(m *testing.M) {
	flag.Parse()
	given := map[string]bool{}
	flag.Visit(func(f *flag.Flag) { given[f.Name] = true })
	for name, value := range map[string]string{"rapid.checks": "3000", "rapid.steps": "80"} {
		if given[name] {
			continue
		}
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
