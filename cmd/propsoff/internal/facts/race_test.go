//go:build race

package facts

// inCI is how many situations TestAdviceIsKept goes through unless told otherwise; scripts/test runs it without the race detector too.
const inCI = 200
