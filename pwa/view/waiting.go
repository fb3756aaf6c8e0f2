package view

import (
	g "maragu.dev/gomponents"
)

// Waiting is what the empty shell shows for the moment until the phone's own core has drawn the page.
func Waiting(f Frame) g.Node {
	return fixed(`<section class="waiting"><h1 class="vh">Garlandry</h1><p class="soft">Opening what is on this phone.</p>
		<noscript><p>Scripts are off, so this phone cannot draw its pages. Open the app with signal, or turn scripts on.</p></noscript></section>`)
}
