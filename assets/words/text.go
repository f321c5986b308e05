// Package words holds every sentence that a person reads, as data by language, and says them.
//
// A package that has something to say names the message and gives its values: a Text. Nothing is written out before the edge, where a Book,
// the catalogues of one language, turns a Text into a string. A message stands in a file of its room (en/desk.yaml, de/desk.yaml) and is
// called by the room and its own name: desk.mark. Plural forms and number signs are those of the language.
package words

import "strconv"

// ID names a message: the file that it stands in, a point, and its name there.
type ID string

// Text is something to be said: a message with its values, or several Texts in a row. The zero Text says nothing. It is never changed once
// it is made, so it may be shared.
type Text struct {
	id    ID
	args  Args
	quote string
	file  string // for a quote: the shipped file that it stands in, as Shipped has it; empty for none
	err   error  // for what another says
	parts []Text
	glue  ID // for parts: the message that joins two of them, {{.a}} before {{.b}}; empty joins by a space
	last  ID // … the last two
}

// Args are the values of a message by the names of its placeholders.
type Args map[string]Value

// Value is what a placeholder can stand for: Count, Whole, Grouped, Fixed, Quote, Flag or a Text.
type Value interface{ value() }

// Count is a number of things. It chooses the plural form of its message, where that has such forms, so a message has at most one.
type Count int

// Whole is a whole number that chooses no plural form. It is written without signs between its digits, as in a channel, a width or a year.
type Whole int64

// Grouped is a large whole number, with the language's sign between thousands.
type Grouped uint64

// Fixed is N/10^Places, written with the language's decimal sign and at least Least decimals, more where they are not zero.
type Fixed struct {
	N             int64
	Places, Least int
}

// Quote stands as it is in every language: a name, a key, a code word, a path.
type Quote string

// Typed is what somebody typed, or what stands in a file, as it stands between quotation marks: what cannot be printed is written as Go would
// write it.
func Typed(s string) Quote {
	s = strconv.Quote(s)
	return Quote(s[1 : len(s)-1])
}

// Flag chooses between two ways of saying something ({{if .armed}}…{{else}}…{{end}}); by itself it says nothing.
type Flag bool

func (Count) value()   {}
func (Whole) value()   {}
func (Grouped) value() {}
func (Fixed) value()   {}
func (Quote) value()   {}
func (Flag) value()    {}
func (Text) value()    {}

// T is a message with its values. The house's tests hold the names of message and values against the catalogues wherever they are written
// out, so write them out.
func T(id ID, args ...Args) Text {
	t := Text{id: id}
	if len(args) > 0 {
		t.args = args[0]
	}
	return t
}

// Of is the message of a family by a code word: family "refusal" and code "throttle-up" give refusal.throttle-up. For those who say a thing
// of a table that has a code word anyway; every code of the table has its message, and the table's own test says them all.
func Of(family, code string, args ...Args) Text { return T(ID(family+"."+code), args...) }

// Each are the messages of a family by their code words, in that order; they have no values.
func Each(family string, codes ...string) []Text {
	out := make([]Text, len(codes))
	for i, code := range codes {
		out[i] = Of(family, code)
	}
	return out
}

// AsIs says a text that stands as it is in every language.
func AsIs(s string) Text { return Text{quote: s} }

// Error is an error as a Text, for a sentence that has it inside: a problem is said in the language, another error stands as it is.
func Error(err error) Text { return Text{err: err} }

// Row is several sentences, one after the other; those that say nothing are left out.
func Row(parts ...Text) Text { return joined(parts, "", "") }

// And lists things: "a, b and c".
func And(parts ...Text) Text { return joined(parts, "list.comma", "list.and") }

// Or lists things of which one is: "a, b or c".
func Or(parts ...Text) Text { return joined(parts, "list.comma", "list.or") }

// Listed lists things with commas alone.
func Listed(parts ...Text) Text { return joined(parts, "list.comma", "list.comma") }

// Clauses lists them with semicolons.
func Clauses(parts ...Text) Text { return joined(parts, "list.semicolon", "list.semicolon") }

// Lines puts each on a line of its own.
func Lines(parts ...Text) Text { return joined(parts, "list.line", "list.line") }

func joined(parts []Text, glue, last ID) Text {
	kept := make([]Text, 0, len(parts))
	for _, p := range parts {
		if !p.Empty() {
			kept = append(kept, p)
		}
	}
	if len(kept) == 1 {
		return kept[0]
	}
	return Text{parts: kept, glue: glue, last: last}
}

// AsAre are names, keys or code words, each a Text of its own.
func AsAre(all ...string) []Text {
	out := make([]Text, len(all))
	for i, s := range all {
		out[i] = AsIs(s)
	}
	return out
}

// Empty reports whether there is nothing to say.
func (t Text) Empty() bool { return t.id == "" && t.quote == "" && t.err == nil && len(t.parts) == 0 }

// ID is the message of a Text, empty where it is quoted or a row of others.
func (t Text) ID() ID { return t.id }

// Value is what a Text has for a placeholder of its message, nil where it has none: for those who make a table of what sentences tell.
func (t Text) Value(name string) Value { return t.args[name] }

// Messages are all messages that saying a Text takes, those of Texts and problems inside it too, in no order.
func (t Text) Messages() []ID {
	var out []ID
	if t.id != "" {
		out = append(out, t.id)
	}
	for _, v := range t.args {
		if inner, ok := v.(Text); ok {
			out = append(out, inner.Messages()...)
		}
	}
	for _, p := range t.parts {
		out = append(out, p.Messages()...)
	}
	return append(out, MessagesOf(t.err)...)
}

// MessagesOf are all messages that saying an error takes.
func MessagesOf(err error) []ID {
	switch e := err.(type) {
	case *Problem:
		return e.Text.Messages()
	case told:
		return e.Problem().Text.Messages()
	case interface{ Unwrap() []error }:
		var out []ID
		for _, one := range e.Unwrap() {
			out = append(out, MessagesOf(one)...)
		}
		return out
	}
	return nil
}

// digits writes n/10^places with a decimal sign and at least least decimals.
func digits(n int64, places, least int, sign string) string {
	minus := ""
	u := uint64(n)
	if n < 0 {
		minus, u = "-", -uint64(n)
	}
	s := strconv.FormatUint(u, 10)
	for len(s) <= places {
		s = "0" + s
	}
	whole, part := s[:len(s)-places], s[len(s)-places:]
	for len(part) > least && part[len(part)-1] == '0' {
		part = part[:len(part)-1]
	}
	if part == "" {
		return minus + whole
	}
	return minus + whole + sign + part
}
