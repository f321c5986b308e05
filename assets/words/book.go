package words

import (
	"bytes"
	"embed"
	"io/fs"
	"path"
	"strings"
	"sync"
	"text/template"
	"unicode"
	"unicode/utf8"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	i18ntemplate "github.com/nicksnyder/go-i18n/v2/i18n/template"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
	"gopkg.in/yaml.v3"
)

//go:embed en de
var catalogues embed.FS

// Languages are those that the program speaks, English first: the folders of the catalogues.
func Languages() []language.Tag { return []language.Tag{language.English, language.German} }

// Book is one language: it says Texts. It may be used by several goroutines at once.
type Book struct {
	tag          language.Tag
	localizer    *i18n.Localizer
	plural       map[string]bool // the messages that have forms for numbers
	point, group string
	shipped      map[string]map[string]string // by file as Shipped has it, then by the English text
}

var (
	english = sync.OnceValue(func() *Book { return open(language.English) })
	german  = sync.OnceValue(func() *Book { return open(language.German) })
)

// English is the language that everything is written in first.
func English() *Book { return english() }

// In is the Book of the language that comes nearest to what is wished, most wished first: names of languages as in BCP 47, or as a POSIX
// locale has them (de_AT.UTF-8). English where none comes near.
func In(wished ...string) *Book {
	tags := make([]language.Tag, 0, len(wished))
	for _, w := range wished {
		w, _, _ = strings.Cut(w, ".")
		w, _, _ = strings.Cut(w, "@")
		if t, err := language.Parse(strings.ReplaceAll(w, "_", "-")); err == nil {
			tags = append(tags, t)
		}
	}
	_, i, confidence := language.NewMatcher(Languages()).Match(tags...)
	if confidence == language.No || i == 0 {
		return English()
	}
	return german()
}

// Speaks reports whether a name stands for one of the languages, as --language asks: its code, with or without a country.
func Speaks(name string) (*Book, bool) {
	t, err := language.Parse(name)
	base, sure := t.Base()
	for _, own := range Languages() {
		if b, _ := own.Base(); err == nil && sure == language.Exact && b == base {
			return In(own.String()), true
		}
	}
	return nil, false
}

// Tag is the language.
func (b *Book) Tag() language.Tag { return b.tag }

// Code is the language's code in files and options: en, de.
func (b *Book) Code() string { base, _ := b.tag.Base(); return base.String() }

// Next is the language after this one, round to the first.
func (b *Book) Next() *Book {
	all := Languages()
	for i, t := range all {
		if t == b.tag {
			return In(all[(i+1)%len(all)].String())
		}
	}
	return English()
}

// open reads the catalogues of a language. They are part of the program: one that cannot be read is a fault in it, found by the first test.
func open(tag language.Tag) *Book {
	bundle, plural := i18n.NewBundle(tag), map[string]bool{}
	for _, m := range Messages(tag) {
		bundle.MustAddMessages(tag, m)
		plural[m.ID] = m.One != ""
	}
	p := message.NewPrinter(tag)
	return &Book{
		tag: tag, localizer: i18n.NewLocalizer(bundle, tag.String()), plural: plural, shipped: ShippedIn(tag),
		// The signs are taken from what the language's own numbers look like.
		point: strings.Trim(p.Sprint(number.Decimal(0.5)), "05"), group: strings.Trim(p.Sprint(number.Decimal(1111)), "1"),
	}
}

// Messages are all messages of a language, by file and then as the file's reader gives them.
func Messages(tag language.Tag) []*i18n.Message {
	var out []*i18n.Message
	base, _ := tag.Base()
	files, err := fs.Glob(catalogues, base.String()+"/*.yaml")
	if err != nil {
		panic(err)
	}
	for _, file := range files {
		text, err := catalogues.ReadFile(file)
		if err != nil {
			panic(err)
		}
		all, err := i18n.ParseMessageBytes(text, yaml.Unmarshal)
		if err != nil {
			panic(file + ": " + err.Error())
		}
		room := strings.TrimSuffix(path.Base(file), ".yaml")
		for _, m := range all {
			m.ID = room + "." + m.ID
		}
		out = append(out, all...)
	}
	return out
}

// Say writes a Text out. A message that is missing, or asks for a value that it was not given, is said as ⟦…⟧, which no check of a page lets
// pass.
func (b *Book) Say(t Text) string {
	switch {
	case t.quote != "":
		if own := b.shipped[t.file][t.quote]; own != "" {
			return own
		}
		return t.quote
	case t.err != nil:
		return b.Error(t.err)
	case t.id == "":
		return b.row(t)
	}
	values, count := make(map[string]any, len(t.args)), any(nil)
	for name, v := range t.args {
		if n, ok := v.(Count); ok && b.plural[string(t.id)] {
			count = int(n)
		}
		values[name] = b.value(v)
	}
	s, err := b.localizer.Localize(&i18n.LocalizeConfig{MessageID: string(t.id), TemplateData: values, PluralCount: count, TemplateParser: parser{}})
	if err != nil {
		return "⟦" + string(t.id) + ": " + err.Error() + "⟧"
	}
	return s
}

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
		return grouped(uint64(v), b.group)
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

// functions are what a message may do with a value besides writing it out: up begins a sentence with it, low goes on with it.
var functions = template.FuncMap{"up": up, "low": low}

// up writes the first letter large.
func up(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// low writes the first letter small.
func low(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// parser reads a message's template, once for each: its functions are always the same.
type parser struct{}

func (parser) Cacheable() bool { return true }

func (parser) Parse(src, _, _ string) (i18ntemplate.ParsedTemplate, error) {
	t, err := Template(src)
	if err != nil {
		return nil, err
	}
	return parsed{t}, nil
}

// Template reads the template of a message as Say does; the tests look at what it asks for.
func Template(src string) (*template.Template, error) {
	return template.New("").Option("missingkey=error").Funcs(functions).Parse(src)
}

type parsed struct{ t *template.Template }

func (p parsed) Execute(data any) (string, error) {
	var out bytes.Buffer
	err := p.t.Execute(&out, data)
	return out.String(), err
}
