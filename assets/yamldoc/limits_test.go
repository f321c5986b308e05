package yamldoc

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"propsoff.example/assets/words"
)

func TestALongFileIsRefused(t *testing.T) {
	_, err := Parse("big.yaml", []byte(strings.Repeat("a", 1<<20+1)))
	const want = "big.yaml: the file is larger than 1 MiB, the most that is read: is it the right file? split it if it is"
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
}

func TestLimitIsExact(t *testing.T) {
	file := "a: " + strings.Repeat("x", 1<<20-3)
	if _, err := Parse("f", []byte(file)); err != nil {
		t.Errorf("1 MiB: %v", err)
	}
	if _, err := Parse("f", []byte(file+"x")); err == nil {
		t.Error("1 MiB and 1 byte was accepted")
	}
	if _, err := (limits{10, 32, 100}).parse("f", []byte("a: 1234567")); err != nil {
		t.Errorf("10 bytes of 10: %v", err)
	}
	_, err := limits{10, 32, 100}.parse("f", []byte("a: 12345678"))
	if err == nil || !strings.HasPrefix(err.Error(), "f: the file is larger than 10 bytes") {
		t.Errorf("11 bytes of 10: %v", err)
	}
}

func TestDepth(t *testing.T) {
	nest := map[string]func(n int) string{
		"[":         func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) },
		"{":         func(n int) string { return strings.Repeat("{a: ", n) + "1" + strings.Repeat("}", n) },
		"- on line": func(n int) string { return strings.Repeat("- ", n) + "x" },
		"fields": func(n int) string {
			var b strings.Builder
			for i := range n {
				b.WriteString(strings.Repeat(" ", i) + "a:\n")
			}
			return b.String()
		},
	}
	for name, make := range nest {
		if _, err := Parse("f", []byte(make(32))); err != nil {
			t.Errorf("%s 32 deep: %v", name, err)
		}
		for _, n := range []int{33, 1000, 5000} {
			start := spent(t)
			text := make(min(n, 1400)) // fields grow with the square
			_, err := Parse("f", []byte(text))
			if err == nil || !strings.Contains(err.Error(), "more than 32 levels inside one another: write the file flatter") {
				t.Errorf("%s %d deep: %.200v", name, n, err)
			}
			if d := spent(t) - start; d > 2*time.Second {
				t.Errorf("%s %d deep took %v", name, n, d)
			}
		}
	}
	_, err := limits{Most, 2, 100}.parse("f", []byte("a: 1\nb: [[1]]\n"))
	if err == nil || !strings.HasPrefix(err.Error(), "f:2:5: more than 2 levels") {
		t.Errorf("got %v", err)
	}
}

func TestNodes(t *testing.T) {
	_, err := limits{Most, 32, 6}.parse("f", []byte("a: 1\nb: 2\nc: 3\n"))
	if err == nil || !strings.HasPrefix(err.Error(), "f:3:1: more than 6 names and values: split the file") {
		t.Errorf("got %v", err)
	}
	if _, err := (limits{Most, 32, 9}).parse("f", []byte("a: 1\nb: 2\nc: 3\n")); err != nil {
		t.Errorf("got %v", err)
	}
	_, err = Parse("f", []byte("["+strings.Repeat("a,", 1<<19-2)+"]"))
	if err == nil || !strings.Contains(err.Error(), "more than 200000 names and values") {
		t.Errorf("got %.200v", err)
	}
}

// The classic of nine levels of nine aliases each: 9^9 copies if expanded.
func TestAliasBomb(t *testing.T) {
	var b strings.Builder
	b.WriteString("a: &a [x, x, x, x, x, x, x, x, x]\n")
	for c := 'b'; c <= 'i'; c++ {
		fmt.Fprintf(&b, "%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*%c,", c-1), 9), ","))
	}
	start := spent(t)
	_, err := Parse("f", []byte(b.String()))
	took := spent(t) - start
	var es words.Problems
	if !errors.As(err, &es) || es[0].Error() != "f:1:4: "+says(refusedAnchor) || es[1].Error() != "f:2:4: "+says(refusedAnchor) || es[2].Error() != "f:2:8: "+says(refusedAlias) {
		t.Fatalf("got %v", err)
	}
	if len(es) != 9+8*9 {
		t.Errorf("%d errors, want 81: one for each mark", len(es))
	}
	if took > 500*time.Millisecond {
		t.Errorf("took %v", took)
	}
	if lines := strings.Split(err.Error(), "\n"); len(lines) != 21 || lines[20] != "and 61 more" {
		t.Errorf("printed %d lines, the last %q", len(lines), lines[len(lines)-1])
	}
}

// Files of the full size made to be slow. Each takes under 0.2 s of the
// processor. That is what is bounded: a busy machine makes it wait, not work.
func TestHostileFiles(t *testing.T) {
	const n = 1 << 20
	for name, file := range map[string]string{
		"commas":      "[" + strings.Repeat("a,", n/2-1) + "]",
		"brackets":    strings.Repeat("[", n),
		"dashes":      strings.Repeat("- ", n/2),
		"comments":    strings.Repeat("#\n", n/2-3) + "a: 1\n",
		"items":       strings.Repeat("- b #x\n", n/7),
		"blank lines": strings.Repeat("\n", n-5) + "a: 1\n",
		"quoted":      "a: \"" + strings.Repeat("x\n ", n/3-3) + "\"",
		"plain":       "a: " + strings.Repeat("x\n ", n/3-2),
		"lines":       "a: |\n" + strings.Repeat(" x\n", n/3-3),
		"same names":  strings.Repeat("a: 1\n", n/5),
		"anchors":     strings.Repeat("- &a b\n", n/7),
		"open quotes": strings.Repeat("- '\n", n/4),
		"long number": "a: " + strings.Repeat("9", n-3),
	} {
		start := spent(t)
		d, err := Parse("f", []byte(file))
		if err == nil {
			d.Root().Map("yaml.file").Opt("a").Number(0, 1)
			err = d.Err()
		}
		_ = fmt.Sprint(err)
		if took := spent(t) - start; took > 5*time.Second {
			t.Errorf("%s took %v", name, took)
		} else {
			t.Logf("%-12s %8v %.60v", name, took.Round(time.Millisecond), err)
		}
	}
}
