package facts

import (
	"propsoff.example/sim/craftfile"
	"propsoff.example/sim/mend"
	"propsoff.example/sim/prove"
)

// Mend finds the smallest changes after which every rule of a layout holds. Switches on which named jobs of the craft stand are left alone.
func Mend(l prove.Layout, jobs []craftfile.Job, o mend.Options) (mend.Report, error) {
	taken := uint16(0)
	for i := range jobs {
		taken |= 1 << jobs[i].Channel
	}
	return mend.Find(l, taken, o)
}
