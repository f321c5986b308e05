package propsoff_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// imports are the packages of this module that each may import, cmd left out: who imports whom is decided here, not where it is handy.
var imports = map[string]string{
	"assets":                      "",
	"assets/door":                 "assets/words",
	"assets/face":                 "",
	"assets/icon":                 "",
	"assets/licences":             "",
	"assets/mouth":                "",
	"assets/page":                 "assets/words",
	"assets/tidylater":            "",
	"assets/words":                "",
	"assets/words/wordstest":      "assets/words",
	"assets/yamldoc":              "assets/words",
	"gestures":                    "sim/happening sim/pulse",
	"gestures/menu":               "sim/happening sim/pulse",
	"gestures/patternfile":        "assets/words assets/yamldoc gestures gestures/menu",
	"input":                       "assets/words sim/pulse",
	"input/check":                 "assets/words input input/radio sim/pulse",
	"input/inputtest":             "input sim/pulse",
	"input/keyboard":              "input sim/pulse",
	"input/learn":                 "input input/radio sim/pulse",
	"input/pair":                  "assets/words input sim/pulse",
	"input/radio":                 "assets/door assets/words assets/yamldoc input sim/pulse",
	"input/script":                "assets/words assets/yamldoc input sim/pulse",
	"input/take":                  "assets/door assets/words input sim/pulse",
	"input/usb":                   "assets/words input",
	"scripts/attack":              "scripts/attack/inputs scripts/attack/kills scripts/attack/tally",
	"scripts/attack/child":        "",
	"scripts/attack/hostile":      "",
	"scripts/attack/inputs":       "scripts/attack/child scripts/attack/hostile scripts/attack/tally",
	"scripts/attack/kills":        "scripts/attack/hostile scripts/attack/tally",
	"scripts/attack/tally":        "",
	"scripts/browser":             "",
	"scripts/browser/onfloor":     "assets/page scripts/browser",
	"scripts/covered":             "",
	"scripts/measure":             "",
	"scripts/mutants":             "",
	"scripts/newlanguage":         "assets/words assets/words/wordstest",
	"scripts/packaging/licences":  "scripts/packaging/terms",
	"scripts/packaging/packages":  "assets/words scripts/packaging/terms",
	"scripts/packaging/resources": "assets/words",
	"scripts/packaging/terms":     "assets/words",
	"scripts/rig":                 "assets gestures gestures/menu gestures/patternfile input/take scripts/rig/fakeradio scripts/rig/hand scripts/rig/initrd scripts/rig/kernelrule sim/arming sim/drill sim/drill/drillfile sim/fault sim/flight sim/happening sim/layout sim/mark sim/pulse",
	"scripts/rig/fakeradio":       "",
	"scripts/rig/hand":            "scripts/rig/fakeradio",
	"scripts/rig/initrd":          "",
	"scripts/rig/kernelrule":      "",
	"scripts/statespace":          "assets/tidylater sim sim/arming sim/handset sim/layout sim/prove",
	"scripts/webpage":             "assets/page",
	"sim":                         "gestures gestures/menu sim/arming sim/body sim/flight sim/happening sim/layout sim/link sim/pulse sim/transit sim/vec sim/wind",
	"sim/arming":                  "sim/happening sim/layout sim/link sim/pulse",
	"sim/body":                    "sim/vec",
	"sim/chance":                  "",
	"sim/craftfile":               "assets/door assets/words assets/yamldoc gestures gestures/menu sim sim/arming sim/body sim/flight sim/layout sim/link sim/pulse sim/transit sim/vec",
	"sim/drill":                   "gestures gestures/menu sim sim/arming sim/body sim/chance sim/fault sim/flight sim/happening sim/layout sim/link sim/mark sim/pulse sim/vec",
	"sim/drill/drillfile":         "assets assets/words assets/yamldoc gestures gestures/menu sim/arming sim/body sim/drill sim/fault sim/happening sim/layout sim/link sim/mark sim/pulse",
	"sim/examine":                 "sim/arming sim/handset sim/layout sim/prove sim/pulse",
	"sim/fault":                   "sim/layout sim/link sim/pulse",
	"sim/flight":                  "sim/layout sim/pulse sim/vec",
	"sim/hand":                    "sim/mark",
	"sim/handset":                 "sim/pulse",
	"sim/happening":               "",
	"sim/hover":                   "sim sim/body sim/layout sim/link sim/practice sim/pulse sim/vec",
	"sim/layout":                  "sim/pulse",
	"sim/lesson":                  "sim sim/arming sim/flight sim/happening sim/hover sim/layout sim/practice sim/pulse sim/vec",
	"sim/link":                    "sim/happening sim/pulse",
	"sim/lossmap":                 "sim sim/body sim/flight sim/hover sim/layout sim/practice sim/pulse sim/transit sim/vec sim/wind",
	"sim/mark":                    "sim/chance sim/flight sim/layout sim/vec",
	"sim/mend":                    "sim sim/arming sim/craftfile sim/flight sim/handset sim/layout sim/link sim/prove sim/pulse sim/switches",
	"sim/practice":                "gestures gestures/menu sim sim/fault sim/happening sim/layout sim/link sim/pulse",
	"sim/prove":                   "assets/words gestures gestures/menu sim sim/arming sim/flight sim/handset sim/happening sim/hover sim/layout sim/link sim/practice sim/prove/explore sim/pulse",
	"sim/prove/explore":           "",
	"sim/pulse":                   "",
	"sim/stop":                    "sim sim/happening sim/hover sim/layout sim/pulse sim/vec",
	"sim/switches":                "sim sim/arming sim/craftfile sim/handset sim/layout sim/pulse",
	"sim/transit":                 "sim/chance sim/pulse",
	"sim/vec":                     "",
	"sim/wind":                    "sim/chance sim/vec",
}

// TestImportsAreThoseOfTheTable fails for an import that the table does not have, and for one that it has and nobody makes.
func TestImportsAreThoseOfTheTable(t *testing.T) {
	all := rooms(t)
	for name, r := range all {
		if name == "cmd" || strings.HasPrefix(name, "cmd/") {
			continue
		}
		may, listed := imports[name]
		assert.True(t, listed, "%s is not in the table of imports", name)
		var own []string
		for path := range r.imports {
			if to, ours := strings.CutPrefix(path, module); ours {
				own = append(own, to)
			}
		}
		assert.ElementsMatch(t, strings.Fields(may), own, "%s: the table has the first, the code the second", name)
	}
	for name := range imports {
		assert.NotNil(t, all[name], "%s is gone: take it out of the table of imports", name)
	}
}

func TestDataGoesDownOnly(t *testing.T) {
	for name, r := range rooms(t) {
		for path, files := range r.imports {
			if !strings.HasPrefix(path, module) {
				continue
			}
			to := strings.TrimPrefix(path, module)
			at := func(n, prefix string) bool { return n == prefix || strings.HasPrefix(n, prefix+"/") }
			switch {
			case at(name, "sim"), at(name, "gestures"):
				assert.False(t, at(to, "input") || at(to, "cmd"), "%s imports %s (%v)", name, to, files)
			case at(name, "input"):
				ok := at(to, "input") || at(to, "assets") || to == "sim/pulse" || to == "sim/happening"
				assert.True(t, ok, "%s imports %s (%v)", name, to, files)
			case at(name, "assets"):
				assert.True(t, at(to, "assets"), "%s imports %s (%v)", name, to, files)
			}
		}
	}
}
