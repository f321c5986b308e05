//go:build darwin && cgo

package licences

import _ "embed"

//go:embed darwin-window.txt
var others string
