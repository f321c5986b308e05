package paper

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ink/raster"
)

// everything draws everything that a page can hold, in points.
func everything(p *ink.Page) {
	u := p.Px
	p.Group("g")
	p.RoundRect("key", ink.Rect{X: u(20), Y: u(20), W: u(200), H: u(60)}, u(10), ink.Paint{Fill: ink.Panel, Line: ink.Rule, Width: u(2)})
	p.Text("key", u(40), u(50), ink.Style{Size: p.TextSize(16), Weight: ink.Bold, Anchor: ink.Middle}, "Größe 30° → µs & <Ω>")
	p.Text("state", u(240), u(120), ink.Style{Size: p.TextSize(50), Weight: ink.Bold, Colour: ink.Armed}, "ARMED")
	p.Block("why", u(20), u(140), ink.Style{Size: p.TextSize(8), Colour: ink.Refusal}, ink.Block{Width: u(180), Crossed: 0.6},
		"Throttle reads 1012 µs; bring it below 1000. Wind, quiz, jump: figures 0123456789 (\\)%.")
	p.Circle("dot", u(100), u(300), u(40), ink.Paint{Fill: ink.Link, Line: ink.Ink, Width: u(3)})
	p.Circle("ring", u(100), u(300), u(70), ink.Paint{Line: ink.Ink, Width: u(1), Dash: ink.Dash{On: u(4), Off: u(3)}})
	p.Arc("dial", u(100), u(300), u(55), -2, 1, ink.Paint{Line: ink.Faint, Width: u(4)})
	p.Polygon("nose", []ink.Point{{X: u(300), Y: u(200)}, {X: u(360), Y: u(300)}, {X: u(310), Y: u(250)}, {X: u(300), Y: u(300)}}, ink.Paint{Fill: ink.Focus, Line: ink.Ink, Width: u(2)})
	wave := func(x, phase float64) (pts []ink.Point) {
		for i := range 120 {
			pts = append(pts, ink.Point{X: u(x + 20*math.Sin(float64(i)/12+phase)), Y: u(350 + 3*float64(i))})
		}
		return pts
	}
	p.Polyline("roll", wave(300, 0), ink.Paint{Line: ink.Roll, Width: u(2.5)})
	p.Polyline("pitch", wave(370, 1), ink.Paint{Line: ink.Pitch, Width: u(2), Dash: ink.Dash{On: u(8), Off: u(5)}})
	p.Band("yaw", wave(450, 0), wave(455, 0.4), ink.Yaw)
	p.Rect("frame", ink.Rect{X: u(20), Y: u(420), W: u(180), H: u(90)}, ink.Paint{Line: ink.Ink, Width: u(1)})
	p.Line("slant", u(20), u(420), u(200), u(510), ink.Paint{Line: ink.Ink, Width: u(1)})
	p.Text("last", u(20), u(560), ink.Style{Size: p.TextSize(11)}, "the last line of all")
}

func written(t *testing.T, d *Print, f Format) []byte {
	var b bytes.Buffer
	require.NoError(t, d.Write(&b, f))
	return b.Bytes()
}

func printOf(s Size, dpi float64) *Print {
	d := &Print{Page: s.Page(dpi), DPI: dpi, Title: "A card – for Łódź", About: "what it is"}
	everything(d.Page)
	return d
}

// tool runs a program over a file and gives what it prints; the test is skipped where there is no such program.
func tool(t *testing.T, name string, args ...string) []byte {
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
	return out
}

func kept(t *testing.T, name string, data []byte) string {
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

func decoded(t *testing.T, data []byte) image.Image {
	m, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	return m
}

// differs tells by how much two pictures of a page differ: the share of inked pixels that are off by more than a fifth of
// full tone within a pixel's distance, and the mean difference of all inked ones in parts of 255.
func differs(t *testing.T, want *image.RGBA, got image.Image) (off, mean float64) {
	b := want.Rect
	require.InDelta(t, b.Dx(), got.Bounds().Dx(), 1)
	require.InDelta(t, b.Dy(), got.Bounds().Dy(), 1)
	tone := func(m image.Image, x, y int) [3]float64 {
		r, g, b, _ := m.At(x, y).RGBA()
		return [3]float64{float64(r >> 8), float64(g >> 8), float64(b >> 8)}
	}
	apart := func(p, q [3]float64) (d float64) {
		for i := range p {
			d = max(d, math.Abs(p[i]-q[i]))
		}
		return d
	}
	paper := tone(want, 0, 0)
	inked, wrong, sum := 0.0, 0.0, 0.0
	for y := 1; y < b.Dy()-2; y++ {
		for x := 1; x < b.Dx()-2; x++ {
			w, g := tone(want, x, y), tone(got, x, y)
			if w == paper && g == paper {
				continue
			}
			inked++
			d := apart(w, g)
			sum += d
			if d < 51 {
				continue
			}
			// Two ways of smoothing an edge put it at most a pixel apart.
			near := 255.0
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					near = min(near, apart(w, tone(got, x+dx, y+dy)))
				}
			}
			if near >= 51 {
				wrong++
			}
		}
	}
	require.Greater(t, inked, 20000.0)
	return wrong / inked, sum / inked
}

// The reference is poppler's drawing of the PDF and librsvg's of the SVG, pixel by pixel against the raster.
func TestTheSamePageComesOutOfAllThree(t *testing.T) {
	for _, s := range Sizes() {
		const dpi = 150
		d := printOf(s, dpi)
		want, err := raster.Image(d.Page)
		require.NoError(t, err)
		t.Run("png "+s.Name, func(t *testing.T) {
			got := decoded(t, written(t, d, PNG))
			for i := range want.Rect.Dx() * want.Rect.Dy() {
				x, y := i%want.Rect.Dx(), i/want.Rect.Dx()
				require.Equal(t, want.RGBAAt(x, y), got.(*image.RGBA).RGBAAt(x, y))
			}
		})
		t.Run("pdf "+s.Name, func(t *testing.T) {
			got := decoded(t, tool(t, "pdftoppm", "-r", "150", "-png", kept(t, "a.pdf", written(t, d, PDF))))
			off, mean := differs(t, want, got)
			t.Logf("%.3f %% of inked pixels off, %.2f of 255 on average", 100*off, mean)
			assert.Less(t, off, 0.004)
			assert.Less(t, mean, 14.0)
		})
		t.Run("svg "+s.Name, func(t *testing.T) {
			got := decoded(t, tool(t, "rsvg-convert", "-d", "150", "-p", "150", kept(t, "a.svg", written(t, d, SVG))))
			off, mean := differs(t, want, got)
			t.Logf("%.3f %% of inked pixels off, %.2f of 255 on average", 100*off, mean)
			assert.Less(t, off, 0.004)
			assert.Less(t, mean, 14.0)
		})
	}
}

// A page that lacks one thing, or has it moved, does not pass for the same: the comparison can fail.
func TestTheComparisonSeesAMovedLine(t *testing.T) {
	d := printOf(A4(), 150)
	want, err := raster.Image(d.Page)
	require.NoError(t, err)
	d.Page.Line("more", 100, 1300, 900, 1310, ink.Paint{Line: ink.Ink, Width: 3})
	other, err := raster.Image(d.Page)
	require.NoError(t, err)
	off, _ := differs(t, want, other)
	assert.Greater(t, off, 0.004)
}

// texts are what a page says, in the order of drawing.
func texts(p *ink.Page) (out []string) {
	for i := range p.Items() {
		if it := &p.Items()[i]; it.Kind == ink.KindText && it.Text != "" {
			out = append(out, it.Text)
		}
	}
	return out
}

func TestTextOfThePDFIsFoundInReadingOrder(t *testing.T) {
	d := printOf(A4(), Fine)
	got := strings.Fields(string(tool(t, "pdftotext", "-raw", "-enc", "UTF-8", kept(t, "a.pdf", written(t, d, PDF)), "-")))
	assert.Equal(t, strings.Fields(strings.Join(texts(d.Page), " ")), got)
}

// Words stand where the page measured them, by poppler's own boxes.
func TestWordsOfThePDFStandWhereTheyWereMeasured(t *testing.T) {
	d := printOf(Letter(), Fine)
	out := tool(t, "pdftotext", "-bbox", kept(t, "a.pdf", written(t, d, PDF)), "-")
	var doc struct {
		Words []struct {
			Left  float64 `xml:"xMin,attr"`
			Right float64 `xml:"xMax,attr"`
			Top   float64 `xml:"yMin,attr"`
			Low   float64 `xml:"yMax,attr"`
			Text  string  `xml:",chardata"`
		} `xml:"body>doc>page>word"`
	}
	require.NoError(t, xml.Unmarshal(out, &doc))
	found := 0
	for i := range d.Page.Items() {
		it := &d.Page.Items()[i]
		x := it.A.X
		for _, word := range strings.SplitAfter(it.Text, " ") {
			left, right := x*0.24, (x+ink.Width(strings.TrimSpace(word), it.Size, it.Weight))*0.24
			x += ink.Width(word, it.Size, it.Weight)
			for _, w := range doc.Words {
				// In the middle of the line poppler's box and ours agree whatever each takes for its height.
				if w.Text == strings.TrimSpace(word) && math.Abs(w.Left-left) < 0.05 && math.Abs(w.Right-right) < 0.05 &&
					w.Top < (it.A.Y-it.Size/4)*0.24 && w.Low > it.A.Y*0.24-0.05 {
					found++
					break
				}
			}
		}
	}
	assert.Equal(t, len(strings.Fields(strings.Join(texts(d.Page), " "))), found)
	assert.Len(t, doc.Words, found)
}

func TestFontsAreInThePDF(t *testing.T) {
	d := printOf(A4(), Fine)
	lines := strings.Split(strings.TrimSpace(string(tool(t, "pdffonts", kept(t, "a.pdf", written(t, d, PDF))))), "\n")
	require.Len(t, lines, 4, "%v", lines)
	for _, l := range lines[2:] {
		f := strings.Fields(l) // name, type (three words), encoding, emb, sub, uni, object
		require.Len(t, f, 9, l)
		assert.Contains(t, f[0], "+Go")
		assert.Equal(t, []string{"CID", "TrueType", "Identity-H", "yes", "yes", "yes"}, f[1:7], l)
	}
}

func TestParticularsOfThePDF(t *testing.T) {
	d := printOf(Letter(), Fine)
	without := string(tool(t, "pdfinfo", kept(t, "a.pdf", written(t, d, PDF))))
	assert.Contains(t, without, "A card – for Łódź")
	assert.Contains(t, without, "612 x 792 pts (letter)")
	assert.NotContains(t, without, "CreationDate")
	d.Date = time.Date(2031, 4, 5, 12, 0, 0, 0, time.UTC)
	assert.Contains(t, string(tool(t, "pdfinfo", "-isodates", kept(t, "b.pdf", written(t, d, PDF)))), "2031-04-05T12:00:00Z")
	a4 := printOf(A4(), Fine)
	assert.Contains(t, string(tool(t, "pdfinfo", kept(t, "c.pdf", written(t, a4, PDF)))), "(A4)")
}

func TestAnotherReaderFindsThePDFSound(t *testing.T) {
	d := printOf(A4(), Fine)
	assert.Contains(t, string(tool(t, "qpdf", "--check", kept(t, "a.pdf", written(t, d, PDF)))), "No syntax or stream encoding errors found")
}

// Every object stands where the table of places says (ISO 32000-1, 7.5.4: lines of twenty bytes), and every stream is
// as long as it says.
func TestPlacesInThePDF(t *testing.T) {
	b := written(t, printOf(A4(), Fine), PDF)
	at, err := strconv.Atoi(strings.Fields(string(b[bytes.LastIndex(b, []byte("startxref")):]))[1])
	require.NoError(t, err)
	lines := strings.SplitAfter(string(b[at:]), "\n")
	require.Equal(t, "xref\n", lines[0])
	n, err := strconv.Atoi(strings.Fields(lines[1])[1])
	require.NoError(t, err)
	require.Greater(t, n, 10)
	for i := 1; i < n; i++ {
		require.Len(t, lines[2+i], 20)
		place, err := strconv.Atoi(lines[2+i][:10])
		require.NoError(t, err)
		object := string(b[place:])
		require.True(t, strings.HasPrefix(object, strconv.Itoa(i)+" 0 obj\n"), "object %d", i)
		if head, rest, ok := strings.Cut(object[:strings.Index(object, "endobj")], "stream\n"); ok {
			length, err := strconv.Atoi(strings.Fields(head[strings.Index(head, "/Length "):])[1])
			require.NoError(t, err)
			assert.Equal(t, "\nendstream\n", rest[length:])
		}
	}
}

// The drawing is well-formed, says every text in words, and uses only outlines that it defines.
func TestTheSVG(t *testing.T) {
	d := printOf(A4(), Fine)
	dec := xml.NewDecoder(bytes.NewReader(written(t, d, SVG)))
	defined, used := map[string]bool{}, map[string]bool{}
	var words []string
	deep := []string{}
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			require.Equal(t, "http://www.w3.org/2000/svg", e.Name.Space)
			deep = append(deep, e.Name.Local)
			for _, a := range e.Attr {
				switch {
				case a.Name.Local == "id":
					defined[a.Value] = true
				case a.Name.Local == "href":
					used[strings.TrimPrefix(a.Value, "#")] = true
				case len(deep) == 1 && a.Name.Local == "width":
					assert.Equal(t, "209.973mm", a.Value)
				case len(deep) == 1 && a.Name.Local == "viewBox":
					assert.Equal(t, "0 0 2480 3508", a.Value)
				}
			}
		case xml.EndElement:
			deep = deep[:len(deep)-1]
		case xml.CharData:
			if n := len(deep); n > 1 && deep[n-1] == "desc" && deep[n-2] == "g" {
				words = append(words, string(e))
			}
		}
	}
	assert.Equal(t, texts(d.Page), words)
	assert.Equal(t, defined, used)
	assert.Greater(t, len(used), 40)
}

func TestThePNGSaysHowLargeItIs(t *testing.T) {
	b := written(t, printOf(Letter(), 150), PNG)
	i := bytes.Index(b, []byte("pHYs"))
	require.Greater(t, i, 0)
	assert.Equal(t, []byte{0, 0, 0x17, 0x12, 0, 0, 0x17, 0x12, 1}, b[i+4:i+13]) // 150 to the inch are 5906 to the metre
	assert.Equal(t, image.Rect(0, 0, 1275, 1650), decoded(t, b).Bounds())
}

func TestTheSamePageGivesTheSameBytes(t *testing.T) {
	for f := range Extensions() {
		a, b := printOf(A4(), 100), printOf(A4(), 100)
		assert.Equal(t, written(t, a, Format(f)), written(t, b, Format(f)), Extensions()[f])
	}
}

func TestWhatCannotBePrinted(t *testing.T) {
	good := printOf(A4(), 100)
	for name, d := range map[string]*Print{
		"no page":       {DPI: 100},
		"no resolution": {Page: good.Page},
		"no size":       {Page: ink.NewPage(0, 0, 1, nil), DPI: 100},
		"not a number":  {Page: good.Page, DPI: math.NaN()},
	} {
		assert.Error(t, d.Write(io.Discard, PDF), name)
	}
	bad := A4().Page(100)
	bad.Line("l", math.NaN(), 3, 4, 5, ink.Paint{Line: ink.Ink})
	assert.ErrorContains(t, (&Print{Page: bad, DPI: 100}).Write(io.Discard, SVG), "not a number")
	assert.Error(t, good.Write(io.Discard, 9))
	for f := range Extensions() {
		empty := &Print{Page: A4().Page(50), DPI: 50}
		assert.NoError(t, empty.Write(io.Discard, Format(f)), "an empty page is a page")
	}
	for name, want := range map[string]bool{"a.pdf": true, "A.SVG": true, "x.y.png": true, "card": false, "a.ps": false, "pdf": false} {
		_, ok := FormatOf(name)
		assert.Equal(t, want, ok, name)
	}
}
