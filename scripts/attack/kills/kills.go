//go:build linux

// Package kills kills whatever writes, at any moment, and has several writers save one thing at once, and looks whether anything that
// was acknowledged is lost.
package kills

import (
	"context"

	"propsoff/scripts/attack/tally"
)

// What can fail, as the table has it.
const (
	Lost       = "acknowledged, lost"
	Torn       = "torn"
	PartLeft   = "part left at next start"
	RadioLost  = "radio file lost"
	OldVersion = "saved over an old version"
)

type Options struct {
	Program, Saver, Dir           string
	Seed                          uint64
	Kills, Rounds, Saves, Workers int
}

func Of(k tally.Kind) bool { return false }

func Run(ctx context.Context, o Options, t *tally.Tally) error { return nil }
