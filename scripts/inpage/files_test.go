package inpage_test

import (
	"archive/zip"
	"bufio"
	"bytes"
	"encoding/base64"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets"
	"propsoff.example/scripts/browser"
)

// catch keeps what the page would download, by its name.
const catch = `;addEventListener("DOMContentLoaded", () => { globalThis.caught = {}; propsoffPage.download = (name, bytes) => { caught[name] = btoa(bytes.reduce((s, b) => s + String.fromCharCode(b), "")); }; });`

// built is the folder of the program, once that was built.
var built string

// program is the program as a terminal has it.
func program() (string, error) {
	if built != "" {
		return filepath.Join(built, "propsoff"), nil
	}
	dir, err := os.MkdirTemp("", "propsoff-page-test-")
	if err != nil {
		return "", err
	}
	built = dir
	path := filepath.Join(dir, "propsoff")
	build := exec.Command("go", "build", "-o", path, "../../cmd/propsoff")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	out, err := build.CombinedOutput()
	if err != nil {
		_, _ = os.Stderr.Write(out)
	}
	return path, err
}

func TestMain(m *testing.M) {
	code := m.Run()
	if built != "" {
		_ = os.RemoveAll(built)
	}
	os.Exit(code)
}

// served opens the page as “propsoff serve” gives it, with all that it forbids.
func served(t *testing.T, s size) *desk {
	t.Helper()
	if _, err := os.Stat(filepath.Join(*folder, "index.html")); err != nil {
		t.Skip("scripts/web has not built the page: " + err.Error())
	}
	path, err := program()
	require.NoError(t, err)
	serve := exec.Command(path, "serve", "--page", *folder, "--port", "0", "--no-open", "--language", "en")
	out, err := serve.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, serve.Start())
	t.Cleanup(func() {
		_ = serve.Process.Kill()
		_ = serve.Wait()
	})
	d := &desk{t: t, b: browser.For(t), by: keys, size: s}
	for lines := bufio.NewScanner(out); lines.Scan() && d.url == ""; {
		d.url = regexp.MustCompile(`http://localhost:\d+/`).FindString(lines.Text())
	}
	require.NotEmpty(t, d.url)
	return d
}

// given is the link to the page of d by which a terminal gives a file away.
func (d *desk) given(file string) string {
	d.t.Helper()
	path, err := program()
	d.must(err)
	out, err := exec.Command(path, "give", file, "--page", d.url).Output()
	d.must(err)
	link, _, _ := strings.Cut(string(out), "\n")
	return link
}

// kept has a terminal take a link, and gives the craft that it found in it.
func (d *desk) kept(link string) string {
	d.t.Helper()
	path, err := program()
	d.must(err)
	home := d.t.TempDir()
	take := exec.Command(path, "keep", link)
	take.Env = append(os.Environ(), "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home)
	out, err := take.CombinedOutput()
	require.NoError(d.t, err, "%s", out)
	text, err := os.ReadFile(filepath.Join(home, "propsoff", "crafts", "heron.yaml"))
	d.must(err)
	return string(text)
}

func (d *desk) says(js string) (s string) {
	d.t.Helper()
	d.must(d.p.Eval(js, &s))
	return s
}

// caught is what was downloaded under a name that begins so.
func (d *desk) caught(begins string) []byte {
	d.t.Helper()
	find := `(() => Object.keys(caught).find(n => n.startsWith("` + begins + `")) || "")()`
	d.must(d.p.WaitFor(find, patience))
	data, err := base64.StdEncoding.DecodeString(d.says(`caught[` + find + `]`))
	d.must(err)
	return data
}

// A craft comes by a link, a radio by the file dialog, both are there after the page was loaded again, and go out one by one, as one archive, and as a link.
func TestFilesComeAndGo(t *testing.T) {
	_, craft, _ := assets.Craft(assets.BuiltIn)
	dir := t.TempDir()
	heron := filepath.Join(dir, "heron.yaml")
	require.NoError(t, os.WriteFile(heron, craft, 0o600))
	radio, err := os.ReadFile("../../cmd/propsoff/testdata/layouts/full.radio.yaml")
	require.NoError(t, err)
	given := filepath.Join(dir, "club.yaml")
	require.NoError(t, os.WriteFile(given, radio, 0o600))

	d := served(t, size{1280, 800, 1, false})
	home := d.url
	d.url = d.given(heron)
	d.open(catch)
	d.must(d.p.WaitFor(`document.getElementById("told").textContent.includes("The craft is kept as")`, patience))
	assert.Empty(t, d.says("location.hash"), "a link is opened once")

	d.must(d.p.Eval(`document.getElementById("files").click()`, nil))
	d.must(d.p.WaitFor(`document.querySelectorAll("#list li").length >= 1`, patience))
	var doc struct {
		Root struct {
			NodeID int `json:"nodeId"`
		} `json:"root"`
	}
	d.must(d.p.Call("DOM.getDocument", nil, &doc))
	var node struct {
		NodeID int `json:"nodeId"`
	}
	d.must(d.p.Call("DOM.querySelector", map[string]any{"nodeId": doc.Root.NodeID, "selector": "#pick"}, &node))
	d.must(d.p.Call("DOM.setFileInputFiles", map[string]any{"nodeId": node.NodeID, "files": []string{given}}, nil))
	d.must(d.p.WaitFor(`document.querySelector("#list").textContent.includes("moorland-desk-7")`, patience))
	d.picture("files")

	d.url = home
	d.must(d.p.Go(home))
	d.begun()
	d.must(d.p.Eval(`document.getElementById("files").click()`, nil))
	d.must(d.p.WaitFor(`document.querySelectorAll("#list li").length >= 2`, patience))
	row := `[...document.querySelectorAll("#list li")].find(r => r.textContent.includes("heron.yaml"))`
	d.must(d.p.Eval(row+`.querySelector(".save").click()`, nil))
	assert.Equal(t, string(craft), string(d.caught("heron")))
	d.must(d.p.Eval(`document.getElementById("all").click()`, nil))
	all := d.caught("propsoff-")
	z, err := zip.NewReader(bytes.NewReader(all), int64(len(all)))
	require.NoError(t, err)
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
	}
	assert.Contains(t, names, "crafts/heron.yaml")
	assert.Contains(t, strings.Join(names, " "), "radios/")

	d.must(d.p.Eval(row+`.querySelector(".give").click()`, nil))
	d.must(d.p.WaitFor(`document.getElementById("link").value`, patience))
	assert.Equal(t, string(craft), d.kept(d.says(`document.getElementById("link").value`)))
	d.must(d.p.WaitFor(`!document.querySelector('[data-way="here"]').hidden && document.getElementById("code").hasAttribute("hidden")`, patience)) // a phone would ask itself
	assert.Equal(t, "code", d.says(`propsoffPage.link("crafts/heron.yaml", "http://192.0.2.7:7767/").then(l => JSON.parse(l)).then(l => l.code.length > 100 ? l.way : "none")`))
	d.picture("link")
	var told string
	d.must(d.p.Eval(`propsoffPage.take("x.yaml", new TextEncoder().encode("no file of ours"))`, &told))
	assert.Contains(t, told, "x.yaml: nothing of this kind is kept here")
	for _, said := range d.p.Said() {
		assert.NotContains(t, said, "Content Security Policy", "the page asks for nothing that it forbids itself")
	}

	// By its name behind the address the craft flies, and by its path.
	d.must(d.p.Go(home + "?craft=heron.yaml"))
	d.begun()
	assert.Empty(t, d.says(`propsoffFloor.complaint()`))
	d.must(d.p.Go(home + "?craft=/home/.config/propsoff/crafts/heron.yaml"))
	d.begun()
	assert.Empty(t, d.says(`propsoffFloor.complaint()`))
	d.must(d.p.Go(home + "?craft=/home/.config/propsoff/crafts/gone.yaml"))
	d.must(d.p.WaitFor(`document.getElementById("unused-said").textContent.includes("gone.yaml: no craft of this name is kept here")`, patience))
	d.begun()
}

// The panel has a craft flown, a file renamed and deleted once that was said again; of two bad files each has its say.
func TestWhatThePanelDoesWithAFile(t *testing.T) {
	dir := t.TempDir()
	_, craft, _ := assets.Craft("teasel-by-sticks")
	reed, bad, worse := filepath.Join(dir, "reed.yaml"), filepath.Join(dir, "bad.yaml"), filepath.Join(dir, "worse.txt")
	for path, text := range map[string]string{reed: strings.Replace(string(craft), "name: ", "name: Reed # ", 1), bad: "propsoff: craft 1\nname: []\n", worse: "no file of ours"} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	}
	d := sit(t, mouse, size{1280, 800, 1, false})
	d.press("understood")
	d.must(d.p.Drop(browser.Point{X: 640, Y: 400}, bad, worse))
	d.must(d.p.WaitFor(`(t => t.includes("bad.yaml") && t.includes("worse.txt"))(document.getElementById("told").textContent)`, patience))
	d.picture("two-bad-files")
	d.must(d.p.Drop(browser.Point{X: 640, Y: 400}, reed))
	d.must(d.p.WaitFor(`document.getElementById("told").textContent.includes("The craft is kept as reed.yaml.")`, patience))

	does := func(button string) {
		t.Helper()
		d.point(d.middle("#files"))
		d.must(d.p.WaitFor(`document.querySelector("#list `+button+`")?.offsetHeight > 0`, patience))
		d.picture("panel")
		d.point(d.middle("#list " + button))
	}
	does(".fly")
	d.reads("Reed is on the bench now.")
	d.picture("flown")
	does(".rename")
	d.reads("What is reed.yaml to be called from now on?")
	d.write("s")
	d.reads("reed.yaml is called reeds.yaml now.")
	does(".delete")
	d.reads("Delete reeds.yaml?")
	d.picture("delete")
	d.press("leave")
	d.reads("reeds.yaml")
	does(".delete")
	d.press("ask-answer-2")
	d.reads("reeds.yaml is deleted.")
	d.point(d.middle("#files"))
	d.must(d.p.WaitFor(`document.getElementById("box").open && !document.getElementById("list").textContent.includes("reeds")`, patience))
}

// What F12 records is kept, and goes out as a terminal reads it.
func TestATakeIsKept(t *testing.T) {
	d := served(t, size{1280, 800, 1, false})
	d.open(catch)
	d.records(1500)
	d.must(d.p.Eval(`document.getElementById("files").click()`, nil))
	row := `[...document.querySelectorAll("#list li")].find(r => r.textContent.includes(".take"))`
	d.must(d.p.WaitFor(row, patience))
	d.must(d.p.Eval(row+`.querySelector(".save").click()`, nil))
	d.must(d.p.WaitFor(`Object.keys(caught).length`, patience))
	name := d.says(`Object.keys(caught)[0]`)
	file := filepath.Join(t.TempDir(), "of-the-page.take")
	require.NoError(t, os.WriteFile(file, d.caught(name), 0o600))
	path, err := program()
	require.NoError(t, err)
	out, err := exec.Command(path, "run", file, "--language", "en").CombinedOutput()
	require.NoError(t, err, "%s", out)
	assert.Contains(t, string(out), "Pack connected", "it replays")
}

// The panel on a phone, upright and lying, in German.
func TestFilesOnAPhone(t *testing.T) {
	for _, s := range []size{{390, 844, 2, true}, {844, 390, 2, true}} {
		d := served(t, s)
		d.p, _ = d.b.New()
		d.must(d.p.Viewport(s.w, s.h, s.dense, true))
		d.must(d.p.Language("de-DE"))
		d.must(d.p.Go(d.url))
		d.begun()
		d.must(d.p.Eval(`document.getElementById("files").click()`, nil))
		d.must(d.p.WaitFor(`document.getElementById("box").open`, patience))
		var wide bool
		d.must(d.p.Eval(`document.getElementById("box").scrollWidth <= document.getElementById("box").clientWidth && document.getElementById("box").getBoundingClientRect().bottom <= innerHeight`, &wide))
		assert.True(t, wide, "nothing of it is beyond the screen")
		assert.Contains(t, d.says(`[...document.querySelectorAll("#box h2 span")].filter(s => s.offsetParent).map(s => s.textContent).join("")`), "Deine Dateien auf dieser Seite")
		d.picture("files")
		if !*full {
			break
		}
	}
}
