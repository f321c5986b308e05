package yamldoc

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A file of another kind is only told so; one that names its own kind, none or one that nobody knows is read.
func TestOtherKinds(t *testing.T) {
	const text = "# what it is\npropsoff: drill 1\nx: 1\n"
	for kind := range kinds {
		_, err := ParseAs(kind, "f.yaml", []byte(text))
		if kind == "drill" {
			assert.NoError(t, err)
			continue
		}
		assert.ErrorContains(t, err, "f.yaml:2:11: this is a drill file, and a ", kind)
	}
	for text, is := range map[string]string{
		"propsoff: course 2": "course", "propsoff: rowan 1": "rowan", "propsoff: []": "", "steps: []": "script", "controls: {}": "radio", "x: 1": "", "[1]": "", "{": "",
	} {
		assert.Equal(t, is, KindOf("f.yaml", []byte(text)), text)
	}
	for _, text := range []string{"propsoff: rowan 1", "propsoff: 1", "x: 1", "[1]"} {
		_, err := ParseAs("craft", "f.yaml", []byte(text))
		assert.NoError(t, err, text)
	}
	_, err := ParseAs("craft", "f.yaml", []byte("steps: []"))
	assert.EqualError(t, err, "f.yaml: this is a script, and a craft file belongs here: give another file or name")
}
