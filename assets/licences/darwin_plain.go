//go:build darwin && !cgo

package licences

import _ "embed"

//go:embed darwin.txt
var others string
