//go:build !race

package facts

// inCI is how many situations TestAdviceIsKept goes through unless told otherwise.
const inCI = 2000
