package tell

import (
	"propsoff/assets/words"
	"propsoff/input/learn"
)

// Noticed says what was noticed last while a radio is learned; nothing for nothing.
func Noticed(n learn.Notice) words.Text {
	control := words.Args{"control": RawName(n.Axis, n.Button)}
	share := words.Args{"control": control["control"], "share": Tenths(int64(n.Share))}
	job := JobName(n.Job)
	switch n.Code {
	case learn.StillMoving:
		return words.T("noticed.still-moving", share)
	case learn.Restless:
		return words.T("noticed.restless", share)
	case learn.TooLittle:
		return words.T("noticed.too-little", share)
	case learn.NotAtEnd:
		return words.T("noticed.not-at-end", share)
	case learn.Two:
		one, other := noticedPair(n)
		return words.T("noticed.two-moved", words.Args{"one": one, "other": other})
	case learn.Taken:
		return words.T("noticed.taken", words.Args{"control": control["control"], "job": job})
	case learn.WantStick:
		return words.T("noticed.want-stick", control)
	case learn.StartFirst:
		return words.T("noticed.start-first", control)
	case learn.TooQuick:
		return words.T("noticed.too-quick", control)
	case learn.Mixed:
		return noticedMix(n)
	case learn.Springs:
		return words.T("noticed.springs", share)
	case learn.NoSpring:
		share["job"] = job
		return words.T("noticed.no-spring", share)
	case learn.TurnedRound:
		return words.T("noticed.turned-round", words.Args{"job": job})
	case learn.NotThere:
		return words.T("noticed.not-there", words.Args{"job": job, "share": share["share"]})
	case learn.NoChannel:
		return words.T("noticed.no-channel", control)
	case learn.MorePositions:
		return words.T("noticed.more-positions", words.Args{"job": job, "n": words.Count(n.Count)})
	case learn.Lost:
		return words.T("noticed.readings-lost")
	case learn.CannotSkip:
		return words.T("noticed.cannot-skip")
	}
	return words.Text{}
}

// noticedPair are the two controls that a notice is about, with the jobs that they have already.
func noticedPair(n learn.Notice) (one, other words.Text) {
	return withJob(RawName(n.Axis, n.Button), n.Job), withJob(RawName(n.OtherAxis, n.OtherButton), n.OtherJob)
}

// noticedMix says of one movement that moves two axes by how much, and where such a thing comes from.
func noticedMix(n learn.Notice) words.Text {
	one, other := noticedPair(n)
	return words.T("noticed.mixed", words.Args{"one": one, "other": other, "against": words.Flag(n.Share < 0), "share": Tenths(int64(max(n.Share, -n.Share)))})
}

// CornerWords says where one stick direction, called by a name, stands in the check of all at once.
func CornerWords(name words.Text, c learn.Corner) words.Text {
	switch {
	case c.There:
		return words.T("noticed.corner-there", words.Args{"name": name})
	case c.Turned:
		return words.T("noticed.corner-turned", words.Args{"name": name})
	}
	return words.T("noticed.corner-share", words.Args{"name": name, "share": Tenths(int64(c.Share))})
}
