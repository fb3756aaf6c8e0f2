package view

import (
	g "maragu.dev/gomponents"
)

// Waiting is what the empty shell shows for the moment until the phone's own core has drawn the page.
func Waiting(f Frame) g.Node {
	return fixed(`<section class="waiting"><h1 class="vh">Garlandry</h1><p class="soft">Opening what is on this phone.</p>
		<p id="stuck" role="status" hidden>This phone cannot draw its pages just now, and there is no signal to fetch them. What you ticked is kept. <a class="plainlink" href="">Try again</a></p>
		<noscript><p>Scripts are off, so this phone cannot draw its pages. Open the app with signal, or turn scripts on.</p></noscript></section>`)
}
