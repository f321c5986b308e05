package report

import (
	"bytes"
	_ "embed"
	"errors"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/mouth"
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// Sizes of the plots of the HTML report, in points, and the pixels to the inch at which they are laid out (ours).
const (
	plotWide = 620
	plotHigh = 230
	plotDPI  = 192
)

// table is a table of the HTML report. The first cell of each row heads it.
type table struct {
	Caption words.Text
	Head    []words.Text
	Rows    [][]words.Text
}

// figure is a plot with its table, which says the same: draw draws it, so many points high, its name in the page beginning with prefix.
type figure struct {
	Title, About words.Text
	Plot         template.HTML
	Table        table
	prefix       string
	high         float64
	draw         func(*pen, ink.Rect)
}

// section is one part of the page: figures or a table, or a sentence where there is nothing to show.
type section struct {
	ID               string
	Heading, Nothing words.Text
	Figures          []figure
	Table            table
}

// HTML writes the report in a language as one page that stands by itself (HTML Living Standard): no script, nothing from elsewhere, and a policy
// in the page that forbids both; every plot is an inline drawing with a name and a table that says the same.
func HTML(w io.Writer, book *words.Book, d *Data) error {
	v := struct {
		Language, Pupil                                                 string
		FileTitle, Title, Span, Date, Sentences, Numbers, Caution, Made words.Text
		Sections                                                        []section
	}{
		book.Code(), d.Pupil, tell.ReportFileTitle(d.Pupil), words.T("report.title"), d.span(), words.Text{}, d.sentences(), words.T("report.numbers"), tell.ReportCaution(),
		words.T("report.made", words.Args{"version": words.Quote(d.Program)}), d.sections(),
	}
	if !d.Date.IsZero() {
		v.Date = tell.Day(d.Date)
	}
	for i := range v.Sections {
		s := &v.Sections[i]
		s.Figures = slices.DeleteFunc(s.Figures, func(f figure) bool { return len(f.Table.Rows) == 0 })
		for j := range s.Figures {
			if err := s.Figures[j].plot(d, book); err != nil {
				return err
			}
		}
	}
	said := template.Must(template.New("report").Funcs(template.FuncMap{"say": func(t words.Text) string { return ink.Together(book.Say(t)) }}).Parse(page))
	var b bytes.Buffer
	shown := mouth.NewWriter(&b)
	if err := errors.Join(said.Execute(shown, v), shown.Close()); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

func day(n int32) words.Text { return tell.Day(logbook.Date(n)) }

func count[N int | int64](n N) words.Text { return tell.Plain(words.Whole(n)) }

// sections are the parts of the page, also those with nothing to show.
func (d *Data) sections() []section {
	stood := tableOf(words.T("report.mastered"), words.Each("report.column", "day", "learned", "mastered"), d.Stands, func(n Stand) []words.Text {
		return []words.Text{day(n.Day), count(n.Learned), count(n.Mastered)}
	})
	refused := tableOf(words.T("report.refused"), words.Each("report.column", "why", "times"), d.Refusals, func(c Count) []words.Text {
		return []words.Text{tell.RefusalName(c.Code), count(c.Times)}
	})
	drills := tableOf(words.T("report.drills"), tell.ReportColumns(), d.Rows, Row.line)
	high := 12 + 20*float64(len(d.Refusals))
	return []section{
		{ID: "times", Heading: words.T("report.reaction"), Nothing: words.T("report.no-times"), Figures: d.times()},
		{ID: "mastered", Heading: stood.Caption, Nothing: words.T("report.no-drills"),
			Figures: []figure{{Table: stood, prefix: "m", high: plotHigh, draw: (*pen).stood}}},
		{ID: "refused", Heading: refused.Caption, Nothing: words.T("report.no-refusals"),
			Figures: []figure{{Table: refused, prefix: "r", high: high, draw: (*pen).refused}}},
		{ID: "hand", Heading: words.T("report.hand"), Nothing: words.T("report.no-hand"), Table: d.handTable()},
		{ID: "drills", Heading: drills.Caption, Nothing: words.T("report.no-drills"), Table: drills},
	}
}

// times are the plots of reaction times.
func (d *Data) times() (all []figure) {
	for i := range d.Panels {
		p := &d.Panels[i]
		name := tell.DrillText(p.Code, p.Name)
		t := tableOf(words.T("report.what", words.Args{"drill": name}), words.Each("report.column", "from", "median", "spread", "answers"), p.Marks, func(m Mark) []words.Text {
			return []words.Text{day(m.Day), tell.ReportSeconds(m.Median), tell.ReportSeconds(m.Spread), count(m.Times)}
		})
		all = append(all, figure{Title: name, About: tell.ReportPlotAbout(p.Allowed, p.Days), Table: t,
			prefix: "t" + strconv.Itoa(i), high: plotHigh, draw: func(k *pen, r ink.Rect) { k.panel(r, p) }})
	}
	return all
}

func tableOf[T any](caption words.Text, head []words.Text, all []T, row func(T) []words.Text) table {
	t := table{Caption: caption, Head: head}
	for _, x := range all {
		t.Rows = append(t.Rows, row(x))
	}
	return t
}

// plot draws the plot of a figure on a page of its own and keeps it as a drawing to stand in the text. The names of its outlines begin with
// prefix, for names are unique in a page.
func (f *figure) plot(d *Data, book *words.Book) error {
	size := paper.Size{Width: plotWide / 72.0 * 25.4, Height: f.high / 72.0 * 25.4}
	p := size.Page(plotDPI)
	k := newPen(p, book, d, most)
	f.draw(k, p.Bounds().Inset(4*k.u))
	var b bytes.Buffer
	out := paper.Print{Page: p, DPI: plotDPI, Title: book.Say(f.Table.Caption)}
	if err := out.Write(&b, paper.SVG); err != nil {
		return err
	}
	_, text, _ := strings.Cut(b.String(), "<svg ") // what stands before it is for a file by itself
	// A quotation mark in a text is written as a reference, so what is looked for stands in the drawing's own marks only.
	text = strings.NewReplacer("<title>", `<title id="`+f.prefix+`-title">`, `<path id="`, `<path id="`+f.prefix, `xlink:href="#`, `xlink:href="#`+f.prefix).Replace(text)
	f.Plot = template.HTML(`<svg role="img" aria-labelledby="` + f.prefix + `-title" ` + text)
	return nil
}

// page is the HTML; say writes a Text out.
//
//go:embed page.html
var page string
