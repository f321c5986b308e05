// Package licences carries the licence of the program, and the texts that are due for whatever of others this build holds.
//
// The files are written by scripts/packaging/licences, one for each kind of build, and held by a test against what Go builds it from. The
// program of the page carries none of them: there the file lies beside it.
package licences

import _ "embed"

//go:embed own.txt
var own string

// Own is the licence of the program.
func Own() string { return own }

// OfOthers are the texts that are due in this build for the work of others, and then for what is in the page that it serves; empty where the
// build does not carry them.
func OfOthers() string { return others + ofPage }
