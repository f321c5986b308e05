package codes

import "propsoff.example/sim/lesson"

// OtherHands is the code word of what hands do in place of what was done.
func OtherHands(h lesson.Hands) string {
	return word([]string{lesson.Disarm: "disarm", lesson.LetGo: "let-go", lesson.Level: "level", lesson.Throttle: "throttle"}, int(h), "hands")
}

// Gas is the code word of what the throttle does meanwhile.
func Gas(g lesson.Gas) string {
	return word([]string{lesson.AsItWas: "as-it-was", lesson.Hovering: "hovering", lesson.Full: "full", lesson.Closed: "closed"}, int(g), "throttle")
}
