package main

import "propsoff.example/cmd/propsoff/internal/ink"

// pageColours are the colours of the page's own strip and cover, by their names in assets/page/page.css, as a sheet has them.
func pageColours(t *ink.Theme) map[string]string {
	all := map[string]string{}
	for name, role := range map[string]ink.Role{
		"paper": ink.Paper, "panel": ink.Panel, "ink": ink.Ink, "faint": ink.Faint, "rule": ink.Rule, "grid": ink.Grid,
		"trouble": ink.Armed, "go": ink.Disarmed, "focus": ink.Focus,
	} {
		all[name] = t.Colour(role).String()
	}
	return all
}
