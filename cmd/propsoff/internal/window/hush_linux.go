//go:build cgo

package window

// #cgo pkg-config: alsa
//
// #include <alsa/asoundlib.h>
//
// static void quiet(const char *file, int line, const char *function, int err, const char *format, ...) {}
// static void hush(void) { snd_lib_error_set_handler(quiet); }
import "C"

// hush keeps the sound library from writing into the terminal what its search for a device meets on the way; what comes of it is told by
// the error.
func hush() { C.hush() }
