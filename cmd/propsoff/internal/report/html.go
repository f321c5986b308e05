package report

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"
	"sync"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/logbook"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
)

// Sizes of the plots of the HTML report, in points, and the pixels to the inch at which they are laid out (ours).
const (
	plotWide = 620
	plotHigh = 230
	plotDPI  = 192
)

// table is a table of the HTML report. The first cell of each row heads it.
type table struct {
	Caption string
	Head    []string
	Rows    [][]string
}

// figure is a plot with its table.
type figure struct {
	Title string
	Plot  template.HTML
	About string
	Table table
}

// section is one part of the page: figures, or a sentence where there is nothing to show.
type section struct {
	ID, Heading, Nothing string
	Figures              []figure
	Table                *table
}

// HTML writes the report as one page that stands by itself (HTML Living Standard): no script, nothing from elsewhere, and a policy in the page
// that forbids both; every plot is an inline drawing with a name and a table that says the same.
func HTML(w io.Writer, d *Data) error {
	v := struct {
		FileTitle, Title, Pupil, Span, Date, Sentences, Numbers, Caution, Made string
		Sections                                                               []section
	}{
		phrase.ReportFileTitle(d.Pupil), phrase.ReportTitle(), d.Pupil, d.span(), "", d.sentences(), phrase.ReportNumbers(), phrase.ReportCaution(),
		phrase.ReportMade(d.Program), nil,
	}
	if !d.Date.IsZero() {
		v.Date = phrase.ReportDate(d.Date)
	}
	for _, make := range []func(*Data) (section, error){timesSection, stoodSection, refusedSection, drillsSection} {
		s, err := make(d)
		if err != nil {
			return err
		}
		v.Sections = append(v.Sections, s)
	}
	var b bytes.Buffer
	shown := mouth.NewWriter(&b)
	if err := errors.Join(page().Execute(shown, v), shown.Close()); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

func timesSection(d *Data) (section, error) {
	s := section{ID: "times", Heading: phrase.ReportReaction(), Nothing: phrase.ReportNoTimes()}
	for i := range d.Panels {
		p := &d.Panels[i]
		plot, err := plotOf(d, "t"+strconv.Itoa(i), plotHigh, phrase.ReportWhat(p.Name), func(k *pen, r ink.Rect) { k.panel(r, p) })
		if err != nil {
			return s, err
		}
		t := table{Caption: phrase.ReportWhat(p.Name), Head: phrase.ReportTimeColumns()}
		for _, m := range p.Marks {
			t.Rows = append(t.Rows, []string{phrase.ReportDate(logbook.Date(m.Day)), phrase.ReportSeconds(m.Median), phrase.ReportSeconds(m.Spread), strconv.Itoa(m.Times)})
		}
		var pass []string
		for _, ms := range p.Allowed {
			pass = append(pass, phrase.ReportPass(ms))
		}
		about := strings.Join(append(pass, phrase.ReportReactionAbout(p.Days)), ". ")
		s.Figures = append(s.Figures, figure{p.Name, plot, about, t})
	}
	return s, nil
}

func stoodSection(d *Data) (section, error) {
	s := section{ID: "mastered", Heading: phrase.ReportMastered(), Nothing: phrase.ReportNoDrills()}
	if len(d.Stands) == 0 {
		return s, nil
	}
	plot, err := plotOf(d, "m", plotHigh, phrase.ReportMastered(), func(k *pen, r ink.Rect) { k.stood(r) })
	t := table{Caption: phrase.ReportMastered(), Head: phrase.ReportStoodColumns()}
	for _, n := range d.Stands {
		t.Rows = append(t.Rows, []string{phrase.ReportDate(logbook.Date(n.Day)), strconv.Itoa(n.Learned), strconv.Itoa(n.Mastered)})
	}
	s.Figures = []figure{{"", plot, "", t}}
	return s, err
}

func refusedSection(d *Data) (section, error) {
	s := section{ID: "refused", Heading: phrase.ReportRefused(), Nothing: phrase.ReportNoRefusals()}
	if len(d.Refusals) == 0 {
		return s, nil
	}
	plot, err := plotOf(d, "r", 12+20*float64(len(d.Refusals)), phrase.ReportRefused(), func(k *pen, r ink.Rect) { k.refused(r) })
	t := table{Caption: phrase.ReportRefused(), Head: phrase.ReportRefusedColumns()}
	for _, c := range d.Refusals {
		t.Rows = append(t.Rows, []string{phrase.RefusalName(c.Code), strconv.FormatInt(c.Times, 10)})
	}
	s.Figures = []figure{{"", plot, "", t}}
	return s, err
}

func drillsSection(d *Data) (section, error) {
	s := section{ID: "drills", Heading: phrase.ReportDrills(), Nothing: phrase.ReportNoDrills()}
	if len(d.Rows) == 0 {
		return s, nil
	}
	s.Table = &table{Caption: phrase.ReportDrills(), Head: phrase.ReportColumns()}
	for i := range d.Rows {
		cells := d.Rows[i].cells()
		s.Table.Rows = append(s.Table.Rows, append([]string{d.Rows[i].Name}, cells[:]...))
	}
	return s, nil
}

// plotOf draws one plot on a page of its own and gives it as a drawing to stand in the text. The names of its outlines begin with prefix, for
// names are unique in a page.
func plotOf(d *Data, prefix string, high float64, what string, draw func(*pen, ink.Rect)) (template.HTML, error) {
	size := paper.Size{Width: plotWide / 72.0 * 25.4, Height: high / 72.0 * 25.4}
	p := size.Page(plotDPI)
	k := newPen(p, d, most)
	draw(k, p.Bounds().Inset(4*k.u))
	var b bytes.Buffer
	out := paper.Print{Page: p, DPI: plotDPI, Title: what}
	if err := out.Write(&b, paper.SVG); err != nil {
		return "", err
	}
	text := b.String()
	from := strings.Index(text, "<svg ")
	if from < 0 {
		return "", fmt.Errorf("the plot %s is no drawing", what)
	}
	// A quotation mark in a text is written as a reference, so what is looked for stands in the drawing's own marks only.
	text = strings.Replace(text[from:], "<svg ", `<svg role="img" aria-labelledby="`+prefix+`-title" `, 1)
	text = strings.Replace(text, "<title>", `<title id="`+prefix+`-title">`, 1)
	text = strings.ReplaceAll(text, `<path id="`, `<path id="`+prefix)
	text = strings.ReplaceAll(text, `xlink:href="#`, `xlink:href="#`+prefix)
	return template.HTML(text), nil
}

// page is the HTML; its sentences come from phrase.
var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("report").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.FileTitle}}</title>
<style>
:root { color-scheme: light; }
body { background: #fff; color: #000; font: 1rem/1.45 sans-serif; margin: 0 auto; max-width: 56rem; padding: 1rem; }
h1 { font-size: 2rem; margin: 0; overflow-wrap: anywhere; }
h2 { border-bottom: 1px solid #70767c; font-size: 1.1rem; margin: 2rem 0 .5rem; }
h3 { font-size: 1rem; margin: 1rem 0 .25rem; }
figure { margin: 0 0 1rem; }
svg { display: block; height: auto; max-width: 100%; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { color: #3c4148; padding: .25rem 0; text-align: left; }
th, td { border-bottom: 1px solid #d6d6d2; padding: .15rem .75rem .15rem 0; text-align: right; vertical-align: baseline; }
th[scope=row], th:first-child { font-weight: normal; text-align: left; }
thead th { font-weight: bold; }
.kind, .about { color: #3c4148; }
.caution { border: 2px solid #000; font-weight: bold; padding: .5rem .75rem; }
@media print { details { display: none; } }
</style>
</head>
<body>
<main>
<p class="kind">{{.Title}}{{with .Date}} · {{.}}{{end}}</p>
<h1 dir="auto">{{.Pupil}}</h1>
{{with .Span}}<p><strong>{{.}}</strong></p>
{{end}}<p>{{.Sentences}}</p>
{{$numbers := .Numbers}}{{range .Sections}}<section aria-labelledby="{{.ID}}">
<h2 id="{{.ID}}">{{.Heading}}</h2>
{{range .Figures}}<figure>
{{with .Title}}<h3 dir="auto">{{.}}</h3>
{{end}}{{.Plot}}{{with .About}}<figcaption class="about">{{.}}</figcaption>
{{end}}</figure>
<details>
<summary>{{$numbers}}</summary>
{{template "table" .Table}}</details>
{{end}}{{if .Table}}{{template "table" .Table}}{{else if not .Figures}}<p>{{.Nothing}}</p>
{{end}}</section>
{{end}}<p class="caution">{{.Caution}}</p>
<p class="about">{{.Made}}</p>
</main>
</body>
</html>
{{define "table"}}<table>
<caption>{{.Caption}}</caption>
<thead><tr>{{range .Head}}<th scope="col">{{.}}</th>{{end}}</tr></thead>
<tbody>
{{range .Rows}}<tr>{{range $i, $c := .}}{{if $i}}<td>{{$c}}</td>{{else}}<th scope="row" dir="auto">{{$c}}</th>{{end}}{{end}}</tr>
{{end}}</tbody>
</table>
{{end}}`))
})
