package page

// Sentences are all that the page says.
var Sentences = sentences

func init() {
	for i, c := range Cautions {
		Sentences["caution "+string(rune('1'+i))] = c
	}
}
