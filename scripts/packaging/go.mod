module propsoff.example/scripts/packaging

go 1.26.4

require (
	github.com/google/licenseclassifier/v2 v2.0.0
	propsoff.example v0.0.0
)

require (
	github.com/davecgh/go-spew v1.1.1 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/kr/pretty v0.3.1 // indirect
	github.com/nicksnyder/go-i18n/v2 v2.7.0 // indirect
	github.com/rogpeppe/go-internal v1.14.1 // indirect
	github.com/sergi/go-diff v1.4.0 // indirect
	golang.org/x/text v0.44.0 // indirect
	gopkg.in/check.v1 v1.0.0-20201130134442-10cb98267c6c // indirect
	gopkg.in/yaml.v3 v3.0.1 // indirect
)

replace propsoff.example => ../..
