//go:build !linux && !windows && !darwin

package licences

const others = ""
