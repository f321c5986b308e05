package radio

import (
	"os"
	"path/filepath"
	"runtime"

	"propsoff.example/assets/words"
)

// Folder is where radio files are kept: propsoff/radios in the user's configuration folder.
//
// On Linux and its like that is XDG_CONFIG_HOME, or $HOME/.config where it is unset, empty or not absolute (XDG Base
// Directory Specification 0.8: a relative path is invalid and ignored). Elsewhere it is os.UserConfigDir.
func Folder() (string, error) {
	base, err := configFolder(runtime.GOOS, os.Getenv)
	if err != nil {
		return "", err
	}
	return filepath.Join(base, "propsoff", "radios"), nil
}

func configFolder(system string, env func(string) string) (string, error) {
	switch system {
	case "windows", "darwin", "ios", "plan9", "js":
		return os.UserConfigDir()
	}
	if dir := env("XDG_CONFIG_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	home := env("HOME")
	if !filepath.IsAbs(home) {
		return "", words.Wrong("radio.configuration-unknown")
	}
	return filepath.Join(home, ".config"), nil
}
