package main

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	budgetPictures = 21
	nextKeyMS      = 120 // that static/js/main.js waits for another key
)

// sixHundred is a job with an arch of about 600 balloons.
const sixHundred = `{"garlandry":1,"brief":{"title":"Six hundred"},"colours":[` +
	`{"id":"coral","name":"Coral","value":"#e8604c"},{"id":"ink","name":"Ink","value":"#1f3a68"},` +
	`{"id":"sand","name":"Sand","value":"#d9b88a"},{"id":"blush","name":"Blush","value":"#f2c6bf"}],"pieces":[` +
	`{"id":"arch","name":"Arch","kind":"garland","line":"arch","width_mm":7600,"height_mm":6600,"recipe":"3x11@10",` +
	`"colours":[{"colour":"coral","weight":3},{"colour":"ink","weight":2},{"colour":"sand","weight":2},` +
	`{"colour":"blush","weight":1}]}]}`

// typedRecipes types recipes that were never drawn, one after the other. It measures from each keystroke until the
// picture beside the form is painted anew, and counts the picture's balloons.
const typedRecipes = `async (n) => {
	const frame = () => new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel();
		c.port1.onmessage = done; c.port2.postMessage(0); }));
	const until = (holds) => new Promise(done => { const look = () => holds() ? done() : setTimeout(look, 5); look(); });
	const picture = () => document.querySelector('.besideform .front');
	const field = document.querySelector('[name=recipe]'), rows = [];
	for (let i = 1; i <= n; i++) {
		await new Promise(done => setTimeout(done, 500));
		const before = picture().innerHTML;
		field.value = '3x11@' + (10 + i / 100);
		const start = performance.now();
		field.dispatchEvent(new Event('input', { bubbles: true }));
		await until(() => picture().innerHTML !== before);
		await frame();
		rows.push(performance.now() - start + ' ' + picture().querySelectorAll('circle').length);
	}
	return rows.join('\n');
}`

// TestBudgetPicture measures how soon a picture of 600 balloons follows what is typed: counted, placed, drawn with the
// rest of its page, sent to the page and painted. The first picture is that of a core that has just started.
func TestBudgetPicture(t *testing.T) {
	chromium(t)
	budgets(t)
	p, _ := demoPhone(t)
	p.open(p.text(`location.origin`) + "/import")
	p.ready()
	p.fill(`#import textarea`, sixHundred)
	p.tap(`#import button.go`)
	p.until(`location.pathname.startsWith('/jobs/')`)
	p.open(p.text(`location.href`) + "/pieces/arch")
	p.ready()
	slowPhone(t, p, "pictures")
	value, err := chromedp.Run(p.ctx,
		chromedp.Evaluate[string](`(`+typedRecipes+`)(`+strconv.Itoa(budgetPictures)+`)`, chromedp.EvalAwaitPromise))
	p.check(err)
	var shown []float64
	for _, line := range strings.Split(value, "\n") {
		var ms, balloons float64
		_, err := fmt.Sscan(line, &ms, &balloons)
		require.NoError(t, err)
		assert.InDelta(t, 600, balloons, 60)
		shown = append(shown, ms-nextKeyMS)
	}
	require.Len(t, shown, budgetPictures)
	figure("picture of 600 balloons painted as one types, median, 4x", share(shown[1:], .5), "ms", 250)
	figure("picture of 600 balloons painted as one types, p95, 4x", share(shown[1:], .95), "ms", 0)
	figure("the first such picture of a core just started, 4x", shown[0], "ms", 0)
}
