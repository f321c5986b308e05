package report

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/logbook"
	"propsoff.example/cmd/propsoff/internal/paper"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/drill"
)

func htmlOf(t testing.TB, book *words.Book, d *Data) string {
	var b bytes.Buffer
	require.NoError(t, HTML(&b, book, d))
	return b.String()
}

// read walks a page: that every element is closed in its order, what is said outside drawings, and every attribute.
func read(t testing.TB, text string) (said string, attrs map[string][]string, names []string) {
	d := xml.NewDecoder(strings.NewReader(text))
	d.Strict, d.AutoClose, d.Entity = false, []string{"meta"}, xml.HTMLEntity
	attrs = map[string][]string{}
	var b strings.Builder
	drawing, open := 0, 0
	for {
		tok, err := d.Token()
		if err == io.EOF {
			assert.Zero(t, open)
			return b.String(), attrs, names
		}
		require.NoError(t, err)
		switch v := tok.(type) {
		case xml.StartElement:
			open++
			names = append(names, v.Name.Local)
			if v.Name.Local == "svg" || drawing > 0 {
				drawing++
			}
			for _, a := range v.Attr {
				key := a.Name.Local
				attrs[key] = append(attrs[key], a.Value)
			}
		case xml.EndElement:
			open--
			drawing = max(0, drawing-1)
		case xml.CharData:
			if drawing == 0 {
				b.WriteString(string(v) + " ")
			}
		}
	}
}

func TestHTMLStandsByItself(t *testing.T) {
	for _, sc := range scenes {
		d := sc.make(t)
		for _, book := range languages {
			standsByItself(t, sc.name+" "+book.Code(), book, &d)
		}
	}
}

func standsByItself(t *testing.T, scene string, book *words.Book, d *Data) {
	text := htmlOf(t, book, d)
	said, attrs, names := read(t, text)
	assert.Equal(t, book.Code(), attrs["lang"][0])
	for _, bad := range []string{"script", "iframe", "img", "link", "object", "image", "foreignObject", "a"} {
		assert.NotContains(t, names, bad, scene)
	}
	for _, key := range []string{"src", "onload", "onclick", "style", "action"} {
		assert.Empty(t, attrs[key], scene)
	}
	for _, h := range attrs["href"] {
		assert.True(t, strings.HasPrefix(h, "#"), "%s: %s", scene, h)
	}
	assert.NotRegexp(t, regexp.MustCompile(`(?i)url\(|@import|https?://[^w]`), strings.ReplaceAll(text, "http://www.w3.org/", ""), scene)
	assert.Contains(t, text, `content="default-src 'none'; style-src 'unsafe-inline'"`)
	ids := slices.Clone(attrs["id"])
	slices.Sort(ids)
	assert.Equal(t, len(ids), len(slices.Compact(slices.Clone(ids))), "%s: an id stands twice", scene)
	for _, h := range attrs["href"] {
		assert.Contains(t, ids, h[1:], scene)
	}
	for _, l := range attrs["aria-labelledby"] {
		assert.Contains(t, ids, l, scene)
	}
	tables := strings.Count(text, "<table>")
	assert.Equal(t, strings.Count(text, "<svg "), strings.Count(text, `role="img"`), scene)
	assert.GreaterOrEqual(t, tables, strings.Count(text, "<svg "), "%s: each plot has its table", scene)
	assert.Equal(t, tables, strings.Count(text, "<caption>"))
	flat := strings.Join(strings.Fields(said), " ")
	assert.NotContains(t, flat, "⟦", scene)
	assert.Contains(t, flat, book.Say(tell.ReportCaution()))
	assert.Contains(t, flat, strings.Join(strings.Fields(d.Pupil), " "), "%s: with every character", scene)
	for _, w := range d.Rows {
		assert.Contains(t, flat, book.Say(w.name()), scene)
	}
	if *pictures != "" {
		require.NoError(t, os.WriteFile(filepath.Join(*pictures, strings.ReplaceAll(scene, " ", "-")+".html"), []byte(text), 0o666))
	}
}

// Names come from people and from files of people: whatever they hold is text.
func TestHTMLEscapesEverything(t *testing.T) {
	nasty := `"><script>alert(1)</script><svg onload='x'>&amp;{{.Pupil}}</table>`
	run := drill.Run{Drill: nasty, Tries: []drill.Try{{Verdict: drill.Right, Reaction: 300}}}
	e := logbook.OfRun(began, &run, &drill.Config{Cases: []drill.Case{{WaitHigh: 2000, Within: 5000}}}, nasty)
	c := kept(t, nasty, e, logbook.Entry{At: began, Day: e.Day, Kind: logbook.KindRefusals, Counts: map[string]int64{nasty: 3}})
	d := of(t, c, Options{Date: began, Program: nasty, Course: []Drill{{Code: nasty, Name: nasty}, {Code: "b", Name: nasty}}})
	text := htmlOf(t, words.English(), &d)
	said, attrs, names := read(t, text)
	assert.NotContains(t, names, "script")
	assert.Empty(t, attrs["onload"])
	assert.NotContains(t, text, "<script")
	assert.Equal(t, len(strings.Split(text, "<svg ")), 1+strings.Count(text, `<svg role="img"`))
	assert.GreaterOrEqual(t, strings.Count(said, nasty), 6, "title, heading, captions, cells: whole and as text")
}

func tool(t *testing.T, name string, args ...string) string {
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed, so this is not checked here", name)
	}
	out, err := exec.Command(path, args...).Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		require.NoError(t, err, "%s %v: %s", name, args, failed.Stderr)
	}
	require.NoError(t, err)
	return string(out)
}

// The plots inside the HTML are whole drawings, by librsvg.
func TestHTMLPlotsAreDrawings(t *testing.T) {
	d := scenes[5].make(t)
	found := regexp.MustCompile(`(?s)<svg .*?</svg>`).FindAllString(htmlOf(t, words.English(), &d), -1)
	require.Len(t, found, 4)
	for i, svg := range found {
		file := filepath.Join(t.TempDir(), "a.svg")
		require.NoError(t, os.WriteFile(file, []byte(svg), 0o600))
		out := tool(t, "rsvg-convert", file)
		assert.Greater(t, len(out), 2000, i)
		if *pictures != "" {
			require.NoError(t, os.WriteFile(filepath.Join(*pictures, "plot-"+string(rune('0'+i))+".png"), []byte(out), 0o666))
		}
	}
}

// The PDF says what the page says, by poppler: one page, each text in its order, found by who searches.
func TestTextOfThePDF(t *testing.T) {
	for _, sc := range scenes {
		d := sc.make(t)
		p := paper.A4().Page(paper.Fine)
		Draw(p, words.English(), &d)
		var b bytes.Buffer
		out := Paper(p, words.English(), &d)
		require.NoError(t, out.Write(&b, paper.PDF))
		file := filepath.Join(t.TempDir(), "a.pdf")
		require.NoError(t, os.WriteFile(file, b.Bytes(), 0o600))
		assert.Regexp(t, `Pages: +1\n`, tool(t, "pdfinfo", file))
		got := strings.Join(strings.Fields(tool(t, "pdftotext", "-raw", "-enc", "UTF-8", file, "-")), " ")
		assert.Contains(t, got, words.English().Say(tell.ReportCaution()), sc.name)
		for _, want := range sc.says {
			assert.Contains(t, got, strings.ReplaceAll(want, "\u00a0", " "), sc.name)
		}
	}
}
