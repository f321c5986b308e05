//go:build linux && !(cgo && window)

package licences

import _ "embed"

//go:embed linux.txt
var others string
