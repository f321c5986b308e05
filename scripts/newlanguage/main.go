// Command newlanguage writes the folder of a language that the program is to learn: every text in English, marked as owed.
//
//	newlanguage CODE    for example newlanguage it
//
// Run it from the module's root. The tests count what is still marked, and say it.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"golang.org/x/text/language"
	"gopkg.in/yaml.v3"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

const next = `%[1]s is written: %[2]d texts in English, each with a leading %[3]q. What to do now:
1. Translate each in its place and take its mark away; {{…}} stays as it is. "go test . -run NoLanguageOwes" says how many are left, "go test ." whether the others hold.
2. %[1]s/system.yaml: language is what the language calls itself. %[1]s/shipped: the English text stands before each colon, yours behind it.
3. %[1]s/testdata/english.txt: take out the words that the language has as well.
4. Have it drawn: go test ./cmd/propsoff/internal/tell ./cmd/propsoff/internal/terminal ./cmd/propsoff/internal/report ./cmd/propsoff/internal/ui/... -timeout 1h
   Where a text is too long for its sheet, the test names it; to look at the sheets, see "pictures" in DEVELOPERS.md.
`

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "say the code of the language")
		os.Exit(2)
	}
	folder := filepath.Join("assets/words", os.Args[1])
	n, err := write("assets/words", folder, os.Args[1])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Printf(next, filepath.ToSlash(folder), n, wordstest.Owed)
}

// write writes the folder of a language from those that are there, and counts its texts.
func write(from, folder, code string) (texts int, err error) {
	tag, err := language.Parse(code)
	if err != nil {
		return 0, err
	}
	if base, _ := tag.Base(); base.String() != code {
		return 0, fmt.Errorf("%s: a folder is called by the language alone: %s", code, base)
	}
	if err := os.Mkdir(folder, 0o777); err != nil { // one that is there stays as it is
		return 0, err
	}
	// What is to be translated of the files that ship is told by a language that has it.
	model := filepath.Join(from, wordstest.Other()[0].Code())
	for _, kind := range []struct {
		root, files string
		mark        func(*yaml.Node) int
	}{{filepath.Join(from, words.English().Code()), "*.yaml", markAll}, {model, "shipped/*/*.yaml", markShipped}} {
		files, err := filepath.Glob(filepath.Join(kind.root, kind.files))
		if err != nil {
			return 0, err
		}
		for _, file := range files {
			name, err := filepath.Rel(kind.root, file)
			if err != nil {
				return 0, err
			}
			n, err := copyMarked(file, filepath.Join(folder, name), kind.mark)
			if err != nil {
				return 0, fmt.Errorf("%s: %w", file, err)
			}
			texts += n
		}
	}
	list := "testdata/english.txt"
	text, err := os.ReadFile(filepath.Join(model, list))
	if err != nil {
		return 0, err
	}
	return texts, put(filepath.Join(folder, list), text)
}

// copyMarked copies a file with its texts marked, and counts them.
func copyMarked(from, to string, mark func(*yaml.Node) int) (int, error) {
	text, err := os.ReadFile(from)
	if err != nil {
		return 0, err
	}
	var all yaml.Node
	if err := yaml.Unmarshal(text, &all); err != nil {
		return 0, err
	}
	n := mark(&all)
	var out bytes.Buffer
	e := yaml.NewEncoder(&out)
	e.SetIndent(2)
	if err := e.Encode(&all); err != nil {
		return 0, err
	}
	return n, put(to, out.Bytes())
}

func put(path string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	return os.WriteFile(path, text, 0o666)
}

// markAll marks every text of a catalogue: what stands behind its names.
func markAll(n *yaml.Node) (texts int) {
	switch n.Kind {
	case yaml.ScalarNode:
		n.Value, n.Style = wordstest.Owed+n.Value, yaml.DoubleQuotedStyle
		return 1
	case yaml.MappingNode:
		for i := 1; i < len(n.Content); i += 2 {
			texts += markAll(n.Content[i])
		}
	case yaml.DocumentNode:
		texts = markAll(n.Content[0])
	}
	return texts
}

// markShipped puts in the place of a translation the English before it, marked, and leaves out what the translator has noted.
func markShipped(n *yaml.Node) (texts int) {
	top := n.Content[0]
	for i, one := range top.Content {
		one.HeadComment, one.LineComment, one.FootComment = "", "", ""
		if i%2 == 1 {
			one.Kind, one.Value, one.Style = yaml.ScalarNode, wordstest.Owed+top.Content[i-1].Value, yaml.DoubleQuotedStyle
			texts++
		}
	}
	n.HeadComment, n.FootComment, top.HeadComment, top.FootComment = "", "", "", ""
	return texts
}
