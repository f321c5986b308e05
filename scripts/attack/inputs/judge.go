//go:build linux

package inputs

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"propsoff.example/scripts/attack/child"
)

// memoryMost is the most memory that any file up to 50 MB may cost.
const memoryMost = 200_000_000

// verdict is one thing that went wrong.
type verdict struct{ what, detail string }

// crashes are words of Go's own that only a crash prints.
var crashes = words("panic:", "fatal error:", "goroutine ", "runtime error", "SIGSEGV")

// judge says everything that is wrong about how a trial ended.
func (t *trial) judge(res *child.Result, before, after map[string]string) (out []verdict) {
	add := func(what, format string, args ...any) { out = append(out, verdict{what, fmt.Sprintf(format, args...)}) }
	if t.csv {
		res.Out = bytes.ReplaceAll(res.Out, []byte("\r\n"), []byte("\n"))
	}
	text := append(bytes.Clone(res.Err), res.Out...)
	said := tail(res.Err)
	switch {
	case res.Swollen:
		add("memory", "killed above 700 MB after %v", res.Took)
	case res.Hung:
		add("hang", "killed after %v", res.Took)
	case res.Twice:
		add("one signal is not enough", "%v; %s", t.spec.Signal, said)
	case res.Status < 0 && res.Signal == t.spec.Signal:
		add("died of a signal", "%v; %s", res.Signal, said)
	case res.Status < 0 || res.Status > 4:
		add("crash", "%v; %s", res.Signal, said)
	case t.fails && res.Status == 0:
		add("not refused", "%s", said)
	}
	for _, w := range crashes {
		if bytes.Contains(res.Err, []byte(w)) {
			add("crash", "%q; %s", w, said)
			break
		}
	}
	if t.group != "flags" && !res.Swollen && res.Peak > memoryMost {
		add("memory", "%d MB", res.Peak/1_000_000)
	}
	if res.Status == 2 && t.names != nil && !slices.ContainsFunc(t.names, func(n string) bool { return bytes.Contains(text, []byte(n)) }) {
		add("error without its file", "%s", said)
	}
	if bad := steering(res.Err); bad != "" {
		add("control characters", "on standard error: %s", bad)
	}
	if bad := steering(res.Out); bad != "" && !t.binary {
		add("control characters", "on standard output: %s", bad)
	}
	changed, fresh := changes(before, after)
	for _, path := range changed {
		if !begins(path, t.may) {
			add("overwritten", "%s", path)
		}
	}
	for _, path := range fresh {
		switch {
		case strings.Contains(path, ".propsoff-") || strings.HasSuffix(path, ".part"):
			add("left lying about", "%+q", path)
		case strings.HasSuffix(path, "nothing-there"):
			add("link followed", "%s was made", path)
		case !begins(path, t.fresh) && !strings.HasPrefix(path, "data/") && !strings.HasPrefix(path, "conf/"):
			add("written unasked", "%+q", path)
		}
	}
	if t.after != nil && !res.Hung && !res.Swollen {
		if what := t.after(*res); what != "" {
			add(what, "%s", said)
		}
	}
	return out
}

func begins(path string, with []string) bool {
	for _, w := range with {
		if strings.HasPrefix(path, w) {
			return true
		}
	}
	return false
}

// tail is the end of what was said, on one line.
func tail(b []byte) string {
	s := strings.TrimSpace(string(b))
	if i := strings.LastIndexByte(s, '\n'); i >= 0 {
		s = s[i+1:]
	}
	return fmt.Sprintf("%.120q", s)
}

// steering finds the first character that steers a terminal: C0 but for the ends of lines and tabs, DEL, C1, bidirectional controls, and
// bytes that are no UTF-8, which some terminals take for C1. Empty where there is none.
func steering(b []byte) string {
	for i := 0; i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		near := b[max(0, i-20):min(len(b), i+20)]
		switch {
		case r == utf8.RuneError && n == 1:
			if len(b)-i < utf8.UTFMax && !utf8.FullRune(b[i:]) {
				return "" // cut off where we stopped looking
			}
			return fmt.Sprintf("byte %#x in %+q", b[i], near)
		case r < ' ' && r != '\n' && r != '\t', r == 0x7f, r >= 0x80 && r < 0xa0, r == 0x61c, r == 0x200e, r == 0x200f, r >= 0x2028 && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
			return fmt.Sprintf("%U in %+q", r, near)
		}
		i += n
	}
	return ""
}
