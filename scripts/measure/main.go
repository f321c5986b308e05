// Command measure writes the figures of docs/measured.md and of the README: it runs the command of a row, reads what it prints, and puts it into the row's sentence.
//
//	go run ./scripts/measure            every row that takes minutes
//	go run ./scripts/measure ROW…       the rows named, those too that take hours or another's tools
//
// The rows stand in rows.yaml. Times are not measured while the machine is busy. It goes on after a command that fails, leaves that row as it was, and says so at the end.
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"time"
)

// Where the figures go.
const (
	table  = "docs/measured.md"
	readme = "README.md"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(names []string) error {
	rows, err := load()
	if err != nil {
		return err
	}
	chosen, err := choose(rows, names)
	if err != nil {
		return err
	}
	var failed []error
	for _, r := range chosen {
		if err := measure(r, time.Now().Format(time.DateOnly)); err != nil {
			failed = append(failed, fmt.Errorf("%s: %w", r.Row, err))
			fmt.Println(failed[len(failed)-1])
		}
	}
	return errors.Join(failed...)
}

// choose are the rows of the names, or without any those that have a command of minutes.
func choose(rows []*row, names []string) (chosen []*row, err error) {
	for _, r := range rows {
		if len(names) == 0 && r.Long == "" {
			chosen = append(chosen, r)
		}
	}
	for _, name := range names {
		r := find(rows, name)
		if r == nil {
			return nil, fmt.Errorf("there is no row %s: they are %s", name, strings.Join(all(rows), ", "))
		}
		if r.Run == "" {
			return nil, fmt.Errorf("%s comes from elsewhere: %s", name, r.Long)
		}
		chosen = append(chosen, r)
	}
	return chosen, nil
}

// measure runs the command of a row and writes what it prints into the files, at once, so that a long run that is stopped has done something.
func measure(r *row, day string) error {
	fmt.Printf("-- %s: %s\n", r.Row, r.Run)
	if load, err := os.ReadFile("/proc/loadavg"); r.Quiet && err == nil && busy(string(load), runtime.NumCPU()) {
		return fmt.Errorf("the machine is busy: %s", load)
	}
	out, err := exec.Command("bash", "-c", r.Run).CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w\n%s", err, last(out, 2000))
	}
	figure, readmes, err := r.tell(string(out))
	if err != nil {
		return fmt.Errorf("%w\n%s", err, last(out, 2000))
	}
	fmt.Println(figure)
	if err := change(table, func(text string) (string, error) { return r.into(text, figure, "measured "+day) }); err != nil {
		return err
	}
	if r.Readme == "" {
		return nil
	}
	return change(readme, func(text string) (string, error) { return replace(text, r.Readme, readmes) })
}

// busy tells whether so many processors had more to do in the last minute than these commands give them (Linux, proc_loadavg(5): its first number).
func busy(load string, processors int) bool {
	first, _, _ := strings.Cut(load, " ")
	return number(first) > 1.5*float64(processors)
}

func last(out []byte, n int) []byte { return out[max(0, len(out)-n):] }

func change(file string, to func(string) (string, error)) error {
	is, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	text, err := to(string(is))
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	return os.WriteFile(file, []byte(text), 0o644)
}
