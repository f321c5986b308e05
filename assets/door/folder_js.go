package door

import "os"

// movesOpen: the page's file layer moves a file while it is open, as rename(2) does.
const movesOpen = true

// openLock opens what is locked for a folder: the folder itself.
func openLock(dir string) (*os.File, error) { return os.Open(dir) }
