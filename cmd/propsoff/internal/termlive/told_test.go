package termlive

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/cmd/propsoff/internal/world"
	"propsoff.example/input/usb"
)

// What a drill tells is told in the reader's language, and its JSON Lines are the same in every language.
func TestADrillSpeaksTheReadersLanguage(t *testing.T) {
	line := func(b *words.Book, json bool) string {
		r := drillRun{w: &world.World{Book: b}, o: &DrillOptions{JSON: json}}
		return string(r.appendLine(nil, 7, "now", "say", words.T("drill.do"), "choices", []words.Text{words.AsIs("a"), words.T("drill.waits")}, "reaction_ms", int32(1250)))
	}
	for _, json := range []bool{false, true} {
		english, german := line(nil, json), line(words.In("de"), json)
		assert.Equal(t, json, english == german, german)
		assert.Contains(t, english, words.English().Say(words.T("drill.waits")))
		assert.NotContains(t, german, "1,25", "times are for the instructor")
		assert.Equal(t, json, strings.Contains(german, `"reaction_ms":1250`), german)
	}
	assert.True(t, strings.HasPrefix(line(nil, true), `{"t_ms":7,"code":"now","say":"Now.","choices":["a",`))
}

// What a person typed, or a command line asks for in vain, is answered in every language.
func TestTypedWords(t *testing.T) {
	room := wordstest.Of("typed")
	for _, json := range []bool{false, true} {
		var told strings.Builder
		r := drillRun{w: &world.World{Book: words.In("de")}, o: &DrillOptions{JSON: json}, order: []int{0, 1}}
		r.lines = terminal.NewLines(&told, nil)
		for _, word := range []string{"lift off", "answer 3", "answer x"} {
			r.obey(word)
		}
		assert.NoError(t, r.lines.Flush())
		said := map[bool][]string{
			false: {"„lift off“ ist nicht bekannt; tippe eines davon: answer N, link off, link on", "answer 3: zur Wahl stehen 2 Antworten", "answer x: "},
			true:  {`“lift off” is not known; type one of: answer N, link off, link on`, "answer 3: there are 2 answers to choose from", "answer x: "},
		}
		for _, want := range said[json] {
			assert.Contains(t, told.String(), want)
		}
	}
	w := &world.World{}
	for _, o := range []LearnOptions{{StickMode: 5}, {Output: "-"}} {
		_, err := o.check(w)
		room.Error(t, err)
	}
	room.Error(t, Watch(t.Context(), w, &WatchOptions{Raw: true, Named: world.Named{Record: "a.take"}}))
	room.Error(t, console.ErrLongLine)
	assert.Equal(t, "a line of more than 65,536 bytes was left out; write a shorter one", console.ErrLongLine.Error())
	room.Whole(t, "typed.unknown", "typed.no-answer") // seen above
	assert.Equal(t, "Maker was plugged in and offers a serial port but no joystick: this may be your radio in another USB mode; choose joystick on the radio.",
		words.English().Say(OtherMode(usb.Notice{Maker: "Maker", SerialPort: true, Storage: true})))
}

// Nothing is said twice, and a live screen keeps the newest.
func TestOnceAndNewest(t *testing.T) {
	var said once
	assert.True(t, said.new(words.T("notice.no-radio")))
	assert.False(t, said.new(words.T("notice.no-radio")))
	assert.True(t, said.new(tell.Unplugged("a")))
	assert.True(t, said.new(tell.Unplugged("b")))
	var s shows
	for _, one := range words.AsAre("1", "2", "3", "4") {
		s.note(one)
	}
	assert.Equal(t, words.AsAre("2", "3", "4"), s.notices)
}
