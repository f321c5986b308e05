#include <X11/Xlib.h>
#include <fcntl.h>
#include <malloc.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define HANDED_OVER "PROPSOFF_HANDED_OVER"

// The first is notice.no-display of the English catalogue, word for word; a test compares them.
static const char noDisplay[] = "There is no display to open a window on. In the terminal, “propsoff watch” shows your radio live, "
	"and “propsoff run --live demo” plays the demo pilot.\n";
static const char alone[] = "There is no display to open a window on, and the program propsoff is not beside this one: it does all that "
	"needs no display. Build it with \"CGO_ENABLED=0 go build ./cmd/propsoff\".\n";

// arguments reads the command line of this process from the kernel: the C library hands it to no constructor on every system.
static char **arguments(void) {
	int f = open("/proc/self/cmdline", O_RDONLY);
	if (f < 0)
		return NULL;
	size_t n = 0, room = 4096;
	char *text = malloc(room + 1);
	for (ssize_t got; text && (got = read(f, text + n, room - n)) > 0;)
		if ((n += got) == room)
			text = realloc(text, (room *= 2) + 1);
	close(f);
	if (!text || n == 0)
		return NULL;
	text[n] = 0;
	size_t count = 0;
	for (size_t i = 0; i < n; i++)
		count += text[i] == 0;
	char **all = calloc(count + 2, sizeof *all);
	for (size_t i = 0, k = 0; all && i < n; i += strlen(text + i) + 1)
		all[k++] = text + i;
	return all;
}

// handOver puts the plain program beside this one in the place of this process, where there is one.
static void handOver(void) {
	static char path[4096];
	static const char plain[] = "propsoff";
	ssize_t n = readlink("/proc/self/exe", path, sizeof path - sizeof plain);
	if (n <= 0)
		return;
	path[n] = 0;
	char *name = strrchr(path, '/');
	if (!name)
		return;
	strcpy(name + 1, plain);
	char **all = arguments();
	if (!all || access(path, X_OK) != 0 || setenv(HANDED_OVER, "1", 1) != 0)
		return;
	all[0] = path;
	execv(path, all);
}

static void say(const char *text) {
	if (write(STDERR_FILENO, text, strlen(text)) < 0)
		return;
}

__attribute__((constructor)) static void begin(void) {
#ifdef M_TRIM_THRESHOLD
	// Drawing without a graphics card takes memory for each picture's triangles and gives it back. By itself this C library hands that to
	// the system every time and gets it back page by page: thousands of page faults a second.
	mallopt(M_TRIM_THRESHOLD, 64 << 20);
#endif
	XInitThreads(); // it must be the first call of this library, and the engine uses threads
	Display *display = XOpenDisplay(NULL);
	if (display) {
		XCloseDisplay(display);
		return;
	}
	const char *handed = getenv(HANDED_OVER);
	if (!handed) {
		handOver();
		say(alone);
	} else {
		say(noDisplay);
	}
	_exit(3);
}
