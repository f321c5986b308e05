package page

// Sentences are all that the page says.
var Sentences = sentences

func init() {
	for i, c := range cautions {
		Sentences["caution "+string(rune('1'+i))] = c
	}
}
