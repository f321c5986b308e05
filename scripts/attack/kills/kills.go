//go:build linux

// Package kills kills whatever writes, at any moment, and has several writers save one thing at once, and looks whether anything that
// was acknowledged is lost.
package kills

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"propsoff.example/scripts/attack/tally"
)

// What can fail, as the table has it.
const (
	Lost       = "acknowledged, lost"
	Torn       = "torn"
	PartLeft   = "part left at next start"
	NextStart  = "next start fails"
	RadioLost  = "radio file lost"
	OldVersion = "saved over an old version"
)

// Of reports whether a failure is one of kills and races.
func Of(k tally.Kind) bool {
	return tally.Of(Lost, Torn, PartLeft, NextStart, RadioLost, OldVersion)(k)
}

// Options are what the killing goes by.
type Options struct {
	// Program and Saver are the program, and the one that saves what no command does. Dir is a folder of its own.
	Program, Saver, Dir           string
	Seed                          uint64
	Kills, Rounds, Saves, Workers int
}

type killing struct {
	Options
	tally *tally.Tally
	good  map[string][]byte // files that the victims read, by name
}

// sources are the files that the victims read.
var sources = map[string]string{
	"craft.yaml": "assets/crafts/teasel.yaml", "script.yaml": "assets/scripts/demo.yaml", "radio.yaml": "cmd/propsoff/testdata/layouts/arm-always-on.radio.yaml",
	"good.take": "cmd/propsoff/testdata/takes/model-1/demo.take", "gestures.yaml": "assets/gestures/examples.yaml", "book.jsonl": "cmd/propsoff/testdata/logbooks/pupil-+model_1.jsonl",
}

// Run kills and races, and files what failed.
func Run(ctx context.Context, o Options, t *tally.Tally) error {
	k := &killing{Options: o, tally: t, good: map[string][]byte{}}
	for name, path := range sources {
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		k.good[name] = b
	}
	if o.Kills > 0 {
		if err := k.kill(ctx); err != nil {
			return err
		}
	}
	if err := k.radioFiles(ctx); err != nil {
		return err
	}
	return k.craftSaves(ctx)
}

// kill measures each victim, and kills each as often.
func (k *killing) kill(ctx context.Context) error {
	for i := range victims {
		if err := k.measure(&victims[i]); err != nil {
			return fmt.Errorf("%s: %w", victims[i].name, err)
		}
	}
	next, errs, began := make(chan int), make(chan error, k.Workers), time.Now()
	for w := range k.Workers {
		go func() {
			var err error
			for n := range next {
				if err == nil {
					err = k.one(n, filepath.Join(k.Dir, fmt.Sprint("killed", w)))
				}
			}
			errs <- err
		}()
	}
	for n := range k.Kills {
		if n > 0 && n%200 == 0 {
			fmt.Fprintf(os.Stderr, "%d of %d kills, %d failures of them, %v\n", n, k.Kills, k.tally.Failed(Of), time.Since(began).Round(time.Second))
		}
		select {
		case next <- n:
		case <-ctx.Done():
		}
	}
	close(next)
	var err error
	for range k.Workers {
		if e := <-errs; e != nil {
			err = e
		}
	}
	return err
}

// one kills one victim, and looks.
func (k *killing) one(n int, dir string) error {
	r := rand.New(rand.NewPCG(k.Seed, 1<<32|uint64(n)))
	v := &victims[n%len(victims)]
	c := &scene{killing: k, v: v, dir: dir}
	if err := c.lay(); err != nil {
		return err
	}
	moment, err := c.run(r)
	if err != nil {
		return err
	}
	k.tally.Tried("kills")
	found := c.look()
	found = append(found, c.again()...)
	for _, f := range found {
		k.tally.Fail(tally.Kind{What: f.what, Where: v.name}, fmt.Sprintf("[kill %d] %s, killed %s: %s", n, strings.Join(v.args, " "), moment, f.detail))
	}
	return nil
}

// finding is what is wrong after a kill.
type finding struct{ what, detail string }

func found(what, format string, args ...any) []finding {
	return []finding{{what, fmt.Sprintf(format, args...)}}
}

// measure runs a victim once to its end, for how long that takes, and what comes out.
func (k *killing) measure(v *victim) error {
	c := &scene{killing: k, v: v, dir: filepath.Join(k.Dir, "measured")}
	if err := c.lay(); err != nil {
		return err
	}
	v.over = nil
	if help, err := c.program("--help", v.args); err == nil && bytes.Contains(help, []byte("--over")) {
		v.over = []string{"--over"}
	}
	took, status, said, err := c.whole()
	if err != nil {
		return err
	}
	if status > 1 {
		return fmt.Errorf("%v: status %d: %s", v.args, status, said)
	}
	if v.ack != "" && !strings.Contains(said, v.ack) {
		return fmt.Errorf("%v does not say %q any more: %s", v.args, v.ack, said)
	}
	v.takes, v.status = took, status
	v.whole = map[string][]byte{}
	for _, out := range v.outs {
		paths, err := filepath.Glob(filepath.Join(c.dir, out))
		if err != nil || len(paths) == 0 {
			return fmt.Errorf("%v wrote nothing at %s: %v", v.args, out, err)
		}
		for _, p := range paths {
			b, err := os.ReadFile(p)
			if err != nil {
				return err
			}
			rel, _ := filepath.Rel(c.dir, p)
			v.whole[rel] = b
		}
	}
	return nil
}

// radioFiles has three processes at once save files of three radios whose names make the same file name.
func (k *killing) radioFiles(ctx context.Context) error {
	for round := range k.Rounds {
		if ctx.Err() != nil {
			return nil
		}
		dir := filepath.Join(k.Dir, fmt.Sprint("radios", round))
		names := []string{"Moor (7)", "Moor [7]", "Moor {7}"}
		var savers []*saver
		for _, name := range names {
			s, err := k.start("one-radio", dir, name)
			if err != nil {
				return err
			}
			savers = append(savers, s)
		}
		for _, s := range savers {
			if err := s.begin(); err != nil {
				return err
			}
		}
		var paths []string
		for _, s := range savers {
			kept, err := s.end()
			if err != nil {
				return fmt.Errorf("round %d: %w", round, err)
			}
			paths = append(paths, strings.TrimSpace(kept))
		}
		k.tally.Tried("rounds of radio files")
		for i, p := range paths {
			b, err := os.ReadFile(p)
			if p != "" && (err != nil || !bytes.Contains(b, []byte(names[i]))) {
				k.tally.Fail(tally.Kind{What: RadioLost, Where: "three savers at once"}, fmt.Sprintf("round %d: the file of %s, acknowledged at %s, is that of another (%v); paths %q", round, names[i], p, err, paths))
			}
		}
	}
	return nil
}

// craftSaves has four processes save one craft file, each over the version that it read just before.
func (k *killing) craftSaves(ctx context.Context) error {
	if k.Saves == 0 {
		return nil
	}
	path := filepath.Join(k.Dir, "shared.yaml")
	if err := os.WriteFile(path, append(bytes.Clone(k.good["craft.yaml"]), "# kept first\n"...), 0o644); err != nil {
		return err
	}
	kept := make(chan string)
	var savers []*saver
	var wg sync.WaitGroup
	for i := range 4 {
		s, err := k.start("craft", path, fmt.Sprint("p", i))
		if err != nil {
			return err
		}
		savers = append(savers, s)
		wg.Go(func() { s.lines(kept) })
	}
	go func() { wg.Wait(); close(kept) }()
	var was, made []string
	for line := range kept {
		old, new, ok := strings.Cut(line, " ")
		if !ok {
			continue
		}
		k.tally.Tried("craft saves")
		if slices.Contains(was, old) {
			k.tally.Fail(tally.Kind{What: OldVersion, Where: "four savers at once"}, fmt.Sprintf("%s was built on %s, over which another save was accepted before", new, old))
		}
		was, made = append(was, old), append(made, new)
		if len(made) >= k.Saves || ctx.Err() != nil {
			for _, s := range savers {
				s.kill()
			}
			break
		}
	}
	for range kept { // what they still say
	}
	for _, s := range savers {
		_, err := s.end()
		if len(made) < k.Saves && ctx.Err() == nil {
			return fmt.Errorf("only %d saves: %w", len(made), err)
		}
	}
	return nil
}
