module propsoff.example

go 1.26.0

require (
	github.com/0xcafed00d/joystick v1.0.1
	github.com/andybalholm/brotli v1.3.0
	github.com/cli/browser v1.3.0
	github.com/go-text/typesetting v0.3.5
	github.com/godbus/dbus/v5 v5.2.4
	github.com/hajimehoshi/ebiten/v2 v2.9.9
	github.com/jeandeaual/go-locale v0.0.0-20250612000132-0ef82f21eade
	github.com/nicksnyder/go-i18n/v2 v2.7.0
	github.com/spf13/cobra v1.10.2
	github.com/spf13/pflag v1.0.9
	github.com/stretchr/testify v1.12.1
	golang.org/x/image v0.48.0
	golang.org/x/net v0.62.0
	golang.org/x/sys v0.50.0
	golang.org/x/term v0.48.0
	gonum.org/v1/gonum v0.17.0
	gopkg.in/yaml.v3 v3.0.1
	pgregory.net/rapid v1.3.0
	rsc.io/qr v0.2.0
)

require github.com/santhosh-tekuri/jsonschema/v6 v6.0.3

require (
	github.com/cpuguy83/go-md2man/v2 v2.0.6 // indirect
	github.com/ebitengine/gomobile v0.0.0-20250923094054-ea854a63cce1 // indirect
	github.com/ebitengine/hideconsole v1.0.0 // indirect
	github.com/ebitengine/oto/v3 v3.4.0
	github.com/ebitengine/purego v0.9.0 // indirect
	github.com/inconshreveable/mousetrap v1.1.0 // indirect
	github.com/jezek/xgb v1.1.1
	github.com/russross/blackfriday/v2 v2.1.0 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/sync v0.25.0 // indirect
	golang.org/x/text v0.44.0
)
