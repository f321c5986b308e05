package words

import "syscall"

// system are the messages for what an operating system says most often. What is not here stands as the system words it.
var system = map[syscall.Errno]ID{
	syscall.ENOENT:       "system.no-entry",
	syscall.EACCES:       "system.no-access",
	syscall.EPERM:        "system.not-permitted",
	syscall.EEXIST:       "system.exists",
	syscall.ENOTDIR:      "system.not-folder",
	syscall.EISDIR:       "system.is-folder",
	syscall.EIO:          "system.input-output",
	syscall.ENOSPC:       "system.no-space",
	syscall.EDQUOT:       "system.quota",
	syscall.EFBIG:        "system.too-large",
	syscall.EROFS:        "system.read-only",
	syscall.ENAMETOOLONG: "system.name-long",
	syscall.ELOOP:        "system.links",
	syscall.ENODEV:       "system.no-device",
	syscall.EPIPE:        "system.broken-pipe",
	syscall.EINVAL:       "system.invalid",
}
