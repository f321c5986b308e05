package house_test

import (
	"os"
	"testing"
)

// TestMain gives all tests a home of their own: the switch card is saved into a person's documents, and every key is pressed here.
func TestMain(m *testing.M) {
	home, err := os.MkdirTemp("", "home-of-tests-")
	if err != nil {
		panic(err)
	}
	for _, name := range []string{"HOME", "USERPROFILE"} {
		if err := os.Setenv(name, home); err != nil {
			panic(err)
		}
	}
	os.Unsetenv("XDG_CONFIG_HOME")
	code := m.Run()
	os.RemoveAll(home)
	os.Exit(code)
}
