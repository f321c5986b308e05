package pulse

// Names is the table by which a text file's words are resolved: which channel a job is on, what a position is called, and which words
// the record knows. A craft file fills in its own part (sim/craftfile) and whoever shows the record the rest; whatever reads a radio
// file or a script is handed the table and never looks into a craft. A nil map or slice knows no words.
type Names struct {
	// Channel gives the channel, 0 to 15, of each job by its name (throttle, roll, pitch, yaw, arm, second, mode, and those of the
	// craft file's own).
	Channel map[string]int
	// Position gives, for each job, the widths of its positions by name: for mode angle, horizon and rate; for arm on and off; and so
	// on. Besides these every control knows low, middle and high (988, 1500 and 2012 µs).
	Position map[string]map[string]Width
	// Refusals and Happenings are the code words that an expectation may name.
	Refusals, Happenings []string
	// OldRefusals are code words of refusals that earlier programs had, each with today's word for it.
	OldRefusals map[string]string
	// Gestures are the code words of the two-stick gestures.
	Gestures []string
}

// ModeCodes are the code words of the flight modes, in the order of layout.Mode. Files have them, so one that was ever used is never changed.
func ModeCodes() []string { return []string{"angle", "horizon", "rate"} }
