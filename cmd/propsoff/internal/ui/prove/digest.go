package prove

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"runtime/debug"
	"strconv"

	"propsoff.example/cmd/propsoff/internal/ui/screen"
	"propsoff.example/sim"
	"propsoff.example/sim/prove"
)

// digest tells what a search comes to from what any other does: it is of the texts, of the craft and the radio as they were read from them, of the model
// and the rules, and of the program itself, as a later one may know a rule better.
func digest(key *screen.SearchKey, l *prove.Layout, program string) string {
	cfg := l.Config
	cfg.Gestures, cfg.Menus = nil, nil // where they are kept is no part of it
	all := []string{program, strconv.Itoa(sim.Model), key.Craft, key.Gestures, key.Radio, fmt.Sprintf("%+v", cfg)}
	if g := l.Config.Gestures; g != nil {
		all = append(all, fmt.Sprintf("%+v", *g))
	}
	if m := l.Config.Menus; m != nil {
		all = append(all, fmt.Sprintf("%+v", *m))
	}
	for r := range prove.RuleCount {
		all = append(all, r.Code())
	}
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" || s.Key == "vcs.modified" {
				all = append(all, s.Value)
			}
		}
	}
	h := sha256.New()
	for _, text := range all {
		fmt.Fprintf(h, "%d %s\n", len(text), text)
	}
	return hex.EncodeToString(h.Sum(nil))
}
