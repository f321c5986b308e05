package input

import "propsoff.example/sim/pulse"

// Names is the table by which a file's words are resolved. It stands in the leaf that craft and input both know, so that a craft file
// can make it without knowing what reads it.
type Names = pulse.Names
