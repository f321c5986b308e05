package propsoff_test

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/assets/words"
	"propsoff.example/gestures/menu"
	"propsoff.example/gestures/patternfile"
	"propsoff.example/sim/drill/drillfile"
)

// shippedTexts are the texts that a person reads of every shipped drill, course, gesture and menu, by file as words.Shipped has it.
func shippedTexts(t *testing.T) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	note := func(file string, texts ...string) {
		if out[file] == nil {
			out[file] = map[string]bool{}
		}
		for _, s := range texts {
			if s != "" {
				out[file][s] = true
			}
		}
	}
	name, data, ok := assets.Gestures("examples")
	require.True(t, ok)
	g, err := patternfile.Parse(name, data, 20)
	require.NoError(t, err)
	for _, p := range g.Gestures.Patterns {
		note("gestures/"+p.Code, p.Name)
	}
	for _, m := range g.Menus.Menus {
		note("gestures/"+m.Code, m.Name)
	}
	for i, it := range g.Menus.Items {
		if it.Kind == menu.Out {
			continue // stands in no file
		}
		file := "gestures/" + g.Menus.Menus[g.Menus.MenuOf(i)].Code
		note(file, it.Name)
		note(file, it.Choices...)
		if it.Unit != "deg" && it.Unit != "deg/s" { // they have signs
			note(file, it.Unit)
		}
	}
	for _, code := range assets.Drills() {
		name, data, _ := assets.Drill(code)
		d, err := drillfile.Parse(name, data, drillfile.Known{Gestures: &g.Gestures, Menus: &g.Menus})
		require.NoError(t, err)
		note("drills/"+code, d.Name, d.About, d.Caution, d.Source)
		for _, w := range d.Cases {
			note("drills/"+code, append(slices.Concat(w.Before, w.Choices, w.Wants, w.Nevers), w.Say, w.After)...)
		}
	}
	for _, code := range assets.Scripts() {
		_, data, _ := assets.Script(code)
		name := scriptName.FindSubmatch(data)
		require.NotNil(t, name, code)
		note("scripts/names", string(name[1]))
	}
	for _, code := range assets.Courses() {
		name, data, _ := assets.Course(code)
		c, err := drillfile.ParseCourse(name, data)
		require.NoError(t, err)
		note("courses/"+code, c.Name, c.About)
		for _, chapter := range c.Chapters {
			note("courses/"+code, chapter.Name)
		}
	}
	return out
}

var (
	scriptName    = regexp.MustCompile(`(?m)^name: (.+)$`)
	shippedNumber = regexp.MustCompile(`\d+(?:[.,]\d+)?`)
	shippedEnd    = regexp.MustCompile(`[.!?:]?$`)
)

// Every language has each text of what ships and no other; each says the same numbers as the English, and ends as it does, as a sentence, a
// question or a call.
func TestShippedTextsAreSaidInEveryLanguage(t *testing.T) {
	all := shippedTexts(t)
	count := 0
	for _, tag := range words.Languages()[1:] {
		own := words.ShippedIn(tag)
		for file := range own {
			assert.NotNil(t, all[file], "%s: no %s ships", tag, file)
		}
		for _, file := range slices.Sorted(maps.Keys(all)) {
			assert.Equal(t, slices.Sorted(maps.Keys(all[file])), slices.Sorted(maps.Keys(own[file])), "%s: texts of %s", tag, file)
			for english, said := range own[file] {
				count++
				assert.NotEmpty(t, strings.TrimSpace(said), "%s: %s: %s", tag, file, english)
				numbers := shippedNumber.FindAllString(strings.ReplaceAll(said, ",", "."), -1)
				assert.ElementsMatch(t, shippedNumber.FindAllString(english, -1), numbers, "%s: %s: numbers of %s", tag, file, english)
				assert.Equal(t, shippedEnd.FindString(english), shippedEnd.FindString(said), "%s: %s: the end of %s", tag, file, english)
			}
		}
		book := words.In(tag.String())
		for file, texts := range all {
			for english := range texts {
				assert.Equal(t, own[file][english], book.Say(words.Shipped(file, english)))
				assert.Equal(t, english, words.English().Say(words.Shipped(file, english)))
			}
		}
	}
	assert.Greater(t, count, 250)
}
