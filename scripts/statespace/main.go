// Command statespace has prove and spin, a general-purpose explicit-state model checker, search the same crafts, and prints how much
// processor time each of them takes, and the ratio.
//
// Equal graphs only: the models are of whole crafts, written apart from the program, and both sides must come to the same number of
// situations and of steps between them. Time is the processor's for the whole process, user and system, on one processor: prove's time
// holds everything that it does besides searching, from the program's start to the last rule. The model checker is compiled for each model
// (-O3, without partial order reduction, for safety alone, as prove reduces nothing either), its tables fitted to the problem; the quicker
// of its two orders counts.
//
//	scripts/statespace/run         installs spin where that is allowed, builds, runs
//	dist/statespace -check         also fails where an aim is missed
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"time"

	"propsoff.example/assets/tidylater"
	"propsoff.example/sim/prove"
)

func main() {
	check := flag.Bool("check", false, "fail where an aim is missed")
	times := flag.Int("times", 3, "runs of each, in turn; the median counts")
	child := flag.Int("child", -1, "for this program's own use: search one craft")
	flag.Parse()
	all := crafts()
	if *child >= 0 {
		tidylater.Begin() // as the program does
		r, err := prove.Search(all[*child].Layout, prove.Options{})
		if err != nil {
			fail(err)
		}
		fmt.Println(r.Situations, r.Edges, r.Bytes)
		return
	}
	dir, err := os.MkdirTemp("", "statespace")
	if err != nil {
		fail(err)
	}
	missed := false
	for i := range all {
		low, err := compare(&all[i], i, max(*times, 1), filepath.Join(dir, strconv.Itoa(i)))
		if err != nil {
			os.RemoveAll(dir)
			fail(err)
		}
		missed = missed || low
	}
	os.RemoveAll(dir)
	if *check && missed {
		os.Exit(1)
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(2)
}

// orders are those of the model checker.
var orders = [...]struct {
	name, flag string
}{{"breadth first", "-DBFS"}, {"depth first", "-UBFS"}}

// compare runs both sides on one craft, in turn, and reports whether the aim is missed.
func compare(c *craft, number, times int, dir string) (missed bool, err error) {
	var ours side
	var theirs [len(orders)]side
	for _, o := range orders {
		if err := build(c, filepath.Join(dir, o.name), o.flag); err != nil {
			return false, err
		}
	}
	self, err := os.Executable()
	if err != nil {
		return false, err
	}
	for range times {
		if c.aim > 0 {
			said, err := ours.run(self, "-child", strconv.Itoa(number))
			if err == nil {
				_, err = fmt.Sscan(said, &ours.states, &ours.steps, &ours.bytes)
			}
			if err != nil {
				return false, err
			}
			ours.steps += c.idle + 1 // the model checker counts the beginning too
		}
		for i, o := range orders {
			said, err := theirs[i].run(filepath.Join(dir, o.name, "pan"), c.depth, c.table, "-n", "-E")
			if err != nil {
				return false, err
			}
			theirs[i].states, theirs[i].steps = told(storedLine, said), told(stepsLine, said)
		}
	}
	spin := &theirs[0]
	for i, o := range orders {
		t := &theirs[i]
		if t.states != c.states || c.aim > 0 && (ours.states != c.states || ours.steps != t.steps) {
			return false, fmt.Errorf("%s: not the same graph: %d states and %d transitions by spin, %s; %d and %d by prove; %d states are known",
				c.name, t.states, t.steps, o.name, ours.states, ours.steps, c.states)
		}
		fmt.Printf("%-22s %9d situations   spin, %-13s  %8.3f s\n", c.name, t.states, o.name, t.median().Seconds())
		if t.median() < spin.median() {
			spin = t
		}
	}
	if c.aim == 0 {
		return false, nil
	}
	ratio := float64(spin.median()) / float64(ours.median())
	fmt.Printf("%-22s %9d situations   prove                %8.3f s, %.1f bytes a situation: %.1f times as quick as spin's quicker order (aim: %g)\n",
		c.name, ours.states, ours.median().Seconds(), float64(ours.bytes)/float64(ours.states), ratio, c.aim)
	return ratio < c.aim, nil
}

// build makes the model checker of a craft.
func build(c *craft, dir, order string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "model.pml"), []byte(c.model), 0o600); err != nil {
		return err
	}
	for _, args := range [][]string{
		append(append([]string{"spin"}, c.flags...), "-a", "model.pml"),
		{"gcc", "-O3", "-w", "-DNOREDUCE", "-DSAFETY", "-DMEMLIM=8000", order, "-o", "pan", "pan.c"},
	} {
		cmd := exec.Command(args[0], args[1:]...)
		cmd.Dir = dir
		if out, err := cmd.CombinedOutput(); err != nil {
			return fmt.Errorf("%v: %w\n%s", args, err, out)
		}
	}
	return nil
}

// side is one side on one craft: what it found, and the processor time of each run.
type side struct {
	states, steps uint64
	bytes         int64
	times         []time.Duration
}

func (s *side) median() time.Duration { return slices.Sorted(slices.Values(s.times))[len(s.times)/2] }

// run runs a program once on one processor, and gives what it said.
func (s *side) run(name string, args ...string) (said string, err error) {
	cmd := exec.Command(name, args...)
	cmd.Dir = filepath.Dir(name)
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%s: %w\n%s", name, err, out)
	}
	s.times = append(s.times, cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime())
	return string(out), nil
}

var (
	storedLine = regexp.MustCompile(`(?m)^\s*([0-9.e+]+) states, stored`)
	stepsLine  = regexp.MustCompile(`(?m)^\s*([0-9.e+]+) transitions`)
)

// told is a number that the model checker prints; 0 where it does not.
func told(line *regexp.Regexp, said string) uint64 {
	m := line.FindStringSubmatch(said)
	if m == nil {
		return 0
	}
	n, _ := strconv.ParseFloat(m[1], 64)
	return uint64(n)
}
