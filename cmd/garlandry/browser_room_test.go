package main

import (
	"fmt"
	"strconv"
	"testing"

	"garlandry/app/job"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// The arch of the demo, in the picture of the room.
const (
	inRoom   = `document.querySelector('#room [data-piece="piece/door"]')`
	inRoomAt = inRoom + `?.getAttribute('aria-label')`

	// The middle of one of its balloons, on the screen.
	inRoomMiddle = `(() => { const r = ` + inRoom + `.querySelector('circle').getBoundingClientRect();
		return (r.x + r.width / 2) + ' ' + (r.y + r.height / 2); })()`
)

// pointer sends one event of a mouse at a place of the screen.
func (p *phone) pointer(kind string, x, y float64) {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, input.DispatchMouseEvent, input.DispatchMouseEventParams{
		Type: input.DispatchMouseEventType(kind), X: x, Y: y,
		Button: input.MouseButtonLeft, ClickCount: 1})
	p.check(err)
}

// drags moves the arch by a way on the screen, with a mouse.
func (p *phone) drags(dx, dy float64) {
	p.t.Helper()
	at := p.numbers(inRoomMiddle)
	p.pointer("mousePressed", at[0], at[1])
	p.pointer("mouseMoved", at[0]+dx/2, at[1]+dy/2)
	p.pointer("mouseMoved", at[0]+dx, at[1]+dy)
	p.pointer("mouseReleased", at[0]+dx, at[1]+dy)
}

// redrawsRoom draws the room's page anew, as the core does when others have changed something.
const redrawsRoom = `(async () => {
	const { patch } = await import('/a/' + document.documentElement.dataset.build + '/js/patch.js');
	const drawn = document.querySelector('#page').cloneNode(true), part = drawn.querySelector('[data-piece="piece/door"]');
	for (const name of ['transform', 'data-dragged']) part.removeAttribute(name);
	patch(document.querySelector('#page'), drawn.innerHTML + '<!-- again -->', true);
	window.redrawn = true;
})()`

// swipes moves the arch by a way on the screen, with a finger: slow enough for the browser to want to scroll. The page
// is drawn anew meanwhile.
func (p *phone) swipes(dx, dy float64) {
	p.t.Helper()
	at := p.numbers(inRoomMiddle)
	p.do(touch(input.DispatchTouchEventTypeTouchStart, at[0], at[1]))
	for n := 1.0; n <= 8; n++ {
		p.do(touch(input.DispatchTouchEventTypeTouchMove, at[0]+dx*n/8, at[1]+dy*n/8))
		if n == 4 {
			p.text(`(` + redrawsRoom + `, '')`)
			p.until(`window.redrawn`)
			assert.NotEqual(p.t, "null", p.text(`String(`+inRoom+`.getAttribute('transform'))`), "it stays under the finger")
		}
	}
	assert.Equal(p.t, "0", p.text(`String(scrollY)`), "the page stays too")
	p.do(touch(input.DispatchTouchEventTypeTouchEnd))
}

// A dragged arch stays where it was put: at once, after a reload, and for a helper. Arrow keys move it, Undo takes it
// back, and without scripts the numbers do the same.
func TestPiecesAreArrangedInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	owner, id := withClient(t, server)
	at := server.address + "/jobs/" + id
	link := func(name string, role job.Role) string {
		return freshLink(t, owner, server.address, id, name, string(role))
	}
	lead := newPhone(t, t.TempDir())
	lead.join(link("Bea", job.Lead), "Bea")
	lead.until(`location.pathname.startsWith('/jobs/')`)
	lead.open(at + "/room")
	lead.ready()
	lead.until(inRoom)
	first := lead.text(inRoomAt)
	lead.swipes(30, -60)
	lead.until(inRoomAt + ` !== ` + strconv.Quote(first))
	swiped := lead.text(inRoomAt)
	assert.Contains(t, swiped, "above the floor")
	lead.drags(30, -20)
	lead.until(inRoomAt + ` !== ` + strconv.Quote(swiped))
	moved := lead.text(inRoomAt)
	assert.Contains(t, moved, "above the floor")
	assert.Equal(t, "false", lead.text(inRoom+`.hasAttribute('transform')`), "it is drawn anew")
	lead.until(toasts(moved))
	lead.shot("room-dragged")
	lead.open(at + "/room")
	lead.ready()
	lead.until(inRoomAt + ` === ` + strconv.Quote(moved))

	helper := newPhone(t, t.TempDir())
	helper.join(link("Ines", job.Helper), "Ines")
	helper.until(`location.pathname.endsWith('/next')`)
	helper.open(at + "/room")
	helper.ready()
	helper.until(fmt.Sprintf(`document.querySelector('#room')?.getAttribute('aria-label').includes(%q)`, moved))
	assert.Equal(t, "0", helper.text(`document.querySelectorAll('#room [data-piece], #room-places').length`))

	lead.text(inRoom + `.focus()`)
	lead.check(lead.browser.Press("ArrowRight"))
	lead.until(inRoomAt + ` !== ` + strconv.Quote(moved))
	assert.Equal(t, "piece/door", lead.text(`document.activeElement.dataset.piece`), "the focus stays")
	lead.tap(`#flash form button`)
	lead.until(inRoomAt + ` === ` + strconv.Quote(moved))
	lead.until(`document.querySelector('#state').innerText.includes('hared')`)

	plain := withoutScripts(t)
	plain.joinsByHand(link("Dora", job.Lead), "Dora")
	plain.until(`document.readyState === 'complete' && location.pathname.startsWith('/jobs/')`)
	plain.open(at + "/room")
	plain.until(inRoomAt + ` === ` + strconv.Quote(moved))
	plain.fill(`[name="piece/door.at_mm"]`, "12 ft")
	plain.fill(`[name="piece/door.up_mm"]`, "6 in")
	plain.tapped(`#room-places button.go`)
	plain.until(inRoomAt + `?.endsWith(', middle at 12 ft, 6 in above the floor')`)
	plain.tapped(`#place-piece-door button`)
	plain.until(`document.readyState === 'complete' && !document.querySelector('#place-piece-door button')`)
}
