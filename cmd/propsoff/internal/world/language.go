package world

import (
	"cmp"
	"runtime"
	"slices"
	"strings"

	golocale "github.com/jeandeaual/go-locale"

	"propsoff.example/assets/words"
)

// SystemLanguage is that of the system: what the environment asks for as POSIX has it (a list in LANGUAGE goes first, unless the locale is C),
// and where it asks for nothing, what the system's own settings prefer.
func (w *World) SystemLanguage() *words.Book {
	if w.Getenv == nil {
		return words.English()
	}
	locale := cmp.Or(w.Getenv("LC_ALL"), w.Getenv("LC_MESSAGES"), w.Getenv("LANG"))
	switch name, _, _ := strings.Cut(locale, "."); {
	case name == "C", name == "POSIX":
		return words.English()
	case locale == "" && slices.Contains([]string{"windows", "darwin", "js"}, runtime.GOOS): // elsewhere the library asks the environment again
		preferred, _ := golocale.GetLocales() // none where the system does not tell
		return words.In(preferred...)
	case locale == "": // as C
		return words.English()
	}
	return words.In(append(strings.FieldsFunc(w.Getenv("LANGUAGE"), func(r rune) bool { return r == ':' }), locale)...)
}
