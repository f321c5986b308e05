// Command mutants breaks one rule of arming or link at a time, by one line in a copy, and runs the named test, and prove over
// a few layouts: both must notice, prove where it meets the rule. A break that no test notices is a hole in the tests; one that prove does not find is a
// hole in prove. Run it from the module's root: go run ./scripts/mutants.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

func main() {
	only := flag.String("only", "", "run only the breaks whose name contains this")
	flag.Parse()
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	code := 0
	n, began := 0, time.Now()
	turn := make(chan struct{}, atOnce)
	var told []chan string // what came of each break, in the order of the tables
	for i, m := range slices.Concat(table, beside) {
		if !strings.Contains(m.Name, *only) {
			continue
		}
		n++
		tell, own := make(chan string, 1), filepath.Join(dir, strconv.Itoa(i))
		told = append(told, tell)
		go func() {
			turn <- struct{}{}
			defer func() { <-turn }()
			found, err := noticed(m, i < len(table), own)
			if err != nil {
				tell <- fmt.Sprintf("%s %s: %v", missed, m.Name, err)
				return
			}
			tell <- fmt.Sprintf("noticed      %-55s by %s; prove: %s", m.Name, m.Test, found)
		}()
	}
	for _, tell := range told {
		line := <-tell
		fmt.Println(line)
		if strings.HasPrefix(line, missed) {
			code = 1
		}
	}
	os.RemoveAll(dir)
	fmt.Printf("%d breaks in %.0f s\n", n, time.Since(began).Seconds())
	if n == 0 {
		code = 2
	}
	os.Exit(code)
}

// atOnce is how many breaks are tried at the same time, each in a folder of its own.
const atOnce = 2

// missed begins the line of a break that was not noticed.
const missed = "NOT NOTICED "

// proof is the package that lets prove look at a few layouts, and its test.
const (
	proof     = "./scripts/mutants/proof"
	proofTest = "TestProveFindsIt"
)

// noticed applies m to a copy of its file and runs its test, which must compile and fail, and prove, which must find something
// else than on the bench as it is; what that is, is given: the rules that are broken, or only the number of situations.
func noticed(m mutant, meets bool, dir string) (found string, err error) {
	text, err := os.ReadFile(m.File)
	if err != nil {
		return "", err
	}
	if c := strings.Count(string(text), m.Old); c != 1 {
		return "", fmt.Errorf("%q stands %d times in %s, not once", m.Old, c, m.File)
	}
	if err := os.Mkdir(dir, 0o700); err != nil {
		return "", err
	}
	broken := filepath.Join(dir, "broken.go")
	if err := os.WriteFile(broken, []byte(strings.Replace(string(text), m.Old, m.New, 1)), 0o600); err != nil {
		return "", err
	}
	here, err := filepath.Abs(m.File)
	if err != nil {
		return "", err
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{here: broken}})
	if err != nil {
		return "", err
	}
	list := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(list, overlay, 0o600); err != nil {
		return "", err
	}
	args := []string{"test", "-vet=off", "-count=1", "-timeout=5m", "-overlay", list, "-run", "^(" + m.Test + "|" + proofTest + ")$", m.Pkg}
	if meets {
		args = append(args, proof)
	}
	out, _ := exec.Command("go", args...).CombinedOutput() // its status says only that something failed
	said := string(out)
	failed := func(test string) bool { return regexp.MustCompile(`(?m)^--- FAIL: ` + test + `\b`).MatchString(said) }
	switch {
	case !failed(m.Test) && !regexp.MustCompile(`(?m)^ok  \t\S+`+m.Pkg[1:]+`\t`).MatchString(said):
		return "", fmt.Errorf("%s did not run: %s", m.Test, said)
	case !failed(m.Test):
		return "", fmt.Errorf("%s passes all the same", m.Test)
	case !meets:
		return "beside its way", nil
	case !failed(proofTest):
		return "", fmt.Errorf("%s notices, but prove finds nothing", m.Test)
	}
	how := regexp.MustCompile(`proof_test\.go:\d+: (rule|figure): (.*)`).FindStringSubmatch(said)
	if how == nil {
		return "", fmt.Errorf("prove did not run: %s", said)
	}
	found = how[2]
	if at := strings.Index(found, "; "); at > 0 {
		found = fmt.Sprintf("%s (and %d more)", found[:at], strings.Count(found, "; "))
	}
	if how[1] == "figure" {
		found = "only the number of situations, " + found
	}
	return found, nil
}
