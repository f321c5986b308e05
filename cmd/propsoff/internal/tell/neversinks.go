package tell

import (
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/facts"
	"propsoff/sim"
)

// neverSinks says why a craft that is to sink never does with its receiver; it says nothing where it sinks, or is not to.
func neverSinks(cfg *sim.Config) words.Text {
	q := facts.Silence(cfg)
	switch {
	case !q.NeverSinks(cfg):
		return words.Text{}
	case q.ByValues():
		after := words.Text{}
		if !q.AtOnce(cfg) {
			after = Seconds(q.Disarmed)
		}
		return words.T("never-sinks.disarmed", words.Args{"after": after})
	case cfg.Link.OnLoss == facts.RepeatsLast:
		return words.T("never-sinks.repeated")
	}
	return words.T("never-sinks.stored")
}
