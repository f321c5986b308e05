package drillfile

import (
	"slices"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/fault"
	"propsoff.example/sim/pulse"
)

// jobWords are the words for channels, by number of the job.
func jobWords() []string {
	return []string{drill.Throttle: "throttle", drill.Roll: "roll", drill.Pitch: "pitch", drill.Yaw: "yaw", drill.Arm: "arm", drill.ModeJob: "mode", drill.Second: "second"}
}

// plantable are the faults that a drill may plant, by code word. The set-up cable, the pack's voltage, the propellers and the radio's
// switch are bench inputs of their own, which the pupil can put right.
func plantable() (codes []string) {
	for d := pulse.Deed(1); d < fault.Count; d++ {
		switch d {
		case fault.CableIn, fault.LowPack, fault.WrongPropeller:
			continue
		}
		codes = append(codes, fault.Code(d))
	}
	return codes
}

// secondField is the field of a fault's second number.
func secondField(w fault.What) string {
	switch w {
	case fault.Channel:
		return "with"
	case fault.EndsAt:
		return "ends-at"
	case fault.Within, fault.Off:
		return "by"
	case fault.Every:
		return "every"
	case fault.From:
		return "from"
	case fault.Nose:
		return "nose"
	}
	return ""
}

// fault reads one planted fault: a word for one without numbers, or {reversed: roll}, {short-travel: throttle, ends-at: 1060},
// {swapped: roll, with: pitch} and so on.
func (p *part) fault(n yamldoc.Node) (f drill.Fault, ok bool) {
	if !n.IsMap() {
		word, ok := n.Word(plantable()...)
		if f.Deed, _ = fault.Find(word); ok && fault.Of(f.Deed).A.Is != fault.Nothing {
			n.Wrong("drill-file.fault-bare", words.Args{"fault": words.Quote(word)})
			return f, false
		}
		return f, ok
	}
	m := n.Map("drill-file.fault")
	for _, k := range m.Keys() {
		word, _ := k.Text()
		if d, known := fault.Find(word); known && slices.Contains(plantable(), word) && f.Deed == 0 {
			f.Deed = d
		}
	}
	if f.Deed == 0 {
		n.Wrong("drill-file.no-fault", words.Args{"faults": listed(plantable())})
		return f, false
	}
	word, of := fault.Code(f.Deed), fault.Of(f.Deed)
	ok = p.number(m.Need(word), of.A, &f.Job, &f.A)
	if field := secondField(of.B.Is); field != "" {
		b := m.Opt(field)
		if of.B.Is != fault.Every {
			b = m.Need(field)
		}
		if b.Exists() {
			ok = p.number(b, of.B, &f.Other, &f.B) && ok
		} else {
			ok = ok && of.B.Is == fault.Every
		}
	}
	m.Done()
	if !ok {
		return f, false
	}
	if a, b := f.A, f.B; true {
		if f.Job != drill.NoJob {
			a = int32(f.Job)
		}
		if f.Other != drill.NoJob {
			b = int32(f.Other)
		}
		if _, can := fault.Plant(f.Deed, a, b); !can {
			n.Wrong("drill-file.fault-numbers")
			return f, false
		}
	}
	if f.Job == drill.Arm && p.c.Craft.Arming == 2 || f.Job == drill.ModeJob && p.c.Craft.FixedMode > 0 || f.Job == drill.Second && p.c.Craft.Second == 0 {
		n.Wrong("drill-file.fault-no-channel", words.Args{"job": words.Quote(jobWords()[f.Job])})
		return f, false
	}
	return f, true
}

// number reads one number of a fault.
func (p *part) number(n yamldoc.Node, q fault.Quantity, job *drill.Job, to *int32) bool {
	switch q.Is {
	case fault.Channel:
		w, ok := n.Word(jobWords()[1:]...)
		*job = drill.Job(slices.Index(jobWords(), w))
		return ok
	case fault.EndsAt, fault.Within, fault.Off:
		v, ok := n.Fixed("us", 1, int64(q.Low), int64(q.High))
		*to = int32(v)
		return ok
	case fault.Millis, fault.Every:
		v, ok := millis(n, 0, mostAfter)
		if *to = v; ok && (v < q.Low || v > q.High) {
			n.Wrong("drill-file.fault-time", words.Args{"n": words.Whole(v), "low": words.Whole(q.Low), "high": words.Whole(q.High)})
			return false
		}
		return ok
	case fault.Wind:
		v, ok := n.Fixed("m/s", 10, int64(q.Low), int64(q.High))
		*to = int32(v)
		return ok
	case fault.From:
		v, ok := n.Fixed("deg", 1, int64(q.Low), int64(q.High))
		*to = int32(v)
		return ok
	case fault.Bank, fault.Nose:
		v, ok := n.Fixed("deg", 10, int64(q.Low), int64(q.High))
		*to = int32(v)
		return ok
	case fault.Receives:
		ways := []string{"falls-silent", "repeats-last", "sends-stored"}
		w, ok := n.Word(ways...)
		*to = int32(slices.Index(ways, w))
		return ok
	}
	n.Wrong("drill-file.fault-alone")
	return false
}
