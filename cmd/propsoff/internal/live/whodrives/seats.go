package whodrives

import (
	"slices"

	"propsoff.example/input/learn"
	"propsoff.example/input/radio"
)

// Sit says where the control of a job sits on the radio that is learned, or that drives. Of one that drives it is kept at once; of a file that a
// person gave it holds until the program ends, since that file is theirs.
func (d *Driver) Sit(job string, at radio.Spot) {
	d.answer(func(l *learn.Learner) { l.SetSpot(job, at) })
	if d.who != Radio || slices.Contains(radio.Needed(), job) {
		return
	}
	file := d.file
	file.Controls = slices.Clone(file.Controls) // others look at what stood there
	i := slices.IndexFunc(file.Controls, func(c radio.Control) bool { return c.Job == job })
	if i < 0 || file.Controls[i].Spot == at {
		return
	}
	file.Controls[i].Spot, file.Controls[i].Side = at, at.Side()
	d.file = file
	if d.policy.File != nil {
		d.policy.File = &file
		return
	}
	path, err := d.o.Store.Save(file)
	d.drop(NotKept, "")
	d.policy.Forget(file.Device)
	if err != nil {
		d.policy.Unkept = append(d.policy.Unkept, file)
		d.fail(NotKept, d.info.Name, err)
	}
	if d.result != nil {
		d.result.kept(path, err)
	}
}
