package licences_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/licences"
	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
)

// builds are the programs that ship, and the file that each carries.
var builds = []struct {
	file, system, tags, cgo string
	machines                []string
}{
	{"linux", "linux", "", "0", []string{"amd64", "arm64", "arm"}},
	{"linux-window", "linux", "window", "1", []string{"amd64", "arm64"}},
	{"windows", "windows", "", "0", []string{"amd64", "arm64"}},
	{"darwin", "darwin", "", "0", []string{"amd64", "arm64"}},
	{"darwin-window", "darwin", "", "1", []string{"amd64", "arm64"}},
	{"browser", "js", "", "0", []string{"wasm"}},
}

// A build's file tells of every module that Go builds it from, of Go, of the text face and of the engine's list of controllers, and of nothing else.
func TestWhatIsBuiltInIsWhatIsTold(t *testing.T) {
	heads := regexp.MustCompile(`(?m)^== (.+)$`)
	for _, b := range builds {
		text, err := os.ReadFile(b.file + ".txt")
		require.NoError(t, err)
		var told []string
		for _, head := range heads.FindAllStringSubmatch(string(text), -1) {
			told = append(told, head[1])
		}
		for _, machine := range b.machines {
			due, folders := modules(t, b.system, machine, b.tags, b.cgo)
			assert.ElementsMatch(t, due, told, "%s, %s: go -C scripts/packaging run ./licences writes the files anew", b.file, machine)
			for _, folder := range folders {
				hasTermsOf(t, string(text), folder)
			}
		}
	}
}

// modules are the headings that a build must have, and the folders of what they stand for.
func modules(t *testing.T, system, machine, tags, cgo string) (due, folders []string) {
	cmd := exec.Command("go", "list", "-deps", "-tags", tags, "-f",
		`{{if .Module}}{{if not .Module.Main}}{{.Module.Path}} {{.Module.Version}}|{{.Module.Dir}}{{end}}{{end}}|{{range .EmbedFiles}}{{.}} {{end}}`, "propsoff.example/cmd/propsoff")
	cmd.Env = append(os.Environ(), "GOOS="+system, "GOARCH="+machine, "CGO_ENABLED="+cgo)
	out, err := cmd.Output()
	require.NoError(t, err)
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	due, folders = []string{"Go", "Go fonts"}, []string{strings.TrimSpace(string(root))}
	for _, line := range strings.Split(string(out), "\n") {
		part := strings.Split(line, "|")
		if len(part) < 3 {
			continue // of Go's own, or of ours
		}
		if !slices.Contains(due, part[0]) {
			due, folders = append(due, part[0]), append(folders, part[1])
		}
		if strings.Contains(part[2], "gamecontrollerdb") {
			due = append(due, "SDL_GameControllerDB")
		}
	}
	return due, folders
}

// hasTermsOf looks for every licence and notice of a module, word for word.
func hasTermsOf(t *testing.T, text, folder string) {
	found := 0
	for _, pattern := range []string{"LICENSE*", "COPYING*", "NOTICE*", "PATENTS*", "AUTHORS*"} {
		files, err := filepath.Glob(filepath.Join(folder, pattern))
		require.NoError(t, err)
		for _, file := range files {
			its, err := os.ReadFile(file)
			require.NoError(t, err)
			found++
			body := strings.TrimSpace(strings.ReplaceAll(string(its), "\r\n", "\n"))
			assert.True(t, strings.Contains(text, body), "%s is not there whole", file)
		}
	}
	assert.NotZero(t, found, folder)
}

func TestWordsOfLicences(t *testing.T) {
	room := wordstest.Of("licences")
	for _, text := range []words.Text{words.T("licences.own"), words.T("licences.of-others"), words.T("licences.elsewhere")} {
		room.Text(t, text)
	}
	room.Whole(t)
}

// The file begins by saying what it is in each language, and what this build carries is the file of its kind.
func TestWhatThisBuildCarries(t *testing.T) {
	own, err := os.ReadFile("../../LICENSE")
	require.NoError(t, err)
	assert.Equal(t, string(own), licences.Own())
	carried := 0
	for _, b := range builds {
		text, err := os.ReadFile(b.file + ".txt")
		require.NoError(t, err)
		for _, tag := range words.Languages() {
			assert.Contains(t, string(text), words.In(tag.String()).Say(words.T("licences.of-others")), b.file)
		}
		if strings.HasPrefix(licences.OfOthers(), string(text)) {
			carried++
		}
	}
	assert.Equal(t, 1, carried)
}
