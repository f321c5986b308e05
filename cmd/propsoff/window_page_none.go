//go:build windows || darwin || (cgo && window)

package main

import (
	"context"

	"propsoff.example/assets/words"
	"propsoff.example/cmd/propsoff/internal/ink"
	"propsoff.example/cmd/propsoff/internal/ui"
	"propsoff.example/cmd/propsoff/internal/ui/screen"
)

// inPage: the window is one of the system's.
const inPage = false

// byFinger: it is not known beforehand what a person points with.
func byFinger() bool { return false }

// pans: the system moves what is larger than its screen.
var pans func(across, down float64)

// pageDoes gives nothing: there is no page round the window.
func pageDoes(*screen.Screen) (does <-chan func(*ink.Page), turned func()) { return nil, func() {} }

// pageSays: nothing reads a window out.
func pageSays(func() *ui.View) func(text words.Text, urgent bool) { return nil }

// waitForPicture does not wait: a first picture that takes its time keeps a practice from nothing there.
func waitForPicture(context.Context) {}

// gives: papers are saved where a person finds them.
var gives func(path string) error
