// Package lookup makes the tables that a person looks things up in, from what the program itself goes by.
//
// A Topic is one of them: as text in a terminal (“propsoff help TOPIC”) and as a page of docs/look-up, which a test holds to it. What can be
// derived is: fields from the readers of files, codes from what writes them, keys from the sheets. What they mean is said by messages.
package lookup

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// Topic is what there is to know of one thing.
type Topic struct {
	// Name is what it is called by: in a command line, and as the name of its page.
	Name string
	// Title heads it, About says in a line what stands there.
	Title, About words.Text
	// Parts makes what stands there: only for whoever looks, since readers of files are asked for it.
	Parts func() []Part
}

// Part is a section of a topic: a heading, paragraphs, a table, an example; each may be empty.
type Part struct {
	Heading words.Text
	Says    []words.Text
	Columns []words.Text
	Rows    [][]Cell
	// Example is a file as it stands, or lines to be typed.
	Example string
}

// Cell is what stands in a table: code words as they are, and a text behind them.
type Cell struct {
	Codes []string
	Text  words.Text
}

// code is a cell of code words, said one of a text.
func code(all ...string) Cell { return Cell{Codes: all} }

func said(t words.Text) Cell { return Cell{Text: t} }

// Topics are all topics but that of commands, which only the commands know. Those of files stand last.
func Topics() []Topic {
	return append([]Topic{named("cautions", cautions), named("keys", keys), named("codes", codeWords), named("exit", exits), named("files", kept)}, files()...)
}

// short are other words for topics, where they are no commands.
var short = map[string]string{"craft": "craft-file", "radio": "radio-file", "script": "script-file", "drills": "drill-file", "sounds": "sound-file", "course": "drill-file"}

// Find gives the topic of a name, or of a shorter word for it, among all.
func Find(all []Topic, name string) (Topic, bool) {
	for _, t := range all {
		if t.Name == name || t.Name == short[name] {
			return t, true
		}
	}
	return Topic{}, false
}

// named makes a topic with its title and its line.
func named(name string, parts func() []Part) Topic {
	return Topic{Name: name, Title: words.Of("look-up-title", name), About: words.Of("look-up-about", name), Parts: parts}
}

// Commands is the topic of commands, whose parts only the commands know.
func Commands(parts func() []Part) Topic { return named("commands", parts) }

func cautions() []Part { return []Part{{Says: tell.Cautions()}} }
