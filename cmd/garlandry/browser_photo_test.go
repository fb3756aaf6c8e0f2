package main

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"math"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
	"garlandry/testdata"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wallPhoto writes a PNG of a wall, 2,000 px wide: light above, a dark floor below, a red door.
func wallPhoto(t *testing.T) string {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 2000, 1500))
	for y := range 1500 {
		for x := range 2000 {
			c := color.RGBA{uint8(180 + x%7*4), uint8(170 + y%5*4), 160, 255}
			switch {
			case y > 1300:
				c = color.RGBA{70, 50, 40, 255}
			case x > 1500 && x < 1800 && y > 600:
				c = color.RGBA{160, 30, 30, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	name := filepath.Join(t.TempDir(), "hall.png")
	require.NoError(t, os.WriteFile(name, b.Bytes(), 0o600))
	return name
}

// choose picks a file in a file input, as a person does.
func (p *phone) choose(selector, file string) {
	p.t.Helper()
	p.do(chromedp.SetUploadFiles(selector, []string{file}))
}

// tapPhoto taps the photo at a place in percent, with the pointer.
func (p *phone) tapPhoto(xPct, yPct float64) {
	p.t.Helper()
	p.text(`document.querySelector('svg.wall').scrollIntoView({ block: 'center', behavior: 'instant' })`)
	box := p.numbers(`(() => { const b = document.querySelector('svg.wall').getBoundingClientRect();
		return [b.x, b.y, b.width, b.height].join(' '); })()`)
	p.do(chromedp.MouseClickXY(box[0]+box[2]*xPct/100, box[1]+box[3]*yPct/100))
}

func (p *phone) numbers(expression string) []float64 {
	p.t.Helper()
	var all []float64
	for _, text := range strings.Fields(p.text(expression)) {
		n, err := strconv.ParseFloat(text, 64)
		require.NoError(p.t, err)
		all = append(all, n)
	}
	return all
}

// photoKept is an expression that gives size and type of each photo in the phone's cache.
const photoKept = `(async () => {
	if (!(await caches.has('garlandry.photos'))) return '';
	const cache = await caches.open('garlandry.photos');
	const all = [];
	for (const request of await cache.keys()) {
		const blob = await (await cache.match(request)).blob();
		all.push(blob.size + ' ' + blob.type);
	}
	return all.join('; ');
})()`

// showsPhoto waits until the page has its photo, and checks that its bytes are a picture.
func (p *phone) showsPhoto() {
	p.t.Helper()
	p.until(`document.querySelector('svg.wall image')`)
	wide := p.promised(`fetch(document.querySelector('svg.wall image').getAttribute('href'))
		.then((a) => a.blob()).then(createImageBitmap).then((b) => b.width).catch(String)`)
	assert.Equal(p.t, "1600", wide, "a photo of 2,000 px is made smaller")
	assert.Equal(p.t, "true", p.text(`document.querySelector('[data-photo-missing]').hidden`))
}

// arrived waits until the server has all of the photo on the page, and returns its answer.
func (p *phone) arrived() string {
	p.t.Helper()
	return strings.TrimSpace(p.promised(`(async () => {
		for (;;) {
			const answer = await fetch(document.querySelector('.wall image').getAttribute('href') + '/parts');
			const text = await answer.text();
			if (text.includes('"whole":true')) return text;
			await new Promise((resolve) => setTimeout(resolve, 100));
		}
	})()`))
}

// TestBrowserLaysAPieceOverAPhoto chooses a photo, taps two points and types their distance. What is drawn has the
// photo's scale on the screen. The photo stays on the phone until it is shared, also offline; then the crew sees it.
func TestBrowserLaysAPieceOverAPhoto(t *testing.T) {
	inBrowser(t)
	p, server, at := ownersPhone(t)
	id := strings.TrimPrefix(at, "/jobs/")
	p.open(server.address + at + "/photos")
	p.ready()
	p.choose(`#f-photo`, wallPhoto(t))
	p.until(`/photos\/hall-/.test(location.pathname)`)
	p.showsPhoto()
	page := p.text(`location.pathname`)
	kept := strings.Fields(p.promised(photoKept))
	require.Len(t, kept, 2)
	size, err := strconv.Atoi(kept[0])
	require.NoError(t, err)
	assert.LessOrEqual(t, size, job.MostPhotoBytes)
	assert.Equal(t, "image/webp", kept[1])

	p.tapPhoto(10, 20)
	p.until(`Math.abs(document.querySelector('[name=first_x_pct]').value - 10) < 0.5`) // half a pixel is 0.14
	p.tapPhoto(40, 60)
	p.until(`Math.abs(document.querySelector('[name=second_y_pct]').value - 60) < 0.5`)
	p.fill(`[name=distance_mm]`, "2 m")
	p.until(`document.querySelector('.wall [data-drag=at] circle')`)
	p.text(`document.querySelector('[name=piece]').value = 'door'`)
	p.fill(`[name=distance_mm]`, "2.5 m")
	p.tap(`#edit-photo .foot button`)
	p.sees("Saved hall.")
	onScreenToScale(t, p)

	dragged(t, p)
	p.tap(`#edit-photo .foot button`)
	p.sees("Saved hall.")
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	assert.Equal(t, "404", p.promised(`fetch(document.querySelector('.wall image').getAttribute('href') + '/parts')
		.then((a) => String(a.status))`), "the server has no byte of a photo that is not shared")

	helper := newPhone(t, t.TempDir())
	token, err := store.Invite(server.dir, store.Options{})
	require.NoError(t, err)
	owner := visitor(t, server.address+address.OwnerInvite(token), "")
	helper.join(freshLink(t, owner, server.address, id, "Ines", string(job.Helper)), "Ines")
	helper.until(`location.pathname.startsWith('/jobs/')`)
	helper.ready()
	helper.open(server.address + at + "/photos")
	helper.sees("No photo yet")

	again := sharedOffline(t, p, server, page)
	helper.open(again.address + at + "/photos")
	helper.sees("hall")
	helper.tap(`a[href="` + page + `"]`)
	helper.showsPhoto()
	assert.Equal(t, "null", helper.text(`String(document.querySelector('#edit-photo'))`), "a helper changes nothing")
	assert.Equal(t, p.promised(photoKept), helper.promised(photoKept), "their phone keeps the same bytes")
	p.shot("photo-owner")
	helper.shot("photo-helper")
	removed(t, p, helper, again, at, page)
	ended(t, owner, helper, again.address+at)
}

// ended ends the helper's link. Their phone then keeps no photo.
func ended(t *testing.T, owner *http.Client, helper *phone, job string) {
	t.Helper()
	assert.NotEmpty(t, helper.promised(photoKept))
	answer, err := owner.Get(job + "/share")
	require.NoError(t, err)
	link := document(t, answer).Find(`form[action$="/share/end"] [name=link]`).AttrOr("value", "")
	answer, err = owner.PostForm(job+"/share/end", url.Values{"link": {link}})
	require.NoError(t, err)
	require.NoError(t, answer.Body.Close())
	helper.wake()
	helper.until(`document.body.innerText.includes('ended') || document.body.innerText.includes('access')`)
	helper.text(`window.dispatchEvent(new Event('online'))`)
	assert.Equal(t, "gone", helper.promised(`(async () => {
		while (await caches.has('garlandry.photos')) await new Promise((resolve) => setTimeout(resolve, 100));
		return 'gone';
	})()`), "all of them")
}

// sharedOffline opens the photo without a server, shares it and starts the server again, where it arrives.
func sharedOffline(t *testing.T, p *phone, server *running, page string) *running {
	t.Helper()
	server.stop()
	p.open(server.address + page)
	p.until(`document.querySelector('.wall [data-drag=at] circle')`)
	p.showsPhoto()
	p.tap(`#share-photo button`)
	p.sees("1 photo waits to be sent.")
	again := startServer(t, server.dir, server.host(), false)
	p.wake()
	p.text(`window.dispatchEvent(new Event('online'))`)
	p.arrived()
	p.until(`document.querySelector('[data-photo-waits]')?.hidden`)
	return again
}

// onScreenToScale measures on the screen: the length between the points, and the piece's balloons.
func onScreenToScale(t *testing.T, p *phone) {
	t.Helper()
	points := p.numbers(`[...document.querySelectorAll('.points .point')].map((c) => {
		const b = c.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2].join(' '); }).join(' ')`)
	require.Len(t, points, 4)
	pxPerMM := math.Hypot(points[2]-points[0], points[3]-points[1]) / 2500
	drawn := p.numbers(`(() => { const all = [...document.querySelectorAll('.wall [data-drag=at] circle')].map((c) => {
			const m = c.getScreenCTM(), x = c.cx.baseVal.value * m.a, r = c.r.baseVal.value * m.a;
			return [x - r, x + r]; });
		return Math.max(...all.map(([, b]) => b)) - Math.min(...all.map(([a]) => a)); })()`)
	changes, err := job.DecodeFile(testdata.DemoJob)
	require.NoError(t, err)
	whole := plan.Design(job.Preview(changes))
	at := slices.IndexFunc(whole.Pieces, func(c count.PieceCount) bool { return c.Piece.ID == "door" })
	require.GreaterOrEqual(t, at, 0)
	l := whole.Look(&whole.Pieces[at], view.OnPhoto)
	assert.InEpsilon(t, (l.RightMM-l.LeftMM)*pxPerMM, drawn[0], 0.01, "the piece is as wide as the wall's scale says")
}

// dragged moves the piece with a finger and looks for it in the numbers and on the screen.
func dragged(t *testing.T, p *phone) {
	t.Helper()
	p.text(`document.querySelector('svg.wall').scrollIntoView({ block: 'center', behavior: 'instant' })`)
	// a balloon near the middle of the photo, not below a point
	const balloon = `(() => { const w = document.querySelector('svg.wall').getBoundingClientRect();
		const c = [...document.querySelectorAll('.wall [data-drag=at] circle')].find((c) => {
			const b = c.getBoundingClientRect(), x = b.x + b.width / 2, y = b.y + b.height / 2;
			return x > w.x + 30 && x < w.right - 80 && document.elementFromPoint(x, y)?.closest('[data-drag=at]'); });
		window.seen = [...document.querySelectorAll('.wall [data-drag=at] circle')].indexOf(c);
		const b = c.getBoundingClientRect();
		return [b.x + b.width / 2, b.y + b.height / 2, w.width, w.height].join(' '); })()`
	const foot = `['x', 'y'].map((axis) => document.querySelector('[name=at_' + axis + '_pct]').value).join(' ')`
	from := p.numbers(balloon)
	was := p.numbers(foot)
	p.do(touch(input.DispatchTouchEventTypeTouchStart, from[0], from[1]))
	for n := 1.0; n <= 8; n++ { // slow enough for the browser to want to scroll
		p.do(touch(input.DispatchTouchEventTypeTouchMove, from[0]+5*n, from[1]-30*n/8))
	}
	p.do(touch(input.DispatchTouchEventTypeTouchEnd))
	p.until(`document.querySelector('[name=at_x_pct]').value !== '` + strconv.FormatFloat(was[0], 'f', -1, 64) + `'`)
	is := p.numbers(foot)
	assert.InDelta(t, was[0]+100*40/from[2], is[0], 0.2)
	assert.InDelta(t, was[1]-100*30/from[3], is[1], 0.2)
	p.until(`!document.querySelector('.wall [data-drag=at]').hasAttribute('transform')`)
	moved := p.numbers(`(() => { const b = document.querySelectorAll('.wall [data-drag=at] circle')[window.seen]
		.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2].join(' '); })()`)
	assert.InDelta(t, from[0]+40, moved[0], 1.5)
	assert.InDelta(t, from[1]-30, moved[1], 1.5)
}

// touch is a finger that comes down, moves or leaves.
func touch(kind input.DispatchTouchEventType, at ...float64) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		points := []*input.TouchPoint{}
		if len(at) == 2 {
			points = append(points, &input.TouchPoint{X: at[0], Y: at[1]})
		}
		_, err := cdp.Call(ctx, t, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
		return err
	})
}

// removed removes the photo, takes that back, and removes it for good. Signing out leaves no photo on the phone.
func removed(t *testing.T, p, helper *phone, server *running, at, page string) {
	t.Helper()
	p.tap(`#remove-photo button`)
	p.sees("Removed hall.")
	p.tap(`#flash form button`)
	p.until(`document.querySelector('a[href="` + page + `"]')`)
	p.open(server.address + page)
	p.showsPhoto()
	p.tap(`#remove-photo button`)
	p.sees("Removed hall.")
	p.until(`document.querySelector('#state').innerText.includes('hared')`)
	helper.open(server.address + at + "/photos")
	helper.sees("No photo yet")
	assert.NotEmpty(t, p.promised(photoKept), "for who restores it")
	p.open(server.address + "/phone/out")
	p.tap(`#page form button[type=submit]`)
	p.until(`location.pathname === '/out'`)
	assert.Empty(t, p.promised(photoKept))
}

// TestBrowserStripsAPhoto takes a photo in a browser that makes no WebP and writes Exif into its JPEGs. The server
// takes none with metadata, so it arrives only if the phone has taken that out.
func TestBrowserStripsAPhoto(t *testing.T) {
	inBrowser(t)
	p, server, at := ownersPhone(t)
	p.open(server.address + at + "/photos")
	p.ready()
	p.text(`void (() => {
		const own = HTMLCanvasElement.prototype.toBlob;
		HTMLCanvasElement.prototype.toBlob = function (done, type, quality) {
			if (type !== 'image/jpeg') return own.call(this, done, 'image/png');
			own.call(this, async (blob) => {
				const bytes = new Uint8Array(await blob.arrayBuffer());
				const exif = new Uint8Array([255, 225, 0, 12, 69, 120, 105, 102, 0, 0, 104, 101, 114, 101]);
				window.exif = new Blob([bytes.subarray(0, 2), exif, bytes.subarray(2)], { type });
				done(window.exif);
			}, type, quality);
		};
	})()`)
	p.choose(`#f-photo`, wallPhoto(t))
	p.until(`/photos\/hall-/.test(location.pathname)`)
	p.showsPhoto()
	kept, kind, _ := strings.Cut(p.promised(photoKept), " ")
	assert.Equal(t, "image/jpeg", kind)
	p.tap(`#share-photo button`)
	assert.Equal(t, `{"have":`+kept+`,"whole":true}`, p.arrived(), "the server checks that it has no metadata")
	assert.LessOrEqual(t, p.numbers(`String(window.exif.size - ` + kept + `)`)[0], 1000.0, "and nothing else was lost")
}
