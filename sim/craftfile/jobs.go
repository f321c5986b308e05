package craftfile

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"propsoff.example/assets/words"
	"propsoff.example/assets/yamldoc"
	"propsoff.example/sim/layout"
	"propsoff.example/sim/link"
	"propsoff.example/sim/pulse"
)

// Job is a named job without effect on arming (finder sound, lights …) that a channel's spans switch on.
type Job struct {
	Name string
	// Channel counts from 0. A job may share it with others; a position at which two are on is called out.
	Channel int8
	// Spans are those in which the job is on, in the order of the file; at least one.
	Spans []layout.Span
}

// On reports whether the job is on at a width.
func (j *Job) On(w pulse.Width) bool {
	return slices.ContainsFunc(j.Spans, func(s layout.Span) bool { return s.Contains(w) })
}

// More are the named jobs, those besides what the bench knows, in the order of the file.
func (f *File) More() []Job { return f.more }

// The most named jobs of a craft file, and the most spans of one (ours).
const (
	MaxJobs     = 32
	MaxJobSpans = 8
	// MaxJobName is the longest name of a job, in letters (ours: what stands beside a lever).
	MaxJobName = 24
)

// benchJobs are the jobs that the bench knows; takenNames are other words that stand where a job's name may stand, in
// scripts and radio files.
var (
	benchJobs  = []string{"throttle", "roll", "pitch", "yaw", "arm", "second", "mode"}
	takenNames = append(slices.Clone(benchJobs), "link", "power", "cable", "radio", "menu", "tilt", "pack", "at", "after", "over", "expect",
		"within", "nudge", "on", "off", "low", "middle", "high", "none")
	jobLetters  = regexp.MustCompile(`^[A-Za-z\x{C0}-\x{17F}][A-Za-z0-9\x{C0}-\x{17F}]*([ -][A-Za-z0-9\x{C0}-\x{17F}]+)*$`)
	channelName = regexp.MustCompile(`^(ch|channel) ?[0-9]+$`)
)

// checkJobName notes what is wrong with the name of a job.
func checkJobName(key yamldoc.Node, name string) {
	folded := strings.ToLower(name)
	switch {
	case !jobLetters.MatchString(name):
		key.Wrong("craft-file.job-letters")
	case len([]rune(name)) > MaxJobName:
		key.Wrong("craft-file.job-long", words.Args{"most": words.Whole(MaxJobName)})
	case slices.Contains(takenNames, folded):
		key.Wrong("craft-file.job-taken", words.Args{"name": words.Quote(name)})
	case channelName.MatchString(folded):
		key.Wrong("craft-file.job-channel", words.Args{"name": words.Quote(name)})
	}
}

// more reads the named jobs.
func (d *decoder) more(n yamldoc.Node) {
	if !n.Exists() {
		return
	}
	m := n.Map("craft-file.jobs")
	first := map[string]yamldoc.Node{}
	for key, value := range m.Rest() {
		name, ok := key.Text()
		if !ok {
			continue
		}
		checkJobName(key, name)
		if other, taken := first[strings.ToLower(name)]; taken {
			key.Wrong("craft-file.job-capitals", words.Args{"name": words.Quote(name), "line": words.Whole(other.Pos().Line)})
		}
		first[strings.ToLower(name)] = key
		job := Job{Name: name}
		g := value.Map("craft-file.job")
		c, ok := g.Need("channel").Int(1, pulse.Channels)
		if ok {
			job.Channel = int8(c - 1)
		}
		job.Spans = jobSpans(g.Need("on"), name)
		g.Done()
		if !ok || len(job.Spans) == 0 {
			continue
		}
		if len(d.f.more) == MaxJobs {
			key.Wrong("craft-file.jobs-many", words.Args{"most": words.Whole(MaxJobs)})
			continue
		}
		d.f.more = append(d.f.more, job)
		d.f.jobs[name] = c - 1
	}
	m.Done()
}

// jobSpans reads one span or a list of them, none of which overlap.
func jobSpans(n yamldoc.Node, name string) (out []layout.Span) {
	list := []yamldoc.Node{n}
	if n.IsList() {
		list, _ = n.ListOf(1, MaxJobSpans)
	}
	for _, one := range list {
		var s layout.Span
		if !span(one, &s) {
			continue
		}
		for _, o := range out {
			if s.Low < o.High && o.Low < s.High {
				one.Wrong("craft-file.job-overlap", words.Args{"name": words.Quote(name)})
			}
		}
		out = append(out, s)
	}
	return out
}

// storedValues reads the preset. The channels without which no frame is valid must be there: a receiver that leaves
// them out would be one that falls silent.
func (d *decoder) storedValues() {
	if !d.stored.Exists() {
		return
	}
	m := d.stored.Map("craft-file.stored")
	if d.f.cfg.Link.OnLoss != link.SendsStored {
		d.stored.Wrong("craft-file.stored-unsent")
	}
	for _, job := range benchJobs {
		c, has := d.f.jobs[job]
		switch v, there := m.Field(job); {
		case there && !has:
			v.Wrong("craft-file.stored-no-channel", words.Args{"job": words.Quote(job)})
		case there:
			width(v, &d.f.cfg.Link.Stored[c])
		case has && job != "second" && job != "mode":
			m.Need(job)
		}
	}
	d.storedByNumber(m)
	for _, j := range d.f.more {
		v, there := m.Field(j.Name)
		if !there {
			continue
		}
		if to := &d.f.cfg.Link.Stored[j.Channel]; *to != pulse.Missing {
			v.Wrong("craft-file.stored-twice", words.Args{"channel": words.Whole(j.Channel + 1)})
		} else {
			width(v, to)
		}
	}
	m.Done()
}

// channelWord and a number from 1 call a channel that has no job.
const channelWord = "channel "

// storedByNumber reads stored values of channels that are called by their number: a receiver stores those without a job too.
func (d *decoder) storedByNumber(m *yamldoc.Map) {
	for c := range pulse.Channels {
		v, there := m.Field(channelWord + strconv.Itoa(c+1))
		if !there {
			continue
		}
		if i := slices.IndexFunc(benchJobs, func(job string) bool { at, has := d.f.jobs[job]; return has && at == c }); i >= 0 {
			v.Wrong("craft-file.stored-by-number", words.Args{"channel": words.Whole(c + 1), "job": words.Quote(benchJobs[i])})
		} else {
			width(v, &d.f.cfg.Link.Stored[c])
		}
	}
}
