package terminal

import (
	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/codes"
	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/sim/lesson"
)

// Lesson appends until when a craft that broke could have been saved, as a line with the code "could-be-saved": hands (disarm, let-go, level,
// throttle), throttle (as-it-was, hovering, full, closed) and before_ms, all left out where nothing saved it; tried_ms, how far back was looked;
// each: hands, throttle and before_ms of every kind that saved it at all; and never: the hands that were tried and never did.
func (f Form) Lesson(dst []byte, found *lesson.Found) []byte {
	way := func(w lesson.Way) Fields {
		return Fields{"hands", codes.OtherHands(w.Hands), "throttle", codes.Gas(w.Gas), "before_ms", found.Broke - w.At}
	}
	var fields Fields
	if found.Last.Any {
		fields = way(found.Last)
	}
	each := []Fields{}
	never := []string{}
	for h, w := range found.Of {
		switch hands := lesson.Hands(h); {
		case w.Any:
			each = append(each, way(w))
		case tell.Never(found, hands):
			never = append(never, codes.OtherHands(hands))
		}
	}
	fields = append(fields, "tried_ms", found.Broke-found.From, "each", each, "never", never)
	return f.line(dst, found.Broke, "could-be-saved", words.Row(tell.Saved(found), tell.SavedEach(found), tell.AtOnce(found)), fields...)
}
