// Package breath lets a browser do its part while something long is worked out.
//
// There the whole program has one thread, which is the page's too: while a goroutine computes, nothing is drawn, no radio is read and no key is heard. On any
// other system a goroutine that computes is in nobody's way, and nothing is done here.
package breath
