//go:build !unix

package main

import (
	"os"
	"syscall"
)

func hangsUp(os.Signal) bool { return false }

// endingSignals: what closes a window of the system, or ends its session, comes as SIGTERM.
func endingSignals() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM} }
