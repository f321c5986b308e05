package yamldoc

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Every word that YAML 1.1 (yaml.org/type/bool.html, null.html, int.html,
// float.html; the last three from memory) or the core schema of YAML 1.2.2
// (section 10.3.2, from memory) takes for something else than a text.
var trapWords = strings.Fields(`y Y yes Yes YES n N no No NO true True TRUE false False FALSE on On ON off Off OFF
	~ null Null NULL 0777 010 0o14 0x1F 0b101 1:30 190:20:30 685_230 1e3 6.8523015e+5 .5 5. .inf -.Inf +.INF .nan .NaN .NAN
	2001-12-14 2001-12-14T21:59:43.10-05:00 = 1_000.5 -0 +12 12e03`)

func TestScalarsAreWhatIsWritten(t *testing.T) {
	for _, w := range trapWords {
		for _, form := range []string{w, "'" + w + "'", `"` + w + `"`} {
			d := parse(t, "- "+form+"\n- {k: "+form+"}\n- "+form+": 1\n")
			items := d.Root().List()
			a, _ := items[0].Text()
			b, _ := items[1].Map("yaml.group").Need("k").Text()
			c, _ := items[2].Map("yaml.group").Keys()[0].Text()
			if a != w || b != w || c != w || d.Err() != nil {
				t.Errorf("%s read as %q, %q and %q (%v)", form, a, b, c, d.Err())
			}
		}
	}
	d := parse(t, "on: off\n")
	m := d.Root().Map("yaml.file")
	if w, ok := m.Need("on").Word("on", "off"); !ok || w != "off" {
		t.Errorf("on: off gave %q", w)
	}
}

// one gives a reader the scalar that is written as value, and what was noted.
func one[T any](t *testing.T, value string, read func(Node) (T, bool)) string {
	t.Helper()
	d := parse(t, "- "+value+"\n")
	v, ok := read(d.Root().List()[0])
	if err := d.Err(); ok != (err == nil) {
		t.Errorf("%s: ok %v and error %v", value, ok, err)
	} else if err != nil {
		return strings.TrimPrefix(err.Error(), "f:1:3: ")
	}
	return fmt.Sprint(v)
}

func TestInt(t *testing.T) {
	for in, want := range map[string]string{
		"5": "5", "'5'": "5", "+5": "5", "-20": "-20", "0": "0", "-0": "0",
		"101":                   "`101` is above 100: write a value from -20 to 100",
		"-21":                   "`-21` is below -20: write a value from -20 to 100",
		"99999999999999999999":  "`99999999999999999999` is above 100: write a value from -20 to 100",
		"-99999999999999999999": "`-99999999999999999999` is below -20: write a value from -20 to 100",
		"5.0":                   "`5.0` is not a whole number: write it without a point",
		"010":                   "`010` begins with a 0, which some readers take for another number: write it without",
		"0777":                  "`0777` begins with a 0, which some readers take for another number: write it without",
		"0x1F":                  "`0x1F` is not a decimal number: write it in ordinary digits",
		"0o17":                  "`0o17` is not a decimal number: write it in ordinary digits",
		"0b11":                  "`0b11` is not a decimal number: write it in ordinary digits",
		"1e3":                   "`1e3` has an exponent: write the number out in full",
		"-1.5E+3":               "`-1.5E+3` has an exponent: write the number out in full",
		"1_000":                 "`1_000` has a mark between its digits: write the digits without it",
		"1:30":                  "`1:30` is not a number: write digits, such as 12 or 12.5",
		"true":                  "`true` is not a number: write digits, such as 12 or 12.5",
		"~":                     "`~` is not a number: write digits, such as 12 or 12.5",
		".inf":                  "`.inf` is no number to count with: write digits",
		"-.INF":                 "`-.INF` is no number to count with: write digits",
		".nan":                  "`.nan` is no number to count with: write digits",
		"--5":                   "`--5` has more than one sign: write a number such as -12.5",
		"−5":                    "`−5` begins with a dash that is no minus sign: write the minus sign as -",
		"1,5":                   "`1,5` has a comma: write a point before the part behind the units, and nothing between thousands",
		"5 us":                  "`5 us` is not a number: write digits, such as 12 or 12.5",
		"''":                    "nothing is written here: write a number",
		"٣":                     "`٣` is not a number: write digits, such as 12 or 12.5",
	} {
		if got := one(t, in, func(n Node) (int, bool) { return n.Int(-20, 100) }); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestNumber(t *testing.T) {
	for in, want := range map[string]string{
		"0.3": "0.3", "1": "1", "-1": "-1", "+0.25": "0.25", "1.0": "1",
		"1.01":                         "`1.01` is above 1: write a value from -1 to 1",
		"-2":                           "`-2` is below -1: write a value from -1 to 1",
		".5":                           "`.5` lacks a digit beside its point: write a number such as 0.5",
		"5.":                           "`5.` lacks a digit beside its point: write a number such as 0.5",
		".":                            "`.` lacks a digit beside its point: write a number such as 0.5",
		"00.5":                         "`00.5` begins with a 0, which some readers take for another number: write it without",
		"1.2.3":                        "`1.2.3` has two points: write a number such as 12.5",
		"0." + strings.Repeat("1", 39): "`0.1111111111111111111111111111111111111…` is too long for a number: write at most 40 digits",
	} {
		if got := one(t, in, func(n Node) (float64, bool) { return n.Number(-1, 1) }); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestWord(t *testing.T) {
	for in, want := range map[string]string{
		"hold": "hold", "'hold'": "hold",
		"holt": "`holt` cannot stand here: did you mean `hold`? write silent, hold or preset",
		"Hold": "`Hold` cannot stand here: did you mean `hold`? write silent, hold or preset",
		"cut":  "`cut` cannot stand here: write silent, hold or preset",
	} {
		if got := one(t, in, func(n Node) (string, bool) { return n.Word("silent", "hold", "preset") }); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestDuration(t *testing.T) {
	for in, want := range map[string]string{
		"2.5s": "2.5s", "300ms": "300ms", "300 ms": "300ms", "1min": "1m0s", "0.5 min": "30s", "1500us": "1.5ms", "1500 µs": "1.5ms", "1500 μs": "1.5ms", "0s": "0s", "0.000000001s": "1ns",
		"2":              "`2` has no unit: write `2s` or `2ms`",
		"2.5":            "`2.5` has no unit: write `2.5s` or `2.5ms`",
		"61s":            "`61s` is above 60s: write a value from 0s to 60s",
		"-1s":            "`-1s` is below 0s: write a value from 0s to 60s",
		"9999999999999h": "`9999999999999h` is above 60s: write a value from 0s to 60s",
		"0.0000000001s":  "`0.0000000001s` is finer than a nanosecond: write fewer digits",
		"2 sec":          "`sec` is no unit that can stand here: write a number with its unit, such as `2 µs`, `2ms`, `2s`, `2 min` or `2 h`",
		"2S":             "`S` is no unit that can stand here: did you mean `s`? write a number with its unit, such as `2 µs`, `2ms`, `2s`, `2 min` or `2 h`",
		"1m30s":          "`m30s` is no unit that can stand here: write a number with its unit, such as `2 µs`, `2ms`, `2s`, `2 min` or `2 h`",
		"soon":           "`soon` is not a number: write digits, such as 12 or 12.5; write a number with its unit, such as `2 µs`, `2ms`, `2s`, `2 min` or `2 h`",
		"2,5s":           "`2,5` has a comma: write a point before the part behind the units, and nothing between thousands",
		"1e3s":           "`e3s` is no unit that can stand here: write a number with its unit, such as `2 µs`, `2ms`, `2s`, `2 min` or `2 h`",
		"010s":           "`010` begins with a 0, which some readers take for another number: write it without",
	} {
		if got := one(t, in, func(n Node) (time.Duration, bool) { return n.Duration(0, time.Minute) }); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestQuantity(t *testing.T) {
	units := map[string]float64{"deg": 1, "rad": 180 / math.Pi}
	for in, want := range map[string]string{
		"40 deg": "40", "40deg": "40", "-0.5 deg": "-0.5", "1 rad": "57.29577951308232",
		"40":     "`40` has no unit: write `40 deg` or `40 rad`",
		"4 rad":  "`4 rad` is above 3.14159 rad: write a value from -3.14159 rad to 3.14159 rad",
		"40 dge": "`dge` is no unit that can stand here: did you mean `deg`? write a number with its unit, such as `2 deg` or `2 rad`",
		"40 %":   "`%` is no unit that can stand here: write a number with its unit, such as `2 deg` or `2 rad`",
	} {
		if got := one(t, in, func(n Node) (float64, bool) { return n.Quantity(units, -180, 180) }); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
}

func TestAmount(t *testing.T) {
	read := func(n Node) (string, bool) {
		d, u, ok := n.Amount("", "%", "us")
		return d.String() + "|" + u, ok
	}
	for in, want := range map[string]string{
		"1500": "1500|", "35 %": "35|%", "+100%": "+100|%", "-100 %": "-100|%", "1500.125 us": "1500.125|us",
		"low": "`low` is not a number: write digits, such as 12 or 12.5; write a number with its unit, such as `2`, `2 %` or `2 µs`",
	} {
		if got := one(t, in, read); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
	for in, want := range map[string]bool{"5": true, "-5 %": true, "−5": true, ".5": true, "low": false, "-": false, "'5'": true, "": false, "[5]": false, ".x": false} {
		if got := parse(t, "- "+in+"\n").Root().List()[0].StartsNumber(); got != want {
			t.Errorf("StartsNumber %q: %v", in, got)
		}
	}
}

func TestFixed(t *testing.T) {
	for in, want := range map[string]string{
		"1500.125": "12001", "1500": "12000", "1500.5 us": "12004", "1500.875µs": "12007", "1500.1250": "12001", "860": "6880", "2180": "17440",
		"1500.1":                     "`1500.1` lies between two steps of 1/8: write `1500 µs` or `1500.125 µs`",
		"1500.126":                   "`1500.126` lies between two steps of 1/8: write `1500.125 µs` or `1500.25 µs`",
		"859.875":                    "`859.875` is below 860 µs: write a value from 860 µs to 2180 µs",
		"2180.125":                   "`2180.125` is above 2180 µs: write a value from 860 µs to 2180 µs",
		"1500 ms":                    "`ms` is no unit that can stand here: write `1500 µs` or `1500`",
		"99999999999999999999999999": "`99999999999999999999999999` is above 2180 µs: write a value from 860 µs to 2180 µs",
		"0x5DC":                      "`0x5DC` is not a decimal number: write it in ordinary digits",
	} {
		if got := one(t, in, func(n Node) (int64, bool) { return n.Fixed("us", 8, 860*8, 2180*8) }); got != want {
			t.Errorf("%s:\n got %s\nwant %s", in, got, want)
		}
	}
	if got := one(t, "-0.3", func(n Node) (int64, bool) { return n.Fixed("", 2, -10, 10) }); got != "`-0.3` lies between two steps of 1/2: write `-0.5` or `0`" {
		t.Error(got)
	}
	if got := one(t, "3 us", func(n Node) (int64, bool) { return n.Fixed("", 2, -10, 10) }); got != "`3 us` has a unit where none can stand: write `3`" {
		t.Error(got)
	}
}

// Against math/big: a decimal is accepted exactly when it is a whole number of
// parts in range, and the number of parts is then exact.
func TestFixedIsExact(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringMatching(`-?(0|[1-9][0-9]{0,15})(\.[0-9]{1,6})?`).Draw(rt, "text")
		scale := rapid.SampledFrom([]int{1, 2, 3, 8, 10, 1000, 1024}).Draw(rt, "scale")
		lo := rapid.Int64Range(-1<<55, 0).Draw(rt, "lo")
		hi := rapid.Int64Range(0, 1<<55).Draw(rt, "hi")
		d, err := Parse("f", []byte(text))
		if err != nil {
			rt.Fatal(err)
		}
		got, ok := d.Root().Fixed("", scale, lo, hi)
		want, good := new(big.Rat).SetString(text)
		if !good {
			rt.Fatalf("reference cannot read %s", text)
		}
		want.Mul(want, big.NewRat(int64(scale), 1))
		inside := want.Cmp(big.NewRat(lo, 1)) >= 0 && want.Cmp(big.NewRat(hi, 1)) <= 0
		if ok != (inside && want.IsInt()) {
			rt.Fatalf("%s in 1/%d: ok %v (%v)", text, scale, ok, d.Err())
		}
		if ok && new(big.Rat).SetInt64(got).Cmp(want) != 0 {
			rt.Fatalf("%s in 1/%d: %d, want %s", text, scale, got, want)
		}
		if ok == (d.Err() != nil) {
			rt.Fatalf("%s: ok %v and error %v", text, ok, d.Err())
		}
	})
}

// What durations are shown as in messages is read back as the same.
func TestDurationText(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		want := time.Duration(rapid.Int64Range(-1<<50, 1<<50).Draw(rt, "ns"))
		if rapid.Bool().Draw(rt, "whole ms") {
			want = want.Truncate(time.Millisecond)
		}
		d, err := Parse("f", []byte(durationText(want)))
		if err != nil {
			rt.Fatal(err)
		}
		if got, ok := d.Root().Duration(math.MinInt64, math.MaxInt64); !ok || got != want {
			rt.Fatalf("%s: %v, want %v (%v)", durationText(want), got, want, d.Err())
		}
	})
}
