package main

import (
	"github.com/spf13/cobra"

	"propsoff/assets/mouth"
	"propsoff/assets/words"
	"propsoff/cmd/propsoff/internal/codes"
	"propsoff/cmd/propsoff/internal/exit"
	"propsoff/cmd/propsoff/internal/tell"
	"propsoff/cmd/propsoff/internal/world"
	"propsoff/gestures"
	"propsoff/sim"
)

type gestureFlags struct {
	file string
	mode int
	json bool
}

func newGestures(w *world.World) *cobra.Command {
	var gf gestureFlags
	cmd := &cobra.Command{
		Use:   "gestures",
		Short: w.Say(words.T("command.gestures")),
		Long:  w.Say(words.T("command.gestures-about")),
		Args:  noArguments,
		RunE:  func(*cobra.Command, []string) error { return listGestures(w, &gf) },
	}
	f := cmd.Flags()
	f.StringVar(&gf.file, "gestures", "", w.Say(words.T("flag.gestures")))
	f.IntVar(&gf.mode, "stick-mode", 2, w.Say(words.T("flag.stick-mode-drawn")))
	jsonFlag(w, cmd, &gf.json)
	return cmd
}

func listGestures(w *world.World, gf *gestureFlags) error {
	if gf.mode < 1 || gf.mode > 4 {
		return exit.BadInput(words.Wrong("refused.stick-mode", words.Args{"value": words.Whole(gf.mode)}))
	}
	cfg := sim.Default()
	g, err := w.LoadGestures(gf.file, "", true, cfg.SlotTicks)
	if err != nil {
		return err
	}
	mode := uint8(gf.mode)
	var out []byte
	if !gf.json {
		out = append(out, w.Say(tell.GestureList(mode, len(g.Gestures.Patterns), g.Shipped))+"\n"...)
	}
	for n := range g.Gestures.Patterns {
		opens, name := "", words.Text{}
		if i := int(g.Gestures.Patterns[n].Opens); i > 0 {
			opens, name = g.Menus.Menus[i-1].Code, tell.MenuName(&g.Menus.Menus[i-1])
		}
		if gf.json {
			out = append(mouth.AppendJSON(out, gestureLine(&g.Gestures, n, mode, opens)), '\n')
			continue
		}
		out = append(out, '\n')
		for _, line := range tell.GestureText(&g.Gestures, n, mode, name) {
			out = append(append(out, mouth.Printable(w.Say(line))...), '\n')
		}
	}
	return put(w, out)
}

// listedGesture is a gesture as a JSON line.
type listedGesture struct {
	Gesture   string        `json:"gesture"`
	Name      string        `json:"name"`
	By        string        `json:"by"`
	StickMode uint8         `json:"stick_mode"`
	Parts     []gesturePart `json:"parts"`
	Opens     string        `json:"opens,omitempty"`
	Arms      string        `json:"arm_corner"`
	Disarms   string        `json:"disarm_corner"`
}

// gesturePart is one stand: where each stick direction is by physical stick and by job, and the times in ms.
type gesturePart struct {
	LeftAcross  string `json:"left_across"`
	LeftUp      string `json:"left_up"`
	RightAcross string `json:"right_across"`
	RightUp     string `json:"right_up"`
	Throttle    string `json:"throttle"`
	Roll        string `json:"roll"`
	Pitch       string `json:"pitch"`
	Yaw         string `json:"yaw"`
	Hold        int    `json:"hold_ms"`
	Within      int    `json:"within_ms,omitempty"`
}

func gestureLine(cfg *gestures.Config, n int, mode uint8, opens string) listedGesture {
	p := &cfg.Patterns[n]
	c := gestures.Corners(cfg, n, mode)
	l := listedGesture{
		Gesture: p.Code, Name: p.Name, By: "job", StickMode: mode, Opens: opens, Arms: codes.Touch(c.Arm), Disarms: codes.Touch(c.Disarm),
	}
	if p.Physical {
		l.By = "stick"
	}
	for i := range int(p.Count) {
		s, j := p.StickZones(i, mode), p.JobZones(i, mode)
		l.Parts = append(l.Parts, gesturePart{
			LeftAcross: codes.ZoneWord(s[gestures.LeftAcross]), LeftUp: codes.ZoneWord(s[gestures.LeftUp]),
			RightAcross: codes.ZoneWord(s[gestures.RightAcross]), RightUp: codes.ZoneWord(s[gestures.RightUp]),
			Throttle: codes.ZoneWord(j[gestures.Throttle]), Roll: codes.ZoneWord(j[gestures.Roll]),
			Pitch: codes.ZoneWord(j[gestures.Pitch]), Yaw: codes.ZoneWord(j[gestures.Yaw]),
			Hold: int(p.Parts[i].Dwell) * int(cfg.SlotTicks), Within: int(p.Parts[i].Within) * int(cfg.SlotTicks),
		})
	}
	return l
}
