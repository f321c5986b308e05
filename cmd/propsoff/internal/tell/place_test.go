package tell

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"propsoff.example/assets/words"
	"propsoff.example/assets/words/wordstest"
	"propsoff.example/cmd/propsoff/internal/facts"
	"propsoff.example/cmd/propsoff/internal/lossrun"
	"propsoff.example/sim/happening"
	"propsoff.example/sim/hover"
	"propsoff.example/sim/practice"
	"propsoff.example/sim/pulse"
)

// placedAt is a craft that is armed somewhere, its throttle up, and where its place is.
func placedAt(t *testing.T, link string, where int32, high float64, broken bool) *practice.Practice {
	cfg := lossCraft(t, "switch", "when-silent: falls-silent", link).Config()
	p := hover.At(cfg, high, true)
	s := p.Bench().State()
	s.In.Hung, s.In.Held = where == pulse.OnStand, where == pulse.HeightHeld
	s.In.Sent = s.LastValid
	s.In.Sent[cfg.Layout.Arm], s.In.Sent[cfg.Layout.Mode] = cfg.Layout.ArmSpan.Low, pulse.Low
	s.Air.Hold = high
	if high < 0.2 {
		s.Air.Flying, s.Air.Body.Speed = false, [4]float64{}
		s.In.Sent[cfg.Layout.Throttle] = pulse.Micros(1100)
	}
	if s.Air.Flying = s.Air.Flying && !s.In.Hung; broken {
		s.Air.Wreck, s.Air.Flying = happening.ByBlade, false
	}
	p.Bench().Restore(s)
	p.Step(nil)
	return p
}

// Of a craft that its state has sink, on the stand, on the ground or broken, nobody says that it sinks; where a broken one is said to lie, it is said
// to be broken; and only one that is on the ground is said to be there. It holds in every line, at every moment of a loss.
func TestALostLinkIsToldWhereItFindsTheCraft(t *testing.T) {
	sinks, broke, ground := regexp.MustCompile(`\bsinks?\b|\bsinking:|\bsinking,`), regexp.MustCompile(`\bbroken?\b`), regexp.MustCompile(`on the ground|[Tt]hey stood`)
	seen := map[happening.Place]bool{}
	for _, link := range []string{"when-lost: cut", "when-lost: sink, sink-time: 4 s"} {
		for _, way := range []facts.OnLoss{facts.FallsSilent, facts.RepeatsLast, facts.SendsStored} {
			for _, at := range []struct {
				where  int32
				high   float64
				broken bool
			}{{pulse.InAir, 12, false}, {pulse.InAir, 2, false}, {pulse.InAir, 0.03, false}, {pulse.InAir, 0.03, true}, {pulse.OnStand, 1.2, false}, {pulse.HeightHeld, 3, false}} {
				own := placedAt(t, link, at.where, at.high, at.broken)
				set := lossrun.New(own, lossrun.ArmedThrottle)
				var told facts.Teller
				for tick := range 9000 {
					var rs []pulse.Reading
					if tick == 200 || tick == 6500 {
						rs = append(rs, pulse.Reading{Kind: pulse.Link, Value: int32(tick / 6500)})
					}
					set.Step(rs)
					p := set.Craft(int(way))
					var all []words.Text
					for _, h := range p.Happenings() {
						all = append(all, Happening(h, p.Bench().Config()))
					}
					if tick%193 == 0 {
						f := told.Of(p, facts.Whose{Hand: facts.Radio})
						told.Back(&f)
						run := set.Run(int(way))
						c := LossCraft{Cfg: p.Bench().Config(), Run: &run, Snap: &f.Snap, Facts: &f}
						count, _, _ := Countdown(&f)
						all = append(all, Next(&f, Keys{}), State(&f), count, LossDoes(c), LossShort(c))
						f.Watched = true
						all = append(all, Next(&f, Keys{}))
						if run.Phase != lossrun.Waiting {
							all = append(all, LossHeight(&run))
							for _, m := range LossMarks(c) {
								if at.high < 0.2 || f.Snap.In.Hung {
									all = append(all, m.Text)
								}
							}
						}
						seen[f.Place()] = true
					}
					for _, text := range all {
						said, s := spoken(text), p.Bench().State()
						for _, b := range wordstest.Books() {
							require.NotContains(t, b.Say(text), "⟦")
						}
						f := facts.Facts{Craft: *p.Bench().Config()}
						p.Snapshot(&f.Snap)
						if f.Place() != happening.Free || at.high < 0.2 {
							require.NotRegexp(t, sinks, said, "%v, %s, tick %d", at, link, tick)
						}
						if at.high < 0.2 || s.In.Hung {
							require.NotRegexp(t, `\bsank\b`, said)
						}
						if s.Air.Wreck != 0 && regexp.MustCompile(`\blies\b`).MatchString(said) {
							require.Regexp(t, broke, said, "%v, %s, tick %d", at, link, tick)
						}
						if s.In.Hung {
							require.NotRegexp(t, ground, said)
						}
					}
				}
			}
		}
	}
	assert.Len(t, seen, 4, "every place was met")
}
