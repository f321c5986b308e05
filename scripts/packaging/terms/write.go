package terms

import (
	"fmt"
	"strings"

	"propsoff.example/assets/words"
)

// Intro says in every language what the file is.
func Intro() (text string) {
	for _, tag := range words.Languages() {
		text += words.In(tag.String()).Say(words.T("licences.of-others")) + "\n"
	}
	return text
}

// Write sets the works as one text. A text that stood before is named and not said again.
func Write(works []Work, intro string) string {
	var b strings.Builder
	b.WriteString(strings.TrimRight(intro, "\n") + "\n")
	first := map[string]string{}
	for _, w := range works {
		fmt.Fprintf(&b, "\n%s\n%s\n", strings.Repeat("=", 100), strings.TrimSpace("== "+w.Name+" "+w.Version))
		for _, t := range w.Texts {
			head := "-- " + t.Where
			if len(t.Licences) > 0 {
				head += " (" + strings.Join(t.Licences, ", ") + ")"
			}
			if there, ok := first[t.Body]; ok {
				fmt.Fprintf(&b, "\n%s = %s\n", head, there)
				continue
			}
			first[t.Body] = w.Name + ": " + t.Where
			fmt.Fprintf(&b, "\n%s\n\n%s", head, t.Body)
		}
	}
	return b.String()
}
