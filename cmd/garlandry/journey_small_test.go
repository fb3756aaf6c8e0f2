package main

import (
	"strings"
	"testing"

	"garlandry/testdata/browsertest"

	"github.com/stretchr/testify/assert"
)

// cramped lists what a small screen or large text spoils on the page: sideways scrolling, text cut off by its box,
// parts beyond the edge, words in pieces, and targets below 44 px. The target of a box or a radio button is its label.
// Links within a sentence have their line's height.
const cramped = `(() => {
	const wrong = [];
	const seen = (e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest('.vh, svg, .skip, .stateline.ok');
	const name = (e) => e.nodeName + '.' + e.className + ' “' + e.textContent.trim().slice(0, 30) + '” ';
	if (document.documentElement.scrollWidth > innerWidth)
		wrong.push('scrolls sideways to ' + document.documentElement.scrollWidth);
	for (const e of document.querySelectorAll('body *')) {
		if (!seen(e) || !e.getClientRects().length) continue;
		const r = e.getBoundingClientRect(), style = getComputedStyle(e);
		if (r.right > innerWidth + 1 || r.left < -1) wrong.push(name(e) + r.left + '-' + r.right + ' of ' + innerWidth);
		const cuts = style.overflowX !== 'visible' && style.textOverflow !== 'ellipsis' && !e.matches('input, select');
		if (cuts && e.scrollWidth > e.clientWidth + 1) wrong.push(name(e) + e.scrollWidth + ' of ' + e.clientWidth + ' cut');
	}
	const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let n; (n = texts.nextNode());) {
		if (!seen(n.parentElement) || n.parentElement.closest('textarea, select')) continue;
		for (const word of n.data.matchAll(/\p{L}{4,}/gu)) {
			const range = document.createRange();
			range.setStart(n, word.index);
			range.setEnd(n, word.index + word[0].length);
			const lines = new Set([...range.getClientRects()].map((r) => Math.round(r.top))).size;
			if (lines > 1 && word[0].length / lines < 4) wrong.push(word[0] + ' stands in ' + lines + ' lines');
		}
	}
	for (const e of document.querySelectorAll('button, summary, a[href], select, textarea, input:not([type=hidden])')) {
		const target = /^(checkbox|radio)$/.test(e.type) && e.closest('label') || e;
		if (!seen(target) || e.disabled || getComputedStyle(target).display === 'inline') continue;
		const r = target.getBoundingClientRect();
		if (r.height < 43.5 || r.width < 43.5) wrong.push(name(target) + 'is ' + r.width + 'x' + r.height);
	}
	return JSON.stringify(wrong.slice(0, 6));
})()`

// fits checks the page as it stands.
func (p *phone) fits(where string) {
	p.t.Helper()
	p.until(`document.readyState === 'complete' && document.querySelector('#page > *')`)
	p.shot(strings.ReplaceAll(p.t.Name()+" "+where, "/", " "))
	assert.Equal(p.t, "[]", p.text(cramped), where)
}

// TestBrowserOnSmallScreens makes a plan, builds a recipe and ticks on the narrowest phone, and with text at 200 %. All
// is tapped where a finger would, so that nothing may cover it, and each page is checked as it is operated.
func TestBrowserOnSmallScreens(t *testing.T) {
	for _, row := range []struct {
		name          string
		letters       int64 // percent
		width, height int
	}{{"320 px", 100, 320, 568}, {"text at 200 %", 200, 390, 844}} {
		t.Run(row.name, func(t *testing.T) {
			inBrowser(t)
			server := startServer(t, t.TempDir(), "", false)
			p := newPhone(t, t.TempDir(), browsertest.Optimised)
			p.check(browsertest.Letters(p.ctx, row.letters))
			p.check(p.browser.Size(row.width, row.height))
			p.open(server.link)
			p.until(`document.querySelector('#join [name=token]').value`)
			p.fits("join")
			p.tapped(`#join button[type=submit]`)
			p.until(`location.pathname === '/'`)
			p.ready()
			p.fits("jobs")
			p.plansInLittleRoom()
			p.buildsARecipeInLittleRoom()
			p.ticksInLittleRoom()
		})
	}
}

// plansInLittleRoom taps a new job together.
func (p *phone) plansInLittleRoom() {
	p.t.Helper()
	p.tapped(`#page a[href="/new"]`)
	p.until(`document.querySelector('#new-job')`)
	p.fits("new job")
	for _, key := range []string{"garland", "column", "wall"} {
		p.tapped(`#new-job label:has([name=build][value=` + key + `])`)
	}
	for _, colour := range []string{"coral", "sea-green", "silver-mirror"} {
		p.tapped(`#new-job label:has([name=colours][value=` + colour + `])`)
	}
	p.tapped(`#new-job [data-of=column] [data-step=up]`)
	p.tapped(`#start-hands [data-step=up]`)
	p.tapped(`#start-more summary`)
	p.until(`/^[0-9]+ balloons$/.test(document.querySelector('#start-sum').innerText)`)
	p.fits("new job, filled in")
	assert.Equal(p.t, "3 3", p.text(`document.querySelector('#new-job [name="piece.column"]').value + ' ' +
		document.querySelector('#new-job [name=crew]').value`))
	p.fill(`#new-job [name="piece.wall"]`, "3 x")
	p.tapped(`#new-job button.go`)
	p.until(`document.querySelector('#f-piece_2ewall-error')`)
	p.fits("new job, refused")
	p.fill(`#new-job [name="piece.wall"]`, "3 x 2 m")
	p.tapped(`#new-job button.go`)
	p.until(`document.querySelector('#next-card')`)
	p.fits("overview")
}

// buildsARecipeInLittleRoom changes a garland's recipe by taps.
func (p *phone) buildsARecipeInLittleRoom() {
	p.t.Helper()
	p.tapped(`#nav a[href$="/pieces"]`)
	p.until(at("/pieces"))
	p.fits("pieces")
	p.tapped(`#pieces a[href$="/pieces/garland"]`)
	p.until(`document.querySelector('#f-recipe-builder')`)
	p.fits("piece")
	recipe := `document.querySelector('#edit-piece [name=recipe]').value`
	p.tapped(`#f-recipe-builder label:has([name="recipe.usual"][value="3x11@10"])`)
	p.until(recipe + ` === '3x11@10'`)
	p.tapped(`#f-recipe-builder label:has([name="recipe.sizes"][value="18"])`)
	p.until(recipe + ` === '3x11@10 + 1x18@16'`)
	p.tapped(`#f-recipe-builder .recipepart [data-step=down]`)
	p.until(recipe + ` === '2x11@10 + 1x18@16'`)
	p.tapped(`#f-recipe-text summary`)
	p.fits("recipe, tapped together")
	p.tapped(`#edit-piece button.go`)
	p.until(at("/pieces") + ` && ` + toasts("aved"))
	p.fits("pieces, with a toast")
}

// ticksInLittleRoom opens the other pages of the main flow, and ticks a card.
func (p *phone) ticksInLittleRoom() {
	p.t.Helper()
	for _, page := range []string{"counts", "pack", "clock", "cards"} {
		p.tapped(`#nav a[href$="/` + page + `"]`)
		p.until(at("/" + page))
		p.fits(page)
	}
	p.tapped(`#page .tickrow .box`)
	p.until(toasts(": "))
	p.fits("cards, with a toast")
	p.tapped(`#page .tickrow a[href*="/cards/make/"]`)
	p.until(`document.querySelector('form:has([name=act][value=add])')`)
	p.fits("card")
	p.tapped(`form:has([name=act][value=add]):has([name=n][value="1"]) button`)
	p.until(`document.querySelector('.big').innerText.startsWith('1')`)
	p.fits("card, counted")
}
