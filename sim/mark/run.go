package mark

import "propsoff.example/sim/layout"

// Every is how many ticks lie between two samples of a record; SamplesASecond is how many there are in a second: far more than a hand or this mark does
// in a second (ours).
const (
	Every          = 20
	SamplesASecond = 1000 / Every
)

// Record is what was shown and what was done, sample by sample over the measured time: by how far the craft was off the mark (rad, the mark less the
// craft), what the stick had asked for (rad) and where it stood (−1 to 1).
type Record struct {
	N                   int
	Error, Asked, Stick [MostSeconds * SamplesASecond]float64
	Seconds             int
	Axis                Axis
	Mode                layout.Mode
}

// Run is one mark that is followed. Use Begin.
type Run struct {
	Config Config
	// Tick is how long it has lasted, Mark and Off where the mark stands and how far the craft is off it, rad.
	Tick      int64
	Mark, Off float64
	Record    Record
	course    Course
}

// Begin begins a mark anew.
func (r *Run) Begin(cfg Config, seed uint64) {
	*r = Run{Config: cfg, course: New(&cfg, seed)}
	r.Record.Seconds, r.Record.Axis, r.Record.Mode = int(cfg.Seconds), cfg.Axis, cfg.Mode
}

// Over reports whether it has been followed to its end.
func (r *Run) Over() bool { return r.Tick >= r.Config.Ticks() }

// Step goes on by a tick: where the stick stands, what it has asked for so far and where the craft is, which for the ideal craft is the same.
func (r *Run) Step(stick, asked, craft float64) {
	if r.Over() {
		return
	}
	r.Mark = r.course.At(r.Tick)
	r.Off = r.Mark - craft
	if since := r.Tick - int64(r.Config.RunIn); since >= 0 && since%Every == 0 && r.Record.N < len(r.Record.Error) {
		n := &r.Record.N
		r.Record.Error[*n], r.Record.Asked[*n], r.Record.Stick[*n] = r.Off, asked, stick
		*n++
	}
	r.Tick++
}

// Hand is what a record came to, as it is kept: whole numbers, so that it is the same wherever it is read. Its zero value is none.
type Hand struct {
	Axis Axis
	Mode layout.Mode
	// Measured: the numbers below count. Where it is false too little of what the hand did went with the mark.
	Measured bool
	// DelayMS is the hand's delay, with the time that the picture takes in it; DelayWithin is half of its 95 % interval. Both in ms.
	DelayMS, DelayWithin int32
	// Crossover is the angular frequency up to which the hand keeps up, in mrad/s, CrossoverWithin half of its 95 % interval.
	Crossover, CrossoverWithin int32
	// Noise is which part of what the stick did had nothing to do with the mark, in thousandths.
	Noise int32
}
