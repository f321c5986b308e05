//go:build linux

package inputs

import (
	"bufio"
	"cmp"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"

	"propsoff.example/scripts/attack/child"
	"propsoff.example/scripts/attack/hostile"
)

// trial is one run and what may come of it. Paths are below the playground.
type trial struct {
	group string // of which kind of attack
	live  bool   // it goes on until a signal comes
	where string // what a failure is filed under
	how   string // what was done to the input, for a person
	spec  child.Spec

	may    []string // beginnings of paths that may change or go
	fresh  []string // beginnings of paths where something new may come
	fails  bool     // it must say no
	names  []string // an error about bad input must hold one of them; nil for no matter
	binary bool     // standard output is no text
	csv    bool     // standard output may end its lines by CR and LF (RFC 4180)
	// after looks at what was written, and says what is wrong, in words of the table.
	after func(child.Result) string
}

// at makes a way for a hostile file to stand in a reader's line, and gives the path to put it at.
func (a *attack) at(t *trial, g *ground, rd *reader, name string) (path string, err error) {
	t.live = rd.live
	t.where = commandOf(rd.args) + " " + rd.kind
	t.csv = slices.Contains(rd.args, "--csv")
	t.names = words("hostile")
	for _, w := range rd.args { // what does not go with another file may be told at that one
		if strings.HasSuffix(w, ".yaml") || strings.HasSuffix(w, ".take") {
			t.names = append(t.names, w)
		}
	}
	if rd.saver {
		t.spec.Bin = a.saver
	}
	for _, f := range rd.fresh {
		t.fresh = append(t.fresh, "work/"+f)
	}
	t.spec.Args = fillIn(rd.args, name)
	path = filepath.Join(g.work, name)
	if filepath.IsAbs(name) {
		path = name
	}
	if rd.own != "" {
		path = filepath.Join(g.root, rd.own)
		t.names = append(t.names, filepath.Base(path))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return "", err
		}
		err = os.RemoveAll(path)
		if strings.Contains(strings.Join(rd.args, " "), "forget") {
			t.may = words("work/logs/pupil-other.jsonl", rd.own)
		}
	}
	return path, err
}

// commandOf is the command of a line, without flags and what follows them.
func commandOf(args []string) string {
	for i, w := range args {
		if strings.HasPrefix(w, "-") || strings.ContainsAny(w, ".{") || w == "built-in" || w == "hop" {
			args = args[:i]
			break
		}
	}
	return cmp.Or(strings.Join(args, " "), "(window)")
}

func fillIn(args []string, with string) []string {
	out := slices.Clone(args)
	for i := range out {
		out[i] = strings.ReplaceAll(out[i], here, with)
	}
	return out
}

// spoilt gives a command a spoilt file.
func (a *attack) spoilt(r *rand.Rand, g *ground, t *trial) error {
	rd := &readers[r.IntN(len(readers))]
	good := pick(r, a.good[rd.kind])
	text := good
	switch n := r.IntN(20); {
	case n == 0:
		other := pick(r, kinds)
		text, t.how = pick(r, a.good[other]), "a "+other
	case n == 1:
		text, t.how = hostile.Spliced(r, good, pick(r, a.good[pick(r, kinds)])), "spliced"
	case rd.kind == "take" && n < 12:
		s := pick(r, hostile.Takes)
		text, t.how = s.Make(r, good), s.Name
	default:
		for range 1 + r.IntN(2) {
			s := pick(r, hostile.Texts)
			text = s.Make(r, text)
			t.how += s.Name + " "
		}
	}
	path, err := a.at(t, g, rd, "hostile"+filepath.Ext(places[rd.kind]))
	if err == nil {
		err = os.WriteFile(path, text, 0o644)
	}
	return err
}

// thing gives a command something that is no ordinary file.
func (a *attack) thing(r *rand.Rand, g *ground, t *trial) error {
	rd, th := &readers[r.IntN(len(readers))], pick(r, hostile.Things)
	for rd.own != "" && th.Make == nil { // a folder cannot hold what has a place of its own
		th = pick(r, hostile.Things)
	}
	name := "hostile" + filepath.Ext(places[rd.kind])
	if th.Make == nil {
		name = th.At
	}
	path, err := a.at(t, g, rd, name)
	t.how = th.Name
	missing := rd.kind == "sounds" && (th.Name == "link to nothing" || th.Name == "nothing") // to settings, as good as no file: they are as they ship
	t.fails = th.Refused && !rd.lax && !missing && !strings.HasPrefix(rd.own, "conf/")
	t.spec.Nobody = th.Nobody && root() // who may not do everything is nobody already
	t.names = append(t.names, name[:min(len(name), 30)])
	if strings.HasPrefix(name, "/") || t.spec.Nobody {
		t.fresh = nil // nothing that it makes would last
	}
	if err != nil || th.Make == nil {
		return err
	}
	return th.Make(path)
}

// big gives a command a large file. It is made once and shared.
func (a *attack) big(r *rand.Rand, g *ground, t *trial) error {
	rd, kind, size := &readers[r.IntN(len(readers))], r.IntN(len(hostile.Bigs)), pick(r, words("5 MB", "50 MB"))
	if r.IntN(2) == 0 { // what is read line by line, or record by record, is what can grow
		rd = pick(r, slices.DeleteFunc(slices.Collect(each(readers)), func(x *reader) bool { return x.kind != "logbook" && x.kind != "take" }))
	}
	b := &hostile.Bigs[kind]
	path, err := a.at(t, g, rd, "hostile"+filepath.Ext(places[rd.kind]))
	t.group, t.how = "big "+size, b.Name+", "+size
	if err != nil {
		return err
	}
	made := filepath.Join(a.dir, fmt.Sprintf("big-%s-%d-%s", rd.kind, kind, size[:len(size)-3]))
	if !b.OfGood {
		made = filepath.Join(a.dir, fmt.Sprintf("big-%d-%s", kind, size[:len(size)-3]))
	}
	a.making.Lock()
	defer a.making.Unlock()
	if _, err := os.Stat(made); err != nil {
		f, err := os.Create(made)
		if err != nil {
			return err
		}
		defer f.Close()
		w := bufio.NewWriterSize(f, 1<<20)
		bytes := map[string]int{"5 MB": 5_000_000, "50 MB": 50_000_000}[size]
		if err := b.Write(w, rand.New(rand.NewPCG(1, 1)), a.good[rd.kind][0], bytes); err != nil {
			return err
		}
		if err := w.Flush(); err != nil {
			return err
		}
	}
	return os.Link(made, path)
}

// named gives a command a file whose name steers terminals.
func (a *attack) named(r *rand.Rand, g *ground, t *trial) error {
	rd := &readers[r.IntN(len(readers))]
	for rd.own != "" {
		rd = &readers[r.IntN(len(readers))]
	}
	name := pick(r, hostile.Names) + filepath.Ext(places[rd.kind])
	good := pick(r, a.good[rd.kind])
	if r.IntN(2) == 0 {
		good = pick(r, hostile.Texts).Make(r, good)
	}
	path, err := a.at(t, g, rd, name)
	t.how = fmt.Sprintf("named %+q", name)
	if strings.HasPrefix(name, "-") { // it reads as a flag
		t.names = nil
	}
	if rd.kind == "take" && len(rd.fresh) > 0 {
		t.fresh = append(t.fresh, "work/"+strings.TrimSuffix(name, ".take")+"-repaired")
	}
	if err != nil {
		return err
	}
	return os.WriteFile(path, good, 0o644)
}

var aFlag = regexp.MustCompile(`(?m)^ +(?:(-\w), |    )--([a-z-]+)`)

// flagged gives a command hostile flags and arguments. Its flags are those that its help lists.
func (a *attack) flagged(r *rand.Rand, g *ground, t *trial) error {
	c := pick(r, commands)
	t.spec.Args = slices.Concat(c.name, c.rest)
	t.live = true
	t.where = strings.Join(c.name, " ")
	t.fresh = words("") // a name may be given to anything that it writes
	if slices.Contains([]string{"logbook forget", "logbook rename", "logbook merge"}, t.where) {
		t.may = words("work/logs")
	}
	flags := a.flags[t.where]
	for range 1 + r.IntN(3) {
		v := strings.ReplaceAll(pick(r, hostile.Values), "\x00", "")
		switch n := r.IntN(10); {
		case n < 7 && len(flags) > 0:
			t.spec.Args = append(t.spec.Args, "--"+pick(r, flags)+"="+v)
		case n == 7 && len(c.rest) > 0:
			t.spec.Args = append(slices.Clone(c.name), v)
		case n == 8:
			t.spec.Args = append(t.spec.Args, "--"+v)
		default:
			t.spec.Args = append(t.spec.Args, v)
		}
	}
	return nil
}

// lined gives a command hostile lines to read, none at all, or none for ever.
func (a *attack) lined(r *rand.Rand, g *ground, t *trial) error {
	l := pick(r, lineReaders)
	t.spec.Args, t.may, t.where, t.live = l.args, l.may, strings.Join(l.args[:min(2, len(l.args))], " "), true
	switch r.IntN(5) {
	case 0:
		t.spec.In, t.how = child.InClosed, "no standard input"
	case 1:
		t.spec.In, t.how = child.InWaiting, "nobody types"
	case 2:
		t.spec.In, t.how = child.InFile, "zeros"
		t.spec.InPath = "/dev/zero"
	default:
		t.spec.In, t.how = child.InFile, "hostile lines"
		t.spec.InPath = filepath.Join(g.root, "home", "lines")
		return os.WriteFile(t.spec.InPath, hostile.Lines(r, l.words), 0o644)
	}
	return nil
}

// muted gives a command no standard output, or a full one.
func (a *attack) muted(r *rand.Rand, g *ground, t *trial) error {
	c := pick(r, commands)
	t.spec.Args, t.where = slices.Concat(c.name, c.rest), strings.Join(c.name, " ")
	t.live, t.fresh = c.live, words("work/new")
	t.spec.OutPath, t.how = "/dev/full", "standard output is full"
	if r.IntN(2) == 0 {
		t.spec.OutPath, t.how = "-", "no standard output"
	}
	// What prints nothing there, or by itself ends otherwise, has nothing to say about it.
	t.fails = t.spec.OutPath == "/dev/full" && !c.live && !slices.Contains([]string{"", "radios", "check", "logbook forget", "logbook rename", "logbook merge", "drill", "completion", "help", "__complete"}, t.where)
	return nil
}

func pick[T any](r *rand.Rand, from []T) T { return from[r.IntN(len(from))] }

func each(all []reader) func(func(*reader) bool) {
	return func(yield func(*reader) bool) {
		for i := range all {
			if !yield(&all[i]) {
				return
			}
		}
	}
}

// root is whether this program may do everything, and so can become somebody who may not.
func root() bool { return syscall.Geteuid() == 0 }
