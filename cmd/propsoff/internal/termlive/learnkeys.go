package termlive

import (
	"bufio"
	"context"
	"errors"
	"io"
	"strings"
	"unicode"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/console"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// learnCommand is one thing said while a radio is learned: a line in words, or one key of a terminal.
type learnCommand struct {
	line string
	key  rune  // 0 for a line
	bad  error // why the line cannot be read
}

// keysMost is how many keys may wait to be obeyed; more are slips of the finger (ours).
const keysMost = 64

// listen begins to read commands: keys where standard input is a terminal under the live screen, else lines. The reading goroutine may outlive the
// command, as nothing wakes a read of a terminal; it keeps nothing.
func (g *learning) listen(ctx context.Context) {
	if g.w.In == nil {
		return
	}
	keys := g.screen && g.w.Console.Keys()
	commands := make(chan learnCommand, keysMost)
	g.commands, g.heeds = commands, true
	say := func(c learnCommand) bool {
		select {
		case commands <- c:
			return true
		case <-ctx.Done():
			return false
		}
	}
	go func() {
		defer close(commands)
		if keys {
			readKeys(g.w.In, func(k rune) {
				switch {
				case k == interruptKey && g.w.Interrupt != nil:
					g.w.Interrupt()
				case k == stopKey:
					console.PressStop()
				default:
					select {
					case commands <- learnCommand{key: k}:
					default:
					}
				}
			})
			return
		}
		next := console.Lines(g.w.In)
		for {
			line, err := next()
			if err != nil && !errors.Is(err, console.ErrLongLine) {
				return
			}
			if !say(learnCommand{line: line, bad: err}) {
				return
			}
		}
	}()
}

// What the terminal does itself unless keys come one at a time: Ctrl-C and Ctrl-Z (common practice of terminals, no source).
const (
	interruptKey = '\x03'
	stopKey      = '\x1a'
)

// readKeys hands on letters as they are typed, and never waits for who obeys them: the keys that stop the program must be read whatever waits. A
// key that sends more than one (an arrow: ESC and what follows) is left out.
func readKeys(in io.Reader, say func(key rune)) {
	r := bufio.NewReader(in)
	for {
		k, _, err := r.ReadRune()
		if err != nil {
			return
		}
		if k == '\x1b' {
			_, _ = r.Discard(r.Buffered())
			continue
		}
		say(k)
	}
}

// learnLetters are the commands by their letters.
var learnLetters = map[rune]string{'\r': "", '\n': "", 'b': "back", 'k': "skip", 'o': "over", 'a': "anew", 'l': "left", 'r': "right", 't': "top", 'm': "springs", 'i': "clicks",
	's': "save", 'q': "quit", '1': "1", '2': "2", '3': "3", '4': "4", '\x03': "quit", '\x04': "quit"}

// letterOf is the letter of a command, as it is printed on its key.
func letterOf(word string) string {
	for key, of := range learnLetters {
		if of == word && unicode.IsLetter(key) {
			return string(unicode.ToUpper(key))
		}
	}
	return ""
}

// keepAgain says what can be done about the radio file that could not be written.
func (g *learning) keepAgain() words.Text {
	if !g.screen {
		return tell.LearnKeepAgain(words.Error(g.failed), "", "")
	}
	return tell.LearnKeepAgain(words.Error(g.failed), letterOf("save"), letterOf("quit"))
}

// obey does what a command says. The error is that a person leaves.
func (g *learning) obey(c learnCommand) error {
	if c.bad != nil {
		g.say(words.Error(c.bad))
		return nil
	}
	line := strings.TrimSpace(c.line)
	if c.key != 0 {
		if g.naming {
			return g.name(c.key)
		}
		key := c.key
		if key >= 'A' && key <= 'Z' {
			key += 'a' - 'A'
		}
		if key == 'c' {
			g.naming = g.last() != nil
			g.typed = g.typed[:0]
			return nil
		}
		word, ok := learnLetters[key]
		if !ok {
			return nil // a slip of the finger
		}
		return g.do(word, "")
	}
	word, rest, _ := strings.Cut(line, " ")
	word = strings.ToLower(word)
	if letters := []rune(word); len(letters) == 1 {
		if w, ok := learnLetters[letters[0]]; ok {
			word = w
		}
	}
	return g.do(word, strings.TrimSpace(rest))
}

// name takes the letters of a name until Enter.
func (g *learning) name(key rune) error {
	switch {
	case key == '\r' || key == '\n':
		g.naming = false
		return g.do("call", string(g.typed))
	case key == '\x03':
		return g.do("quit", "")
	case key == '\b' || key == '\x7f':
		g.typed = g.typed[:max(len(g.typed)-1, 0)]
	case key >= ' ' && len(g.typed) < 40:
		g.typed = append(g.typed, key)
	}
	return nil
}

// last is the switch that was found last, nil for none.
func (g *learning) last() *radio.Control {
	if g.learner == nil {
		return nil
	}
	v := g.learner.View()
	if v.Last < 0 || v.Last >= len(v.Answers) {
		return nil
	}
	return &v.Answers[v.Last]
}

// sides are where a switch sits, by the words for it.
var sides = map[string]radio.Side{"left": radio.Left, "right": radio.Right, "top": radio.Top}

// do does what a word says.
func (g *learning) do(word, rest string) error {
	switch {
	case word == "quit":
		return g.left()
	case g.learned: // only the file is to be written yet
		if word == "save" || word == "enough" || word == "" {
			if g.keep(rest) {
				return errKept
			}
			return nil
		}
		g.notice(g.keepAgain())
		return nil
	case g.learner == nil:
		if t := words.T("ask.no-radio-yet"); !g.screen || g.said.new(t) { // each line is answered; on a screen it stands already
			g.notice(t)
		}
		return nil
	}
	l := g.learner
	switch word {
	case "", "enough":
		l.Enough()
	case "back":
		l.Back()
	case "skip":
		l.Skip()
	case "over":
		l.Restart()
	case "anew":
		g.learnAnew()
	case "1", "2", "3", "4":
		if l.View().Question == learn.StickMode {
			l.SetStickMode(int(word[0] - '0'))
		}
	case "left", "right", "top", "springs", "clicks", "call":
		c := g.last()
		if c == nil {
			g.notice(words.T("ask.nothing-to-call"))
			return nil
		}
		switch side := sides[word]; {
		case side != radio.NoSide:
			l.SetSide(side)
		case word == "springs":
			l.SetMomentary(!c.Momentary)
		case word == "clicks":
			l.SetClicks(!c.IsSwitch())
		default:
			l.SetCalled(rest)
		}
	case "save":
		g.notice(words.T("ask.not-yet"))
	default:
		g.notice(words.T("ask.words", words.Args{"line": words.Quote(word)}))
	}
	return nil
}
