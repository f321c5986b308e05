package terminal

import (
	"strconv"

	"propsoff/assets/mouth"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/tell"
)

// Failure is an expectation of a script that did not come true.
type Failure struct {
	// Book is the language of its text, nil for English.
	Book *words.Book
	// Tick at which it was given up, in ms.
	Tick int64
	// File, Line and Column are its place.
	File         string
	Line, Column int
	// Expected is what a script expects, as it is written there; Seen is what came.
	Expected string
	Seen     words.Text
}

// AppendText appends the failure as a line of text.
func (f *Failure) AppendText(dst []byte) []byte {
	wrong := words.Wrong("terminal.expected", words.Args{"expected": words.Quote(f.Expected), "seen": f.Seen})
	return appendLine(dst, f.Book, f.Tick, "expectation-failed", words.Error(wrong.At(f.File, f.Line, f.Column)))
}

// AppendJSON appends the failure as a line of JSON with the code "expectation-failed" and file, line, column, expected, seen.
func (f *Failure) AppendJSON(dst []byte) []byte {
	dst = appendHead(dst, f.Tick, "expectation-failed")
	dst = appendForeign(dst, "file", f.File)
	dst = appendInt(dst, "line", int64(f.Line))
	dst = appendInt(dst, "column", int64(f.Column))
	dst = appendForeign(dst, "expected", f.Expected)
	dst = appendForeign(dst, "seen", english(f.Seen))
	return append(dst, "}\n"...)
}

// Difference is the first one between a take and its replay, in words. Model: the take is of an older model, and that has changed.
type Difference struct {
	// Book is the language of its text, nil for English.
	Book  *words.Book
	Tick  int64
	Text  words.Text
	Model bool
}

func (d *Difference) code() string {
	if d.Model {
		return "model-changed"
	}
	return "difference"
}

// AppendText appends the difference as a line of text.
func (d *Difference) AppendText(dst []byte) []byte {
	return appendLine(dst, d.Book, d.Tick, d.code(), d.Text)
}

// AppendJSON appends the difference as a line of JSON with the code "difference", or "model-changed", and text.
func (d *Difference) AppendJSON(dst []byte) []byte {
	dst = appendHead(dst, d.Tick, d.code())
	return append(appendForeign(dst, "text", english(d.Text)), "}\n"...)
}

// AppendRunning appends what is run, and on which craft, as the first line of text.
func AppendRunning(dst []byte, b *words.Book, name, craft string, take bool) []byte {
	return append(append(dst, say(b, tell.Running(name, craft, take))...), '\n')
}

// Finish is how a run ended.
type Finish struct {
	// Book is the language of its text, nil for English.
	Book *words.Book
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

// AppendText appends the end as a line of text, and the note as another.
func (f *Finish) AppendText(dst []byte) []byte {
	text := tell.Ran(f.Tick, f.Expected-f.Failed, f.Expected)
	switch {
	case f.Model > 0:
		text = tell.PlayedThrough(f.Tick, f.Model, f.Compared, f.Same)
	case f.Replay:
		text = tell.Replayed(f.Tick, f.Compared, f.Same)
	}
	dst = appendLine(dst, f.Book, f.Tick, "finished", words.Row(text, tell.EndsArmed(f.Armed)))
	if !f.Note.Empty() {
		dst = appendLine(dst, f.Book, f.Tick, "note", f.Note)
	}
	return dst
}

// AppendJSON appends the end as a line of JSON with the code "finished": expected and failed for a script, compared and
// same for a take and model for one of an older model, armed, digest as 16 hexadecimal digits, note where there is one.
func (f *Finish) AppendJSON(dst []byte) []byte {
	dst = appendHead(dst, f.Tick, "finished")
	if f.Replay {
		dst = appendInt(dst, "compared", int64(f.Compared))
		dst = appendBool(dst, "same", f.Same)
		if f.Model > 0 {
			dst = appendInt(dst, "model", int64(f.Model))
		}
	} else {
		dst = appendInt(dst, "expected", int64(f.Expected))
		dst = appendInt(dst, "failed", int64(f.Failed))
	}
	dst = appendBool(dst, "armed", f.Armed)
	dst = appendString(dst, "digest", hex(f.Digest))
	if !f.Note.Empty() {
		dst = appendForeign(dst, "note", english(f.Note))
	}
	return append(dst, "}\n"...)
}

func hex(n uint64) string {
	s := strconv.FormatUint(n, 16)
	return "0000000000000000"[len(s):] + s
}

// appendForeign appends a text that is not ours and may need escapes.
func appendForeign(dst []byte, key, v string) []byte {
	return mouth.AppendJSON(appendKey(dst, key), v)
}

// AppendNotice appends a notice as a line of JSON with the code "notice" and text; AppendNoticeText as text.
func AppendNotice(dst []byte, tick int64, text words.Text) []byte {
	return append(appendForeign(appendHead(dst, tick, "notice"), "text", english(text)), "}\n"...)
}

// AppendNoticeText appends a notice as a line of text.
func AppendNoticeText(dst []byte, b *words.Book, tick int64, text words.Text) []byte {
	return appendLine(dst, b, tick, "notice", text)
}

// AppendStopped appends, as a line of JSON with the code "stopped" and text, that a run was ended from outside after a tick, −1 for before
// the first; AppendStoppedText as text.
func AppendStopped(dst []byte, tick int64) []byte {
	return append(appendForeign(appendHead(dst, max(tick, 0), "stopped"), "text", english(words.T("run.stopped"))), "}\n"...)
}

// AppendStoppedText appends it as a line of text.
func AppendStoppedText(dst []byte, b *words.Book, tick int64) []byte {
	return appendLine(dst, b, max(tick, 0), "stopped", words.T("run.stopped"))
}
