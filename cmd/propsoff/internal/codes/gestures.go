package codes

import "propsoff.example/gestures"

// Touch is the code word of what a gesture has to do with an arming corner.
func Touch(t gestures.Touch) string {
	return [...]string{"apart", "on-the-way", "may", "inside"}[t]
}

// ZoneWord is the code word of a zone.
func ZoneWord(z gestures.Zone) string { return [...]string{"any", "low", "middle", "high"}[z] }
