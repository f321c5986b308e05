package main

import (
	"github.com/spf13/cobra"

	"propsoff.example/cmd/propsoff/internal/world"
)

// outside are the commands that a page has no use for: none are there.
func outside(*world.World) []*cobra.Command { return nil }
