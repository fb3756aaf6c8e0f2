package main

import (
	"testing"
	"time"

	"garlandry/testdata/long"

	"github.com/stretchr/testify/assert"
)

// TestFixesAppearWhileASliderMoves moves a slider while the phone looks for fixes, as it does by itself where the job
// is not safe. The page shows that it is searching, the slider keeps its place and value, the what-if is answered, and
// the fixes appear.
func TestFixesAppearWhileASliderMoves(t *testing.T) {
	long.Test(t, "fixes that appear while a slider moves")
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	phone := newPhone(t, t.TempDir())
	at := server.address + phone.firstJob(server)
	phone.limit = 2 * time.Minute // fixes take a while
	phone.open(at + "/clock")
	phone.ready()
	phone.until(
		`document.querySelector('.looking') &&
			document.querySelector('.looking').innerText.includes('Looking for what would help…')`,
	)
	phone.do()
	phone.text(
		`(() => { const e = document.querySelector('#if-hands');
			e.scrollIntoView({ block: 'center', behavior: 'instant' }); e.focus({ preventScroll: true });
				window.sliderAt = e.getBoundingClientRect().top; e.value = 2;
				e.dispatchEvent(new Event('input', { bubbles: true })); return '' })()`,
	)
	phone.until(`document.querySelector('#whatif label').innerText.startsWith('With 2 more beginners')`)
	phone.until(`document.querySelector('#whatif [role=status]').innerText.includes('Safe bet')`)
	phone.until(`document.querySelector('#fixes') || !document.querySelector('.looking')`)
	assert.Equal(t, "2", phone.text(`document.querySelector('#if-hands').value`))
	assert.Equal(t, "if-hands", phone.text(`document.activeElement.id`))
	assert.Equal(t, "true",
		phone.text(`Math.abs(document.querySelector("#if-hands").getBoundingClientRect().top - window.sliderAt) <= 2`),
		"the slider stays in place, apart from scroll rounding")
}
