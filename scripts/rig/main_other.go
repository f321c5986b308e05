//go:build !linux

// Command rig is the virtual radio rig; it makes real devices and so needs Linux.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "rig: the virtual radio rig runs on Linux only")
	os.Exit(2)
}
