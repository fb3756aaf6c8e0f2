package gallery

import (
	"io"

	g "maragu.dev/gomponents"

	"garlandry/pwa/view"
)

// standalone is the whole document of a page that has no app around it, by the assets of the build.
type standalone func(view.Assets) g.Node

// Render writes the document with the assets as static holds them.
func (a standalone) Render(w io.Writer) error { return a(view.DefaultAssets()).Render(w) }
