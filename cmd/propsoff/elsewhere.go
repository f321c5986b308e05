package main

import (
	"context"

	"propsoff.example/cmd/propsoff/internal/tell"
	"propsoff.example/cmd/propsoff/internal/terminal"
	"propsoff.example/sim/prove"
)

// elsewhere makes the way to each broken rule again with one control elsewhere, in the order in which rules are told, until the context ends.
func elsewhere(ctx context.Context, l *prove.Layout, r *prove.Report) (all []terminal.TriedOf) {
	for _, i := range tell.NewsFirst(r.Results) {
		one := &r.Results[i]
		if one.Outcome != prove.Broken || one.Way == nil || len(one.Way.Steps) == 0 {
			continue
		}
		around, err := prove.NewAround(l, one)
		if err != nil { // it was searched, so it can be tried
			continue
		}
		of := terminal.TriedOf{Rule: i}
		for _, t := range around.Turns() {
			if ctx.Err() != nil {
				return all
			}
			of.Turns = append(of.Turns, around.Try(t))
		}
		all = append(all, of)
	}
	return all
}
