package prove

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// notSteps are functions of arming and link that no step runs: they serve the screen.
var notSteps = map[string]bool{"Group": true, "Has": true}

// TestCoverage: a run of prove over the layouts of the tables walks through at least 95 % of the statements of arming's and
// link's steps. What it leaves out is said.
func TestCoverage(t *testing.T) {
	if testing.Short() || os.Getenv("PROVE_COVERAGE") != "" {
		t.Skip("builds and runs this package's tests once more")
	}
	profile := filepath.Join(t.TempDir(), "profile")
	cmd := exec.Command("go", "test", "-count=1", "-run", "^TestWhatIsFound$", "-coverpkg=propsoff/sim/arming,propsoff/sim/link", "-coverprofile="+profile, ".")
	cmd.Env = append(os.Environ(), "PROVE_COVERAGE=1")
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, string(said))
	text, err := os.ReadFile(profile)
	require.NoError(t, err)
	all, walked := 0, 0
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n")[1:] {
		// propsoff/sim/link/link.go:93.2,96.3 2 1
		at, rest, _ := strings.Cut(line, ":")
		f := strings.FieldsFunc(rest, func(r rune) bool { return strings.ContainsRune("., ", r) })
		require.Len(t, f, 6, line)
		row, _ := strconv.Atoi(f[0])
		statements, err := strconv.Atoi(f[4])
		require.NoError(t, err)
		times, err := strconv.Atoi(f[5])
		require.NoError(t, err)
		if notSteps[functionAt(t, strings.TrimPrefix(at, "propsoff/sim/"), row)] {
			continue
		}
		all += statements
		if times > 0 {
			walked += statements
		} else {
			t.Logf("not walked: %s:%d", at, row)
		}
	}
	require.Greater(t, all, 100, "the profile must hold both packages")
	t.Logf("%d of %d statements", walked, all)
	assert.GreaterOrEqual(t, 100*walked, 95*all)
}

// functionAt names the function in which a row of a file lies.
func functionAt(t *testing.T, file string, row int) string {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, filepath.Join("..", file), nil, 0)
	require.NoError(t, err)
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && set.Position(fn.Pos()).Line <= row && row <= set.Position(fn.End()).Line {
			return fn.Name.Name
		}
	}
	return ""
}
