package termlive

import (
	"context"
	"time"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/exit"
	"propsoff.example/cmd/propsoff/internal/live"
	"propsoff.example/cmd/propsoff/internal/tell"
)

// once remembers what was said, so that nothing is said over and over. Texts cannot be compared, so it keeps what they say in English. The zero
// value has said nothing.
type once map[string]bool

// new reports whether a text was not said yet, and remembers it.
func (o *once) new(t words.Text) bool {
	if *o == nil {
		*o = once{}
	}
	text := words.English().Say(t)
	was := (*o)[text]
	(*o)[text] = true
	return !was
}

// within ends what goes on after a time, where one is given.
func within(ctx context.Context, length time.Duration) (context.Context, context.CancelFunc) {
	if length > 0 {
		return context.WithTimeout(ctx, length)
	}
	return context.WithCancel(ctx)
}

// ended is what a practice in the terminal came to: by its parts, by what was written, or by its take.
func ended(l *live.Loop, parts, written error) error {
	if parts == nil {
		parts = written
	}
	if parts == nil && l.Recording().Err != nil {
		parts = tell.RecordingStopped(words.Error(l.Recording().Err)).Problem()
	}
	return exit.Shut(parts)
}
