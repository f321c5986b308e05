//go:build page

package serve

import (
	"embed"
	"io/fs"
)

// built is the page as scripts/web made it before the program was built.
//
//go:embed all:folder
var built embed.FS

// Folder is the page within the program, nil where it was built without one.
func Folder() fs.FS {
	folder, err := fs.Sub(built, "folder")
	if err != nil {
		return nil
	}
	return folder
}
