//go:build linux

// Command attack tries to break the program from outside: hostile inputs for everything that it reads, kills of everything that it writes,
// several savers of one file at once. Nothing on this machine is touched but a folder of its own, which is taken away at the end. Run it
// from the module's root: go run ./scripts/attack. The exit status is 0 where nothing failed, 1 where something did, 2 where it could not attack.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"propsoff.example/scripts/attack/inputs"
	"propsoff.example/scripts/attack/kills"
	"propsoff.example/scripts/attack/tally"
)

type flags struct {
	n, kills, rounds, saves, workers, only int
	seed                                   uint64
	deadline                               time.Duration
	dir, bin, group                        string
	keep                                   bool
}

func main() {
	var f flags
	flag.IntVar(&f.n, "n", 10_000, "how many hostile inputs")
	flag.IntVar(&f.kills, "kills", 1000, "how many kills")
	flag.IntVar(&f.rounds, "rounds", 40, "how many rounds of three savers of radio files")
	flag.IntVar(&f.saves, "saves", 600, "how many craft saves by several processes at once")
	flag.IntVar(&f.workers, "workers", 2, "how many children at once")
	flag.IntVar(&f.only, "case", -1, "run only the input of this number, and show what it says; with the seed that was printed")
	flag.StringVar(&f.group, "group", "", "only this kind of input: spoilt files, things, big, flags, outputs, two outputs, names, lines, no output")
	flag.Uint64Var(&f.seed, "seed", 0, "what everything random follows from; 0 takes one from the clock")
	flag.DurationVar(&f.deadline, "deadline", 30*time.Second, "how long a child may stand still, and how much time of CPU it may take, before it counts as hanging")
	flag.StringVar(&f.bin, "bin", "", "a folder that holds propsoff and savers already; else both are built")
	flag.BoolVar(&f.keep, "keep", false, "leave the folder and what is in it, and say where it is")
	flag.StringVar(&f.dir, "dir", "", "where to work; else a new folder for passing files")
	flag.Parse()
	failed, err := f.attack()
	switch {
	case err != nil:
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	case failed:
		os.Exit(1)
	}
}

func (f *flags) attack() (failed bool, err error) {
	if f.seed == 0 {
		f.seed = uint64(time.Now().UnixNano())
	}
	began := time.Now()
	fmt.Printf("-seed %d\n", f.seed)
	dir, err := os.MkdirTemp(f.dir, "attack-")
	if err != nil {
		return false, err
	}
	if f.keep {
		fmt.Println("in", dir)
	} else {
		defer os.RemoveAll(dir)
	}
	if err := os.Chmod(dir, 0o755); err != nil { // nobody must get at the program
		return false, err
	}
	bin := f.bin
	if bin == "" {
		bin = filepath.Join(dir, "bin")
		if err := build(bin); err != nil {
			return false, err
		}
	}
	// A hang-up is listened for as well, since a child inherits what is ignored (nohup) and then outlives the signal it is given.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	t := &tally.Tally{}
	program, saver := filepath.Join(bin, "propsoff"), filepath.Join(bin, "savers")
	err = inputs.Run(ctx, inputs.Options{Program: program, Saver: saver, Dir: dir, Seed: f.seed, N: f.n, Only: f.only, Group: f.group, Deadline: f.deadline, Workers: f.workers}, t)
	if err == nil && f.only < 0 {
		err = kills.Run(ctx, kills.Options{Program: program, Saver: saver, Dir: dir, Seed: f.seed, Kills: f.kills, Rounds: f.rounds, Saves: f.saves, Workers: f.workers}, t)
	}
	if err == nil {
		err = ctx.Err() // one that was stopped has not said that all is well
	}
	fmt.Printf("\n%5s  %-28s %-24s %s\n", "count", "what failed", "where", "an example")
	t.Table(os.Stdout)
	fmt.Printf("\ninputs %d, crashes %d, hangs %d, overwritten %d, other failures of inputs %d, passed over after hangs %d\npeak memory in MB: %s\nkills %d, lost %d, torn %d, parts left %d; rounds of radio files %d, files lost %d; craft saves %d, of an old version %d\nfailures %d, in %v, -seed %d\n",
		t.Count("inputs"), t.Failed(tally.Of("crash")), t.Failed(tally.Of("hang")), t.Failed(tally.Of("overwritten")),
		t.Failed(func(k tally.Kind) bool { return !kills.Of(k) && !tally.Of("crash", "hang", "overwritten")(k) }), t.Count("passed over after hangs"), t.Peaks(),
		t.Count("kills"), t.Failed(tally.Of(kills.Lost)), t.Failed(tally.Of(kills.Torn)), t.Failed(tally.Of(kills.PartLeft)), t.Count("rounds of radio files"), t.Failed(tally.Of(kills.RadioLost)),
		t.Count("craft saves"), t.Failed(tally.Of(kills.OldVersion)), t.Failed(tally.Any), time.Since(began).Round(time.Second), f.seed)
	return t.Failed(tally.Any) > 0, err
}

// build builds the program, and the one that saves what it saves, into a folder.
func build(bin string) error {
	if err := os.MkdirAll(bin, 0o755); err != nil {
		return err
	}
	cmd := exec.Command("go", "build", "-o", bin+"/", "./cmd/propsoff", "./cmd/propsoff/internal/savers")
	cmd.Env, cmd.Stdout, cmd.Stderr = append(os.Environ(), "CGO_ENABLED=0"), os.Stderr, os.Stderr
	return cmd.Run()
}
