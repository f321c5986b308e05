package words

import (
	"io/fs"
	"path"
	"strings"

	"golang.org/x/text/language"
	"gopkg.in/yaml.v3"
)

// Shipped is a text of a shipped file (a drill, a course, gestures with their menus), as it stands there: in English. file is the kind of
// file and the code word, such as drills/alarm-by-switch. A Book says it in its own language, and as it is where it has nothing for just
// this text: whoever has put a file of his own under the same code word reads his own words.
func Shipped(file, english string) Text { return Text{quote: english, file: file} }

// ShippedIn are the texts of shipped files in a language, by file and then by their English: those of LANGUAGE/shipped/KIND/CODE.yaml.
// English has none, as it stands in the files themselves.
func ShippedIn(tag language.Tag) map[string]map[string]string {
	base, _ := tag.Base()
	files, err := fs.Glob(catalogues, path.Join(base.String(), "shipped/*/*.yaml"))
	if err != nil {
		panic(err)
	}
	out := map[string]map[string]string{}
	for _, file := range files {
		text, err := catalogues.ReadFile(file)
		if err != nil {
			panic(err)
		}
		var all map[string]string
		if err := yaml.Unmarshal(text, &all); err != nil {
			panic(file + ": " + err.Error())
		}
		name := strings.TrimSuffix(strings.TrimPrefix(file, base.String()+"/shipped/"), ".yaml")
		out[name] = all
	}
	return out
}
