//go:build !page

package serve

import "io/fs"

// Folder is the page within the program, nil where it was built without one.
func Folder() fs.FS { return nil }
