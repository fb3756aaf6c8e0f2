package main

import (
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// watchCovers notes on every page when a cover is first there, and if it is ever gone again while its row stays.
const watchCovers = `(() => {
	const look = () => {
		const cover = document.querySelector('.jobrow .thumbnail');
		if (cover && cover.querySelector('circle')) window.coverSeen = (window.coverSeen || 0) + 1;
		else if (cover && window.coverSeen) window.coverLost = true;
		setTimeout(look, 2);
	};
	look();
})()`

// TestBrowserCoversStay opens the list of jobs anew. The cover that was there is there at once, and the core, which has
// to compute it again, leaves it. A change of the design changes it.
func TestBrowserCoversStay(t *testing.T) {
	inBrowser(t)
	p, server, job := ownersPhone(t)
	_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: watchCovers})
	p.check(err)
	for range 2 {
		p.open(server.address + "/")
		p.ready()
		p.until(`window.coverSeen`)
		seen := p.text(`window.coverSeen + 200`)
		p.until(`window.coverSeen > ` + seen) // the core draws several times meanwhile
		assert.Equal(t, "undefined", p.text(`String(window.coverLost)`))
	}
	before := p.text(`document.querySelector('.jobrow .thumbnail').innerHTML`)
	p.open(server.address + job + "/pieces/door")
	p.ready()
	p.tap(`#copy-piece button`)
	p.sees("Door garland")
	p.open(server.address + "/")
	p.ready()
	p.until(`!document.querySelector('.jobrow .thumbnail[data-later]') &&
		document.querySelector('.jobrow .thumbnail circle')`)
	assert.NotEqual(t, before, p.text(`document.querySelector('.jobrow .thumbnail').innerHTML`))
}
