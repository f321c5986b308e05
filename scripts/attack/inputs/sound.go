//go:build linux

package inputs

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"syscall"

	"propsoff.example/scripts/attack/child"
)

// sound makes sure that every line of the tables does its work where nobody means harm: one that is refused as bad input whatever
// it is given, such as after a flag was renamed, would attack nothing.
func (a *attack) sound(g *ground) error {
	var wrong []error
	run := func(t *trial, args []string) error {
		t.spec.Bin, t.spec.Dir, t.spec.Env, t.spec.CPU, t.spec.Deadline = a.Program, g.work, g.env(), 60, a.Deadline
		if t.live {
			t.spec.Signal = syscall.SIGINT
		}
		if slices.Contains(args, "sounds") || slices.Contains(args, "radios/hostile.yaml") {
			t.spec.Bin = a.saver
		}
		res, err := child.Run(t.spec)
		if err == nil && (res.Status < 0 || res.Status == 2) {
			wrong = append(wrong, fmt.Errorf("%s: status %d: %s", shown(t.spec.Args), res.Status, tail(res.Err)))
		}
		return err
	}
	for i := range readers {
		rd, t := &readers[i], &trial{}
		if err := g.lay(a.good); err != nil {
			return err
		}
		path, err := a.at(t, g, rd, "hostile"+filepath.Ext(places[rd.kind]))
		if err != nil {
			return err
		}
		good := a.good[rd.kind][0]
		if rd.kind == "take" && rd.args[0] == "repair" {
			good = good[:len(good)-9]
		}
		if err := os.WriteFile(path, good, 0o644); err != nil {
			return err
		}
		if err := run(t, rd.args); err != nil {
			return err
		}
	}
	for i := range writers {
		w, t := &writers[i], &trial{}
		if err := g.lay(a.good); err != nil {
			return err
		}
		t.live, t.spec.Args = w.idle, fillIn(w.args, "target"+w.exts[0])
		if err := run(t, w.args); err != nil {
			return err
		}
		_, err := os.Stat(filepath.Join(g.work, fillIn([]string{here}, "target"+w.exts[0])[0]))
		if w.fixed != "" {
			_, err = os.Stat(filepath.Join(g.work, w.fixed))
		}
		if err != nil && !w.idle {
			wrong = append(wrong, fmt.Errorf("%s writes nothing: %w", shown(t.spec.Args), err))
		}
	}
	for _, c := range commands {
		t := &trial{live: true}
		if c.asks {
			continue
		}
		if err := g.lay(a.good); err != nil {
			return err
		}
		t.spec.Args = slices.Concat(c.name, c.rest)
		if err := run(t, nil); err != nil {
			return err
		}
	}
	return errors.Join(wrong...)
}
