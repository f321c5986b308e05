//go:build unix

package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/drillrun"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/gestures"
	"propsoff.example/input/check"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
	"propsoff.example/input/usb"
	"propsoff.example/sim"
	"propsoff.example/sim/arming"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/lossmap"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
	"propsoff.example/sim/pulse"
)

// unknown is what tables say of a number that they do not have.
var unknown = regexp.MustCompile(`^(|unknown|-?\d+|[a-z-]+ -?\d+)$`)

// every is all code words that a table of the program has.
func every[T ~uint8 | ~int](code func(T) string) (all []string) {
	for n := range 256 {
		if w := code(T(n)); !unknown.MatchString(w) && !slices.Contains(all, w) {
			all = append(all, w)
		}
	}
	return all
}

// first is the code words of the first n numbers, of a table that takes no others.
func first[T ~uint8 | ~int](n T, code func(T) string) (all []string) {
	for i := T(0); i < n; i++ {
		if w := code(i); w != "" {
			all = append(all, w)
		}
	}
	return all
}

// mayStand are the code words that may stand in each field of a command's lines, from the program's own tables, by field as the schema's paths have it; before
// a slash stands the code of the one line that it is about.
func mayStand() map[string]map[string][]string {
	modes, refusals, origins := every(codes.Mode), codes.Why(^arming.Set(0)), every(codes.Origin)
	hand := map[string][]string{"axis": every(codes.Axis), "mode": modes}
	events := codes.Events(^prove.Event(0))
	zones, touches := first(4, codes.ZoneWord), first(4, codes.Touch)
	places := first(happening.Broken+1, codes.Place)
	happened := map[string][]string{
		"armed/by": origins[1:], "cause": every(codes.Cause), "why[]": refusals, "set_up_by[]": codes.SetUpBy(^happening.SetUp(0)), "where": places, "mode/mode": modes, "from": modes,
		"menu": every(codes.Menu), "bench": benches(), "fitted[]": codes.Hands([4]int8{-1, 0, 1, 1})[:3], "broke/by[]": codes.Broke(^happening.Breakage(0)),
		"job": jobs(), "near": nears(), "control": controls(), "did": every(codes.Deed),
	}
	with := func(more map[string][]string) map[string][]string {
		maps.Copy(more, happened)
		return more
	}
	var verdicts []string
	english := wordstest.Books()[0]
	for v := range drill.Verdict(drill.Verdicts) {
		if t := tell.VerdictWord(v); !t.Empty() {
			verdicts = append(verdicts, english.Say(t))
		}
	}
	asks, abouts, showed := first(examine.AskCount, examine.Ask.Code), first(examine.AboutCount, examine.About.Code), first(examine.VerdictCount, examine.Verdict.Code)
	ways := []string{}
	for _, way := range []string{usb.WayEvent, usb.WayClassic, usb.WayPortable, usb.WayBrowser} {
		ways = append(ways, codes.Way(way), codes.Way(way+usb.WithEngine))
	}
	checks := map[string][]string{"asks": every(check.Ask.Code)}
	for _, in := range []string{"", "items[]."} {
		maps.Copy(checks, map[string][]string{in + "item": every(check.Kind.Code), in + "verdict": every(check.Verdict.Code), in + "unit": every(check.Unit.Code),
			in + "must_be": every(check.Side.Code), in + "matters": every(check.Why.Code), in + "do": every(check.Cure.Code)})
	}
	checks["items[].code"] = []string{"check-item"}
	proofs := every(prove.Verdict.Code)
	onOff := []string{"off", "on"}
	var kinds []string
	for _, k := range logbook.Kinds() {
		kinds = append(kinds, string(k))
	}
	return map[string]map[string][]string{
		"check": checks,
		"learn": {"question": every(codes.LearnQuestion), "step": every(codes.LearnStep), "phase/phase": every(codes.LearnPhase), "enough": append(every(codes.LearnEnough), ""), "notice": every(codes.LearnNotice),
			"can[]": terminal.Can(&learn.View{Enough: learn.TakeIt, CanBack: true, CanSkip: true, Question: learn.StickMode, Trying: true, CanClick: true, Answers: []radio.Control{{Form: radio.Button}}})},
		"prove": {"rule": every(prove.Rule.Code), "outcome": every(prove.Outcome.Code), "cause": every(prove.Cause.Code), "searched/verdict": proofs, "mend/verdict": proofs, "taken/verdict": proofs,
			"mends/verdict": every(mend.Verdict.Code), "likeness": every(prove.Likeness.Code), "in[]": codes.Parts(^prove.Part(0)), "not_compared[]": codes.Apart(^prove.Apart(0)),
			"changes[].kind": every(mend.Kind.Code), "changes[].positions[]": append(slices.Clone(modes), onOff...), "steps[].does": every(codes.Step), "steps[].then[]": events,
			"steps[].a.then[]": events, "steps[].b.then[]": events, "ends.happens": codes.Happenings(), "ends.link": every(codes.Link), "ends.mode": modes, "a.mode": modes, "b.mode": modes,
			"a.refused[]": refusals, "b.refused[]": refusals, "places[].mode": modes, "places[].refused[]": refusals, "noise[].layout": {"a", "b"}, "exclude[]": every(prove.Rule.Code)},
		"radios":        {"way": ways},
		"run":           with(map[string][]string{"hands": every(codes.OtherHands), "throttle": every(codes.Gas), "each[].hands": every(codes.OtherHands), "each[].throttle": every(codes.Gas), "never[]": every(codes.OtherHands)}),
		"watch":         with(map[string][]string{"hears": codes.Hearings(), "link": every(codes.Link), "refusals[]": refusals, "values/mode": modes}),
		"gestures":      gestureWords(zones, touches),
		"link-loss":     {"cause": happened["cause"], "receiver": every(codes.OnLoss), "refusals[]": refusals, "stored": terminal.StoredWords(), "point/throttle": first(lossmap.Throttles, tell.MapThrottleCode)},
		"drill list":    {},
		"drill foresee": {"ask": asks, "about": abouts, "verdict": showed, "beliefs[].ask": asks, "beliefs[].about": abouts},
		"drill run":     {"verdict": verdicts, "axis": hand["axis"], "mode": modes},
		"logbook": {"kind": kinds, "tries[].verdict": codes.Verdicts(), "tries[].why": every(codes.WhyCode), "craft.arming": {"switch", "sticks"}, "hands[]": (&drillrun.Result{Radio: true, Keyboard: true}).Hands(),
			"came_in": every(drillrun.Other.Code), "tries[].hand.axis": hand["axis"], "tries[].hand.mode": modes, "ask": asks, "about": abouts, "showed": showed},
		"version": {},
	}
}

func benches() (all []string) {
	for at := pulse.OnDesk; at <= pulse.HeightHeld; at++ {
		all = append(all, codes.Bench(int32(at)))
	}
	return append(all, codes.Bench(pulse.HoverAt(3000)))
}

// jobs are those that a channel of the shipped craft has.
func jobs() (all []string) {
	cfg := sim.Default()
	for _, on := range []int8{cfg.Layout.Throttle, cfg.Layout.Roll, cfg.Layout.Pitch, cfg.Layout.Yaw} {
		all = append(all, codes.Job(&cfg.Layout, int(on)))
	}
	return all
}

func nears() []string {
	cfg := sim.Default()
	return every(func(n int) string { way, _ := codes.NearOf(0, int32(n), &cfg); return way })
}

// controls are what a gesture that was nearly made is about: jobs, or sticks whatever they carry.
func controls() (all []string) {
	for _, physical := range []bool{false, true} {
		cfg := sim.Config{Gestures: &gestures.Config{Patterns: []gestures.Pattern{{Physical: physical}}}}
		for direction := range int32(4) {
			_, control := codes.NearOf(0, int32(happening.NearCorner)|direction<<8, &cfg)
			all = append(all, control)
		}
	}
	return all
}

func gestureWords(zones, touches []string) map[string][]string {
	all := map[string][]string{"by": {"job", "stick"}, "arm_corner": touches, "disarm_corner": touches}
	for _, direction := range []string{"left_across", "left_up", "right_across", "right_up", "throttle", "roll", "pitch", "yaw"} {
		all["parts[]."+direction] = zones
	}
	return all
}

// freeText are the fields with sentences, names of the pilot's own, numbers and times as text: of these a schema knows no more than that they are strings.
var freeText = regexp.MustCompile(`(^|[._])(text|says|says_back|say|then|name|about|called|first|file|path|port|serial|vendor|product|radio|craft|pupil|drill|gesture|menu|item|value|opens|job|` +
	`digest|expected|seen|note|at|day|begun|last|seed|program|gestures|question|lever|script|instructor|radio_file|craft_file|number|us|was|is|why|hand|id|control|` +
	`version|commit|date|go|os|arch|number|axis|channel)$|` +
	`(texts|answers|notes|choices|called_out|positions|there|turned|left|cleared|tags)\[\]$`)

// walk calls see for every part of a schema, with its path.
func walk(schema map[string]any, path string, see func(path string, part map[string]any)) {
	see(path, schema)
	if items, ok := schema["items"].(map[string]any); ok {
		walk(items, path+"[]", see)
	}
	props, _ := schema["properties"].(map[string]any)
	for name, part := range props {
		walk(part.(map[string]any), strings.TrimPrefix(path+"."+name, "."), see)
	}
}

// enumerate writes into a kind of line which words may stand in its fields, as the program's tables have them.
func enumerate(command, code string, kind map[string]any) {
	may := mayStand()[command]
	walk(kind, "", func(path string, part map[string]any) {
		words := may[code+"/"+path]
		if words == nil {
			words = may[path]
		}
		if words == nil || part["type"] == "array" || part["type"] == "integer" || part["type"] == "boolean" {
			return
		}
		part["enum"] = asAny(words)
		if types, ok := part["type"].([]string); ok && slices.Contains(types, "null") {
			part["enum"] = append(asAny(words), nil)
		}
	})
}

func asAny(words []string) []any {
	all := make([]any, len(words))
	for i, w := range words {
		all[i] = w
	}
	return all
}

// Each field of every schema that has code words lists just those of the program's own tables, and every other is known to hold free text. With -update the
// test of the lines writes them anew.
func TestSchemasListTheWordsOfTheTables(t *testing.T) {
	tables := mayStand()
	for command, may := range tables {
		listed := map[string]bool{}
		for _, one := range schemaDoc(t, command)["anyOf"].([]any) {
			kind := one.(map[string]any)
			code, _ := kind["properties"].(map[string]any)["code"].(map[string]any)
			of, _ := code["const"].(string)
			walk(kind, "", func(path string, part map[string]any) {
				is := of + "/" + path
				if may[is] == nil {
					is = path
				}
				words, holds := may[is], part["type"] == "string" || strings.Contains(strings.Join(typesOf(part), " "), "string")
				switch {
				case holds && words != nil:
					listed[is] = true
					var has []string
					for _, w := range part["enum"].([]any) {
						if w != nil {
							has = append(has, w.(string))
						}
					}
					assert.Equal(t, words, has, "%s: %s/%s: run TestEveryJSONLine with -update", command, of, path)
				case holds:
					assert.Regexp(t, freeText, path, "%s: %s: a field with words that stands in no table", command, of)
					assert.NotContains(t, part, "enum", "%s: %s/%s", command, of, path)
				}
			})
		}
		for is := range may {
			assert.True(t, listed[is], "%s: no line has the field %s", command, is)
		}
	}
}

func typesOf(part map[string]any) (all []string) {
	types, _ := part["type"].([]any)
	for _, one := range types {
		all = append(all, one.(string))
	}
	return all
}

// schemaDoc is the schema of a command's lines.
func schemaDoc(t *testing.T, command string) map[string]any {
	t.Helper()
	text, err := os.ReadFile(schemaOf(command))
	require.NoError(t, err, "%s: run TestEveryJSONLine with -update, and look at what it writes", command)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	require.NoError(t, err)
	return doc.(map[string]any)
}

// Every command with --json has a schema, and there is none of another.
func TestEveryCommandWithJSONHasASchema(t *testing.T) {
	w, _, _ := testWorld(t)
	var with []string
	var look func(c *cobra.Command, path string)
	look = func(c *cobra.Command, path string) {
		if c.LocalNonPersistentFlags().Lookup("json") != nil {
			with = append(with, path)
		}
		for _, under := range c.Commands() {
			look(under, strings.TrimSpace(path+" "+under.Name()))
		}
	}
	look(newRoot(w), "")
	assert.ElementsMatch(t, with, slices.Collect(maps.Keys(mayStand())))
	var there []string
	files, err := filepath.Glob(filepath.Join("..", "..", "docs", "schemas", "*.json"))
	require.NoError(t, err)
	for _, f := range files {
		there = append(there, strings.TrimSuffix(filepath.Base(f), ".schema.json"))
	}
	for i, path := range with {
		with[i] = strings.ReplaceAll(path, " ", "-")
	}
	assert.ElementsMatch(t, with, there)
}

// Every code that the program's sources write into a line is one of a schema, and the schemas have no other.
func TestSchemasHaveTheCodesOfTheSources(t *testing.T) {
	has := map[string]bool{}
	for command := range mayStand() {
		for _, one := range schemaDoc(t, command)["anyOf"].([]any) {
			code, _ := one.(map[string]any)["properties"].(map[string]any)["code"].(map[string]any)
			if word, ok := code["const"].(string); ok {
				has[word] = true
			}
		}
	}
	written := map[string]bool{"difference": true, "model-changed": true} // chosen in a variable
	for _, word := range codes.Happenings() {
		written[word] = true
	}
	for _, room := range []string{"terminal", "termlive"} {
		for _, word := range codesIn(t, filepath.Join("internal", room)) {
			written[word] = true
		}
	}
	delete(written, "note") // a line of text only
	assert.Equal(t, slices.Sorted(maps.Keys(written)), slices.Sorted(maps.Keys(has)))
}

// codesIn are the codes of lines that the sources of a package name: what follows "code" in a list of fields, and what is given to the functions that write a line.
func codesIn(t *testing.T, dir string) (all []string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	text := func(e ast.Expr) string {
		lit, ok := e.(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return ""
		}
		s, _ := strconv.Unquote(lit.Value)
		return s
	}
	list := func(of []ast.Expr) {
		for i := range of {
			if i > 0 && text(of[i-1]) == "code" && text(of[i]) != "" {
				all = append(all, text(of[i]))
			}
		}
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CompositeLit:
				list(n.Elts)
			case *ast.CallExpr:
				list(n.Args)
				if to, ok := n.Fun.(*ast.SelectorExpr); ok && slices.Contains([]string{"line", "at", "say"}, to.Sel.Name) {
					for _, arg := range n.Args[:min(3, len(n.Args))] {
						if word := text(arg); word != "" {
							all = append(all, word)
							break
						}
					}
				}
			}
			return true
		})
	}
	return all
}
