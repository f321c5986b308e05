package words

import (
	"cmp"
	"embed"
	"io/fs"
	"path"
	"strings"
	"sync"
	"text/template"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
	"gopkg.in/yaml.v3"
)

// The folders of the languages: the catalogues, and below shipped what ships, but for English, in which the shipped files are written.
//
//go:embed */*.yaml */shipped
var catalogues embed.FS

// spoken are the languages of the program, English first: the folders of the catalogues, each opened when it is first asked for.
var spoken = folders()

// own is one of the languages, and its Book.
type own struct {
	tag  language.Tag
	book func() *Book
}

// folders finds the languages. Each folder is called by its language's code.
func folders() []own {
	all, err := catalogues.ReadDir(".")
	if err != nil {
		panic(err)
	}
	tags := []language.Tag{language.English}
	for _, folder := range all {
		if tag := language.MustParse(folder.Name()); tag != language.English {
			tags = append(tags, tag)
		}
	}
	found := make([]own, len(tags))
	for i, tag := range tags {
		found[i] = own{tag, sync.OnceValue(func() *Book { return open(tag) })}
	}
	return found
}

// Languages are those that the program speaks, English first.
func Languages() []language.Tag {
	tags := make([]language.Tag, len(spoken))
	for i := range spoken {
		tags[i] = spoken[i].tag
	}
	return tags
}

// Book is one language: it says Texts. It may be used by several goroutines at once.
type Book struct {
	tag     language.Tag
	rooms   map[string]func() room              // by the first part of a message's name
	shipped func() map[string]map[string]string // by file as Shipped has it, then by the English text
	point   string                              // the decimal sign
	numbers *message.Printer
}

// room is one file of a catalogue: its messages by name. A Localizer of the library would look for the nearest language again at every
// message, and a Book is of one language.
type room map[ID]said

// said are the forms of a message, nil where it has none such.
type said struct{ one, other *form }

// English is the language that everything is written in first.
func English() *Book { return spoken[0].book() }

// nearest tells which of the languages comes nearest to a list of wishes.
var nearest = sync.OnceValue(func() language.Matcher { return language.NewMatcher(Languages()) })

// In is the Book of the language that comes nearest to what is wished, most wished first: names of languages as in BCP 47, or as a POSIX
// locale has them (de_AT.UTF-8). English where none comes near.
func In(wished ...string) *Book {
	tags := make([]language.Tag, 0, len(wished))
	for _, w := range wished {
		w, _, _ = strings.Cut(w, ".")
		w, _, _ = strings.Cut(w, "@")
		if t, err := language.Parse(w); err == nil {
			tags = append(tags, t)
		}
	}
	_, i, confidence := nearest().Match(tags...)
	if confidence == language.No {
		return English()
	}
	return spoken[i].book()
}

// Speaks reports whether a name stands for one of the languages, as --language asks: its code, with or without a country.
func Speaks(name string) (*Book, bool) {
	t, err := language.Parse(name)
	base, sure := t.Base()
	for _, own := range spoken {
		if b, _ := own.tag.Base(); err == nil && sure == language.Exact && b == base {
			return own.book(), true
		}
	}
	return nil, false
}

// Tag is the language.
func (b *Book) Tag() language.Tag { return b.tag }

// Name is what the language calls itself.
func (b *Book) Name() string { return b.Say(T("system.language")) }

// OrEnglish is the book, and the English one where there is none.
func (b *Book) OrEnglish() *Book { return cmp.Or(b, English()) }

// Code is the language's code in files and options: en, de.
func (b *Book) Code() string { base, _ := b.tag.Base(); return base.String() }

// Next is the language after this one, round to the first.
func (b *Book) Next() *Book {
	for i, own := range spoken {
		if own.tag == b.tag {
			return spoken[(i+1)%len(spoken)].book()
		}
	}
	return English()
}

// open finds the catalogues of a language. A room is read when something of it is said first: a command says a few messages of a few rooms.
func open(tag language.Tag) *Book {
	b := &Book{tag: tag, rooms: map[string]func() room{}, numbers: message.NewPrinter(tag)}
	b.shipped = sync.OnceValue(func() map[string]map[string]string { return ShippedIn(tag) })
	// The sign is taken from what the language's own numbers look like.
	b.point = strings.Trim(b.numbers.Sprint(number.Decimal(0.5)), "05")
	for _, file := range filesOf(tag) {
		b.rooms[roomOf(file)] = sync.OnceValue(func() room {
			r := room{}
			for _, m := range messagesOf(file) {
				r[ID(m.ID)] = said{readForm(m.One), readForm(m.Other)}
			}
			return r
		})
	}
	return b
}

// filesOf are the catalogue files of a language.
func filesOf(tag language.Tag) []string {
	base, _ := tag.Base()
	files, err := fs.Glob(catalogues, base.String()+"/*.yaml")
	if err != nil {
		panic(err)
	}
	return files
}

// roomOf is the first part of the names of a file's messages.
func roomOf(file string) string { return strings.TrimSuffix(path.Base(file), ".yaml") }

// messagesOf are the messages of a file. The catalogues are part of the program: one that cannot be read is a fault in it, found by the tests,
// which read them all.
func messagesOf(file string) []*i18n.Message {
	text, err := catalogues.ReadFile(file)
	if err != nil {
		panic(err)
	}
	all, err := i18n.ParseMessageBytes(text, yaml.Unmarshal)
	if err != nil {
		panic(file + ": " + err.Error())
	}
	for _, m := range all {
		m.ID = roomOf(file) + "." + m.ID
	}
	return all
}

// Messages are all messages of a language, in the order of the files; within a file in no order that counts.
func Messages(tag language.Tag) []*i18n.Message {
	var out []*i18n.Message
	for _, file := range filesOf(tag) {
		out = append(out, messagesOf(file)...)
	}
	return out
}

// Say writes a Text out. A message that is missing, or asks for a value that it was not given, is said as ⟦…⟧, which no check of a page lets
// pass.
func (b *Book) Say(t Text) string {
	switch {
	case t.quote != "" && t.file != "":
		return cmp.Or(b.shipped()[t.file][t.quote], t.quote)
	case t.quote != "":
		return t.quote
	case t.err != nil:
		return b.Error(t.err)
	case t.id == "":
		return b.row(t)
	}
	name, _, _ := strings.Cut(string(t.id), ".")
	find := b.rooms[name]
	if find == nil {
		return missing(t.id, "no-file")
	}
	m, ok := find()[t.id]
	if !ok {
		return missing(t.id, "no-message")
	}
	values, form := make(map[string]any, len(t.args)), m.other
	for name, v := range t.args {
		if n, ok := v.(Count); ok && m.one != nil && plural.Cardinal.MatchPlural(b.tag, int(max(n, -n)), 0, 0, 0, 0) == plural.One {
			form = m.one
		}
		values[name] = b.value(v)
	}
	if form == nil {
		return missing(t.id, "no-form")
	}
	s, err := form.say(values)
	if err != nil {
		return missing(t.id, err.Error())
	}
	return s
}

// missing stands in the place of a message that cannot be said.
func missing(id ID, why string) string { return "⟦" + string(id) + ": " + why + "⟧" }

func (b *Book) row(t Text) string {
	if len(t.parts) == 0 {
		return ""
	}
	s := b.Say(t.parts[0])
	for i, p := range t.parts[1:] {
		glue := t.glue
		if i == len(t.parts)-2 {
			glue = t.last
		}
		if next := b.Say(p); glue == "" {
			s += " " + next
		} else {
			s = b.Say(T(glue, Args{"a": Quote(s), "b": Quote(next)}))
		}
	}
	return s
}

func (b *Book) value(v Value) any {
	switch v := v.(type) {
	case Count:
		return digits(int64(v), 0, 0, "")
	case Whole:
		return digits(int64(v), 0, 0, "")
	case Grouped:
		return b.numbers.Sprint(number.Decimal(uint64(v)))
	case Fixed:
		return digits(v.N, v.Places, v.Least, b.point)
	case Quote:
		return string(v)
	case Flag:
		return bool(v)
	case Text:
		return b.Say(v)
	}
	return nil
}

// Template reads a form of a message by the standard library, for tests that look at what it asks for and at what it comes to.
func Template(src string) (*template.Template, error) {
	return template.New("").Option("missingkey=error").Funcs(functions).Parse(src)
}
