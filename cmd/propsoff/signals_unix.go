//go:build unix

package main

import (
	"os"
	"syscall"
)

func hangsUp(s os.Signal) bool { return s == syscall.SIGHUP }

func endingSignals() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} }
