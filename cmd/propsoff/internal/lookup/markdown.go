package lookup

import (
	"regexp"
	"strings"

	"propsoff.example/assets/words"
)

// Page is the name of a topic's page in a language: the code of the language stands before the ending, but for English.
func Page(name string, b *words.Book) string {
	if b.Code() == words.English().Code() {
		return name + ".md"
	}
	return name + "." + b.Code() + ".md"
}

// Markdown writes a topic as a page.
func Markdown(t Topic, b *words.Book) string {
	var w strings.Builder
	w.WriteString("# " + b.Say(t.Title) + "\n\n")
	w.WriteString(marked(b.Say(t.About)) + "\n\n" + others(t.Name, b))
	for _, p := range t.Parts() {
		if !p.Heading.Empty() {
			w.WriteString("\n## " + large(p.Heading, b) + "\n")
		}
		for _, s := range p.Says {
			w.WriteString("\n" + marked(b.Say(s)) + "\n")
		}
		if len(p.Rows) > 0 {
			w.WriteString("\n")
			line := make([]string, len(p.Columns))
			for i, c := range p.Columns {
				line[i] = marked(b.Say(c))
			}
			row(&w, line)
			for i := range line {
				line[i] = "---"
			}
			row(&w, line)
			for _, cells := range p.Rows {
				for i, c := range cells {
					line[i] = c.marked(b)
				}
				row(&w, line)
			}
		}
		if p.Example != "" {
			kind := ""
			if strings.HasPrefix(p.Example, "propsoff: ") {
				kind = "yaml"
			}
			w.WriteString("\n```" + kind + "\n" + strings.TrimRight(p.Example, "\n") + "\n```\n")
		}
	}
	return w.String()
}

// Index writes the page that names all topics.
func Index(all []Topic, b *words.Book) string {
	var w strings.Builder
	w.WriteString("# " + b.Say(words.T("look-up.index")) + "\n\n" + marked(b.Say(words.T("look-up.index-about"))) + "\n\n" + others(indexName, b) + "\n")
	row(&w, []string{b.Say(words.T("look-up.topic")), b.Say(words.T("look-up.holds"))})
	row(&w, []string{"---", "---"})
	for _, t := range all {
		row(&w, []string{"[" + t.Name + "](" + Page(t.Name, b) + ")", marked(b.Say(t.About))})
	}
	w.WriteString("\n" + b.Say(words.T("look-up.index-more")) + "\n")
	return w.String()
}

// indexName is the name of the page that names all topics: a folder shows it by itself.
const indexName = "README"

// others leads to the same page in each other language.
func others(name string, b *words.Book) (lines string) {
	for o := b.Next(); o != b; o = o.Next() {
		lines += "[" + o.Name() + "](" + Page(name, o) + ")\n"
	}
	return lines
}

func row(w *strings.Builder, cells []string) {
	w.WriteString("| " + strings.Join(cells, " | ") + " |\n")
}

// marked is the cell on a page.
func (c Cell) marked(b *words.Book) string {
	var all []string
	for _, w := range c.Codes {
		mark := "`"
		if strings.Contains(w, mark) {
			mark = "``"
			w = " " + w + " "
		}
		all = append(all, mark+strings.ReplaceAll(w, "|", `\|`)+mark)
	}
	out := strings.Join(all, ", ")
	if t := marked(b.Say(c.Text)); t != "" {
		out = strings.TrimPrefix(out+" "+t, " ")
	}
	return out
}

// span is code within a text, which stands as it is.
var span = regexp.MustCompile("`[^`]*`")

// marked is a text in which nothing but code within it is taken for a mark.
func marked(text string) string {
	plain := strings.NewReplacer("|", `\|`, "<", "&lt;", "*", `\*`, "_", `\_`, "[", `\[`, "`", "\\`", "\n", " ")
	out, at := "", 0
	for _, in := range span.FindAllStringIndex(text, -1) {
		out += plain.Replace(text[at:in[0]]) + strings.ReplaceAll(text[in[0]:in[1]], "|", `\|`)
		at = in[1]
	}
	return out + plain.Replace(text[at:])
}
