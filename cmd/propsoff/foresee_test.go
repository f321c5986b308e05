package main

import (
	"context"
	"encoding/json"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/cmd/propsoff/internal/exit"
)

// foreseeLine is a line of JSON of the examiner, as a reader of it sees it.
type foreseeLine struct {
	Code, ID, About, Verdict, Ask, Text string
	Number, Of, Answer, Foreseen, Asked int
	Alike                               bool
	Stories                             []struct {
		Steps []struct {
			Text    string
			Differs bool
		}
	}
	Ends []struct {
		Answer bool
		Text   string
	}
	Beliefs []struct {
		Ask, About  string
		Came, Wrong int
	}
	Texts []string
}

// foreseeing runs `drill foresee` as somebody who types does: say is given each question and gives the answer that is typed, empty for the end of
// the input.
func foreseeing(t *testing.T, say func(*foreseeLine) string, args ...string) (code int, lines []foreseeLine, errs string) {
	t.Helper()
	w, _, e := testWorld(t)
	typed, types := io.Pipe()
	shows, shown := io.Pipe()
	w.In, w.Out = typed, shown
	done := make(chan int, 1)
	go func() {
		done <- execute(context.Background(), append([]string{"drill", "foresee", "--json"}, args...), w)
		_ = shown.Close()
	}()
	in := json.NewDecoder(shows)
	for {
		var l foreseeLine
		if err := in.Decode(&l); err != nil {
			require.Equal(t, io.EOF, err)
			break
		}
		if lines = append(lines, l); l.Code != "question" {
			continue
		}
		answer := say(&l)
		if answer == "" {
			_ = types.Close()
			continue
		}
		_, err := io.WriteString(types, answer+"\n")
		require.NoError(t, err)
	}
	return <-done, lines, e.String()
}

func of(lines []foreseeLine, code string) (all []foreseeLine) {
	for _, l := range lines {
		if l.Code == code {
			all = append(all, l)
		}
	}
	return all
}

// Whoever always says “yes in both” foresees those that end so; each other belief that was wrong is told by its thing, as often as it was wrong.
func TestForeseeTellsWhichBeliefsWereWrong(t *testing.T) {
	code, lines, errs := foreseeing(t, func(*foreseeLine) string { return "1" }, "--seed", "11", "--questions", "12")
	assert.Equal(t, exit.CodeFailed, code)
	assert.Contains(t, errs, "Disconnect the pack")
	ends, score := of(lines, "ends"), of(lines, "score")
	require.Len(t, ends, 12)
	require.Len(t, score, 1)
	right, wrong := 0, map[string]int{}
	for _, l := range ends {
		require.Len(t, l.Ends, 2)
		assert.Equal(t, l.Alike, l.Ends[0].Answer == l.Ends[1].Answer)
		if l.Ends[0].Answer && l.Ends[1].Answer {
			assert.Equal(t, "foreseen", l.Verdict)
			right++
			continue
		}
		assert.Equal(t, map[bool]string{true: "both-wrong", false: "no-matter"}[l.Alike], l.Verdict)
		wrong[l.About]++
	}
	assert.Equal(t, right, score[0].Foreseen)
	told := map[string]int{}
	for _, b := range score[0].Beliefs {
		if b.Wrong > 0 {
			told[b.About] += b.Wrong
		}
	}
	assert.Equal(t, wrong, told)
	for _, q := range of(lines, "question") {
		marked := 0
		for _, s := range q.Stories {
			for _, st := range s.Steps {
				if st.Differs {
					marked++
				}
			}
		}
		assert.Positive(t, marked, "what the two differ in is marked")
	}
}

// A pupil is asked nothing twice, on no day; and what was answered stands in the logbook.
func TestForeseeKeepsWhatWasAsked(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	seen := map[string]bool{}
	for day := range 3 {
		_, lines, _ := foreseeing(t, func(*foreseeLine) string { return "3" }, "--seed", "5", "--questions", "8", "--pupil", "Wren")
		for _, l := range of(lines, "ends") {
			assert.False(t, seen[l.ID], "day %d: %s came before", day, l.ID)
			seen[l.ID] = true
		}
	}
	assert.Len(t, seen, 24)
	code, out, _ := command(t, "logbook", "--pupil", "Wren")
	require.Equal(t, exit.CodeDone, code)
	assert.Equal(t, 24, strings.Count(out, "The examiner asked whether"))
	code, out, _ = command(t, "logbook", "--pupil", "Wren", "--csv", "-")
	require.Equal(t, exit.CodeDone, code)
	assert.Len(t, regexp.MustCompile(`-\d\d","foreseen",`).FindAllString(out, -1), 24, "behind the day")
}

// What is no answer is asked again; the end of the input, or “quit”, ends the round with what was answered so far.
func TestForeseeIsLeft(t *testing.T) {
	for _, leave := range []string{"quit", ""} {
		n := 0
		code, lines, errs := foreseeing(t, func(q *foreseeLine) string {
			if n++; n == 3 {
				return leave
			}
			return "5\n" + strconv.Itoa(n)
		}, "--seed", "2")
		assert.Len(t, of(lines, "ends"), 2)
		assert.Equal(t, 2, of(lines, "score")[0].Asked)
		assert.Equal(t, 2, strings.Count(errs, "Answer with 1, 2, 3 or 4"))
		assert.Contains(t, []int{exit.CodeDone, exit.CodeFailed}, code)
	}
	w, out, _ := testWorld(t)
	w.In = strings.NewReader("1\n")
	assert.Contains(t, []int{exit.CodeDone, exit.CodeFailed}, execute(context.Background(), []string{"drill", "foresee", "--seed", "3", "--questions", "1"}, w))
	assert.Contains(t, out.String(), "Question 1 of 1")
	for _, bad := range []string{"0", "501"} {
		code, _, errs := command(t, "drill", "foresee", "--questions", bad)
		assert.Equal(t, exit.CodeBadInput, code)
		assert.Contains(t, errs, "from 1 to 500")
	}
}
