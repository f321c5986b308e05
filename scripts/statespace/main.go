// Command statespace explores the same problems with the explorer of sim/prove and with spin, a general-purpose
// explicit-state model checker, and prints how many situations a second of processor time each of them does.
//
//	scripts/statespace/run         installs spin where that is allowed, builds, runs
//	dist/statespace -check         also fails where the explorer is not three times as quick on every problem
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"time"

	"propsoff/sim/prove/explore"
)

// aim is how many times the model checker's situations a second are asked for.
const aim = 3.0

func main() {
	check := flag.Bool("check", false, fmt.Sprintf("fail where the ratio is under %g", aim))
	times := flag.Int("times", 3, "runs of each; the quickest counts")
	child := flag.Int("child", -1, "for this program's own use: explore one problem")
	flag.Parse()
	all := problems()
	if *child >= 0 {
		found, bytes := uint64(0), int64(0)
		if *child < len(all) {
			found, bytes = explored(&all[*child])
		} else {
			found, bytes = proved(&crafts()[*child-len(all)])
		}
		fmt.Println(found, bytes)
		return
	}
	dir, err := os.MkdirTemp("", "statespace")
	if err != nil {
		fail(err)
	}
	low, theirs := false, 0.0
	for i := range all {
		ours, best, err := compare(&all[i], i, *times, filepath.Join(dir, strconv.Itoa(i)))
		if err != nil {
			os.RemoveAll(dir)
			fail(err)
		}
		low, theirs = low || ours < aim*best, max(theirs, best)
	}
	for i, c := range crafts() {
		d, found, bytes, err := alone(len(all)+i, *times)
		if err != nil {
			fail(err)
		}
		_, stored, err := checked(&problem{model: c.model}, 1, filepath.Join(dir, "craft "+strconv.Itoa(i)), nil)
		if err != nil {
			fail(err)
		}
		if stored != found {
			fail(fmt.Errorf("%s: the model checker stored %d states of its own model, prove found %d situations", c.name, stored, found))
		}
		ours := rate(found, d)
		low = low || ours < aim*theirs
		fmt.Printf("%-26s %9d situations   prove    %6.2f million a second, %.1f bytes each: every slot of the bench and every rule with it, as many as spin stores of the same craft; %.1f times spin's best\n",
			c.name, found, ours, float64(bytes)/float64(found), ours/theirs)
	}
	os.RemoveAll(dir)
	if *check && low {
		os.Exit(1)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(2)
}

// explored walks one problem to its end.
func explored(p *problem) (found uint64, bytes int64) {
	w := explore.New(explore.Options{})
	w.Begin(p.start)
	w.Run(p.space)
	return w.Found(), w.Peak()
}

// rate is million situations a second.
func rate(found uint64, d time.Duration) float64 { return float64(found) / 1e6 / d.Seconds() }

// alone runs one problem or craft in a process of its own.
func alone(number, times int) (d time.Duration, found uint64, bytes int64, err error) {
	self, err := os.Executable()
	if err != nil {
		return 0, 0, 0, err
	}
	d, said, err := quickest(times, self, "-child", strconv.Itoa(number))
	if err == nil {
		_, err = fmt.Sscan(said, &found, &bytes)
	}
	return d, found, bytes, err
}

// compare runs both sides on one problem and gives the rate of the explorer and of the quicker of the model checker's orders.
func compare(p *problem, number, times int, dir string) (ours, best float64, err error) {
	d, found, bytes, err := alone(number, times)
	if err != nil {
		return 0, 0, err
	}
	if found != p.found {
		return 0, 0, fmt.Errorf("%s: the explorer found %d situations, there are %d", p.name, found, p.found)
	}
	ours = rate(found, d)
	fmt.Printf("%-26s %9d situations   explorer %6.2f million a second, %.1f bytes each\n", p.name, found, ours, float64(bytes)/float64(found))
	for _, order := range []struct {
		name  string
		flags []string
	}{
		{"breadth first", []string{"-DBFS"}},
		{"depth first", nil},
	} {
		d, stored, err := checked(p, times, filepath.Join(dir, order.name), order.flags)
		if err != nil {
			return 0, 0, err
		}
		if stored != p.found && stored != p.found+1 { // the state before the first step may be one more
			return 0, 0, fmt.Errorf("%s: the model checker stored %d states, there are %d", p.name, stored, p.found)
		}
		theirs := rate(p.found, d)
		best = max(best, theirs)
		fmt.Printf("%-26s %9s spin -O2, %-22s %6.2f million a second: explorer is %.1f times as quick\n", "", "", order.name, theirs, ours/theirs)
	}
	return ours, best, nil
}

var storedLine = regexp.MustCompile(`(?m)^\s*([0-9.e+]+) states, stored`)

// checked makes the model checker of a model, and runs it.
func checked(p *problem, times int, dir string, flags []string) (time.Duration, uint64, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return 0, 0, err
	}
	if err := os.WriteFile(filepath.Join(dir, "model.pml"), []byte(p.model), 0o600); err != nil {
		return 0, 0, err
	}
	for _, c := range [][]string{
		{"spin", "-a", "model.pml"},
		append([]string{"gcc", "-O2", "-w", "-DSAFETY", "-DNOFAIR", "-DMEMLIM=3000", "-o", "pan", "pan.c"}, flags...),
	} {
		cmd := exec.Command(c[0], c[1:]...)
		cmd.Dir = dir
		if out, err := cmd.CombinedOutput(); err != nil {
			return 0, 0, fmt.Errorf("%v: %w\n%s", c, err, out)
		}
	}
	d, said, err := quickest(times, filepath.Join(dir, "pan"), "-m4000000", "-w24", "-n", "-E")
	if err != nil {
		return 0, 0, err
	}
	m := storedLine.FindStringSubmatch(said)
	if m == nil {
		return 0, 0, fmt.Errorf("the model checker does not say how many states it stored:\n%s", said)
	}
	stored, err := strconv.ParseFloat(m[1], 64)
	return d, uint64(stored), err
}

// quickest runs a program some times and gives the least processor time, and what it said last.
func quickest(times int, name string, args ...string) (best time.Duration, said string, err error) {
	for n := range max(times, 1) {
		cmd := exec.Command(name, args...)
		cmd.Dir = filepath.Dir(name)
		cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
		out, err := cmd.CombinedOutput()
		if err != nil {
			return 0, "", fmt.Errorf("%s: %w\n%s", name, err, out)
		}
		if d := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(); n == 0 || d < best {
			best = d
		}
		said = string(out)
	}
	return best, said, nil
}
