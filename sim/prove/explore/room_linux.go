package explore

import "syscall"

// askLarge advises the system. The advice is for whole large pages, so what lies beside gets them too, and whether it is followed is the
// system's affair.
func askLarge(at, n uintptr) {
	first, end := at&^(largePage-1), (at+n+largePage-1)&^(largePage-1)
	_, _, _ = syscall.Syscall(syscall.SYS_MADVISE, first, end-first, 14) // MADV_HUGEPAGE, madvise(2)
}
