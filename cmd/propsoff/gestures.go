package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"propsoff/assets/mouth"
	"propsoff/cmd/propsoff/internal/phrase"
	"propsoff/gestures"
	"propsoff/sim"
)

type gestureFlags struct {
	file string
	mode int
	json bool
}

func newGestures(w *world) *cobra.Command {
	var gf gestureFlags
	cmd := &cobra.Command{
		Use:   "gestures",
		Short: "List the two-stick gestures with drawings",
		Long: "List the two-stick gestures: both sticks drawn, what they carry, how long they are held, what they open, and what they have\n" +
			"to do with arming by sticks. Without --gestures they are your own, from gestures.yaml in your configuration folder, or\n" +
			"the shipped examples.",
		Args: noArguments,
		RunE: func(*cobra.Command, []string) error { return listGestures(w, &gf) },
	}
	f := cmd.Flags()
	f.StringVar(&gf.file, "gestures", "", "gesture `FILE`: the two-stick gestures and the menus that they open")
	f.IntVar(&gf.mode, "stick-mode", 2, "draw them for stick mode `N`, 1 to 4")
	f.BoolVar(&gf.json, "json", false, "print one JSON object a line")
	cmd.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		var bad *pflag.InvalidValueError
		if errors.As(err, &bad) && bad.GetFlag().Name == "stick-mode" {
			return fmt.Errorf("--stick-mode %s: %s", bad.GetValue(), stickModes)
		}
		return flagError(cmd, err)
	})
	return cmd
}

func listGestures(w *world, gf *gestureFlags) error {
	if gf.mode < 1 || gf.mode > 4 {
		return badInput(fmt.Errorf("--stick-mode %d: %s", gf.mode, stickModes))
	}
	cfg := sim.Default()
	g, err := w.loadGestures(gf.file, "", true, cfg.SlotTicks)
	if err != nil {
		return err
	}
	mode := uint8(gf.mode)
	var out []byte
	if !gf.json {
		out = append(out, phrase.GestureList(mode, len(g.Gestures.Patterns), g.shipped)+"\n"...)
	}
	for n := range g.Gestures.Patterns {
		opens, name := "", ""
		if i := int(g.Gestures.Patterns[n].Opens); i > 0 {
			opens, name = g.Menus.Menus[i-1].Code, g.Menus.Menus[i-1].Name
		}
		if gf.json {
			out = append(mouth.AppendJSON(out, gestureLine(&g.Gestures, n, mode, opens)), '\n')
			continue
		}
		out = append(out, '\n')
		for _, line := range phrase.GestureText(&g.Gestures, n, mode, name) {
			out = append(append(out, mouth.Printable(line)...), '\n')
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
		Gesture: p.Code, Name: p.Name, By: "job", StickMode: mode, Opens: opens, Arms: phrase.Touch(c.Arm), Disarms: phrase.Touch(c.Disarm),
	}
	if p.Physical {
		l.By = "stick"
	}
	for i := range int(p.Count) {
		s, j := p.StickZones(i, mode), p.JobZones(i, mode)
		l.Parts = append(l.Parts, gesturePart{
			LeftAcross: phrase.ZoneWord(s[gestures.LeftAcross]), LeftUp: phrase.ZoneWord(s[gestures.LeftUp]),
			RightAcross: phrase.ZoneWord(s[gestures.RightAcross]), RightUp: phrase.ZoneWord(s[gestures.RightUp]),
			Throttle: phrase.ZoneWord(j[gestures.Throttle]), Roll: phrase.ZoneWord(j[gestures.Roll]),
			Pitch: phrase.ZoneWord(j[gestures.Pitch]), Yaw: phrase.ZoneWord(j[gestures.Yaw]),
			Hold: int(p.Parts[i].Dwell) * int(cfg.SlotTicks), Within: int(p.Parts[i].Within) * int(cfg.SlotTicks),
		})
	}
	return l
}
