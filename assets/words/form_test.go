package words

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every form of every message comes to what the standard library's text/template makes of it, whichever of its values are there or empty.
func TestFormsComeToWhatTemplatesDo(t *testing.T) {
	name, tried := regexp.MustCompile(`\.([a-zA-Z_]+)`), 0
	for _, tag := range Languages() {
		for _, m := range Messages(tag) {
			for _, src := range []string{m.One, m.Other} {
				f := readForm(src)
				if src == "" {
					require.Nil(t, f)
					continue
				}
				reference, err := Template(src)
				require.NoError(t, err, m.ID)
				var names []string
				for _, n := range name.FindAllStringSubmatch(src, -1) {
					names = append(names, n[1])
				}
				for some := range 8 { // each name's place in its message, so that neighbours differ
					values := map[string]any{}
					for i, n := range names {
						values[n] = ""
						if some>>(i%3)&1 == 1 {
							values[n] = "wörter " + n
						}
					}
					var want strings.Builder
					require.NoError(t, reference.Execute(&want, values), m.ID)
					have, err := f.say(values)
					require.NoError(t, err, m.ID)
					require.Equal(t, want.String(), have, "%s: %v", m.ID, values)
					tried++
				}
				for _, flag := range []any{true, false} { // a flag chooses, and is never written
					values := map[string]any{}
					for _, n := range names {
						values[n] = flag
					}
					var want strings.Builder
					_ = reference.Execute(&want, values)
					if have, err := f.say(values); err == nil {
						require.Equal(t, want.String(), have, m.ID)
					}
				}
			}
		}
	}
	assert.Greater(t, tried, 20000)
}

// What a message may not ask for is a fault that is seen, as is what it was not given.
func TestWhatNoMessageMayDo(t *testing.T) {
	values := map[string]any{"a": "x", "flag": true, "none": nil}
	for _, src := range []string{
		"{{.b}}", "{{.flag}}", "{{.none}}", "{{.a.b}}", "{{up .flag}}", "{{up .a .a}}", "{{not .a .a}}", "{{range .a}}{{end}}", "{{.a | up}}", "{{$x := .a}}",
		"{{up}}", "{{printf .a}}", "{{if .b}}{{end}}", "{{if up .b}}{{end}}", "{{.}}", "{{.a", "{{if .a}}{{.b}}{{end}}", "{{if (.a)}}{{up (.b)}}{{end}}", "{{.a .a}}",
	} {
		_, err := readForm(src).say(values)
		assert.Error(t, err, src)
	}
	s, err := readForm(`{{if and .a (not .flag)}}n{{else if or .flag .b}}{{up (low .a)}}{{- /* no more */ -}}  {{end}}`).say(values)
	require.NoError(t, err)
	assert.Equal(t, "X", s)
}
