package terminal

import (
	"fmt"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/input/script"
)

// Failure appends an expectation of a script that did not come true, given up at a tick, as a line with the code "expectation-failed".
func (f Form) Failure(dst []byte, tick int64, failed script.Failed) []byte {
	at, expected := failed.Expect.Pos, failed.Expect.String()
	wrong := words.Wrong("terminal.expected", words.Args{"expected": words.Quote(expected), "seen": failed.Seen})
	return f.line(dst, tick, "expectation-failed", words.Error(wrong.At(at.File, at.Line, at.Col)),
		"file", at.File, "line", at.Line, "column", at.Col, "expected", expected, "seen", failed.Seen)
}

// Difference appends the first one between a take and its replay, in words, as a line with the code "difference", or "model-changed" where
// the take is of an older model and that has changed.
func (f Form) Difference(dst []byte, tick int64, text words.Text, older bool) []byte {
	code := "difference"
	if older {
		code = "model-changed"
	}
	return f.line(dst, tick, code, text, "text", text)
}

// Notice appends a sentence as a line with the code "notice".
func (f Form) Notice(dst []byte, tick int64, text words.Text) []byte {
	return f.line(dst, tick, "notice", text, "text", text)
}

// Stopped appends, as a line with the code "stopped", that a run was ended from outside after a tick, −1 for before the first.
func (f Form) Stopped(dst []byte, tick int64) []byte {
	text := words.T("run.stopped")
	return f.line(dst, max(tick, 0), "stopped", text, "text", text)
}

// Finish is how a run ended.
type Finish struct {
	// Tick is the last one that ran.
	Tick int64
	// Expected is how many expectations there were, Failed how many of them failed.
	Expected, Failed int
	// Replay is true for a take. Compared is how many happenings and digests of it were found equal in its replay (of an older model's
	// take only happenings), Same whether all were. Model is that of a take of an older model, 0 for today's.
	Replay, Same bool
	Compared     int
	Model        int
	// Armed: the craft is armed after the last tick.
	Armed  bool
	Digest uint64
	// Note says what else is to be known (where a take breaks off), and nothing where there is nothing.
	Note words.Text
}

// Finish appends the end as a line with the code "finished", in JSON with expected and failed for a script, compared and same for a take and
// model for one of an older model, armed, digest as 16 hexadecimal digits, note where there is one; in text the note is a line of its own.
func (f Form) Finish(dst []byte, end *Finish) []byte {
	text, fields := tell.Ran(end.Tick, end.Expected-end.Failed, end.Expected), []any{"expected", end.Expected, "failed", end.Failed}
	if end.Replay {
		text, fields = tell.Replayed(end.Tick, end.Compared, end.Same), []any{"compared", end.Compared, "same", end.Same, "model", orNil(end.Model)}
	}
	if end.Model > 0 {
		text = tell.PlayedThrough(end.Tick, end.Model, end.Compared, end.Same)
	}
	fields = append(fields, "armed", end.Armed, "digest", fmt.Sprintf("%016x", end.Digest), "note", orNil(english(end.Note)))
	dst = f.line(dst, end.Tick, "finished", words.Row(text, words.T("run.ends", words.Args{"armed": tell.Armed(end.Armed)})), fields...)
	if !f.JSON && !end.Note.Empty() {
		dst = f.line(dst, end.Tick, "note", end.Note)
	}
	return dst
}
