//go:build !page || js

package licences

const ofPage = ""
