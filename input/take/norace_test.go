//go:build !race

package take

const killed = 200
