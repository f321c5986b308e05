package logbook

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// rowsOf writes the table and reads it by the standard library (RFC 4180), as rows by column.
func rowsOf(t require.TestingT, f *Filter, all ...*held) (rows []map[string]string) {
	var b bytes.Buffer
	table := NewTable(&b, *f)
	for _, h := range all {
		for i := range h.Entries {
			require.NoError(t, table.Take(h.Contents, &h.Entries[i]))
		}
	}
	require.NoError(t, table.Close())
	text, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	require.Equal(t, columns[:], text[0])
	for _, r := range text[1:] {
		m := map[string]string{}
		for i, c := range r {
			if c != "" {
				m[text[0][i]] = c
			}
		}
		rows = append(rows, m)
	}
	return rows
}

func TestTableHasEveryFact(t *testing.T) {
	s := Store{t.TempDir()}
	require.NoError(t, written(t, s, "Zoë", 0, 5).Close())
	c, err := s.all("Zoë")
	require.NoError(t, err)
	who := func(m map[string]string, i int) map[string]string {
		m["pupil"], m["at"], m["day"], m["kind"] = "Zoë", some(i).At.Format("2006-01-02T15:04:05.000Z"), "2031-04-05", string(some(i).Kind)
		return m
	}
	run := map[string]string{"drill": "alarm-by-switch", "name": "Disarm at the alarm", "seed": "9223372036854775812", "learned": "true", "broken_off": "false"}
	try := func(m map[string]string) map[string]string {
		for k, v := range run {
			m[k] = v
		}
		return who(m, 4)
	}
	assert.Equal(t, []map[string]string{
		who(map[string]string{"program": "0.5", "radio": "Moorland Desk 7", "craft": "Teasel", "arming": "switch", "stick_mode": "2"}, 0),
		who(map[string]string{"refusal": "throttle-up", "times": "2"}, 1),
		who(map[string]string{"radio": "Curlew Field 2", "craft": "Teasel", "arming": "sticks", "stick_mode": "1", "gestures": "course"}, 2),
		who(map[string]string{"lasted_ms": "3000"}, 3),
		try(map[string]string{"try": "1", "case": "0", "verdict": "right", "number": "0", "reaction_ms": "304", "uncertain_ms": "17", "allowed_ms": "1000"}),
		try(map[string]string{"try": "2", "case": "1", "verdict": "wrong", "why": "never-seen", "number": "1", "uncertain_ms": "0", "allowed_ms": "1500"}),
	}, rowsOf(t, &Filter{}, c))
}

func TestFilters(t *testing.T) {
	s := Store{t.TempDir()}
	require.NoError(t, written(t, s, "A", 0, 100).Close())
	c, err := s.all("A")
	require.NoError(t, err)
	first, last := Day(begun.In(zone)), Day(begun.In(zone))+2
	for name, want := range map[string]struct {
		f    Filter
		keep func(e *Entry) bool
	}{
		"all":     {Filter{}, func(*Entry) bool { return true }},
		"drill":   {Filter{Drill: "alarm-by-switch"}, func(e *Entry) bool { return e.Kind == KindDrill }},
		"none":    {Filter{Drill: "alarm"}, func(e *Entry) bool { return false }},
		"verdict": {Filter{Verdict: "wrong"}, func(e *Entry) bool { return e.Kind == KindDrill }},
		"since":   {Filter{Since: &last}, func(e *Entry) bool { return e.Day >= last }},
		"until":   {Filter{Until: &first}, func(e *Entry) bool { return e.Day == first }},
		"between": {Filter{Since: &first, Until: &last}, func(e *Entry) bool { return e.Day <= last }},
	} {
		n := 0
		for i := range c.Entries {
			e := &c.Entries[i]
			assert.Equal(t, want.keep(e), want.f.Keeps(e), "%s: %+v", name, e)
			if want.f.Keeps(e) {
				n++
			}
		}
		if name != "none" {
			assert.NotZero(t, n, name)
		}
		assert.Equal(t, name == "all", want.f.All())
	}
	for _, r := range rowsOf(t, &Filter{Verdict: "wrong"}, c) {
		assert.Equal(t, "wrong", r["verdict"])
		assert.Equal(t, "2", r["try"], "tries keep their numbers")
	}
	assert.Len(t, rowsOf(t, &Filter{Verdict: "wrong"}, c), 20)
}

// No cell begins a formula (the signs are those of OWASP, "CSV Injection", from memory), whatever a name is; and each text can be had back.
func TestNoCellIsAFormula(t *testing.T) {
	for _, s := range []string{"=1+1", "+1", "-1", "@x", "'x", "\tx", "\rx", "\nx", " =1", "＝1", "＋1", "－1", "＠1", "\u00a0=1", "=cmd|' /C calc'!A0", "a;=1", "a,\"b\"", "plain", ""} {
		c := &held{Contents: &Contents{Pupil: s}, Entries: []Entry{Began(begun, Practice{Radio: s, Program: s, Craft: Craft{Name: s, Arming: s, Gestures: s}}),
			{At: begun, Day: 22374, Kind: KindDrill, Drill: Drill{Code: s, Name: s, Tries: []Try{{Verdict: s, Why: s}}}}, {At: begun, Kind: KindRefusals, Counts: map[string]int64{s: 1}}}}
		for _, r := range rowsOf(t, &Filter{}, c) {
			for name, cell := range r {
				assert.NotRegexp(t, `^[\s\x{00a0}]*[=+\-@＝＋－＠]`, cell, name)
				assert.NotContains(t, "\t\r\n", cell[:1], name)
			}
			assert.Equal(t, s, strings.TrimPrefix(r["pupil"], "'"))
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "cell")
		c := &held{Contents: new(Contents), Entries: []Entry{{At: time.Unix(0, 0).UTC(), Kind: KindBegan, Practice: Practice{Radio: s}}}}
		got := rowsOf(t, &Filter{}, c)[0]["radio"]
		// encoding/csv gives the end of a line inside a cell as \n.
		if want := strings.ReplaceAll(s, "\r\n", "\n"); strings.TrimPrefix(got, "'") != want {
			t.Fatalf("%q comes back as %q", s, got)
		}
	})
}
