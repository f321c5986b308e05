//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/lookup"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/input"
	"propsoff.example/sim"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/pulse"
)

// schemaOf is where the schema of a command's lines lies: docs/schemas ships it.
func schemaOf(command string) string {
	return filepath.Join("..", "..", "docs", "schemas", strings.ReplaceAll(command, " ", "-")+".schema.json")
}

// lines are lines of JSON by the command that prints them, of every kind that can be had here.
func jsonLines(t *testing.T) map[string][]string {
	all := map[string][]string{}
	add := func(command, out string) {
		for l := range strings.Lines(out) {
			all[command] = append(all[command], strings.TrimSpace(l))
		}
	}
	ran := func(name string, args ...string) {
		_, out, _ := command(t, append(args, "--json")...)
		require.NotEmpty(t, out, "%q", args)
		add(name, out)
	}
	b := newBus()
	desk := found("Moorland Desk 7", "/dev/input/event5", "A")
	b.last[desk.Path] = input.Raw{Axes: [input.MaxAxes]int32{0, 1024, 1024, 1024, 0, 0}}
	b.plug(desk)
	w, out, _ := testWorld(t)
	w.Radios = b
	execute(t.Context(), []string{"radios", "--json"}, w)
	add("radios", out.String())
	ran("radios", "radios")
	for _, file := range []string{"", radioFile(t, radioText)} {
		args := []string{"--json"}
		if file != "" {
			args = append(args, "--radio", file)
		}
		r := startWatch(t, b, nil, args...)
		r.until(t, "Reading Moorland Desk 7")
		time.Sleep(200 * time.Millisecond)
		r.stop(t)
		add("watch", r.out.String())
	}
	// Each kind of happening, with the numbers that bring out its fields and words.
	cfg := sim.Default()
	for c := happening.Code(1); c < happening.CodeCount; c++ {
		all := lookup.Such(c)
		if c == happening.Instructed { // what it did is no number from 0
			all = []happening.Happening{{Code: c, A: int32(pulse.DeedHands), B: 1}, {Code: c, A: int32(pulse.DeedLiftAll)}}
		}
		for _, h := range all {
			h.Tick = 5
			line := string(terminal.Form{JSON: true}.Happening(nil, sim.Model, h, &cfg))
			add("watch", line)
			add("run", line)
		}
	}
	for _, script := range []string{"failing", "refusals", "sink"} {
		ran("run", "run", "testdata/runs/"+script+".yaml")
	}
	ran("run", "run", demoName)
	golden, err := os.ReadFile("testdata/check/faulty.jsonl")
	require.NoError(t, err)
	add("check", string(golden))
	radio, file, _ := checkedRadio(false)
	_, said, _ := checkRun(t, newFastPort(t, radio), &file, "--json")
	add("check", said)
	l := sit(t, nil, "--json")
	l.port.plug(deskInfo("A"))
	l.until("kept")
	l.finish()
	add("learn", l.out.String())
	ran("gestures", "gestures")
	ran("link-loss", "link-loss")
	ran("link-loss", "link-loss", "--map")
	for _, name := range []string{"switch", "gap-between", "second"} {
		ran("prove", "prove", layoutFile(name, "craft"))
	}
	ran("prove", "prove", layoutFile("gap-between", "craft"), "--every-rule", "--elsewhere")
	ran("prove", "prove", layoutFile("gap-between", "craft"), "--mend")
	ran("prove", "prove", layoutFile("switch", "craft"), layoutFile("gap-between", "craft"))
	ran("drill list", "drill", "list")
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	ran("drill foresee", "drill", "foresee", "--questions", "2", "--seed", "3")
	for _, out := range [][]string{drillTold(t, `"code":"verdict"`, "find-throttle"), drillTold(t, `"code":"mark"`, "follow-yaw")} {
		all["drill run"] = append(all["drill run"], out...)
	}
	all["drill foresee"] = append(all["drill foresee"], foreseen(t)...)
	all["prove"] = append(all["prove"], proved(t)...)
	all["logbook"] = append(all["logbook"], inLogbook(t)...)
	for name, out := range madeLines() {
		add(name, string(out))
	}
	ran("version", "version")
	folder, _ := keptLogbooks(t)
	ran("logbook", "logbook", "--folder", folder)
	ran("logbook", "logbook", "--folder", folder, "--pupil", "Ann")
	return all
}

// code is the code of a line, empty where it has none.
func codeOf(line any) string {
	code, _ := line.(map[string]any)["code"].(string)
	return code
}

// Every line that a command prints with --json is as its schema in docs/schemas says, and each code and field of it stands there. With -update
// the schemas are written anew from the lines: look at what changed.
func TestEveryJSONLineIsAsItsSchemaSays(t *testing.T) {
	all := jsonLines(t)
	var every func(c *cobra.Command, path string)
	every = func(c *cobra.Command, path string) {
		if c.Flags().Lookup("json") != nil {
			assert.Contains(t, all, path, "a command with --json and no lines here")
		}
		for _, under := range c.Commands() {
			every(under, strings.TrimSpace(path+" "+under.Name()))
		}
	}
	every(newRoot(bareWorld()), "")
	for name, lines := range all {
		var values []any
		for _, l := range lines {
			v, err := jsonschema.UnmarshalJSON(strings.NewReader(l))
			require.NoError(t, err, "%s: %s", name, l)
			values = append(values, v)
		}
		path := schemaOf(name)
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
			text, err := json.MarshalIndent(written(name, values), "", "  ")
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(path, append(text, '\n'), 0o666))
		}
		text, err := os.ReadFile(path)
		require.NoError(t, err, "run this test with -update, and look at what it writes")
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		require.NoError(t, err)
		compiler := jsonschema.NewCompiler()
		compiler.AssertFormat()
		require.NoError(t, compiler.AddResource(path, doc))
		schema, err := compiler.Compile(path)
		require.NoError(t, err, path)
		for i, v := range values {
			require.NoError(t, schema.Validate(v), "%s: %s", name, lines[i])
			told(t, name, doc, v.(map[string]any))
			spoilt(t, name, schema, doc, v.(map[string]any))
		}
	}
}

// kindOf is the part of a schema about a line: that of its code.
func kindOf(doc any, line map[string]any) map[string]any {
	for _, one := range doc.(map[string]any)["anyOf"].([]any) {
		kind := one.(map[string]any)
		props := kind["properties"].(map[string]any)
		code, _ := props["code"].(map[string]any)
		if is, _ := code["const"].(string); is == codeOf(line) {
			return kind
		}
	}
	return nil
}

// told fails for a code or field that the schema does not name.
func told(t *testing.T, name string, doc any, line map[string]any) {
	kind := kindOf(doc, line)
	require.NotNil(t, kind, "%s: the schema has no code %q", name, codeOf(line))
	for field := range line {
		assert.Contains(t, kind["properties"], field, "%s: %s", name, codeOf(line))
	}
}

// spoilt fails where a line could lose a field that is always there, or have something else in it, and nobody would notice.
func spoilt(t *testing.T, name string, schema *jsonschema.Schema, doc any, line map[string]any) {
	for _, field := range kindOf(doc, line)["required"].([]any) {
		was := line[field.(string)]
		delete(line, field.(string))
		assert.Error(t, schema.Validate(line), "%s: %s without %s", name, codeOf(line), field)
		line[field.(string)] = map[string]any{"x": map[string]any{}}
		if _, object := was.(map[string]any); !object {
			assert.Error(t, schema.Validate(line), "%s: %s with another %s", name, codeOf(line), field)
		}
		line[field.(string)] = was
	}
}

// written is a schema of lines, one kind for each code.
func written(name string, values []any) map[string]any {
	by := map[string][]any{}
	for _, v := range values {
		by[codeOf(v)] = append(by[codeOf(v)], v)
	}
	var kinds []any
	for _, code := range slices.Sorted(keysOf(by)) {
		kind := shape(by[code])
		enumerate(name, code, kind)
		if code != "" {
			kind["properties"].(map[string]any)["code"] = map[string]any{"const": code}
		} else {
			kind["not"] = map[string]any{"required": []string{"code"}}
		}
		kinds = append(kinds, kind)
	}
	return map[string]any{
		"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "propsoff " + name + " --json",
		"description": "One line of what “propsoff " + name + " --json” prints. Names of fields and codes are stable; a later version may add to them. Times are whole milliseconds (t_ms), widths are µs, channels, axes, buttons and devices are counted from 1, and texts are English. A field with an “enum” has no other words in this version.",
		"type":        "object", "anyOf": kinds,
	}
}

func keysOf(m map[string][]any) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// shape is a schema that some values have in common.
func shape(values []any) map[string]any {
	kinds := map[string]bool{}
	fields := map[string][]any{}
	var items []any
	for _, v := range values {
		switch v := v.(type) {
		case nil:
			kinds["null"] = true
		case bool:
			kinds["boolean"] = true
		case string:
			kinds["string"] = true
		case json.Number:
			if strings.ContainsAny(v.String(), ".e") {
				kinds["number"] = true
			} else {
				kinds["integer"] = true
			}
		case []any:
			kinds["array"] = true
			items = append(items, v...)
		case map[string]any:
			kinds["object"] = true
			for k, x := range v {
				fields[k] = append(fields[k], x)
			}
		default:
			panic(fmt.Sprintf("%T", v))
		}
	}
	if kinds["number"] {
		delete(kinds, "integer")
	}
	var names []string
	for k := range kinds {
		names = append(names, k)
	}
	slices.Sort(names)
	s := map[string]any{"type": names}
	if len(names) == 1 {
		s["type"] = names[0]
	}
	if kinds["array"] && len(items) > 0 {
		s["items"] = shape(items)
	}
	if kinds["object"] {
		props, required := map[string]any{}, []string{}
		for k, x := range fields {
			props[k] = shape(x)
			if len(x) == len(values) {
				required = append(required, k)
			}
		}
		slices.Sort(required)
		s["properties"], s["required"] = props, required
	}
	return s
}
