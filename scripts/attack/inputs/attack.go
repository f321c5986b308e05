//go:build linux

package inputs

import (
	"cmp"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"time"

	"propsoff.example/scripts/attack/child"
	"propsoff.example/scripts/attack/tally"
)

// Options are what an attack goes by.
type Options struct {
	// Program and Saver are the program under attack, and the one that reads and saves what no command does. Dir is a folder of its own.
	Program, Saver, Dir string
	Seed                uint64
	N                   int
	Only                int    // the one trial to be run, with everything that it says; -1 for all
	Group               string // the one kind of attack; empty for all
	Deadline            time.Duration
	Workers             int
}

type attack struct {
	Options
	dir, saver string
	good       map[string][][]byte
	flags      map[string][]string // of each command, without dashes
	rules      []string            // names of the files that prove writes
	making     sync.Mutex
	tally      *tally.Tally
}

// kinds are the kinds of file, in a fixed order.
var kinds = words("craft", "radio", "gestures", "script", "take", "drill", "course", "logbook", "sounds")

// group is a kind of attack, with how many of a thousand trials are its.
type group struct {
	name  string
	share int
	make  func(*attack, *rand.Rand, *ground, *trial) error
}

var groups = []group{
	{"spoilt files", 640, (*attack).spoilt},
	{"things", 90, (*attack).thing},
	{"big", 20, (*attack).big},
	{"flags", 90, (*attack).flagged},
	{"outputs", 85, (*attack).output},
	{"two outputs", 10, (*attack).twice},
	{"names", 30, (*attack).named},
	{"lines", 20, (*attack).lined},
	{"no output", 15, (*attack).muted},
}

// Run attacks, and files what it tried and what failed.
func Run(ctx context.Context, o Options, t *tally.Tally) error {
	a := &attack{Options: o, dir: o.Dir, saver: o.Saver, tally: t, flags: map[string][]string{}}
	var err error
	if a.good, err = readSamples(); err != nil {
		return err
	}
	if o.Group != "" && !slices.ContainsFunc(groups, func(g group) bool { return g.name == o.Group }) {
		return fmt.Errorf("there is no group %q", o.Group)
	}
	if err := a.ask(); err != nil {
		return err
	}
	next, began := make(chan int), time.Now()
	errs := make(chan error, o.Workers)
	for i := range o.Workers {
		g := &ground{root: filepath.Join(o.Dir, fmt.Sprint("ground", i))}
		g.work = filepath.Join(g.root, "work")
		go func() {
			defer g.mountFull()()
			var err error
			for n := range next {
				if err == nil {
					err = a.try(n, g)
				}
			}
			errs <- err
		}()
	}
	for n := range o.N {
		if o.Only >= 0 && n != o.Only {
			continue
		}
		if n > 0 && n%1000 == 0 {
			fmt.Fprintf(os.Stderr, "%d of %d inputs, %d failures, %v\n", n, o.N, t.Failed(tally.Any), time.Since(began).Round(time.Second))
		}
		select {
		case next <- n:
		case <-ctx.Done():
		}
	}
	close(next)
	for range o.Workers {
		if e := <-errs; e != nil {
			err = e
		}
	}
	return err
}

// ask asks the program itself for the flags of each command, and for the files that prove writes.
func (a *attack) ask() error {
	for _, c := range commands {
		out, err := exec.Command(a.Program, append(slices.Clone(c.name), "--help")...).Output()
		if err != nil {
			continue // the completion's own
		}
		for _, m := range aFlag.FindAllStringSubmatch(string(out), -1) {
			a.flags[strings.Join(c.name, " ")] = append(a.flags[strings.Join(c.name, " ")], m[2])
		}
	}
	if len(a.flags) < 10 {
		return fmt.Errorf("%s: its help lists hardly any flags", a.Program)
	}
	dir := filepath.Join(a.dir, "rules")
	g := &ground{root: filepath.Join(a.dir, "asked")}
	g.work = filepath.Join(g.root, "work")
	if err := g.lay(a.good); err != nil {
		return err
	}
	cmd := exec.Command(a.Program, "prove", "craft.yaml", "radio.yaml", "--write", dir)
	cmd.Dir, cmd.Env = g.work, g.env()
	_ = cmd.Run() // a broken rule is status 1
	found, err := os.ReadDir(dir)
	for _, e := range found {
		a.rules = append(a.rules, e.Name())
	}
	if len(a.rules) == 0 {
		return fmt.Errorf("prove --write wrote no way (%v): this attack needs a layout with a broken rule", err)
	}
	if a.Only >= 0 {
		return nil
	}
	return a.sound(g)
}

// atOnce is how soon what is no ordinary file must have been refused; patience, how many hangs over spoilt files are waited for by each
// command, before the rest of its kind is passed over (ours). Whatever stands where a file should be hangs always or never: one is enough.
const (
	atOnce   = 10 * time.Second
	patience = 3
)

func (a *attack) try(n int, g *ground) error {
	r := rand.New(rand.NewPCG(a.Seed, uint64(n)))
	if err := g.lay(a.good); err != nil {
		return err
	}
	t := &trial{spec: child.Spec{Bin: a.Program, Dir: g.work, Env: g.env(), CPU: int(a.Deadline.Seconds()), Deadline: a.Deadline}}
	at := r.IntN(1000)
	for _, gr := range groups {
		if at -= gr.share; at < 0 && a.Group == "" || gr.name == a.Group {
			t.group = gr.name
			if err := gr.make(a, r, g, t); err != nil {
				return fmt.Errorf("trial %d, %s: %w", n, gr.name, err)
			}
			break
		}
	}
	t.where = strings.TrimSpace(cmp.Or(t.where, "(window)"))
	hang := tally.Kind{What: "hang", Where: t.where + ", " + t.how}
	most := 1
	switch t.group {
	case "spoilt files":
		hang.Where, most = t.where, patience
	case "things", "outputs":
		t.spec.Deadline = min(t.spec.Deadline, atOnce)
	}
	if a.Only < 0 && a.tally.Failed(func(k tally.Kind) bool { return k == hang }) >= most {
		a.tally.Tried("passed over after hangs")
		return nil
	}
	if t.live {
		t.spec.Signal = pick(r, []syscall.Signal{syscall.SIGINT, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP})
	}
	before, err := g.state()
	if err != nil {
		return err
	}
	res, err := child.Run(t.spec)
	if err != nil {
		if strings.Contains(err.Error(), "argument list too long") {
			return nil
		}
		return fmt.Errorf("trial %d: %w", n, err)
	}
	after, err := g.state()
	if err != nil {
		return err
	}
	a.tally.Tried("inputs")
	a.tally.Tried("of them " + t.group)
	if !res.Swollen {
		a.tally.Peak(t.group, res.Peak)
	}
	which := ""
	if a.Group != "" {
		which = fmt.Sprintf("-group %q ", a.Group)
	}
	example := fmt.Sprintf("[%s-case %d] %s (%s): status %d", which, n, shown(t.spec.Args), t.how, res.Status)
	for _, what := range t.judge(&res, before, after) {
		k := tally.Kind{What: what.what, Where: t.where}
		switch t.group {
		case "spoilt files", "flags":
		case "names":
			k.Where += ", an odd name"
		default:
			k.Where += ", " + t.how
		}
		if k.What == "hang" {
			k = hang
		}
		a.tally.Fail(k, example+"; "+what.detail)
	}
	if a.Only >= 0 {
		fmt.Printf("%s %v\n  in %v, %d MB, allowed new %q changed %q\n--- out\n%.4000q\n--- err\n%.4000q\n", t.where, example, res.Took, res.Peak>>20, t.fresh, t.may, res.Out, res.Err)
	}
	return nil
}

// shown is a line as a person may type it, cut where it is long.
func shown(args []string) string {
	var out []string
	for _, w := range args {
		if len(w) > 60 {
			w = w[:40] + "…"
		}
		if strings.ContainsAny(w, " \"'$*~\\") || w == "" || strings.ToValidUTF8(w, "") != w || strings.IndexFunc(w, func(r rune) bool { return r < ' ' || r > '~' }) >= 0 {
			w = fmt.Sprintf("%+q", w)
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}
