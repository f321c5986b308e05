package tell

import (
	"propsoff.example/assets/words"
	"propsoff.example/sim/drill"
	"propsoff.example/sim/drill/drillfile"
)

// didJobs are the messages of the controls that a hand moves, as they begin a sentence.
var didJobs = [drill.Jobs]words.ID{drill.Throttle: "drill.hand-throttle", drill.Roll: "drill.hand-roll", drill.Pitch: "drill.hand-pitch", drill.Yaw: "drill.hand-yaw",
	drill.Arm: "drill.hand-arm", drill.ModeJob: "drill.hand-mode", drill.Second: "drill.hand-second"}

// dids are the messages of what a hand did.
var dids = map[drill.DidKind]words.ID{
	drill.DidNothing: "drill.did-nothing", drill.DidEarly: "drill.did-early", drill.DidLate: "drill.did-late", drill.DidFirst: "drill.did-first",
	drill.DidToo: "drill.did-too", drill.DidShort: "drill.did-short", drill.DidThrough: "drill.did-through", drill.DidOther: "drill.did-other",
	drill.DidWrongWay: "drill.did-wrong-way", drill.DidElsewhere: "drill.did-elsewhere",
}

// DrillDid says in a sentence what the hand did in a try that was not right; nothing where there is nothing to say.
func DrillDid(d *drill.Did) words.Text {
	if t := flewDid(d); !t.Empty() {
		return t
	}
	id, ok := dids[d.Kind]
	if !ok {
		return words.Text{}
	}
	job := func(j drill.Job) words.Text {
		if didJobs[j] == "" {
			return words.Text{}
		}
		return words.T(didJobs[j])
	}
	var way, time words.Text
	if d.Way > 0 {
		way = Width(d.Way)
	}
	if d.By > 0 {
		time = Seconds(max(nearest(d.By, 10), 1) * 10)
	}
	return words.T(id, words.Args{"job": job(d.Job), "instead": job(d.Instead), "way": way, "time": time, "at": Width(d.At),
		"zone": StickZones(d.Job, d.Zones)})
}

// DrillCount says what tries came to for whoever made them: how many were right, and nothing of times.
func DrillCount(s drill.Summary) words.Text {
	s.Timed = 0
	return DrillSum(s)
}

// DrillSource says where what a drill teaches comes from; nothing where its file does not say.
func DrillSource(d *drillfile.Drill) words.Text {
	if d.Source == "" {
		return words.Text{}
	}
	return words.T("drill.source", words.Args{"source": DrillText(d.Config.Code, d.Source)})
}
