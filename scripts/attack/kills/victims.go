//go:build linux

package kills

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"propsoff.example/scripts/attack/hostile"
)

// victim is something that writes.
type victim struct {
	name string
	args []string
	// saver: it is a job of the program that saves, and goes on for ever.
	saver bool
	// outs are what it writes, as patterns; writesIn the folder, below its own, where its work can be watched.
	outs     []string
	writesIn string
	ack      string // what it prints once all is written
	take     bool   // what it writes is whole up to where it ends
	old      []byte // what stands where it writes
	prepare  func(*scene) error
	// look says what is wrong after a kill, where whole files are not all there is to it.
	look func(*scene) []finding
	// alsoThen are other good statuses of the next start.
	alsoThen []int

	// What was measured: how long it takes, its status, what it writes, and the flag that lets it write over a file.
	takes  time.Duration
	status int
	whole  map[string][]byte
	over   []string
}

func w(words ...string) []string { return words }

var aTable = bytes.Repeat([]byte("old,table\n"), 3000)

// standing puts an old file where a victim writes.
func standing(name string) func(*scene) error {
	return func(c *scene) error { return os.WriteFile(filepath.Join(c.dir, name), c.v.old, 0o644) }
}

var victims = []victim{
	{name: "run --record", args: w("run", "script.yaml", "--record", "new.take"), outs: w("new.take"), take: true},
	{name: "run --record, of a take", args: w("run", "good.take", "--record", "new.take"), outs: w("new.take"), take: true},
	{name: "run --live --record", args: w("run", "--live", "--json", "short.yaml", "--record", "new.take"), prepare: short, look: live, alsoThen: []int{2}},
	{name: "fly -o", args: w("fly", "hop", "--every", "1ms", "-o", "new.csv"), outs: w("new.csv")},
	{name: "fly -o, over", args: w("fly", "hop", "--every", "1ms", "-o", "new.csv"), outs: w("new.csv"), old: aTable, prepare: standing("new.csv")},
	{name: "fly --plot", args: w("fly", "hop", "--plot", "new.png"), outs: w("new.png")},
	{name: "fly --plot, over", args: w("fly", "hop", "--plot", "new.svg"), outs: w("new.svg"), old: aTable, prepare: standing("new.svg")},
	{name: "card", ack: "Saved: ", args: w("card", "--craft", "craft.yaml", "--date", "2031-04-05", "-o", "new.pdf"), outs: w("new.pdf")},
	{name: "card, over", ack: "Saved: ", args: w("card", "--craft", "craft.yaml", "--date", "2031-04-05", "-o", "new.pdf"), outs: w("new.pdf"), old: aTable, prepare: standing("new.pdf")},
	{name: "logbook report", ack: "Saved: ", args: w("logbook", "report", "--folder", "logs", "--pupil", "Model 1", "--date", "2031-04-05", "-o", "new.pdf"), outs: w("new.pdf"), prepare: books},
	{name: "logbook report, over", ack: "Saved: ", args: w("logbook", "report", "--folder", "logs", "--pupil", "Model 1", "--date", "2031-04-05", "-o", "new.html"), outs: w("new.html"), old: aTable,
		prepare: both(books, standing("new.html"))},
	{name: "logbook --csv", ack: "Saved: ", args: w("logbook", "--folder", "logs", "--csv", "new.csv"), outs: w("new.csv"), prepare: books},
	{name: "logbook forget", args: w("logbook", "forget", "--folder", "logs", "--pupil", "Model 1", "--yes"), writesIn: "logs", prepare: books, look: forgotten, alsoThen: []int{2}},
	{name: "logbook merge", args: w("logbook", "merge", "--folder", "logs", "--yes", "Model 1", "Other"), writesIn: "logs", prepare: books, look: merged, alsoThen: []int{2}},
	{name: "prove --write", ack: "Written to ", args: w("prove", "craft.yaml", "radio.yaml", "--write", "ways"), outs: w("ways/*.yaml"), writesIn: "ways"},
	{name: "repair", ack: "holds the whole part", args: w("repair", "torn.take"), outs: w("torn-repaired.take"), prepare: torn},
	{name: "logbook entries", saver: true, args: w("logbook", "logs", "A"), writesIn: "logs", look: entries},
	{name: "craft file", saver: true, args: w("craft", "craft.yaml", "p"), outs: w("craft.yaml"), look: marked("craft.yaml")},
	{name: "new craft files", saver: true, args: w("new-craft", "folder", "mine"), writesIn: "folder", look: newCrafts},
	{name: "kept radio file", saver: true, args: w("radio", "folder", "A1"), writesIn: "folder", look: radio},
	{name: "radio file, learn -o", saver: true, args: w("radio-file", "folder/new.yaml"), writesIn: "folder", look: radio},
	{name: "settings of sounds", saver: true, args: w("set-sounds", "sounds.yaml"), look: sounds},
	{name: "what searches came to", saver: true, args: w("searched", "searched.yaml"), look: searches},
	{name: "gesture file", saver: true, args: w("gestures", "gestures.yaml"), outs: w("gestures.yaml"), look: marked("gestures.yaml")},
}

func both(a, b func(*scene) error) func(*scene) error {
	return func(c *scene) error {
		if err := a(c); err != nil {
			return err
		}
		return b(c)
	}
}

// books puts a pupil's logbook, many copies of it, and another pupil's into the folder of logbooks.
func books(c *scene) error {
	book := c.good["book.jsonl"]
	other := bytes.ReplaceAll(book, []byte("Model 1"), []byte("Other"))
	files := map[string][]byte{"pupil-+model_1.jsonl": book, "pupil-+other.jsonl": other}
	for i := range 20 {
		files[fmt.Sprintf("copy %d.jsonl", i)] = book
	}
	if c.v.name != "logbook forget" && c.v.name != "logbook merge" { // what is read may be long
		lines := bytes.SplitAfterN(book, []byte("\n"), 2)
		files["pupil-+model_1.jsonl"] = append(lines[0], bytes.Repeat(lines[1], 300)...)
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(c.dir, "logs", name), text, 0o600); err != nil {
			return err
		}
	}
	return nil
}

// forgotten: the other pupil's logbook stays, and where the command said that it is done nothing of the pupil is left.
func forgotten(c *scene) (out []finding) {
	other := bytes.ReplaceAll(c.good["book.jsonl"], []byte("Model 1"), []byte("Other"))
	if got, err := os.ReadFile(filepath.Join(c.dir, "logs", "pupil-+other.jsonl")); err != nil || !bytes.Equal(got, other) {
		out = append(out, found(Lost, "another pupil's logbook is not what it was (%v)", err)...)
	}
	left := func() (n int) {
		all, _ := filepath.Glob(filepath.Join(c.dir, "logs", "*"))
		for _, p := range all {
			if b, err := os.ReadFile(p); err == nil && bytes.Contains(b, []byte("Model 1")) {
				n++
			}
		}
		return n
	}
	if n := left(); c.ended && c.status == 0 && n > 0 {
		out = append(out, found(Lost, "forgotten, it said, and %d files are left", n)...)
	}
	if _, status, said, err := c.whole(); err != nil || status != 0 && status != 2 || left() > 0 {
		out = append(out, found(NextStart, "status %d, %d files of the pupil are left: %.200q", status, left(), said)...)
	}
	return out
}

// merged: no line of either pupil is lost, whenever it ended, and once it is done all stand in one logbook.
func merged(c *scene) (out []finding) {
	one := bytes.SplitAfterN(c.good["book.jsonl"], []byte("\n"), 2)[1]
	want := map[string]bool{}
	for line := range bytes.Lines(one) {
		want[string(line)] = true
	}
	for line := range bytes.Lines(bytes.ReplaceAll(one, []byte("Model 1"), []byte("Other"))) {
		want[string(line)] = true
	}
	missing := func(names ...string) int {
		here := map[string]bool{}
		for _, name := range names {
			text, _ := os.ReadFile(filepath.Join(c.dir, "logs", name))
			for line := range bytes.Lines(text) {
				here[string(line)] = true
			}
		}
		n := 0
		for line := range want {
			if !here[line] {
				n++
			}
		}
		return n
	}
	if n := missing("pupil-+model_1.jsonl", "pupil-+other.jsonl"); n > 0 {
		out = append(out, found(Lost, "%d lines are in neither logbook", n)...)
	}
	if _, status, said, err := c.whole(); err != nil || status != 0 && status != 2 || missing("pupil-+other.jsonl") > 0 {
		out = append(out, found(NextStart, "status %d, %d lines are not in the one logbook: %.200q", status, missing("pupil-+other.jsonl"), said)...)
	}
	return out
}

// torn makes a take with a damaged middle, long enough for its repair to take time.
func torn(c *scene) error {
	b := slices.Clone(c.good["good.take"])
	b[len(b)*9/10] ^= 4
	return os.WriteFile(filepath.Join(c.dir, "torn.take"), b, 0o644)
}

// short writes a script that takes a second to play live.
func short(c *scene) error {
	text := "propsoff: script 1\nname: short\nstart: {throttle: low, roll: middle, pitch: middle, yaw: middle, arm: off, mode: angle}\nsteps:\n"
	for i := range 90 {
		text += fmt.Sprintf("  - {at: %dms, roll: %d}\n", 200+10*i, 1200+i)
	}
	return os.WriteFile(filepath.Join(c.dir, "short.yaml"), []byte(text), 0o644)
}

// plays: a take that was cut off must play, once its settings are whole; before that nothing has been recorded.
func (c *scene) plays(rel string, got []byte) []finding {
	out, err := c.command("run", rel).CombinedOutput()
	if err == nil || hostile.Records(got) == 0 {
		return nil
	}
	if fixed, err := c.command("repair", rel).CombinedOutput(); err != nil {
		return found(Torn, "%s of %d bytes does not play (%.100q) and cannot be repaired (%.100q)", rel, len(got), out, fixed)
	}
	return nil
}

// late is how much of a live practice a kill may cost, with what a busy machine adds to the tenth of a second after which it is written.
const late = 1000

// live: what was told before the kill is in the take, but for the last moment.
func live(c *scene) []finding {
	told := lastMoment(c.said)
	got, err := os.ReadFile(filepath.Join(c.dir, "new.take"))
	if err != nil {
		if told > late {
			return found(Lost, "told up to %d ms, and there is no take: %v", told, err)
		}
		return nil
	}
	if bad := c.plays("new.take", got); bad != nil {
		return bad
	}
	out, _ := c.command("run", "--json", "new.take").Output()
	if holds := lastMoment(out); holds < told-late {
		return found(Lost, "told up to %d ms, the take holds %d ms", told, holds)
	}
	return nil
}

// lastMoment is the latest time in lines of JSON, in ms.
func lastMoment(lines []byte) (last int64) {
	for line := range bytes.Lines(lines) {
		var l struct {
			T int64 `json:"t_ms"`
		}
		if json.Unmarshal(line, &l) == nil {
			last = max(last, l.T)
		}
	}
	return last
}

// acked are the lines that a saver printed.
func (c *scene) acked() []string {
	return strings.Split(strings.TrimSuffix(string(c.said), "\n"), "\n")
}

// entries: each entry that was acknowledged is listed.
func entries(c *scene) []finding {
	cmd := c.command("logbook", "--folder", "logs", "--pupil", "A", "--json")
	cmd.Path, cmd.Args[0] = c.Program, c.Program
	out, err := cmd.Output()
	last, _ := strconv.Atoi(c.acked()[len(c.acked())-1])
	if err != nil && last > 0 {
		return found(Lost, "%d entries were acknowledged, and the logbook cannot be listed: %v", last, err)
	}
	for n := 1; n <= last; n++ {
		if !bytes.Contains(out, fmt.Appendf(nil, `"program":"%d"`, n)) {
			return found(Lost, "entry %d of %d", n, last)
		}
	}
	return nil
}

// marked: the file is whole, and of the version that was acknowledged last, or the next.
func marked(name string) func(*scene) []finding {
	return func(c *scene) []finding {
		got, err := os.ReadFile(filepath.Join(c.dir, name))
		base, mark, _ := bytes.Cut(got, []byte("# kept "))
		if err != nil || !bytes.Equal(base, c.good[name]) {
			return found(Torn, "%s is neither the old one nor a new one (%v)", name, err)
		}
		number := func(s string) int {
			n, _ := strconv.Atoi(s[strings.LastIndexAny(s, "- ")+1:])
			return n
		}
		acked := number(c.acked()[len(c.acked())-1])
		if n := number(strings.TrimSpace(string(mark))); n != acked && n != acked+1 {
			return found(Lost, "version %d was acknowledged, and %d is there", acked, n)
		}
		return nil
	}
}

// newCrafts: every file that was acknowledged is there, and every file is whole.
func newCrafts(c *scene) (out []finding) {
	var whole []byte
	for _, p := range c.acked() {
		b, err := os.ReadFile(filepath.Join(c.dir, p))
		if p != "" && err != nil {
			out = append(out, found(Lost, "%v", err)...)
		}
		whole = b
	}
	all, _ := filepath.Glob(filepath.Join(c.dir, "folder", "*.yaml"))
	for _, p := range all {
		if b, err := os.ReadFile(p); len(whole) > 0 && (err != nil || !bytes.Equal(b, whole)) {
			out = append(out, found(Torn, "%s: %d of %d bytes (%v)", filepath.Base(p), len(b), len(whole), err)...)
		}
	}
	return out
}

// radio: the file is whole, and has the stick mode that was acknowledged last, or the next.
func radio(c *scene) []finding {
	path, mode, ok := strings.Cut(c.acked()[len(c.acked())-1], " ")
	if !ok {
		return nil
	}
	got, err := os.ReadFile(filepath.Join(c.dir, path))
	if err != nil {
		return found(Lost, "%v", err)
	}
	if out, err := c.command("radios", path).CombinedOutput(); err != nil {
		return found(Torn, "%s cannot be read: %.200q", path, out)
	}
	n, _ := strconv.Atoi(mode)
	for _, m := range []int{n, 1 + n%4} {
		if bytes.Contains(got, fmt.Appendf(nil, "stick-mode: %d\n", m)) {
			return nil
		}
	}
	return found(Lost, "stick mode %d was acknowledged, and another is there", n)
}

func sounds(c *scene) []finding {
	if c.acked()[0] == "" {
		return nil
	}
	if out, err := c.command("sounds", "sounds.yaml").CombinedOutput(); err != nil {
		return found(Torn, "%.200q", out)
	}
	return nil
}

// searches: what the search came to that was acknowledged last is known.
func searches(c *scene) []finding {
	last := c.acked()[len(c.acked())-1]
	if last == "" {
		return nil
	}
	out, err := c.command("searches", "searched.yaml").CombinedOutput()
	if err != nil {
		return found(Torn, "%.200q", out)
	}
	if !slices.Contains(strings.Fields(string(out)), last) {
		return found(Lost, "the search of day %s was acknowledged, and is not known: %.200q", last, out)
	}
	return nil
}
