package propsoff_test

import (
	"os/exec"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The same bytes on every machine: on arm64 Go fuses x*y+z into one rounding unless an explicit conversion forbids it (Go
// specification, "Floating-point operators"). The listing of everything that is stepped must not hold one fused instruction.
func TestNothingStepsWithFusedArithmetic(t *testing.T) {
	if testing.Short() {
		t.Skip("builds for another machine")
	}
	list := func(packages ...string) string {
		cmd := exec.Command("go", append([]string{"build", "-a", "-gcflags=propsoff.example/...=-S"}, packages...)...)
		cmd.Env = append(cmd.Environ(), "GOARCH=arm64", "GOOS=linux", "CGO_ENABLED=0")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%.2000s", out)
		return string(out)
	}
	rooms(t) // reads every file, so that a kept result of this test counts only while none has changed
	fused := regexp.MustCompile(`\b(FMADD|FMSUB|FNMADD|FNMSUB)[SD]?\b`)
	listing := list("./sim", "./sim/vec", "./sim/body", "./sim/flight", "./sim/wind", "./sim/chance", "./sim/mark", "./sim/lossmap")
	assert.Contains(t, listing, "FMULD", "the listing is there, and it multiplies")
	assert.Empty(t, fused.FindAllString(listing, 5))
}
