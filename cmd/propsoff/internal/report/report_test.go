package report

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
)

var pictures = flag.String("pictures", "", "write every scene as a PNG into this `folder`")

// faultsOf looks at a printed report: everything that ink.Check finds, and whatever lies outside the margins or is smaller than it
// may be.
func faultsOf(p *ink.Page) (out []string) {
	for _, q := range ink.Check(p) {
		out = append(out, q.String())
	}
	inside := p.Bounds().Inset((margin - 1) * p.Scale)
	for i := range p.Items() {
		it := &p.Items()[i]
		if !inside.Holds(it.Box, 1) {
			out = append(out, fmt.Sprintf("%s/%s %q stands in the margin: %v", it.Group, it.Name, it.Text, it.Box))
		}
		if it.Kind == ink.KindText && it.Size < p.TextSize(least) {
			out = append(out, fmt.Sprintf("%s/%s %q is %v px, below %v points", it.Group, it.Name, it.Text, it.Size, least))
		}
	}
	return out
}

func said(p *ink.Page) string {
	var b strings.Builder
	for _, d := range ink.Describe(p).Items {
		b.WriteString(d.Text + "\n")
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// languages are those that a report is written in.
var languages = wordstest.Books()

// unnamed takes out what people have named, also where it is cut short.
func unnamed(d *Data) *strings.Replacer {
	out := []string{d.Pupil, ""}
	for _, w := range d.Rows {
		out = append(out, w.Name, "")
		for n := len(w.Name) - 1; n > 2; n-- {
			out = append(out, w.Name[:n]+"…", "")
		}
	}
	return strings.NewReplacer(out...)
}

func TestTheReportFitsItsPaper(t *testing.T) {
	for _, sc := range scenes {
		d := sc.make(t)
		for _, book := range languages {
			for _, s := range paper.Sizes() {
				for _, dpi := range []float64{paper.Fine, 150} {
					p := s.Page(dpi)
					Draw(p, book, &d)
					assert.Empty(t, faultsOf(p), "%s on %s at %v, %s", sc.name, s.Name, dpi, book.Tag())
					text := strings.Join(strings.Fields(said(p)), " ")
					assert.NotContains(t, text, "⟦", sc.name)
					assert.Contains(t, text, book.Say(tell.ReportCaution()))
					for _, it := range ink.Describe(p).Named("why") {
						assert.False(t, strings.HasSuffix(it.Text, "…"), "%s: %q is cut", sc.name, it.Text)
					}
					if book != words.English() {
						assert.Empty(t, wordstest.English(t, book, unnamed(&d).Replace(text)), "%s, %s", sc.name, book.Tag())
						continue
					}
					for _, want := range sc.says {
						assert.Contains(t, text, strings.ReplaceAll(want, "\u00a0", " "), "%s on %s at %v", sc.name, s.Name, dpi)
					}
				}
				if *pictures != "" {
					p := s.Page(110)
					Draw(p, book, &d)
					out := paper.Print{Page: p, DPI: 110}
					var b bytes.Buffer
					require.NoError(t, out.Write(&b, paper.PNG))
					name := strings.Join([]string{sc.name, s.Name, book.Code()}, " ")
					require.NoError(t, os.WriteFile(filepath.Join(*pictures, strings.ReplaceAll(name, " ", "-")+".png"), b.Bytes(), 0o666))
				}
			}
		}
	}
}

// A drill that ships is called in the report as everywhere else in its language; one's own keeps its name.
func TestDrillsAreNamedInTheLanguageOfTheReport(t *testing.T) {
	course, _ := shipped(t)
	d := of(t, kept(t, "Ann", practised(t, 40, 7, 0)...), Options{Course: many(course, 8), Date: began})
	german, p := words.In("de"), paper.A4().Page(paper.Fine)
	Draw(p, german, &d)
	for _, text := range []string{said(p), htmlOf(t, german, &d)} {
		assert.Contains(t, text, "Stopp bei Alarm, mit dem Schalter")
		assert.NotContains(t, text, "Stop at the alarm")
		assert.Contains(t, strings.Join(strings.Fields(text), " "), "number 7")
	}
}
