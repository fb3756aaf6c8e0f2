// Package static holds what browsers load as it stands: the style sheet, the scripts, the icons, and, once `go generate
// ./...` has run, the bundle in gen with the on-device core. It knows nothing of addresses or headers; package shell
// serves it. Start at [Files].
package static

import "embed"

// Files are the folders css, js, icons and gen. Without a build gen holds nothing but its placeholder.
//
//go:embed css js icons all:gen
var Files embed.FS

//go:generate go run ./draw
