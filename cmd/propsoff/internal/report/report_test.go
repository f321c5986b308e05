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

	"propsoff/cmd/propsoff/internal/ink"
	"propsoff/cmd/propsoff/internal/paper"
	"propsoff/cmd/propsoff/internal/phrase"
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

func TestTheReportFitsItsPaper(t *testing.T) {
	for _, sc := range scenes {
		d := sc.make(t)
		for _, s := range paper.Sizes() {
			for _, dpi := range []float64{paper.Fine, 150} {
				p := s.Page(dpi)
				Draw(p, &d)
				assert.Empty(t, faultsOf(p), "%s on %s at %v", sc.name, s.Name, dpi)
				text := said(p)
				for _, want := range append(sc.says, phrase.ReportCaution()) {
					assert.Contains(t, strings.Join(strings.Fields(text), " "), strings.ReplaceAll(want, "\u00a0", " "), "%s on %s at %v", sc.name, s.Name, dpi)
				}
			}
			if *pictures != "" {
				p := s.Page(110)
				Draw(p, &d)
				out := paper.Print{Page: p, DPI: 110}
				var b bytes.Buffer
				require.NoError(t, out.Write(&b, paper.PNG))
				require.NoError(t, os.WriteFile(filepath.Join(*pictures, strings.ReplaceAll(sc.name, " ", "-")+"-"+s.Name+".png"), b.Bytes(), 0o666))
			}
		}
	}
}
