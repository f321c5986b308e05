//go:build linux && cgo && window

package licences

import _ "embed"

//go:embed linux-window.txt
var others string
