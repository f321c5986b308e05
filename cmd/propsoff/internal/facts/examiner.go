package facts

import (
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/examine"
	"propsoff.example/sim/prove"
)

// Examiner asks how it ends with a craft and a radio. Its questions about one craft file are told from those about another. Stop, where given, is
// asked every few ms whether to give up.
func Examiner(l *prove.Layout, craft *craftfile.File, seed uint64, stop func() bool) (*examine.Examiner, error) {
	return examine.New(l, string(craft.Text), seed, stop)
}
