package licences

import _ "embed"

//go:embed windows.txt
var others string
