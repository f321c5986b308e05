//go:build page && !js

package licences

import _ "embed"

// The page that this build serves holds a program of its own.
//
//go:embed browser.txt
var ofPage string
