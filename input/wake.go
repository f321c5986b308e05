package input

// Woke tells whether now is the first report of a device that had sent none when it was opened: until then the system
// answers one and the same value for every axis, wherever the sticks stand, and then most of them leap at once. A hand moves
// two axes of a stick, or two sticks, within one report by no more than a few percent. before is the first state since the
// device was opened, now the second.
func Woke(info *Info, before, now *Raw) bool {
	leapt := 0
	for i, a := range info.Axes[:min(len(info.Axes), MaxAxes)] {
		size := int64(a.Max) - int64(a.Min)
		d := int64(now.Axes[i]) - int64(before.Axes[i])
		if d < 0 {
			d = -d
		}
		if size > 0 && d*10 > size { // more than a tenth of the range (ours)
			leapt++
		}
	}
	return leapt >= 3
}
