package paper

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"

	"propsoff.example/assets/door"
	"propsoff.example/assets/words"
)

// Folder is where a person looks for papers: the folder for documents, else the home folder.
func Folder() (string, error) {
	home, err := os.UserHomeDir()
	if err != nil || home == "" {
		return "", words.Wrong("paper.no-home")
	}
	return documents(home, os.Getenv("XDG_CONFIG_HOME")), nil
}

// documents finds the folder for documents under home: the one that the desktop has set (user-dirs.dirs of
// xdg-user-dirs, in the folder for configuration), else Documents, else home itself.
func documents(home, config string) string {
	if !filepath.IsAbs(config) {
		config = filepath.Join(home, ".config")
	}
	if dir := userDir(filepath.Join(config, "user-dirs.dirs"), home); isFolder(dir) {
		return dir
	}
	if dir := filepath.Join(home, "Documents"); isFolder(dir) {
		return dir
	}
	return home
}

// userDir reads the line XDG_DOCUMENTS_DIR="$HOME/…" or ="/…"; empty where there is none.
func userDir(path, home string) string {
	f, err := door.Open(path, "")
	if err != nil {
		return ""
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		value, ok := strings.CutPrefix(strings.TrimSpace(lines.Text()), "XDG_DOCUMENTS_DIR=")
		if !ok {
			continue
		}
		value = strings.Trim(value, "\"")
		if rest, under := strings.CutPrefix(value, "$HOME"); under {
			value = filepath.Join(home, rest)
		}
		if filepath.IsAbs(value) {
			return filepath.Clean(value)
		}
	}
	return ""
}

func isFolder(path string) bool {
	st, err := os.Stat(path)
	return path != "" && err == nil && st.IsDir()
}
