package lookup

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/belongings"
	"propsoff.example/cmd/propsoff/internal/codes"
)

var update = flag.Bool("update", false, "write the pages of docs/look-up anew")

// topics are what made has made.
var topics []Topic

// made are the topics, each made once.
func made() []Topic {
	if topics == nil {
		topics = Topics()
		for i := range topics {
			parts := topics[i].Parts()
			topics[i].Parts = func() []Part { return parts }
		}
	}
	return topics
}

// byHand is the one page beside those of topics that somebody writes.
const byHand = "formats.md"

const pages = "../../../../docs/look-up/"

// The pages are what the program says; -update writes them anew. That of commands is made beside the commands.
func TestPagesAreWhatTheProgramSays(t *testing.T) {
	want := map[string]string{}
	for _, b := range wordstest.Books() {
		for _, topic := range made() {
			want[Page(topic.Name, b)] = Markdown(topic, b)
		}
		all := slices.Insert(Topics(), 1, Commands(nil))
		want[Page(indexName, b)] = Index(all, b)
	}
	for name, text := range want {
		if *update {
			require.NoError(t, os.WriteFile(pages+name, []byte(text), 0o600))
		}
		is, err := os.ReadFile(pages + name)
		require.NoError(t, err)
		assert.True(t, text == string(is), "docs/look-up/%s is not what the program says: scripts/tables writes it anew", name)
	}
	there, err := filepath.Glob(pages + "*")
	require.NoError(t, err)
	for _, path := range there {
		name := filepath.Base(path)
		_, ours := want[name]
		assert.True(t, ours || strings.HasPrefix(name, "commands.") || name == byHand, "docs/look-up/%s is no page of a topic", name)
	}
}

// Everything that is looked up is said in every language, and fits a terminal of any width but for words and files that are wider.
func TestTopicsFitATerminal(t *testing.T) {
	for _, b := range wordstest.Books() {
		for _, topic := range made() {
			for _, width := range []int{0, 30, 40, 60, 80, 120, 200} {
				text := Text(topic, b, width)
				assert.NotContains(t, text, "⟦")
				for line := range strings.Lines(text) {
					line = strings.TrimRight(line, "\n")
					if utf8.RuneCountInString(line) > width && width >= 60 {
						assert.True(t, len(strings.Fields(line)) == 1 || inExample(line, topic), "%s, %d: %q", topic.Name, width, line)
					}
					assert.Equal(t, strings.TrimRight(line, " "), line)
				}
			}
		}
	}
}

// inExample tells whether a line is one of a file that a topic shows.
func inExample(line string, topic Topic) bool {
	return slices.ContainsFunc(topic.Parts(), func(p Part) bool { return strings.Contains(p.Example, strings.TrimSpace(line)) })
}

func kinds() []*kind {
	return []*kind{craftKind(), radioKind(), gestureKind(), scriptKind(), drillKind(), courseKind(), soundKind()}
}

// The specimens are right files, and each field is said, with what can stand there but where words stand elsewhere; no message is left over.
func TestEveryFieldIsSaid(t *testing.T) {
	for _, k := range kinds() {
		for _, text := range k.specimens {
			require.NoError(t, k.read([]byte(text)), "%s\n%s", k.name, text)
		}
		used := map[words.ID]bool{}
		for _, f := range k.fields() {
			says := k.means(meaning(f.path))
			used[says.ID()] = true
			for _, b := range wordstest.Books() {
				assert.NotContains(t, b.Say(says), "⟦", "%v", f.path)
			}
			assert.Regexp(t, `^[^\n]+$`, f.such, "%v", f.path)
		}
		family := strings.TrimSuffix(string(k.means("x").ID()), "x")
		for _, m := range words.Messages(words.English().Tag()) {
			if strings.HasPrefix(m.ID, family) {
				assert.True(t, used[words.ID(m.ID)], "%s says a field that is in no specimen", m.ID)
			}
		}
	}
}

// unasked are the groups of which the reader does not list all fields.
var unasked = []string{"start", "steps"}

// A reader that is given a field which it does not know lists those that it does: each of them has its row.
func TestNoFieldIsLeftOut(t *testing.T) {
	asked := 0
	for _, k := range kinds() {
		told := map[string]bool{}
		for _, f := range k.fields() {
			for i := range f.path {
				told[strings.Join(f.path[:i+1], ".")] = true
			}
		}
		for _, text := range k.specimens {
			var doc yaml.Node
			require.NoError(t, yaml.Unmarshal([]byte(text), &doc))
			w := walk{kind: k, text: text}
			eachGroup(doc.Content[0], nil, k, func(n *yaml.Node, path []string) {
				first := n.Content[0]
				from, _ := w.place(first)
				by := "zz-unknown: 1, "
				if n.Style&yaml.FlowStyle == 0 {
					by = "zz-unknown: 1\n" + strings.Repeat(" ", first.Column-1)
				}
				for _, name := range listed(k.read([]byte(text[:from] + by + text[from:]))) {
					at := append(path[:len(path):len(path)], name)
					if k.fold != nil {
						at = k.fold(at)
					}
					asked++
					assert.True(t, len(at) == 0 || told[strings.Join(at, ".")], "%s: %s has no row", k.name, strings.Join(at, "."))
				}
			})
		}
	}
	assert.Greater(t, asked, 300)
}

// eachGroup goes through the groups of a specimen that are told field by field.
func eachGroup(n *yaml.Node, path []string, k *kind, do func(n *yaml.Node, path []string)) {
	switch {
	case n.Kind == yaml.SequenceNode:
		for _, one := range n.Content {
			eachGroup(one, path, k, do)
		}
	case n.Kind != yaml.MappingNode || isPair(n) || len(path) > 0 && slices.Contains(k.whole, path[len(path)-1]):
	default:
		if len(path) == 0 || !slices.Contains(unasked, path[0]) || k.name != "script" {
			do(n, path)
		}
		for i := 0; i < len(n.Content); i += 2 {
			name := n.Content[i].Value
			if len(path) > 0 && slices.Contains(k.free, path[len(path)-1]) {
				name = ownName
			}
			eachGroup(n.Content[i+1], append(path[:len(path):len(path)], name), k, do)
		}
	}
}

// listed are the fields that a refusal of an unknown one lists.
func listed(err error) []string {
	var all words.Problems
	if !errors.As(err, &all) {
		return nil
	}
	for _, p := range all {
		if fields, ok := p.Text.Value("fields").(words.Text); ok && p.Text.ID() == "yaml.unknown-field" && strings.Contains(fmt.Sprint(p.Text.Value("field")), "zz-unknown") {
			return strings.Split(words.English().Say(fields), ", ")
		}
	}
	return nil
}

// Every code word of a refusal and of a happening has its row, and the fields are those that the lines have.
func TestEveryCodeHasItsRow(t *testing.T) {
	rows := map[string][]string{}
	for _, p := range codeWords() {
		for _, cells := range p.Rows {
			for i, c := range cells {
				if len(c.Codes) > 0 && rows[c.Codes[0]] == nil {
					rows[c.Codes[0]] = append([]string{}, cells[min(i+1, len(cells)-1)].Codes...)
					break
				}
			}
		}
	}
	for _, code := range append(codes.Refusals(), codes.Happenings()...) {
		assert.NotNil(t, rows[code], code)
	}
	assert.Equal(t, []string{"why", "set_up_by"}, rows["refused"])
	assert.Equal(t, []string{"channel", "job", "lowest_us", "highest_us"}, rows["travel-short"])
	assert.Equal(t, []string{"bench", "height_m"}, rows["bench"])
	assert.Equal(t, []string{"ms", "where"}, rows["sinking"])
	assert.Equal(t, []string{"hands", "throttle", "before_ms", "tried_ms", "each", "never"}, rows["could-be-saved"])
	assert.Empty(t, rows["settled"])
}

// Each message of these rooms is said by a topic, in every language by words of its own, but for those that the commands say.
func TestEveryLanguageSaysTheTopics(t *testing.T) {
	elsewhere := map[string][]words.ID{"look-up": {"look-up.commands-shared", "look-up.flag", "look-up.default", "look-up.topics", "look-up.topics-more", "look-up.see-topic"}}
	for _, name := range []string{"look-up", "look-up-title", "look-up-about", "refused-when", "happened-when", "line-when", "exit-status", "kept-file",
		"field-craft", "field-radio", "field-gestures", "field-script", "field-drill", "field-course", "field-sounds"} {
		room := wordstest.Of(name)
		say := func(all ...words.Text) {
			for _, text := range all {
				if len(text.Messages()) > 0 {
					room.Text(t, text)
				}
			}
		}
		say(words.Each("look-up", "index", "index-about", "index-more", "topic", "holds")...)
		say(Commands(nil).Title, Commands(nil).About)
		for _, topic := range made() {
			say(topic.Title, topic.About)
			for _, p := range topic.Parts() {
				say(p.Heading)
				say(p.Says...)
				say(p.Columns...)
				for _, cells := range p.Rows {
					for _, c := range cells {
						say(c.Text)
					}
				}
			}
		}
		room.Whole(t, elsewhere[name]...)
	}
}

// What is told of files that are kept is what is kept: each is found by what packs them all.
func TestFilesAreWhereTheyAreSaidToBe(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(home, "config"))
	t.Setenv("XDG_DATA_HOME", filepath.Join(home, "data"))
	if runtime.GOOS != "linux" {
		t.Skip("the folders of other systems are asked of the system")
	}
	told := 0
	for i, p := range kept() {
		for _, cells := range p.Rows {
			path := filepath.Join(home, []string{"config", "data"}[min(i, 1)], "propsoff", strings.ReplaceAll(cells[0].Codes[0], "*", "one"))
			require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
			require.NoError(t, os.WriteFile(path, []byte("x"), 0o600))
			told++
		}
	}
	places, err := belongings.Known()
	require.NoError(t, err)
	assert.Len(t, places.Files(), told-1, "all but that the cautions were read")
}

// Every status has its row.
func TestEveryExitStatusHasItsRow(t *testing.T) {
	source, err := os.ReadFile("../exit/exit.go")
	require.NoError(t, err)
	var want, got []string
	for _, m := range regexp.MustCompile(`(?m)^\tCode\w+ = (\d+)$`).FindAllStringSubmatch(string(source), -1) {
		want = append(want, m[1])
	}
	for _, cells := range exits()[0].Rows {
		got = append(got, strings.TrimSuffix(cells[0].Codes[0], " + n"))
	}
	assert.Equal(t, want, got)
}

func TestTopicsAreFound(t *testing.T) {
	for name, want := range map[string]string{"keys": "keys", "craft": "craft-file", "drills": "drill-file", "craft-file": "craft-file", "nothing": ""} {
		topic, ok := Find(Topics(), name)
		assert.Equal(t, want != "", ok, name)
		assert.Equal(t, want, topic.Name, name)
	}
}

// What marks a page up is not taken from a text.
func TestTextsAreMarkedAsTheyStand(t *testing.T) {
	assert.Equal(t, "a \\| b \\*c\\* &lt;d> `e|f*` \\_g", strings.ReplaceAll(marked("a | b *c* <d> `e|f*` _g"), `e\|f`, "e|f"))
	assert.Equal(t, "`a`, `b` c", Cell{Codes: []string{"a", "b"}, Text: words.AsIs("c")}.marked(words.English()))
	assert.Equal(t, "  one    two three\n         four\n", func() string {
		var w strings.Builder
		sideBySide(&w, []string{"one", "two three four"}, []int{5, 10})
		return w.String()
	}())
}
